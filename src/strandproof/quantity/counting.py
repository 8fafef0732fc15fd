"""The check that a count is a whole number, zero or above."""

from operator import index
from typing import SupportsIndex

from strandproof.errors import ParameterError


def whole_count(parameter: str, given: SupportsIndex) -> int:
    """Return a count as an int, or refuse it.

    Parameters
    ----------
    parameter : str
        Name of the parameter, for the message.
    given : int
        What the caller gave; a NumPy integer will do.

    Returns
    -------
    int
        The count, zero or above.

    Raises
    ------
    ParameterError
        If it is not whole, or negative.
    """
    try:
        number = index(given)
    except TypeError as fault:
        raise ParameterError(
            parameter,
            given,
            allowed="a whole number",
            remedy="Halves of a count have no exact limits; count whole events.",
        ) from fault
    if number < 0:
        raise ParameterError(parameter, given, allowed="zero or above")
    return number
