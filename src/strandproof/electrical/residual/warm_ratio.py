"""From a ratio near room temperature to the temperature coefficient and % IACS."""

from collections.abc import Mapping
from dataclasses import replace

import numpy as np

from strandproof.electrical.band import band_flags, judge_band
from strandproof.electrical.copper_standard import package_copper_standard
from strandproof.electrical.given_inputs import given_inputs
from strandproof.electrical.residual.copper_fit import TABLE
from strandproof.errors import ParameterError, UnitError
from strandproof.quantity import (
    Agreement,
    Input,
    Model,
    ModelNumber,
    Quantity,
    expanded_interval,
    format_plus_minus,
    monte_carlo,
    normal_input,
    propagate_several,
)
from strandproof.records import Flag
from strandproof.records.electrical import (
    WarmRatioReading,
    WarmRatioResult,
    WarmReference,
)
from strandproof.tables import package_table, table_value

_SMALLEST_STEP_K = 20.0
_SMALLEST_RISE = 0.002  # of the ratio for each kelvin; copper has about 0.004
_DRAWS = 200_000

Values = Mapping[str, ModelNumber]


def conductivity_from_warm_ratio(
    reading: WarmRatioReading, *, generator: np.random.Generator | None = None
) -> WarmRatioResult:
    """Conductivity from the ratio of resistances at two temperatures.

    Assumes that what lowers the conductivity adds the same resistivity at both
    temperatures (Matthiessen), that the piece is free to expand, and copper: a
    metal of another slope gives a number without meaning. Length, mass and
    diameter do not enter, but the result is weak: without a reference wire the
    slope alone brings about 1 % (two standard uncertainties).

    Parameters
    ----------
    reading : WarmRatioReading
        Ratio and temperatures, from 20 K apart; with or without a reference wire.
    generator : numpy.random.Generator, optional
        Source of randomness for a second opinion by Monte Carlo.

    Returns
    -------
    WarmRatioResult
        Temperature coefficient, per cent IACS with budget, band, flags.

    Raises
    ------
    UnitError
        If a unit does not fit.
    ParameterError
        If the temperatures are less than 20 K apart, or the ratio does not rise.

    Notes
    -----
    With t = T - 20 degC, expansion e and slope s of the resistivity, the same for
    every copper (NBS Bulletin 7(1), 1911: contents page read):
    c = q (1 + e t2)/(1 + e t1), rho20 = s (t2 - c t1)/(c - 1); per cent IACS is
    100/58 ohm mm2/m over rho20; alpha20 at constant mass is s/rho20 - e. A
    reference of known rho20 gives s by the same equation, so that the errors of
    both temperatures nearly cancel.
    """
    reference = reading.reference
    inputs = _inputs(reading)
    _require_step(reading)
    joint = propagate_several(
        _model(with_reference=reference is not None),
        inputs,
        units={"percent_iacs": "% IACS", "coefficient": "1/K"},
    ).quantities
    iacs = joint["percent_iacs"]
    interval = expanded_interval(iacs)
    band = judge_band(iacs, interval=interval)
    weight = _weight_percent(reading, iacs.value)
    return WarmRatioResult(
        temperature_coefficient=joint["coefficient"],
        percent_iacs=iacs,
        interval=interval,
        band=band,
        ratio_percent_per_percent_iacs=weight,
        second_opinion=_second_opinion(reading, inputs, iacs, generator),
        flags=(*_reference_flags(reference), *band_flags(iacs, band)),
        sentence=_sentence(iacs, interval.half_width or 0.0, weight),
    )


def warm_ratio_of(
    percent_iacs: float, *, lower_c: float = 20.0, upper_c: float = 100.0
) -> float:
    """Ratio of resistances that a free copper wire of a conductivity has.

    Parameters
    ----------
    percent_iacs : float
        Conductivity at 20 degC [% IACS]; above zero.
    lower_c, upper_c : float
        Temperatures [degC].

    Returns
    -------
    float
        Resistance at the upper over that at the lower temperature.

    Raises
    ------
    ParameterError
        If the conductivity is not above zero.

    Examples
    --------
    >>> round(warm_ratio_of(100.0), 4), round(warm_ratio_of(102.0), 4)
    (1.3142, 1.3205)
    """
    if not percent_iacs > 0:
        raise ParameterError("percent_iacs", percent_iacs, allowed="a number above 0")
    rho = 100.0 * _standard_nohm_m() / percent_iacs
    slope, expansion = _slope(), _expansion()
    ends = [
        (rho + slope * (at - 20.0)) / (1.0 + expansion * (at - 20.0))
        for at in (lower_c, upper_c)
    ]
    return ends[1] / ends[0]


def _model(*, with_reference: bool) -> Model:
    def in_base_units(**values: ModelNumber) -> dict[str, ModelNumber]:
        slope = _slope_by_reference(values) if with_reference else values["slope"]
        rho = slope * _run_over_rise(values, values["ratio"])
        return {
            "percent_iacs": 100.0 * _standard_nohm_m() / rho,
            "coefficient": slope / rho - values["expansion"],
        }

    return in_base_units


def _slope_by_reference(values: Values) -> ModelNumber:
    rho = 100.0 * _standard_nohm_m() / values["reference_iacs"]
    return values["likeness"] * rho / _run_over_rise(values, values["reference_ratio"])


def _run_over_rise(values: Values, ratio: ModelNumber) -> ModelNumber:
    # Resistivity at 20 degC over its slope [K].
    low, high = values["lower_c"] - 20.0, values["upper_c"] - 20.0
    expansion = values["expansion"]
    at_volume = ratio * (1.0 + expansion * high) / (1.0 + expansion * low)
    return (high - at_volume * low) / (at_volume - 1.0)


def _inputs(reading: WarmRatioReading) -> tuple[Input, ...]:
    given = given_inputs(
        ratio=("ratio", reading.ratio),
        lower_c=("temperature", reading.lower_temperature),
        upper_c=("temperature", reading.upper_temperature),
    ).inputs
    expansion = normal_input(
        "linear expansion",
        _expansion(),
        0.03 * _expansion(),
        unit="1/K",
        symbol="expansion",
    )
    return (*given, expansion, *_inputs_of_slope(reading.reference))


def _inputs_of_slope(reference: WarmReference | None) -> tuple[Input, ...]:
    table = package_table(TABLE)
    if reference is None:
        spread = 0.01 * table_value(table, "slope.spread")
        return (
            normal_input(
                "slope of copper's resistivity",
                _slope(),
                spread * _slope(),
                unit="nohm m/K",
                symbol="slope",
            ),
        )
    if reference.percent_iacs.unit != "% IACS":
        raise UnitError(reference.percent_iacs.unit, expected="% IACS")
    ratio = given_inputs(reference_ratio=("ratio", reference.ratio)).inputs
    likeness = normal_input(
        "equality of the two slopes",
        1.0,
        0.01 * table_value(table, "slope.likeness"),
        unit="1",
        symbol="likeness",
    )
    known = replace(reference.percent_iacs, symbol="reference_iacs")
    return (*ratio, known, likeness)


def _require_step(reading: WarmRatioReading) -> None:
    low, high = reading.lower_temperature.estimate, reading.upper_temperature.estimate
    if not high - low >= _SMALLEST_STEP_K:
        raise ParameterError(
            "upper_temperature",
            high,
            allowed=f"{_SMALLEST_STEP_K:g} K or more above the lower one, {low:g} degC",
            remedy="A smaller step leaves a rise too small to tell coppers apart.",
        )
    ratios = [reading.ratio]
    if reading.reference is not None:
        ratios.append(reading.reference.ratio)
    for one in ratios:
        least = 1.0 + _SMALLEST_RISE * (high - low)
        if not one.estimate > least:
            raise ParameterError(
                one.name,
                one.estimate,
                allowed=f"above {least:.3f}: copper rises about 0.4 % for each kelvin",
                remedy="Divide the resistance at the upper temperature by that at "
                "the lower one; another metal cannot be judged in this way.",
            )


def _second_opinion(
    reading: WarmRatioReading,
    inputs: tuple[Input, ...],
    iacs: Quantity,
    generator: np.random.Generator | None,
) -> Agreement | None:
    if generator is None:
        return None
    model = _model(with_reference=reading.reference is not None)

    def percent(**values: ModelNumber) -> ModelNumber:
        return model(**values)["percent_iacs"]

    drawn = monte_carlo(
        percent, inputs, unit="% IACS", draws=_DRAWS, generator=generator
    )
    # One digit of the uncertainty is all that a result this weak deserves.
    return drawn.agreement_with(iacs, significant_digits=1)


def _weight_percent(reading: WarmRatioReading, percent_iacs: float) -> float:
    ends = [
        warm_ratio_of(
            iacs,
            lower_c=reading.lower_temperature.estimate,
            upper_c=reading.upper_temperature.estimate,
        )
        for iacs in (percent_iacs - 0.5, percent_iacs + 0.5)
    ]
    return 100.0 * (ends[1] / ends[0] - 1.0)


def _reference_flags(reference: WarmReference | None) -> tuple[Flag, ...]:
    if reference is not None:
        return ()
    return (Flag("no_reference_wire", "slope of copper's resistivity from a table"),)


def _sentence(iacs: Quantity, half_width: float, weight: float) -> str:
    shown = format_plus_minus(iacs.value, half_width, unit=iacs.unit)
    return (
        f"{shown} (95 %) without length, mass or diameter. This is weak: 1 % IACS "
        f"moves the ratio by {weight:.2f} % only. It cannot tell four nines from six, "
        "crystals, casting route or oxygen."
    )


def _standard_nohm_m() -> float:
    return 1e9 * package_copper_standard().volume_resistivity_ohm_m


def _slope() -> float:
    return table_value(package_table(TABLE), "slope.near_20c")


def _expansion() -> float:
    return table_value(package_table("conductor_standards"), "iacs.linear_expansion")
