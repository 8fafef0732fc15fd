"""Changes to a locked plan: numbered, and dated by what the record shows.

Whether results had been seen is never taken from anybody's word alone: the entries
before the change say which readings and measurements were on record.
"""

from collections.abc import Collection, Iterable
from dataclasses import dataclass

from strandproof.planning.field_readings import ReadPlace, read_place
from strandproof.records.case_state import CaseState
from strandproof.records.entries import (
    Deviation,
    Entry,
    FieldName,
    Measurement,
    Micrograph,
    Reading,
    Section,
)

_BEFORE = "before any result"
_AFTER = "after results were seen"


@dataclass(frozen=True, slots=True, kw_only=True)
class LaterChange:
    """A change to a plan as the record shows it.

    Parameters
    ----------
    change : Deviation
        What was entered.
    entry : int
        Number of its entry.
    number : int
        Its number among the additions, or the deviations, of its plan.
    results_of_these : tuple of int
        Earlier entries of readings and measurements of what it is about.
    other_results : tuple of int
        Earlier entries of readings and measurements of anything else.
    readers : str
        What readers had said of the dropped fields; may be empty.
    """

    change: Deviation
    entry: int
    number: int
    results_of_these: tuple[int, ...]
    other_results: tuple[int, ...]
    readers: str

    @property
    def results_seen(self) -> bool:
        """True when results of what it is about were on record before."""
        return bool(self.results_of_these)

    @property
    def heading(self) -> str:
        """For example ``Addition 1, before any result``."""
        when = _AFTER if self.results_seen else _BEFORE
        if not self.results_seen and self.other_results:
            when = f"{_BEFORE} of these"
        return f"{self.change.kind.capitalize()} {self.number}, {when}"

    @property
    def words(self) -> str:
        """Heading, what changed, and what readers had said or the reason."""
        why = self.readers or self.change.reason
        return f"{self.heading}: {self.change.what}, {why.rstrip('.')}."

    @property
    def by_record(self) -> str:
        """What the record shows of results before the change."""
        these, others = len(self.results_of_these), len(self.other_results)
        if not these and not others:
            return "By the record: no reading and no measurement was entered before."
        last = max((*self.results_of_these, *self.other_results))
        return (
            f"By the record: {_counted(these)} of these and {_counted(others)} of "
            f"anything else entered before, the last as entry {last}."
        )

    @property
    def by_word(self) -> str:
        """What the person who decided says."""
        seen = "results had been seen" if self.change.results_seen else "none was seen"
        return f"By the word of {self.change.decided_by}: {seen}."

    @property
    def agrees(self) -> bool:
        """True when word and record say the same."""
        return self.change.results_seen == self.results_seen


def later_changes(state: CaseState) -> tuple[LaterChange, ...]:
    """List every change to a locked plan, in order of entry.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    tuple of LaterChange
        Each with what the record shows.
    """
    counters: dict[tuple[str, str], int] = {}
    changes: list[LaterChange] = []
    for entry in state.entries:
        body = entry.body
        if not isinstance(body, Deviation):
            continue
        key = (body.plan, body.kind)
        counters[key] = counters.get(key, 0) + 1
        these, others = results_before(state, entry.number, sections_of(body))
        changes.append(
            LaterChange(
                change=body,
                entry=entry.number,
                number=counters[key],
                results_of_these=these,
                other_results=others,
                readers=_what_readers_said(state, entry.number, body),
            )
        )
    return tuple(changes)


def sections_of(change: Deviation) -> frozenset[str]:
    """Give the sections that a change is about.

    Parameters
    ----------
    change : Deviation
        The change.

    Returns
    -------
    frozenset of str
        Names; empty where it is about everything.
    """
    return frozenset(
        {
            *(each.removeprefix("section/") for each in change.concerns),
            *(each.section for each in change.drops),
            *(each.section for each in change.planned_fields),
        }
    )


def results_before(
    state: CaseState, entry: int, sections: Collection[str]
) -> tuple[tuple[int, ...], tuple[int, ...]]:
    """List the results on record before an entry.

    Parameters
    ----------
    state : CaseState
        State of the case.
    entry : int
        Number of the entry; a number above the last one stands for now.
    sections : collection of str
        Sections asked about; empty for everything.

    Returns
    -------
    of_these, others : tuple of int
        Numbers of entries of readings and measurements.
    """
    earlier = [
        each
        for each in state.entries
        if each.number < entry and isinstance(each.body, Reading | Measurement)
    ]
    if not sections:
        return tuple(each.number for each in earlier), ()
    names = _names_of(state, sections)
    these = tuple(each.number for each in earlier if _subject(each) in names)
    others = tuple(each.number for each in earlier if _subject(each) not in names)
    return these, others


def _names_of(state: CaseState, sections: Collection[str]) -> frozenset[str]:
    """Sections, their micrographs, and the specimens that they were cut from."""
    return frozenset(
        {
            *(f"section/{each}" for each in sections),
            *(
                f"micrograph/{each.id}"
                for each in state.records(Micrograph)
                if each.section in sections
            ),
            *(
                f"specimen/{each.specimen}"
                for each in state.records(Section)
                if each.id in sections
            ),
        }
    )


def _subject(entry: Entry) -> str:
    body = entry.body
    if isinstance(body, Reading):
        return body.reads
    return body.measures if isinstance(body, Measurement) else ""


def _what_readers_said(state: CaseState, entry: int, change: Deviation) -> str:
    """Say who could not read the dropped fields and who had read them."""
    said = {
        (each.body.reader, each.body.reads): each.body
        for each in state.entries
        if each.number < entry
        and isinstance(each.body, Reading)
        and _speaks_of(read_place(state, each.body), change.drops)
    }
    words = (*_not_readable(said.values()), *_readable(said.values()))
    return "; ".join(dict.fromkeys(words))


def _speaks_of(place: ReadPlace, drops: Iterable[FieldName]) -> bool:
    return any(
        place.covers(each.section, each.number, only_field=True) for each in drops
    )


def _not_readable(readings: Iterable[Reading]) -> list[str]:
    return [
        f"'{each.reason or 'not readable'}' ({each.reader})"
        for each in readings
        if each.verdict == "not_readable"
    ]


def _readable(readings: Iterable[Reading]) -> list[str]:
    return [
        f"{each.reader} had read it"
        for each in readings
        if each.verdict != "not_readable"
    ]


def _counted(number: int) -> str:
    return f"{number} {'result' if number == 1 else 'results'}"
