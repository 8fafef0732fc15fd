from collections.abc import Mapping
from itertools import permutations

import numpy as np
import pytest

from strandproof.errors import LikelihoodMismatchError, TooFewHypothesesError
from strandproof.records.entries import Hypothesis, Likelihood
from strandproof.weighing import ClaimResult, claim_result, usual_hypotheses

USUAL = usual_hypotheses()
FOR_CRYSTAL = ("X1",)
FOR_ROUTE = ("X1", "X2", "X3")


def hypotheses(labels: list[str], speak_for_k1: tuple[str, ...]) -> list[Hypothesis]:
    return [
        USUAL[label].as_record(speaks_for=("K1",) if label in speak_for_k1 else ())
        for label in labels
    ]


def likelihoods(best: Mapping[str, float]) -> list[Likelihood]:
    return [
        Likelihood(
            hypothesis=label,
            best=each,
            lower=0,
            upper=1,
            status="judgement",
            source="s",
        )
        for label, each in best.items()
    ]


def result(
    best: Mapping[str, float], speak_for_k1: tuple[str, ...] = FOR_CRYSTAL
) -> ClaimResult:
    return claim_result(
        "K1",
        hypotheses=hypotheses(list(best), speak_for_k1),
        likelihoods=likelihoods(best),
    )


def test_the_crystal_claim_of_h7_is_contradicted() -> None:
    found = result({"X1": 0.005, "X3": 0.95, "X4": 0.95})
    assert found.word == "contradicted"
    assert found.ratio is not None
    assert found.ratio.best == 190.0
    assert found.sentence == (
        "Contradicted, for the exhibits examined only: what was seen is about 190 "
        "times as probable if X3 or X4 is true as if X1 is true (best estimate, "
        "judgement), 100 or more. The word stands while at most 0.95 of 100 such "
        "pieces would look like this under X1."
    )


def test_lowered_to_60_it_is_undetermined() -> None:
    found = result({"X1": 0.95 / 60, "X4": 0.95})
    assert found.word == "undetermined"
    assert found.sentence == (
        "Undetermined: what was seen is about 60 times as probable if X4 is true as "
        "if X1 is true (best estimate, judgement), below 100. For another word at most "
        "0.95 of 100 such pieces would have to look like this under X1."
    )


def test_the_route_claim_of_h7_is_undetermined() -> None:
    # X3 speaks for the route and predicts what X4 predicts.
    found = result({"X1": 0.005, "X3": 0.95, "X4": 0.95}, FOR_ROUTE)
    assert found.word == "undetermined"
    assert found.ratio is not None
    assert found.ratio.no_help


def test_leaving_x3_out_would_turn_the_route_claim() -> None:
    # Why X3 is a usual rival: without it the route would seem contradicted.
    assert result({"X1": 0.005, "X4": 0.95}, FOR_ROUTE).word == "contradicted"


def test_supported_needs_100_against_the_best_rival() -> None:
    assert result({"X1": 0.9, "X4": 0.001}).word == "supported"
    assert result({"X1": 0.9, "X4": 0.001, "X8": 0.1}).word == "undetermined"


@pytest.mark.parametrize(
    ("best", "word"), [(0.0095, "contradicted"), (0.0096, "undetermined")]
)
def test_100_itself_is_enough(best: float, word: str) -> None:
    assert result({"X1": best, "X4": 0.95}).word == word


def test_the_turning_point_is_where_the_word_turns() -> None:
    found = result({"X1": 0.005, "X4": 0.95})
    assert found.turning_point is not None
    np.testing.assert_allclose(found.turning_point, 0.0095, rtol=1e-12, atol=0)
    assert result({"X1": found.turning_point, "X4": 0.95}).word == "contradicted"
    above = found.turning_point * 1.01
    assert result({"X1": above, "X4": 0.95}).word == "undetermined"


def test_the_order_of_the_hypotheses_does_not_matter() -> None:
    best = {"X1": 0.005, "X3": 0.95, "X4": 0.9}
    words = {
        result({label: best[label] for label in order}).sentence
        for order in permutations(best)
    }
    assert len(words) == 1


def test_a_probability_of_zero_decides_nothing() -> None:
    found = result({"X1": 0.0, "X4": 0.95})
    assert found.word == "undetermined"
    assert "no room for a blunder" in found.sentence
    assert found.turning_point is None


@pytest.mark.parametrize("speak_for_k1", [(), ("X1", "X4")])
def test_one_side_alone_decides_nothing(speak_for_k1: tuple[str, ...]) -> None:
    found = result({"X1": 0.005, "X4": 0.95}, speak_for_k1)
    assert (found.word, found.ratio) == ("undetermined", None)


def test_fewer_than_two_hypotheses_are_refused() -> None:
    with pytest.raises(TooFewHypothesesError, match="X1"):
        result({"X1": 0.005})


def test_likelihoods_have_to_answer_one_to_one() -> None:
    three = hypotheses(["X1", "X3", "X4"], FOR_CRYSTAL)
    for best, problem in (
        ({"X1": 0.1, "X3": 0.9}, "'X4' has 0 likelihoods"),
        ({"X1": 0.1, "X3": 0.9, "X4": 0.9, "X5": 0.9}, "'X5' is not weighed"),
    ):
        with pytest.raises(LikelihoodMismatchError, match=problem):
            claim_result("K1", hypotheses=three, likelihoods=likelihoods(best))
    twice = [*likelihoods({"X1": 0.1, "X3": 0.9, "X4": 0.9}), *likelihoods({"X1": 0.2})]
    with pytest.raises(LikelihoodMismatchError, match="'X1' has 2 likelihoods"):
        claim_result("K1", hypotheses=three, likelihoods=twice)
