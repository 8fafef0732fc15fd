"""Case H7: a lead sold as one crystal per 100 m; all of it is invented."""

from collections.abc import Iterable, Iterator

from strandproof.app.workflow.certifying import (
    enter_certificate_paper,
    read_certificate,
)
from strandproof.app.workflow.claiming.copies import search_all_copies
from strandproof.app.workflow.combining import ReadersAsked, combine_readings
from strandproof.app.workflow.conducting import (
    CoreReadings,
    enter_gauge_check,
    enter_resistance,
)
from strandproof.app.workflow.deciding import Weighted, weigh_observation
from strandproof.app.workflow.demo import (
    claims_h7,
    papers_h7,
    pictures,
    pieces_h7,
    plan_h7,
    weighing_h7,
)
from strandproof.app.workflow.demo.bench_h7 import (
    tell_bench,
    tell_late_preparation,
)
from strandproof.app.workflow.demo.telling import Fields, Told
from strandproof.app.workflow.entering import start_case
from strandproof.app.workflow.examining import examine_micrograph
from strandproof.app.workflow.receiving.parting import split_piece
from strandproof.quantity import normal_input
from strandproof.records.electrical import ResistanceMeasurement

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
    _papers(told)
    tell_bench(told)
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
    plan_h7.lock(told)


def _exhibits(told: Told) -> None:
    told.entries("R", "04-02", *pieces_h7.purchases())
    told.entries("R", "04-02 10:00", *map(pieces_h7.exhibit, pieces_h7.SHOPS))
    person, day, fields, shown = claims_h7.TAG
    told.claim(person, day, fields, shown=shown)
    search_all_copies(told.desk("R", "04-02 12:00"))
    plan_h7.add_sections(told)
    added = (claims_h7.CONTROLS_CAME, *claims_h7.STRUCTURE_HYPOTHESES)
    told.entries("R", "04-03", *added)
    for exhibit in pieces_h7.SHOPS:
        split_piece(
            told.desk("R", "04-03"),
            exhibit,
            pieces_h7.PARTS_M,
            masses_g=pieces_h7.PARTS_G,
        )
    told.entries("R", "04-03", *pieces_h7.seals())
    told.entries("R", "04-04", *pieces_h7.build())
    specimens = [
        ("specimen", pieces_h7.specimen(strand)) for strand in pieces_h7.STRAND_MEANS
    ]
    drains = [("specimen", pieces_h7.drain(exhibit)) for exhibit in pieces_h7.SHOPS]
    controls = [
        ("specimen", pieces_h7.control_piece(name)) for name in pieces_h7.FIRST_CONTROLS
    ]
    told.entries("R", "04-05", *specimens, *drains, *controls)


def _papers(told: Told) -> None:
    table = told.file("mill-certificate-77-B.csv", papers_h7.ELEMENTS)
    enter_certificate_paper(
        told.desk("R", "04-20"),
        "mill-certificate",
        read_certificate(papers_h7.CERTIFICATE, source=table),
        kind="mill_certificate",
        source=table,
        offered_for=("K2",),
    )


def _pictures(told: Told) -> None:
    told.progress(0.1, "micrographs are drawn")
    told.micrographs("A1", "05-11", _drawn())
    longitudinal = [f"{strand}-L-1" for strand in pieces_h7.STRAND_MEANS]
    for done, micrograph in enumerate(longitudinal):
        share = 0.3 + 0.4 * done / len(longitudinal)
        told.progress(share, f"{micrograph} is measured by the program")
        examine_micrograph(told.desk("A1", "05-11 18:00"), micrograph)


def _drawn() -> Iterator[tuple[Fields, bytes]]:
    for number, (strand, mean) in enumerate(pieces_h7.STRAND_MEANS.items()):
        seed = _SEED + number
        yield (
            pieces_h7.micrograph(
                f"{strand}-L", "field 1 of 5, position by random number"
            ),
            pictures.long_section(mean, seed=seed),
        )
        yield (
            pieces_h7.micrograph(f"{strand}-T", "whole round face"),
            pictures.round_face(mean, seed=seed + 100, over_etched=strand == "E2-s3"),
        )
    for number, name in enumerate(pieces_h7.FIRST_CONTROLS):
        soft = name in {"C3", "C4"}
        png = (
            pictures.long_section(12.0, seed=_SEED + 200 + number)
            if soft
            else pictures.single_crystal(
                seed=_SEED + 200 + number, bent=name in {"C5", "C6"}
            )
        )
        yield pieces_h7.micrograph(f"{name}-L", "field 1"), png


def _readings(told: Told) -> None:
    plan_h7.seal(told, "05-11 20:00", "list-1", ("A1", "A2"), late=False)
    first = [row for row in pieces_h7.section_rows() if not pieces_h7.is_late(row)]
    for reader, day in (("A1", "05-12"), ("A2", "05-13")):
        drafts = [("reading", pieces_h7.verdict(row, reader, day)) for row in first]
        told.entries(reader, day, *drafts, *_locks(drafts, reader, day))
    counted = [
        ("reading", pieces_h7.count(row)) for row in pieces_h7.rows("H7-fields.csv")
    ]
    told.entries("A1", "05-14", *counted, *_locks(counted, "A1", "05-14"))
    plan_h7.open_after(told, "05-15", "list-1")
    plan_h7.drop_face(told)


def _locks(
    drafts: Iterable[tuple[str, Fields]], reader: str, day: str
) -> list[tuple[str, Fields]]:
    return [
        ("reading_lock", pieces_h7.lock(str(fields["id"]), reader, day))
        for _, fields in drafts
    ]


def _measurements(told: Told) -> None:
    told.progress(0.75, "readings are combined")
    readers = ReadersAsked(counter="A1", second="A2", calibration="stage")
    combine_readings(told.desk("A1", "05-26"), "grain-size", readers)
    enter_resistance(
        told.desk("A1", "05-28"),
        "resistance",
        "E1-s1",
        _resistance(),
        lower_percent=(8.0, 13.0),
    )
    enter_gauge_check(
        told.desk("A1", "05-28"), "core-area", "E1-s1", readings=_core(), gauge=26
    )
    told.entries("A1", "05-29", *claims_h7.drain_layer())
    told.entries("R", "06-25", *claims_h7.LATER_COSTS)


def _weighing(told: Told) -> None:
    told.progress(0.85, "evidence is weighed")
    told.entries("R", "06-01", *weighing_h7.OBSERVATIONS)
    structure = Weighted(
        "O-structure", weighing_h7.likelihoods(weighing_h7.STRUCTURE), "K1"
    )
    weigh_observation(told.desk("R", "06-01"), "W-K1-first-bench", structure)
    _add_controls(told)
    weigh_observation(told.desk("R", "06-25"), "W-K1", structure)
    for claim, rows in weighing_h7.OTHER_WEIGHINGS.items():
        weighted = Weighted(f"O-{claim}", weighing_h7.likelihoods(rows), claim)
        weigh_observation(told.desk("R", "06-25"), f"W-{claim}", weighted)


def _add_controls(told: Told) -> None:
    late = [row for row in pieces_h7.section_rows() if pieces_h7.is_late(row)]
    names = [row["specimen"] for row in late]
    told.entries(
        "C", "06-10", *(("specimen", pieces_h7.control_piece(n)) for n in names)
    )
    told.entries("C", "06-10", *(("section", pieces_h7.section(row)) for row in late))
    told.entries(
        "C", "06-10", *(("control", pieces_h7.control(n, late=True)) for n in names)
    )
    tell_late_preparation(told, [row["section"] for row in late])
    plan_h7.seal(told, "06-10", "list-2", ("A1",), late=True)
    drafts = [("reading", pieces_h7.verdict(row, "A1", "06-20")) for row in late]
    told.entries("A1", "06-20", *drafts, *_locks(drafts, "A1", "06-20"))
    plan_h7.open_after(told, "06-21", "list-2")


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
