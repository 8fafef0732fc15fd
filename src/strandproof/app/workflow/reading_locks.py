"""Locks of readings: what is locked, and what may therefore not be entered.

Stands below everything that enters, so that any way into a case can ask.
"""

from strandproof.errors import ReadingLockedError
from strandproof.records.case_state import CaseState
from strandproof.records.entries import CaseRecord, Entry, Reading, ReadingLock

_SEE_HINT = (
    "After the direction hint, 'strandproof re-class' makes a new version and keeps "
    "this one."
)


def locks_of(state: CaseState, label: str) -> tuple[Entry, ...]:
    """Give every entry that locks a reading, in order.

    Parameters
    ----------
    state : CaseState
        State of the case.
    label : str
        Short name of the reading.

    Returns
    -------
    tuple of Entry
        Later ones note the hint that was shown; empty for an open reading.
    """
    return tuple(
        entry
        for entry in state.entries
        if isinstance(entry.body, ReadingLock) and entry.body.reading == label
    )


def hint_was_shown(lock: Entry) -> bool:
    """Tell whether a lock notes that a hint was shown.

    Parameters
    ----------
    lock : Entry
        An entry of `locks_of`.

    Returns
    -------
    bool
        True from the moment of the hint on.
    """
    return isinstance(lock.body, ReadingLock) and lock.body.hint_shown_at is not None


def refuse_locked_change(state: CaseState, body: CaseRecord) -> None:
    """Refuse a record that would change or lock again what is locked.

    For ways into a case that know nothing of readings, such as the general entry of
    any kind of record.

    Parameters
    ----------
    state : CaseState
        State before the addition.
    body : CaseRecord
        What is to be added.
    """
    if isinstance(body, Reading):
        refuse_locked(state, body.id)
    elif isinstance(body, ReadingLock):
        refuse_locked(state, body.reading)


def refuse_locked(state: CaseState, label: str) -> None:
    """Refuse when a reading is locked.

    Parameters
    ----------
    state : CaseState
        State of the case.
    label : str
        Short name of the reading.

    Raises
    ------
    ReadingLockedError
        If it is.
    """
    for entry in locks_of(state, label):
        if isinstance(entry.body, ReadingLock):
            moment = entry.body.locked_at.isoformat()
            raise ReadingLockedError(
                label, entry.body.locked_by, moment, remedy=_SEE_HINT
            )
