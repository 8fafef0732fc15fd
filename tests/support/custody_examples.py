"""Cases in memory about custody, heat and preparation; links are not checked."""

from collections.abc import Iterable
from datetime import datetime
from typing import Any

from case_examples import CASE, moment

from strandproof.records.case_state import NO_HEAD, CaseState, fold
from strandproof.records.entries import (
    CaseRecord,
    Entry,
    Exhibit,
    HandlingEvent,
    HandOver,
    Portion,
    Section,
    Specimen,
    kind_of,
)
from strandproof.storage.entry_lines import seal_entry

MAY_1 = moment(5, 1)


def entries_of(bodies: Iterable[CaseRecord]) -> tuple[Entry, ...]:
    """Seal bodies one after the other; the same name again is a correction."""
    entries: list[Entry] = []
    held: dict[tuple[str, str], int] = {}
    for body in (CASE, *bodies):
        key = (kind_of(body), body.id)
        entry = seal_entry(
            body,
            number=len(entries) + 1,
            previous_sha256=entries[-1].sha256 if entries else NO_HEAD,
            recorded_at=moment(9, 1),
            recorded_by="R",
            supersedes=held.get(key),
            reason="corrected" if key in held else "",
        )
        held[key] = entry.number
        entries.append(entry)
    return tuple(entries)


def case_of(*bodies: CaseRecord) -> CaseState:
    """Build the state of a case."""
    return fold(entries_of(bodies))


def lead(name: str = "E1", by: str = "R") -> Exhibit:
    """Take in a lead on 2 April."""
    return Exhibit(
        id=name,
        description="a lead",
        provenance="bought",
        received_at=moment(4, 2),
        received_by=by,
        condition="closed",
    )


def part(name: str = "E1-test", **changes: Any) -> Portion:  # noqa: ANN401 - fields differ in type
    """Cut a part on 3 April."""
    fields = {
        "id": name,
        "exhibit": "E1",
        "purpose": "test",
        "cut_at": moment(4, 3),
        "cut_by": "R",
    }
    return Portion.model_validate({**fields, **changes})


def strand(name: str = "s1", **changes: Any) -> Specimen:  # noqa: ANN401 - fields differ in type
    """Take a strand on 5 April."""
    fields = {
        "id": name,
        "exhibit": "E1",
        "taken_from": "drawn by random number",
        "taken_at": moment(4, 5),
        "taken_by": "R",
    }
    return Specimen.model_validate({**fields, **changes})


def cut(name: str = "s1-L", specimen: str = "s1", **changes: Any) -> Section:  # noqa: ANN401 - fields differ in type
    """Cut a section."""
    fields = {"id": name, "specimen": specimen, "direction": "longitudinal"}
    return Section.model_validate({**fields, **changes})


def passed(
    name: str,
    giver: str,
    receiver: str,
    *,
    given: datetime,
    received: datetime | None,
    items: tuple[str, ...] = ("specimen/s1",),
) -> HandOver:
    """Pass things on."""
    return HandOver(
        id=name,
        items=items,
        giver=giver,
        receiver=receiver,
        given_at=given,
        received_at=received,
        carrier="parcel service",
        condition="closed",
    )


TO_BENCH = passed(
    "to-bench", "R", "A1", given=moment(5, 6, 16, 40), received=moment(5, 8, 9, 15)
)
"""The hand-over of feature M7 of the product brief."""


def heated(name: str, celsius: float | None, **changes: Any) -> HandlingEvent:  # noqa: ANN401 - fields differ in type
    """Warm a strand."""
    fields = {
        "id": name,
        "items": ("specimen/s1",),
        "event": "hot mount",
        "highest_temperature_c": celsius,
        "duration_s": 480,
        "at": moment(5, 9),
        "by": "A1",
    }
    return HandlingEvent.model_validate({**fields, **changes})
