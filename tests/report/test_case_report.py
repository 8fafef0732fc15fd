"""What a report gathers from a case."""

from datetime import UTC, datetime, timedelta, timezone

from case_examples import moment
from markupsafe import Markup
from report_examples import (
    example_state,
    like,
    pdf_parts,
    report_on,
    state_of,
    things,
)

from strandproof.records.entries import (
    Capture,
    CaptureSearch,
    Claim,
    Exhibit,
    Measurement,
    Micrograph,
    Section,
    Specimen,
)
from strandproof.report import (
    CaseReport,
    case_report,
    case_report_html,
    case_report_pdf,
    findings_data,
)
from strandproof.report.case_report import SaidClaim
from strandproof.report.figures import Drawing
from strandproof.report.plain import paper_data


def places_elsewhere(*, searched: bool = True, **changes: object) -> SaidClaim:
    """Claim K1 beside another place, searched for its words or not."""
    other = like(
        Capture,
        **{
            "id": "page",
            "medium": "product page",
            "place": "page of the shop",
            "file_sha256": "a" * 64,
            **changes,
        },
    )
    claim = like(Claim)
    search = like(CaptureSearch, capture="page", looked_for=(claim.words,), found=())
    bodies = (like(Capture), other, claim, *((search,) if searched else ()))
    return report_on(state_of(*bodies)).claims[0]


PAGE = ("product page, page of the shop",)


def test_head_and_number_of_entries_are_those_of_the_case() -> None:
    state = example_state()
    report = report_on(state)
    assert report.head == state.head
    assert report.entries == len(state.entries)


def test_claim_is_not_said_where_a_whole_searched_copy_shows_none() -> None:
    said = places_elsewhere()
    assert said.not_said == PAGE
    assert said.not_looked_at == ()


def test_copy_that_nobody_searched_shows_no_absence() -> None:
    said = places_elsewhere(searched=False)
    assert said.not_said == ()
    assert said.not_looked_at == PAGE


def test_partial_capture_shows_no_absence() -> None:
    said = places_elsewhere(complete=False)
    assert said.not_said == ()
    assert said.not_looked_at == PAGE


def test_second_copy_of_the_same_place_does_not_deny_the_words() -> None:
    same = like(Capture)
    said = places_elsewhere(medium=same.medium, place=same.place)
    assert said.not_said == ()
    assert said.not_looked_at == ()


def test_pieces_carry_their_specimens_and_sections() -> None:
    state = state_of(
        like(Exhibit),
        like(Exhibit, id="E2"),
        like(Specimen),
        like(Specimen, id="E2-s1", exhibit="E2"),
        like(Section),
        like(Section, id="E2-s1-L", specimen="E2-s1"),
    )
    pieces = {piece.exhibit.id: piece for piece in report_on(state).pieces}
    assert [s.id for s in pieces["E2"].specimens] == ["E2-s1"]
    assert [s.id for s in pieces["E2"].sections] == ["E2-s1-L"]


def test_synthetic_pictures_are_told_even_where_no_copy_is_at_hand() -> None:
    drawn = like(Micrograph, synthetic=True)
    assert report_on(state_of(*things(), drawn)).synthetic
    assert not report_on(example_state()).synthetic


def test_moment_is_shown_in_utc_whatever_the_clock() -> None:
    there = timezone(timedelta(hours=5, minutes=30))
    report = report_at(datetime(2031, 9, 2, 2, 0, tzinfo=there))
    assert report.made_at == datetime(2031, 9, 1, 20, 30, tzinfo=UTC)
    assert report.made_at.strftime("%H:%M") == "20:30"


def report_at(moment: datetime) -> CaseReport:
    return case_report(state_of(), pictures={}, made_at=moment, program="a test")


def test_a_drawing_stands_beside_its_measurement_on_page_and_paper() -> None:
    svg = Markup(
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9" role="img">'
        "<title>t</title><circle r='3'/></svg>"
    )
    label = like(Measurement).id
    report = case_report(
        state_of(*things(), like(Measurement, measures="case/H7")),
        pictures={},
        made_at=moment(9, 2),
        program="a test",
        drawings={label: Drawing(svg, "Dots by lead.", "Every field.")},
    )
    (found,) = report.findings
    assert found.drawing is not None
    page = case_report_html(report)
    assert page.index(svg) < page.index("<figcaption>Every field.</figcaption>")
    (told,) = paper_data(report)["findings"]
    assert told["drawings"] == [
        {
            "name": f"drawing-{label}.svg",
            "alt": "Dots by lead.",
            "caption": "Every field.",
        }
    ]
    assert b"Dots by lead." in pdf_parts(case_report_pdf(report))


def test_open_points_are_told_only_where_there_are_some() -> None:
    without = report_on(example_state())
    assert without.open_points == ()
    assert "Open points" not in case_report_html(without)
    report = case_report(
        example_state(),
        pictures={},
        made_at=moment(9, 2),
        program="a test",
        open_points=["f1 and f2 show the same field."],
    )
    page = case_report_html(report)
    assert page.index("Open points") < page.index("f1 and f2 show the same field.")
    assert findings_data(report)["open_points"] == ["f1 and f2 show the same field."]
    assert b"Open points" in pdf_parts(case_report_pdf(report))
