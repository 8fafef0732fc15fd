"""Use cases of the heat and handling ledger: enter an event, answer a flag, tell."""

from collections.abc import Mapping, Sequence
from typing import Any

from strandproof.app.workflow.entering import Desk, Fields, enter, open_case
from strandproof.errors import ParameterError
from strandproof.physical.handling import (
    HandlingFlag,
    flag_lines,
    flag_named,
    handling_flags,
    ledger,
    row_line,
    stray_answers,
)
from strandproof.records.case_state import CaseState
from strandproof.records.entries import Entry


def handle(desk: Desk, fields: Fields) -> tuple[Entry, tuple[HandlingFlag, ...]]:
    """Enter heat or strain that pieces saw in our own hands.

    Parameters
    ----------
    desk : Desk
        Folder and person.
    fields : mapping
        Fields of the record `HandlingEvent`; ``by`` and ``at`` are the person and the
        moment of the desk when left out.

    Returns
    -------
    entry : Entry
        The event as entered.
    flags : tuple of HandlingFlag
        What it raises.
    """
    stated = {name: value for name, value in fields.items() if value is not None}
    known = {"by": desk.person, "at": desk.clock(), **stated}
    before = handling_flags(open_case(desk.folder))
    entry = enter(desk, "handling_event", known)
    after = handling_flags(open_case(desk.folder))
    return entry, after[len(before) :]


def answer_flag(
    desk: Desk,
    flag: str,
    answer: str,
    *,
    evidence: Sequence[str] = (),
    label: str = "",
) -> Entry:
    """Put an answer beside a flag; both are shown from then on.

    Parameters
    ----------
    desk : Desk
        Folder and person; the person at the desk is the one who answers.
    flag : str
        Name of the flag, for example ``"F1"``.
    answer : str
        What was done, and what came out.
    evidence : sequence of str
        Controls, readings or other entries that it rests on; one or more.
    label : str
        Short name; made from the flag's when empty.

    Returns
    -------
    Entry
        The answer as entered.

    Raises
    ------
    ParameterError
        If it rests on nothing that is in the case.
    """
    found = flag_named(open_case(desk.folder), flag)
    if not evidence:
        raise ParameterError(
            "evidence",
            tuple(evidence),
            allowed="one entry of the case or more",
            remedy="Name the control, reading or measurement that answers the flag.",
        )
    fields = {
        "id": label or f"{flag}-{len(found.answers) + 1}",
        "flag": flag,
        "event": found.event,
        "answer": answer,
        "answered_by": desk.person,
        "answered_at": desk.clock(),
        "evidence": tuple(evidence),
    }
    return enter(desk, "flag_answer", fields)


def ledger_in_words(state: CaseState) -> tuple[str, ...]:
    """Say the ledger of all specimens, and every flag.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    tuple of str
        One line a specimen, then the flags.
    """
    rows = tuple(row_line(row) for row in ledger(state))
    flags = tuple(line for flag in handling_flags(state) for line in flag_lines(flag))
    stray = tuple(
        f"Answer {each.id} names a flag {each.flag} that the ledger did not raise so."
        for each in stray_answers(state)
    )
    return (*(rows or ("No specimen is in the case.",)), *flags, *stray)


def ledger_data(state: CaseState) -> dict[str, Any]:
    """Give the ledger as data for programs.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    dict
        Rows and flags.
    """
    return {
        "specimens": [
            {
                "specimen": row.specimen,
                "highest_temperature_c": row.highest_temperature_c,
                "duration_s": row.duration_s,
                "events": list(row.events),
                "flags": [flag.name for flag in row.flags],
            }
            for row in ledger(state)
        ],
        "flags": [_flag_data(flag) for flag in handling_flags(state)],
    }


def _flag_data(flag: HandlingFlag) -> Mapping[str, Any]:
    return {
        "name": flag.name,
        "flag": flag.flag,
        "event": flag.event,
        "things": list(flag.things),
        "sentence": flag.sentence,
        "open": flag.open,
        "raised_at_entry": flag.raised_at_entry,
        "corrected_at_entry": flag.corrected_at_entry,
        "controls_named": list(flag.controls_named),
        "answers": [each.model_dump(mode="json") for each in flag.answers],
    }
