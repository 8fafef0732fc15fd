"""The commands of reading by people, as their user types them."""

import json
from pathlib import Path

import pytest
import typer
from command_line import Answer
from reading_examples import M15, case_with_micrographs, marks_file
from typer.testing import CliRunner

from strandproof.app.cli.reading_commands import add_reading_commands
from strandproof.app.workflow import Desk
from strandproof.errors import (
    NoHintShownError,
    ReadingLockedError,
    ReadingsOpenError,
    StrandproofError,
)


def run(*words: str | Path | int) -> Answer:
    program = typer.Typer()
    add_reading_commands(program)
    found = CliRunner().invoke(program, [str(word) for word in words])
    if isinstance(found.exception, StrandproofError):
        raise found.exception
    return Answer(found.exit_code, found.stdout, found.stderr)


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    return case_with_micrographs(tmp_path)


def given_lines(desk: Desk, *more: str | Path) -> Path:
    path = desk.folder.parent / "lines.json"
    answer = run("test-lines", desk.folder, "f1", "--out", path, *more)
    assert answer.code == 0, answer.words
    return path


def read(desk: Desk, reader: str, features: list[str], *more: str | Path) -> Answer:
    path = desk.folder.parent / "lines.json"
    lines = path if path.exists() else given_lines(desk, "--direction", "0")
    marks = marks_file(desk, features, [60.0] * len(features))
    return run(
        *("read", desk.folder, "--id", f"f1-{reader}", "--blind", "--by", reader),
        *("--lines", lines, "--marks", marks, *more),
    )


def test_from_lines_to_two_readers_side_by_side(desk: Desk) -> None:
    entered = read(desk, "A2", M15)
    assert "Entry 7: reading f1-A2." in entered.out
    assert "12 boundaries, 5 twins, 2 scratches, 1 uncertain marked" in entered.out
    assert "Head: " in entered.out
    assert (
        "reading lock f1-A2"
        in run("lock-reading", desk.folder, "f1-A2", "--by", "A2").out
    )
    hint = run("hint", desk.folder, "f1-A2", "--by", "A2")
    assert "13 of 13 marks lie within 3 deg, about 60 deg: scratches?" in hint.words
    assert "60 to 75 deg 13 #############" in hint.words
    anew = run(
        *("re-class", desk.folder, "f1-A2", "--mark", "1=scratch", "--mark"),
        *("2=slip trace", "--because", "they cross grains", "--by", "A2"),
    )
    assert "10 boundaries, 5 twins, 3 scratches, 1 slip trace" in anew.words
    read(desk, "A1", ["boundary"] * 20)
    run("lock-reading", desk.folder, "f1-A1", "--by", "A1")
    both = ("compare-readings", desk.folder, "--first", "A1", "--second", "A2")
    words = run(*both).words
    assert "A1 and A2 agree on 1 of 1" in words
    assert "A2 classed marks of f1-A2 anew after the hint" in words
    data = json.loads(run(*both, "--json").out)
    assert data["marked"][0]["second"]["counts"]["boundary"] == 12


def test_json_of_an_entry(desk: Desk) -> None:
    (entry,) = json.loads(read(desk, "A2", ["boundary"], "--json").out)
    assert entry["body"]["reads"] == "micrograph/f1"
    assert entry["body"]["lines_seed"] is not None


def test_lines_with_a_sheet_to_look_at(desk: Desk) -> None:
    sheet = desk.folder.parent / "sheet.svg"
    given_lines(desk, "--lines", "2", "--circles", "1", "--sheet", sheet)
    assert sheet.read_text("utf-8").startswith("<svg")


def test_order_of_steps_is_kept(desk: Desk) -> None:
    read(desk, "A2", ["boundary"])
    with pytest.raises(ReadingsOpenError):
        run("hint", desk.folder, "f1-A2", "--by", "A2")
    run("lock-reading", desk.folder, "f1-A2", "--by", "A2")
    with pytest.raises(ReadingLockedError):
        run("lock-reading", desk.folder, "f1-A2", "--by", "A2")
    with pytest.raises(NoHintShownError):
        run(
            *("re-class", desk.folder, "f1-A2", "--mark", "1=twin"),
            *("--because", "x", "--by", "A2"),
        )


def test_verdict_in_words_and_its_correction(desk: Desk) -> None:
    words = ("read", desk.folder, "--id", "s", "--not-blind", "--by", "A1")
    section = ("--reads", "section/E1-s1-L")
    answer = run(*words, *section, "--verdict", "none_resolved")
    assert "Verdict: none resolved." in answer.out
    unreadable = ("--verdict", "not_readable", "--reason", "over-etched")
    again = run(*words, *section, *unreadable, "--corrects", 7, "--because", "typed")
    assert "Verdict: not readable." in again.out


@pytest.mark.parametrize(
    ("words", "match"),
    [
        (("--mark", "scratch", "--because", "x"), "NUMBER=FEATURE"),
        (("--mark", "1=grain", "--because", "x"), "NUMBER=FEATURE"),
        (("--mark", "-1=twin", "--because", "x"), "NUMBER=FEATURE"),
    ],
)
def test_words_that_are_no_mark(desk: Desk, words: tuple[str, ...], match: str) -> None:
    read(desk, "A2", ["boundary"])
    answer = run("re-class", desk.folder, "f1-A2", *words, "--by", "A2")
    assert answer.code == 2
    assert match in answer.words


def test_correction_without_reason_is_misuse(desk: Desk) -> None:
    answer = read(desk, "A2", ["boundary"], "--corrects", "7")
    assert answer.code == 2
    assert "a correction needs its reason" in answer.words


def test_program_reads_too_when_asked(desk: Desk) -> None:
    for reader in ("A1", "A2"):
        read(desk, reader, ["boundary"] * 3)
        run("lock-reading", desk.folder, f"f1-{reader}", "--by", reader)
    words = run(
        *("compare-readings", desk.folder, "--first", "A1", "--second", "A2"),
        *("--program", "--tolerance", "5.5"),
    ).words
    assert "Marks within 5.5 px are the same mark" in words
    assert "Program on the same lines of micrograph/f1" in words
