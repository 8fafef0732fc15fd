"""The American wire gauge: number to diameter and area, area to number."""

from math import isfinite, pi, sqrt
from math import log as natural_log

from strandproof.electrical.given_inputs import given_inputs, input_of_quantity
from strandproof.electrical.route_models import Values
from strandproof.errors import ParameterError
from strandproof.quantity import ModelNumber, Quantity, log, propagate
from strandproof.records.electrical import GaugeRounding
from strandproof.tables import package_table, table_value

_TABLE = "wire_gauge"
# 6/0 is the largest size in use, 56 the finest since 1961.
_LARGEST, _FINEST = -5, 56


def gauge_number(text: str) -> int:
    """Gauge number from the way it is written.

    Parameters
    ----------
    text : str
        ``"26"``, ``"26 AWG"``, ``"AWG 26"``, ``"0"``, ``"000"``, ``"4/0"``.

    Returns
    -------
    int
        The number; 0 for 1/0, -1 for 2/0, -2 for 3/0, -3 for 4/0.

    Raises
    ------
    ParameterError
        If it is no gauge from 6/0 to 56.

    Examples
    --------
    >>> gauge_number("26 AWG"), gauge_number("4/0"), gauge_number("00")
    (26, -3, -1)
    """
    word = text.upper().replace("AWG", "").strip()
    zeros, slash, zero = word.partition("/")
    if slash and zero == "0" and zeros.isdecimal() and int(zeros) > 0:
        number = 1 - int(zeros)
    elif word and not word.strip("0"):
        number = 1 - len(word)
    elif word.isdecimal():
        number = int(word)
    else:
        raise ParameterError("gauge", text, allowed="a number such as 26, 0000 or 4/0")
    _require_gauge(number)
    return number


def gauge_diameter_mm(gauge: float, *, rounding: GaugeRounding = "exact") -> float:
    """Diameter of a solid wire of a gauge number.

    Parameters
    ----------
    gauge : float
        Gauge number, from -5 (6/0) to 56.
    rounding : {"exact", "tenth_mil"}
        The formula's diameter, or that rounded to 0.1 mil; published tables do
        either, and differ by up to 0.7 % in resistance down to gauge 28.

    Returns
    -------
    float
        Diameter [mm].

    Raises
    ------
    ParameterError
        If the gauge is out of range.

    Notes
    -----
    0.127 * 92^((36 - n)/39) mm (ASTM B258, read second-hand). Rounding to 0.1 mil
    is coarse for fine wire (2 % in area at gauge 36 and beyond).

    Examples
    --------
    >>> round(gauge_diameter_mm(26), 5)
    0.40489
    >>> round(gauge_diameter_mm(26, rounding="tenth_mil"), 5)
    0.40386
    """
    _require_gauge(gauge)
    reference, ratio, steps, first = _formula()
    diameter = reference * float(ratio ** ((first - gauge) / steps))
    if rounding == "exact":
        return diameter
    table = package_table(_TABLE)
    grid = table_value(table, "rounding.resolution") * table_value(table, "mil")
    return round(diameter / grid) * grid


def gauge_area_mm2(gauge: float, *, rounding: GaugeRounding = "exact") -> float:
    """Area of a solid wire of a gauge number.

    Parameters
    ----------
    gauge : float
        Gauge number, from -5 (6/0) to 56.
    rounding : {"exact", "tenth_mil"}
        As in `gauge_diameter_mm`.

    Returns
    -------
    float
        Area [mm2]; for a stranded conductor the sum of its strands is meant.

    Raises
    ------
    ParameterError
        If the gauge is out of range.

    Examples
    --------
    >>> round(gauge_area_mm2(26), 5)
    0.12876
    """
    diameter = gauge_diameter_mm(gauge, rounding=rounding)
    return 0.25 * pi * diameter * diameter


def effective_gauge(area: Quantity) -> Quantity:
    """Gauge number, fractions included, of a solid wire with this area.

    Parameters
    ----------
    area : Quantity
        Area [mm^2 or m^2]; above zero.

    Returns
    -------
    Quantity
        Gauge number [1]; larger for less metal.

    Raises
    ------
    UnitError
        If the area is not in mm^2 or m^2.
    ParameterError
        If it is not above zero.

    Notes
    -----
    n = 36 - 39 ln(d/0.127 mm)/ln 92, d = sqrt(4 A/pi).

    Examples
    --------
    >>> round(effective_gauge(Quantity(0.0955, "mm^2", 0.0012)).value, 2)
    27.29
    """
    given = given_inputs(area=("area", input_of_quantity(area, name="copper area")))
    reference, ratio, steps, first = _formula()
    reference_area = 0.25 * pi * (1e-3 * reference) ** 2

    def number(values: Values) -> ModelNumber:
        halves = log(values["area"] / reference_area) / natural_log(ratio)
        return first - 0.5 * steps * halves

    return propagate(given.model(number), given.inputs, unit="1")


def equivalent_diameter_mm(area: Quantity) -> float:
    """Diameter of a solid round wire with this area.

    Parameters
    ----------
    area : Quantity
        Area [mm^2 or m^2]; above zero.

    Returns
    -------
    float
        Diameter [mm].

    Raises
    ------
    UnitError
        If the area is not in mm^2 or m^2.
    ParameterError
        If it is not above zero.
    """
    given = given_inputs(area=("area", input_of_quantity(area, name="copper area")))
    return 1e3 * sqrt(4.0 * given.estimates()["area"] / pi)


def _formula() -> tuple[float, float, float, float]:
    table = package_table(_TABLE)
    return (
        table_value(table, "formula.reference_diameter"),
        table_value(table, "formula.ratio"),
        table_value(table, "formula.steps"),
        table_value(table, "formula.reference_gauge"),
    )


def _require_gauge(gauge: float) -> None:
    if not (isfinite(gauge) and _LARGEST <= gauge <= _FINEST):
        raise ParameterError(
            "gauge", gauge, allowed=f"a number from {_LARGEST} (6/0) to {_FINEST}"
        )
