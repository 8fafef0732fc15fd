"""Four-wire readings at several currents: thermal voltages out, heat extrapolated."""

from collections.abc import Mapping
from math import fsum

import numpy as np
from scipy import stats

from strandproof.electrical.copper_standard import package_copper_standard
from strandproof.electrical.given_inputs import given_inputs
from strandproof.electrical.series_model import (
    CurrentGroup,
    FloatArray,
    SeriesModel,
    series_model,
)
from strandproof.electrical.temperature import fixed_coefficient, required_temperature
from strandproof.errors import HotWireError
from strandproof.quantity import Input, ModelNumber, Quantity, propagate
from strandproof.records import Flag
from strandproof.records.electrical import (
    CurrentPoint,
    FourWireSeries,
    SeriesResult,
)

# Judgement of this project. Where the rise goes with the power, the straight line in
# I^2 leaves out (alpha rise)^2: 0.04 % of the resistance at 5 K.
HIGHEST_RISE_K = 5.0
_BENT = 0.01  # probability below which a straight line is doubted
_DEVIATIONS = 2.0
_FEW = 5  # spare pairs, by the coverage that benchmarks/resistance_coverage.py prints


def evaluate_series(
    series: FourWireSeries, *, temperature: Input | None
) -> SeriesResult:
    """Resistance of a wire at zero current, from readings with current reversal.

    Assumes that thermal voltages stay the same between the two readings of a pair,
    that the wire is in balance with its surroundings at each current and loses heat
    in proportion to its rise, and that the errors of one range of a meter are the
    same for all readings on it.

    Parameters
    ----------
    series : FourWireSeries
        The raw readings.
    temperature : Input or None
        Temperature of the wire as stated [degC]; the rise is held against its
        uncertainty.

    Returns
    -------
    SeriesResult
        Resistance and thermal voltage at each current, resistance at zero current
        with its budget, rise, flags.

    Raises
    ------
    MissingMeasurementError
        If there is no temperature.
    HotWireError
        If the current warmed the wire by more than 5 K.
    UnitError
        If a unit does not fit.
    ParameterError
        If a reading is out of range.

    Notes
    -----
    R = (V+ - V-)/(2 I), thermal voltage (V+ + V-)/2 (from memory). The noise of a
    voltmeter is the same at every current, so pairs weigh I^2. R(I) = R0 + c I^2 by
    weighted least squares; rise c I^2/(R0 alpha_T). With one current only nothing is
    extrapolated, and a flag says so.

    Examples
    --------
    >>> from strandproof.quantity import normal_input
    >>> from strandproof.records.electrical import MeterRange, ReversalPair
    >>> found = evaluate_series(
    ...     FourWireSeries(
    ...         pairs=(
    ...             ReversalPair(current=50.0, forward=86.481, reverse=-86.479),
    ...             ReversalPair(current=100.0, forward=172.985, reverse=-172.983),
    ...         ),
    ...         reads="voltage",
    ...         unit="mV",
    ...         current_unit="mA",
    ...         meter=(MeterRange(name="V", unit="mV", percent_of_reading=0.01),),
    ...         ammeter=(MeterRange(name="A", unit="mA", percent_of_reading=0.02),),
    ...     ),
    ...     temperature=normal_input("temperature", 23.8, 0.2, unit="degC"),
    ... )
    >>> round(found.resistance.value, 5), found.flags[0].name
    (1.72952, 'scatter_not_shown')
    """
    warm = required_temperature(temperature)
    model = series_model(series)
    resistance = _weighted(model, model.intercept_weights)
    rise = _rise(model, warm, resistance) if model.extrapolated else None
    if rise is not None and rise.value > HIGHEST_RISE_K:
        raise HotWireError(rise.value, HIGHEST_RISE_K)
    return SeriesResult(
        points=tuple(_point(model, place) for place in range(len(model.groups))),
        resistance=resistance,
        extrapolated=model.extrapolated,
        rise_k=rise,
        scatter_v=model.scatter_v,
        thermal_drift_v_per_min=_drift(model.groups),
        flags=_flags(model, rise, warm),
    )


def _weighted(model: SeriesModel, weights: FloatArray) -> Quantity:
    given = given_inputs(**model.inputs(weights))
    return propagate(given.model(model.weighted(weights)), given.inputs, unit="ohm")


def _point(model: SeriesModel, place: int) -> CurrentPoint:
    group = model.groups[place]
    own = np.zeros(len(model.groups))
    own[place] = 1.0
    return CurrentPoint(
        current_a=group.current_a,
        pairs=len(group.resistances_ohm),
        resistance=_weighted(model, own),
        thermal_voltage_v=fsum(group.thermal_voltages_v) / len(group.resistances_ohm),
        power_w=group.current_a**2 * group.mean_ohm,
    )


def _rise(model: SeriesModel, temperature: Input, resistance: Quantity) -> Quantity:
    weights = model.slope_weights
    given = given_inputs(
        **model.inputs(weights),
        temperature=("temperature", temperature),
        coefficient=("coefficient", fixed_coefficient(package_copper_standard())),
    )
    slope = model.weighted(weights)
    square = model.groups[-1].current_a ** 2

    def rise(values: Mapping[str, ModelNumber]) -> ModelNumber:
        warmth = 1.0 + values["coefficient"] * (values["temperature"] - 20.0)
        share = slope(values) * square / resistance.value
        return share * warmth / values["coefficient"]

    return propagate(given.model(rise), given.inputs, unit="K")


def _drift(groups: tuple[CurrentGroup, ...]) -> float | None:
    """Slope of the thermal voltage against time [V/min]."""
    places = [
        (seconds / 60.0, volt)
        for each in groups
        for seconds, volt in zip(each.seconds, each.thermal_voltages_v, strict=True)
        if seconds is not None
    ]
    if len({minutes for minutes, _ in places}) < 2:
        return None
    minutes, volts = np.array(places).T
    return float(np.polyfit(minutes, volts, 1)[0])


def _flags(
    model: SeriesModel, rise: Quantity | None, temperature: Input
) -> tuple[Flag, ...]:
    flags = []
    if model.spare_pairs < 1:
        flags.append(Flag("scatter_not_shown", f"{_pairs(model)} in all"))
    elif model.spare_pairs < _FEW:
        flags.append(Flag("few_readings", f"{_pairs(model)} in all"))
    if rise is None:
        only = f"{model.groups[0].current_a:g} A"
        flags.append(Flag("one_current_only", only))
    else:
        flags += _flags_of_rise(model, rise, temperature)
    if _bent(model):
        flags.append(Flag("not_straight_in_squared_current"))
    return tuple(flags)


def _flags_of_rise(
    model: SeriesModel, rise: Quantity, temperature: Input
) -> tuple[Flag, ...]:
    flags = []
    if rise.value > temperature.standard_uncertainty:
        detail = f"{rise.value:.2g} K at {model.groups[-1].current_a:g} A"
        flags.append(Flag("self_heating", detail))
    if rise.value < -_DEVIATIONS * rise.standard_uncertainty:
        flags.append(Flag("resistance_falls_with_current", f"{rise.value:.2g} K"))
    return tuple(flags)


def _bent(model: SeriesModel) -> bool:
    """Whether groups lie further off the line than pairs scatter within them."""
    groups = model.groups
    pairs = _count(model)
    bends, within = len(groups) - 2, pairs - len(groups)
    if not model.extrapolated or bends < 1 or within < 2:
        return False
    means = np.array([each.mean_ohm for each in groups])
    currents = np.array([each.current_a for each in groups])
    counts = np.array([len(each.resistances_ohm) for each in groups])
    line = model.intercept_weights @ means
    line = line + (model.slope_weights @ means) * currents**2
    between = float((counts * (currents * (means - line)) ** 2).sum()) / bends
    inside = fsum(
        (each.current_a * (ohm - each.mean_ohm)) ** 2
        for each in groups
        for ohm in each.resistances_ohm
    )
    # Digits that never flicker show no scatter; the last digit stands in for it.
    floor = fsum(each.digit_v**2 for each in groups) / len(groups) / 24.0
    ratio = between / max(inside / within, floor, np.finfo(np.float64).tiny)
    return float(stats.f.sf(ratio, bends, within)) < _BENT


def _count(model: SeriesModel) -> int:
    return sum(len(each.resistances_ohm) for each in model.groups)


def _pairs(model: SeriesModel) -> str:
    pairs = _count(model)
    return "1 pair" if pairs == 1 else f"{pairs} pairs"
