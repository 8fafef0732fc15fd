"""Sections of the report on grid, pieces, build and disclosure."""

from report_examples import (
    PageReader,
    example_state,
    like,
    pdf_parts,
    report_on,
    state_of,
)

from strandproof.records.entries import (
    Capture,
    CaptureSearch,
    Claim,
    Disclosure,
    Exhibit,
    Purchase,
)
from strandproof.report import case_report_html, case_report_pdf
from strandproof.report.plain import findings_data, paper_data
from strandproof.report.received import cost_total, received_pieces, said_where


def test_disclosure_is_the_first_paragraph_of_every_output() -> None:
    state = example_state()
    report = report_on(state)
    statement = state.records(Disclosure)[0].statement
    assert report.disclosure.startswith(f"Interests declared: {statement}")
    page = case_report_html(report)
    first = page[page.index("</h1>") :].lstrip("</h1>").strip()
    assert first.startswith(f"<p>{report.disclosure}")
    assert paper_data(report)["disclosure"] == report.disclosure
    assert findings_data(report)["disclosure"] == report.disclosure
    assert b"/S/Table" in pdf_parts(case_report_pdf(report))


def test_grid_is_a_table_with_a_cell_for_each_place() -> None:
    page = like(Capture, id="page", medium="page", place="shop")
    claim = like(Claim)
    search = like(CaptureSearch, capture="page", looked_for=(claim.words,), found=())
    said = said_where(state_of(like(Capture), page, claim, search))
    assert said.columns == ("hang tag in the bag (maker)", "page")
    assert said.rows == (
        (f"K1: “{claim.words}”", "said 2031-04-02", "not said 2031-04-02"),
    )


def test_two_places_of_one_medium_are_told_apart_in_the_heads() -> None:
    pages = [
        like(Capture, id=f"p{n}", medium="page", place=f"shop {n}") for n in (1, 2)
    ]
    said = said_where(state_of(like(Capture), *pages, like(Claim)))
    assert said.columns[1:] == ("page, shop 1", "page, shop 2")
    assert said.rows[0][2:] == ("not looked at", "not looked at")


def test_same_mismatch_with_two_claims_is_said_once() -> None:
    gift = like(Purchase, obtained="given")
    claims = [like(Claim), like(Claim, id="K2", words="4N7")]
    state = state_of(like(Capture), *claims, gift, like(Exhibit))
    ((came, further),) = received_pieces(state).pieces
    assert came.startswith("E1: gift; lot mark 3107")
    told = [each for each in further if "how obtained" in each]
    assert len(told) == 1
    assert told[0].startswith("Mismatch with K1, K2: how obtained: differs")


def test_page_shows_grid_pieces_and_targets() -> None:
    text = PageReader(case_report_html(report_on(example_state()))).text
    for words in (
        "Who said what, where",
        "How the pieces came, and what they were split into",
        "How they are built, and what was tested on which conductor",
        "In all: 380.00 EUR.",
    ):
        assert words in text


def test_case_that_cost_nothing_says_nothing() -> None:
    assert cost_total(state_of()) == ""
