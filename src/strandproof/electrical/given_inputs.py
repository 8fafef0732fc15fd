"""Inputs in the units they were given in, and models that run in base units.

A budget names every source in the unit in which the user read it (mg, mm, mohm),
so inputs are not rewritten; the model is wrapped instead.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import Literal

from strandproof.errors import ParameterError, UnitError
from strandproof.quantity import Input, Model, ModelNumber, Quantity

Kind = Literal[
    "resistance",
    "mass",
    "length",
    "temperature",
    "density",
    "area",
    "current",
    "voltage",
    "coefficient",
    "ratio",
    "error",
]

# Factor from each accepted unit to the base unit of its kind (ohm, g, m, degC,
# g/m3, m2, A, V, 1/K, 1). An error of a meter is about zero and in any of its units.
_FACTORS: Mapping[Kind, Mapping[str, float]] = MappingProxyType(
    {
        "resistance": {"ohm": 1.0, "mohm": 1e-3, "uohm": 1e-6},
        "mass": {"g": 1.0, "mg": 1e-3, "kg": 1e3},
        "length": {"m": 1.0, "mm": 1e-3, "um": 1e-6},
        "temperature": {"degC": 1.0},
        "density": {"g/cm^3": 1e6, "g/cm3": 1e6, "kg/m^3": 1e3, "kg/m3": 1e3},
        "area": {"m^2": 1.0, "mm^2": 1e-6, "mm2": 1e-6},
        "current": {"A": 1.0, "mA": 1e-3},
        "voltage": {"V": 1.0, "mV": 1e-3, "uV": 1e-6},
        "coefficient": {"1/K": 1.0},
        "ratio": {"1": 1.0},
        "error": {
            "%": 0.01,
            "V": 1.0,
            "mV": 1e-3,
            "uV": 1e-6,
            "A": 1.0,
            "mA": 1e-3,
            "ohm": 1.0,
            "mohm": 1e-3,
            "uohm": 1e-6,
            "K": 1.0,
        },
    }
)

# Outside of this range a straight line from 20 degC no longer describes copper
# to a tenth of a percent (judgement of this project).
_COLDEST_C, _HOTTEST_C = -50.0, 150.0


@dataclass(frozen=True, slots=True, kw_only=True)
class GivenInputs:
    """Inputs under the symbols of a model, with factors to base units.

    Parameters
    ----------
    inputs : tuple of Input
        The inputs, each with its symbol.
    factors : mapping of str to float
        Factor to the base unit, by symbol.
    """

    inputs: tuple[Input, ...]
    factors: Mapping[str, float]

    def model(self, in_base_units: Model) -> Model:
        """Return a model that takes the inputs as they were given.

        Parameters
        ----------
        in_base_units : callable
            Takes a mapping of symbols to numbers in base units.

        Returns
        -------
        callable
            Takes each input by its symbol, in its own unit.
        """

        def as_given(**values: ModelNumber) -> ModelNumber:
            return in_base_units(
                {
                    symbol: number * self.factors[symbol]
                    for symbol, number in values.items()
                }
            )

        return as_given

    def estimates(self) -> dict[str, float]:
        """Return the estimates in base units, by symbol.

        Returns
        -------
        dict of str to float
            The estimates.
        """
        return {
            one.symbol: one.estimate * self.factors[one.symbol] for one in self.inputs
        }


def given_inputs(**given: tuple[Kind, Input]) -> GivenInputs:
    """Check units and signs, and put inputs under the symbols of a model.

    Parameters
    ----------
    **given : tuple of str and Input
        Kind of quantity and input, by symbol.

    Returns
    -------
    GivenInputs
        The inputs.

    Raises
    ------
    UnitError
        If a unit is none of its kind.
    ParameterError
        If a temperature is out of range, anything else but a voltage or an error
        is zero or negative, or two inputs have one name, which would make the
        budget unreadable.
    """
    for symbol, (kind, one) in given.items():
        _require_allowed(symbol, kind, one)
    _require_different_names([one.name for _, one in given.values()])
    return GivenInputs(
        inputs=tuple(replace(one, symbol=symbol) for symbol, (_, one) in given.items()),
        factors=MappingProxyType(
            {
                symbol: factor_to_base_unit(kind, one.unit)
                for symbol, (kind, one) in given.items()
            }
        ),
    )


def factor_to_base_unit(kind: Kind, unit: str) -> float:
    """Return the factor from a unit to the base unit of its kind.

    Parameters
    ----------
    kind : str
        Kind of quantity, for example ``"resistance"``.
    unit : str
        Unit as it was given.

    Returns
    -------
    float
        Factor to ohm, g, m, degC, g/m3, m2, A, V, 1/K or 1.

    Raises
    ------
    UnitError
        If the unit is none of this kind.
    """
    units = _FACTORS[kind]
    if unit not in units:
        raise UnitError(unit, expected=f"{', '.join(units)} ({kind})")
    return units[unit]


def converted_input(one: Input, *, unit: str) -> Input:
    """Return the same input in another unit of its kind.

    Nothing is converted silently elsewhere: a number keeps the unit it came in.

    Parameters
    ----------
    one : Input
        The input, for example 1729.6 mohm.
    unit : str
        The unit wanted, for example ``"ohm"``.

    Returns
    -------
    Input
        Estimate and standard uncertainty in that unit.

    Raises
    ------
    UnitError
        If either unit is unknown, or they are not of one kind.

    Examples
    --------
    >>> from strandproof.quantity import normal_input
    >>> milli = normal_input("resistance", 1729.6, 0.9, unit="mohm")
    >>> round(converted_input(milli, unit="ohm").estimate, 7)
    1.7296
    """
    for kind, units in _FACTORS.items():
        if one.unit in units:
            factor = units[one.unit] / factor_to_base_unit(kind, unit)
            return replace(
                one,
                estimate=one.estimate * factor,
                standard_uncertainty=one.standard_uncertainty * factor,
                unit=unit,
            )
    known = ", ".join(unit for units in _FACTORS.values() for unit in units)
    raise UnitError(one.unit, expected=f"one of {known}")


def input_of_quantity(quantity: Quantity, *, name: str, symbol: str = "") -> Input:
    """Return a result as the input of a further model.

    Right only where the two results share no input: the budget of the first is
    cut off, and with it any correlation.

    Parameters
    ----------
    quantity : Quantity
        A result.
    name : str
        Name in words of the trade.
    symbol : str
        Keyword in the model; made from `name` when empty.

    Returns
    -------
    Input
        Normal input with its value, uncertainty and degrees of freedom.

    Examples
    --------
    >>> area = Quantity(0.0955, "mm^2", 0.0012)
    >>> input_of_quantity(area, name="copper area").unit
    'mm^2'
    """
    return Input(
        name=name,
        estimate=quantity.value,
        unit=quantity.unit,
        standard_uncertainty=quantity.standard_uncertainty,
        degrees_of_freedom=quantity.degrees_of_freedom,
        symbol=symbol,
    )


def _require_allowed(symbol: str, kind: Kind, one: Input) -> None:
    factor_to_base_unit(kind, one.unit)
    if kind == "temperature":
        _require_temperature(symbol, one)
    elif kind not in {"voltage", "error"}:  # a reversed voltage is negative
        _require_positive(symbol, one)


def _require_temperature(symbol: str, one: Input) -> None:
    if not _COLDEST_C <= one.estimate <= _HOTTEST_C:
        raise ParameterError(
            symbol,
            one.estimate,
            allowed=f"a temperature from {_COLDEST_C:g} to {_HOTTEST_C:g} degC",
        )


def _require_positive(symbol: str, one: Input) -> None:
    if not one.estimate > 0:
        raise ParameterError(
            symbol, one.estimate, allowed=f"a number of {one.unit} above zero"
        )


def _require_different_names(names: list[str]) -> None:
    if len(set(names)) != len(names):
        raise ParameterError(
            "names of the inputs", names, allowed="each input under a name of its own"
        )
