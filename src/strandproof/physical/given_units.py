"""Units in which this part takes numbers; anything else is refused."""

from collections.abc import Mapping
from dataclasses import replace
from types import MappingProxyType

from strandproof.errors import ParameterError, UnitError
from strandproof.quantity import Input

_FACTORS: Mapping[str, Mapping[str, float]] = MappingProxyType(
    {
        "N": {"N": 1.0, "mN": 1e-3, "kgf": 9.80665, "gf": 9.80665e-3},
        "um": {"um": 1.0, "mm": 1e3},
        "mm": {"mm": 1.0, "um": 1e-3, "m": 1e3},
        "g": {"g": 1.0, "mg": 1e-3, "kg": 1e3},
        "degC": {"degC": 1.0},
        "kg/m3": {"kg/m3": 1.0, "kg/m^3": 1.0, "g/cm3": 1e3, "g/cm^3": 1e3},
        "1": {"1": 1.0},
    }
)


def in_unit(one: Input, *, unit: str, symbol: str) -> Input:
    """Return an input in the unit of a model and under its symbol.

    Parameters
    ----------
    one : Input
        As it was given.
    unit : str
        Unit wanted: N, um, mm, g, degC, kg/m3 or 1.
    symbol : str
        Keyword of the model.

    Returns
    -------
    Input
        Estimate and standard uncertainty in that unit.

    Raises
    ------
    UnitError
        If the unit given is none of its kind.

    Examples
    --------
    >>> from strandproof.quantity import normal_input
    >>> small = normal_input("force", 25.0, 0.1, unit="gf")
    >>> round(in_unit(small, unit="N", symbol="force").estimate, 4)
    0.2452
    """
    factors = _FACTORS[unit]
    if one.unit not in factors:
        raise UnitError(one.unit, expected=", ".join(factors))
    factor = factors[one.unit]
    return replace(
        one,
        estimate=one.estimate * factor,
        standard_uncertainty=one.standard_uncertainty * factor,
        unit=unit,
        symbol=symbol,
    )


def above_zero(one: Input) -> Input:
    """Return an input after a check that its estimate is above zero.

    Parameters
    ----------
    one : Input
        Any input.

    Returns
    -------
    Input
        The same.

    Raises
    ------
    ParameterError
        If its estimate is zero or below.
    """
    if not one.estimate > 0:
        raise ParameterError(one.name, one.estimate, allowed="a number above zero")
    return one
