"""Cases on disk for tests of the use cases, from what case H7 typed.

The counts and verdicts are those that the demonstration ships (invented, typed);
here they are entered without its pictures, so that a case is made in a moment.
"""

import csv
from collections.abc import Iterable, Mapping
from datetime import UTC, datetime
from importlib.resources import files
from pathlib import Path
from typing import Any

from strandproof.app.workflow import Desk, start_case
from strandproof.records.entries import Likelihood
from strandproof.records.entries.building import build_body
from strandproof.storage import Addition

NOON = datetime(2031, 6, 1, 12, tzinfo=UTC)
WHEN = {"taken_at": NOON, "taken_by": "R"}
POLYCRYSTALS = {"C3", "C4"}

Draft = tuple[str, Mapping[str, Any]]


def desk_at(folder: Path, person: str = "A1") -> Desk:
    """Give a desk whose clock stands still."""
    return Desk(folder, person, lambda: NOON)


def add(desk: Desk, drafts: Iterable[Draft]) -> None:
    """Enter things of any kind, together."""
    bodies = [build_body(kind, fields) for kind, fields in drafts]
    desk.add(*map(Addition, bodies))


def rows(name: str) -> list[dict[str, str]]:
    """Read one of the demonstration's tables."""
    text = files("strandproof.app.workflow.demo").joinpath(name).read_text("utf-8")
    return list(csv.DictReader(text.splitlines()))


def is_late(row: Mapping[str, str]) -> bool:
    """Tell controls that were added after the first bench."""
    return row["mount"] != "m1"


def started(folder: Path) -> Desk:
    """Start a case with one exhibit, one strand and a calibration."""
    desk = desk_at(folder)
    start_case(desk, {"id": "H7", "title": "The Tern earphone lead", "owner": "R"})
    add(
        desk,
        [
            exhibit("E1"),
            ("specimen", {"id": "E1-s1", "exhibit": "E1", "taken_from": "x", **WHEN}),
            CALIBRATION,
        ],
    )
    return desk


def bench(folder: Path, *, late: bool = False) -> Desk:
    """Enter what both readers read on the sections of case H7."""
    desk = desk_at(folder)
    start_case(desk, {"id": "H7", "title": "The Tern earphone lead", "owner": "R"})
    first = [row for row in rows("H7-sections.csv") if not is_late(row)]
    drafts: list[Draft] = [exhibit(name) for name in ("E1", "E2", "E3", "controls")]
    drafts += [core(name) for name in ("E1", "E2", "E3")]
    drafts += [CALIBRATION, *pieces(first)]
    for reader in ("A1", "A2"):
        drafts += [verdict(row, reader) for row in first]
    drafts += [count(row) for row in rows("H7-fields.csv")]
    add(desk, drafts)
    if late:
        add_late_controls(desk)
    return desk


def add_late_controls(desk: Desk) -> None:
    """Enter the twenty controls that case H7 added."""
    late = [row for row in rows("H7-sections.csv") if is_late(row)]
    add(desk, [*pieces(late), *(verdict(row, "A1") for row in late)])


CALIBRATION: Draft = (
    "calibration",
    {
        "id": "stage",
        "pixel_size": {"value": 0.1726, "unit": "um", "standard_uncertainty": 0.0004},
        "method": "stage scale",
        "made_at": NOON,
        "made_by": "A1",
    },
)


def exhibit(name: str) -> Draft:
    fields = {
        "id": name,
        "description": "a lead",
        "provenance": "bought",
        "received_at": NOON,
        "received_by": "R",
        "condition": "closed",
    }
    return "exhibit", fields


def core(exhibit_name: str) -> Draft:
    fields = {
        "id": f"{exhibit_name}-core",
        "exhibit": exhibit_name,
        "description": "core",
        "conductors": 4,
        "strands": 19,
        "strand_diameter": {"value": 0.08, "unit": "mm"},
    }
    return "conductor_type", fields


def pieces(table: Iterable[Mapping[str, str]]) -> list[Draft]:
    """Give specimens and sections of rows, and controls where they are some."""
    table = list(table)
    drafts: list[Draft] = []
    for name in dict.fromkeys(row["specimen"] for row in table):
        source = name.partition("-")[0] if name.startswith("E") else "controls"
        kind = {"conductor_type": f"{source}-core"} if source != "controls" else {}
        fields = {"id": name, "exhibit": source, "taken_from": "x", **kind, **WHEN}
        drafts.append(("specimen", fields))
    for row in table:
        section = {
            "id": row["section"],
            "specimen": row["specimen"],
            "direction": row["direction"],
            "mount": row["mount"],
            "blind_code": row["code"],
        }
        drafts.append(("section", section))
        if row["specimen"].startswith("C"):
            drafts.append(control(row))
    return drafts


def control(row: Mapping[str, str]) -> Draft:
    name = row["specimen"]
    many = name in POLYCRYSTALS
    fields = {
        "id": name,
        "specimen": name,
        "kind": "polycrystal" if many else "single_crystal",
        "known_by": "papers" if many else "diffraction",
        "informs": ["missed_boundary" if many else "false_boundary"],
        "mount": row["mount"],
        "described_as": "oxygen-free" if many else "single-crystal",
        "note": "added later" if is_late(row) else "",
    }
    return "control", fields


def verdict(row: Mapping[str, str], reader: str) -> Draft:
    fields = {
        "id": f"{row['section']}-{reader}",
        "reads": f"section/{row['section']}",
        "reader": reader,
        "blind": True,
        "verdict": row[reader],
        "read_at": NOON,
    }
    return "reading", fields


def count(row: Mapping[str, str], **changes: object) -> Draft:
    features = ("boundary", "twin", "scratch", "uncertain")
    fields = {
        "id": f"{row['section']}-f{row['field']}-A1",
        "reads": f"section/{row['section']}",
        "reader": "A1",
        "blind": True,
        "verdict": "boundaries",
        "line_length_px": float(row["line_length_px"]),
        "counts": {feature: int(row[feature]) for feature in features},
        "read_at": NOON,
        **changes,
    }
    return "reading", fields


def likelihood(name: str, best: float, lower: float, upper: float) -> Likelihood:
    """Give a judged probability."""
    return Likelihood(
        hypothesis=name,
        best=best,
        lower=lower,
        upper=upper,
        status="judgement",
        source="a test",
    )


def contents(folder: Path) -> dict[str, bytes]:
    """Give every file of a case but the lock, for comparing before and after."""
    return {
        str(path.relative_to(folder)): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file() and path.name != ".writer.lock"
    }
