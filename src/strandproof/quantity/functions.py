"""Elementary functions that a measurement model may use.

One model runs over plain numbers, over GTC's uncertain numbers (first order)
and over NumPy arrays (Monte Carlo); each function here picks the library by the
type of its argument. Write models with ordinary arithmetic and these functions.
Python's built-in `abs` silently drops the uncertainty of an uncertain number:
use `absolute`.
"""

import math
from functools import singledispatch
from types import ModuleType
from typing import Any, TypeAlias

import GTC
import numpy as np
from GTC.lib import UncertainReal

from strandproof.errors import ParameterError

# A float, an array of floats, or an uncertain number of GTC. GTC ships no type
# information, so no narrower type can be checked.
ModelNumber: TypeAlias = Any


@singledispatch
def _library_for(value: ModelNumber) -> ModuleType:
    raise ParameterError(
        "value", value, allowed="a real number, an array, or an uncertain number"
    )


@_library_for.register(float)
@_library_for.register(int)
def _(_value: float) -> ModuleType:
    return math


@_library_for.register(np.ndarray)
@_library_for.register(np.generic)
def _(_value: ModelNumber) -> ModuleType:
    return np


@_library_for.register(UncertainReal)
def _(_value: ModelNumber) -> ModuleType:
    return GTC  # type: ignore[no-any-return]  # GTC ships no types


def sqrt(value: ModelNumber) -> ModelNumber:
    """Return the square root of a number, array or uncertain number.

    Parameters
    ----------
    value : float, ndarray or uncertain number
        Argument; zero or above; at zero an uncertain number has no
        finite sensitivity.

    Returns
    -------
    float, ndarray or uncertain number
        The same kind as the argument, elementwise for an array.

    Raises
    ------
    ParameterError
        If the argument is none of these kinds.

    Examples
    --------
    >>> sqrt(9.0)
    3.0
    """
    return _library_for(value).sqrt(value)


def exp(value: ModelNumber) -> ModelNumber:
    """Return the exponential of a number, array or uncertain number.

    Parameters
    ----------
    value : float, ndarray or uncertain number
        Argument; any.

    Returns
    -------
    float, ndarray or uncertain number
        The same kind as the argument, elementwise for an array.

    Raises
    ------
    ParameterError
        If the argument is none of these kinds.

    Examples
    --------
    >>> exp(0.0)
    1.0
    """
    return _library_for(value).exp(value)


def log(value: ModelNumber) -> ModelNumber:
    """Return the natural logarithm of a number, array or uncertain number.

    Parameters
    ----------
    value : float, ndarray or uncertain number
        Argument; above zero.

    Returns
    -------
    float, ndarray or uncertain number
        The same kind as the argument, elementwise for an array.

    Raises
    ------
    ParameterError
        If the argument is none of these kinds.

    Examples
    --------
    >>> log(1.0)
    0.0
    """
    return _library_for(value).log(value)


def log10(value: ModelNumber) -> ModelNumber:
    """Return the logarithm to base 10 of a number, array or uncertain number.

    Parameters
    ----------
    value : float, ndarray or uncertain number
        Argument; above zero.

    Returns
    -------
    float, ndarray or uncertain number
        The same kind as the argument, elementwise for an array.

    Raises
    ------
    ParameterError
        If the argument is none of these kinds.

    Examples
    --------
    >>> log10(1000.0)
    3.0
    """
    return _library_for(value).log10(value)


def sin(value: ModelNumber) -> ModelNumber:
    """Return the sine of a number, array or uncertain number.

    Parameters
    ----------
    value : float, ndarray or uncertain number
        Argument; angle [rad].

    Returns
    -------
    float, ndarray or uncertain number
        The same kind as the argument, elementwise for an array.

    Raises
    ------
    ParameterError
        If the argument is none of these kinds.

    Examples
    --------
    >>> sin(0.0)
    0.0
    """
    return _library_for(value).sin(value)


def cos(value: ModelNumber) -> ModelNumber:
    """Return the cosine of a number, array or uncertain number.

    Parameters
    ----------
    value : float, ndarray or uncertain number
        Argument; angle [rad].

    Returns
    -------
    float, ndarray or uncertain number
        The same kind as the argument, elementwise for an array.

    Raises
    ------
    ParameterError
        If the argument is none of these kinds.

    Examples
    --------
    >>> cos(0.0)
    1.0
    """
    return _library_for(value).cos(value)


def tan(value: ModelNumber) -> ModelNumber:
    """Return the tangent of a number, array or uncertain number.

    Parameters
    ----------
    value : float, ndarray or uncertain number
        Argument; angle [rad].

    Returns
    -------
    float, ndarray or uncertain number
        The same kind as the argument, elementwise for an array.

    Raises
    ------
    ParameterError
        If the argument is none of these kinds.

    Examples
    --------
    >>> tan(0.0)
    0.0
    """
    return _library_for(value).tan(value)


def asin(value: ModelNumber) -> ModelNumber:
    """Return the arc sine [rad] of a number, array or uncertain number.

    Parameters
    ----------
    value : float, ndarray or uncertain number
        Argument; from -1 to 1.

    Returns
    -------
    float, ndarray or uncertain number
        The same kind as the argument, elementwise for an array.

    Raises
    ------
    ParameterError
        If the argument is none of these kinds.

    Examples
    --------
    >>> asin(0.0)
    0.0
    """
    return _library_for(value).asin(value)


def acos(value: ModelNumber) -> ModelNumber:
    """Return the arc cosine [rad] of a number, array or uncertain number.

    Parameters
    ----------
    value : float, ndarray or uncertain number
        Argument; from -1 to 1.

    Returns
    -------
    float, ndarray or uncertain number
        The same kind as the argument, elementwise for an array.

    Raises
    ------
    ParameterError
        If the argument is none of these kinds.

    Examples
    --------
    >>> acos(1.0)
    0.0
    """
    return _library_for(value).acos(value)


def atan(value: ModelNumber) -> ModelNumber:
    """Return the arc tangent [rad] of a number, array or uncertain number.

    Parameters
    ----------
    value : float, ndarray or uncertain number
        Argument; any.

    Returns
    -------
    float, ndarray or uncertain number
        The same kind as the argument, elementwise for an array.

    Raises
    ------
    ParameterError
        If the argument is none of these kinds.

    Examples
    --------
    >>> atan(0.0)
    0.0
    """
    return _library_for(value).atan(value)


def absolute(value: ModelNumber) -> ModelNumber:
    """Return the absolute value of a number, array or uncertain number.

    The built-in `abs` drops the uncertainty of an uncertain number without a
    word; this function keeps it. At zero the sensitivity does not exist, and an
    uncertain number raises `ZeroDivisionError` there.

    Parameters
    ----------
    value : float, ndarray or uncertain number
        Argument; any.

    Returns
    -------
    float, ndarray or uncertain number
        The same kind as the argument, elementwise for an array.

    Raises
    ------
    ParameterError
        If the argument is none of these kinds.

    Examples
    --------
    >>> absolute(-2.5)
    2.5
    """
    return GTC.magnitude(value) if _library_for(value) is GTC else abs(value)
