"""The paper: PDF/A with tags, the same bytes twice, any words in it."""

import json
import re
from collections.abc import Mapping
from datetime import timedelta
from importlib.resources import files

import pytest
from report_examples import (
    example_state,
    like,
    measured_pictures,
    pdf_parts,
    picture,
    report_on,
    state_of,
    things,
    typed_as,
)

from strandproof.records.case_state import CaseState
from strandproof.records.entries import (
    Calibration,
    Capture,
    Case,
    Claim,
    Micrograph,
    Section,
)
from strandproof.report import case_report_pdf, paper
from strandproof.report.paper import _notice

FIELD = {"f1": picture()}
MARKUP = '#panic("no") *b* _i_ $x$ @ref <label> [c] ] { \\ `r` = h // c /* #import "x"'


def paper_of(state: CaseState) -> bytes:
    return case_report_pdf(report_on(state, FIELD))


@pytest.fixture(scope="module")
def example() -> bytes:
    return paper_of(example_state())


def test_it_is_a_tagged_pdf_of_the_two_standards(example: bytes) -> None:
    parts = pdf_parts(example)
    assert example.startswith(b"%PDF-1.7")
    assert b"/MarkInfo<</Marked true" in parts
    assert b"/StructTreeRoot" in parts
    assert b"<pdfaid:part>2</pdfaid:part>" in parts
    assert b"<pdfaid:conformance>A</pdfaid:conformance>" in parts
    assert b"<pdfuaid:part>1</pdfuaid:part>" in parts
    assert b"<dc:title>" in parts
    assert b"/DisplayDocTitle true" in parts


def test_drawings_are_described_and_tables_have_heads(example: bytes) -> None:
    parts = pdf_parts(example)
    assert parts.count(b"/S/Figure") == 3  # field, ratios, custody
    assert len(re.findall(rb"/Alt ?\(", parts)) >= 2
    assert b"/S/TH" in parts
    assert b"/S/H1" in parts


def test_it_leads_nowhere_and_runs_nothing(example: bytes) -> None:
    parts = pdf_parts(example)
    for name in (b"/URI", b"/JavaScript", b"/Launch", b"/GoToR", b"/EmbeddedFile"):
        assert name not in parts


def test_same_report_gives_the_same_bytes(example: bytes) -> None:
    assert paper_of(example_state()) == example


def test_moment_of_the_report_is_the_moment_of_the_paper(example: bytes) -> None:
    assert b"<xmp:CreateDate>2031-09-02T12:00:00" in pdf_parts(example)


def test_empty_case_gives_a_paper() -> None:
    assert paper_of(state_of()).startswith(b"%PDF")


def test_case_of_many_readings_gives_a_paper() -> None:
    readings = measured_pictures(4, flags=("few_grains",))
    assert paper_of(state_of(*readings)).startswith(b"%PDF")


@pytest.mark.parametrize("language", ["en", "de-AT", "gsw", "zh-Hans-CN"])
def test_language_of_the_case_is_that_of_the_paper(language: str) -> None:
    made = paper_of(state_of(case=like(Case, language=language)))
    assert f"/Lang({language.partition('-')[0]})".encode() in made


def test_markup_in_typed_words_is_not_obeyed() -> None:
    """Code of the typesetter in every free field is neither run nor refused."""
    harmless = paper_of(example_state(lambda body: typed_as(body, "some words")))
    odd = paper_of(example_state(lambda body: typed_as(body, MARKUP)))
    for kind in (b"/S/H1", b"/S/Figure", b"/S/TH", b"/S/Link", b"/S/Code"):
        assert pdf_parts(odd).count(kind) == pdf_parts(harmless).count(kind)


def test_template_takes_words_as_data_only() -> None:
    template = files("strandproof.report").joinpath("templates/case_report.typ")
    text = template.read_text("utf-8")
    assert "eval(" not in text
    assert re.findall(r"\b(?:json|read|yaml|toml|csv|plugin)\(.*?\)", text) == [
        'json("report.json")'
    ]
    assert "#import" not in text
    assert "#include" not in text


def sources_of(state: CaseState, monkeypatch: pytest.MonkeyPatch) -> dict[str, bytes]:
    """Give what the typesetter gets."""
    given: dict[str, bytes] = {}

    def note(sources: Mapping[str, bytes], **_: object) -> bytes:
        given.update(sources)
        return b""

    monkeypatch.setattr(paper, "typeset", note)
    case_report_pdf(report_on(state, FIELD))
    return given


def test_other_scripts_get_boxes_and_a_notice(monkeypatch: pytest.MonkeyPatch) -> None:
    chinese = like(Claim, words="单晶 copper", language="zh")
    section = like(Section, blind_code="晶 code")
    bodies = (*things()[:2], section, like(Calibration), like(Micrograph))
    state = state_of(*bodies, like(Capture), chinese)
    given = sources_of(state, monkeypatch)
    data = json.loads(given["report.json"])
    assert data["claims"][0]["words"] == "□□ copper"
    assert "do not draw U+5355, U+6676; a box (□) stands" in data["without_glyph"]
    assert "□ code" in given["figure-0.svg"].decode()


def test_words_that_can_be_drawn_reach_the_typesetter_as_they_are(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    state = state_of(like(Capture), like(Claim, words=MARKUP))
    data = json.loads(sources_of(state, monkeypatch)["report.json"])
    assert data["claims"][0]["words"] == MARKUP
    assert data["without_glyph"] == ""


def test_every_field_may_hold_any_character() -> None:
    odd = "单晶 🎉 \x00\x07\x1c\ue000 1\ufe0f\u20e3 \ufffe <b>&"
    made = paper_of(example_state(lambda body: typed_as(body, odd)))
    assert made.startswith(b"%PDF")


def test_notice_names_the_first_characters_and_where_they_are_kept() -> None:
    assert _notice(()) == ""
    one = _notice(("单",))
    assert "do not draw U+5355; a box (□)" in one
    assert "The page (HTML) and the entries keep them." in one
    many = _notice(tuple(map(chr, range(0x4E00, 0x4E20))))
    assert "U+4E0B and others;" in many
    assert many.count("U+") == 12


def test_paper_made_later_differs(example: bytes) -> None:
    report = report_on(example_state(), FIELD)
    later = type(report)(
        **{
            **{name: getattr(report, name) for name in report.__slots__},
            "made_at": report.made_at + timedelta(days=1),
        }
    )
    assert case_report_pdf(later) != example
