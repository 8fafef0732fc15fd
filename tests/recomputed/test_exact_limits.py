"""Exact limits of counts, recomputed by other means.

Status: computed. Sources of the numbers compared:

- tables of the project's check values 5.4 (computed there with scipy);
- statsmodels 0.15 (BSD licence), `proportion_confint` "beta" and
  `confint_poisson` "exact-c", over many counts;
- the product brief, Appendix A, lines "0 of n" and "No boundary over L" (computed
  there). The 0.95 in its ratios is judgement and no part of the limits.

Tolerance: half a unit of the last digit given, unless a line says otherwise.
"""

import numpy as np
import pytest
from statsmodels.stats.proportion import proportion_confint
from statsmodels.stats.rates import confint_poisson

from strandproof.quantity import (
    Interval,
    binomial_interval,
    binomial_lower_limit,
    binomial_upper_limit,
    expected_proportion,
    poisson_interval,
    poisson_upper_limit,
    probability_of_at_least,
    reciprocal_interval,
    trials_needed_with_none_failing,
)


def upper_end(interval: Interval) -> float:
    assert interval.upper is not None
    return interval.upper


def lower_end(interval: Interval) -> float:
    assert interval.lower is not None
    return interval.lower


def ends(interval: Interval) -> tuple[float, float]:
    return lower_end(interval), upper_end(interval)


# --- tables of the check values


@pytest.mark.parametrize(
    ("count", "lower", "upper"),
    [
        (0, 0.0, 3.6889),
        (1, 0.0253, 5.5716),
        (2, 0.2422, 7.2247),
        (3, 0.6187, 8.7673),
        (5, 1.6235, 11.6683),
        (10, 4.7954, 18.3904),
        (20, 12.2165, 30.8884),
        (100, 81.3640, 121.6268),
    ],
)
def test_garwood(count: int, lower: float, upper: float) -> None:
    interval = poisson_interval(count, exposure=1.0, unit="1")
    np.testing.assert_allclose(ends(interval), [lower, upper], rtol=0, atol=0.00005)


@pytest.mark.parametrize(
    ("count", "upper"),
    [(0, 2.9957), (1, 4.7439), (2, 6.2958), (3, 7.7537), (5, 10.5130), (10, 16.9622)],
)
def test_one_sided_poisson(count: int, upper: float) -> None:
    limit = poisson_upper_limit(count, exposure=1.0, unit="1")
    np.testing.assert_allclose(upper_end(limit), upper, rtol=0, atol=0.00005)


def test_one_sided_poisson_at_99_percent() -> None:
    limit = poisson_upper_limit(0, exposure=1.0, unit="1", confidence=0.99)
    np.testing.assert_allclose(upper_end(limit), 4.6052, rtol=0, atol=0.00005)


@pytest.mark.parametrize(
    ("hits", "trials", "lower", "upper"),
    [
        (0, 10, 0.0, 0.308497),
        (0, 30, 0.0, 0.115703),
        (0, 60, 0.0, 0.059629),
        (0, 100, 0.0, 0.036217),
        (1, 30, 0.000844, 0.172169),
        (5, 10, 0.187086, 0.812914),
        (10, 10, 0.691503, 1.0),
        (20, 100, 0.126656, 0.291843),
    ],
)
def test_clopper_pearson(hits: int, trials: int, lower: float, upper: float) -> None:
    interval = binomial_interval(hits, trials)
    np.testing.assert_allclose(ends(interval), [lower, upper], rtol=0, atol=5e-7)


@pytest.mark.parametrize(
    ("trials", "upper"),
    [(10, 0.258866), (20, 0.139108), (30, 0.095034), (60, 0.048703), (300, 0.009936)],
)
def test_none_of_n_one_sided(trials: int, upper: float) -> None:
    limit = binomial_upper_limit(0, trials)
    np.testing.assert_allclose(upper_end(limit), upper, rtol=0, atol=5e-7)


def test_none_of_20_sections_two_sided() -> None:
    # Check values 1.6: 16.8 % where the two-sided limit is meant.
    interval = binomial_interval(0, 20)
    np.testing.assert_allclose(upper_end(interval), 0.168, rtol=0, atol=0.0005)


@pytest.mark.parametrize(
    ("proportion", "needed"), [(0.10, 29), (0.05, 59), (0.01, 299), (0.001, 2995)]
)
def test_trials_needed(proportion: float, needed: int) -> None:
    assert trials_needed_with_none_failing(proportion) == needed


# --- statsmodels, over many counts

CONFIDENCES = [0.8, 0.95, 0.99]


@pytest.mark.parametrize("confidence", CONFIDENCES)
def test_proportions_agree_with_statsmodels(confidence: float) -> None:
    for trials in (1, 2, 3, 7, 20, 59, 300, 5000):
        for hits in sorted({0, 1, trials // 3, trials // 2, trials - 1, trials}):
            expected = proportion_confint(
                hits, trials, alpha=1.0 - confidence, method="beta"
            )
            found = ends(binomial_interval(hits, trials, confidence=confidence))
            np.testing.assert_allclose(found, expected, rtol=1e-9, atol=1e-14)


@pytest.mark.parametrize("confidence", CONFIDENCES)
def test_rates_agree_with_statsmodels(confidence: float) -> None:
    for exposure in (0.5, 36.0, 1e4):
        for count in (1, 2, 3, 5, 10, 45, 100, 1000, 100_000):
            expected = confint_poisson(
                count, exposure, method="exact-c", alpha=1.0 - confidence
            )
            interval = poisson_interval(
                count, exposure=exposure, unit="1", confidence=confidence
            )
            np.testing.assert_allclose(ends(interval), expected, rtol=1e-9, atol=0)


# --- product brief, Appendix A, "0 of n"


@pytest.mark.parametrize(
    ("trials", "percent", "digit"),
    [
        (1, 95.0, 0.1),
        (2, 77.6, 0.1),
        (3, 63.2, 0.1),
        (4, 52.7, 0.1),
        (5, 45.1, 0.1),
        (6, 39.3, 0.1),
        (10, 25.9, 0.1),
        (11, 23.8, 0.1),
        (24, 11.7, 0.1),
        (59, 4.95, 0.01),
        (60, 4.87, 0.01),
        (300, 0.99, 0.01),
    ],
)
def test_none_of_n_in_percent(trials: int, percent: float, digit: float) -> None:
    bound = 100.0 * upper_end(binomial_upper_limit(0, trials))
    np.testing.assert_allclose(bound, percent, rtol=0, atol=digit / 2)


@pytest.mark.parametrize(
    ("trials", "ratio", "digit"),
    [
        (1, 1.00, 0.01),
        (4, 1.80, 0.01),
        (5, 2.11, 0.01),
        (6, 2.42, 0.01),
        (20, 6.83, 0.01),
        (24, 8.10, 0.01),
        (60, 19.5, 0.1),
        (300, 95.6, 0.1),
    ],
)
def test_supported_ratio(trials: int, ratio: float, digit: float) -> None:
    bound = upper_end(binomial_upper_limit(0, trials))
    np.testing.assert_allclose(0.95 / bound, ratio, rtol=0, atol=digit / 2)


@pytest.mark.parametrize(("trials", "ratio"), [(4, 0.42), (24, 1.91)])
def test_ratio_that_the_controls_alone_support(trials: int, ratio: float) -> None:
    # Both of two oxygen-free controls read right: at least 0.224.
    right = lower_end(binomial_lower_limit(2, 2))
    np.testing.assert_allclose(right, 0.224, rtol=0, atol=0.0005)
    wrong = upper_end(binomial_upper_limit(0, trials))
    np.testing.assert_allclose(right / wrong, ratio, rtol=0, atol=0.005)


@pytest.mark.parametrize(("trials", "ratio"), [(4, 5.7), (20, 20.9), (24, 24.7)])
def test_expected_ratio_with_a_uniform_prior(trials: int, ratio: float) -> None:
    expected = expected_proportion(0, trials)
    np.testing.assert_allclose(0.95 / expected, ratio, rtol=0, atol=0.05)


# --- product brief, Appendix A, "No boundary over L"


@pytest.mark.parametrize(
    ("length_mm", "rate", "rate_digit", "spacing", "spacing_digit"),
    [
        (36.0, 0.0832, 1e-4, 12.0, 0.1),
        (120.0, 0.0250, 1e-4, 40.1, 0.1),
        # Check values 1.6, the same line for 50 mm.
        (50.0, 0.0599, 1e-4, 16.7, 0.1),
    ],
)
def test_no_boundary_over_a_length(
    length_mm: float,
    rate: float,
    rate_digit: float,
    spacing: float,
    spacing_digit: float,
) -> None:
    limit = poisson_upper_limit(0, exposure=length_mm, unit="1/mm")
    np.testing.assert_allclose(upper_end(limit), rate, rtol=0, atol=rate_digit / 2)
    mean_spacing = reciprocal_interval(limit, unit="mm")
    np.testing.assert_allclose(
        lower_end(mean_spacing), spacing, rtol=0, atol=spacing_digit / 2
    )


@pytest.mark.parametrize(
    ("count", "probability", "digit"), [(1, 9.0e-4, 1e-5), (2, 4.05e-7, 1e-9)]
)
def test_events_in_90_mm_at_one_per_100_m(
    count: int, probability: float, digit: float
) -> None:
    found = probability_of_at_least(count, expected=0.090 / 100.0)
    np.testing.assert_allclose(found, probability, rtol=0, atol=digit / 2)
