"""Use cases of custody, ledger, preparation and controls, on a case on disk."""

from pathlib import Path
from typing import Any

import pytest
from blinding_examples import given_out, returned, seal_of, sealed_case
from reading_examples import case_with_micrographs, lines_file, marks_file
from workflow_examples import NOON, add, desk_at, started

from strandproof.app.workflow import (
    Desk,
    enter,
    enter_reading,
    examine_micrograph,
    open_case,
)
from strandproof.app.workflow.blinding import take_back
from strandproof.app.workflow.keeping.controls import (
    ceiling_data,
    ceiling_of_plan,
    controls_in_words,
    controls_of_plan,
)
from strandproof.app.workflow.keeping.custody import (
    custody_data,
    custody_in_words,
    explain_gap,
    hand_over,
    new_gaps,
    note_arrival,
)
from strandproof.app.workflow.keeping.handling import (
    answer_flag,
    handle,
    ledger_data,
    ledger_in_words,
)
from strandproof.app.workflow.keeping.preparing import (
    preparation_data,
    preparation_in_words,
    prepare,
)
from strandproof.errors import (
    InvalidEntryError,
    ParameterError,
    PreparationIncompleteError,
    UnknownLabelError,
)
from strandproof.records.entries import Reading

OUT = "2031-06-06T16:40Z"
IN = "2031-06-08T09:15Z"
SENT: dict[str, Any] = {
    "id": "to-bench",
    "items": ["specimen/E1-s1"],
    "giver": "R",
    "receiver": "A1",
    "given_at": OUT,
    "received_at": IN,
    "condition": "closed",
}


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    return started(tmp_path / "H7")


def seal(desk: Desk) -> None:
    put_on = {
        "id": "seal-1",
        "seal_number": "0071",
        "on": "specimen/E1-s1",
        "event": "applied",
        "at": NOON,
        "by": "R",
    }
    add(desk, [("seal", put_on)])


def test_hand_over_brings_a_gap_to_light(desk: Desk) -> None:
    before = open_case(desk.folder)
    hand_over(desk, SENT)
    (gap,) = new_gaps(before, open_case(desk.folder))
    assert gap.name == "G1"
    lines = custody_in_words(open_case(desk.folder))
    assert lines[0] == "All times are UTC, 2031."
    assert "Gap: 06-06 16:40 to 06-08 09:15, no holder recorded" in lines[1]


def test_seal_found_on_arrival_is_an_entry_of_its_own(desk: Desk) -> None:
    seal(desk)
    entries = hand_over(desk, {**SENT, "seal": "seal-1"}, seal_found="broken")
    assert [entry.kind for entry in entries] == ["hand_over", "seal"]
    assert "found broken by A1" in " ".join(custody_in_words(open_case(desk.folder)))


def test_arrival_of_what_was_under_way(desk: Desk) -> None:
    seal(desk)
    hand_over(desk, {**SENT, "received_at": None, "seal": "seal-1"})
    assert "no receipt recorded" in " ".join(custody_in_words(open_case(desk.folder)))
    when = NOON.replace(day=8)
    note_arrival(
        desk, "to-bench", received_at=when, condition="dry", seal_found="intact"
    )
    state = open_case(desk.folder)
    assert custody_in_words(state, thing="specimen/E1-s1")[-1].startswith("A1, 2031-06")
    assert custody_data(state)["gaps"][0]["to"] == when.isoformat()
    with pytest.raises(ParameterError, match="still under way. It was received"):
        note_arrival(desk, "to-bench", received_at=when, condition="dry")


@pytest.mark.parametrize(
    ("changes", "message"),
    [
        ({"received_at": "2031-06-01T09:15Z"}, "moment of giving"),
        ({"receiver": " r "}, "somebody else than the giver"),
    ],
)
def test_impossible_hand_overs_are_refused(
    desk: Desk, changes: dict[str, str], message: str
) -> None:
    with pytest.raises(ParameterError, match=message):
        hand_over(desk, {**SENT, **changes})
    assert custody_in_words(open_case(desk.folder)) == (
        "No gap in custody is on record.",
    )


def test_hand_over_of_unknown_things_or_without_persons_is_refused(desk: Desk) -> None:
    with pytest.raises(UnknownLabelError, match="no specimen 's9'"):
        hand_over(desk, {**SENT, "items": ["specimen/s9"]})
    with pytest.raises(InvalidEntryError, match="giver"):
        hand_over(desk, {**SENT, "giver": " "})
    with pytest.raises(ParameterError, match="names its seal"):
        hand_over(desk, SENT, seal_found="intact")


def test_gap_is_explained_and_stays(desk: Desk, tmp_path: Path) -> None:
    hand_over(desk, SENT)
    paper = tmp_path / "tracking.txt"
    paper.write_text("kept over a holiday")
    for words in ("in the depot", "asked again: in the depot"):
        explain_gap(desk, "G1", words, evidence=["hand_over/to-bench"], paper=paper)
    told = " ".join(custody_in_words(open_case(desk.folder)))
    assert "Gap: 06-06 16:40 to 06-08 09:15, no holder recorded" in told
    assert "in the depot" in told
    assert "asked again" in told
    with pytest.raises(UnknownLabelError, match="no custody gap 'G2'"):
        explain_gap(desk, "G2", "x")


def test_who_held_what_at_a_moment(desk: Desk) -> None:
    hand_over(desk, SENT)
    state = open_case(desk.folder)
    (line,) = custody_in_words(state, thing="specimen/E1-s1", at=NOON.replace(day=7))
    assert "no holder recorded; last with R, next with A1" in line
    assert len(custody_in_words(state, at=NOON.replace(day=7))) == 2
    assert "disposed" not in line


def test_explanation_by_hand_with_a_wrong_time_is_named(desk: Desk) -> None:
    hand_over(desk, SENT)
    wrong = {
        "id": "x",
        "gap": "G1",
        "items": ["specimen/E1-s1"],
        "gap_from": NOON,
        "explanation": "x",
        "explained_by": "R",
        "explained_at": NOON,
    }
    enter(desk, "gap_explanation", wrong)
    told = custody_in_words(open_case(desk.folder))
    assert "Not explained." in told
    assert told[-1].startswith("Explanation x names a gap G1")


HOT: dict[str, Any] = {
    "id": "mount",
    "items": ["specimen/E1-s1"],
    "event": "hot mount",
    "highest_temperature_c": 180,
    "duration_s": 480,
}


def test_hot_mount_stands_until_answered(desk: Desk) -> None:
    _, flags = handle(desk, HOT)
    (flag,) = flags
    assert flag.sentence == (
        "hot mount 180 °C, 8 min: can recrystallise cold-drawn pure copper; treat the "
        "bent single-crystal control alike, or mount cold."
    )
    assert "Open." in ledger_in_words(open_case(desk.folder))
    with pytest.raises(ParameterError, match="one entry of the case or more"):
        answer_flag(desk, "F1", "done")
    answer_flag(desk, "F1", "nothing seen", evidence=["specimen/E1-s1"])
    told = " ".join(ledger_in_words(open_case(desk.folder)))
    assert "hot mount 180 °C, 8 min: can recrystallise" in told
    assert "Answered by A1: nothing seen. Rests on specimen/E1-s1." in told
    assert "Open." not in told
    data = ledger_data(open_case(desk.folder))
    assert data["flags"][0]["open"] is False
    assert data["specimens"][0]["highest_temperature_c"] == 180


def test_bad_events_are_refused(desk: Desk) -> None:
    with pytest.raises(InvalidEntryError, match="duration_s"):
        handle(desk, {**HOT, "duration_s": -1})
    with pytest.raises(InvalidEntryError, match="bend_radius_mm"):
        handle(desk, {**HOT, "bend_radius_mm": 0})
    with pytest.raises(UnknownLabelError, match="no handling flag 'F1'"):
        answer_flag(desk, "F1", "x", evidence=["specimen/E1-s1"])


def test_answer_by_hand_to_another_event_is_named(desk: Desk) -> None:
    handle(desk, HOT)
    handle(desk, {**HOT, "id": "other"})
    wrong = {
        "id": "x",
        "flag": "F1",
        "event": "handling_event/other",
        "answer": "x",
        "answered_by": "R",
        "answered_at": NOON,
    }
    enter(desk, "flag_answer", wrong)
    assert ledger_in_words(open_case(desk.folder))[-1].startswith("Answer x names")


def log(desk: Desk, tmp_path: Path, *steps: str) -> None:
    picture = tmp_path / "step.txt"
    picture.write_bytes(b"a picture")
    for step in steps:
        number = len(open_case(desk.folder).entries)
        fields = {
            "id": f"step-{number}",
            "sections": ["E1-s1-L"],
            "step": step,
            "description": "own procedure",
        }
        prepare(desk, fields, picture=picture)


def test_counts_wait_for_the_preparation_log(tmp_path: Path) -> None:
    desk = case_with_micrographs(tmp_path)
    log(desk, tmp_path, "etch")
    fields = {"id": "f1-A1", "blind": True}
    lines, marks = lines_file(desk), marks_file(desk, ["boundary"])
    with pytest.raises(
        PreparationIncompleteError, match="first etch step.*not counted"
    ):
        enter_reading(desk, fields, lines=lines, marks=marks)
    with pytest.raises(PreparationIncompleteError, match="may be shown"):
        examine_micrograph(desk, "f1")
    counted = {
        **fields,
        "reads": "section/E1-s1-L",
        "reader": "A1",
        "verdict": "boundaries",
        "counts": {"boundary": 12},
        "read_at": NOON,
    }
    with pytest.raises(PreparationIncompleteError, match="Nothing was entered"):
        enter(desk, "reading", counted)
    assert open_case(desk.folder).records(Reading) == ()
    log(desk, tmp_path, "repolish", "etch", "etch")
    enter_reading(desk, fields, lines=lines, marks=marks)
    assert len(open_case(desk.folder).records(Reading)) == 1


def test_readings_from_a_hand_out_wait_for_the_log_too(tmp_path: Path) -> None:
    desk, out = sealed_case(tmp_path, "A1"), tmp_path / "out"
    pictures = given_out(desk, out)["pictures"]
    log(desk, tmp_path, "etch")
    file = returned(
        tmp_path / "back.json", seal_of(out), [each["name"] for each in pictures]
    )
    with pytest.raises(
        PreparationIncompleteError, match="Section E1-s1-L is incomplete"
    ):
        take_back(desk, "to-A1", file)
    assert open_case(desk.folder).records(Reading) == ()


def test_verdict_without_counts_needs_no_log(tmp_path: Path) -> None:
    desk = case_with_micrographs(tmp_path)
    log(desk, tmp_path, "etch")
    enter_reading(
        desk,
        {
            "id": "f1-A1",
            "blind": True,
            "reads": "micrograph/f1",
            "verdict": "boundaries",
        },
    )
    assert len(open_case(desk.folder).records(Reading)) == 1


def test_log_numbers_its_steps_and_warns_of_acids(tmp_path: Path) -> None:
    desk = case_with_micrographs(tmp_path)
    log(desk, tmp_path, "polish")
    assert not any(
        "Acids" in line for line in preparation_in_words(open_case(desk.folder))
    )
    log(desk, tmp_path, "etch", "etch")
    state = open_case(desk.folder)
    assert [step["steps"] for step in preparation_data(state)] == [
        [entry.body.id for entry in state.current["preparation_step"].values()]
    ]
    lines = preparation_in_words(state, "E1-s1-L")
    assert lines[0] == "E1-s1-L: complete; not recorded: cut, mount."
    assert lines[1].startswith("Acids and etchants: fume hood")
    with pytest.raises(InvalidEntryError, match="step"):
        log(desk, tmp_path, "dip")


def test_section_of_no_case_and_case_without_sections(desk: Desk) -> None:
    assert preparation_in_words(open_case(desk.folder)) == (
        "No section is in the case.",
    )
    with pytest.raises(UnknownLabelError, match="no section 'x'"):
        preparation_in_words(open_case(desk.folder), "x")


def test_controls_of_a_plan_and_of_a_case(tmp_path: Path) -> None:
    desk = desk_at(tmp_path / "H7")
    started(tmp_path / "H7")
    plan = [("process", 4, "m1"), ("soft_oxygen_free", 2, "m1"), ("handling", 1, "")]
    found = ceiling_of_plan(plan, section_mounts=["m1"])
    assert found.words[0] == (
        "If all four are read blind and right, the ceiling is 1.8 (expected 5.7, "
        "uniform prior)."
    )
    data = ceiling_data(found)
    assert data["controls"] == 7
    assert data["mounts_without_process_control"] == []
    assert ceiling_data(ceiling_of_plan([]))["ceiling"] is None
    state = open_case(desk.folder)
    assert controls_in_words(state)[0].startswith("Without a known single crystal")
    assert "ceiling is 1.8" in " ".join(controls_in_words(state, plan))
    with pytest.raises(ParameterError, match="kind was given as 'dog'"):
        controls_of_plan([("dog", 1, "")])
