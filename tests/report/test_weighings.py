"""Weighings as a reader meets them: the last holds, the earlier stay visible."""

from report_examples import like, state_of

from strandproof.records.entries import (
    CaseRecord,
    Claim,
    ClaimKind,
    Hypothesis,
    Observation,
    Weighing,
)
from strandproof.report.weighings import WeighedClaim, weighed_claims


def weighed(*more: CaseRecord) -> WeighedClaim:
    bodies = (
        like(Claim),
        like(Hypothesis),
        like(Hypothesis, id="X4", speaks_for=()),
        like(Observation),
        like(Weighing),
    )
    found = weighed_claims(state_of(*bodies, *more))
    assert len(found) == 1
    return found[0]


def test_claim_with_observation_hypotheses_and_deciding_pair() -> None:
    found = weighed()
    assert found.claim.id == "K1"
    assert found.observation.statement == "Many equiaxed grains on every long section."
    assert [each.id for each in found.hypotheses] == ["X1", "X4"]
    assert found.deciding is not None
    assert found.deciding.best_ratio == 190
    assert found.earlier == ()
    assert "X4 over X1" in found.bars


def test_hypothesis_left_out_is_told_where_its_kind_was_weighed() -> None:
    found = weighed(
        like(Hypothesis, id="X6", left_out_because="conducts like good copper"),
        like(
            Hypothesis,
            id="B1",
            kind=ClaimKind.BUILD,
            left_out_because="not about crystals",
        ),
    )
    assert [each.id for each in found.left_out] == ["X6"]


def test_pair_that_tells_nothing_is_named() -> None:
    pairs = [
        {
            "first": "X4",
            "second": "X1",
            "best_ratio": ratio,
            "lower_ratio": 0.5,
            "upper_ratio": 2.0,
            "words": f"ratio {ratio}",
        }
        for ratio in (0.5, 0.51, 1.0, 1.99, 2.0, None)
    ]
    found = weighed(like(Weighing, id="W2", pairs=pairs, result="undetermined"))
    assert [pair.best_ratio for pair in found.no_help] == [0.51, 1.0, 1.99]


def test_last_weighing_holds_and_earlier_one_is_told_with_its_ratio() -> None:
    found = weighed(like(Weighing, id="W2", result="undetermined"))
    assert found.weighing.id == "W2"
    assert found.earlier == (
        (
            "Earlier weighing W1, 2031-06-01: contradicted. X4 against X1: moderately "
            "strong, judgement; controls alone: no support"
        ),
    )


def test_earlier_weighing_is_told_although_its_pair_was_the_other_way_round() -> None:
    first = like(Weighing).pairs[0]
    turned = {
        **first.model_dump(),
        "first": "X1",
        "second": "X4",
        "best_ratio": 300,
        "words": "strong",
    }
    earlier = like(Weighing, id="W0", pairs=[turned], result="supported")
    found = weighed(earlier, like(Weighing, id="W3"))
    assert any("supported. X1 against X4: strong" in words for words in found.earlier)


def test_case_without_weighing_has_none() -> None:
    assert weighed_claims(state_of(like(Claim))) == ()
