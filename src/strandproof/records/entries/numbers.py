"""Between the quantities of a computation and the numbers of a case."""

from math import inf, isinf

from strandproof.quantity import Interval, Quantity
from strandproof.records.entries.bodies import MeasuredValue


def measured_value(
    quantity: Quantity, interval: Interval | None = None
) -> MeasuredValue:
    """Write a quantity and its interval the way a case holds them.

    Parameters
    ----------
    quantity : Quantity
        Value, unit, standard uncertainty, degrees of freedom.
    interval : Interval or None
        Its interval, in the same unit.

    Returns
    -------
    MeasuredValue
        Unrounded.

    Examples
    --------
    >>> measured_value(Quantity(8.4, "um", 0.2)).standard_uncertainty
    0.2
    """
    nu = quantity.degrees_of_freedom
    return MeasuredValue(
        value=quantity.value,
        unit=quantity.unit,
        standard_uncertainty=quantity.standard_uncertainty,
        degrees_of_freedom=None if isinf(nu) else nu,
        lower=None if interval is None else interval.lower,
        upper=None if interval is None else interval.upper,
        confidence=None if interval is None else interval.confidence,
        interval_method="" if interval is None else interval.method,
    )


def quantity_of(value: MeasuredValue) -> Quantity:
    """Read a number of a case as a quantity; an unstated uncertainty becomes zero.

    Parameters
    ----------
    value : MeasuredValue
        As the case holds it.

    Returns
    -------
    Quantity
        For computing.
    """
    return Quantity(
        value.value,
        value.unit,
        value.standard_uncertainty or 0.0,
        degrees_of_freedom=value.degrees_of_freedom or inf,
    )


def interval_of(value: MeasuredValue) -> Interval | None:
    """Read the interval of a number of a case.

    Parameters
    ----------
    value : MeasuredValue
        As the case holds it.

    Returns
    -------
    Interval or None
        None where the case states none.
    """
    if value.confidence is None:
        return None
    return Interval(
        lower=value.lower,
        upper=value.upper,
        unit=value.unit,
        confidence=value.confidence,
        method=value.interval_method,
    )
