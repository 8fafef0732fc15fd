"""A case by commands: the whole path, and every wrong turn on it."""

import json
import shutil
from pathlib import Path

import pytest
from command_line import Command

from strandproof.storage.case_layout import ENTRIES


def add_micrograph(command: Command, case: Path, picture: Path) -> None:
    answer = command(
        *("micrograph", case, picture, "--id", "f1", "--section", "E1-s1-L"),
        *("--calibration", "stage", "--by", "A1"),
    )
    assert answer.code == 0, answer.words


def test_from_a_claim_to_a_report(
    command: Command, case: Path, picture: Path, tmp_path: Path
) -> None:
    add_micrograph(command, case, picture)
    examined = command("examine", case, "f1", "--by", "A1")
    assert examined.code == 0, examined.words
    assert "measurement f1-grains" in examined.out
    report = tmp_path / "report.html"
    answer = command("report", case, "--to", report)
    assert answer.code == 0, answer.words
    page = report.read_text("utf-8")
    verified = command("verify", case, "--json")
    assert verified.code == 0
    assert json.loads(verified.out)["head"] in page


def test_head_of_the_report_finds_a_later_entry(
    command: Command, case: Path, tmp_path: Path
) -> None:
    told = command("report", case, "--to", tmp_path / "r.html", "--json")
    head = json.loads(told.out)["head"]
    assert command("verify", case, "--head", head).code == 0
    command(
        *("section", case, "--id", "E1-s1-T", "--specimen", "E1-s1"),
        *("--direction", "transverse", "--by", "R"),
    )
    assert command("verify", case).code == 0
    answer = command("verify", case, "--head", head)
    assert answer.code == 1
    assert "entries follow it" in answer.words


def test_show_lists_entries_and_what_is_lacking(command: Command, case: Path) -> None:
    answer = command("show", case)
    assert answer.code == 0
    assert "claim K1" in answer.out
    assert "Still lacking for a report: micrograph, measurement." in answer.words
    entries = json.loads(command("show", case, "--json").out)
    assert [entry["number"] for entry in entries] == list(range(1, len(entries) + 1))


def test_anything_else_is_entered_from_json(
    command: Command, case: Path, tmp_path: Path
) -> None:
    fields = tmp_path / "paper.json"
    fields.write_text(
        json.dumps({"id": "mill", "title": "Mill certificate", "issuer": "a mill"}),
        encoding="utf-8",
    )
    scan = tmp_path / "scan.txt"
    scan.write_text("heat 77-B", encoding="utf-8")
    answer = command(
        *("enter", case, "document", "--fields", fields, "--by", "R"),
        *("--file", f"file_sha256={scan}"),
    )
    assert answer.code == 0, answer.words
    assert "document mill" in answer.out
    assert command("verify", case).code == 0


def test_correction_takes_the_place_and_both_stay(
    command: Command, case: Path, tmp_path: Path
) -> None:
    entries = json.loads(command("show", case, "--json").out)
    old = next(entry for entry in entries if entry["kind"] == "exhibit")
    fields = tmp_path / "exhibit.json"
    fields.write_text(json.dumps({**old["body"], "lot_mark": "3107"}), encoding="utf-8")
    words = ("enter", case, "exhibit", "--fields", fields, "--by", "R")
    without_reason = command(*words, "--corrects", old["number"])
    assert without_reason.code == 2
    assert "needs its reason" in without_reason.words
    done = command(*words, "--corrects", old["number"], "--reason", "mark found")
    assert done.code == 0, done.words
    shown = command("show", case)
    assert f"(corrects entry {old['number']}: mark found)" in shown.out
    assert shown.out.count("exhibit E1") == 2
    again = command(*words, "--corrects", old["number"], "--reason", "again")
    assert again.code == 1
    assert "the entry that holds now" in again.words


def test_changed_byte_is_named_and_refused(command: Command, case: Path) -> None:
    raw = (case / ENTRIES).read_bytes()
    (case / ENTRIES).write_bytes(raw.replace(b"Wexcombe", b"Waxcombe"))
    answer = command("verify", case)
    assert answer.code == 1
    assert "entries.jsonl, line 3" in answer.words
    shown = command("show", case)
    assert shown.code == 1
    assert "does not agree with its hash" in shown.words


def test_future_entry_is_refused_and_left_alone(
    command: Command, case: Path, tmp_path: Path
) -> None:
    import hashlib  # noqa: PLC0415 - only this test makes a future by hand

    import rfc8785  # noqa: PLC0415

    last = json.loads((case / ENTRIES).read_bytes().splitlines()[-1])
    future = {
        **{key: value for key, value in last.items() if key != "sha256"},
        "schema_version": 7,
        "number": last["number"] + 1,
        "previous_sha256": last["sha256"],
    }
    future["sha256"] = hashlib.sha256(rfc8785.dumps(future)).hexdigest()
    with (case / ENTRIES).open("ab") as stream:
        stream.write(rfc8785.dumps(future) + b"\n")
    before = (case / ENTRIES).read_bytes()
    answer = command("report", case, "--to", tmp_path / "r.html")
    assert answer.code == 1
    assert "written by a newer Strandproof" in answer.words
    assert (case / ENTRIES).read_bytes() == before
    assert not (tmp_path / "r.html").exists()


REFUSALS: dict[str, tuple[tuple[str, ...], int, str]] = {
    "unknown claim kind": (
        (
            *("claim", "{case}", "--id", "K2", "--words", "pure", "--speaker", "M"),
            *("--role", "maker", "--medium", "page", "--at", "2031-04-02"),
            *("--capture", "{tag}", "--kind", "purity", "--reading", "x", "--by", "R"),
        ),
        1,
        "'composition', 'oxygen', 'casting_route'",
    ),
    "unknown speaker": (
        (
            *("claim", "{case}", "--id", "K2", "--words", "pure", "--speaker", "M"),
            *("--role", "rumour", "--medium", "page", "--at", "2031-04-02"),
            *("--capture", "{tag}", "--kind", "build", "--reading", "x", "--by", "R"),
        ),
        1,
        "speaker_role",
    ),
    "claim without speaker": (
        ("claim", "{case}", "--id", "K2", "--words", "pure", "--by", "R"),
        2,
        "Missing option",
    ),
    "claim without anything but its words": (
        (
            *("claim", "{case}", "--id", "K2", "--words", "pure", "--by", "R"),
            *("--kind", "build", "--reading", "x"),
        ),
        1,
        "Who says this? maker, shop, tester, other",
    ),
    "capture file that is not there": (
        (
            *("claim", "{case}", "--id", "K2", "--words", "pure", "--speaker", "M"),
            *("--role", "maker", "--medium", "page", "--at", "2031-04-02"),
            *("--capture", "gone.png", "--kind", "build", "--reading", "x"),
            *("--by", "R"),
        ),
        1,
        "gone.png cannot be read: No such file",
    ),
    "name that is taken": (
        (
            *("specimen", "{case}", "--id", "E1-s1", "--exhibit", "E1"),
            *("--taken-from", "x", "--at", "2031-04-05", "--by", "R"),
        ),
        1,
        "'E1-s1' is already the name",
    ),
    "exhibit that is not there": (
        (
            *("specimen", "{case}", "--id", "s9", "--exhibit", "E9"),
            *("--taken-from", "x", "--at", "2031-04-05", "--by", "R"),
        ),
        1,
        "no exhibit 'E9'; it has: E1",
    ),
    "date of another style": (
        (
            *("specimen", "{case}", "--id", "s9", "--exhibit", "E1"),
            *("--taken-from", "x", "--at", "5.4.2031", "--by", "R"),
        ),
        2,
        "write it like 2031-03-03T19:12Z",
    ),
    "time without zone": (
        (
            *("specimen", "{case}", "--id", "s9", "--exhibit", "E1"),
            *("--taken-from", "x", "--at", "2031-04-05T10:00", "--by", "R"),
        ),
        2,
        "lacks its time zone",
    ),
    "pixel size of zero": (
        (
            *("calibrate", "{case}", "--id", "c9", "--um-per-px", "0"),
            *("--uncertainty", "0.1", "--method", "x", "--at", "2031-05-10"),
            *("--by", "R"),
        ),
        2,
        "not above zero",
    ),
    "negative pixel size": (
        (
            *("calibrate", "{case}", "--id", "c9", "--um-per-px=-0.17"),
            *("--uncertainty", "0.1", "--method", "x", "--at", "2031-05-10"),
            *("--by", "R"),
        ),
        2,
        "not above zero",
    ),
    "decimal comma": (
        (
            *("calibrate", "{case}", "--id", "c9", "--um-per-px", "0,1726"),
            *("--uncertainty", "0.1", "--method", "x", "--at", "2031-05-10"),
            *("--by", "R"),
        ),
        2,
        "write 0.1726 with a decimal point",
    ),
    "unit that is no length": (
        (
            *("calibrate", "{case}", "--id", "c9", "--um-per-px", "0.1726kg"),
            *("--uncertainty", "0.1", "--method", "x", "--at", "2031-05-10"),
            *("--by", "R"),
        ),
        2,
        "use um, nm or mm",
    ),
    "direction that is none": (
        (
            *("section", "{case}", "--id", "x", "--specimen", "E1-s1"),
            *("--direction", "sideways", "--by", "R"),
        ),
        1,
        "'transverse', 'longitudinal'",
    ),
    "unknown kind of entry": (
        ("enter", "{case}", "rumour", "--fields", "{tag}", "--by", "R"),
        2,
        "is no JSON file",
    ),
    "file option without equals sign": (
        (
            "enter",
            "{case}",
            "document",
            "--fields",
            "{tag}",
            "--file",
            "x",
            "--by",
            "R",
        ),
        2,
        "field=path",
    ),
    "no case there": (("show", "{tmp}"), 1, "is no case"),
    "case over a case": (
        ("new", "{case}", "--title", "x", "--owner", "R"),
        1,
        "is not empty",
    ),
    "unknown micrograph": (
        ("examine", "{case}", "f9", "--by", "R"),
        1,
        "f9",
    ),
    "unknown command": (("polish", "{case}"), 2, "No such command"),
}


@pytest.mark.parametrize("wrong", REFUSALS)
def test_wrong_turns_get_one_clear_answer_and_change_nothing(
    command: Command, case: Path, tmp_path: Path, wrong: str
) -> None:
    words, code, said = REFUSALS[wrong]
    places = {"case": str(case), "tag": str(tmp_path / "tag.txt"), "tmp": str(tmp_path)}
    before = {path: path.read_bytes() for path in case.rglob("*") if path.is_file()}
    answer = command(*(word.format(**places) for word in words))
    assert answer.code == code, answer.words
    assert said in answer.words
    assert "Traceback" not in answer.words
    after = {path: path.read_bytes() for path in case.rglob("*") if path.is_file()}
    assert {p: b for p, b in after.items() if p.name != ".writer.lock"} == {
        p: b for p, b in before.items() if p.name != ".writer.lock"
    }


def test_same_picture_under_two_codes_is_refused(
    command: Command, case: Path, picture: Path, tmp_path: Path
) -> None:
    add_micrograph(command, case, picture)
    renamed = tmp_path / "other-name.png"
    shutil.copy(picture, renamed)
    answer = command(
        *("micrograph", case, renamed, "--id", "f2", "--section", "E1-s1-L"),
        *("--calibration", "stage", "--by", "A1"),
    )
    assert answer.code == 1
    assert "already in the case, as micrograph f1" in answer.words


def test_uncalibrated_micrograph_is_shown_but_not_measured(
    command: Command, case: Path, picture: Path, tmp_path: Path
) -> None:
    answer = command(
        *("micrograph", case, picture, "--id", "f1", "--section", "E1-s1-L"),
        *("--by", "A1"),
    )
    assert answer.code == 0
    refused = command("examine", case, "f1", "--by", "A1")
    assert refused.code == 1
    assert "it can be shown but not measured" in refused.words
    assert command("report", case, "--to", tmp_path / "r.html").code == 0


def test_unreadable_picture_is_refused(
    command: Command, case: Path, picture: Path, tmp_path: Path
) -> None:
    cut = tmp_path / "cut.png"
    cut.write_bytes(picture.read_bytes()[:-200])
    answer = command(
        *("micrograph", case, cut, "--id", "f1", "--section", "E1-s1-L", "--by", "A1"),
    )
    assert answer.code == 1
    assert "cannot be read" in answer.words


def test_help_names_every_step(command: Command) -> None:
    answer = command("--help")
    assert answer.code == 0
    for step in ("new", "claim", "exhibit", "calibrate", "examine", "verify", "demo"):
        assert step in answer.out
    assert command("--version").out.startswith("strandproof ")
