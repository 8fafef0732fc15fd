"""What a report gathers from a case."""

from datetime import UTC, datetime, timedelta, timezone

from report_examples import example_state, like, report_on, state_of, things

from strandproof.records.entries import (
    Capture,
    Claim,
    Exhibit,
    Micrograph,
    Section,
    Specimen,
)
from strandproof.report import CaseReport, case_report


def captures_elsewhere(**changes: object) -> list[str]:
    """Names of the captures that claim K1 was not said in."""
    other = like(
        Capture,
        **{
            "id": "page",
            "medium": "product page",
            "place": "page of the shop",
            "file_sha256": "a" * 64,
            **changes,
        },
    )
    report = report_on(state_of(like(Capture), other, like(Claim)))
    return [capture.id for capture in report.claims[0].not_said]


def test_head_and_number_of_entries_are_those_of_the_case() -> None:
    state = example_state()
    report = report_on(state)
    assert report.head == state.head
    assert report.entries == len(state.entries)


def test_claim_is_not_said_where_another_complete_capture_shows_none() -> None:
    assert captures_elsewhere() == ["page"]


def test_partial_capture_shows_no_absence() -> None:
    assert captures_elsewhere(complete=False) == []


def test_second_copy_of_the_same_place_does_not_deny_the_words() -> None:
    same = like(Capture)
    assert captures_elsewhere(medium=same.medium, place=same.place) == []
    assert captures_elsewhere(file_sha256=same.file_sha256) == []


def test_pieces_carry_their_specimens_and_sections() -> None:
    state = state_of(
        like(Exhibit),
        like(Exhibit, id="E2"),
        like(Specimen),
        like(Specimen, id="E2-s1", exhibit="E2"),
        like(Section),
        like(Section, id="E2-s1-L", specimen="E2-s1"),
    )
    pieces = {piece.exhibit.id: piece for piece in report_on(state).pieces}
    assert [s.id for s in pieces["E2"].specimens] == ["E2-s1"]
    assert [s.id for s in pieces["E2"].sections] == ["E2-s1-L"]


def test_synthetic_pictures_are_told_even_where_no_copy_is_at_hand() -> None:
    drawn = like(Micrograph, synthetic=True)
    assert report_on(state_of(*things(), drawn)).synthetic
    assert not report_on(example_state()).synthetic


def test_moment_is_shown_in_utc_whatever_the_clock() -> None:
    there = timezone(timedelta(hours=5, minutes=30))
    report = report_at(datetime(2031, 9, 2, 2, 0, tzinfo=there))
    assert report.made_at == datetime(2031, 9, 1, 20, 30, tzinfo=UTC)
    assert report.made_at.strftime("%H:%M") == "20:30"


def report_at(moment: datetime) -> CaseReport:
    return case_report(state_of(), pictures={}, made_at=moment, program="a test")
