"""The fold: what holds now, what stays visible, what may be added."""

import pytest
from case_examples import BODIES, CASE, FILE_CONTENT, FILE_SHA256, moment

from strandproof.errors import DuplicateLabelError, ParameterError, UnknownLabelError
from strandproof.records.case_state import NO_HEAD, CaseState, check_addition, fold
from strandproof.records.entries import (
    Case,
    Entry,
    Exhibit,
    FileReference,
    Hypothesis,
    Specimen,
)
from strandproof.records.entries.links import entry_links, file_links
from strandproof.storage.entry_lines import seal_entry

FILE = FileReference(
    sha256=FILE_SHA256,
    name="tag.txt",
    media_type="text/plain",
    size_bytes=len(FILE_CONTENT),
)


def entries_of_the_example() -> list[Entry]:
    entries: list[Entry] = []
    for body in BODIES:
        entries.append(
            seal_entry(
                body,
                number=len(entries) + 1,
                previous_sha256=entries[-1].sha256 if entries else NO_HEAD,
                recorded_at=moment(9, 1),
                recorded_by="R",
                files=(FILE,) if body.id == "tag" else (),
            )
        )
    return entries


@pytest.fixture
def state() -> CaseState:
    return fold(entries_of_the_example())


def test_empty_case_has_the_head_of_nothing() -> None:
    assert fold([]).head == NO_HEAD


def test_state_gives_records_by_kind_and_name(state: CaseState) -> None:
    assert state.case == CASE
    assert [h.id for h in state.records(Hypothesis)] == ["X1", "X4"]
    assert state.record(Exhibit, "E1").lot_mark == "3107"
    assert state.head == state.entries[-1].sha256


def test_unknown_name_lists_the_known_ones(state: CaseState) -> None:
    with pytest.raises(UnknownLabelError, match="no exhibit 'E9'; it has: E1"):
        state.record(Exhibit, "E9")


def test_correction_takes_the_place_and_both_stay(state: CaseState) -> None:
    old = state.entry(Exhibit, "E1")
    mended = state.record(Exhibit, "E1").model_copy(update={"lot_mark": "3044"})
    check_addition(state, mended, supersedes=old.number)
    entry = seal_entry(
        mended,
        number=len(state.entries) + 1,
        previous_sha256=state.head,
        recorded_at=moment(9, 2),
        recorded_by="R",
        supersedes=old.number,
        reason="misread",
    )
    after = fold((*state.entries, entry))
    assert after.record(Exhibit, "E1").lot_mark == "3044"
    assert old in after.entries
    with pytest.raises(ParameterError, match="entry that holds now"):
        check_addition(after, mended, supersedes=old.number)


def test_taken_name_is_refused(state: CaseState) -> None:
    with pytest.raises(DuplicateLabelError, match="'E1' is already the name"):
        check_addition(state, state.record(Exhibit, "E1"))


def test_correction_of_nothing_is_refused(state: CaseState) -> None:
    new = state.record(Exhibit, "E1").model_copy(update={"id": "E2"})
    with pytest.raises(ParameterError, match="supersedes"):
        check_addition(state, new, supersedes=3)


@pytest.mark.parametrize("body", BODIES[1:], ids=lambda b: f"{type(b).__name__}")
def test_every_dangling_name_and_file_is_refused(body: Case) -> None:
    case_only = fold(entries_of_the_example()[:1])
    if entry_links(body) or file_links(body):
        with pytest.raises(UnknownLabelError, match="The case has no"):
            check_addition(case_only, body)
    else:
        check_addition(case_only, body)
        assert type(body).__name__ in {
            "Calibration",
            "Disclosure",
            "Cost",
            "Purchase",
            "BlindListSealed",
            "Hypothesis",
        }


def test_links_are_found_inside_nested_records(state: CaseState) -> None:
    specimen = state.record(Specimen, "E1-s1")
    found = {(link.kind, link.label) for link in entry_links(specimen)}
    assert found == {
        ("exhibit", "E1"),
        ("portion", "E1-maker"),
        ("conductor_type", "E1-core"),
    }
    weighing = next(b for b in BODIES if type(b).__name__ == "Weighing")
    kinds = {(link.kind, link.label) for link in entry_links(weighing)}
    assert ("hypothesis", "X1") in kinds
    assert ("observation", "O1") in kinds
