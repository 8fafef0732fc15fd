"""Monte Carlo against closed forms, and its verdict on the first order."""

from math import sqrt

import numpy as np
import pytest

from strandproof.errors import (
    DrawsOutsideDomainError,
    ModelCallError,
    ModelOutputError,
    ParameterError,
)
from strandproof.quantity import (
    Correlation,
    Input,
    Interval,
    ModelNumber,
    MonteCarloResult,
    Quantity,
    Readings,
    inputs_from_paired_readings,
    log,
    monte_carlo,
    normal_input,
    propagate,
    rectangular_input,
)

STANDARD_NORMAL = (normal_input("x", 0.0, 1.0, unit="1"),)


def itself(x: ModelNumber) -> ModelNumber:
    return x


def square(x: ModelNumber) -> ModelNumber:
    return x * x


def log_of_x(x: ModelNumber) -> ModelNumber:
    return log(x)


def ends(interval: Interval) -> tuple[float, float]:
    """Both ends of an interval that is open on neither side."""
    assert interval.lower is not None
    assert interval.upper is not None
    return interval.lower, interval.upper


def drawn(
    inputs: tuple[Input, ...] = STANDARD_NORMAL,
    *,
    draws: int = 200_000,
    seed: int = 7,
) -> MonteCarloResult:
    return monte_carlo(
        itself, inputs, unit="1", draws=draws, generator=np.random.default_rng(seed)
    )


def test_the_same_seed_gives_the_same_draws() -> None:
    one, other = drawn(draws=5_000), drawn(draws=5_000)
    assert one.sorted_draws.tolist() == other.sorted_draws.tolist()
    assert one.sorted_draws.tolist() != drawn(draws=5_000, seed=8).sorted_draws.tolist()


def test_every_draw_is_kept_in_order_and_read_only() -> None:
    result = drawn(draws=450_001)
    assert result.draws == 450_001
    assert bool(np.all(np.diff(result.sorted_draws) >= 0))
    with pytest.raises(ValueError, match="read-only"):
        result.sorted_draws[0] = 0.0


def test_a_normal_result_has_the_moments_and_limits_of_a_normal() -> None:
    result = drawn(draws=400_000)
    spread = 4.0 / sqrt(400_000)
    np.testing.assert_allclose(result.mean, 0.0, rtol=0, atol=spread)
    np.testing.assert_allclose(result.standard_deviation, 1.0, rtol=0, atol=spread)
    interval = result.symmetric_interval(0.95)
    # Standard error of the 2.5 % point: sqrt(p (1 - p) / M) / density.
    error = sqrt(0.025 * 0.975 / 400_000) / 0.05844
    np.testing.assert_allclose(
        ends(interval), [-1.95996, 1.95996], rtol=0, atol=4 * error
    )


def test_intervals_follow_the_rank_rule() -> None:
    draws = np.arange(1.0, 1001.0)
    result = MonteCarloResult(sorted_draws=draws, unit="1")
    interval = result.symmetric_interval(0.95)
    # q = 950, r = (1000 - 950) / 2 = 25: from the 25th to the 975th draw.
    assert (interval.lower, interval.upper) == (25.0, 975.0)


def test_an_odd_remainder_is_rounded_up() -> None:
    result = MonteCarloResult(sorted_draws=np.arange(1.0, 1002.0), unit="1")
    interval = result.symmetric_interval(0.95)
    # q = int(950.95 + 0.5) = 951, r = (1001 - 951) / 2 = 25: to the 976th draw.
    assert (interval.lower, interval.upper) == (25.0, 976.0)


def test_the_shortest_interval_of_an_exponential_starts_at_zero() -> None:
    draws = np.sort(np.random.default_rng(3).exponential(1.0, 200_000))
    result = MonteCarloResult(sorted_draws=draws, unit="1")
    shortest = result.shortest_interval(0.95)
    error = 4.0 * sqrt(0.05 * 0.95 / 200_000) / 0.05
    lower, upper = ends(shortest)
    assert lower < 0.01
    np.testing.assert_allclose(upper, np.log(20.0), rtol=0, atol=error)


def test_the_shortest_interval_is_never_longer() -> None:
    result = monte_carlo(
        square,
        STANDARD_NORMAL,
        unit="1",
        draws=50_000,
        generator=np.random.default_rng(4),
    )
    shortest = result.shortest_interval(0.9).half_width
    symmetric = result.symmetric_interval(0.9).half_width
    assert shortest is not None
    assert symmetric is not None
    assert shortest < symmetric


def test_a_straight_model_agrees_with_the_first_order() -> None:
    result = drawn()
    verdict = result.agreement_with(Quantity(0.0, "1", 1.0))
    assert verdict.agrees
    assert verdict.numerical_tolerance == 0.05
    assert not verdict.draws_sufficient
    assert drawn(draws=3_000_000).agreement_with(Quantity(0.0, "1", 1.0)).agrees


def test_enough_draws_are_recognised() -> None:
    verdict = drawn(draws=1_500_000).agreement_with(
        Quantity(0.0, "1", 1.0), significant_digits=1
    )
    assert verdict.agrees
    assert verdict.draws_sufficient
    assert verdict.numerical_tolerance == 0.5


def test_a_bent_model_does_not_agree_with_the_first_order() -> None:
    first_order = propagate(square, STANDARD_NORMAL, unit="1")
    result = monte_carlo(
        square,
        STANDARD_NORMAL,
        unit="1",
        draws=100_000,
        generator=np.random.default_rng(5),
    )
    verdict = result.agreement_with(first_order)
    assert not verdict.agrees
    assert verdict.upper_difference > 4.0
    assert verdict.first_order.half_width == 0.0


def test_a_certain_result_agrees_exactly() -> None:
    result = drawn((normal_input("x", 2.0, 0.0, unit="1"),), draws=1_000)
    verdict = result.agreement_with(Quantity(2.0, "1", 0.0))
    assert verdict.agrees
    assert verdict.numerical_tolerance == 0.0


def test_intervals_need_draws_outside_of_them() -> None:
    with pytest.raises(ParameterError, match="Take more draws"):
        drawn(draws=1_000).symmetric_interval(0.999)
    with pytest.raises(ParameterError, match="confidence was given as 1"):
        drawn(draws=1_000).shortest_interval(1.0)


def test_agreement_needs_the_same_unit() -> None:
    with pytest.raises(ParameterError, match="the unit '1'"):
        drawn(draws=1_000).agreement_with(Quantity(0.0, "m", 1.0))


@pytest.mark.parametrize("digits", [0, 3])
def test_agreement_looks_at_one_or_two_digits(digits: int) -> None:
    with pytest.raises(ParameterError, match="allowed is 1 or 2"):
        drawn(draws=1_000).agreement_with(
            Quantity(0.0, "1", 1.0), significant_digits=digits
        )


@pytest.mark.parametrize("coefficient", [0.6, -0.6, 1.0, -1.0])
def test_correlated_normal_inputs_keep_their_correlation(coefficient: float) -> None:
    inputs = (
        normal_input("x", 0.0, 3.0, unit="1"),
        normal_input("y", 0.0, 4.0, unit="1"),
    )
    result = monte_carlo(
        lambda x, y: x + y,
        inputs,
        unit="1",
        draws=200_000,
        generator=np.random.default_rng(6),
        correlations=(Correlation("x", "y", coefficient),),
    )
    expected = sqrt(9.0 + 16.0 + 24.0 * coefficient)
    np.testing.assert_allclose(
        result.standard_deviation, expected, rtol=4.0 / sqrt(400_000), atol=1e-6
    )


def test_paired_readings_scatter_like_their_difference() -> None:
    inputs, correlations = inputs_from_paired_readings(
        (
            Readings(name="x", values=(1.0, 2.0, 4.0, 3.0, 5.0, 4.5), unit="1"),
            Readings(name="y", values=(2.0, 2.5, 4.5, 3.0, 6.5, 4.0), unit="1"),
        ),
        ensemble="rounds",
    )
    result = monte_carlo(
        lambda x, y: y - x,
        inputs,
        unit="1",
        draws=200_000,
        generator=np.random.default_rng(9),
        correlations=correlations,
    )
    # Student t with 5 degrees of freedom of the differences, by hand.
    first_order = propagate(
        lambda x, y: y - x, inputs, unit="1", correlations=correlations
    )
    verdict = result.agreement_with(first_order)
    error = 4.0 * sqrt(0.025 * 0.975 / 200_000) / 0.0263
    assert verdict.upper_difference < error * first_order.standard_uncertainty
    assert verdict.lower_difference < error * first_order.standard_uncertainty


def test_correlated_rectangular_inputs_are_refused() -> None:
    inputs = (
        rectangular_input("x", 0.0, 1.0, unit="1"),
        rectangular_input("y", 0.0, 1.0, unit="1"),
    )
    with pytest.raises(ParameterError, match="model the common cause"):
        monte_carlo(
            lambda x, y: x + y,
            inputs,
            unit="1",
            draws=1_000,
            generator=np.random.default_rng(1),
            correlations=(Correlation("x", "y", 0.5),),
        )


def test_draws_outside_of_the_domain_are_counted() -> None:
    with pytest.raises(DrawsOutsideDomainError, match=r"for \d+ of 1000 draws"):
        monte_carlo(
            log_of_x,
            STANDARD_NORMAL,
            unit="1",
            draws=1_000,
            generator=np.random.default_rng(1),
        )


def test_a_model_has_to_give_one_result_for_each_draw() -> None:
    with pytest.raises(ModelOutputError, match="one result for each of 1000 draws"):
        monte_carlo(
            lambda x: x.mean(),
            STANDARD_NORMAL,
            unit="1",
            draws=1_000,
            generator=np.random.default_rng(1),
        )


def test_a_model_with_other_parameters_is_refused() -> None:
    with pytest.raises(ModelCallError, match="Name the model's parameters"):
        monte_carlo(
            lambda y: y,
            STANDARD_NORMAL,
            unit="1",
            draws=1_000,
            generator=np.random.default_rng(1),
        )


def test_few_draws_are_refused() -> None:
    with pytest.raises(ParameterError, match="draws was given as 999"):
        drawn(draws=999)
