"""Weighing in a case: the brief's ratios, first bench and with twenty controls more.

Product brief, facts 9 and section 2.1 (computed there from judged likelihoods): best
estimate 190; four single-crystal controls alone 1.8, expected 5.7; twenty-four 8.1,
expected 24.7; without the judged numerator 1.9. Printed digits compared.
"""

from pathlib import Path
from typing import Any

import pytest
from workflow_examples import (
    NOON,
    add,
    add_late_controls,
    bench,
    contents,
    likelihood,
    verdict,
)

from strandproof.app.workflow import (
    Desk,
    ReadersAsked,
    Weighted,
    combine_readings,
    likelihoods_of,
    open_case,
    weigh_observation,
    weighing_in_words,
)
from strandproof.app.workflow.deciding import control_readings
from strandproof.errors import (
    InvalidEntryError,
    LikelihoodMismatchError,
    TooFewHypothesesError,
    UnknownLabelError,
)
from strandproof.records.entries import Weighing, WeighingPair
from strandproof.records.entries.building import build_body
from strandproof.storage import Addition, Original

X1 = likelihood("X1", 0.005, 0.0, 0.12)
X3 = likelihood("X3", 0.95, 0.90, 0.99)
X4 = likelihood("X4", 0.95, 0.90, 0.99)


def question(desk: Desk) -> None:
    """Enter the claim, three explanations and what was observed."""
    combine_readings(desk, "size", ReadersAsked("A1", "A2", "stage"))
    claim = {
        "id": "K1",
        "words": "one crystal per 100 m",
        "speaker": "M",
        "speaker_role": "maker",
        "medium": "tag",
        "said_at": NOON,
        "kinds": ["crystal_state"],
        "readings": [{"words": "one crystal", "kind": "crystal_state"}],
        "captures": ["K1-capture"],
    }
    original = Original(b"one crystal per 100 m", "tag.txt", "text/plain")
    seen = {
        "id": "K1-capture",
        "medium": "tag",
        "place": "bag",
        "captured_at": NOON,
        "file_sha256": original.sha256,
    }
    desk.add(Addition(build_body("capture", seen), (original,)))
    observation = {
        "id": "O1",
        "statement": "Very many grains.",
        "evidence": ["measurement/size"],
        "method": "etched sections read blind",
        "reading_outcome": "boundaries",
        "bears_on": ["crystal_state"],
    }
    add(
        desk,
        [
            ("claim", claim),
            *(
                ("hypothesis", hypothesis(name, **more))
                for name, more in EXPLANATIONS.items()
            ),
            ("observation", observation),
        ],
    )


EXPLANATIONS: dict[str, dict[str, Any]] = {
    "X1": {"speaks_for": ["K1"]},
    "X3": {},
    "X4": {},
    "X7": {"left_out_because": "the maker is asked"},
    "B1": {"kind": "build", "left_out_because": "the tin was measured"},
}


def hypothesis(name: str, **more: object) -> dict[str, object]:
    return {
        "id": name,
        "statement": f"explanation {name}",
        "kind": "crystal_state",
        **more,
    }


@pytest.fixture(scope="module")
def weighed(tmp_path_factory: pytest.TempPathFactory) -> Desk:
    """A case weighed after the first bench, and again with twenty controls more."""
    desk = bench(tmp_path_factory.mktemp("weighed") / "H7")
    question(desk)
    weigh_observation(desk, "first", Weighted("O1", (X1, X3, X4), "K1"))
    add_late_controls(desk)
    weigh_observation(desk, "second", Weighted("O1", (X1, X3, X4), "K1"))
    return desk


def pair_of(desk: Desk, label: str, first: str, second: str) -> WeighingPair:
    weighing = open_case(desk.folder).record(Weighing, label)
    return next(p for p in weighing.pairs if (p.first, p.second) == (first, second))


@pytest.mark.parametrize(
    ("label", "controls", "expected"), [("first", 1.8, 5.7), ("second", 8.1, 24.7)]
)
def test_ratio_and_what_the_controls_alone_support(
    weighed: Desk, label: str, controls: float, expected: float
) -> None:
    pair = pair_of(weighed, label, "X3", "X1")
    assert pair.best_ratio == pytest.approx(190, rel=1e-9, abs=0)
    assert pair.controls_ratio == pytest.approx(controls, rel=0, abs=0.05)
    assert pair.controls_expected_ratio == pytest.approx(expected, rel=0, abs=0.05)
    assert open_case(weighed.folder).record(Weighing, label).result == "contradicted"


def test_without_the_judged_numerator_the_controls_say_less(weighed: Desk) -> None:
    pair = pair_of(weighed, "second", "X3", "X1")
    assert pair.controls_ratio_unjudged == pytest.approx(1.9, rel=0, abs=0.05)


def test_explanations_that_predict_the_same_are_no_help(weighed: Desk) -> None:
    pair = pair_of(weighed, "second", "X3", "X4")
    assert pair.best_ratio == pytest.approx(1, rel=1e-9, abs=0)
    assert "no help" in pair.words


def test_entered_under_the_name_and_moment_of_the_desk(weighed: Desk) -> None:
    weighing = open_case(weighed.folder).record(Weighing, "second")
    assert (weighing.weighed_by, weighing.weighed_at) == ("A1", NOON)
    assert [each.hypothesis for each in weighing.likelihoods] == ["X1", "X3", "X4"]


def test_reason_for_leaving_out_is_told_only_for_the_kinds_weighed(
    weighed: Desk,
) -> None:
    note = open_case(weighed.folder).record(Weighing, "second").note
    assert "(X5)" in note
    assert "build" not in note


def test_weighing_of_another_kind_asks_for_no_crystal_rivals(tmp_path: Path) -> None:
    """A reason once given for crystals must not follow the build about."""
    desk = bench(tmp_path / "H7")
    question(desk)
    add(
        desk,
        [
            ("hypothesis", hypothesis("T1", kind="build", speaks_for=["K1"])),
            ("hypothesis", hypothesis("T2", kind="build")),
        ],
    )
    rows = (likelihood("T1", 0.95, 0.9, 0.99), likelihood("T2", 0.005, 0, 0.12))
    body = weigh_observation(desk, "tin", Weighted("O1", rows, "K1")).body
    assert "Not weighed" not in body.note


def test_control_read_twice_counts_once_with_its_first_reading(
    weighed: Desk,
) -> None:
    readings = control_readings(open_case(weighed.folder))
    assert len(readings) == 26
    assert {each.reader for each in readings} == {"A1"}
    assert sum(each.verdict == "boundaries" for each in readings) == 2


def test_second_reading_of_a_control_does_not_replace_the_first(tmp_path: Path) -> None:
    desk = bench(tmp_path / "H7")
    again = verdict({"section": "C1-L", "A9": "boundaries"}, "A9")
    add(desk, [again])
    first = {each.control.id: each for each in control_readings(open_case(desk.folder))}
    assert first["C1"].verdict == "none_resolved"


def test_control_that_nobody_read_is_no_trial(tmp_path: Path) -> None:
    desk = bench(tmp_path / "H7")
    piece = {"id": "C99", "exhibit": "controls", "taken_from": "x"}
    when = {"taken_at": NOON, "taken_by": "R"}
    control = {"id": "C99", "specimen": "C99", "kind": "other", "known_by": "papers"}
    add(desk, [("specimen", {**piece, **when}), ("control", control)])
    names = [each.control.id for each in control_readings(open_case(desk.folder))]
    assert names == ["C1", "C2", "C3", "C4", "C5", "C6"]


REFUSALS: dict[str, tuple[Weighted, type[Exception], str]] = {
    "unknown observation": (
        Weighted("O9", (X1, X4), "K1"),
        UnknownLabelError,
        "no observation 'O9'; it has: O1",
    ),
    "unknown hypothesis": (
        Weighted("O1", (X1, X4, likelihood("X9", 0.5, 0.4, 0.6)), "K1"),
        LikelihoodMismatchError,
        "X9",
    ),
    "one explanation only": (
        Weighted("O1", (X1,), "K1"),
        TooFewHypothesesError,
        "X1",
    ),
    "same explanation twice": (
        Weighted("O1", (X1, X1, X4), "K1"),
        LikelihoodMismatchError,
        "X1",
    ),
    "unknown claim": (
        Weighted("O1", (X1, X4), "K9"),
        UnknownLabelError,
        "no claim 'K9'; it has: K1",
    ),
}


@pytest.mark.parametrize("wrong", REFUSALS)
def test_wrong_weighing_is_refused_and_changes_nothing(
    weighed: Desk, wrong: str
) -> None:
    weighted, kind, said = REFUSALS[wrong]
    before = contents(weighed.folder)
    with pytest.raises(kind, match=said):
        weigh_observation(weighed, "again", weighted)
    assert contents(weighed.folder) == before


def test_weighing_without_a_claim_has_no_result_word(weighed: Desk) -> None:
    entry = weigh_observation(weighed, "no-claim", Weighted("O1", (X1, X4)))
    assert isinstance(entry.body, Weighing)
    assert entry.body.result == "undetermined"
    assert entry.body.claim is None


def test_likelihoods_from_typed_fields() -> None:
    row = X4.model_dump(mode="json")
    assert likelihoods_of([row]) == (X4,)
    with pytest.raises(InvalidEntryError, match="status"):
        likelihoods_of([{**row, "status": "guess"}])
    with pytest.raises(InvalidEntryError, match="lies outside of its range"):
        likelihoods_of([{**row, "best": 0.5}])


def test_weighing_in_words_names_every_pair(weighed: Desk) -> None:
    state = open_case(weighed.folder)
    lines = "\n".join(weighing_in_words(state.entry(Weighing, "second")))
    for first, second in (("X3", "X1"), ("X4", "X1"), ("X3", "X4")):
        assert f"{first} against {second}: " in lines
