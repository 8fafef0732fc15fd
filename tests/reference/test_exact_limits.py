"""Exact Poisson and binomial limits that other programs print.

Sources (status: read; numbers only):

- documentation of the R package epitools, exact Poisson limits for a count of 0;
- test suite of statsmodels 0.15 (BSD licence), which holds values made with R:
  Poisson, 15 events in an exposure of 400;
- test suite of scipy 1.17 (BSD licence), which holds values of R 3.6.2
  `binom.test`: 20 of 100, 3 of 50 at 99 %, 0 of 10, 10 of 10.

Tolerance: half a unit of the last printed digit.
"""

import numpy as np

from strandproof.quantity import (
    Interval,
    binomial_interval,
    binomial_lower_limit,
    binomial_upper_limit,
    poisson_interval,
    poisson_upper_limit,
)


def ends(interval: Interval) -> list[float]:
    """Those ends that are not open."""
    return [end for end in (interval.lower, interval.upper) if end is not None]


def test_epitools_no_event_two_sided() -> None:
    interval = poisson_interval(0, exposure=1.0, unit="1")
    np.testing.assert_allclose(ends(interval), [0.0, 3.689], rtol=0, atol=0.0005)


def test_epitools_no_event_one_sided() -> None:
    # Printed as the method of Daly, which is one-sided where the count is 0.
    limit = poisson_upper_limit(0, exposure=1.0, unit="1")
    np.testing.assert_allclose(ends(limit), [2.996], rtol=0, atol=0.0005)


def test_r_fifteen_events_in_400() -> None:
    interval = poisson_interval(15, exposure=400.0, unit="1")
    np.testing.assert_allclose(
        ends(interval), [0.0209884653319583, 0.0618505471787146], rtol=0, atol=5e-16
    )


def test_r_20_of_100() -> None:
    np.testing.assert_allclose(
        ends(binomial_interval(20, 100)),
        [0.1266555521, 0.2918426891],
        rtol=0,
        atol=5e-11,
    )


def test_r_3_of_50() -> None:
    interval = binomial_interval(3, 50, confidence=0.99)
    np.testing.assert_allclose(
        ends(interval), [0.006872485, 0.202706269], rtol=0, atol=5e-10
    )


def test_r_3_of_50_one_sided() -> None:
    upper = binomial_upper_limit(3, 50, confidence=0.99)
    lower = binomial_lower_limit(3, 50, confidence=0.99)
    np.testing.assert_allclose(ends(upper), [0.1872093], rtol=0, atol=5e-8)
    np.testing.assert_allclose(ends(lower), [0.008860761], rtol=0, atol=5e-10)


def test_r_0_of_10() -> None:
    np.testing.assert_allclose(
        ends(binomial_interval(0, 10)), [0.0, 0.3084971], rtol=0, atol=5e-8
    )
    np.testing.assert_allclose(
        ends(binomial_upper_limit(0, 10)), [0.2588656], rtol=0, atol=5e-8
    )


def test_r_10_of_10() -> None:
    np.testing.assert_allclose(
        ends(binomial_interval(10, 10)), [0.6915029, 1.0], rtol=0, atol=5e-8
    )
    np.testing.assert_allclose(
        ends(binomial_lower_limit(10, 10)), [0.7411344], rtol=0, atol=5e-8
    )
