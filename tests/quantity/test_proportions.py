"""Exact binomial limits: what defines them, and their faults."""

from collections.abc import Callable
from math import nan

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from strandproof.errors import ParameterError
from strandproof.quantity import (
    Interval,
    binomial_interval,
    binomial_lower_limit,
    binomial_upper_limit,
    expected_proportion,
    trials_needed_with_none_failing,
)

HITS_OF_TRIALS = st.integers(1, 500).flatmap(
    lambda trials: st.tuples(st.integers(0, trials), st.just(trials))
)
CONFIDENCE = st.floats(0.5, 0.999)


def ends(interval: Interval) -> tuple[float, float]:
    """Both ends of an interval that is open on neither side."""
    assert interval.lower is not None
    assert interval.upper is not None
    return interval.lower, interval.upper


def upper_end(interval: Interval) -> float:
    assert interval.upper is not None
    return interval.upper


@given(HITS_OF_TRIALS, CONFIDENCE)
def test_the_limits_leave_half_of_the_rest_on_each_side(
    case: tuple[int, int], confidence: float
) -> None:
    hits, trials = case
    lower, upper = ends(binomial_interval(hits, trials, confidence=confidence))
    tail = 0.5 * (1.0 - confidence)
    if hits == 0:
        assert lower == 0.0
    else:
        np.testing.assert_allclose(
            stats.binom.sf(hits - 1, trials, lower), tail, rtol=1e-7, atol=0
        )
    if hits == trials:
        assert upper == 1.0
    else:
        np.testing.assert_allclose(
            stats.binom.cdf(hits, trials, upper), tail, rtol=1e-7, atol=0
        )


@given(HITS_OF_TRIALS, CONFIDENCE)
def test_hits_and_misses_mirror_each_other(
    case: tuple[int, int], confidence: float
) -> None:
    hits, trials = case
    upper = upper_end(binomial_upper_limit(hits, trials, confidence=confidence))
    mirror = binomial_lower_limit(trials - hits, trials, confidence=confidence).lower
    assert mirror is not None
    np.testing.assert_allclose(upper, 1.0 - mirror, rtol=1e-8, atol=1e-12)


@pytest.mark.parametrize("hits", [0, 1, 3, 5])
def test_the_interval_covers_at_least_as_often_as_it_says(hits: int) -> None:
    # Exact coverage at a true proportion: the sum over the counts that cover it.
    trials, confidence = 12, 0.9
    proportion = hits / trials + 0.03
    weights = stats.binom.pmf(np.arange(trials + 1), trials, proportion)
    covered = 0.0
    for count, weight in enumerate(weights):
        interval = binomial_interval(count, trials, confidence=confidence)
        lower, upper = ends(interval)
        covered += weight * (lower <= proportion <= upper)
    assert confidence <= covered <= 1.0 + 1e-12


def test_none_of_n_is_the_closed_form() -> None:
    for trials in (1, 4, 20, 300, 10**6):
        limit = binomial_upper_limit(0, trials)
        np.testing.assert_allclose(
            upper_end(limit), -np.expm1(np.log(0.05) / trials), rtol=1e-9, atol=0
        )
        assert limit.lower is None


@given(st.floats(1e-4, 0.99), CONFIDENCE)
def test_the_number_of_trials_is_the_smallest_that_does(
    proportion: float, confidence: float
) -> None:
    needed = trials_needed_with_none_failing(proportion, confidence=confidence)
    enough = upper_end(binomial_upper_limit(0, needed, confidence=confidence))
    assert enough <= proportion * (1.0 + 1e-9)
    if needed > 1:
        fewer = binomial_upper_limit(0, needed - 1, confidence=confidence)
        assert upper_end(fewer) > proportion


def test_rounding_does_not_cost_a_trial() -> None:
    # 1 - 0.1^3 = 0.999 exactly: three trials at 90 % failing, not four.
    assert trials_needed_with_none_failing(0.9, confidence=0.999) == 3


@given(HITS_OF_TRIALS)
def test_the_expected_proportion_is_the_mean_of_its_posterior(
    case: tuple[int, int],
) -> None:
    hits, trials = case
    posterior = stats.beta(hits + 1, trials - hits + 1)
    np.testing.assert_allclose(
        expected_proportion(hits, trials), posterior.mean(), rtol=1e-12, atol=0
    )


def test_the_expected_proportion_needs_a_trial() -> None:
    with pytest.raises(ParameterError, match="trials was given as 0"):
        expected_proportion(0, 0)


def test_the_method_names_the_counts() -> None:
    assert binomial_interval(3, 50).method == (
        "exact binomial limits (Clopper-Pearson), 3 of 50, two-sided"
    )


@pytest.mark.parametrize(
    "limit", [binomial_interval, binomial_upper_limit, binomial_lower_limit]
)
@pytest.mark.parametrize(
    ("hits", "trials", "confidence", "fault"),
    [
        (-1, 5, 0.95, "hits was given as -1"),
        (0.5, 5, 0.95, "hits was given as 0.5"),
        (1, 5.0, 0.95, "trials was given as 5.0"),
        (0, 0, 0.95, "trials was given as 0"),
        (6, 5, 0.95, "at most the 5 trials"),
        (1, 5, 0.0, "confidence was given as 0.0"),
        (1, 5, 1.0, "confidence was given as 1.0"),
        (1, 5, nan, "confidence was given as nan"),
    ],
)
def test_wrong_calls_are_refused(
    limit: Callable[..., Interval],
    hits: float,
    trials: float,
    confidence: float,
    fault: str,
) -> None:
    with pytest.raises(ParameterError, match=fault):
        limit(hits, trials, confidence=confidence)


@pytest.mark.parametrize("proportion", [0.0, 1.0, -0.1, nan])
def test_a_failing_proportion_lies_between_zero_and_one(proportion: float) -> None:
    with pytest.raises(ParameterError, match="proportion was given as"):
        trials_needed_with_none_failing(proportion)


def test_the_confidence_of_needed_trials_lies_between_zero_and_one() -> None:
    with pytest.raises(ParameterError, match="confidence was given as 1.0"):
        trials_needed_with_none_failing(0.1, confidence=1.0)
