"""Frozen records as plain data, ready for JSON."""

from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from math import isfinite

from strandproof.errors import ParameterError
from strandproof.quantity import Quantity

PlainValue = (
    str | int | float | bool | list["PlainValue"] | dict[str, "PlainValue"] | None
)


def as_plain_data(value: object) -> PlainValue:
    """Turn a frozen record into nested dicts, lists, texts and finite numbers.

    Parameters
    ----------
    value : object
        A record, or anything that a record holds: numbers, texts, None, tuples,
        mappings, quantities, other records.

    Returns
    -------
    PlainValue
        The same content; a quantity keeps value, unit, standard uncertainty and
        degrees of freedom (None where infinite), not its budget.

    Raises
    ------
    ParameterError
        If a number is not finite, or something has no plain form.

    Examples
    --------
    >>> as_plain_data((1, Quantity(2.0, "mm")))[1]["unit"]
    'mm'
    """
    if value is None or isinstance(value, str | bool | int):
        return value
    if isinstance(value, float):
        if isfinite(value):
            return value
        raise ParameterError("value", value, allowed="a finite number")
    if isinstance(value, Quantity):
        return _quantity(value)
    if isinstance(value, Mapping):
        return {str(key): as_plain_data(each) for key, each in value.items()}
    if isinstance(value, tuple | list):
        return [as_plain_data(each) for each in value]
    if is_dataclass(value):
        return {
            field.name: as_plain_data(getattr(value, field.name))
            for field in fields(value)
        }
    raise ParameterError("value", value, allowed="a record of plain values")


def _quantity(quantity: Quantity) -> PlainValue:
    freedom = quantity.degrees_of_freedom
    return {
        "value": quantity.value,
        "unit": quantity.unit,
        "standard_uncertainty": quantity.standard_uncertainty,
        "degrees_of_freedom": freedom if isfinite(freedom) else None,
    }
