"""Counts are refused for a section whose preparation log has holes.

Stands below everything that enters counts, so that any way into a case can ask.
"""

from strandproof.app.workflow.readings import section_read
from strandproof.errors import PreparationIncompleteError
from strandproof.records.case_state import CaseState
from strandproof.records.entries import CaseRecord, Micrograph, Reading
from strandproof.records.preparation import section_may_be_counted


def refuse_uncountable(state: CaseState, body: CaseRecord) -> None:
    """Refuse a reading with counts on a section that may be shown only.

    A verdict without counts stays possible; so do counts on a section for which no
    preparation log was begun, which are flagged where they are used.

    Parameters
    ----------
    state : CaseState
        State before the addition.
    body : CaseRecord
        What is to be added.
    """
    if not isinstance(body, Reading):
        return
    if not (body.line_length_px or body.marks or body.counts):
        return
    section = section_read(state, body)
    if section is not None:
        _refuse_section(state, section.id)


def refuse_unprepared(state: CaseState, micrograph: Micrograph) -> None:
    """Refuse to measure a micrograph of a section that may be shown only.

    Parameters
    ----------
    state : CaseState
        State of the case.
    micrograph : Micrograph
        The micrograph.
    """
    _refuse_section(state, micrograph.section)


def _refuse_section(state: CaseState, section: str) -> None:
    """Refuse when its log has holes.

    Raises
    ------
    PreparationIncompleteError
        If it has.
    """
    missing = section_may_be_counted(state, section)
    if missing:
        raise PreparationIncompleteError(section, missing)
