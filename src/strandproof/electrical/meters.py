"""A meter's specification, "reading + range", as inputs that readings share.

The error of one range is one error: it does not average out over readings, however
many. So every range brings two inputs, a share of the reading and a fixed amount,
and each is used by all readings on that range.
"""

from collections.abc import Iterable

from strandproof.electrical.given_inputs import Kind, factor_to_base_unit
from strandproof.errors import ParameterError
from strandproof.quantity import Input, Quantity, normal_input, rectangular_input
from strandproof.records.electrical import MeterRange

_NORMAL_FACTOR = 2.0  # a 95 % statement of a data sheet is taken as two deviations


def meter_uncertainty(reading: float, meter: MeterRange) -> Quantity:
    """Return a reading with the standard uncertainty of the meter's specification.

    Parameters
    ----------
    reading : float
        The reading, in the meter's unit.
    meter : MeterRange
        Range it was read on.

    Returns
    -------
    Quantity
        The reading with its standard uncertainty.

    Raises
    ------
    ParameterError
        If the reading exceeds the full scale.

    Notes
    -----
    Two independent parts, each with limits a: u = a/sqrt(3) (GUM 4.3.7), or a/2
    for a 95 % statement. Limits that a maker adds up are wider than both together;
    taking them as two errors follows the two causes, scale and zero.

    Examples
    --------
    >>> ohms = MeterRange(
    ...     name="10 ohm range",
    ...     unit="ohm",
    ...     percent_of_reading=0.01,
    ...     percent_of_range=0.005,
    ...     full_scale=10.0,
    ... )
    >>> round(meter_uncertainty(1.7296, ohms).standard_uncertainty, 6)
    0.000305
    """
    require_on_scale(abs(reading), meter, meter.unit)
    gain, fixed = (
        one.standard_uncertainty for one in meter_errors(meter, prefix="meter").values()
    )
    own = (0.01 * gain * reading) ** 2 + fixed**2
    return Quantity(reading, meter.unit, float(own**0.5))


def meter_errors(meter: MeterRange, *, prefix: str) -> dict[str, Input]:
    """Return inputs for the errors of one range, each zero with its uncertainty.

    Parameters
    ----------
    meter : MeterRange
        The range.
    prefix : str
        Beginning of the symbols.

    Returns
    -------
    dict of str to Input
        ``prefix_gain`` [%] and ``prefix_fixed`` [unit of the meter].
    """
    return {
        f"{prefix}_{part}": _error(
            meter, f"{meter.name}, {words}", limit, unit=unit, symbol=f"{prefix}_{part}"
        )
        for part, words, limit, unit in (
            ("gain", "share of reading", meter.percent_of_reading, "%"),
            ("fixed", "share of range", meter.range_part, meter.unit),
        )
    }


def require_on_scale(reading: float, meter: MeterRange, unit: str) -> None:
    """Refuse a reading beyond the full scale of its range.

    Parameters
    ----------
    reading : float
        Size of the reading, in `unit`.
    meter : MeterRange
        Its range; without a full scale nothing is checked.
    unit : str
        Unit of the reading.

    Raises
    ------
    ParameterError
        If the reading is above 1.2 times the full scale.
    UnitError
        If the meter reads another kind of quantity.
    """
    kind = kind_of_meter(meter.unit)
    own = factor_to_base_unit(kind, meter.unit)
    # Many meters show up to a fifth more than the range is called.
    if meter.full_scale and factor_to_base_unit(kind, unit) * reading > (
        1.2 * own * meter.full_scale
    ):
        what = f"reading on {meter.name}"
        raise ParameterError(
            what,
            f"{reading:g} {unit}",
            allowed=f"at most 1.2 times the full scale of {meter.full_scale:g} "
            f"{meter.unit}",
            remedy="Name the range that was really used.",
        )


def kind_of_meter(unit: str) -> Kind:
    """Tell what a meter reads from its unit.

    Parameters
    ----------
    unit : str
        Its unit.

    Returns
    -------
    str
        ``"voltage"``, ``"current"`` or ``"resistance"``.

    Raises
    ------
    ParameterError
        If the unit is none of these.
    """
    kinds: tuple[tuple[str, Kind], ...] = (
        ("ohm", "resistance"),
        ("V", "voltage"),
        ("A", "current"),
    )
    for ending, kind in kinds:
        if unit.endswith(ending):
            return kind
    raise ParameterError("unit of a meter", unit, allowed="V, A or ohm, or parts")


def range_named(name: str, ranges: Iterable[MeterRange]) -> MeterRange:
    """Find a range by its name.

    Parameters
    ----------
    name : str
        Name; empty where there is only one.
    ranges : iterable of MeterRange
        The ranges.

    Returns
    -------
    MeterRange
        The range.

    Raises
    ------
    ParameterError
        If there is none of that name, or the name is empty and there are several.
    """
    known = tuple(ranges)
    found = [one for one in known if one.name == name or (not name and len(known) == 1)]
    if len(found) != 1:
        raise ParameterError(
            "range of a meter",
            name,
            allowed="one of " + ", ".join(one.name for one in known),
        )
    return found[0]


def _error(
    meter: MeterRange, name: str, limit: float, *, unit: str, symbol: str
) -> Input:
    if meter.shape == "normal":
        return normal_input(name, 0.0, limit / _NORMAL_FACTOR, unit=unit, symbol=symbol)
    return rectangular_input(name, 0.0, limit, unit=unit, symbol=symbol)
