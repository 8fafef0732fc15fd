"""Blinding as a person types it: codes, seal, hand out, read, take back, open."""

import json
import re
from pathlib import Path

import pytest
from blinding_examples import CODES, coded_case, sealed_case
from command_line import Command
from workflow_examples import add

BY = ("--by", "C")


def test_from_codes_to_the_opened_list(  # noqa: PLR0915 - one story
    tmp_path: Path, command: Command
) -> None:
    folder = coded_case(tmp_path).folder
    labels, coder = tmp_path / "labels.json", tmp_path / "coder.csv"
    where = ("--labels", labels, "--list", coder)
    answer = command("codes", folder, *where, "--all-sections", "--spares", 2, *BY)
    assert "6 labels" in answer.out
    assert "Do not send." in answer.out
    seal = ("--id", "list-1", "--list", coder, "--reader", "A1")
    answer = command("seal-list", folder, *seal, *BY)
    sealed = re.search(r"Sealed as ([0-9a-f]{64})", answer.out)
    assert sealed
    out = tmp_path / "to-A1.zip"
    given = ("--id", "to-A1", "--reader", "A1", "--sealed-list", "list-1", "--out", out)
    answer = command("hand-out", folder, *given, "--lines", 2, *BY)
    assert answer.code == 0, answer.words
    answer = command("open-list", folder, "list-1", *BY)
    assert answer.code == 1
    assert "refused, 4 readings open" in answer.words
    mine, marks = tmp_path / "mine.json", tmp_path / "marks.csv"
    marks.write_text("line,along_px,feature\n1,10,boundary\n", encoding="utf-8")
    codes = [line.split(",")[0] for line in coder.read_text().splitlines()[1:5]]
    for code in codes:
        read = ("--picture", f"{code}-1", "--marks", marks, "--out", mine)
        answer = command("read-hand-out", out, *read)
        assert answer.code == 0, answer.words
        assert "1 boundary marked on" in answer.out
    assert f"All read. Send back {mine}." in answer.words
    answer = command("take-back", folder, "to-A1", mine, *BY)
    assert answer.out.count("reading lock") == 4
    again = command("take-back", folder, "to-A1", mine, *BY)
    assert again.code == 1
    assert "neither changed nor locked again" in again.words
    assert command("open-list", folder, "list-1", *BY).code == 0
    answer = command("check-list", folder, "list-1")
    assert f"agrees with its seal {sealed[1]}" in answer.words
    assert command("verify", folder).code == 0


def test_mistyped_label(tmp_path: Path, command: Command) -> None:
    folder = sealed_case(tmp_path).folder
    assert command("label", folder, "DQV 835").out.strip() == "DQV-835"
    answer = command("label", folder, "DQV-853")
    assert answer.code == 1
    assert "No such label; did you mean DQV-835?" in answer.words


def test_a_name_in_a_rule_is_refused(tmp_path: Path, command: Command) -> None:
    folder = sealed_case(tmp_path).folder
    given = ("--id", "x", "--reader", "A1", "--sealed-list", "list-1")
    out = tmp_path / "out"
    rule = ("--rule", "as for the Tern earphone lead")
    answer = command("hand-out", folder, *given, "--out", out, *rule, *BY)
    assert answer.code == 1
    assert "the product 'Tern earphone lead' in READ-ME-FIRST.txt" in answer.words
    assert not out.exists()


def test_open_codes_are_told_and_json_is_for_programs(
    tmp_path: Path, command: Command
) -> None:
    desk = sealed_case(tmp_path)
    folder = desk.folder
    cut = {"id": "E1-s2-L", "specimen": "E1-s1", "direction": "longitudinal"}
    add(desk, [("section", {**cut, "blind_code": "GVF-584"})])
    coder = tmp_path / "coder.csv"
    coder.write_text("code,stands_for\nGVF-584,section/E1-s2-L\n", "utf-8")
    answer = command("seal-list", folder, "--id", "l2", "--list", coder, *BY)
    assert "1 codes stand openly" in answer.words
    given = ("--id", "x", "--reader", "A1", "--sealed-list", "list-1")
    answer = command("hand-out", folder, *given, "--out", tmp_path / "o", "--json", *BY)
    assert json.loads(answer.out)[0]["kind"] == "hand_out"
    name = f"{next(iter(CODES))}-1"
    read = ("--picture", name, "--verdict", "none_resolved", "--json")
    answer = command(
        "read-hand-out", tmp_path / "o", *read, "--out", tmp_path / "m.json"
    )
    assert len(json.loads(answer.out)["left"]) == 3


def test_redact_reveal_check(tmp_path: Path, command: Command) -> None:
    folder = coded_case(tmp_path).folder
    whole, shown = tmp_path / "w.txt", tmp_path / "s.txt"
    whole.write_text("3 Plum Lane", encoding="utf-8")
    shown.write_text("#", encoding="utf-8")
    files = ("--whole", whole, "--shown", shown)
    why = ("--removed", "address", "--because", "private")
    answer = command("redact", folder, "--id", "invoice", *files, *why, *BY)
    assert "The whole is sealed as" in answer.out
    answer = command("reveal", folder, "invoice", "--out", tmp_path / "again.txt")
    salt = answer.out.split()[-1]
    checked = ("invoice", tmp_path / "again.txt", "--salt", salt)
    assert (
        "is the file that was sealed" in command("check-revealed", folder, *checked).out
    )
    answer = command("check-revealed", folder, "invoice", shown, "--salt", salt)
    assert answer.code == 1
    assert "does not agree with its seal" in answer.words


@pytest.mark.parametrize("name", ["codes", "seal-list", "hand-out", "take-back"])
def test_missing_options_are_misuse(
    tmp_path: Path, command: Command, name: str
) -> None:
    assert command(name, tmp_path).code == 2
