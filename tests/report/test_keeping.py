"""The report section on custody, heat, preparation and controls."""

from case_examples import BODIES, moment
from custody_examples import (
    TO_BENCH,
    case_of,
    cut,
    heated,
    lead,
    passed,
    strand,
)
from report_examples import PageReader, measured_pictures, report_on

from strandproof.records.entries import (
    CaseRecord,
    FlagAnswer,
    Measurement,
    MeasurementResult,
)
from strandproof.report import case_report_html
from strandproof.report.keeping import keeping_section, standing_flags
from strandproof.report.plain import paper_data


def measured(what: str) -> Measurement:
    return Measurement(
        id="m1",
        measures=what,
        method="by hand",
        method_version="1",
        results=(MeasurementResult(name="grains", value=None, words="many"),),
        measured_at=moment(6, 1),
        measured_by="A1",
    )


def standing_on(what: str, *bodies: CaseRecord) -> tuple[str, ...]:
    state = case_of(*bodies)
    return standing_flags(state).on(state, what)


def test_open_flag_is_printed_below_many_readings_of_the_program() -> None:
    readings = measured_pictures(4)
    event = heated("hot", 180, items=("specimen/E1-s1",))
    report = report_on(case_of(*readings, event))
    assert len(report.third_readings) == 4
    page = PageReader(case_report_html(report)).text
    assert page.count("Open flag. F1 stands on specimen E1-s1") == 1
    assert paper_data(report)["readings_flags"][0].startswith("Open flag. F1 stands")


def test_empty_case_tells_nothing() -> None:
    assert keeping_section(case_of()).empty


def test_gap_stands_in_page_paper_and_drawing() -> None:
    state = case_of(lead(), strand(), TO_BENCH)
    found = keeping_section(state)
    assert found.drawing is not None
    assert "gap G1 2031-05-06 16:40 to 2031-05-08 09:15" in found.drawing.svg
    assert found.without_gap == (
        "Each held by one person since it was taken in or cut: exhibit E1."
    )
    page = PageReader(case_report_html(report_on(state))).text
    assert "G1. Gap: 05-06 16:40 to 05-08 09:15, no holder recorded" in page
    assert "Not explained." in page
    lines = " ".join(paper_data(report_on(state))["keeping"]["custody"])
    assert "G1. Gap: 05-06 16:40 to 05-08 09:15, no holder recorded" in lines


def test_things_with_one_trail_share_a_panel() -> None:
    names = [f"s{k}" for k in range(4)]
    sent = TO_BENCH.model_copy(update={"items": tuple(f"specimen/{n}" for n in names)})
    state = case_of(lead(), *map(strand, names), cut("s1-L"), sent)
    drawing = keeping_section(state).drawing
    assert drawing is not None
    assert "s0 and alike: 4 specimens, 1 section" in drawing.svg
    assert drawing.svg.count("G1</text>") == 1


def test_at_most_six_trails_are_drawn_those_with_gaps_first() -> None:
    days = range(6, 14)
    gone = [
        passed(
            f"h{d}", "R", "A1", given=moment(5, d), received=moment(5, d),
            items=(f"specimen/s{d}",),
        )
        for d in days
    ]  # fmt: skip
    last = TO_BENCH.model_copy(update={"items": ("specimen/late",)})
    state = case_of(
        lead(), *(strand(f"s{d}") for d in days), strand("late"), *gone, last
    )
    drawing = keeping_section(state).drawing
    assert drawing is not None
    assert drawing.svg.count(">A1</text>") == 6
    assert "specimen late" in drawing.svg


def test_open_flag_is_printed_at_every_finding_that_rests_on_it() -> None:
    bodies = (lead(), strand(), strand("s2"), cut(), heated("hot", 180))
    told = (
        "F1 stands on specimen s1: hot mount 180 °C, 8 min: can recrystallise "
        "cold-drawn pure copper; treat the bent single-crystal control alike, or mount "
        "cold."
    )
    for what in ("specimen/s1", "section/s1-L", "exhibit/E1"):
        assert standing_on(what, *bodies) == (told,)
    assert standing_on("specimen/s2", *bodies) == ()
    state = case_of(*bodies, measured("section/s1-L"))
    page = PageReader(case_report_html(report_on(state))).text
    assert f"Open flag. {told}" in page
    assert paper_data(report_on(state))["findings"][0]["standing"] == [told]


def test_answered_flag_is_shown_but_stands_no_more() -> None:
    answer = FlagAnswer(
        id="F1-1",
        flag="F1",
        event="handling_event/hot",
        answer="control treated alike: nothing",
        answered_by="A1",
        answered_at=moment(5, 20),
    )
    state = case_of(
        lead(), strand(), heated("hot", 180), answer, measured("specimen/s1")
    )
    assert standing_flags(state).on(state, "specimen/s1") == ()
    page = PageReader(case_report_html(report_on(state))).text
    assert "hot mount 180 °C, 8 min: can recrystallise" in page
    assert "control treated alike: nothing" in page
    assert "Open flag" not in page


def test_flag_on_the_exhibit_before_the_cut_stands_on_its_specimens() -> None:
    event = heated("hot", 180, items=("exhibit/E1",), at=moment(4, 3))
    assert len(standing_on("specimen/s1", lead(), strand(), event)) == 1
    late = heated("hot", 180, items=("exhibit/E1",), at=moment(4, 9))
    assert standing_on("specimen/s1", lead(), strand(), late) == ()
    assert len(standing_on("exhibit/E1", lead(), strand(), late)) == 1


def test_specimens_that_saw_the_same_share_a_row() -> None:
    things = ("specimen/s1", "specimen/s2")
    state = case_of(
        lead(), strand(), strand("s2"), strand("s3"), heated("hot", 180, items=things)
    )
    assert keeping_section(state).ledger == (
        ("s1, s2", "180 °C", "hot mount 180 °C, 8 min", "F1"),
        ("s3", "not recorded", "nothing recorded", "none"),
    )


def test_case_without_a_single_crystal_prints_no_process_control() -> None:
    found = keeping_section(case_of(lead(), strand(), cut(mount="m1")))
    assert found.ceiling[:2] == (
        "No process control.",
        (
            "Without a known single crystal through the same steps you cannot show "
            "that preparation makes no false boundaries."
        ),
    )


def test_example_case_tells_preparation_caution_and_ceiling() -> None:
    found = keeping_section(case_of(*BODIES[1:]))
    assert found.preparation[0][0] == "E1-s1-L"
    assert "incomplete: may be shown, not counted" in found.preparation[0][1]
    assert found.caution.startswith("Acids and etchants")
    assert found.controls[0].startswith(
        "single-1: single crystal, known by diffraction"
    )
    assert "the ceiling is 1.0" in found.ceiling[0]
