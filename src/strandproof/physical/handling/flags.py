"""Flags of the ledger by name: once raised they stay, whatever is entered later.

As with gaps in custody, the fold goes through the entries one by one. A flag keeps its
name and words for ever; a correction of the event or an answer stands beside it.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from datetime import datetime
from typing import Any

from strandproof.errors import UnknownLabelError
from strandproof.physical.handling.rules import (
    RaisedDoubt,
    doubts_about_heat,
    doubts_about_strain,
)
from strandproof.records.case_state import CaseState
from strandproof.records.entries import (
    CaseRecord,
    ConductorType,
    Entry,
    FlagAnswer,
    HandlingEvent,
    MeasuredValue,
    PreparationStep,
    Section,
    Specimen,
    kind_of,
)

_MM_PER = {"mm": 1.0, "um": 0.001, "µm": 0.001}
_Event = HandlingEvent | PreparationStep
_Key = tuple[str, str, str, tuple[str, ...]]


@dataclass(frozen=True, slots=True, kw_only=True)
class HandlingFlag:
    """A doubt raised by heat or strain in our own hands, with what answers it.

    Parameters
    ----------
    name : str
        F1, F2 ... in the order in which flags were raised; never given twice.
    flag : str
        Name in the registry of flags.
    event : str
        Entry that raised it, as kind and short name.
    things : tuple of str
        Things handled, as kind and short name.
    done : str
        What was done, with its figures.
    finding, remedy : str
        What may have happened, and what would answer it.
    happened_at : datetime
        When it was done, as first entered.
    raised_at_entry : int
        Number of the entry that raised it.
    corrected_at_entry : int or None
        Number of the later entry after which the records no longer raise it; it
        stays listed and stands all the same.
    answers : tuple of FlagAnswer
        What was answered, in order of entry.
    controls_named : tuple of str
        Entries that the event itself names as an answer.
    """

    name: str
    flag: str
    event: str
    things: tuple[str, ...]
    done: str
    finding: str
    remedy: str
    happened_at: datetime
    raised_at_entry: int
    corrected_at_entry: int | None = None
    answers: tuple[FlagAnswer, ...] = ()
    controls_named: tuple[str, ...] = ()

    @property
    def open(self) -> bool:
        """True while nobody has answered it.

        Returns
        -------
        bool
            A correction of the event is no answer.
        """
        return not self.answers and not self.controls_named

    @property
    def sentence(self) -> str:
        """The flag in a sentence, with what would answer it.

        Returns
        -------
        str
            For example ``"hot mount 180 °C, 8 min: can recrystallise ..."``.
        """
        return f"{self.done}: {self.finding}; {self.remedy}."


@dataclass(slots=True)
class _Ledger:
    """What holds so far, and every flag ever raised."""

    held: dict[str, CaseRecord] = field(default_factory=dict)
    raised: dict[_Key, HandlingFlag] = field(default_factory=dict)

    def take(self, entry: Entry) -> None:
        body = entry.body
        reference = f"{kind_of(body)}/{body.id}"
        self.held[reference] = body
        if isinstance(body, _Event):
            self._judge(reference, body, entry.number)
        elif isinstance(body, ConductorType | Specimen | Section):
            for name, each in self.held.items():
                if isinstance(each, HandlingEvent) and _has_figures(each):
                    self._judge(name, each, entry.number)

    def _judge(self, reference: str, event: _Event, number: int) -> None:
        things = _things(event)
        done = event_in_words(event)
        keys: set[_Key] = set()
        for doubt in self._doubts(event):
            key = (reference, doubt.flag, f"{done}: {doubt.finding}", things)
            keys.add(key)
            known = self.raised.get(key)
            self.raised[key] = (
                replace(known, corrected_at_entry=None)
                if known
                else HandlingFlag(
                    name=f"F{len(self.raised) + 1}",
                    flag=doubt.flag,
                    event=reference,
                    things=things,
                    done=done,
                    finding=doubt.finding,
                    remedy=doubt.remedy,
                    happened_at=event.at,
                    raised_at_entry=number,
                )
            )
        for key, flag in self.raised.items():
            if flag.event == reference and key not in keys:
                since = flag.corrected_at_entry or number
                self.raised[key] = replace(flag, corrected_at_entry=since)

    def _doubts(self, event: _Event) -> tuple[RaisedDoubt, ...]:
        if isinstance(event, PreparationStep):
            if event.step != "mount" and event.temperature_c is None:
                return ()
            return doubts_about_heat(event.step, event.temperature_c)
        strain = doubts_about_strain(
            tuple(self._diameter_mm(item) for item in event.items),
            bend_radius_mm=event.bend_radius_mm,
            pull_n=event.pull_n,
            in_words=event.strain,
        )
        cold = event.highest_temperature_c is None and _is_strain(event)
        heat = (
            () if cold else doubts_about_heat(event.event, event.highest_temperature_c)
        )
        return (*heat, *strain)

    def _diameter_mm(self, item: str) -> float | None:
        body = self.held.get(item)
        if isinstance(body, Section):
            body = self.held.get(f"specimen/{body.specimen}")
        if not isinstance(body, Specimen) or body.conductor_type is None:
            return None
        kind = self.held.get(f"conductor_type/{body.conductor_type}")
        return _in_mm(kind.strand_diameter) if isinstance(kind, ConductorType) else None


def handling_flags(state: CaseState) -> tuple[HandlingFlag, ...]:
    """List every flag that the ledger ever raised.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    tuple of HandlingFlag
        In the order in which they were raised.

    Notes
    -----
    For any two cases of which one continues the other, the list of the shorter is the
    beginning of the list of the longer, with the same names, things and words; only
    what stands beside (answers, corrections) can be added.
    """
    kept = _Ledger()
    for entry in state.entries:
        kept.take(entry)
    answers = state.records(FlagAnswer)
    return tuple(
        replace(
            flag,
            answers=tuple(a for a in answers if _answers(a, flag)),
            controls_named=_controls_named(kept.held, flag.event),
        )
        for flag in kept.raised.values()
    )


def open_flags(
    flags: Iterable[HandlingFlag], things: Iterable[str]
) -> tuple[HandlingFlag, ...]:
    """Give the flags that stand unanswered on some things.

    Parameters
    ----------
    flags : iterable of HandlingFlag
        From `handling_flags`.
    things : iterable of str
        References.

    Returns
    -------
    tuple of HandlingFlag
        In order.
    """
    wanted = set(things)
    return tuple(each for each in flags if each.open and wanted & set(each.things))


def flag_named(state: CaseState, name: str) -> HandlingFlag:
    """Give a flag by its name.

    Parameters
    ----------
    state : CaseState
        State of the case.
    name : str
        For example ``"F1"``.

    Returns
    -------
    HandlingFlag
        The flag.

    Raises
    ------
    UnknownLabelError
        If the ledger raised no such flag.
    """
    flags = {flag.name: flag for flag in handling_flags(state)}
    if name not in flags:
        raise UnknownLabelError("handling flag", name, tuple(flags))
    return flags[name]


def stray_answers(state: CaseState) -> tuple[FlagAnswer, ...]:
    """Give answers to flags that the ledger did not raise.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    tuple of FlagAnswer
        Entered by hand with a wrong name or event; they answer nothing.
    """
    used = {each.id for flag in handling_flags(state) for each in flag.answers}
    return tuple(each for each in state.records(FlagAnswer) if each.id not in used)


def event_in_words(event: HandlingEvent | PreparationStep) -> str:
    """Say what was done, with its figures.

    Parameters
    ----------
    event : HandlingEvent or PreparationStep
        The event.

    Returns
    -------
    str
        For example ``"hot mount 180 °C, 8 min"``.
    """
    if isinstance(event, PreparationStep):
        what = f"{event.step} ({event.description})"
        heat = (event.temperature_c, event.duration_s)
        strain: list[str] = []
    else:
        what, strain = event.event, _strain_words(event)
        heat = (event.highest_temperature_c, event.duration_s)
    temperature, seconds = heat
    parts = [what if temperature is None else f"{what} {temperature:g} °C"]
    if seconds is not None:
        parts.append(_time_words(seconds))
    return ", ".join([*parts, *strain])


def _strain_words(event: HandlingEvent) -> list[str]:
    words = [event.strain] if event.strain else []
    if event.bend_radius_mm is not None:
        words.append(f"bent to a radius of {event.bend_radius_mm:g} mm")
    if event.pull_n is not None:
        words.append(f"pulled with {event.pull_n:g} N")
    return words


def _time_words(seconds: float) -> str:
    return f"{seconds / 60:g} min" if seconds >= 60 else f"{seconds:g} s"


def _things(event: _Event) -> tuple[str, ...]:
    if isinstance(event, PreparationStep):
        return tuple(f"section/{each}" for each in event.sections)
    return event.items


def _has_figures(event: HandlingEvent) -> bool:
    return event.bend_radius_mm is not None or event.pull_n is not None


def _is_strain(event: HandlingEvent) -> bool:
    return bool(event.strain) or _has_figures(event)


def _in_mm(value: MeasuredValue | None) -> float | None:
    if value is None or value.unit not in _MM_PER or value.value <= 0:
        return None
    return value.value * _MM_PER[value.unit]


def _answers(answer: FlagAnswer, flag: HandlingFlag) -> bool:
    return answer.flag == flag.name and answer.event == flag.event


def _controls_named(held: Mapping[str, Any], event: str) -> tuple[str, ...]:
    body = held.get(event)
    return body.answered_by if isinstance(body, HandlingEvent) else ()
