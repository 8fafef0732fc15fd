"""The things that pass through hands, and which was cut from which."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import datetime

from strandproof.records.case_state import CaseState
from strandproof.records.entries import (
    CaseRecord,
    Disposal,
    Exhibit,
    HandOver,
    Micrograph,
    Portion,
    Reading,
    Section,
    Specimen,
    kind_of,
)

Thing = Exhibit | Portion | Specimen | Section

_THINGS = (Exhibit, Portion, Specimen, Section)
_RELEVANT = (*_THINGS, HandOver, Disposal)


@dataclass(frozen=True, slots=True)
class CustodyRecords:
    """What a trail is made of, by reference or short name; the newest that hold.

    Parameters
    ----------
    things : dict of str to Exhibit, Portion, Specimen or Section
        By reference, for example ``"specimen/E1-s1"``.
    hand_overs : dict of str to HandOver
        By short name.
    disposals : dict of str to Disposal
        By short name.
    """

    things: dict[str, Thing] = field(default_factory=dict)
    hand_overs: dict[str, HandOver] = field(default_factory=dict)
    disposals: dict[str, Disposal] = field(default_factory=dict)

    def take(self, body: CaseRecord) -> bool:
        """Take a record in; the newest of a name takes the place of an earlier one.

        Parameters
        ----------
        body : CaseRecord
            Body of the next entry.

        Returns
        -------
        bool
            True when it can change a trail.
        """
        if isinstance(body, HandOver):
            self.hand_overs[body.id] = body
        elif isinstance(body, Disposal):
            self.disposals[body.id] = body
        elif isinstance(body, _THINGS):
            self.things[f"{kind_of(body)}/{body.id}"] = body
        return isinstance(body, _RELEVANT)


def custody_records(state: CaseState) -> CustodyRecords:
    """Gather what holds now and bears on custody.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    CustodyRecords
        For `custody_trail`.
    """
    records = CustodyRecords()
    for entries in state.current.values():
        for entry in entries.values():
            records.take(entry.body)
    return records


def things_in_custody(state: CaseState) -> tuple[str, ...]:
    """Name every thing that passes through hands.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    tuple of str
        References; exhibits first, then portions, specimens, sections, then whatever
        else was handed over.
    """
    known = [
        f"{kind_of(body)}/{body.id}" for kind in _THINGS for body in state.records(kind)
    ]
    handed = [item for each in state.records(HandOver) for item in each.items]
    return tuple(dict.fromkeys((*known, *handed)))


def part_of(thing: Thing) -> str | None:
    """Give the thing that this one was cut from.

    Parameters
    ----------
    thing : Exhibit, Portion, Specimen or Section
        The thing.

    Returns
    -------
    str or None
        A reference; None for an exhibit.
    """
    if isinstance(thing, Section):
        return f"specimen/{thing.specimen}"
    if isinstance(thing, Specimen):
        return (
            f"exhibit/{thing.exhibit}"
            if thing.portion is None
            else f"portion/{thing.portion}"
        )
    return f"exhibit/{thing.exhibit}" if isinstance(thing, Portion) else None


def cut_when_and_by(thing: Thing) -> tuple[datetime | None, str]:
    """Give when and by whom a thing was taken in or cut.

    Parameters
    ----------
    thing : Exhibit, Portion, Specimen or Section
        The thing.

    Returns
    -------
    moment : datetime or None
        None where nobody noted it (sections only).
    person : str
        Empty where nobody noted it.
    """
    if isinstance(thing, Exhibit):
        return thing.received_at, thing.received_by
    if isinstance(thing, Portion):
        return thing.cut_at, thing.cut_by
    if isinstance(thing, Specimen):
        return thing.taken_at, thing.taken_by
    return thing.made_at, thing.made_by


def pieces_of(records: CustodyRecords, thing: str) -> tuple[str, ...]:
    """Name a thing and everything that was cut from it, directly or not.

    Parameters
    ----------
    records : CustodyRecords
        What holds.
    thing : str
        Reference.

    Returns
    -------
    tuple of str
        The thing itself first.
    """
    found = [thing]
    for whole in found:
        found += [
            name
            for name, body in records.things.items()
            if part_of(body) == whole and name not in found
        ]
    return tuple(found)


def things_behind(state: CaseState, reference: str) -> tuple[str, ...]:
    """Name the specimens that a finding about something rests on.

    Parameters
    ----------
    state : CaseState
        State of the case.
    reference : str
        What was measured or read: a micrograph, section, specimen, portion, exhibit,
        reading, or the case as a whole.

    Returns
    -------
    tuple of str
        Short names of specimens. For the case: those that were read.
    """
    kind, _, label = reference.partition("/")
    if kind == "case":
        read = (things_behind(state, each.reads) for each in state.records(Reading))
        return tuple(dict.fromkeys(name for names in read for name in names))
    if kind == "reading":
        return things_behind(state, state.record(Reading, label).reads)
    if kind == "micrograph":
        kind, label = "section", state.record(Micrograph, label).section
    if kind == "section":
        return (state.record(Section, label).specimen,)
    if kind == "specimen":
        return (label,)
    return _specimens_of(state.records(Specimen), kind, label)


def _specimens_of(
    specimens: Iterable[Specimen], kind: str, label: str
) -> tuple[str, ...]:
    owner: Mapping[str, str] = {"exhibit": "exhibit", "portion": "portion"}
    field_name = owner.get(kind)
    return tuple(
        each.id
        for each in specimens
        if field_name and getattr(each, field_name) == label
    )
