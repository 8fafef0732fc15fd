"""The page: what a user typed stays text, nothing comes from outside, all is named."""

import re
from itertools import pairwise

import pytest
from markupsafe import escape
from report_examples import (
    PageReader,
    example_state,
    like,
    measured_pictures,
    picture,
    report_on,
    state_of,
    things,
    typed_as,
)

from strandproof.records.case_state import CaseState
from strandproof.records.entries import (
    Case,
    Exhibit,
    HandlingEvent,
    Hypothesis,
    Measurement,
    Micrograph,
)
from strandproof.report import case_report_html

NASTY = "<script>alert(1)</script><img src=x onerror=y>&amp;\"'><b onclick='z'>"
FIELD = {"f1": picture()}


def page_of(state: CaseState) -> str:
    return case_report_html(report_on(state, FIELD))


@pytest.fixture(scope="module")
def example() -> str:
    return page_of(example_state())


@pytest.fixture(scope="module")
def nasty() -> str:
    return page_of(example_state(lambda body: typed_as(body, NASTY)))


def test_typed_words_change_no_element_of_the_page(nasty: str) -> None:
    """Whatever stands in every free field, the page has the same elements."""
    harmless = page_of(example_state(lambda body: typed_as(body, "harmless words")))
    assert PageReader(nasty).names == PageReader(harmless).names
    given, same = PageReader(nasty).tags, PageReader(harmless).tags
    assert [sorted(names) for _, names in given] == [sorted(names) for _, names in same]


def test_typed_words_come_out_as_they_were_typed(nasty: str) -> None:
    assert NASTY not in nasty
    shown = PageReader(nasty).text
    # Claim, title, owner, exhibit, note, custody, hypothesis, method, blind code ...
    assert shown.count(NASTY) > 40
    assert str(escape(NASTY)) in nasty


def test_label_with_markup_is_refused_before_it_gets_here() -> None:
    with pytest.raises(ValueError, match="String should match pattern"):
        like(Exhibit, id="<b>")


@pytest.mark.parametrize("name", ["example", "nasty"])
def test_page_loads_and_runs_nothing(name: str, request: pytest.FixtureRequest) -> None:
    page = request.getfixturevalue(name)
    reader = PageReader(page)
    assert not {"script", "link", "iframe", "object", "embed"} & set(reader.names)
    for _, attributes in reader.tags:
        for attribute in ("src", "href", "action", "data", "poster", "srcset"):
            assert str(attributes.get(attribute, "data:")).startswith("data:")
        assert not any(each.startswith("on") for each in attributes)
    style = re.findall(r"<style>(.*?)</style>", page, re.DOTALL)
    assert len(style) == 1
    assert "url(" not in style[0]
    assert "@import" not in style[0]
    policies = [a["content"] for _, a in reader.tags if "http-equiv" in a]
    assert policies == ["default-src 'none'; style-src 'unsafe-inline'; img-src data:"]


def test_page_names_its_language_and_title(example: str) -> None:
    reader = PageReader(example)
    assert reader.tags[0] == ("html", {"lang": "en"})
    assert "<title>H7: The Tern earphone lead</title>" in example
    german = page_of(state_of(case=like(Case, language="de-AT")))
    assert PageReader(german).tags[0] == ("html", {"lang": "de-AT"})


@pytest.mark.parametrize("bodies", ["example", "empty"])
def test_one_h1_and_headings_step_by_step(bodies: str, example: str) -> None:
    page = example if bodies == "example" else page_of(state_of())
    levels = [int(n[1]) for n in PageReader(page).names if re.fullmatch("h[1-6]", n)]
    assert levels.count(1) == 1
    assert levels[0] == 1
    assert all(after - before <= 1 for before, after in pairwise(levels))


def test_every_drawing_is_described(example: str) -> None:
    drawings = [a for name, a in PageReader(example).tags if name == "svg"]
    assert len(drawings) >= 2
    for attributes in drawings:
        assert attributes["role"] == "img"
        assert attributes.get("aria-label") or attributes["aria-labelledby"]
    assert PageReader(example).names.count("figure") == len(drawings)


def test_every_section_and_table_head_is_named(example: str) -> None:
    reader = PageReader(example)
    ids = {a["id"] for _, a in reader.tags if "id" in a}
    sections = [a for name, a in reader.tags if name == "section"]
    assert all(each["aria-labelledby"] in ids for each in sections)
    heads = [a for name, a in reader.tags if name == "th"]
    assert all(each.get("scope") in {"row", "col"} for each in heads)


def test_head_claim_answer_and_gaps_stand_on_it(example: str) -> None:
    report = report_on(example_state())
    text = PageReader(example).text
    assert report.head in text
    assert "cast long-crystal copper, one crystal per 100 m" in text
    for sentence in (*report.answer.sentences(), *report.not_shown):
        assert sentence in text
    assert "8.4 ± 0.8 µm (95 %)" in text
    assert "strandproof verify CASE --head HEAD" in text


def test_empty_case_gives_a_page() -> None:
    text = PageReader(page_of(state_of())).text
    for words in (
        "None declared yet.",
        "No claim has been entered.",
        "Nothing has been taken in.",
        "Nothing has been measured.",
        "Nothing has been weighed yet.",
        "Head of the record",
    ):
        assert words in text


def test_synthetic_pictures_are_marked_on_top(example: str) -> None:
    words = "Pictures in this report were drawn by a program and show no real metal."
    drawn = page_of(state_of(*things(), like(Micrograph, synthetic=True)))
    assert words not in PageReader(example).text
    assert words in PageReader(drawn).text


def test_names_inside_of_typed_words_keep_their_capitals() -> None:
    text = PageReader(
        page_of(
            example_state(
                lambda body: (
                    like(HandlingEvent, event="annealed at Ostrea College")
                    if isinstance(body, HandlingEvent)
                    else body
                )
            )
        )
    ).text
    assert "annealed at Ostrea College 41.5 °C, 60 min" in text


def test_reason_for_leaving_out_keeps_its_capitals() -> None:
    bodies = [entry.body for entry in example_state().entries[1:]]
    left_out = like(Hypothesis, id="X7", left_out_because="the Tern maker is asked")
    assert (
        "The Tern maker is asked."
        in PageReader(page_of(state_of(*bodies, left_out))).text
    )


def test_only_picture_is_shown_although_nothing_was_measured_on_it() -> None:
    state = state_of(*things(), like(Micrograph, calibration=None))
    page = page_of(state)
    assert PageReader(page).names.count("image") == 1
    assert "no scale" in PageReader(page).text


def test_measured_picture_is_not_shown_twice() -> None:
    state = state_of(*things(), like(Micrograph), like(Measurement))
    assert PageReader(page_of(state)).names.count("image") == 1


def test_many_readings_keep_their_flags_and_structure() -> None:
    readings = measured_pictures(4, flags=("few_grains",), verdict="undecided")
    state = state_of(*readings)
    text = PageReader(page_of(state)).text
    assert text.count("undecided") == 4
    assert text.count("Fewer than 50 grains lie in the measured area") == 1
    assert "Nothing has been measured." not in text
