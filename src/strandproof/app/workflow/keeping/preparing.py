"""Use cases of the preparation log: enter a step, say what is missing."""

from pathlib import Path
from typing import Any

from strandproof.app.workflow.entering import Desk, Fields, enter, open_case
from strandproof.records.case_state import CaseState
from strandproof.records.entries import Entry, PreparationStep, Section
from strandproof.records.preparation import (
    ACID_CAUTION,
    preparation_state,
    section_line,
)


def prepare(desk: Desk, fields: Fields, *, picture: Path | None = None) -> Entry:
    """Enter a step of preparing sections, as the laboratory describes it.

    Parameters
    ----------
    desk : Desk
        Folder and person.
    fields : mapping
        Fields of the record `PreparationStep`; ``by`` and ``at`` are the person and the
        moment of the desk, and ``order`` the next number, when left out.
    picture : Path or None
        Picture after the step; it stands for all sections named.

    Returns
    -------
    Entry
        The step as entered.
    """
    stated = {name: value for name, value in fields.items() if value is not None}
    known = {
        "by": desk.person,
        "at": desk.clock(),
        "order": _next_order(open_case(desk.folder), stated.get("sections", ())),
        **stated,
    }
    files = {} if picture is None else {"picture_sha256": picture}
    return enter(desk, "preparation_step", known, files=files)


def preparation_in_words(
    state: CaseState, section: str | None = None
) -> tuple[str, ...]:
    """Say how far sections are prepared on record.

    Parameters
    ----------
    state : CaseState
        State of the case.
    section : str or None
        One section; None: all.

    Returns
    -------
    tuple of str
        One line a section, and the caution where something was etched.
    """
    asked = [section] if section else [each.id for each in state.records(Section)]
    found = [preparation_state(state, each) for each in asked]
    lines = [section_line(each) for each in found]
    etched = any(step.step == "etch" for each in found for step in each.steps)
    return (*(lines or ["No section is in the case."]), *([ACID_CAUTION] * etched))


def preparation_data(state: CaseState) -> list[dict[str, Any]]:
    """Give the state of all sections as data for programs.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    list of dict
        One a section.
    """
    return [
        {
            "section": each.id,
            "logged": found.logged,
            "complete": found.complete,
            "missing": list(found.missing),
            "not_recorded": list(found.not_recorded),
            "steps": [step.id for step in found.steps],
        }
        for each in state.records(Section)
        for found in (preparation_state(state, each.id),)
    ]


def _next_order(state: CaseState, sections: object) -> int:
    named = set(sections) if isinstance(sections, list | tuple) else set()
    orders = [
        each.order
        for each in state.records(PreparationStep)
        if named & set(each.sections)
    ]
    return max(orders, default=0) + 1
