"""From a ratio in liquid nitrogen or helium to the residual resistivity."""

from collections.abc import Mapping
from dataclasses import replace
from math import sqrt as plain_sqrt

from strandproof.electrical.given_inputs import given_inputs
from strandproof.electrical.residual.copper_fit import (
    ICE_K,
    ROOM_K,
    TABLE,
    deviation_nohm_m,
    package_copper_fit,
    phonon_resistivity_nohm_m,
)
from strandproof.errors import ParameterError, UnitError
from strandproof.quantity import (
    Input,
    Interval,
    ModelNumber,
    Quantity,
    expanded_interval,
    normal_input,
    propagate_several,
    sqrt,
)
from strandproof.records import Flag
from strandproof.records.electrical import (
    Bath,
    ColdRatioReading,
    ColdReference,
    ResidualResult,
)
from strandproof.tables import package_table, table_value

# A ratio so far beyond that of perfect copper is an error; less may be the models'.
_BEYOND_PERFECT = 1.2
_STEPS = 5  # of Newton's method; three give the value, one more its sensitivities
_ONE_SIDED = 0.90  # both ends of this two-sided interval are one-sided 95 % bounds
_BATHS_K: Mapping[Bath, tuple[float, float]] = {
    "nitrogen": (70.0, 85.0),
    "helium": (1.2, 5.2),
}

Values = Mapping[str, ModelNumber]


def residual_from_cold_ratio(reading: ColdRatioReading) -> ResidualResult:
    """Residual resistivity from a ratio of room to bath, without geometry.

    Assumes copper, one free piece read at both temperatures, and no strain from
    cooling or handling. A reference wire in the same bath takes the temperature
    of the bath, and with it the air pressure, out of the result.

    Parameters
    ----------
    reading : ColdRatioReading
        Ratio, temperatures, with or without a reference wire.

    Returns
    -------
    ResidualResult
        Residual resistivity with budget; residual ratio, open at its upper end
        where the residual resistivity cannot be told from zero.

    Raises
    ------
    UnitError
        If a unit does not fit.
    ParameterError
        If a number is out of range, or a ratio is one that copper cannot have.

    Notes
    -----
    Q = q/(1 - contraction) = rho(room)/rho(bath), each the sum of phonon part,
    residual part x and the fit's deviation term. The phonon part in the bath
    follows from the bath's temperature, or from the reference: with
    N = rho_ref(room)/Q_ref it is the root of
    y^2 + (2 x_ref + P7 x_ref - N) y + x_ref^2 - N x_ref = 0. x is then the root of
    Q rho(bath, x) - rho(room, x) = 0.
    """
    inputs = _inputs(reading)
    with_reference = reading.reference is not None

    def results(**values: ModelNumber) -> dict[str, ModelNumber]:
        return _results(values, with_reference=with_reference)

    _require_possible(reading, inputs)
    joint = propagate_several(
        results,
        inputs,
        units={"residual": "nohm m", "share_273": "1", "share_293": "1"},
    ).quantities
    found = joint["residual"]
    interval = expanded_interval(found)
    one_sided = expanded_interval(found, _ONE_SIDED)
    return ResidualResult(
        bath=reading.bath,
        residual_resistivity=found,
        interval=interval,
        at_most_nohm_m=max(_end(one_sided.upper), 0.0),
        ratio_273=_turned_over(joint["share_273"]),
        ratio_293=_turned_over(joint["share_293"]),
        best_ratio_273=_reciprocal(joint["share_273"].value),
        flags=_flags(reading, interval),
    )


def bath_temperature(bath: Bath, *, pressure_hpa: float, spread_hpa: float) -> Input:
    """Temperature of a boiling bath from the air pressure.

    Parameters
    ----------
    bath : {"nitrogen", "helium"}
        Which liquid; helium's pressure is not used, its phonon part is nothing.
    pressure_hpa : float
        Air pressure at the bath, not reduced to sea level [hPa]; 600 to 1100.
    spread_hpa : float
        Its standard uncertainty [hPa].

    Returns
    -------
    Input
        Temperature [K], for pure liquid at its surface.

    Raises
    ------
    ParameterError
        If the pressure is out of range.

    Notes
    -----
    Nitrogen: 77.355 K + 0.0083 K/hPa (p - 1013.25 hPa), from memory; 0.05 K more
    for depth and air dissolved in the liquid (judgement).

    Examples
    --------
    >>> round(bath_temperature("nitrogen", pressure_hpa=970.0, spread_hpa=2.0)
    ...     .estimate, 2)
    77.0
    """
    if not 600.0 <= pressure_hpa <= 1100.0:
        raise ParameterError("pressure_hpa", pressure_hpa, allowed="600 to 1100 hPa")
    table = package_table(TABLE)
    if bath == "helium":
        boiling = table_value(table, "helium.boiling_point")
        return normal_input("temperature of the bath", boiling, 0.05, unit="K")
    slope = table_value(table, "nitrogen.slope")
    return normal_input(
        "temperature of the bath",
        table_value(table, "nitrogen.boiling_point") + slope * (pressure_hpa - 1013.25),
        plain_sqrt((slope * spread_hpa) ** 2 + 0.05**2),
        unit="K",
    )


def _results(values: Values, *, with_reference: bool) -> dict[str, ModelNumber]:
    residual = _residual(values, with_reference=with_reference)
    found = {"residual": residual}
    # What the scale of the resistivity is leaves these two untouched.
    for name, kelvin in (("share_273", ICE_K), ("share_293", ROOM_K)):
        lattice = values["room_phonon"] * phonon_resistivity_nohm_m(kelvin)
        whole = residual + deviation_nohm_m(lattice, residual, values["deviation"])
        found[name] = residual / (lattice + whole)
    return found


def _residual(values: Values, *, with_reference: bool) -> ModelNumber:
    free = 1.0 - values["contraction"]
    warm = values["room_phonon"] * phonon_resistivity_nohm_m(ROOM_K)
    room = warm + _slope() * (values["room_c"] - 20.0)
    cold = (
        _bath_phonon_by_reference(values, room, free)
        if with_reference
        else values["bath_phonon"] * phonon_resistivity_nohm_m(values["bath_k"])
    )
    return _root(values["ratio"] / free, room, cold, values["deviation"])


def _root(
    ratio: ModelNumber, room: ModelNumber, cold: ModelNumber, factor: ModelNumber
) -> ModelNumber:
    residual = (room - ratio * cold) / (ratio - 1.0)
    for _ in range(_STEPS):
        excess = ratio * (
            cold + residual + deviation_nohm_m(cold, residual, factor)
        ) - (room + residual + deviation_nohm_m(room, residual, factor))
        slope = ratio * _slope_of_sum(cold, residual, factor) - _slope_of_sum(
            room, residual, factor
        )
        residual -= excess / slope
    return residual


def _slope_of_sum(
    phonon: ModelNumber, residual: ModelNumber, factor: ModelNumber
) -> ModelNumber:
    share = phonon / (phonon + residual)
    return 1.0 + factor * share * share


def _bath_phonon_by_reference(
    values: Values, room: ModelNumber, free: ModelNumber
) -> ModelNumber:
    factor = values["deviation"]
    known = _residual_of_reference(values)
    whole = room + known + deviation_nohm_m(room, known, factor)
    bath = whole * free / values["reference_ratio"]
    half = 0.5 * (bath - 2.0 * known - factor * known)
    return half + sqrt(half * half + (bath - known) * known)


def _residual_of_reference(values: Values) -> ModelNumber:
    # The fit's own 15.53/RRR is up to a few per cent off the ratio that it gives.
    ice = phonon_resistivity_nohm_m(ICE_K)
    return _root(values["reference_residual_ratio"], ice, 0.0, values["deviation"])


def _inputs(reading: ColdRatioReading) -> tuple[Input, ...]:
    given = given_inputs(
        ratio=("ratio", reading.ratio),
        room_c=("temperature", reading.room_temperature),
    ).inputs
    return (
        *given,
        _tabled("contraction", f"contraction.{reading.bath}", "shortening on cooling"),
        _spread("room_phonon", "phonon.room.spread", "phonon part at 20 degC"),
        _deviation(),
        *_inputs_of_bath(reading),
    )


def _inputs_of_bath(reading: ColdRatioReading) -> tuple[Input, ...]:
    if reading.reference is not None:
        return given_inputs(
            reference_ratio=("ratio", reading.reference.ratio),
            reference_residual_ratio=("ratio", reading.reference.residual_ratio),
        ).inputs
    return (
        _bath_input(reading),
        _spread("bath_phonon", "phonon.nitrogen.spread", "phonon part in the bath"),
    )


def _bath_input(reading: ColdRatioReading) -> Input:
    one = reading.bath_temperature
    if one.unit != "K":
        raise UnitError(one.unit, expected="K")
    coldest, hottest = _BATHS_K[reading.bath]
    if not coldest <= one.estimate <= hottest:
        raise ParameterError(
            "bath_temperature",
            one.estimate,
            allowed=f"{coldest:g} to {hottest:g} K in liquid {reading.bath}",
        )
    return replace(one, symbol="bath_k")


def _tabled(symbol: str, key: str, name: str) -> Input:
    table = package_table(TABLE)
    return normal_input(
        name,
        0.01 * table_value(table, key),
        0.01 * table_value(table, "contraction.spread"),
        unit="1",
        symbol=symbol,
    )


def _spread(symbol: str, key: str, name: str) -> Input:
    spread = 0.01 * table_value(package_table(TABLE), key)
    return normal_input(name, 1.0, spread, unit="1", symbol=symbol)


def _deviation() -> Input:
    p7 = package_copper_fit().p7
    spread = 0.01 * table_value(package_table(TABLE), "deviation.spread")
    name = "deviation from Matthiessen's rule"
    return normal_input(name, p7, spread * p7, unit="1", symbol="deviation")


def _require_possible(reading: ColdRatioReading, inputs: tuple[Input, ...]) -> None:
    values = {one.symbol: one.estimate for one in inputs}
    room = float(phonon_resistivity_nohm_m(ROOM_K))
    if reading.reference is not None:
        _require_reference(reading.reference, values)
        free = 1.0 - values["contraction"]
        cold = float(_bath_phonon_by_reference(values, room, free))
    else:
        cold = float(phonon_resistivity_nohm_m(values["bath_k"]))
    if not 1.0 < values["ratio"] < _BEYOND_PERFECT * room / cold:
        raise ParameterError(
            reading.ratio.name,
            values["ratio"],
            allowed=f"above 1 and at most about {room / cold:.3g}, where perfect "
            f"copper ends in liquid {reading.bath}",
            remedy="Divide the resistance at room temperature by that in the bath; "
            "check contacts, thermal voltages and that the whole piece was covered.",
        )


def _require_reference(reference: ColdReference, values: Values) -> None:
    stated = values["reference_residual_ratio"]
    if not (stated > 1.0 and 1.0 < values["reference_ratio"] < 1.1 * stated):
        raise ParameterError(
            reference.ratio.name,
            values["reference_ratio"],
            allowed="a ratio that a wire of the stated residual ratio, "
            f"{stated:g}, can have",
            remedy="Check which of the two ratios of the reference is which.",
        )


def _turned_over(share: Quantity) -> Interval:
    ends = expanded_interval(share)
    return Interval(
        lower=_reciprocal(_end(ends.upper)),
        upper=_reciprocal(_end(ends.lower)),
        unit="1",
        confidence=ends.confidence,
        method="ends of the residual share of the resistivity, turned over",
    )


def _reciprocal(share: float) -> float | None:
    return 1.0 / share if share > 0 else None


def _flags(reading: ColdRatioReading, interval: Interval) -> tuple[Flag, ...]:
    flags = []
    if reading.reference is None and reading.bath == "nitrogen":
        flags.append(Flag("no_reference_wire", "temperature of the bath from pressure"))
    if not _end(interval.lower) > 0:
        flags.append(Flag("residual_not_resolved", "the interval holds zero"))
    return tuple(flags)


def _end(limit: float | None) -> float:
    return 0.0 if limit is None else limit


def _slope() -> float:
    return table_value(package_table(TABLE), "slope.near_20c")
