"""The ledger: highest temperature, its time and all strain of every specimen."""

from dataclasses import dataclass
from datetime import datetime

from strandproof.physical.handling.flags import (
    HandlingFlag,
    event_in_words,
    handling_flags,
)
from strandproof.records.case_state import CaseState
from strandproof.records.custody import custody_records, part_of
from strandproof.records.custody.things import cut_when_and_by
from strandproof.records.entries import (
    HandlingEvent,
    PreparationStep,
    Section,
    Specimen,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class LedgerRow:
    """What one specimen saw in our own hands.

    Parameters
    ----------
    specimen : str
        Short name.
    highest_temperature_c : float or None
        Highest recorded [deg C]; None: none is recorded.
    duration_s : float or None
        Time at that temperature [s]; None: not recorded.
    hottest : str
        The event, in words.
    events : tuple of str
        All events in order of time, in words.
    flags : tuple of HandlingFlag
        Flags raised on it, answered or not.
    """

    specimen: str
    highest_temperature_c: float | None
    duration_s: float | None
    hottest: str
    events: tuple[str, ...]
    flags: tuple[HandlingFlag, ...]


@dataclass(frozen=True, slots=True)
class _Seen:
    at: datetime
    temperature_c: float | None
    duration_s: float | None
    words: str


def ledger(state: CaseState) -> tuple[LedgerRow, ...]:
    """Give the heat and handling ledger of all specimens.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    tuple of LedgerRow
        In the order of entry; a specimen that saw nothing has an empty row.
    """
    flags = handling_flags(state)
    return tuple(_row(state, each.id, flags=flags) for each in state.records(Specimen))


def ledger_row(state: CaseState, specimen: str) -> LedgerRow:
    """Give the ledger of one specimen.

    Parameters
    ----------
    state : CaseState
        State of the case.
    specimen : str
        Short name.

    Returns
    -------
    LedgerRow
        What it saw, with what its exhibit saw before it was cut.
    """
    state.record(Specimen, specimen)
    return _row(state, specimen, flags=handling_flags(state))


def ancestry(state: CaseState, specimen: str) -> dict[str, datetime | None]:
    """Name the things whose handling a specimen shares, and until when.

    Parameters
    ----------
    state : CaseState
        State of the case.
    specimen : str
        Short name.

    Returns
    -------
    dict of str to datetime or None
        Its sections and itself without end; portion and exhibit until the cut.
    """
    records = custody_records(state)
    shared: dict[str, datetime | None] = {
        f"section/{each.id}": None
        for each in state.records(Section)
        if each.specimen == specimen
    }
    name: str | None = f"specimen/{specimen}"
    until: datetime | None = None
    while name is not None:
        shared[name] = until
        body = records.things.get(name)
        if body is None:
            break
        until = _earlier(until, cut_when_and_by(body)[0])
        name = part_of(body)
    return shared


def _earlier(one: datetime | None, other: datetime | None) -> datetime | None:
    known = [each for each in (one, other) if each is not None]
    return min(known, default=None)


def _row(
    state: CaseState, specimen: str, *, flags: tuple[HandlingFlag, ...]
) -> LedgerRow:
    shared = ancestry(state, specimen)
    seen = sorted(_seen(state, shared), key=lambda each: (each.at, each.words))
    warm = [each for each in seen if each.temperature_c is not None]
    hottest = max(warm, key=lambda each: each.temperature_c or 0.0, default=None)
    return LedgerRow(
        specimen=specimen,
        highest_temperature_c=None if hottest is None else hottest.temperature_c,
        duration_s=None if hottest is None else hottest.duration_s,
        hottest="" if hottest is None else hottest.words,
        events=tuple(each.words for each in seen),
        flags=tuple(each for each in flags if _shares(each, shared)),
    )


def _seen(state: CaseState, shared: dict[str, datetime | None]) -> list[_Seen]:
    found = [
        _Seen(
            each.at, each.highest_temperature_c, each.duration_s, event_in_words(each)
        )
        for each in state.records(HandlingEvent)
        if any(_in_time(item, each.at, shared) for item in each.items)
    ]
    found += [
        _Seen(each.at, each.temperature_c, each.duration_s, event_in_words(each))
        for each in state.records(PreparationStep)
        if each.temperature_c is not None
        and any(f"section/{name}" in shared for name in each.sections)
    ]
    return found


def _in_time(item: str, moment: datetime, shared: dict[str, datetime | None]) -> bool:
    if item not in shared:
        return False
    until = shared[item]
    return until is None or moment <= until


def _shares(flag: HandlingFlag, shared: dict[str, datetime | None]) -> bool:
    return any(_in_time(thing, flag.happened_at, shared) for thing in flag.things)
