"""How the pieces were kept: custody, heat and handling, preparation, controls."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

from strandproof.physical.handling import (
    HandlingFlag,
    LedgerRow,
    flag_lines,
    handling_flags,
    ledger,
)
from strandproof.records.case_state import CaseState
from strandproof.records.custody import (
    CustodyGap,
    CustodyTrail,
    common_year,
    custody_gaps,
    custody_records,
    custody_trail,
    gap_lines,
    seal_findings,
    things_behind,
    things_in_custody,
    things_in_words,
)
from strandproof.records.entries import Control, Section
from strandproof.records.preparation import (
    ACID_CAUTION,
    preparation_state,
    section_line,
)
from strandproof.report.figures import Drawing
from strandproof.report.plots import CustodyPanel, GapSpan, HeldSpan, custody_svg
from strandproof.report.plots.custody import merged
from strandproof.weighing import ceiling_of_controls, control_line

_MOST_PANELS = 6

CUSTODY_DRAWING = "custody.svg"
"""Name of the drawing of custody on paper."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ToldGap:
    """A gap with everything that stands beside it, or a flag likewise.

    Parameters
    ----------
    line : str
        What it is.
    beside : tuple of str
        What shows it, what was said about it.
    settled : bool
        True for a gap that was explained, a flag that was answered.
    """

    line: str
    beside: tuple[str, ...]
    settled: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class KeepingSection:
    """How the pieces were kept, in words and one drawing.

    Parameters
    ----------
    drawing : Drawing or None
        Custody on a time axis; None where nothing changed hands.
    without_gap : str
        Things that one person held all the time, in a sentence; may be empty.
    gaps, flags : tuple of ToldGap
        Gaps in custody, flags of the ledger.
    times : str
        Zone and year of the times; empty without gaps.
    seals : tuple of str
        Findings on seals.
    ledger : tuple of tuple of str
        Specimens that saw the same, highest temperature, events, flags.
    preparation : tuple of tuple of str
        Sections in the same state, and that state.
    caution : str
        Safety line; empty where nothing was etched.
    controls : tuple of str
        What is known of each control and what it informs; those alike together.
    ceiling : tuple of str
        What controls can bring.
    """

    drawing: Drawing | None
    without_gap: str
    gaps: tuple[ToldGap, ...]
    times: str
    seals: tuple[str, ...]
    ledger: tuple[tuple[str, str, str, str], ...]
    flags: tuple[ToldGap, ...]
    preparation: tuple[tuple[str, str], ...]
    caution: str
    controls: tuple[str, ...]
    ceiling: tuple[str, ...]

    @property
    def empty(self) -> bool:
        """True where there is nothing to tell.

        Returns
        -------
        bool
            False as soon as anything was taken in.
        """
        return not (self.drawing or self.without_gap or self.preparation)


def keeping_section(state: CaseState) -> KeepingSection:
    """Gather how the pieces of a case were kept.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    KeepingSection
        For the page and the paper.
    """
    gaps = custody_gaps(state)
    year = common_year(
        moment for gap in gaps for moment in (gap.start, gap.end) if moment is not None
    )
    sections = [preparation_state(state, each.id) for each in state.records(Section)]
    etched = any(step.step == "etch" for each in sections for step in each.steps)
    drawing, without_gap = _drawn(state, gaps)
    return KeepingSection(
        drawing=drawing,
        without_gap=without_gap,
        gaps=tuple(_told_gap(state, gap, year) for gap in gaps),
        times=f"All times are UTC, {year}." if year else "All times are UTC.",
        seals=tuple(each.words for each in seal_findings(state)),
        ledger=_ledger_rows(ledger(state)),
        flags=tuple(_told_flag(each) for each in handling_flags(state)),
        preparation=_alike([section_line(each) for each in sections]),
        caution=ACID_CAUTION if etched else "",
        controls=tuple(
            f"{names}: {told}"
            for names, told in _alike([control_line(c) for c in state.records(Control)])
        ),
        ceiling=_ceiling(state),
    )


@dataclass(frozen=True, slots=True)
class StandingFlags:
    """Open flags of the ledger, by the specimens and things that they stand on.

    Parameters
    ----------
    flags : tuple of HandlingFlag
        Those that nobody answered.
    by_specimen : mapping of str to tuple of str
        Names of the flags of each specimen, with those of what it was cut from.
    """

    flags: tuple[HandlingFlag, ...]
    by_specimen: Mapping[str, tuple[str, ...]]

    def on(self, state: CaseState, reference: str) -> tuple[str, ...]:
        """Give the open flags on what a finding rests on.

        Parameters
        ----------
        state : CaseState
            State of the case.
        reference : str
            What was measured or read.

        Returns
        -------
        tuple of str
            One sentence a flag, to be printed at the finding.
        """
        if not self.flags:
            return ()
        shared = {
            name
            for specimen in things_behind(state, reference)
            for name in self.by_specimen.get(specimen, ())
        }
        return tuple(
            f"{each.name} stands on {things_in_words(each.things)}: {each.sentence}"
            for each in self.flags
            if each.name in shared or reference in each.things
        )


def standing_flags(state: CaseState) -> StandingFlags:
    """Gather the flags of the ledger that stand open.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    StandingFlags
        To be asked for every finding.
    """
    flags = tuple(each for each in handling_flags(state) if each.open)
    rows = ledger(state) if flags else ()
    return StandingFlags(
        flags, {row.specimen: tuple(flag.name for flag in row.flags) for row in rows}
    )


def _told_gap(state: CaseState, gap: CustodyGap, year: int | None) -> ToldGap:
    line, *beside = gap_lines(state, gap, year=year)
    return ToldGap(line=line, beside=tuple(beside), settled=gap.explained)


def _told_flag(flag: HandlingFlag) -> ToldGap:
    line, *beside = flag_lines(flag)
    return ToldGap(line=line, beside=tuple(beside), settled=not flag.open)


def _ceiling(state: CaseState) -> tuple[str, ...]:
    if not state.records(Section) and not state.records(Control):
        return ()
    found = ceiling_of_controls(state)
    lacking = found.support is None and bool(state.records(Section))
    return (*(("No process control.",) if lacking else ()), *found.words)


def _ledger_rows(rows: Sequence[LedgerRow]) -> tuple[tuple[str, str, str, str], ...]:
    """Put specimens that saw the same into one row."""
    grouped: dict[tuple[str, str, str], list[str]] = {}
    for row in rows:
        heat = (
            "not recorded"
            if row.highest_temperature_c is None
            else f"{row.highest_temperature_c:g} °C"
        )
        key = (
            heat,
            "; ".join(row.events) or "nothing recorded",
            ", ".join(flag.name for flag in row.flags) or "none",
        )
        grouped.setdefault(key, []).append(row.specimen)
    return tuple((", ".join(names), *key) for key, names in grouped.items())


def _alike(lines: Sequence[str]) -> tuple[tuple[str, str], ...]:
    """Put names of which the same is told into one row."""
    grouped: dict[str, list[str]] = {}
    for line in lines:
        name, _, told = line.partition(": ")
        grouped.setdefault(told, []).append(name)
    return tuple((", ".join(names), told) for told, names in grouped.items())


def _drawn(state: CaseState, gaps: Sequence[CustodyGap]) -> tuple[Drawing | None, str]:
    records = custody_records(state)
    until = max((each.recorded_at for each in state.entries), default=None)
    if until is None:
        return None, ""
    grouped: dict[tuple[object, ...], list[str]] = {}
    panels: dict[tuple[object, ...], CustodyPanel] = {}
    for thing in things_in_custody(state):
        panel = _panel(custody_trail(records, thing), gaps, until)
        if panel.holders:
            key = (panel.held, panel.gaps)
            grouped.setdefault(key, []).append(thing)
            panels[key] = panel
    changed = [key for key in grouped if len(panels[key].holders) > 1 or key[1]]
    still = [thing for key in grouped if key not in changed for thing in grouped[key]]
    shown = sorted(changed, key=lambda key: not key[1])[:_MOST_PANELS]
    return _drawing([_named(panels[k], grouped[k]) for k in shown]), _still(still)


def _drawing(panels: list[CustodyPanel]) -> Drawing | None:
    if not panels:
        return None
    title = "Who held what, and the gaps"
    return Drawing(
        svg=custody_svg(panels, title=title),
        caption=(
            "Custody on a time axis. Hatched: no holder recorded; the name stands "
            "above it and in the list of gaps."
        ),
        alt="Custody on a time axis; the same times stand in the lists beside it",
    )


def _still(things: Sequence[str]) -> str:
    if not things:
        return ""
    return f"Each held by one person since it was taken in or cut: {_listing(things)}."


def _named(panel: CustodyPanel, things: Sequence[str]) -> CustodyPanel:
    return CustodyPanel(things=_listing(things), held=panel.held, gaps=panel.gaps)


def _listing(things: Sequence[str]) -> str:
    """Name the first thing and count the others by kind."""
    kinds: dict[str, int] = {}
    for each in things:
        kind = each.partition("/")[0].replace("_", " ")
        kinds[kind] = kinds.get(kind, 0) + 1
    if len(things) <= 2:
        return things_in_words(things)
    counted = ", ".join(
        f"{count} {kind}{'s' if count > 1 else ''}" for kind, count in kinds.items()
    )
    return f"{things[0].partition('/')[2]} and alike: {counted}"


def _panel(
    trail: CustodyTrail, gaps: Sequence[CustodyGap], until: datetime
) -> CustodyPanel:
    held = [
        HeldSpan(
            holder=each.holder,
            start=each.start,
            end=max(each.start, until if each.end is None else each.end),
        )
        for each in trail.holdings
    ]
    return CustodyPanel(
        things=trail.thing,
        held=merged(held),
        gaps=tuple(
            GapSpan(
                name=_name_of(gaps, each.thing, (each.kind, each.start, each.cause)),
                start=each.start,
                end=max(each.start, each.end or each.bounded_at or until),
                last_holder=each.last_holder,
                next_holder=each.next_holder,
            )
            for each in trail.gaps
        ),
    )


def _name_of(
    gaps: Sequence[CustodyGap], thing: str, key: tuple[str, datetime, str]
) -> str:
    return next(
        (
            gap.name
            for gap in gaps
            if thing in gap.things and (gap.kind, gap.start, gap.cause) == key
        ),
        "",
    )
