"""Who held a thing at a moment."""

from dataclasses import dataclass
from datetime import datetime

from strandproof.records.case_state import CaseState
from strandproof.records.custody.things import custody_records
from strandproof.records.custody.trail import CustodyTrail, UnheldTime, custody_trail


@dataclass(frozen=True, slots=True, kw_only=True)
class HolderAt:
    """Who held a thing at a moment, and by which entry that is known.

    Parameters
    ----------
    thing : str
        Reference.
    moment : datetime
        The moment.
    holder : str or None
        None where no holder is recorded.
    basis : str
        Entry by which it is known, or which shows the gap; empty where neither is.
    words : str
        In a sentence.
    """

    thing: str
    moment: datetime
    holder: str | None
    basis: str
    words: str


def holder_at(state: CaseState, thing: str, moment: datetime) -> HolderAt:
    """Say who held a thing at a moment.

    Parameters
    ----------
    state : CaseState
        State of the case.
    thing : str
        Reference, for example ``"specimen/E1-s1"``.
    moment : datetime
        With its time zone.

    Returns
    -------
    HolderAt
        At the moment of giving nobody holds it any more; at the moment of receipt the
        receiver does.
    """
    trail = custody_trail(custody_records(state), thing)
    if trail.ended is not None and moment >= trail.ended:
        return _answer(trail, moment, None, "", "it was disposed of before")
    for holding in reversed(trail.holdings):
        if holding.start <= moment and (holding.end is None or moment < holding.end):
            since = f"held by {holding.holder} since {holding.start:%Y-%m-%d %H:%M} UTC"
            return _answer(trail, moment, holding.holder, holding.basis, since)
    for gap in trail.gaps:
        if gap.start <= moment and (gap.bounded_at is None or moment < gap.bounded_at):
            return _answer(trail, moment, None, gap.cause, _between(gap))
    return _answer(trail, moment, None, "", "not yet taken in")


def _between(gap: UnheldTime) -> str:
    last = f"last with {gap.last_holder}" if gap.last_holder else "nobody before"
    return f"no holder recorded; {last}, next with {gap.next_holder}"


def _answer(
    trail: CustodyTrail, moment: datetime, holder: str | None, basis: str, words: str
) -> HolderAt:
    return HolderAt(
        thing=trail.thing,
        moment=moment,
        holder=holder,
        basis=basis,
        words=f"{trail.thing} at {moment:%Y-%m-%d %H:%M} UTC: {words}.",
    )
