from collections.abc import Callable
from dataclasses import replace
from datetime import UTC, datetime

import numpy as np
import pytest

from strandproof.errors import LikelihoodMismatchError, TooFewHypothesesError
from strandproof.records.entries import Control, Observation, Weighing
from strandproof.weighing import (
    ControlReading,
    Evidence,
    Signature,
    blunder_likelihood,
    likelihood_of_hundred,
    usual_hypotheses,
    weigh,
    weighing_lines,
)

MakeControls = Callable[..., tuple[ControlReading, ...]]
USUAL = usual_hypotheses()
SIGNATURE = Signature(
    label="W1", weighed_by="R", weighed_at=datetime(2031, 6, 1, tzinfo=UTC)
)
MOUNTS = ("m1", "m2", "m3", "m4", "m5")


@pytest.fixture
def h7(
    grains_seen: Observation, single_crystals: MakeControls, oxygen_free: MakeControls
) -> Evidence:
    usual = {"lower_of_100": 90.0, "upper_of_100": 99.0}
    return Evidence(
        observation=grains_seen,
        hypotheses=(
            USUAL["X1"].as_record(speaks_for=("K1",)),
            USUAL["X3"].as_record(),
            USUAL["X4"].as_record(),
        ),
        likelihoods=(
            blunder_likelihood(
                "X1",
                {"false reading": 0.3, "mix-up": 0.1, "batch fault": 0.1},
                lower_of_100=0,
                upper_of_100=12,
            ),
            likelihood_of_hundred("X3", 95, status="judgement", source="s", **usual),
            likelihood_of_hundred("X4", 95, status="judgement", source="s", **usual),
        ),
        controls=single_crystals(24, mounts=MOUNTS) + oxygen_free(2, mount="m1"),
        claim="K1",
    )


def by_pair(weighing: Weighing) -> dict[tuple[str, str], str]:
    return {(pair.first, pair.second): pair.words for pair in weighing.pairs}


def test_every_pair_is_weighed_the_favoured_hypothesis_first(h7: Evidence) -> None:
    words = by_pair(weigh(h7, signature=SIGNATURE))
    assert list(words) == [("X3", "X1"), ("X4", "X1"), ("X3", "X4")]


def test_the_words_of_m21(h7: Evidence) -> None:
    words = by_pair(weigh(h7, signature=SIGNATURE))["X4", "X1"]
    assert words.startswith(
        "best estimate 190, moderately strong, judgement. Controls alone: 8.1, weak, "
        "with the 0.95 judged; 1.9, no support, if the two oxygen-free controls must "
        "carry the numerator too (0.22); expected value 24.7 (uniform prior)"
    )
    assert "Against group blunders: mount n = 5, 2.1, weak" in words
    assert "Range 7.5 (weak) to unbounded for X4." in words
    assert "Scale: European guideline" in words


def test_about_1_is_said_as_loudly(h7: Evidence) -> None:
    lines = weighing_lines(weigh(h7, signature=SIGNATURE))
    assert lines[2].startswith("X3 against X4: about 1: no help, judgement. Range")
    assert len(lines) == 3


def test_the_numbers_stand_in_the_record(h7: Evidence) -> None:
    pair = weigh(h7, signature=SIGNATURE).pairs[1]
    np.testing.assert_allclose(
        [
            pair.best_ratio or 0,
            pair.lower_ratio or 0,
            pair.controls_ratio or 0,
            pair.controls_ratio_unjudged or 0,
            pair.controls_expected_ratio or 0,
            pair.group_ratios["mount"],
        ],
        [190, 7.5, 8.10, 1.91, 24.7, 2.11],
        rtol=0,
        atol=0.005,
    )
    assert pair.upper_ratio is None


def test_the_result_word_and_what_was_not_weighed(h7: Evidence) -> None:
    weighing = weigh(h7, signature=SIGNATURE)
    assert weighing.result == "contradicted"
    assert weighing.note.splitlines()[1:] == [
        "Nine strands share preparation and readers and do not multiply.",
        "Not weighed, and no reason given: tough-pitch (X5).",
    ]


def test_what_was_assumed_of_blunders_is_kept(h7: Evidence) -> None:
    levels = weigh(h7, signature=SIGNATURE).blunder_levels
    assert list(levels) == [
        "item: false_boundary",
        "mount: false_boundary",
        "batch: false_boundary",
        "custody_trail: false_boundary",
    ]
    assert "there n = 5, ceiling 2.1" in levels["mount: false_boundary"]


def test_the_record_survives_being_written_and_read(h7: Evidence) -> None:
    weighing = weigh(h7, signature=SIGNATURE)
    assert Weighing.model_validate_json(weighing.model_dump_json()) == weighing


def test_an_unrelated_control_changes_nothing_at_all(h7: Evidence) -> None:
    unrelated = ControlReading(
        control=Control(id="b", specimen="B", kind="blank_mount", known_by="empty"),
        verdict="boundaries",
        blind=True,
    )
    more = replace(h7, controls=(*h7.controls, unrelated))
    assert weigh(more, signature=SIGNATURE) == weigh(h7, signature=SIGNATURE)


def test_the_order_of_controls_changes_nothing(h7: Evidence) -> None:
    turned = replace(h7, controls=h7.controls[::-1])
    assert weigh(turned, signature=SIGNATURE) == weigh(h7, signature=SIGNATURE)


def test_without_an_outcome_no_control_is_used(h7: Evidence) -> None:
    for outcome in (None, "not_readable"):
        seen = h7.observation.model_copy(update={"reading_outcome": outcome})
        weighing = weigh(replace(h7, observation=seen), signature=SIGNATURE)
        assert all(pair.controls_ratio is None for pair in weighing.pairs)
        assert "no control informs this ratio" in weighing.pairs[0].words
        assert list(weighing.blunder_levels) == ["item"]


def test_without_a_claim_there_is_no_result_word(h7: Evidence) -> None:
    weighing = weigh(replace(h7, claim=None), signature=SIGNATURE)
    assert weighing.result == "undetermined"
    assert weighing.note.startswith("No claim was named")


def test_controls_do_not_speak_for_the_side_that_is_not_favoured(h7: Evidence) -> None:
    # Entered the other way round, the false-boundary bound supports nothing.
    odd = tuple(
        likelihood_of_hundred(
            label,
            of_100,
            lower_of_100=0,
            upper_of_100=100,
            status="judgement",
            source="s",
        )
        for label, of_100 in (("X1", 95.0), ("X3", 1.0), ("X4", 1.0))
    )
    weighing = weigh(replace(h7, likelihoods=odd), signature=SIGNATURE)
    pair = weighing.pairs[1]
    assert (pair.first, pair.second, pair.controls_ratio) == ("X1", "X4", None)


def test_one_hypothesis_is_refused(h7: Evidence) -> None:
    alone = replace(h7, hypotheses=h7.hypotheses[:1], likelihoods=h7.likelihoods[:1])
    with pytest.raises(TooFewHypothesesError, match="Hypotheses to weigh: X1"):
        weigh(alone, signature=SIGNATURE)


def test_a_missing_likelihood_is_refused(h7: Evidence) -> None:
    with pytest.raises(LikelihoodMismatchError, match="'X4' has 0 likelihoods"):
        weigh(replace(h7, likelihoods=h7.likelihoods[:2]), signature=SIGNATURE)
