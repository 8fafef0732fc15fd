import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from strandproof.electrical import conformance_probability, decide_conformity
from strandproof.errors import ParameterError
from strandproof.quantity import Quantity
from strandproof.records.electrical import DecisionRule


@pytest.mark.parametrize(
    ("value", "decision"),
    [
        (10.0, "undetermined"),
        (10.164, "undetermined"),
        (10.165, "conforms"),
        (9.836, "undetermined"),
        (9.835, "does not conform"),
    ],
)
def test_guard_band_of_five_percent(value: float, decision: str) -> None:
    found = decide_conformity(Quantity(value, "mm", 0.1), limit=10.0, side="at_least")
    assert found.decision == decision
    np.testing.assert_allclose(found.guard_band, 0.16449, rtol=0, atol=5e-6)
    assert decision == "undetermined" or found.risk <= 0.05


def test_guard_band_as_a_share_of_the_expanded_uncertainty() -> None:
    # Check values 5.3 (from memory / computed): w = 1.645 u = 0.822 U, U = 2 u.
    found = decide_conformity(Quantity(10.0, "mm", 0.1), limit=10.0, side="at_least")
    np.testing.assert_allclose(found.guard_band / 0.2, 0.822, rtol=0, atol=0.0005)


def test_a_guard_band_of_the_whole_expanded_uncertainty() -> None:
    # r = 1 leaves at most 2.3 % (2.275 %) of false acceptance.
    rule = DecisionRule(maximum_risk=0.0227501)
    found = decide_conformity(
        Quantity(10.2001, "mm", 0.1), limit=10.0, side="at_least", rule=rule
    )
    np.testing.assert_allclose(found.guard_band, 0.2, rtol=1e-5)
    assert found.decision == "conforms"
    np.testing.assert_allclose(found.risk, 0.0227, rtol=0, atol=5e-5)


def test_simple_acceptance_is_wrong_half_of_the_time_at_the_limit() -> None:
    rule = DecisionRule(guard="none")
    found = decide_conformity(
        Quantity(10.0, "mm", 0.1), limit=10.0, side="at_most", rule=rule
    )
    assert found.decision == "conforms"
    assert found.guard_band == 0.0
    np.testing.assert_allclose(found.risk, 0.5, rtol=1e-12)
    assert "no guard band" in found.sentence


def test_few_degrees_of_freedom_widen_the_guard_band() -> None:
    found = decide_conformity(
        Quantity(10.0, "mm", 0.1, 2.0), limit=10.0, side="at_most"
    )
    # t(0.95, 2) = 2.920
    np.testing.assert_allclose(found.guard_band, 0.2920, rtol=0, atol=5e-5)


def test_rule_and_risk_stand_in_the_sentence() -> None:
    found = decide_conformity(
        Quantity(0.0955, "mm^2", 0.0012), limit=0.1288, side="at_least"
    )
    assert found.sentence == (
        "0.0955 ± 0.0024 mm² (k = 2) against at least 0.1288: does not conform; "
        "rule: guard band of 0.002 mm² on each side of the limit, risk of a wrong "
        "decision at most 5 %; probability of a false rejection: below 0.1 %."
    )


def test_an_undetermined_value_says_what_deciding_would_cost() -> None:
    found = decide_conformity(Quantity(10.1, "mm", 0.1), limit=10.0, side="at_least")
    assert found.sentence.endswith(
        "deciding now would be wrong with a probability of 16 %."
    )
    np.testing.assert_allclose(found.risk, 0.1587, rtol=0, atol=5e-5)


def test_without_uncertainty_the_value_decides() -> None:
    exact = Quantity(10.0, "mm")
    assert decide_conformity(exact, limit=10.0, side="at_least").decision == "conforms"
    assert conformance_probability(exact, lower=10.0) == 1.0
    assert conformance_probability(exact, lower=10.1) == 0.0


@settings(max_examples=60, deadline=None)
@given(
    value=st.floats(min_value=-5, max_value=5),
    u=st.floats(min_value=0.01, max_value=2),
    freedom=st.sampled_from([1.0, 4.0, 30.0, float("inf")]),
)
def test_the_two_sides_mirror_each_other(
    value: float, u: float, freedom: float
) -> None:
    one = decide_conformity(Quantity(value, "mm", u, freedom), limit=0, side="at_least")
    other = decide_conformity(
        Quantity(-value, "mm", u, freedom), limit=0, side="at_most"
    )
    assert one.decision == other.decision
    np.testing.assert_allclose(one.risk, other.risk, rtol=0, atol=1e-12)
    assert one.decision == "undetermined" or one.risk <= 0.05 + 1e-9


@settings(max_examples=40, deadline=None)
@given(value=st.floats(-5, 5), lower=st.floats(-3, 0), width=st.floats(0.1, 4))
def test_inside_below_and_above_add_up(
    value: float, lower: float, width: float
) -> None:
    measured = Quantity(value, "mm", 0.7)
    upper = lower + width
    inside = conformance_probability(measured, lower=lower, upper=upper)
    below = 1 - conformance_probability(measured, lower=lower)
    above = 1 - conformance_probability(measured, upper=upper)
    np.testing.assert_allclose(inside + below + above, 1.0, rtol=0, atol=1e-12)


def test_impossible_questions_are_refused() -> None:
    value = Quantity(1.0, "mm", 0.1)
    with pytest.raises(ParameterError, match="one limit or both"):
        conformance_probability(value)
    with pytest.raises(ParameterError, match="below the upper one"):
        conformance_probability(value, lower=2.0, upper=1.0)
    with pytest.raises(ParameterError, match="limit was given as nan"):
        decide_conformity(value, limit=float("nan"), side="at_least")


@pytest.mark.parametrize("risk", [0.0, 0.5, -0.1, 1.0])
def test_risks_out_of_range_are_refused(risk: float) -> None:
    with pytest.raises(ParameterError, match="maximum_risk"):
        DecisionRule(maximum_risk=risk)
