"""The plan as a person types it: places, lock, changes, every field."""

import json
import re
from pathlib import Path

import pytest
from command_line import Command
from plan_examples import STRANDS, planned, read_bench

BY = ("--by", "R")


@pytest.fixture
def places(tmp_path: Path, command: Command) -> Path:
    path = tmp_path / "places.json"
    longs = [word for each in STRANDS for word in ("--long", f"{each}-L")]
    faces = [word for each in STRANDS for word in ("--face", f"{each}-T")]
    answer = command(
        *("plan-positions", *longs, *faces, "--out", path),
        *("--length", "10mm", "--width", "0.31mm", "--seed", 2031),
    )
    assert "54 fields: 5 on each of 9 long sections, 9 whole faces." in answer.out
    assert "seed 2031" in answer.out
    return path


def lock_words(folder: Path) -> tuple[str | Path, ...]:
    return (
        *("lock-plan", folder, "--id", "plan-1", "--claim", "K3", *BY),
        *("--hypothesis", "G1", "--hypothesis", "G2", "--test", "area"),
        *("--primary", "copper area", "--stop", "each piece once"),
        *("--mind", "an area of 0.1288 mm²", "--rule", "twins not counted"),
    )


def test_lock_add_deviate_account(
    tmp_path: Path, command: Command, places: Path
) -> None:
    desk = planned(tmp_path)
    checked = command(*lock_words(desk.folder), "--places", places, "--check-only")
    assert "Without a known single crystal through the same steps" in checked.words
    locked = command(*lock_words(desk.folder))
    published = re.search(r"to be published: ([0-9a-f]{64})", locked.out)
    assert published
    added = (
        *("deviate", desk.folder, "--id", "a1", "--plan", "plan-1"),
        *("--kind", "addition", "--what", "sections for K1"),
        *("--because", "the tag was in the bag", "--places", places, *BY),
    )
    answer = command(*added)
    assert "Addition 1, before any result: sections for K1" in answer.words
    read_bench(desk)
    changed = (
        *("deviate", desk.folder, "--id", "d1", "--plan", "plan-1", *BY),
        *("--kind", "deviation", "--what", "section dropped"),
        *("--because", "readers differ", "--drop", "E2-s3-T:1", "--no-result-seen"),
    )
    answer = command(*changed)
    assert (
        "Deviation 1, after results were seen: section dropped, 'over-etched' (A2); "
        "A1 had read it."
    ) in answer.words
    assert "By the word of R: none was seen. Word and record differ." in answer.words
    answer = command("fields", desk.folder)
    assert "54 fields; 53 used (45 of 45, 8 of 9)" in answer.words
    assert "The face of E2-s3-T, dropped" in answer.words
    sheet = json.loads(command("fields", desk.folder, "--json").out)
    assert len(sheet["fields"]) == 54
    log = command("plan-log", desk.folder)
    assert published[1] in log.out
    data = json.loads(command("plan-log", desk.folder, "--json").out)
    assert data["plans"] == {"plan-1": published[1]}
    assert [each["agrees"] for each in data["changes"]] == [True, False]


def test_blank_interests_and_bad_fields_are_refused(
    tmp_path: Path, command: Command
) -> None:
    desk = planned(tmp_path, interests=False)
    answer = command(*lock_words(desk.folder))
    assert answer.code == 1
    assert "Money blank;" in answer.words
    assert "lock refused" in answer.words
    wrong = ("--kind", "deviation", "--what", "x", "--because", "y", "--drop", "E2")
    answer = command("deviate", desk.folder, "--id", "d", "--plan", "p", *wrong, *BY)
    assert answer.code == 2
    assert "SECTION:NUMBER" in answer.words
