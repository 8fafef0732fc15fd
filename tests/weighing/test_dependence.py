from itertools import permutations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from strandproof.errors import LikelihoodMismatchError, ParameterError
from strandproof.records.entries import Likelihood, Observation
from strandproof.weighing import (
    ObservedLikelihoods,
    claim_result,
    joint_likelihoods,
    likelihood_ratio,
    strands_sentence,
    usual_hypotheses,
    weighing_rules,
)

RULES = weighing_rules().for_joint_likelihoods()
PROBABILITY = st.floats(0.001, 1.0)


def observed(
    name: str,
    probabilities: dict[str, float],
    *,
    group: str = "",
    evidence: str | None = None,
) -> ObservedLikelihoods:
    return ObservedLikelihoods(
        observation=Observation(
            id=name,
            statement="Seen.",
            evidence=(f"measurement/{evidence or name}",),
            method="look",
            dependence_group=group,
        ),
        likelihoods=tuple(
            Likelihood(
                hypothesis=hypothesis,
                best=best,
                lower=best / 2,
                upper=(1 + best) / 2,
                status="judgement",
                source="s",
            )
            for hypothesis, best in probabilities.items()
        ),
    )


def ratio(*observations: ObservedLikelihoods) -> float:
    first, second = joint_likelihoods(observations).likelihoods
    best = likelihood_ratio(first, second, rules=RULES).best
    assert best is not None
    return best


pairs = st.lists(st.tuples(PROBABILITY, PROBABILITY), min_size=2, max_size=6)


@given(pairs)
def test_dependent_observations_never_exceed_the_strongest_nor_undercut_the_weakest(
    numbers: list[tuple[float, float]],
) -> None:
    group = [
        observed(f"O{index}", {"A": one, "B": two}, group="one mount")
        for index, (one, two) in enumerate(numbers)
    ]
    singles = [one / two for one, two in numbers]
    assert min(singles) * (1 - 1e-9) <= ratio(*group) <= max(singles) * (1 + 1e-9)


@given(pairs)
def test_swapping_the_hypotheses_inverts_the_joint_ratio(
    numbers: list[tuple[float, float]],
) -> None:
    def group(first: str, second: str) -> list[ObservedLikelihoods]:
        return [
            observed(f"O{i}", {first: p, second: q}, group=f"g{i % 2}")
            for i, (p, q) in enumerate(numbers)
        ]

    forth = joint_likelihoods(group("A", "B")).likelihoods
    back = likelihood_ratio(forth[1], forth[0], rules=RULES).best
    assert back is not None
    np.testing.assert_allclose(ratio(*group("A", "B")) * back, 1.0, rtol=1e-10, atol=0)


@pytest.mark.parametrize("count", [2, 10, 100])
def test_ten_strands_never_beat_one(count: int) -> None:
    # Hard question 17: many alike of one group are worth one of them.
    strands = [
        observed(f"O{number}", {"X4": 0.95, "X1": 0.005}, group="one mount")
        for number in range(count)
    ]
    assert ratio(*strands) == 190.0


def test_independent_groups_multiply_with_their_ranges() -> None:
    joint = joint_likelihoods(
        [
            observed("O1", {"A": 0.8, "B": 0.2}, group="section"),
            observed("O2", {"A": 0.6, "B": 0.3}, group="diffraction"),
        ]
    )
    first, second = joint.likelihoods
    np.testing.assert_allclose(
        [first.best, first.lower, first.upper], [0.48, 0.12, 0.72], rtol=1e-12, atol=0
    )
    np.testing.assert_allclose(
        [second.best, second.lower, second.upper],
        [0.06, 0.015, 0.39],
        rtol=1e-12,
        atol=0,
    )
    assert first.source == "together: O1 times O2"
    assert "multiplies with the other groups" in joint.groups[0].words


def test_complete_dependence_is_the_rule_of_the_smallest() -> None:
    # One cause, drawn once: all happen when the least probable one does.
    draws = (np.arange(10_000) + 0.5) / 10_000
    probabilities = [0.3, 0.7, 0.45]
    all_of_them = np.all([draws < each for each in probabilities], axis=0).mean()
    group = [
        observed(f"O{index}", {"A": each, "B": 1.0}, group="g")
        for index, each in enumerate(probabilities)
    ]
    joint = joint_likelihoods(group).likelihoods[0].best
    np.testing.assert_allclose(joint, all_of_them, rtol=0, atol=1e-4)


def test_the_ends_of_a_group_follow_the_same_rule() -> None:
    entries = [(0.5, 0.1, 0.9), (0.4, 0.3, 0.95)]
    group = [
        ObservedLikelihoods(
            observation=observed(f"O{index}", {}, group="g").observation,
            likelihoods=(
                Likelihood(
                    hypothesis="A",
                    best=best,
                    lower=lower,
                    upper=upper,
                    status="data",
                    source="s",
                ),
            ),
        )
        for index, (best, lower, upper) in enumerate(entries)
    ]
    (joint,) = joint_likelihoods(group).likelihoods
    assert (joint.best, joint.lower, joint.upper) == (0.4, 0.1, 0.9)


def test_no_stated_group_is_not_independence() -> None:
    joint = joint_likelihoods(
        [observed("O1", {"A": 0.9, "B": 0.1}), observed("O2", {"A": 0.9, "B": 0.1})]
    )
    assert joint.likelihoods[0].best == 0.9
    assert joint.groups[0].words == (
        "O1 and O2 do not multiply: no dependence group was stated, so none is "
        "assumed apart."
    )


def test_the_same_evidence_does_not_multiply_under_two_names() -> None:
    joint = joint_likelihoods(
        [
            observed("O1", {"A": 0.9, "B": 0.1}, group="first", evidence="f1"),
            observed("O2", {"A": 0.9, "B": 0.1}, group="second", evidence="f1"),
        ]
    )
    assert joint.likelihoods[0].best == 0.9
    assert joint.groups[0].name == "first and second"
    assert joint.groups[0].words.endswith("they rest on the same evidence.")


def test_a_stated_group_names_what_is_shared() -> None:
    joint = joint_likelihoods(
        [
            observed("O1", {"A": 0.9, "B": 0.1}, group="mount m1"),
            observed("O2", {"A": 0.8, "B": 0.3}, group="mount m1"),
        ]
    )
    assert joint.groups[0].words == "O1 and O2 do not multiply: they share mount m1."
    assert joint.likelihoods[0].source == "together: O1 with O2"


def test_the_order_does_not_matter() -> None:
    given_ones = [
        observed("O1", {"A": 0.9, "B": 0.1}, group="a", evidence="f1"),
        observed("O2", {"A": 0.8, "B": 0.3}, group="b", evidence="f2"),
        observed("O3", {"A": 0.7, "B": 0.2}, group="c", evidence="f1"),
    ]
    ratios = [ratio(*order) for order in permutations(given_ones)]
    np.testing.assert_allclose(ratios, ratios[0], rtol=1e-10, atol=0)


def test_observations_under_other_hypotheses_are_refused() -> None:
    with pytest.raises(LikelihoodMismatchError, match="'C' does not occur once"):
        joint_likelihoods(
            [
                observed("O1", {"A": 0.9, "B": 0.1}),
                observed("O2", {"A": 0.9, "B": 0.1, "C": 0.1}),
            ]
        )


def test_nothing_or_the_same_twice_is_refused() -> None:
    with pytest.raises(ParameterError, match="one or more, each once"):
        joint_likelihoods([])
    twice = observed("O1", {"A": 0.9, "B": 0.1})
    with pytest.raises(ParameterError, match="one or more, each once"):
        joint_likelihoods([twice, twice])


def test_strands_behind_one_observation_do_not_multiply(
    grains_seen: Observation,
) -> None:
    assert strands_sentence(grains_seen) == (
        "Nine strands share preparation and readers and do not multiply."
    )
    lone = grains_seen.model_copy(update={"strands": 1})
    assert strands_sentence(lone) == ""
    nameless = grains_seen.model_copy(update={"strands": 2, "dependence_group": ""})
    assert strands_sentence(nameless) == (
        "Two strands share their causes of error and do not multiply."
    )


def test_joint_likelihoods_go_on_into_a_result_word() -> None:
    # Alone 20 and 40 decide nothing; independent they make 800.
    usual = usual_hypotheses()
    hypotheses = [usual["X1"].as_record(speaks_for=("K1",)), usual["X4"].as_record()]
    observations = [
        observed("O1", {"X1": 0.04, "X4": 0.8}, group="section"),
        observed("O2", {"X1": 0.02, "X4": 0.8}, group="diffraction elsewhere"),
    ]
    alone = [
        claim_result("K1", hypotheses=hypotheses, likelihoods=each.likelihoods).word
        for each in observations
    ]
    together = claim_result(
        "K1",
        hypotheses=hypotheses,
        likelihoods=joint_likelihoods(observations).likelihoods,
        rules=RULES,
    )
    assert alone == ["undetermined", "undetermined"]
    assert together.word == "contradicted"
    assert together.ratio is not None
    assert together.ratio.best == 800.0
