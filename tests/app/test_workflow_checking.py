"""Looking at a case without changing it."""

import json
from pathlib import Path

import pytest
from case_examples import write_example_case
from workflow_examples import add, contents, desk_at, started

from strandproof.app.workflow import (
    entry_headline,
    missing_parts,
    open_case,
    verification_data,
    verification_in_words,
    verify,
)
from strandproof.app.workflow.checking import resize_warnings
from strandproof.errors import NotACaseError
from strandproof.storage import Addition
from strandproof.storage.case_layout import ENTRIES


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return started(tmp_path / "H7").folder


def test_sound_case_says_so_with_its_head(folder: Path) -> None:
    outcome = verify(folder)
    lines = verification_in_words(outcome, head_given=False)
    assert outcome.sound
    assert "All match: 4 entries and 0 originals agree with their hashes." in lines
    assert f"Head: {open_case(folder).head}" in lines
    assert lines[-1].startswith("Compare the head with the one on a report")


def test_with_a_head_given_nobody_is_sent_to_compare_it(folder: Path) -> None:
    outcome = verify(folder, head=open_case(folder).head)
    assert outcome.sound
    assert not any(
        line.startswith("Compare")
        for line in verification_in_words(outcome, head_given=True)
    )


def test_changed_byte_is_counted_and_named(folder: Path) -> None:
    raw = (folder / ENTRIES).read_bytes()
    (folder / ENTRIES).write_bytes(raw.replace(b"earphone", b"earphane", 1))
    outcome = verify(folder)
    lines = verification_in_words(outcome, head_given=False)
    assert not outcome.sound
    assert any(line.startswith("entries.jsonl, line 1") for line in lines)
    assert any("found in 3 entries and 0 originals" in line for line in lines)


def test_one_difference_is_not_called_differences(folder: Path) -> None:
    outcome = verify(folder, head="0" * 64)
    lines = verification_in_words(outcome, head_given=True)
    assert len(outcome.differences) == 1
    assert "1 difference found in 4 entries and 0 originals." in lines


def test_outcome_as_data_is_json(folder: Path) -> None:
    good = verification_data(verify(folder))
    assert json.loads(json.dumps(good, allow_nan=False)) == good | {
        "differences": [],
        "notices": [],
    }
    bad = verification_data(verify(folder, head="0" * 64))
    assert bad["sound"] is False
    assert bad["differences"][0]["what"]
    json.dumps(bad, allow_nan=False)


def test_progress_names_the_original_being_read(tmp_path: Path) -> None:
    write_example_case(tmp_path / "H7")
    told: list[tuple[float, str]] = []
    verify(tmp_path / "H7", progress=lambda *step: told.append(step))
    assert told == [(0.0, "original tag.txt")]


def test_verifying_changes_nothing(folder: Path) -> None:
    before = contents(folder)
    verify(folder)
    assert contents(folder) == before


def test_folder_without_a_case_is_refused(tmp_path: Path) -> None:
    with pytest.raises(NotACaseError, match="is no case"):
        verify(tmp_path)


def test_headline_names_number_day_kind_and_name(folder: Path) -> None:
    lines = [entry_headline(entry) for entry in open_case(folder).entries]
    assert lines[0] == "   1  2031-06-01  case H7"
    assert lines[2] == "   3  2031-06-01  specimen E1-s1"


def test_headline_of_a_correction_names_what_it_corrects(folder: Path) -> None:
    desk = desk_at(folder)
    state = open_case(folder)
    body = state.entries[1].body.model_copy(update={"condition": "torn"})
    desk.add(Addition(body, supersedes=2, reason="seen later"))
    line = entry_headline(open_case(folder).entries[-1])
    assert line.endswith("exhibit E1  (corrects entry 2: seen later)")


def test_missing_parts_in_the_order_of_work(folder: Path) -> None:
    state = open_case(folder)
    assert missing_parts(state) == ("claim", "section", "micrograph", "measurement")
    section = {"id": "L", "specimen": "E1-s1", "direction": "longitudinal"}
    add(desk_at(folder), [("section", section)])
    assert missing_parts(open_case(folder)) == ("claim", "micrograph", "measurement")


def test_full_case_lacks_nothing(tmp_path: Path) -> None:
    write_example_case(tmp_path / "H7")
    assert missing_parts(open_case(tmp_path / "H7")) == ()


def test_warnings_stand_beside_a_sound_outcome(folder: Path) -> None:
    outcome = verify(folder)
    assert resize_warnings(folder, outcome) == ()
    lines = verification_in_words(outcome, head_given=True, warnings=("Look.",))
    assert lines[0] == "Warning: Look."
    assert any(line.startswith("All match") for line in lines)
    data = verification_data(outcome, warnings=("Look.",))
    assert (data["sound"], data["warnings"]) == (True, ["Look."])


def test_a_case_that_differs_is_not_looked_through(folder: Path) -> None:
    raw = (folder / ENTRIES).read_bytes()
    (folder / ENTRIES).write_bytes(raw.replace(b"earphone", b"earphane", 1))
    assert resize_warnings(folder, verify(folder)) == ()
