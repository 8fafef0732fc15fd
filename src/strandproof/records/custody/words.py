"""Custody in sentences: gaps with what stands beside them, who held what."""

from collections.abc import Iterable
from datetime import datetime

from strandproof.records.case_state import CaseState
from strandproof.records.custody.gaps import CustodyGap, custody_gaps
from strandproof.records.custody.seals import seal_findings
from strandproof.records.custody.trail import CustodyTrail
from strandproof.records.entries import HandOver

_NAMED_AT_MOST = 3


def common_year(moments: Iterable[datetime]) -> int | None:
    """Give the year that all moments lie in.

    Parameters
    ----------
    moments : iterable of datetime
        In UTC.

    Returns
    -------
    int or None
        None where they lie in several years, or there are none.
    """
    years = {each.year for each in moments}
    return years.pop() if len(years) == 1 else None


def moment_in_words(moment: datetime, year: int | None) -> str:
    """Write a moment, without its year where that is known.

    Parameters
    ----------
    moment : datetime
        In UTC.
    year : int or None
        Year that need not be written.

    Returns
    -------
    str
        To the minute.

    Examples
    --------
    >>> moment_in_words(datetime(2031, 5, 6, 16, 40), 2031)
    '05-06 16:40'
    """
    return (
        f"{moment:%m-%d %H:%M}" if moment.year == year else f"{moment:%Y-%m-%d %H:%M}"
    )


def gap_in_words(gap: CustodyGap, *, year: int | None = None) -> str:
    """Write a gap as a line of a list.

    Parameters
    ----------
    gap : CustodyGap
        The gap.
    year : int or None
        Year that need not be written.

    Returns
    -------
    str
        For example ``"Gap: 05-06 16:40 to 05-08 09:15, no holder recorded"``.
    """
    start = moment_in_words(gap.start, year)
    if gap.end is None:
        return f"Gap: from {start}, no receipt recorded"
    end = moment_in_words(gap.end, year)
    if gap.kind == "times_disagree":
        return f"Times disagree: {start} to {end}"
    return f"Gap: {start} to {end}, no holder recorded"


def gap_lines(state: CaseState, gap: CustodyGap, *, year: int | None) -> list[str]:
    """Write everything on a gap: what it is, what shows it, what was said about it.

    Parameters
    ----------
    state : CaseState
        State of the case.
    gap : CustodyGap
        The gap.
    year : int or None
        Year that need not be written.

    Returns
    -------
    list of str
        Sentences; the first is the gap itself, with its name and things.
    """
    lines = [
        f"{gap.name}. {gap_in_words(gap, year=year)} ({things_in_words(gap.things)}).",
        _how_shown(state, gap),
    ]
    if gap.filled_at_entry is not None:
        lines.append(
            f"Since entry {gap.filled_at_entry} the records say otherwise; the gap was "
            f"seen at entry {gap.seen_at_entry} and stays listed."
        )
    for each in gap.explanations:
        evidence = f" Rests on {', '.join(each.evidence)}." if each.evidence else ""
        when = moment_in_words(each.explained_at, year)
        lines.append(
            f"Explained by {each.explained_by}, {when}: {each.explanation}.{evidence}"
        )
    return lines if gap.explained else [*lines, "Not explained."]


def things_in_words(things: Iterable[str]) -> str:
    """Name things in a line.

    Parameters
    ----------
    things : iterable of str
        References.

    Returns
    -------
    str
        Short names with their kind; of many the first three and how many more.
    """
    named = [each.partition("/")[::2] for each in things]
    shown = [f"{kind} {label}" for kind, label in named[:_NAMED_AT_MOST]]
    more = len(named) - _NAMED_AT_MOST
    return ", ".join(shown) + (f" and {more} more" if more > 0 else "")


def custody_lines(state: CaseState) -> list[str]:
    """Write every gap and every finding on seals of a case.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    list of str
        Lines; one says so where there is no gap.
    """
    gaps = custody_gaps(state)
    year = common_year(
        moment for gap in gaps for moment in (gap.start, gap.end) if moment is not None
    )
    lines = [line for gap in gaps for line in gap_lines(state, gap, year=year)]
    if gaps and year is not None:
        lines.insert(0, f"All times are UTC, {year}.")
    if not gaps:
        lines = ["No gap in custody is on record."]
    return [*lines, *(each.words for each in seal_findings(state))]


def trail_lines(trail: CustodyTrail) -> list[str]:
    """Write who held a thing, one line a person, gaps between them.

    Parameters
    ----------
    trail : CustodyTrail
        The trail.

    Returns
    -------
    list of str
        In order of time.
    """
    told = [
        (each.start, _holding_line(each.holder, each.start, each.end, each.basis))
        for each in trail.holdings
    ]
    for gap in trail.gaps:
        end = gap.end or gap.bounded_at
        until = "no receipt recorded" if end is None else f"{end:%Y-%m-%d %H:%M}"
        told.append(
            (gap.start, f"nobody recorded, {gap.start:%Y-%m-%d %H:%M} to {until}")
        )
    lines = [line for _, line in sorted(told, key=lambda each: each[0])]
    if trail.ended is not None:
        lines.append(f"disposed of {trail.ended:%Y-%m-%d %H:%M}")
    return lines or ["nobody took it in or handed it over"]


def _holding_line(
    holder: str, start: datetime, end: datetime | None, basis: str
) -> str:
    until = "now" if end is None else f"{end:%Y-%m-%d %H:%M}"
    return f"{holder}, {start:%Y-%m-%d %H:%M} to {until} (by {basis})"


def _how_shown(state: CaseState, gap: CustodyGap) -> str:
    last, after = gap.last_holder or "nobody", gap.next_holder
    if gap.kind == "under_way":
        carrier = _carrier(state, gap.cause)
        way = f"Under way from {last} to {after}"
        return (
            f"{way}, carried by {carrier}, who signed nothing."
            if carrier
            else f"{way}."
        )
    if gap.kind == "times_disagree":
        return f"{gap.cause} names {after} at a moment that does not fit the records."
    did = "cut" if gap.kind == "cut_by_another" else "given on"
    return (
        f"Last received by {last}, {did} by {after}; no hand-over from {last} to "
        f"{after} is recorded."
    )


def _carrier(state: CaseState, cause: str) -> str:
    label = cause.partition("/")[2]
    entry = state.current.get("hand_over", {}).get(label)
    return entry.body.carrier if entry and isinstance(entry.body, HandOver) else ""
