"""The command that combines readings, and what it refuses."""

import json
from pathlib import Path

import pytest
from command_line import Command
from workflow_examples import bench

KNOWN = [
    {"name": "k1", "family": "annealed", "shown": 100, "found": 97, "false": 2},
    {"name": "k2", "family": "annealed", "shown": 120, "found": 113, "false": 1},
]


@pytest.fixture(scope="module")
def h7(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return bench(tmp_path_factory.mktemp("bench") / "H7").folder


def words(case: Path, label: str) -> tuple[object, ...]:
    return (
        *("combine", case, "--id", label, "--counter", "A1", "--second", "A2"),
        *("--calibration", "stage", "--by", "A1"),
    )


def test_combine_enters_a_grain_size_with_and_without_known_pieces(
    command: Command, h7: Path, tmp_path: Path
) -> None:
    plain = command(*words(h7, "size"))
    assert plain.code == 0, plain.words
    assert "measurement size" in plain.out
    pieces = tmp_path / "known.json"
    pieces.write_text(json.dumps(KNOWN), "utf-8")
    answer = command(*words(h7, "size-known"), "--known", pieces, "--json")
    assert answer.code == 0, answer.words
    assert "known pieces: annealed" in json.dumps(json.loads(answer.out))


@pytest.mark.parametrize(
    ("text", "code", "said"),
    [
        ("not JSON", 2, "is no JSON file"),
        ('{"name": "k1"}', 2, "is no JSON list of objects"),
        ('[{"name": "k1"}]', 1, "whole numbers shown, found and false"),
        (json.dumps(KNOWN[:1]), 1, "two known pieces or more"),
        (
            json.dumps([KNOWN[0], {**KNOWN[1], "family": "drawn"}]),
            1,
            "pieces of the family 'annealed' only",
        ),
    ],
)
def test_wrong_known_pieces_are_refused(
    command: Command, h7: Path, tmp_path: Path, text: str, code: int, said: str
) -> None:
    pieces = tmp_path / "known.json"
    pieces.write_text(text, "utf-8")
    answer = command(*words(h7, "refused"), "--known", pieces)
    assert answer.code == code
    assert said in " ".join(answer.words.split())


def test_combine_draws_and_refuses_a_file_that_is_there(
    command: Command, h7: Path, tmp_path: Path
) -> None:
    target = tmp_path / "levels.svg"
    answer = command(*words(h7, "drawn"), "--plot", target)
    assert answer.code == 0, answer.words
    assert "Drawing:" in answer.out
    assert "3 leads: 8.4 ± 0.8 µm (95 %)" in target.read_text("utf-8")
    refused = command(*words(h7, "not-entered"), "--plot", target)
    assert refused.code == 1
    assert "a file is there" in refused.words
    assert "not-entered" not in (h7 / "entries.jsonl").read_text("utf-8")


def test_boundaries_along_a_length_are_events(
    command: Command, h7: Path, tmp_path: Path
) -> None:
    def bound(label: str, *more: object) -> tuple[int, str]:
        answer = command(
            *("no-boundary", h7, "--id", label, "--specimen", "E1-s1"),
            *("--millimetres", "36", "--by", "A1", *more),
        )
        return answer.code, answer.words

    code, said = bound("none")
    assert (code, "No boundary resolved over 36 mm" in said) == (0, True)
    places = ("--boundary-at", "3.1", "--boundary-at", "3.25")
    code, said = bound("refused", *places)
    assert (code, "--stray-length" in said) == (1, True)
    code, said = bound("places", *places, "--stray-length", "0.3")
    assert (code, "One event (2 boundaries) in 36 mm: at most 0.132" in said) == (
        0,
        True,
    )
    table = tmp_path / "stray.csv"
    table.write_text("start_mm,end_mm\n3.1,3.25\n20,\n", "utf-8")
    code, said = bound("table", "--stray-crystals", table)
    assert (code, "2 events (3 boundaries) in 36 mm" in said) == (0, True)
    code, said = bound("both", "--stray-crystals", table, "--boundary-at", "3")
    assert (code, "not both" in said) == (2, True)
