"""Exact Poisson limits: what defines them, and their faults."""

from collections.abc import Callable
from math import exp, inf, nan

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from strandproof.errors import ParameterError
from strandproof.quantity import (
    Interval,
    poisson_interval,
    poisson_lower_limit,
    poisson_upper_limit,
    probability_of_at_least,
    reciprocal_interval,
)

COUNT = st.integers(0, 2000)
CONFIDENCE = st.floats(0.5, 0.999)


def ends(interval: Interval) -> tuple[float, float]:
    """Both ends of an interval that is open on neither side."""
    assert interval.lower is not None
    assert interval.upper is not None
    return interval.lower, interval.upper


def upper_end(interval: Interval) -> float:
    assert interval.upper is not None
    return interval.upper


def lower_end(interval: Interval) -> float:
    assert interval.lower is not None
    return interval.lower


@given(COUNT, CONFIDENCE)
def test_the_limits_leave_half_of_the_rest_on_each_side(
    count: int, confidence: float
) -> None:
    interval = poisson_interval(count, exposure=1.0, unit="1", confidence=confidence)
    lower, upper = ends(interval)
    tail = 0.5 * (1.0 - confidence)
    np.testing.assert_allclose(stats.poisson.cdf(count, upper), tail, rtol=1e-8, atol=0)
    if count == 0:
        assert lower == 0.0
    else:
        np.testing.assert_allclose(
            stats.poisson.sf(count - 1, lower), tail, rtol=1e-8, atol=0
        )


@given(COUNT, st.floats(1e-3, 1e6))
def test_limits_of_a_rate_go_inversely_with_the_exposure(
    count: int, exposure: float
) -> None:
    one = upper_end(poisson_upper_limit(count, exposure=1.0, unit="1"))
    many = upper_end(poisson_upper_limit(count, exposure=exposure, unit="1/mm"))
    np.testing.assert_allclose(many * exposure, one, rtol=1e-12, atol=0)


@given(COUNT, CONFIDENCE)
def test_one_sided_limits_lie_inside_of_the_two_sided(
    count: int, confidence: float
) -> None:
    both = poisson_interval(count, exposure=1.0, unit="1", confidence=confidence)
    upper = poisson_upper_limit(count, exposure=1.0, unit="1", confidence=confidence)
    lower = poisson_lower_limit(count, exposure=1.0, unit="1", confidence=confidence)
    assert upper.lower is None
    assert lower.upper is None
    least, most = ends(both)
    assert least <= lower_end(lower) <= count <= upper_end(upper) < most


def test_no_event_is_the_closed_form() -> None:
    limit = poisson_upper_limit(0, exposure=50.0, unit="1/mm", confidence=0.95)
    np.testing.assert_allclose(
        upper_end(limit), -np.log(0.05) / 50.0, rtol=1e-14, atol=0
    )
    assert limit.method == "exact Poisson limit, 0 events, one-sided upper"


LIMITS = [poisson_interval, poisson_upper_limit, poisson_lower_limit]


@pytest.mark.parametrize("limit", LIMITS)
@pytest.mark.parametrize(
    ("count", "exposure", "confidence", "fault"),
    [
        (-1, 1.0, 0.95, "count was given as -1"),
        (1.5, 1.0, 0.95, "count was given as 1.5"),
        (1, 0.0, 0.95, "no rate can be stated"),
        (1, -1.0, 0.95, "exposure was given as -1.0"),
        (1, inf, 0.95, "exposure was given as inf"),
        (1, nan, 0.95, "exposure was given as nan"),
        (1, 1.0, 0.0, "confidence was given as 0.0"),
        (1, 1.0, 1.0, "confidence was given as 1.0"),
    ],
)
def test_wrong_calls_are_refused(
    limit: Callable[..., Interval],
    count: float,
    exposure: float,
    confidence: float,
    fault: str,
) -> None:
    with pytest.raises(ParameterError, match=fault):
        limit(count, exposure=exposure, unit="1/mm", confidence=confidence)


def test_probability_of_at_least_has_closed_forms() -> None:
    assert probability_of_at_least(0, expected=3.0) == 1.0
    np.testing.assert_allclose(
        probability_of_at_least(1, expected=3.0), 1.0 - exp(-3.0), rtol=1e-12, atol=0
    )
    np.testing.assert_allclose(
        probability_of_at_least(2, expected=3.0),
        1.0 - 4.0 * exp(-3.0),
        rtol=1e-12,
        atol=0,
    )


@pytest.mark.parametrize("expected", [-0.1, inf, nan])
def test_an_expectation_is_zero_or_above(expected: float) -> None:
    with pytest.raises(ParameterError, match="expected was given as"):
        probability_of_at_least(1, expected=expected)


def test_the_reciprocal_swaps_the_ends() -> None:
    rate = poisson_interval(3, exposure=10.0, unit="1/mm")
    spacing = reciprocal_interval(rate, unit="mm")
    least, most = ends(rate)
    assert (spacing.lower, spacing.upper) == (1.0 / most, 1.0 / least)
    assert spacing.unit == "mm"
    assert spacing.method.startswith("reciprocal of: exact Poisson limits")


def test_a_rate_that_may_be_zero_leaves_the_spacing_open() -> None:
    rate = poisson_interval(0, exposure=10.0, unit="1/mm")
    assert reciprocal_interval(rate, unit="mm").upper is None
    one_sided = poisson_lower_limit(3, exposure=10.0, unit="1/mm")
    assert reciprocal_interval(one_sided, unit="mm").lower is None


def test_negative_limits_have_no_reciprocal_here() -> None:
    interval = Interval(lower=-1.0, upper=1.0, unit="1", confidence=0.95, method="t")
    with pytest.raises(ParameterError, match="limits of zero or above"):
        reciprocal_interval(interval, unit="1")
