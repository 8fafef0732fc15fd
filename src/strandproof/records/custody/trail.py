"""The trail of one thing: who held it when, and when nobody is recorded.

A person holds a thing from the moment of receipt to the moment of giving. The time
between the two is nobody's, whoever carried it: a carrier who signs is entered as a
hand-over of his own. What was cut from something inherits its trail up to the cut.
"""

from dataclasses import dataclass, replace
from datetime import datetime
from typing import Literal

from strandproof.records.custody.things import (
    CustodyRecords,
    Thing,
    cut_when_and_by,
    part_of,
)
from strandproof.records.entries import HandOver, Section

GapKind = Literal["under_way", "no_hand_over", "cut_by_another", "times_disagree"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Holding:
    """A time in the hands of one person.

    Parameters
    ----------
    holder : str
        Who.
    start : datetime
        When it came into these hands.
    end : datetime or None
        When it left them, or the last moment they are known to have held it; None:
        still there.
    basis : str
        Entry by which it began, as kind and short name.
    thing : str
        What was held then: for a specimen that inherits, its exhibit.
    """

    holder: str
    start: datetime
    end: datetime | None
    basis: str
    thing: str


@dataclass(frozen=True, slots=True, kw_only=True)
class UnheldTime:
    """A time over which no holder is recorded, or two records disagree.

    Parameters
    ----------
    kind : {"under_way", "no_hand_over", "cut_by_another", "times_disagree"}
        Given but not yet received; given on by somebody who never received it; cut by
        somebody who did not hold it; moments out of order.
    start : datetime
        Where it begins.
    end : datetime or None
        Where it ends; None: no receipt is recorded.
    last_holder, next_holder : str
        Who is recorded before and after; `next_holder` of an open gap is whom it was
        sent to.
    cause : str
        Entry that shows it, as kind and short name.
    thing : str
        Thing it belongs to; for what is inherited, the thing it was cut from.
    bounded_at : datetime or None
        Next moment at which a holder is recorded; for an open gap it may be known
        although no receipt is.
    """

    kind: GapKind
    start: datetime
    end: datetime | None
    last_holder: str
    next_holder: str
    cause: str
    thing: str
    bounded_at: datetime | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class CustodyTrail:
    """Everything recorded on the custody of one thing.

    Parameters
    ----------
    thing : str
        Reference.
    holdings : tuple of Holding
        In order of time, inherited ones first.
    gaps : tuple of UnheldTime
        In order of time, inherited ones first.
    ended : datetime or None
        When it was used up, destroyed, given back or lost.
    """

    thing: str
    holdings: tuple[Holding, ...]
    gaps: tuple[UnheldTime, ...]
    ended: datetime | None = None

    @property
    def own_gaps(self) -> tuple[UnheldTime, ...]:
        """Gaps since it was taken in or cut; the others belong to what it was cut from.

        Returns
        -------
        tuple of UnheldTime
            In order of time.
        """
        return tuple(gap for gap in self.gaps if gap.thing == self.thing)


class _Walk:
    """Goes along the events of one thing and notes holdings and gaps."""

    def __init__(self, thing: str) -> None:
        self.thing = thing
        self.done: list[Holding] = []
        self.gaps: list[UnheldTime] = []
        self.now: Holding | None = None
        self.open: UnheldTime | None = None

    def inherit(self, whole: CustodyTrail, until: datetime | None) -> None:
        """Take over what is recorded of the whole up to the cut."""
        self.done = [each for each in whole.holdings if _before(each.start, until)]
        self.gaps = [each for each in whole.gaps if until is None or each.start < until]
        if self.done and (self.done[-1].end is None or _after(self.done[-1], until)):
            self.now = replace(self.done.pop(), end=None)
        elif self.gaps and _still_open(self.gaps[-1], until):
            self.open = self.gaps.pop()

    def cut(self, moment: datetime, person: str, reference: str) -> None:
        """Begin a part of its own."""
        self._close_open(moment)
        if self.now is not None:
            if person and not same_person(self.now.holder, person):
                self._lose(moment, person, kind="cut_by_another", cause=reference)
            else:
                self._release(moment)
                person = person or self.done[-1].holder
        if person:
            self._hold(person, moment, reference)

    def hand(self, hand_over: HandOver) -> None:
        """Take one hand-over."""
        cause = f"hand_over/{hand_over.id}"
        given, receiver = hand_over.given_at, hand_over.receiver
        self._close_open(given)
        if self.now is not None and given < self.now.start:
            self.disagree(given, self.now.start, hand_over.giver, cause)
            self._release(self.now.start)
        elif self.now is not None and not same_person(self.now.holder, hand_over.giver):
            self._lose(given, hand_over.giver, kind="no_hand_over", cause=cause)
        elif self.now is not None:
            self._release(given)
        self._travel(hand_over, given, receiver, cause)

    def _travel(
        self, hand_over: HandOver, given: datetime, receiver: str, cause: str
    ) -> None:
        received = hand_over.received_at
        gap = self._gap("under_way", (given, received), cause=cause)
        gap = replace(gap, last_holder=hand_over.giver, next_holder=receiver)
        if received is None:
            self.open = gap
            return
        if received > given:
            self.gaps.append(replace(gap, bounded_at=received))
        elif received < given:
            self.disagree(received, given, receiver, cause)
        self._hold(receiver, max(given, received), cause)

    def _close_open(self, moment: datetime) -> None:
        if self.open is not None:
            bound = max(moment, self.open.start)
            self.gaps.append(replace(self.open, bounded_at=bound))
            self.open = None

    def _hold(self, person: str, moment: datetime, basis: str) -> None:
        self.now = Holding(
            holder=person, start=moment, end=None, basis=basis, thing=self.thing
        )

    def _release(self, moment: datetime) -> None:
        if self.now is not None:
            self.done.append(replace(self.now, end=moment))
            self.now = None

    def _lose(
        self, moment: datetime, person: str, *, kind: GapKind, cause: str
    ) -> None:
        """Note that the holder is not the one who has it next; when is not known."""
        if self.now is None:
            return
        gap = self._gap(kind, (self.now.start, moment), cause=cause)
        self.gaps.append(
            replace(
                gap,
                last_holder=self.now.holder,
                next_holder=person,
                bounded_at=moment,
            )
        )
        self._release(self.now.start)

    def disagree(self, start: datetime, end: datetime, person: str, cause: str) -> None:
        """Note moments that cannot both be right."""
        gap = self._gap("times_disagree", (start, end), cause=cause)
        self.gaps.append(replace(gap, next_holder=person, bounded_at=end))

    def _gap(
        self, kind: GapKind, ends: tuple[datetime, datetime | None], *, cause: str
    ) -> UnheldTime:
        last = self.now or (self.done[-1] if self.done else None)
        return UnheldTime(
            kind=kind,
            start=ends[0],
            end=ends[1],
            last_holder="" if last is None else last.holder,
            next_holder="",
            cause=cause,
            thing=self.thing,
        )

    def trail(self, ended: datetime | None) -> CustodyTrail:
        """Give everything noted."""
        if self.open is not None:
            self.gaps.append(replace(self.open, bounded_at=ended))
        if self.now is not None:
            self.done.append(replace(self.now, end=ended))
        return CustodyTrail(
            thing=self.thing,
            holdings=tuple(self.done),
            gaps=tuple(self.gaps),
            ended=ended,
        )


def custody_trail(records: CustodyRecords, thing: str) -> CustodyTrail:
    """Follow a thing through all hands.

    Parameters
    ----------
    records : CustodyRecords
        What holds now.
    thing : str
        Reference, for example ``"specimen/E1-s1"``.

    Returns
    -------
    CustodyTrail
        Holdings and gaps in order of time; empty for a thing that nobody took in or
        handed over.

    Notes
    -----
    Hand-overs are taken in the order in which things were given, whatever the order
    in which they were entered. Where a giver never received the thing, the time
    counts as unheld from the last recorded receipt on, the longest that it may be.
    """
    walk = _Walk(thing)
    names = {thing}
    body = records.things.get(thing)
    if body is not None:
        _begin(walk, records, body)
        if isinstance(body, Section) and body.made_at is None:
            names.add(f"specimen/{body.specimen}")
    own = [each for each in records.hand_overs.values() if thing in each.items]
    for hand_over in sorted(own, key=lambda each: (each.given_at, each.id)):
        walk.hand(hand_over)
    return walk.trail(_ended(records, names))


def same_person(one: str, other: str) -> bool:
    """Tell whether two names mean one person: the same letters, whatever the case.

    Parameters
    ----------
    one, other : str
        Names.

    Returns
    -------
    bool
        True where they agree.

    Examples
    --------
    >>> same_person("A1", " a1 "), same_person("A1", "A2")
    (True, False)
    """
    return one.strip().casefold() == other.strip().casefold()


def _begin(walk: _Walk, records: CustodyRecords, body: Thing) -> None:
    moment, person = cut_when_and_by(body)
    whole = part_of(body)
    if whole is not None:
        before = custody_trail(records, whole)
        walk.inherit(before, moment)
        first = before.holdings[0].start if before.holdings else None
        if moment is not None and first is not None and moment < first:
            walk.disagree(moment, first, person, walk.thing)
    if moment is not None:
        walk.cut(moment, person, walk.thing)


def _ended(records: CustodyRecords, names: set[str]) -> datetime | None:
    ends = [each.at for each in records.disposals.values() if names & set(each.items)]
    return min(ends, default=None)


def _before(start: datetime, until: datetime | None) -> bool:
    return until is None or start <= until


def _after(holding: Holding, until: datetime | None) -> bool:
    return until is not None and holding.end is not None and holding.end > until


def _still_open(gap: UnheldTime, until: datetime | None) -> bool:
    """Tell whether a gap of the whole goes on at the moment of the cut."""
    if gap.bounded_at is None:
        return True
    return until is not None and gap.bounded_at > until
