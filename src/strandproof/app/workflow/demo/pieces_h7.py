"""The pieces of case H7: leads, strands, controls, and what readers typed."""

import csv
from importlib.resources import files

from strandproof.app.workflow.demo.telling import Fields, moment_of

SHOPS = {
    "E1": ("bought at Lantern Row", "3107", "P1"),
    "E2": ("bought at Pell & Daughter", "3044", "P2"),
    "E3": ("given by a reader, broken; provenance by word only", "", "P3"),
}
STRAND_MEANS = {
    "E1-s1": 8.1,
    "E1-s2": 8.6,
    "E1-s3": 8.3,
    "E2-s1": 8.9,
    "E2-s2": 8.5,
    "E2-s3": 9.0,
    "E3-s1": 8.0,
    "E3-s2": 8.2,
    "E3-s3": 8.4,
}
FIRST_CONTROLS = {
    "C1": ("single_crystal", "diffraction-checked single crystal"),
    "C2": ("single_crystal", "diffraction-checked single crystal"),
    "C3": ("polycrystal", "soft oxygen-free wire with papers"),
    "C4": ("polycrystal", "soft oxygen-free wire with papers"),
    "C5": ("single_crystal", "diffraction-checked single crystal, bent ten times"),
    "C6": ("single_crystal", "diffraction-checked single crystal, bent ten times"),
}


def rows(name: str) -> list[dict[str, str]]:
    """Read the rows of a file of typed data."""
    text = files("strandproof.app.workflow.demo").joinpath(name).read_text("utf-8")
    return list(csv.DictReader(text.splitlines()))


def section_rows() -> list[dict[str, str]]:
    """Read the sections with their codes and verdicts."""
    return rows("H7-sections.csv")


def is_late(row: dict[str, str]) -> bool:
    """Tell whether a section is a control that was added later."""
    return row["mount"] != "m1"


def purchases() -> list[tuple[str, Fields]]:
    """Give how the leads were obtained."""
    common = {"product": "Tern earphone lead", "received_at": moment_of("04-02")}
    kept = {"price": 107.45, "currency": "EUR", "obtained": "bought_anonymously"}
    return [
        ("purchase", {"id": "P1", "seller": "Lantern Row", **kept, **common}),
        ("purchase", {"id": "P2", "seller": "Pell & Daughter", **kept, **common}),
        ("purchase", {"id": "P3", "seller": "a reader", "obtained": "given", **common}),
    ]


def exhibit(name: str) -> tuple[str, Fields]:
    """Give a lead as it was taken in."""
    provenance, lot, purchase = SHOPS[name]
    fields = {
        "id": name,
        "description": "Tern earphone lead",
        "purchase": purchase,
        "provenance": provenance,
        "lot_mark": lot,
        "received_at": moment_of("04-02"),
        "received_by": "R",
        "condition": "broken at the plug" if name == "E3" else "bag closed",
        "length_m": 1.3,
        "mass_g": 8.84,
    }
    return "exhibit", fields


PARTS_M = {"test": 0.600, "maker": 0.325, "referee": 0.325, "waste": 0.048}
PARTS_G = {"test": 4.08, "maker": 2.21, "referee": 2.21, "waste": 0.33}


def seals() -> list[tuple[str, Fields]]:
    """Give the seals put on the parts kept for the maker and for a referee."""
    kept = [(e, purpose) for e in SHOPS for purpose in ("maker", "referee")]
    return [
        (
            "seal",
            {
                "id": f"seal-{number}",
                "seal_number": f"{number:04}",
                "on": f"portion/{exhibit}-{purpose}",
                "event": "applied",
                "at": moment_of("04-03"),
                "by": "R",
            },
        )
        for number, (exhibit, purpose) in enumerate(kept, start=71)
    ]


def build() -> list[tuple[str, Fields]]:
    """Give the conductor types of each lead."""
    core = {"value": 0.08, "unit": "mm", "standard_uncertainty": 0.0005}
    drain = {"value": 0.12, "unit": "mm"}
    types = (
        ("core", "core, enamelled, round a cotton thread", (4, 19), core),
        ("drain", "drain, tinned round strands", (1, 7), drain),
    )
    return [
        (
            "conductor_type",
            {
                "id": f"{exhibit}-{name}",
                "exhibit": exhibit,
                "description": words,
                "conductors": conductors,
                "strands": strands,
                "strand_diameter": diameter,
                "plating": "tin" if name == "drain" else "",
            },
        )
        for exhibit in SHOPS
        for name, words, (conductors, strands), diameter in types
    ]


def specimen(strand: str) -> Fields:
    """Give a core strand as a specimen."""
    exhibit = strand.partition("-")[0]
    return {
        "id": strand,
        "exhibit": exhibit,
        "portion": f"{exhibit}-test",
        "conductor_type": f"{exhibit}-core",
        "taken_from": "core strand drawn by random number, 80 mm from the plug",
        "taken_at": moment_of("04-05"),
        "taken_by": "R",
    }


def drain(exhibit: str) -> Fields:
    """Give a drain strand as a specimen."""
    return {
        "id": f"{exhibit}-d",
        "exhibit": exhibit,
        "portion": f"{exhibit}-test",
        "conductor_type": f"{exhibit}-drain",
        "taken_from": "drain strand, 80 mm from the plug",
        "taken_at": moment_of("04-05"),
        "taken_by": "R",
    }


def control_piece(name: str) -> Fields:
    """Give a known piece as a specimen."""
    return {
        "id": name,
        "exhibit": "controls",
        "taken_from": known_as(name),
        "taken_at": moment_of("04-05"),
        "taken_by": "C",
    }


def known_as(name: str) -> str:
    """Say how a control is known."""
    return FIRST_CONTROLS.get(name, FIRST_CONTROLS["C1"])[1]


def section(row: dict[str, str]) -> Fields:
    """Give a section of a row."""
    return {
        "id": row["section"],
        "specimen": row["specimen"],
        "direction": row["direction"],
        "mount": row["mount"],
        "blind_code": row["code"],
        "made_by": "A1",
    }


def control(name: str, *, late: bool = False) -> Fields:
    """Give a control."""
    rows = {row["specimen"]: row for row in section_rows()}
    kind, known = FIRST_CONTROLS.get(name, FIRST_CONTROLS["C1"])
    wrong = "missed_boundary" if kind == "polycrystal" else "false_boundary"
    return {
        "id": name,
        "specimen": name,
        "kind": kind,
        "known_by": known,
        "informs": [wrong],
        "mount": rows[name]["mount"],
        "described_as": "oxygen-free" if kind == "polycrystal" else "single-crystal",
        "note": "added later" if late else "",
    }


def micrograph(section: str, field: str) -> Fields:
    """Give a micrograph of a section."""
    return {
        "id": f"{section}-1",
        "section": section,
        "calibration": "stage",
        "field": field,
        "field_number": 1,
        "chosen": "random number",
        "light": "bright field",
        "etch_step": "etch step 2",
        "taken_at": moment_of("05-10"),
        "taken_by": "A1",
    }


def verdict(row: dict[str, str], reader: str, day: str) -> Fields:
    """Give a reader's verdict on a section."""
    verdict = row[reader]
    return {
        "id": f"{row['section']}-{reader}",
        "reads": f"section/{row['section']}",
        "reader": reader,
        "blind": True,
        "verdict": verdict,
        "reason": "over-etched" if verdict == "not_readable" else "",
        "read_at": moment_of(day),
    }


def lock(reading: str, reader: str, day: str) -> Fields:
    """Give the lock of a reading."""
    return {
        "id": reading,
        "reading": reading,
        "locked_at": moment_of(day),
        "locked_by": reader,
    }


def count(row: dict[str, str]) -> Fields:
    """Give what A1 counted on a field."""
    features = ("boundary", "twin", "scratch", "uncertain")
    return {
        "id": f"{row['section']}-f{row['field']}-A1",
        "reads": f"section/{row['section']}",
        "reader": "A1",
        "blind": True,
        "verdict": "boundaries",
        "counting_rules": ["line end inside a grain: one half", "twins not counted"],
        "line_length_px": float(row["line_length_px"]),
        "counts": {feature: int(row[feature]) for feature in features},
        "read_at": moment_of("05-14"),
        "field_number": int(row["field"]),
        "note": f"field {row['field']} of 5; typed demo data",
    }
