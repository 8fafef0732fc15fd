"""Gaps in custody by name: once seen they stay, whatever is entered later.

The fold goes through the entries one by one. A gap gets its name at the entry by which
it is first seen, keeps its name, times and things for ever, and is still listed when a
correction or a late entry has filled it; then it says so. Explanations stand beside.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from datetime import datetime

from strandproof.errors import UnknownLabelError
from strandproof.records.case_state import CaseState
from strandproof.records.custody.things import CustodyRecords, pieces_of
from strandproof.records.custody.trail import GapKind, UnheldTime, custody_trail
from strandproof.records.entries import (
    CaseRecord,
    Disposal,
    Entry,
    GapExplanation,
    HandOver,
    kind_of,
)

_Key = tuple[GapKind, datetime, str, str, str]


@dataclass(frozen=True, slots=True, kw_only=True)
class CustodyGap:
    """A gap in custody, with what was said about it.

    Parameters
    ----------
    name : str
        G1, G2 ... in the order in which gaps were first seen; never given twice.
    kind : GapKind
        What shows it.
    things : tuple of str
        Things that it is about, as kind and short name.
    start : datetime
        Where it begins.
    end : datetime or None
        Where it ends; None: no receipt is recorded.
    last_holder, next_holder : str
        Who is recorded before and after.
    cause : str
        Entry that shows it, as kind and short name.
    seen_at_entry : int
        Number of the entry by which it was first seen.
    filled_at_entry : int or None
        Number of the later entry after which the records no longer show it; it stays
        listed all the same. None: it still follows from what holds.
    explanations : tuple of GapExplanation
        What was said about it, in order of entry; they take nothing away.
    """

    name: str
    kind: GapKind
    things: tuple[str, ...]
    start: datetime
    end: datetime | None
    last_holder: str
    next_holder: str
    cause: str
    seen_at_entry: int
    filled_at_entry: int | None = None
    explanations: tuple[GapExplanation, ...] = ()

    @property
    def explained(self) -> bool:
        """True when somebody said what happened.

        Returns
        -------
        bool
            False for a gap about which nothing is said.
        """
        return bool(self.explanations)


@dataclass(slots=True)
class _Seen:
    """A gap on its way through the entries."""

    gap: CustodyGap
    shown_by: set[str]


@dataclass(slots=True)
class _History:
    records: CustodyRecords = field(default_factory=CustodyRecords)
    seen: list[_Seen] = field(default_factory=list)
    by_thing: dict[tuple[str, _Key], list[_Seen]] = field(default_factory=dict)

    def take(self, entry: Entry) -> None:
        before = _touched(self.records, entry.body)
        if not self.records.take(entry.body):
            return
        touched = dict.fromkeys((*before, *_touched(self.records, entry.body)))
        fresh: dict[tuple[_Key, datetime | None], set[str]] = {}
        for thing in touched:
            self._compare(thing, entry.number, fresh)
        for (key, end), things in sorted(fresh.items(), key=_in_order):
            self._name(key, end, tuple(sorted(things)), entry.number)

    def _compare(
        self,
        thing: str,
        number: int,
        fresh: dict[tuple[_Key, datetime | None], set[str]],
    ) -> None:
        showing: list[_Seen] = []
        for gap in custody_trail(self.records, thing).own_gaps:
            known = self._known(thing, gap)
            if known is None:
                fresh.setdefault((_key(gap), gap.end), set()).add(thing)
            else:
                showing.append(known)
                known.shown_by.add(thing)
                known.gap = replace(known.gap, filled_at_entry=None)
        for each in self.seen:
            if thing in each.shown_by and each not in showing:
                each.shown_by.discard(thing)
                if not each.shown_by:
                    each.gap = replace(each.gap, filled_at_entry=number)

    def _known(self, thing: str, gap: UnheldTime) -> _Seen | None:
        """Find the gap among those seen; an open one may learn its end, once."""
        candidates = self.by_thing.get((thing, _key(gap)), [])
        for each in candidates:
            if each.gap.end == gap.end:
                return each
        for each in candidates:
            if each.gap.end is None:
                each.gap = replace(each.gap, end=gap.end)
                return each
        return None

    def _name(
        self, key: _Key, end: datetime | None, things: tuple[str, ...], number: int
    ) -> None:
        kind, start, cause, last_holder, next_holder = key
        gap = CustodyGap(
            name=f"G{len(self.seen) + 1}",
            kind=kind,
            things=things,
            start=start,
            end=end,
            last_holder=last_holder,
            next_holder=next_holder,
            cause=cause,
            seen_at_entry=number,
        )
        seen = _Seen(gap, set(things))
        self.seen.append(seen)
        for thing in things:
            self.by_thing.setdefault((thing, key), []).append(seen)


def custody_gaps(state: CaseState) -> tuple[CustodyGap, ...]:
    """List every gap that the records ever showed.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    tuple of CustodyGap
        In the order in which they were first seen.

    Notes
    -----
    For any two cases of which one continues the other, the list of the shorter is the
    beginning of the list of the longer, with the same names, things and times; an end
    may be learnt once, by the receipt of what was under way.
    """
    history = _History()
    for entry in state.entries:
        history.take(entry)
    said = state.records(GapExplanation)
    return tuple(
        replace(each.gap, explanations=tuple(e for e in said if _explains(e, each.gap)))
        for each in history.seen
    )


def stray_explanations(state: CaseState) -> tuple[GapExplanation, ...]:
    """Give explanations of gaps that the case does not show.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    tuple of GapExplanation
        Entered by hand with a wrong name or time; they explain nothing.
    """
    used = {each.id for gap in custody_gaps(state) for each in gap.explanations}
    return tuple(e for e in state.records(GapExplanation) if e.id not in used)


def gap_named(state: CaseState, name: str) -> CustodyGap:
    """Give a gap by its name.

    Parameters
    ----------
    state : CaseState
        State of the case.
    name : str
        For example ``"G1"``.

    Returns
    -------
    CustodyGap
        The gap.

    Raises
    ------
    UnknownLabelError
        If the case shows no such gap.
    """
    gaps = {gap.name: gap for gap in custody_gaps(state)}
    if name not in gaps:
        raise UnknownLabelError("custody gap", name, tuple(gaps))
    return gaps[name]


def _touched(records: CustodyRecords, body: CaseRecord) -> Iterable[str]:
    """Name the things whose trail a record bears on, before or after it is taken in."""
    if isinstance(body, HandOver):
        held = records.hand_overs.get(body.id)
        items = (*body.items, *(held.items if held else ()))
    elif isinstance(body, Disposal):
        gone = records.disposals.get(body.id)
        items = (*body.items, *(gone.items if gone else ()))
    else:
        items = (f"{kind_of(body)}/{body.id}",)
    return [piece for item in items for piece in pieces_of(records, item)]


def _key(gap: UnheldTime) -> _Key:
    return (gap.kind, gap.start, gap.cause, gap.last_holder, gap.next_holder)


def _in_order(
    one: tuple[tuple[_Key, datetime | None], set[str]],
) -> tuple[datetime, str, str, list[str]]:
    (key, _), things = one
    return key[1], key[0], key[2], sorted(things)


def _explains(explanation: GapExplanation, gap: CustodyGap) -> bool:
    return (
        explanation.gap == gap.name
        and explanation.gap_from == gap.start
        and set(explanation.items) == set(gap.things)
    )


def gaps_by_thing(gaps: Iterable[CustodyGap]) -> Mapping[str, tuple[CustodyGap, ...]]:
    """Sort gaps by the things that they are about.

    Parameters
    ----------
    gaps : iterable of CustodyGap
        Gaps.

    Returns
    -------
    mapping
        Reference to its gaps, in order.
    """
    found: dict[str, list[CustodyGap]] = {}
    for gap in gaps:
        for thing in gap.things:
            found.setdefault(thing, []).append(gap)
    return {thing: tuple(own) for thing, own in found.items()}
