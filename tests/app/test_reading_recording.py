"""Entering readings: what fits together, and what the order of steps refuses."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from reading_examples import (
    LINE,
    M15,
    case_with_micrographs,
    lines_file,
    marks_file,
)
from workflow_examples import contents, desk_at

from strandproof.app.workflow import Correction, Desk, open_case
from strandproof.app.workflow.reading_by_people import (
    enter_reading,
    give_test_lines,
    lock_reading,
    read_test_lines,
    reading_versions,
    write_test_lines,
)
from strandproof.errors import (
    DuplicateLabelError,
    InvalidEntryError,
    ReadingLockedError,
    UnknownLabelError,
)
from strandproof.records.entries import Micrograph, Reading, ReadingLock
from strandproof.storage import verify_case


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    return case_with_micrographs(tmp_path, "f1", "f2")


def fields(**changes: object) -> dict[str, Any]:
    return {"id": "f1-A2", "reads": "micrograph/f1", "blind": True, **changes}


def read(desk: Desk, features: list[str] | None = None, **changes: object) -> Reading:
    marks = None if features is None else marks_file(desk, features)
    entry = enter_reading(desk, fields(**changes), lines=lines_file(desk), marks=marks)
    body = entry.body
    assert isinstance(body, Reading)
    return body


def test_reading_keeps_lines_marks_rules_and_the_list_as_it_came(desk: Desk) -> None:
    found = read(desk, M15, counting_rules=("tangents one half",))
    assert found.reader == desk.person
    assert found.verdict == "boundaries"
    assert found.line_length_px == 600.0
    assert [line.number for line in found.test_lines] == [1]
    assert [mark.feature for mark in found.marks] == M15
    assert found.counting_rules == (
        "places of the test lines: placed by a person",
        "tangents one half",
    )
    state = open_case(desk.folder)
    assert found.marks_sha256 is not None
    assert state.files[found.marks_sha256].name == "marks.csv"
    assert verify_case(desk.folder).sound


def test_lines_that_a_seed_gave_carry_it(desk: Desk) -> None:
    path = desk.folder.parent / "given.json"
    given = give_test_lines(desk.folder, "f1", lines=3)
    write_test_lines(given, path)
    assert read_test_lines(path) == given
    marks = marks_file(desk, ["boundary"])
    entry = enter_reading(desk, fields(), lines=path, marks=marks)
    body = entry.body
    assert isinstance(body, Reading)
    picture = open_case(desk.folder).record(Micrograph, "f1")
    assert body.lines_seed == given.seed == int(picture.file_sha256[:12], 16)
    assert body.counting_rules == (
        "places of the test lines: fixed by the picture's own hash",
    )


def test_seed_chosen_by_a_person_is_told_as_such(desk: Desk) -> None:
    path = desk.folder.parent / "given.json"
    write_test_lines(give_test_lines(desk.folder, "f1", lines=3, seed=7), path)
    marks = marks_file(desk, ["boundary"])
    body = enter_reading(desk, fields(), lines=path, marks=marks).body
    assert isinstance(body, Reading)
    assert body.counting_rules == (
        "places of the test lines: by seed 7, chosen by a person",
    )


def test_what_was_read_follows_from_the_lines(desk: Desk) -> None:
    lines, marks = lines_file(desk, "f2"), marks_file(desk, ["boundary"])
    named = {"id": "a", "blind": True}
    body = enter_reading(desk, named, lines=lines, marks=marks).body
    assert isinstance(body, Reading)
    assert body.reads == "micrograph/f2"
    with pytest.raises(InvalidEntryError, match="are those of micrograph/f2"):
        enter_reading(desk, fields(), lines=lines, marks=marks)


def moved(given: dict[str, Any]) -> None:
    given["lines"][0]["end_px"] = [700.0, 150.0]
    given["lines"][0]["start_px"] = [100.0, 150.0]


def of_another_picture(given: dict[str, Any]) -> None:
    given["picture_sha256"] = "0" * 64


def of_another_page(given: dict[str, Any]) -> None:
    given["page"] = 2


def without_lines(given: dict[str, Any]) -> None:
    given["lines"] = []


def half_a_line(given: dict[str, Any]) -> None:
    del given["lines"][0]["end_px"]


@pytest.mark.parametrize(
    ("change", "match"),
    [
        (moved, "gives other lines"),
        (of_another_picture, "a picture that the case does not have"),
        (of_another_page, "a picture that the case does not have"),
        (without_lines, "lines: Tuple should have at least 1 item"),
        (half_a_line, "a line has a start and an end"),
    ],
)
def test_lines_that_are_not_those_given(
    desk: Desk,
    change: Callable[[dict[str, Any]], None],
    match: str,
) -> None:
    path = desk.folder.parent / "given.json"
    write_test_lines(give_test_lines(desk.folder, "f1", lines=2), path)
    data = json.loads(path.read_text("utf-8"))
    change(data)
    path.write_text(json.dumps(data), encoding="utf-8")
    before = contents(desk.folder)
    with pytest.raises(InvalidEntryError, match=match):
        enter_reading(desk, fields(), lines=path, marks=marks_file(desk, ["boundary"]))
    assert contents(desk.folder) == before


@pytest.mark.parametrize(
    ("features", "verdict"),
    [
        (["boundary", "scratch"], "boundaries"),
        (["scratch", "slip_trace"], "none_resolved"),
        ([], "none_resolved"),
    ],
)
def test_verdict_follows_from_sure_marks(
    desk: Desk, features: list[str], verdict: str
) -> None:
    assert read(desk, features).verdict == verdict


def test_doubtful_marks_leave_the_verdict_to_the_reader(desk: Desk) -> None:
    with pytest.raises(InvalidEntryError, match="no mark is a sure boundary"):
        read(desk, ["uncertain", "twin"])
    assert read(desk, ["uncertain"], verdict="none_resolved").verdict == "none_resolved"


@pytest.mark.parametrize(
    ("features", "changes", "match"),
    [
        (["boundary"], {"verdict": "none_resolved"}, "the marks say boundaries"),
        (["scratch"], {"verdict": "boundaries"}, "the marks say none_resolved"),
        (["boundary"], {"verdict": "not_readable"}, "say why it is not readable"),
        (None, {"verdict": "none_resolved"}, "test lines need a list of marks"),
        (None, {}, "test lines need a list of marks"),
    ],
)
def test_marks_and_words_that_contradict_each_other(
    desk: Desk, features: list[str] | None, changes: dict[str, str], match: str
) -> None:
    with pytest.raises(InvalidEntryError, match=match):
        read(desk, features, **changes)


def test_not_readable_needs_no_marks_but_its_reason(desk: Desk) -> None:
    found = read(desk, None, verdict="not_readable", reason="over-etched")
    assert (found.verdict, found.marks) == ("not_readable", ())


def test_verdict_without_lines(desk: Desk) -> None:
    entry = enter_reading(
        desk, fields(reads="section/E1-s1-L", verdict="boundaries", reader="A9")
    )
    assert isinstance(entry.body, Reading)
    assert (entry.body.reader, entry.body.line_length_px) == ("A9", None)


def test_marks_without_lines_are_refused(desk: Desk) -> None:
    with pytest.raises(InvalidEntryError, match="marks need the file"):
        enter_reading(desk, fields(), marks=marks_file(desk, ["boundary"]))


def test_lines_all_in_resin_are_refused(desk: Desk) -> None:
    in_resin = {**LINE, "starts_in": "resin"}
    with pytest.raises(InvalidEntryError, match="none of the test lines lies in metal"):
        enter_reading(
            desk,
            fields(),
            lines=lines_file(desk, lines=[in_resin]),
            marks=marks_file(desk, []),
        )


def test_open_reading_can_be_corrected_and_both_versions_stay(desk: Desk) -> None:
    read(desk, ["boundary"])
    with pytest.raises(DuplicateLabelError):
        read(desk, ["boundary"] * 2)
    number = reading_versions(open_case(desk.folder), "f1-A2")[0].entry.number
    enter_reading(
        desk,
        fields(),
        lines=lines_file(desk),
        marks=marks_file(desk, ["boundary"] * 2),
        corrects=Correction(number, "second mark forgotten"),
    )
    versions = reading_versions(open_case(desk.folder), "f1-A2")
    assert [len(version.reading.marks) for version in versions] == [1, 2]
    assert [version.standing for version in versions] == ["open", "open"]
    lock_reading(desk, "f1-A2")
    versions = reading_versions(open_case(desk.folder), "f1-A2")
    assert [version.standing for version in versions] == ["open", "locked"]


def test_lock_names_reading_person_and_time(desk: Desk) -> None:
    read(desk, ["boundary"])
    lock = lock_reading(desk_at(desk.folder, "A2"), "f1-A2").body
    assert isinstance(lock, ReadingLock)
    assert (lock.reading, lock.locked_by) == ("f1-A2", "A2")
    assert lock.hint_shown_at is None


def test_second_lock_and_change_are_refused_and_change_nothing(desk: Desk) -> None:
    read(desk, ["boundary"])
    lock_reading(desk, "f1-A2")
    before = contents(desk.folder)
    with pytest.raises(ReadingLockedError, match="neither changed nor locked again"):
        lock_reading(desk, "f1-A2")
    with pytest.raises(ReadingLockedError, match="locked by A1 at 2031-06-01T12:00"):
        enter_reading(
            desk,
            fields(),
            lines=lines_file(desk),
            marks=marks_file(desk, ["scratch"]),
            corrects=Correction(7, "changed my mind"),
        )
    assert contents(desk.folder) == before


def test_nothing_there_to_lock(desk: Desk) -> None:
    with pytest.raises(UnknownLabelError, match="f1-A9"):
        lock_reading(desk, "f1-A9")
