"""Calling a measurement model with its inputs by keyword."""

from collections.abc import Callable, Mapping
from inspect import signature
from typing import TypeAlias

from strandproof.errors import ModelCallError, SingularModelError
from strandproof.quantity.functions import ModelNumber

Model: TypeAlias = Callable[..., ModelNumber]


def call_model(model: Model, values: Mapping[str, ModelNumber]) -> ModelNumber:
    """Return what a model gives for these inputs.

    Parameters
    ----------
    model : callable
        Takes every input by keyword.
    values : mapping of str to float, ndarray or uncertain number
        The inputs by keyword.

    Returns
    -------
    object
        Whatever the model returns.

    Raises
    ------
    ModelCallError
        If the model does not take exactly these keywords.
    SingularModelError
        If it divides by zero, or has no finite sensitivity.
    """
    try:
        signature(model).bind(**values)
    except (TypeError, ValueError) as fault:
        raise ModelCallError(values, fault) from fault
    try:
        return model(**values)
    except ZeroDivisionError as fault:
        raise SingularModelError from fault
