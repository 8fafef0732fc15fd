"""Build table and targets; the six untested of case H7 (product brief, M24)."""

from report_examples import like, state_of

from strandproof.records.case_state import CaseState
from strandproof.records.entries import (
    CaseRecord,
    ClaimKind,
    ConductorType,
    Control,
    Exhibit,
    Layer,
    Measurement,
    Reading,
    Section,
    Specimen,
)
from strandproof.report.answer import answer_in_five_sentences
from strandproof.report.build_table import (
    build_rows,
    not_tested,
    target_gaps,
    target_sentences,
    targets,
)
from strandproof.report.not_shown import not_shown

CRYSTALS, BUILD = ClaimKind.CRYSTAL_STATE, ClaimKind.BUILD
PERFORMANCE = ClaimKind.PERFORMANCE


def conductor(exhibit: str, name: str, **changes: object) -> ConductorType:
    return like(
        ConductorType,
        id=f"{exhibit}-{name}",
        exhibit=exhibit,
        description=f"{name}, as found",
        **changes,
    )


def piece(exhibit: str, name: str) -> list[CaseRecord]:
    label = f"{exhibit}-{name}-s"
    specimen = like(
        Specimen, id=label, exhibit=exhibit, conductor_type=f"{exhibit}-{name}"
    )
    return [specimen, like(Section, id=f"{label}-L", specimen=label)]


def measured(of: str, *kinds: ClaimKind, name: str = "m") -> Measurement:
    return like(Measurement, id=name, measures=of, bears_on=kinds)


def lead(*extra: CaseRecord, exhibits: tuple[str, ...] = ("E1",)) -> CaseState:
    bodies: list[CaseRecord] = []
    for exhibit in exhibits:
        bodies += [
            like(Exhibit, id=exhibit),
            conductor(exhibit, "core"),
            conductor(exhibit, "drain", plating="tin"),
            *piece(exhibit, "core"),
            *piece(exhibit, "drain"),
        ]
    return state_of(*bodies, *extra)


def read(section: str, verdict: str = "boundaries") -> Reading:
    return like(Reading, id=f"r-{section}", reads=f"section/{section}", verdict=verdict)


def h7_tested(exhibits: tuple[str, ...] = ("E1",)) -> CaseState:
    return lead(
        *(read(f"{exhibit}-core-s-L") for exhibit in exhibits),
        measured("specimen/E1-core-s", BUILD, name="core-area"),
        measured("specimen/E1-core-s", PERFORMANCE, name="resistance"),
        measured("specimen/E1-drain-s", BUILD, name="drain-layer"),
        exhibits=exhibits,
    )


def test_six_untested_of_case_h7() -> None:
    assert set(not_tested(h7_tested())) == {
        "casting route",
        "purity",
        "oxygen",
        "crystal state of the drain",
        "metal under the tin of the drain",
        "sound",
    }


def test_first_five_sentences_name_the_targets_that_were_not_tested() -> None:
    assert set(target_gaps(h7_tested())) == {
        "crystal state of the drain",
        "metal under the tin of the drain",
    }
    last = answer_in_five_sentences(h7_tested()).not_shown
    assert "crystal state of the drain; metal under the tin of the drain" in last
    sentences = not_shown(h7_tested())
    assert "Metal under the tin of the drain: not tested." in sentences
    assert target_gaps(lead()) == ()


def test_sentences_name_what_is_tested_on_each_target() -> None:
    core, drain = target_sentences(h7_tested())
    assert core == (
        "Core: tested: crystal state (E1), build (E1), electrical performance (E1); "
        "not tested: purity, oxygen, casting route."
    )
    assert drain.startswith("Drain: tested: build (E1); not tested: purity, oxygen,")
    assert "crystal state" in drain.partition("not tested")[2]
    assert "the metal under the tin" in drain


def test_finding_on_the_cores_never_counts_for_the_drain() -> None:
    drain = targets(h7_tested())[1]
    assert drain.cell(CRYSTALS).tested_by == ()
    assert drain.untested_on(CRYSTALS) == ("E1",)


def test_exhibit_whose_crystals_nobody_read_is_named() -> None:
    state = lead(read("E1-core-s-L"), exhibits=("E1", "E2"))
    assert "crystal state of the core of E2" in not_tested(state)
    assert targets(state)[0].exhibits == ("E1", "E2")


def test_unreadable_face_and_measurement_of_the_whole_lead_test_nothing() -> None:
    unreadable = lead(read("E1-core-s-L", "not_readable"))
    assert targets(unreadable)[0].cell(CRYSTALS).tested_by == ()
    whole = lead(measured("exhibit/E1", *ClaimKind))
    assert all(not cell.tested_by for cell in targets(whole)[0].cells)


def test_measurement_of_a_control_tests_no_target() -> None:
    control = like(Control, specimen="E1-core-s")
    state = lead(control, measured("specimen/E1-core-s", BUILD))
    assert targets(state)[0].cell(BUILD).tested_by == ()


def test_bare_conductor_has_no_metal_below_a_layer() -> None:
    state = state_of(like(Exhibit), conductor("E1", "drain"), *piece("E1", "drain"))
    assert not [each for each in not_tested(state) if "under" in each]


def test_rows_go_from_outside_to_inside_then_conductors() -> None:
    inner = like(Layer, id="b", position=2, material="cotton thread")
    outer = like(Layer, id="a", position=1, material="braid")
    diameter = {"value": 0.12, "unit": "mm"}
    drain = conductor(
        "E1", "drain", strands=7, conductors=1, plating="tin", strand_diameter=diameter
    )
    rows = build_rows(state_of(like(Exhibit), inner, outer, drain))
    assert [row.part for row in rows] == ["layer 1", "layer 2", "drain, as found"]
    assert rows[2].made_of == "plated with tin"
    assert rows[2].count == "1 × 7 strands"
    assert rows[2].size == "0.12 mm"
    assert rows[0].size == "not measured"


def test_without_a_build_only_sound_is_listed() -> None:
    assert build_rows(state_of(like(Exhibit))) == ()
    assert not_tested(state_of(like(Exhibit))) == ("sound",)
