"""Case H7: a lead sold as one crystal per 100 m; all of it is invented."""

import csv
from collections.abc import Iterator
from importlib.resources import files

from strandproof.app.workflow.combining import ReadersAsked, combine_readings
from strandproof.app.workflow.conducting import (
    CoreReadings,
    enter_gauge_check,
    enter_resistance,
)
from strandproof.app.workflow.deciding import Weighted, weigh_observation
from strandproof.app.workflow.demo import claims_h7, pictures
from strandproof.app.workflow.demo.telling import Fields, Told, moment_of
from strandproof.app.workflow.entering import start_case
from strandproof.app.workflow.examining import examine_micrograph
from strandproof.quantity import normal_input
from strandproof.records.electrical import ResistanceMeasurement
from strandproof.records.entries import Likelihood

_SHOPS = {
    "E1": ("bought at Lantern Row", "3107", "P1"),
    "E2": ("bought at Pell & Daughter", "3044", "P2"),
    "E3": ("given by a reader, broken; provenance by word only", "", "P3"),
}
_STRAND_MEANS = {
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
_FIRST_CONTROLS = {
    "C1": ("single_crystal", "diffraction-checked single crystal"),
    "C2": ("single_crystal", "diffraction-checked single crystal"),
    "C3": ("polycrystal", "soft oxygen-free wire with papers"),
    "C4": ("polycrystal", "soft oxygen-free wire with papers"),
    "C5": ("single_crystal", "diffraction-checked single crystal, bent ten times"),
    "C6": ("single_crystal", "diffraction-checked single crystal, bent ten times"),
}
_SEED = 2031


def tell(told: Told) -> None:
    """Tell the whole case, from the first claim to the last weighing.

    Parameters
    ----------
    told : Told
        Where it is told.
    """
    _claims_and_plan(told)
    _exhibits(told)
    _bench(told)
    _pictures(told)
    _readings(told)
    _measurements(told)
    _weighing(told)


def _claims_and_plan(told: Told) -> None:
    start_case(told.desk("R", "03-01"), claims_h7.CASE)
    for person, day, fields, shown in claims_h7.CLAIMS_BEFORE_THE_PLAN:
        told.claim(person, day, fields, shown=shown)
    told.entries("R", "03-20", *claims_h7.INTERESTS)
    told.entries("R", "03-25", *claims_h7.HYPOTHESES_OF_THE_PLAN)
    told.with_file(
        "R",
        "03-25",
        "plan_lock",
        fields={**claims_h7.PLAN, "locked_at": moment_of("03-25")},
        file=("plan_sha256", claims_h7.PLAN_TEXT),
    )


def _exhibits(told: Told) -> None:
    told.entries("R", "04-02", *_purchases())
    told.entries("R", "04-02 10:00", *map(_exhibit, _SHOPS))
    person, day, fields, shown = claims_h7.TAG
    told.claim(person, day, fields, shown=shown)
    added = (*claims_h7.ADDITION, *claims_h7.STRUCTURE_HYPOTHESES)
    told.entries("R", "04-03", *added, *_portions())
    told.entries("R", "04-04", *_build())
    specimens = [("specimen", _specimen(strand)) for strand in _STRAND_MEANS]
    drains = [("specimen", _drain(exhibit)) for exhibit in _SHOPS]
    controls = [("specimen", _control_piece(name)) for name in _FIRST_CONTROLS]
    told.entries("R", "04-05", *specimens, *drains, *controls)


def _bench(told: Told) -> None:
    pieces = [f"specimen/{name}" for name in (*_STRAND_MEANS, *_FIRST_CONTROLS)]
    hand_over = {
        "id": "to-bench",
        "items": pieces,
        "giver": "R",
        "receiver": "A1",
        "given_at": moment_of("05-06 16:40"),
        "received_at": moment_of("05-08 09:15"),
        "carrier": "parcel service",
        "condition": "seal intact",
        "note": "no holder recorded from 05-06 16:40 to 05-08 09:15",
    }
    mounting = {
        "id": "cold-mount",
        "items": pieces,
        "event": "cold mounting",
        "highest_temperature_c": 42.0,
        "duration_s": 3600,
        "at": moment_of("05-09"),
        "by": "A1",
    }
    told.entries("A1", "05-09", ("hand_over", hand_over), ("handling_event", mounting))
    first = [row for row in _section_rows() if not _is_late(row)]
    told.entries("A1", "05-09 15:00", *(("section", _section(row)) for row in first))
    told.entries("A1", "05-10", *claims_h7.preparation([r["section"] for r in first]))
    told.entries("C", "05-10", *(("control", _control(n)) for n in _FIRST_CONTROLS))


def _pictures(told: Told) -> None:
    told.progress(0.1, "micrographs are drawn")
    told.micrographs("A1", "05-11", _drawn())
    longitudinal = [f"{strand}-L-1" for strand in _STRAND_MEANS]
    for done, micrograph in enumerate(longitudinal):
        share = 0.3 + 0.4 * done / len(longitudinal)
        told.progress(share, f"{micrograph} is measured by the program")
        examine_micrograph(told.desk("A1", "05-11 18:00"), micrograph)


def _drawn() -> Iterator[tuple[Fields, bytes]]:
    for number, (strand, mean) in enumerate(_STRAND_MEANS.items()):
        seed = _SEED + number
        yield (
            _micrograph(f"{strand}-L", "field 1 of 5, position by random number"),
            pictures.long_section(mean, seed=seed),
        )
        yield (
            _micrograph(f"{strand}-T", "whole round face"),
            pictures.round_face(mean, seed=seed + 100, over_etched=strand == "E2-s3"),
        )
    for number, name in enumerate(_FIRST_CONTROLS):
        soft = name in {"C3", "C4"}
        png = (
            pictures.long_section(12.0, seed=_SEED + 200 + number)
            if soft
            else pictures.single_crystal(
                seed=_SEED + 200 + number, bent=name in {"C5", "C6"}
            )
        )
        yield _micrograph(f"{name}-L", "field 1"), png


def _readings(told: Told) -> None:
    first = [row for row in _section_rows() if not _is_late(row)]
    for reader, day in (("A1", "05-12"), ("A2", "05-13")):
        drafts = [("reading", _verdict(row, reader, day)) for row in first]
        locks = [("reading_lock", _lock(str(d["id"]), reader, day)) for _, d in drafts]
        told.entries(reader, day, *drafts, *locks)
    counted = [("reading", _count(row)) for row in _rows("H7-fields.csv")]
    told.entries("A1", "05-14", *counted)
    told.entries("R", "05-20", *claims_h7.DEVIATION)


def _measurements(told: Told) -> None:
    told.progress(0.75, "readings are combined")
    readers = ReadersAsked(counter="A1", second="A2", calibration="stage")
    combine_readings(told.desk("A1", "05-26"), "grain-size", readers)
    enter_resistance(told.desk("A1", "05-28"), "resistance", "E1-s1", _resistance())
    enter_gauge_check(
        told.desk("A1", "05-28"), "core-area", "E1-s1", readings=_core(), gauge=26
    )
    told.entries("A1", "05-29", *claims_h7.drain_layer())


def _weighing(told: Told) -> None:
    told.progress(0.85, "evidence is weighed")
    told.entries("R", "06-01", *claims_h7.OBSERVATIONS)
    structure = Weighted("O-structure", _likelihoods(claims_h7.STRUCTURE), "K1")
    weigh_observation(told.desk("R", "06-01"), "W-K1-first-bench", structure)
    _add_controls(told)
    weigh_observation(told.desk("R", "06-25"), "W-K1", structure)
    for claim, rows in claims_h7.OTHER_WEIGHINGS.items():
        weighted = Weighted(f"O-{claim}", _likelihoods(rows), claim)
        weigh_observation(told.desk("R", "06-25"), f"W-{claim}", weighted)


def _add_controls(told: Told) -> None:
    late = [row for row in _section_rows() if _is_late(row)]
    names = [row["specimen"] for row in late]
    told.entries("C", "06-10", *(("specimen", _control_piece(n)) for n in names))
    told.entries("C", "06-10", *(("section", _section(row)) for row in late))
    told.entries("C", "06-10", *(("control", _control(n, late=True)) for n in names))
    drafts = [("reading", _verdict(row, "A1", "06-20")) for row in late]
    told.entries("A1", "06-20", *drafts)


def _rows(name: str) -> list[dict[str, str]]:
    text = files("strandproof.app.workflow.demo").joinpath(name).read_text("utf-8")
    return list(csv.DictReader(text.splitlines()))


def _section_rows() -> list[dict[str, str]]:
    return _rows("H7-sections.csv")


def _is_late(row: dict[str, str]) -> bool:
    return row["mount"] != "m1"


def _purchases() -> list[tuple[str, Fields]]:
    common = {"product": "Tern earphone lead", "received_at": moment_of("04-02")}
    kept = {"price": 129.0, "currency": "EUR", "obtained": "bought_anonymously"}
    return [
        ("purchase", {"id": "P1", "seller": "Lantern Row", **kept, **common}),
        ("purchase", {"id": "P2", "seller": "Pell & Daughter", **kept, **common}),
        ("purchase", {"id": "P3", "seller": "a reader", "obtained": "given", **common}),
    ]


def _exhibit(name: str) -> tuple[str, Fields]:
    provenance, lot, purchase = _SHOPS[name]
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


def _portions() -> list[tuple[str, Fields]]:
    lengths = {"test": 0.600, "maker": 0.325, "referee": 0.325, "waste": 0.048}
    return [
        (
            "portion",
            {
                "id": f"{exhibit}-{purpose}",
                "exhibit": exhibit,
                "purpose": purpose,
                "length_m": length,
                "cut_at": moment_of("04-03"),
                "cut_by": "R",
            },
        )
        for exhibit in _SHOPS
        for purpose, length in lengths.items()
    ]


def _build() -> list[tuple[str, Fields]]:
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
            },
        )
        for exhibit in _SHOPS
        for name, words, (conductors, strands), diameter in types
    ]


def _specimen(strand: str) -> Fields:
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


def _drain(exhibit: str) -> Fields:
    return {
        "id": f"{exhibit}-d",
        "exhibit": exhibit,
        "portion": f"{exhibit}-test",
        "conductor_type": f"{exhibit}-drain",
        "taken_from": "drain strand, 80 mm from the plug",
        "taken_at": moment_of("04-05"),
        "taken_by": "R",
    }


def _control_piece(name: str) -> Fields:
    return {
        "id": name,
        "exhibit": "controls",
        "taken_from": _known_as(name),
        "taken_at": moment_of("04-05"),
        "taken_by": "C",
    }


def _known_as(name: str) -> str:
    return _FIRST_CONTROLS.get(name, _FIRST_CONTROLS["C1"])[1]


def _section(row: dict[str, str]) -> Fields:
    return {
        "id": row["section"],
        "specimen": row["specimen"],
        "direction": row["direction"],
        "mount": row["mount"],
        "blind_code": row["code"],
        "made_by": "A1",
    }


def _control(name: str, *, late: bool = False) -> Fields:
    rows = {row["specimen"]: row for row in _section_rows()}
    kind, known = _FIRST_CONTROLS.get(name, _FIRST_CONTROLS["C1"])
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


def _micrograph(section: str, field: str) -> Fields:
    return {
        "id": f"{section}-1",
        "section": section,
        "calibration": "stage",
        "field": field,
        "chosen": "random number",
        "light": "bright field",
        "etch_step": "etch step 2",
        "taken_at": moment_of("05-10"),
        "taken_by": "A1",
    }


def _verdict(row: dict[str, str], reader: str, day: str) -> Fields:
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


def _lock(reading: str, reader: str, day: str) -> Fields:
    return {
        "id": reading,
        "reading": reading,
        "locked_at": moment_of(day),
        "locked_by": reader,
    }


def _count(row: dict[str, str]) -> Fields:
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
        "note": f"field {row['field']} of 5; typed demo data",
    }


def _resistance() -> ResistanceMeasurement:
    return ResistanceMeasurement(
        resistance=normal_input("resistance", 1.7296, 1.7296 * 0.0005, unit="ohm"),
        temperature=normal_input("temperature of the wire", 23.8, 0.2, unit="degC"),
        gauge_length=normal_input("length", 0.5000, 0.0003, unit="m"),
        mass=normal_input("mass", 22.28, 22.28 * 0.00128, unit="mg"),
    )


def _core() -> CoreReadings:
    return CoreReadings(
        diameter=normal_input("diameter of a strand", 0.080, 0.0005, unit="mm"),
        strands=19,
        mass=normal_input("mass of 19 strands", 846.7, 1.0, unit="mg"),
        length=normal_input("length of the core", 1.0000, 0.0006, unit="m"),
    )


def _likelihoods(rows: claims_h7.Rows) -> tuple[Likelihood, ...]:
    return tuple(
        Likelihood(
            hypothesis=name,
            best=best,
            lower=lower,
            upper=upper,
            status="judgement",
            source=source,
        )
        for name, (best, lower, upper), source in rows
    )
