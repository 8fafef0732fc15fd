"""Readings come back: seal, codes and marks checked; a refusal leaves nothing."""

import json
from pathlib import Path
from typing import Any

import pytest
from blinding_examples import (
    RULES,
    filled_table,
    given_out,
    returned,
    seal_of,
    sealed_case,
)
from workflow_examples import contents

from strandproof.app.workflow import Correction, Desk, enter
from strandproof.app.workflow.blinding import (
    OwnReading,
    read_from_hand_out,
    take_back,
)
from strandproof.app.workflow.entering import open_case
from strandproof.errors import (
    FixedEntryError,
    ReadingLockedError,
    ReturnedReadingError,
    SealMismatchError,
    StrandproofError,
    UnknownCodeError,
    UnknownLabelError,
)
from strandproof.records.entries import HandOutReturned, Reading, ReadingLock


@pytest.fixture
def out(tmp_path: Path) -> Path:
    return tmp_path / "out"


@pytest.fixture
def desk(tmp_path: Path, out: Path) -> Desk:
    made = sealed_case(tmp_path, "A1")
    given_out(made, out)
    return made


def names(out: Path) -> list[str]:
    data = json.loads((out / "hand-out.json").read_text("utf-8"))
    return [each["name"] for each in data["pictures"]]


def refused(desk: Desk, file: Path, error: type[StrandproofError], match: str) -> None:
    """Refused with these words, and the case is as it was, byte for byte."""
    before = contents(desk.folder)
    with pytest.raises(error, match=match):
        take_back(desk, "to-A1", file)
    assert contents(desk.folder) == before


def test_readings_come_back_locked(desk: Desk, out: Path, tmp_path: Path) -> None:
    file = returned(tmp_path / "back.json", seal_of(out), names(out))
    entries = take_back(desk, "to-A1", file)
    assert len(entries) == 9
    state = open_case(desk.folder)
    reading = state.record(Reading, "E2-s1-L-1-A1")
    assert reading.reads == "micrograph/E2-s1-L-1"
    assert reading.verdict == "boundaries"
    assert reading.blind
    assert reading.hand_out == "to-A1"
    assert reading.counting_rules[1:] == RULES
    assert reading.lines_seed is not None
    assert len(reading.test_lines) == 2
    assert len(state.records(ReadingLock)) == 4
    back = state.record(HandOutReturned, "to-A1")
    assert back.file_sha256 in state.files
    assert len(back.readings) == 4


def test_order_of_entries_does_not_tell_the_codes(
    desk: Desk, out: Path, tmp_path: Path
) -> None:
    file = returned(tmp_path / "back.json", seal_of(out), names(out))
    made = [e.body.id for e in take_back(desk, "to-A1", file)][:4]
    assert made == sorted(made)


def test_the_filled_table_comes_back_too(desk: Desk, out: Path, tmp_path: Path) -> None:
    table = filled_table(out, tmp_path / "back.csv")
    take_back(desk, "to-A1", table)
    readings = open_case(desk.folder).records(Reading)
    assert [len(each.marks) for each in readings] == [1, 1, 1, 1]


def test_wrong_seal(desk: Desk, out: Path, tmp_path: Path) -> None:
    given_out(desk, tmp_path / "other", label="to-A2", reader="A2")
    other = returned(tmp_path / "b.json", seal_of(tmp_path / "other"), names(out))
    refused(desk, other, SealMismatchError, "file of readings does not agree with its")
    none = returned(tmp_path / "c.json", "", names(out))
    refused(desk, none, SealMismatchError, "belongs to another hand-out")


def test_two_seals_in_one_table(desk: Desk, out: Path, tmp_path: Path) -> None:
    table = filled_table(out, tmp_path / "back.csv")
    lines = table.read_text("utf-8").splitlines()
    lines[2] = lines[2].replace(seal_of(out), "0" * 64)
    table.write_text("\n".join(lines), encoding="utf-8")
    refused(desk, table, SealMismatchError, "0000")


def test_foreign_code(desk: Desk, out: Path, tmp_path: Path) -> None:
    given = [*names(out)[1:], "DQV-853-1"]
    file = returned(tmp_path / "b.json", seal_of(out), given)
    refused(desk, file, UnknownCodeError, "No such label; did you mean DQV-835-1?")
    given[-1] = "§"
    file = returned(tmp_path / "b.json", seal_of(out), given)
    refused(desk, file, UnknownCodeError, "No such label. Read the label again.")


def test_second_locking(desk: Desk, out: Path, tmp_path: Path) -> None:
    file = returned(tmp_path / "b.json", seal_of(out), names(out))
    take_back(desk, "to-A1", file)
    refused(desk, file, ReadingLockedError, "was locked by A1 at 2031-06-01")


def test_second_hand_out_of_the_same_pictures(
    desk: Desk, out: Path, tmp_path: Path
) -> None:
    take_back(desk, "to-A1", returned(tmp_path / "b.json", seal_of(out), names(out)))
    again = tmp_path / "again"
    given_out(desk, again, label="to-A1-again")
    before = contents(desk.folder)
    file = returned(tmp_path / "c.json", seal_of(again), names(again))
    with pytest.raises(ReadingLockedError, match="neither changed nor locked again"):
        take_back(desk, "to-A1-again", file)
    assert contents(desk.folder) == before


def test_a_hand_out_read_in_part(desk: Desk, out: Path, tmp_path: Path) -> None:
    file = returned(tmp_path / "b.json", seal_of(out), names(out)[:3])
    refused(desk, file, ReturnedReadingError, f"Not read: {names(out)[3]}")


@pytest.mark.parametrize(
    ("mark", "match"),
    [
        ({"line": 9, "along_px": 1, "feature": "boundary"}, "line was given as 9"),
        ({"line": 1, "along_px": 1e6, "feature": "boundary"}, "along_px was given"),
        (
            {"line": 1, "along_px": 1, "feature": "grain"},
            "feature was given as 'grain'",
        ),
        ({"line": 1, "feature": "boundary"}, "either along_px"),
        ({"line": 1, "along_px": 1, "feature": "twin"}, "no mark is a sure boundary"),
        ({"line": 1, "along_px": 1, "colour": "x"}, "column was given as 'colour'"),
    ],
)
def test_marks_that_do_not_fit(
    desk: Desk, out: Path, tmp_path: Path, mark: dict[str, Any], match: str
) -> None:
    name = names(out)[2]
    file = returned(tmp_path / "b.json", seal_of(out), names(out), {name: [mark]})
    refused(desk, file, ReturnedReadingError, f"{name}: .*{match}")


@pytest.mark.parametrize(
    ("text", "match"),
    [
        ("[]", "no file of readings"),
        ("{", "no file of readings"),
        ('{"seal": "x", "readings": [{"picture": "a", "marks": [1]}]}', "no file of"),
        ('{"seal":"x","readings":[{"picture":"a"},{"picture":"a"}]}', "picture twice"),
        ('{"seal":"x","readings":[{"picture":"a","read_at":"now"}]}', "no file of"),
    ],
)
def test_files_that_are_no_readings(
    desk: Desk, tmp_path: Path, text: str, match: str
) -> None:
    path = tmp_path / "b.json"
    path.write_text(text, encoding="utf-8")
    refused(desk, path, ReturnedReadingError, match)


def test_tables_that_are_no_readings(desk: Desk, out: Path, tmp_path: Path) -> None:
    path = tmp_path / "b.csv"
    path.write_bytes(b"\xff\xfe")
    refused(desk, path, ReturnedReadingError, "not written in UTF-8")
    path.write_text("a,b\n1,2\n", encoding="utf-8")
    refused(desk, path, ReturnedReadingError, "the first row must be seal, picture")
    table = filled_table(out, path)
    lines = table.read_text("utf-8").splitlines()
    doubled = lines[1].replace("boundaries", "none_resolved")
    table.write_text("\n".join([*lines, doubled]), encoding="utf-8")
    refused(desk, table, ReturnedReadingError, "but 'boundaries' stands above")


def test_not_readable_needs_its_reason(desk: Desk, out: Path, tmp_path: Path) -> None:
    table = filled_table(out, tmp_path / "b.csv", verdict="not_readable")
    refused(desk, table, ReturnedReadingError, "say why it is not readable")


def test_unknown_hand_out(desk: Desk, out: Path, tmp_path: Path) -> None:
    file = returned(tmp_path / "b.json", seal_of(out), names(out))
    with pytest.raises(UnknownLabelError, match="no hand out 'to-A9'"):
        take_back(desk, "to-A9", file)


def test_returned_readings_are_never_changed(
    desk: Desk, out: Path, tmp_path: Path
) -> None:
    file = returned(tmp_path / "b.json", seal_of(out), names(out))
    entries = take_back(desk, "to-A1", file)
    before = contents(desk.folder)
    for entry in entries:
        fields = entry.body.model_dump(mode="json")
        fix = Correction(entry.number, "better")
        with pytest.raises((ReadingLockedError, FixedEntryError)):
            enter(desk, entry.kind, fields, corrects=fix)
    assert contents(desk.folder) == before


def marks_list(path: Path, rows: str) -> Path:
    path.write_text(f"line,along_px,feature\n{rows}", encoding="utf-8")
    return path


def test_reader_reads_from_the_hand_out_alone(
    desk: Desk, out: Path, tmp_path: Path
) -> None:
    file = tmp_path / "mine.json"
    marks = marks_list(tmp_path / "m.csv", "1,10,boundary\n1,30,twin\n")
    first, *others = names(out)
    own = OwnReading(picture=first.lower(), marks=marks)
    so_far = read_from_hand_out(out, file, own, clock=desk.clock)
    assert list(so_far.left) == others
    assert so_far.words[0].startswith("1 boundary, 1 twin marked on")
    assert "µm of test line" in so_far.words[0]
    for name in others:
        unread = OwnReading(picture=name, verdict="not_readable", reason="over-etched")
        so_far = read_from_hand_out(out, file, unread, clock=desk.clock)
    assert so_far.left == ()
    take_back(desk, "to-A1", file)
    verdicts = [each.verdict for each in open_case(desk.folder).records(Reading)]
    assert sorted(verdicts) == ["boundaries", *["not_readable"] * 3]


def test_reader_cannot_read_twice_or_elsewhere(
    desk: Desk, out: Path, tmp_path: Path
) -> None:
    file = tmp_path / "mine.json"
    name = names(out)[0]
    own = OwnReading(picture=name, verdict="not_readable", reason="blurred")
    read_from_hand_out(out, file, own)
    before = file.read_bytes()
    with pytest.raises(ReadingLockedError, match=name):
        read_from_hand_out(out, file, own)
    with pytest.raises(UnknownCodeError, match="did you mean DQV-835-1"):
        read_from_hand_out(out, file, OwnReading(picture="DQV-853-1"))
    with pytest.raises(ReturnedReadingError, match="a list of marks is needed"):
        read_from_hand_out(out, file, OwnReading(picture=names(out)[1]))
    given_out(desk, tmp_path / "other", label="to-A2", reader="A2", straight_lines=0)
    with pytest.raises(SealMismatchError, match="Choose another file"):
        read_from_hand_out(tmp_path / "other", file, own)
    marks = marks_list(tmp_path / "m.csv", "1,10,boundary\n")
    with_marks = OwnReading(picture=name, marks=marks)
    new = tmp_path / "new.json"
    with pytest.raises(ReturnedReadingError, match="no test lines"):
        read_from_hand_out(tmp_path / "other", new, with_marks)
    with pytest.raises(ReturnedReadingError, match="say a verdict"):
        read_from_hand_out(tmp_path / "other", new, OwnReading(picture=name))
    assert not new.exists()
    assert file.read_bytes() == before
    new.write_text("[]", encoding="utf-8")
    with pytest.raises(ReturnedReadingError, match="is no file of readings"):
        read_from_hand_out(out, new, own)


def test_verdicts_alone_come_back(tmp_path: Path) -> None:
    desk = sealed_case(tmp_path)
    out = tmp_path / "out"
    given_out(desk, out, straight_lines=0)
    file = tmp_path / "mine.json"
    for name in names(out):
        own = OwnReading(picture=name, verdict="none_resolved")
        read_from_hand_out(out, file, own, clock=desk.clock)
    take_back(desk, "to-A1", file)
    readings = open_case(desk.folder).records(Reading)
    assert {each.verdict for each in readings} == {"none_resolved"}
    assert all(each.test_lines == () for each in readings)
    with_marks = returned(tmp_path / "b.json", seal_of(out), names(out))
    given_out(desk, tmp_path / "o2", label="h2", reader="A2", straight_lines=0)
    with_marks = returned(tmp_path / "b.json", seal_of(tmp_path / "o2"), names(out))
    with pytest.raises(ReturnedReadingError, match="no test lines were handed out"):
        take_back(desk, "h2", with_marks)


def test_circles_alone_come_back(tmp_path: Path) -> None:
    desk = sealed_case(tmp_path)
    out = tmp_path / "out"
    given_out(desk, out, straight_lines=0, circles=1)
    file = returned(tmp_path / "b.json", seal_of(out), names(out))
    take_back(desk, "to-A1", file)
    for reading in open_case(desk.folder).records(Reading):
        (line,) = reading.test_lines
        given = json.loads(next((out / "lines").iterdir()).read_text("utf-8"))
        assert given["lines"][0]["radius_px"] == pytest.approx(line.radius_px)
