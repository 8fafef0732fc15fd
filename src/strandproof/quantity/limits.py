"""Exact limits of a rate: events counted over a length, an area or a time."""

from math import inf, isfinite, log
from typing import SupportsIndex

from scipy import stats

from strandproof.errors import ParameterError
from strandproof.quantity._types import Interval
from strandproof.quantity.counting import whole_count
from strandproof.quantity.coverage import require_confidence


def poisson_interval(
    count: SupportsIndex, *, exposure: float, unit: str, confidence: float = 0.95
) -> Interval:
    """Return the exact two-sided interval of a rate from a count (Garwood).

    Assumes that events fall independently and at one rate over the exposure;
    events that come in pairs or clusters have to be counted as one.

    Parameters
    ----------
    count : int
        Events seen; zero or above.
    exposure : float
        Length, area or time looked at; above zero. 1 gives limits of the
        expected count itself.
    unit : str
        Unit of the rate, for example ``"1/mm"`` for an exposure in mm.
    confidence : float
        Two-sided confidence, between 0 and 1.

    Returns
    -------
    Interval
        Limits of the rate; the lower one is 0 for a count of 0.

    Raises
    ------
    ParameterError
        If the count is negative or not whole, the exposure is not above zero,
        or the confidence is outside of (0, 1).

    Notes
    -----
    chi2(a/2, 2k) / 2 and chi2(1 - a/2, 2k + 2) / 2, divided by the exposure,
    with a = 1 - C. The two-sided upper limit at a count of 0 uses a/2 and is
    wider than the one-sided limit of `poisson_upper_limit`.

    References
    ----------
    F. Garwood, 1936, Fiducial limits for the Poisson distribution, Biometrika
    28, 437-442 (named from memory).

    Examples
    --------
    >>> interval = poisson_interval(0, exposure=1.0, unit="1")
    >>> interval.lower, round(interval.upper, 3)
    (0.0, 3.689)
    """
    number = whole_count("count", count)
    _require_exposure(exposure)
    require_confidence(confidence)
    tail = 0.5 * (1.0 - confidence)
    return Interval(
        lower=_poisson_lower(number, tail) / exposure,
        upper=_poisson_upper(number, tail) / exposure,
        unit=unit,
        confidence=confidence,
        method=f"exact Poisson limits (Garwood), {number} events, two-sided",
    )


def poisson_upper_limit(
    count: SupportsIndex, *, exposure: float, unit: str, confidence: float = 0.95
) -> Interval:
    """Return the exact one-sided upper limit of a rate from a count.

    Assumes independent events at one rate, as `poisson_interval`.

    Parameters
    ----------
    count : int
        Events seen; zero or above.
    exposure : float
        Length, area or time looked at; above zero.
    unit : str
        Unit of the rate.
    confidence : float
        One-sided confidence, between 0 and 1.

    Returns
    -------
    Interval
        Upper limit only.

    Raises
    ------
    ParameterError
        If the count is negative or not whole, the exposure is not above zero,
        or the confidence is outside of (0, 1).

    Notes
    -----
    chi2(C, 2k + 2) / 2, divided by the exposure; -ln(1 - C) for a count of 0.

    Examples
    --------
    No boundary resolved over 50 mm:

    >>> rate = poisson_upper_limit(0, exposure=50.0, unit="1/mm")
    >>> round(rate.upper, 4)
    0.0599
    """
    number = whole_count("count", count)
    _require_exposure(exposure)
    require_confidence(confidence)
    return Interval(
        lower=None,
        upper=_poisson_upper(number, 1.0 - confidence) / exposure,
        unit=unit,
        confidence=confidence,
        method=f"exact Poisson limit, {number} events, one-sided upper",
    )


def poisson_lower_limit(
    count: SupportsIndex, *, exposure: float, unit: str, confidence: float = 0.95
) -> Interval:
    """Return the exact one-sided lower limit of a rate from a count.

    Assumes independent events at one rate, as `poisson_interval`.

    Parameters
    ----------
    count : int
        Events seen; zero or above.
    exposure : float
        Length, area or time looked at; above zero.
    unit : str
        Unit of the rate.
    confidence : float
        One-sided confidence, between 0 and 1.

    Returns
    -------
    Interval
        Lower limit only; 0 for a count of 0.

    Raises
    ------
    ParameterError
        If the count is negative or not whole, the exposure is not above zero,
        or the confidence is outside of (0, 1).

    Notes
    -----
    chi2(1 - C, 2k) / 2, divided by the exposure.

    Examples
    --------
    >>> round(poisson_lower_limit(1, exposure=1.0, unit="1").lower, 4)
    0.0513
    """
    number = whole_count("count", count)
    _require_exposure(exposure)
    require_confidence(confidence)
    return Interval(
        lower=_poisson_lower(number, 1.0 - confidence) / exposure,
        upper=None,
        unit=unit,
        confidence=confidence,
        method=f"exact Poisson limit, {number} events, one-sided lower",
    )


def probability_of_at_least(count: SupportsIndex, *, expected: float) -> float:
    """Return the chance of seeing so many independent events, or more.

    Parameters
    ----------
    count : int
        Number of events; zero or above.
    expected : float
        Expected number: rate times exposure; zero or above.

    Returns
    -------
    float
        Poisson probability of `count` events or more.

    Raises
    ------
    ParameterError
        If the count is negative or not whole or the expectation is negative.

    Examples
    --------
    One event or more in 90 mm, where one per 100 m is expected:

    >>> round(probability_of_at_least(1, expected=90e-3 / 100), 7)
    0.0008996
    """
    number = whole_count("count", count)
    if not isfinite(expected) or expected < 0:
        raise ParameterError(
            "expected", expected, allowed="a finite number, zero or above"
        )
    return float(stats.poisson.sf(number - 1, expected))


def reciprocal_interval(interval: Interval, *, unit: str) -> Interval:
    """Return the limits of 1/x from those of x: a rate becomes a mean spacing.

    Parameters
    ----------
    interval : Interval
        Limits of a rate or spacing; none below zero.
    unit : str
        Unit of the reciprocal.

    Returns
    -------
    Interval
        Ends swapped; open where the limit was zero or open.

    Raises
    ------
    ParameterError
        If a limit is negative.

    Examples
    --------
    >>> rate = poisson_upper_limit(0, exposure=36.0, unit="1/mm")
    >>> spacing = reciprocal_interval(rate, unit="mm")
    >>> round(spacing.lower, 2), spacing.upper is None
    (12.02, True)
    """
    ends = (interval.lower, interval.upper)
    if any(end is not None and end < 0 for end in ends):
        raise ParameterError("interval", ends, allowed="limits of zero or above")
    upper, lower = (1.0 / end if end else None for end in ends)
    return Interval(
        lower=lower,
        upper=upper,
        unit=unit,
        confidence=interval.confidence,
        method=f"reciprocal of: {interval.method}",
    )


def _require_exposure(exposure: float) -> None:
    if not 0 < exposure < inf:
        raise ParameterError(
            "exposure",
            exposure,
            allowed="a finite number above zero",
            remedy="Where nothing was looked at, no rate can be stated.",
        )


def _poisson_lower(count: int, tail: float) -> float:
    return 0.5 * float(stats.chi2.ppf(tail, 2 * count)) if count else 0.0


def _poisson_upper(count: int, tail: float) -> float:
    if count == 0:
        return -log(tail)
    return 0.5 * float(stats.chi2.isf(tail, 2 * count + 2))
