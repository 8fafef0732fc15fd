"""Explanations of gaps and answers to flags: what their records refuse."""

import pytest
from case_examples import moment

from strandproof.errors import InvalidEntryError
from strandproof.records.entries import FlagAnswer, GapExplanation
from strandproof.records.entries.building import build_body

GAP = {
    "id": "G1-1",
    "gap": "G1",
    "items": ["specimen/E1-s1"],
    "gap_from": moment(5, 6),
    "explanation": "in the depot",
    "explained_by": "R",
    "explained_at": moment(5, 20),
}
ANSWER = {
    "id": "F1-1",
    "flag": "F1",
    "event": "handling_event/hot",
    "answer": "control treated alike: nothing",
    "answered_by": "A1",
    "answered_at": moment(5, 20),
}


def test_sound_fields_are_taken() -> None:
    assert isinstance(build_body("gap_explanation", GAP), GapExplanation)
    assert isinstance(build_body("flag_answer", ANSWER), FlagAnswer)


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("gap", "1"),
        ("gap", "G0"),
        ("items", []),
        ("items", ["E1-s1"]),
        ("gap_from", "2031-05-06T16:40"),
        ("explanation", " "),
        ("explained_by", ""),
        ("evidence", ["a parcel"]),
        ("file_sha256", "abc"),
    ],
)
def test_explanation_names_the_field_that_does_not_fit(
    field: str, value: object
) -> None:
    with pytest.raises(InvalidEntryError, match=field):
        build_body("gap_explanation", {**GAP, field: value})


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("flag", "G1"),
        ("event", "hot"),
        ("answer", ""),
        ("answered_by", "  "),
        ("answered_at", "yesterday"),
        ("evidence", ["C5"]),
    ],
)
def test_answer_names_the_field_that_does_not_fit(field: str, value: object) -> None:
    with pytest.raises(InvalidEntryError, match=field):
        build_body("flag_answer", {**ANSWER, field: value})


@pytest.mark.parametrize(
    ("kind", "field", "value"),
    [
        ("hand_over", "given_at", "2031-05-06T16:40"),
        ("hand_over", "items", []),
        ("hand_over", "condition", ""),
        ("handling_event", "pull_n", -1.0),
        ("handling_event", "bend_radius_mm", 0.0),
        ("preparation_step", "order", 0),
        ("preparation_step", "step", "dip"),
        ("preparation_step", "sections", []),
        ("control", "kind", "friend"),
        ("control", "known_by", ""),
        ("seal", "event", "torn"),
    ],
)
def test_other_records_of_this_part_name_the_field(
    kind: str, field: str, value: object
) -> None:
    with pytest.raises(InvalidEntryError, match=field):
        build_body(kind, {"id": "x", field: value})
