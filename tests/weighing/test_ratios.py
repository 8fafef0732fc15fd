from itertools import product

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from strandproof.records.entries import Likelihood
from strandproof.weighing import likelihood_ratio, weighing_rules
from strandproof.weighing.likelihoods import LikelihoodStatus


def entry(
    name: str,
    best: float,
    lower: float,
    upper: float,
    status: LikelihoodStatus = "data",
) -> Likelihood:
    return Likelihood(
        hypothesis=name, best=best, lower=lower, upper=upper, status=status, source="s"
    )


@st.composite
def entries(draw: st.DrawFn, name: str) -> Likelihood:
    numbers = st.one_of(st.just(0.0), st.floats(1e-3, 1.0))
    lower, best, upper = sorted(draw(st.tuples(numbers, numbers, numbers)))
    return entry(name, best, lower, upper)


X4 = entry("X4", 0.95, 0.90, 0.99, "judgement")
X1 = entry("X1", 0.005, 0.0, 0.12)


def test_best_estimate_and_range() -> None:
    ratio = likelihood_ratio(X4, X1)
    assert ratio.best == 190.0
    assert ratio.lower == 7.5
    assert ratio.upper is None
    assert ratio.words == "best estimate 190, moderately strong, judgement"
    assert ratio.range_in_words == "Range 7.5 (weak) to unbounded for X4"


def test_the_range_is_that_of_the_four_corners() -> None:
    first, second = entry("A", 0.5, 0.2, 0.6), entry("B", 0.1, 0.05, 0.4)
    ratio = likelihood_ratio(first, second)
    corners = [
        one / two
        for one, two in product((first.lower, first.upper), (second.lower, 0.4))
    ]
    assert ratio.lower is not None
    assert ratio.upper is not None
    np.testing.assert_allclose(
        [ratio.lower, ratio.upper], [min(corners), max(corners)], rtol=1e-11, atol=0
    )


@given(first=entries("A"), second=entries("B"))
def test_swapping_the_hypotheses_inverts_the_ratio(
    first: Likelihood, second: Likelihood
) -> None:
    ratio, swapped = likelihood_ratio(first, second), likelihood_ratio(second, first)
    if ratio.best and swapped.best:
        np.testing.assert_allclose(ratio.best * swapped.best, 1.0, rtol=1e-10, atol=0)
    for one, other in ((ratio.lower, swapped.upper), (ratio.upper, swapped.lower)):
        if one == 0 or other == 0 or one is None or other is None:
            # Zero one way is unbounded the other way, and the reverse.
            assert {one, other} == {0.0, None}
        else:
            np.testing.assert_allclose(one * other, 1.0, rtol=1e-10, atol=0)
    assert ratio.status == swapped.status
    assert ratio.no_help == swapped.no_help


@given(first=entries("A"), second=entries("B"))
def test_the_best_estimate_lies_inside_of_its_range(
    first: Likelihood, second: Likelihood
) -> None:
    ratio = likelihood_ratio(first, second)
    if ratio.best is not None:
        assert ratio.lower is not None
        assert ratio.lower <= ratio.best
        assert ratio.upper is None or ratio.best <= ratio.upper


def test_equal_sides_are_no_help() -> None:
    ratio = likelihood_ratio(X4, entry("X3", 0.95, 0.90, 0.99))
    assert ratio.no_help
    assert ratio.words == "about 1: no help, judgement"


def test_nearly_equal_sides_are_no_help_either_and_show_the_number() -> None:
    ratio = likelihood_ratio(entry("A", 0.9, 0.8, 1), entry("B", 0.6, 0.5, 0.7))
    assert ratio.words == "about 1 (1.5): no help, data"


def test_a_range_that_turns_round_says_for_whom() -> None:
    ratio = likelihood_ratio(entry("A", 0.5, 0.01, 0.9), entry("B", 0.4, 0.2, 0.5))
    assert ratio.range_in_words == "Range 0.020 (moderate for B) to 4.5 (weak)"


@pytest.mark.parametrize(("one", "two"), [(0.0, 0.0), (0.0009, 0.0), (0.0009, 1e-6)])
def test_two_sides_near_zero_give_no_ratio_but_words(one: float, two: float) -> None:
    ratio = likelihood_ratio(entry("A", one, 0, 0.5), entry("B", two, 0, 0.5))
    assert ratio.best is None
    assert "near zero" in ratio.words
    assert (ratio.lower, ratio.upper) == (0.0, None)


def test_near_zero_sides_of_joint_likelihoods_do_give_one() -> None:
    rules = weighing_rules().for_joint_likelihoods()
    first, second = entry("A", 8e-4, 0, 1), entry("B", 1e-6, 0, 1)
    assert likelihood_ratio(first, second, rules=rules).best == 800.0
    nothing = likelihood_ratio(entry("A", 0, 0, 1), entry("B", 0, 0, 1), rules=rules)
    assert nothing.best is None
    assert "near zero" in nothing.words


def test_a_probability_of_zero_leaves_no_room_for_a_blunder() -> None:
    ratio = likelihood_ratio(X4, entry("X1", 0.0, 0.0, 0.1))
    assert ratio.best is None
    assert "no room for a blunder" in ratio.words
    assert ratio.upper is None
    np.testing.assert_allclose(ratio.lower or 0, 9.0, rtol=1e-11, atol=0)


def test_certainty_of_zero_leaves_both_ends_unbounded() -> None:
    ratio = likelihood_ratio(X4, entry("X1", 0.0, 0.0, 0.0))
    assert (ratio.lower, ratio.upper) == (None, None)


@pytest.mark.parametrize("numerator", [0.95, 0.9, 0.7, 0.6, 0.3, 0.21])
def test_a_ratio_meant_to_be_100_is_100(numerator: float) -> None:
    # 0.9 / (0.9 / 100) is 99.99999999999999 in binary and would lose its word.
    first = entry("A", numerator, 0, 1)
    ratio = likelihood_ratio(first, entry("B", numerator / 100, 0, 1))
    assert ratio.best == 100.0
