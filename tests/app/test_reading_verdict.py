"""Marks and words that make a verdict, and those that do not fit each other."""

import pytest

from strandproof.app.workflow.reading_by_people.verdict import verdict_with
from strandproof.errors import InvalidEntryError
from strandproof.records.entries import ReadingMark
from strandproof.records.entries.laboratory import MarkFeature


def marks(*features: MarkFeature) -> list[ReadingMark]:
    return [
        ReadingMark(line=1, position_px=(0.0, 0.0), feature=each) for each in features
    ]


def test_without_lines_the_words_alone_count() -> None:
    assert verdict_with({"verdict": "boundaries"}, None) == "boundaries"
    assert verdict_with({}, None) is None


@pytest.mark.parametrize("stated", [None, "none_resolved"])
def test_scratches_and_edges_are_no_boundaries(stated: str | None) -> None:
    set_marks = marks("scratch", "slip_trace", "strand_edge")
    assert verdict_with({"verdict": stated}, set_marks) == "none_resolved"


@pytest.mark.parametrize("stated", ["boundaries", "none_resolved"])
def test_twins_and_the_uncertain_fit_either_word(stated: str) -> None:
    assert verdict_with({"verdict": stated}, marks("twin", "uncertain")) == stated


def test_not_readable_stands_whatever_was_marked() -> None:
    fields = {"verdict": "not_readable", "reason": "over-etched"}
    assert verdict_with(fields, marks("boundary")) == "not_readable"


@pytest.mark.parametrize(
    ("fields", "features", "match"),
    [
        ({"verdict": "not_readable", "reason": " "}, (), "say why"),
        ({"verdict": "none_resolved"}, ("boundary",), "the marks say boundaries"),
        ({}, ("uncertain",), "say boundaries, none_resolved or not_readable"),
    ],
)
def test_what_does_not_fit(
    fields: dict[str, str], features: tuple[MarkFeature, ...], match: str
) -> None:
    with pytest.raises(InvalidEntryError, match=match):
        verdict_with(fields, marks(*features))
