"""Purchase, intake, split and build, by commands."""

import json
from pathlib import Path

import pytest
from command_line import Command

PARTS = ("--test", "0.600", "--maker", "0.325", "--referee", "0.325", "--by", "R")


def entered(command: Command, case: Path, kind: str, fields: dict[str, object]) -> None:
    path = case.parent / f"{kind}.json"
    path.write_text(json.dumps(fields), encoding="utf-8")
    answer = command("enter", case, kind, "--fields", path, "--by", "R")
    assert answer.code == 0, answer.words


def test_split_prints_the_balance(command: Command, case: Path) -> None:
    answer = command(
        "split", case, "E1", *PARTS, "--waste", "0.048", "--test-g", "4.08"
    )
    assert answer.code == 0, answer.words
    assert "test 0.600, maker 0.325, referee 0.325, waste 0.048 m" in answer.out
    assert "the balance cannot be told, one size is not entered" in answer.out
    assert "E1: E1-maker: no seal entered." in answer.out
    told = command("portions", case, "--tolerance-mm", "1", "--tolerance-g", "0.1")
    assert "must stay whole: nothing is published yet" in told.words
    (data,) = json.loads(command("portions", case, "--json").out)
    assert data["length"]["waste"] == [0.048]
    assert data["length"]["tolerance"] == pytest.approx(0.005, rel=1e-12)


def test_kept_part_is_refused_to_a_test(command: Command, case: Path) -> None:
    command("split", case, "E1", *PARTS)
    fields = case.parent / "gone.json"
    gone = {"id": "x", "items": ["portion/E1-maker"], "fate": "consumed"}
    gone |= {"reason": "hardness", "at": "2031-05-01T12:00Z", "by": "R"}
    fields.write_text(json.dumps(gone), encoding="utf-8")
    answer = command("enter", case, "disposal", "--fields", fields, "--by", "R")
    assert answer.code == 1
    assert "E1-maker is kept whole for the maker or a referee" in answer.words


@pytest.mark.parametrize(
    ("words", "code", "said"),
    [
        (("split", "E9", *PARTS), 1, "no exhibit 'E9'"),
        (("split", "E1", "--test", "1", "--by", "R"), 2, "Missing option"),
        (("split", "E1", *PARTS, "--waste", "-1"), 2, "greater than or equal to 0"),
        (("intake", "E9"), 1, "no exhibit 'E9'"),
        (("purchase-match", "--exhibit", "E9"), 1, "no exhibit 'E9'"),
        (("purchase-match", "--claim", "K9", "--exhibit", "E1"), 1, "no claim 'K9'"),
        (("portions", "--tolerance-mm", "-1"), 2, "greater than or equal to 0"),
    ],
)
def test_wrong_turns(
    command: Command, case: Path, words: tuple[str, ...], code: int, said: str
) -> None:
    first, *others = words
    answer = command(first, case, *others)
    assert answer.code == code
    assert said in answer.words


def test_piece_without_a_purchase_beside_the_claim(
    command: Command, case: Path
) -> None:
    answer = command("purchase-match", case, "--exhibit", "E1")
    assert "E1: how obtained: not recorded; no lot mark" in answer.words
    assert "Sentences about the product may not rest on E1 alone." in answer.words
    (data,) = json.loads(
        command("purchase-match", case, "--exhibit", "E1", "--json").out
    )
    assert {each["match"] for each in data["aspects"]} <= {"not recorded", "matches"}
    missing = command("purchase-match", case, "--exhibit", "E1", "--counter", "A1")
    assert missing.code == 1


def test_intake_lists_what_is_missing(command: Command, case: Path) -> None:
    answer = command("intake", case, "E1")
    assert "E1: Picture missing: the whole piece with ruler and colour card." in (
        answer.words
    )
    assert len(json.loads(command("intake", case, "E1", "--json").out)) == 11


def test_build_with_its_targets(command: Command, case: Path) -> None:
    assert "No layer and no conductor type" in command("build", case).out
    drain = {"id": "E1-drain", "exhibit": "E1", "description": "drain, tinned"}
    entered(
        command,
        case,
        "conductor_type",
        {**drain, "conductors": 1, "strands": 7, "plating": "tin"},
    )
    told = command("build", case).words
    assert "E1: drain, tinned, plated with tin; 1 × 7 strands; not measured." in told
    assert "Drain: tested: nothing; not tested: purity" in told
    data = json.loads(command("build", case, "--json").out)
    assert "metal under the tin of the drain" in data["not_tested"]
