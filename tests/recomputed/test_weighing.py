"""Numbers of weighing, reach and length, recomputed by other means.

Status: computed. Sources of the numbers compared:

- the product brief: M20, M21, S6, S8, section 2.2 (H0), section 3 facts 4, 9 and
  10, Appendix A "0 of n" and "No boundary over L" (computed there; its 0.95 and
  0.5 of 100 are judgement and are inputs here, not results);
- the project's copper facts 8.5 (rows 1 and 3) and 8.6 (computed there);
- scipy (beta, binomial, Poisson, quadrature) and statsmodels 0.15
  `proportion_confint` "beta", run here.

Nothing published was read for this part, so there is no file of it in
`tests/reference`. Tolerance: half a unit of the last digit given, unless a line
says otherwise.
"""

from math import exp

import numpy as np
import pytest
from scipy import integrate, optimize, stats
from statsmodels.stats.proportion import proportion_confint

from strandproof.records.entries import Control, Likelihood
from strandproof.weighing import (
    ControlReading,
    ControlSeries,
    ControlsSupport,
    control_bound,
    controls_support,
    error_prior,
    event_chances,
    expected_error,
    likelihood_ratio,
    no_boundary_bound,
    pooled_support,
    reach_statement,
    right_bound,
)

JUDGED = 0.95


def read_right(kind: str, count: int, *, mounts: int = 1) -> list[ControlReading]:
    single = kind == "single_crystal"
    return [
        ControlReading(
            control=Control(
                id=f"{kind}-{number}",
                specimen=f"S{number}",
                kind="single_crystal" if single else "polycrystal",
                known_by="papers",
                mount=f"m{number % mounts}",
            ),
            verdict="none_resolved" if single else "boundaries",
            blind=True,
        )
        for number in range(count)
    ]


def grains_support(single: int, soft: int, *, mounts: int = 1) -> ControlsSupport:
    support = controls_support(
        read_right("single_crystal", single, mounts=mounts) + read_right("soft", soft),
        first="polycrystal",
        second="single_crystal",
        outcome="boundaries",
        numerator=JUDGED,
    )
    assert support is not None
    return support


# --- Appendix A, "0 of n"

ZERO_OF_N = [
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
]


@pytest.mark.parametrize(("count", "percent", "digit"), ZERO_OF_N)
def test_none_wrong_of_n(count: int, percent: float, digit: float) -> None:
    bound = control_bound(count)
    np.testing.assert_allclose(100 * bound, percent, rtol=0, atol=digit / 2)
    # One-sided 95 % is one end of a two-sided 90 % interval.
    upper = proportion_confint(0, count, alpha=0.1, method="beta")[1]
    np.testing.assert_allclose(bound, upper, rtol=1e-9, atol=0)
    np.testing.assert_allclose(bound, stats.beta.ppf(0.95, 1, count), rtol=1e-9, atol=0)


@pytest.mark.parametrize(
    ("count", "wrong"), [(1, 1), (4, 1), (24, 1), (24, 3), (60, 59), (300, 12)]
)
def test_bounds_with_errors_by_inverting_the_binomial(count: int, wrong: int) -> None:
    # The bound is the rate at which so few errors have a chance of 5 %.
    if wrong < count:
        root = optimize.brentq(
            lambda rate: stats.binom.cdf(wrong, count, rate) - 0.05, 1e-9, 1 - 1e-9
        )
        np.testing.assert_allclose(
            control_bound(count, wrong=wrong), root, rtol=1e-7, atol=0
        )
    else:
        assert control_bound(count, wrong=wrong) == 1.0
    expected = proportion_confint(wrong, count, alpha=0.1, method="beta")[1]
    np.testing.assert_allclose(
        1 - right_bound(count, wrong=wrong), expected, rtol=1e-9, atol=0
    )


@pytest.mark.parametrize(
    ("count", "ratio", "digit"),
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
def test_supported_ratio(count: int, ratio: float, digit: float) -> None:
    support = grains_support(count, 0)
    np.testing.assert_allclose(support.ratio, ratio, rtol=0, atol=digit / 2)
    again = JUDGED / stats.beta.ppf(0.95, 1, count)
    np.testing.assert_allclose(support.ratio, again, rtol=1e-9, atol=0)


@pytest.mark.parametrize(("count", "ratio"), [(4, 5.7), (20, 20.9), (24, 24.7)])
def test_expected_ratio_with_the_uniform_prior(count: int, ratio: float) -> None:
    found = grains_support(count, 0).expected_ratio
    np.testing.assert_allclose(found, ratio, rtol=0, atol=0.05)
    np.testing.assert_allclose(found, JUDGED * (count + 2), rtol=1e-12, atol=0)


@pytest.mark.parametrize("name", ["uniform", "jeffreys"])
@pytest.mark.parametrize(("count", "wrong"), [(0, 0), (4, 0), (24, 0), (24, 2)])
def test_expected_error_is_the_mean_of_the_posterior(
    name: str, count: int, wrong: int
) -> None:
    prior = error_prior(name)
    found = expected_error(count, wrong=wrong, prior=prior)
    updated = stats.beta(prior.wrong + wrong, prior.right + count - wrong)
    np.testing.assert_allclose(found, updated.mean(), rtol=1e-12, atol=0)
    mean, _ = integrate.quad(lambda rate: rate * updated.pdf(rate), 0, 1)
    np.testing.assert_allclose(found, mean, rtol=1e-6, atol=0)


# --- M21


def test_two_oxygen_free_controls_support_0_224() -> None:
    np.testing.assert_allclose(right_bound(2), 0.224, rtol=0, atol=0.0005)
    np.testing.assert_allclose(right_bound(2), 0.05**0.5, rtol=1e-12, atol=0)
    lower = proportion_confint(2, 2, alpha=0.1, method="beta")[0]
    np.testing.assert_allclose(right_bound(2), lower, rtol=1e-9, atol=0)


@pytest.mark.parametrize(("count", "ratio"), [(4, 0.42), (24, 1.91)])
def test_ratio_without_the_judged_numerator(count: int, ratio: float) -> None:
    found = grains_support(count, 2).ratio_unjudged
    assert found is not None
    np.testing.assert_allclose(found, ratio, rtol=0, atol=0.005)
    again = stats.beta.ppf(0.05, 2, 1) / stats.beta.ppf(0.95, 1, count)
    np.testing.assert_allclose(found, again, rtol=1e-9, atol=0)


def test_best_estimate_of_m21() -> None:
    entries = [
        Likelihood(
            hypothesis=name,
            best=best,
            lower=0,
            upper=upper,
            status="judgement",
            source="the brief",
        )
        for name, best, upper in (("X4", 0.95, 1.0), ("X1", 0.005, 0.12))
    ]
    assert likelihood_ratio(*entries).best == 190.0


def test_the_range_of_m21_is_the_bound_from_24_controls() -> None:
    # "0-12 of 100, from 24 blind single-crystal controls".
    np.testing.assert_allclose(100 * control_bound(24), 12, rtol=0, atol=0.5)


# --- S8


def test_20_more_controls_pooled_and_apart() -> None:
    pooled = pooled_support(
        [ControlSeries(name="4", trials=4), ControlSeries(name="20", trials=20)],
        numerator=JUDGED,
    )
    np.testing.assert_allclose(
        [pooled.together, *pooled.apart], [8.1, 1.8, 6.8], rtol=0, atol=0.05
    )


def test_24_controls_in_five_mounts() -> None:
    support = grains_support(24, 0, mounts=5)
    mounts = {rate.level: rate.trials for rate in support.groups}
    assert mounts["mount"] == 5
    np.testing.assert_allclose(support.group_ratios["mount"], 2.1, rtol=0, atol=0.05)
    np.testing.assert_allclose(support.ratio, 8.1, rtol=0, atol=0.05)


# --- facts 9 and 10, H0, copper facts 8.5


@pytest.mark.parametrize(
    ("count", "ratio", "digit"),
    [(4, 1.8, 0.1), (24, 8.1, 0.1), (60, 20, 1), (300, 96, 1)],
)
def test_fact_9(count: int, ratio: float, digit: float) -> None:
    found = grains_support(count, 0).ratio
    np.testing.assert_allclose(found, ratio, rtol=0, atol=digit / 2)


@pytest.mark.parametrize(("count", "ratio"), [(1, 1.0), (2, 1.2)])
def test_soft_controls_alone_for_nothing_resolved(count: int, ratio: float) -> None:
    # H0: one; copper facts 8.5, row 3: two.
    support = controls_support(
        read_right("soft", count),
        first="single_crystal",
        second="polycrystal",
        outcome="none_resolved",
        numerator=JUDGED,
    )
    assert support is not None
    np.testing.assert_allclose(support.ratio, ratio, rtol=0, atol=0.05)


@pytest.mark.parametrize(("tested", "percent"), [(1, 95), (3, 63), (11, 24), (59, 5)])
def test_fact_10_none_conforming(tested: int, percent: int) -> None:
    reach = reach_statement(tested, 0)
    assert f"up to {percent} % could still match (95 % bound)" in reach.sentence


# --- M20


def test_m20_needs_11() -> None:
    assert reach_statement(3, 0).needed == 11
    below = [stats.beta.ppf(0.95, 1, count) < 0.25 for count in range(1, 12)]
    assert below == [False] * 10 + [True]


@pytest.mark.parametrize(("tested", "matching"), [(5, 1), (3, 3), (20, 19), (7, 0)])
def test_reach_agrees_with_statsmodels(tested: int, matching: int) -> None:
    limits = reach_statement(tested, matching).limits
    mixed = 0 < matching < tested
    lower, upper = proportion_confint(
        matching, tested, alpha=0.05 if mixed else 0.1, method="beta"
    )
    if limits.lower is not None:
        np.testing.assert_allclose(limits.lower, lower, rtol=1e-9, atol=0)
    if limits.upper is not None:
        np.testing.assert_allclose(limits.upper, upper, rtol=1e-9, atol=0)
    assert (limits.lower is None) == (matching == 0)
    assert (limits.upper is None) == (matching == tested)


# --- S6, and copper facts 8.6


@pytest.mark.parametrize(
    ("length_mm", "rate", "rate_digit", "spacing_mm", "spacing_digit"),
    [(36, 0.0832, 1e-4, 12.0, 0.1), (120, 0.0250, 1e-4, 40.1, 0.1)],
)
def test_nothing_resolved_over_a_length(
    length_mm: float,
    rate: float,
    rate_digit: float,
    spacing_mm: float,
    spacing_digit: float,
) -> None:
    bound = no_boundary_bound(length_mm)
    assert bound.rate.upper is not None
    assert bound.spacing.lower is not None
    np.testing.assert_allclose(bound.rate.upper, rate, rtol=0, atol=rate_digit / 2)
    np.testing.assert_allclose(
        bound.spacing.lower, spacing_mm, rtol=0, atol=spacing_digit / 2
    )
    # At the bound an empty length has a chance of 5 %.
    chance = stats.poisson.pmf(0, bound.rate.upper * length_mm)
    np.testing.assert_allclose(chance, 0.05, rtol=1e-12, atol=0)


@pytest.mark.parametrize(
    ("length_mm", "spacing_mm", "digit"),
    [
        (5, 1.7, 0.1),
        (10, 3.3, 0.1),
        (20, 6.7, 0.1),
        (50, 17, 1),
        (100, 33, 1),
        (1000, 334, 1),
    ],
)
def test_table_of_the_copper_facts(
    length_mm: float, spacing_mm: float, digit: float
) -> None:
    found = no_boundary_bound(length_mm).spacing.lower
    assert found is not None
    np.testing.assert_allclose(found, spacing_mm, rtol=0, atol=digit / 2)


@pytest.mark.parametrize(("spoken_m", "needed_m"), [(1, 3), (5, 15), (100, 300)])
def test_length_needed(spoken_m: float, needed_m: float) -> None:
    found = no_boundary_bound(36, speak_of_m=spoken_m).needed_m[0][1]
    # "About": 2.996 is called 3.
    np.testing.assert_allclose(found, needed_m, rtol=0.002, atol=0)


# --- fact 4, and copper facts 8.6


@pytest.mark.parametrize(
    ("spacing_m", "length_mm", "one", "two", "digits"),
    [
        (100, 90, 9.0e-4, 4.05e-7, (1e-5, 1e-9)),
        (100, 100, 1.0e-3, 5.0e-7, (1e-4, 1e-8)),
        (1, 20, 0.020, 2.0e-4, (1e-3, 1e-5)),
        (1, 100, 0.095, 4.7e-3, (1e-3, 1e-4)),
        (5, 20, 4.0e-3, 8.0e-6, (1e-4, 1e-7)),
        (5, 100, 0.020, 2.0e-4, (1e-3, 1e-5)),
    ],
)
def test_chance_of_events(
    spacing_m: float,
    length_mm: float,
    one: float,
    two: float,
    digits: tuple[float, float],
) -> None:
    chances = event_chances(length_mm, mean_spacing_m=spacing_m)
    np.testing.assert_allclose(chances.at_least_one, one, rtol=0, atol=digits[0] / 2)
    np.testing.assert_allclose(
        chances.at_least_two_independent, two, rtol=0, atol=digits[1] / 2
    )
    mean = length_mm / 1000 / spacing_m
    np.testing.assert_allclose(chances.at_least_one, 1 - exp(-mean), rtol=1e-9, atol=0)
    np.testing.assert_allclose(
        chances.at_least_two_independent,
        stats.poisson.sf(1, mean),
        rtol=1e-9,
        atol=0,
    )
