"""Exact limits of a proportion: k of n had the property."""

from math import ceil, exp, expm1, log, log1p
from typing import SupportsIndex

from scipy import stats

from strandproof.errors import ParameterError
from strandproof.quantity._types import Interval
from strandproof.quantity.counting import whole_count
from strandproof.quantity.coverage import require_confidence


def binomial_interval(
    hits: SupportsIndex, trials: SupportsIndex, *, confidence: float = 0.95
) -> Interval:
    """Return the exact two-sided interval of a proportion (Clopper-Pearson).

    Assumes independent trials drawn at random from what the proportion is
    about; bought leads hardly ever are.

    Parameters
    ----------
    hits : int
        How many trials had the property; from 0 to `trials`.
    trials : int
        How many trials; 1 or more.
    confidence : float
        Two-sided confidence, between 0 and 1; covers at least that often.

    Returns
    -------
    Interval
        Limits of the proportion, unit ``"1"``.

    Raises
    ------
    ParameterError
        If a count is negative or not whole, `hits` exceeds `trials`, there is
        no trial, or the confidence is outside of (0, 1).

    Notes
    -----
    Beta(a/2; k, n - k + 1) and Beta(1 - a/2; k + 1, n - k), with a = 1 - C; 0
    and 1 at the ends.

    References
    ----------
    C. J. Clopper and E. S. Pearson, 1934, Biometrika 26, 404-413 (named from
    memory).

    Examples
    --------
    >>> interval = binomial_interval(20, 100)
    >>> round(interval.lower, 4), round(interval.upper, 4)
    (0.1267, 0.2918)
    """
    number, total = _hits_of_trials(hits, trials)
    require_confidence(confidence)
    tail = 0.5 * (1.0 - confidence)
    return Interval(
        lower=_binomial_lower(number, total, tail),
        upper=_binomial_upper(number, total, tail),
        unit="1",
        confidence=confidence,
        method=f"exact binomial limits (Clopper-Pearson), {number} of {total}, "
        "two-sided",
    )


def binomial_upper_limit(
    hits: SupportsIndex, trials: SupportsIndex, *, confidence: float = 0.95
) -> Interval:
    """Return the exact one-sided upper limit of a proportion.

    Assumes independent random trials, as `binomial_interval`.

    Parameters
    ----------
    hits : int
        How many trials had the property; from 0 to `trials`.
    trials : int
        How many trials; 1 or more.
    confidence : float
        One-sided confidence, between 0 and 1.

    Returns
    -------
    Interval
        Upper limit only, unit ``"1"``.

    Raises
    ------
    ParameterError
        If a count is negative or not whole, `hits` exceeds `trials`, there is
        no trial, or the confidence is outside of (0, 1).

    Notes
    -----
    Beta(C; k + 1, n - k); for 0 of n this is 1 - (1 - C)^(1/n), computed in
    that closed form.

    Examples
    --------
    None of 20 sections showed more than one grain:

    >>> round(binomial_upper_limit(0, 20).upper, 3)
    0.139
    """
    number, total = _hits_of_trials(hits, trials)
    require_confidence(confidence)
    return Interval(
        lower=None,
        upper=_binomial_upper(number, total, 1.0 - confidence),
        unit="1",
        confidence=confidence,
        method=f"exact binomial limit, {number} of {total}, one-sided upper",
    )


def binomial_lower_limit(
    hits: SupportsIndex, trials: SupportsIndex, *, confidence: float = 0.95
) -> Interval:
    """Return the exact one-sided lower limit of a proportion.

    Assumes independent random trials, as `binomial_interval`.

    Parameters
    ----------
    hits : int
        How many trials had the property; from 0 to `trials`.
    trials : int
        How many trials; 1 or more.
    confidence : float
        One-sided confidence, between 0 and 1.

    Returns
    -------
    Interval
        Lower limit only, unit ``"1"``.

    Raises
    ------
    ParameterError
        If a count is negative or not whole, `hits` exceeds `trials`, there is
        no trial, or the confidence is outside of (0, 1).

    Notes
    -----
    Beta(1 - C; k, n - k + 1); for n of n this is (1 - C)^(1/n).

    Examples
    --------
    >>> round(binomial_lower_limit(2, 2).lower, 3)
    0.224
    """
    number, total = _hits_of_trials(hits, trials)
    require_confidence(confidence)
    return Interval(
        lower=_binomial_lower(number, total, 1.0 - confidence),
        upper=None,
        unit="1",
        confidence=confidence,
        method=f"exact binomial limit, {number} of {total}, one-sided lower",
    )


def trials_needed_with_none_failing(
    proportion: float, *, confidence: float = 0.95
) -> int:
    """Return how many trials, none failing, bound the failing share.

    Parameters
    ----------
    proportion : float
        Largest failing proportion that may still be there; between 0 and 1.
    confidence : float
        One-sided confidence, between 0 and 1.

    Returns
    -------
    int
        Smallest n whose upper limit for 0 of n is at most `proportion`.

    Raises
    ------
    ParameterError
        If the proportion or the confidence is outside of (0, 1).

    Notes
    -----
    n = ln(1 - C) / ln(1 - p), rounded up.

    Examples
    --------
    >>> trials_needed_with_none_failing(0.05)
    59
    """
    if not 0 < proportion < 1:
        raise ParameterError(
            "proportion", proportion, allowed="a number above 0 and below 1"
        )
    require_confidence(confidence)
    exact = log1p(-confidence) / log1p(-proportion)
    # 1 - 0.9 is not 0.1 in binary: do not ask for one more because of rounding.
    return max(1, ceil(exact * (1.0 - 1e-12)))


def expected_proportion(hits: SupportsIndex, trials: SupportsIndex) -> float:
    """Return the expected proportion when every proportion was as likely before.

    A best estimate to stand beside the exact limit, never instead of it: it
    depends on the uniform prior.

    Parameters
    ----------
    hits : int
        How many trials had the property; from 0 to `trials`.
    trials : int
        How many trials; 1 or more.

    Returns
    -------
    float
        Mean of the posterior distribution, between 0 and 1.

    Raises
    ------
    ParameterError
        If a count is negative or not whole, `hits` exceeds `trials`, or there
        is no trial.

    Notes
    -----
    (k + 1) / (n + 2), the mean of Beta(k + 1, n - k + 1).

    Examples
    --------
    >>> expected_proportion(0, 8)
    0.1
    """
    number, total = _hits_of_trials(hits, trials)
    return (number + 1) / (total + 2)


def _hits_of_trials(hits: SupportsIndex, trials: SupportsIndex) -> tuple[int, int]:
    number, total = whole_count("hits", hits), whole_count("trials", trials)
    if total < 1:
        raise ParameterError("trials", total, allowed="1 or more")
    if number > total:
        raise ParameterError("hits", number, allowed=f"at most the {total} trials")
    return number, total


def _binomial_lower(hits: int, trials: int, tail: float) -> float:
    if hits == 0:
        return 0.0
    if hits == trials:
        return exp(log(tail) / trials)
    return float(stats.beta.ppf(tail, hits, trials - hits + 1))


def _binomial_upper(hits: int, trials: int, tail: float) -> float:
    if hits == trials:
        return 1.0
    if hits == 0:
        return -expm1(log(tail) / trials)
    return float(stats.beta.isf(tail, hits + 1, trials - hits))
