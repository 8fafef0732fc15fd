"""Custody, ledger, preparation and controls by commands."""

import json
from pathlib import Path

import pytest
from command_line import Command

BY = ("--by", "A1")
SEND = (
    *("--id", "to-bench", "--item", "specimen/E1-s1", "--giver", "R"),
    *("--receiver", "A1", "--given", "2031-05-06T16:40Z", "--condition", "closed"),
    *("--carrier", "parcel service", *BY),
)


def test_gap_is_shown_explained_and_kept(command: Command, case: Path) -> None:
    sent = command("hand-over", case, *SEND, "--received", "2031-05-08T09:15Z")
    assert sent.code == 0, sent.words
    assert "G1. Gap: 2031-05-06 16:40 to 2031-05-08 09:15, no holder recorded" in (
        sent.words
    )
    told = command("explain-gap", case, "G1", "--words", "in the depot", *BY)
    assert told.code == 0, told.words
    shown = command("custody", case).words
    assert "Gap: 05-06 16:40 to 05-08 09:15, no holder recorded" in shown
    assert "in the depot" in shown
    at = command(
        *("custody", case, "--thing", "specimen/E1-s1", "--at", "2031-05-07T10:00Z")
    )
    assert "no holder recorded" in at.words
    data = json.loads(command("custody", case, "--json").out)
    assert data["gaps"][0]["name"] == "G1"
    assert command("verify", case).code == 0


def test_arrival(command: Command, case: Path) -> None:
    assert command("hand-over", case, *SEND).code == 0
    answer = command(
        *("arrived", case, "to-bench", "--at", "2031-05-08T09:15Z"),
        *("--condition", "dry", *BY),
    )
    assert answer.code == 0, answer.words
    assert "A1, 2031-05-08 09:15 to now" in (
        command("custody", case, "--thing", "specimen/E1-s1").words
    )


def test_wrong_turns_are_refused(command: Command, case: Path) -> None:
    early = command("hand-over", case, *SEND, "--received", "2031-05-01")
    assert early.code == 1
    assert "moment of giving" in early.words
    seal = command("hand-over", case, *SEND, "--seal-found", "torn")
    assert seal.code == 2
    assert "neither intact nor broken" in seal.words
    gap = command("explain-gap", case, "G4", "--words", "x", *BY)
    assert gap.code == 1
    assert "no custody gap 'G4'" in gap.words


def test_hot_mount_from_event_to_answer(command: Command, case: Path) -> None:
    hot = command(
        *("handle", case, "--id", "mount", "--item", "specimen/E1-s1", *BY),
        *("--event", "hot mount", "--celsius", "180", "--minutes", "8"),
    )
    assert hot.code == 0, hot.words
    assert (
        "hot mount 180 °C, 8 min: can recrystallise cold-drawn pure copper; treat the "
        "bent single-crystal control alike, or mount cold."
    ) in hot.words
    assert "Open." in command("ledger", case).words
    answer = command(
        *("answer-flag", case, "F1", "--words", "nothing seen", *BY),
        *("--evidence", "specimen/E1-s1"),
    )
    assert answer.code == 0, answer.words
    data = json.loads(command("ledger", case, "--json").out)
    assert data["flags"][0]["open"] is False
    assert command("answer-flag", case, "F1", "--words", "x", *BY).code == 2


def test_preparation_step_by_step(command: Command, case: Path, picture: Path) -> None:
    def step(name: str, kind: str) -> str:
        answer = command(
            *("prepare", case, "--id", name, "--section", "E1-s1-L", "--step", kind),
            *("--words", "by the laboratory's own procedure", *BY),
            *("--picture", picture),
        )
        assert answer.code == 0, answer.words
        return answer.words

    first = step("etch-a", "etch")
    assert "incomplete: may be shown, not counted" in first
    assert "missing: as-polished picture, first etch step" in first
    assert "fume hood" in first
    assert "fume hood" not in step("again", "repolish")
    step("etch-b", "etch")
    assert "E1-s1-L: complete" in step("etch-c", "etch")
    assert "E1-s1-L: complete" in command("preparation", case).words
    data = json.loads(command("preparation", case, "--json").out)
    assert data[0]["complete"] is True


def test_ceiling_of_a_plan_without_a_case(command: Command) -> None:
    none = command("controls", "--section-mount", "m1")
    assert none.code == 0, none.words
    assert "Without a known single crystal through the same steps" in none.words
    plan = ("--planned", "24:single_crystal:m1+m2+m3+m4+m5", "--section-mount", "m1")
    words = command("controls", *plan).words
    assert "the ceiling is 8.1 (expected 24.7, uniform prior)" in words
    assert "there n = 5, ceiling 2.1" in words
    data = json.loads(command("controls", *plan, "--json").out)
    assert data["controls"] == 24


@pytest.mark.parametrize("plan", ["many:single_crystal", "4", "4:", ":process"])
def test_plan_that_cannot_be_read(command: Command, plan: str) -> None:
    answer = command("controls", "--planned", plan)
    assert answer.code == 2
    assert "is not of the form" in answer.words


def test_controls_of_a_case(command: Command, case: Path) -> None:
    answer = command("controls", case, "--planned", "4:process:m1")
    assert answer.code == 0, answer.words
    assert "ceiling is 1.8" in answer.words
    assert "Some sections name no mount" in answer.words
    assert command("controls", case, "--section-mount", "m1").code == 2
