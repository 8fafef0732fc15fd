"""Case H7 told from the first claim to the verified report.

Numbers are those of the product brief, section 2.1 and facts 8 and 9 (invented
readings, computed there), to the digits printed there.
"""

import json
import re
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from report_examples import PageReader, pdf_parts

from strandproof.app.workflow import DemoOutcome, open_case, run_demo, verify
from strandproof.app.workflow.blinding import check_opened_list
from strandproof.app.workflow.plan_locking import check_plan_file
from strandproof.planning import fields_account
from strandproof.records.case_state import CaseState
from strandproof.records.entries import Exhibit, Micrograph, Reading, Weighing
from strandproof.storage import original_file, read_picture

Told = tuple[DemoOutcome, list[tuple[float, str]]]


@pytest.fixture(scope="module")
def told(tmp_path_factory: pytest.TempPathFactory) -> Told:
    steps: list[tuple[float, str]] = []
    folder = tmp_path_factory.mktemp("demo") / "H7"
    outcome = run_demo(
        folder, case="H7", progress=lambda done, words: steps.append((done, words))
    )
    return outcome, steps


@pytest.fixture(scope="module")
def state(told: Told) -> CaseState:
    return open_case(told[0].case)


@pytest.fixture(scope="module")
def text(told: Told) -> str:
    return PageReader(told[0].written.page.read_text("utf-8")).text


@pytest.fixture(scope="module")
def found(told: Told) -> dict[str, Any]:
    data: dict[str, Any] = json.loads(told[0].written.findings.read_bytes())
    return data


def result(found: dict[str, Any], measurement: str, name: str) -> dict[str, Any]:
    one = next(each for each in found["measurements"] if each["id"] == measurement)
    value: dict[str, Any] = next(
        each["value"] for each in one["results"] if each["name"] == name
    )
    return value


def pair(found: dict[str, Any], claim: str, names: set[str]) -> dict[str, Any]:
    weighing = next(each for each in found["weighings"] if each["claim"] == claim)
    one: dict[str, Any] = next(
        each for each in weighing["pairs"] if {each["first"], each["second"]} == names
    )
    return one


def test_case_verifies_with_the_head_that_is_told(told: Told) -> None:
    outcome, _ = told
    checked = verify(outcome.case, head=outcome.head)
    assert checked.sound
    assert checked.differences == ()
    assert checked.notices == ()


def test_head_stands_on_page_paper_and_findings(
    told: Told, text: str, found: dict[str, Any]
) -> None:
    assert told[0].head in text
    assert found["head"] == told[0].head
    assert told[0].written.paper.read_bytes().startswith(b"%PDF")


def test_progress_goes_up_to_the_end(told: Told) -> None:
    shares = [share for share, _ in told[1]]
    assert shares == sorted(shares)
    assert told[1][-1] == (1.0, "verified")


def test_told_words_begin_with_invented_and_answer_in_five(told: Told) -> None:
    first, *answer = told[0].paragraphs
    assert first.startswith("Everything in this case is invented")
    assert "synthetic" in first
    assert len(answer) == 5


@pytest.mark.parametrize(
    "words",
    [
        "8.4 ± 0.8 µm (95 %)",
        "By lead: E1 8.33 µm; E2 8.80 µm; E3 8.20 µm.",
        "10.49; 10.23 to 10.77 (95 %)",
        "for comparison: G 11.7",
        "agree on 23 of 24 sections, Cohen's kappa 0.87",
        "100.9 ± 0.4 % IACS (95 %)",
        "1.7042 Ω",
        "cannot tell crystals: expected 0.1-0.3 %, your uncertainty 0.4 %",
        "0.0955 mm²",
        "74 %, in effect size 27.3.",
        "28 standard uncertainties",
        "needs 108.7 to 114.9 % IACS; copper ends at 103.3 %",
        "which lies below the needed range",
        "1.9 ± 0.3 µm (95 %)",
        "Controls alone: 8.1, weak, with the 0.95 judged; 1.9, no support",
        "expected value 24.7 (uniform prior)",
        "Controls alone: 1.8, no support, with the 0.95 judged",
        "expected value 5.7 (uniform prior)",
        "About 1, no help. X3 against X4: about 1: no help",
    ],
)
def test_number_of_the_brief_stands_on_the_page(text: str, words: str) -> None:
    assert words in text


def test_numbers_in_the_findings_are_unrounded(found: dict[str, Any]) -> None:
    size = result(found, "grain-size", "mean_intercept")
    assert size["value"] == pytest.approx(8.44, rel=0, abs=0.01)
    assert size["upper"] - size["value"] == pytest.approx(0.8, rel=0, abs=0.05)
    g = result(found, "grain-size", "g_intercept")
    assert g["value"] == pytest.approx(10.49, rel=0, abs=0.005)
    iacs = result(found, "resistance", "conductivity")
    assert iacs["value"] == pytest.approx(100.93, rel=0, abs=0.005)
    area = result(found, "core-area", "copper_area")
    assert area["value"] == pytest.approx(0.0955, rel=0, abs=5e-5)
    size_number = result(found, "core-area", "effective_gauge")
    assert size_number["value"] == pytest.approx(27.29, rel=0, abs=0.005)
    tin = result(found, "drain-layer", "tin_layer_thickness")
    found_um = [tin["value"], tin["lower"], tin["upper"]]
    np.testing.assert_allclose(found_um, [1.9, 1.6, 2.2], rtol=0, atol=0.05)
    for name, lower, value, upper in (
        ("layer_share_by_volume", 5.3, 6.2, 7.2),
        ("layer_share_by_mass", 4.4, 5.2, 6.0),
        ("resistance_added_by_layer", 4.7, 5.6, 6.5),
    ):
        share = result(found, "drain-layer", name)
        ends = [share["lower"], share["value"], share["upper"]]
        np.testing.assert_allclose(ends, [lower, value, upper], rtol=0, atol=0.05)


def test_ratios_in_the_findings(found: dict[str, Any], state: CaseState) -> None:
    last = pair(found, "K1", {"X1", "X3"})
    assert last["best_ratio"] == pytest.approx(190, rel=1e-9, abs=0)
    assert last["controls_ratio"] == pytest.approx(8.1, rel=0, abs=0.05)
    assert last["controls_expected_ratio"] == pytest.approx(24.7, rel=0, abs=0.05)
    assert last["controls_ratio_unjudged"] == pytest.approx(1.9, rel=0, abs=0.05)
    first = state.record(Weighing, "W-K1-first-bench")
    ceiling = next(p for p in first.pairs if {p.first, p.second} == {"X1", "X3"})
    assert ceiling.controls_ratio == pytest.approx(1.8, rel=0, abs=0.05)
    assert ceiling.controls_expected_ratio == pytest.approx(5.7, rel=0, abs=0.05)
    same = pair(found, "K1", {"X3", "X4"})
    assert same["best_ratio"] == pytest.approx(1, rel=1e-9, abs=0)


@pytest.mark.parametrize(
    ("claim", "word"),
    [
        ("K1, crystal state of the finished strand", "contradicted"),
        ("K2, build (metal, plating, gauge, strand count)", "supported"),
        ("K3, build (metal, plating, gauge, strand count)", "contradicted"),
        ("K4, performance", "contradicted"),
    ],
)
def test_result_words_are_those_of_the_brief(
    found: dict[str, Any], text: str, claim: str, word: str
) -> None:
    results = {each["claim"]: each["result"] for each in found["weighings"]}
    assert results[claim[:2]] == word
    assert f"{claim}: {word}" in text


def test_route_and_nines_are_told_as_not_tested(
    found: dict[str, Any], text: str
) -> None:
    assert "K1, casting route: tested by nothing in this case." in text
    assert "K2, composition: tested by nothing in this case." in text
    tested = {
        (row["claim"], row["kind"]): row["tested_by"] for row in found["coverage"]
    }
    assert tested == {
        ("K3", "build"): ["core-area"],
        ("K2", "composition"): [],
        ("K2", "build"): ["drain-layer"],
        ("K4", "performance"): ["resistance"],
        ("K1", "crystal_state"): ["grain-size"],
        ("K1", "casting_route"): [],
    }
    assert "Crystals of the drain, tinned round strands: not tested." in text


def test_weighings_of_the_build_ask_for_no_crystal_rivals(
    found: dict[str, Any],
) -> None:
    notes = {each["claim"]: each["note"] for each in found["weighings"]}
    assert not any("(X5)" in notes[claim] for claim in ("K2", "K3", "K4"))


def test_controls_are_no_part_of_what_was_examined_or_found(
    text: str, state: CaseState, found: dict[str, Any]
) -> None:
    assert len(state.records(Exhibit)) == 4
    assert "Examined were 3 exhibits" in text
    assert "3 exhibits cannot speak for a product" in text
    assert not any(
        each["measures"].startswith("micrograph/C") for each in found["third_readings"]
    )


def test_uncomfortable_things_are_told(text: str) -> None:
    for words in (
        "61.40 commission from January to March",
        "A correction is due.",
        "380.00 EUR, paid by R",
        "Gap: 05-06 16:40 to 05-08 09:15, no holder recorded",
        "Deviation 1, after results were seen: section dropped, 'over-etched' (A2)",
        "provenance by word only",
        "Fewer than about ten grains lie across the strand",
    ):
        assert words in text


def test_plan_is_locked_changed_in_the_open_and_accounted_for(
    told: Told, state: CaseState, text: str
) -> None:
    assert "Addition 1, before any result: sections of core strands for K1" in text
    assert (
        "Deviation 1, after results were seen: section dropped, 'over-etched' (A2); "
        "A1 had read it."
    ) in text
    assert "Word and record differ" not in text
    account = fields_account(state)
    assert account.sentence == "54 fields; 53 used (45 of 45, 8 of 9)"
    assert account.sentence in text
    assert [each.name for each in account.not_used] == ["the face of E2-s3-T"]
    published = check_plan_file(told[0].case, "plan-1")
    assert published in text


def test_lists_were_sealed_before_reading_and_agree(told: Told) -> None:
    for label, codes in (("list-1", 24), ("list-2", 20)):
        checked = check_opened_list(told[0].case, label)
        assert checked.readings_before_seal == ()
        assert len(json.loads(checked.file.read_bytes())["assignments"]) == codes


def test_program_reads_one_field_of_each_long_section(
    found: dict[str, Any], text: str
) -> None:
    """What a program read is shown beside, never as the result."""
    readings = found["third_readings"]
    assert len(readings) == 9
    assert {each["verdict"] for each in readings} == {"poly"}
    assert all("synthetic" in each["flags"] for each in readings)
    assert "Annealing twins are merged by a rule that was checked on synthetic" in text


def test_every_reading_of_the_first_bench_is_blind(state: CaseState) -> None:
    assert all(reading.blind for reading in state.records(Reading))


def test_everything_drawn_says_synthetic(
    told: Told, state: CaseState, found: dict[str, Any]
) -> None:
    micrographs = state.records(Micrograph)
    assert len(micrographs) == 24
    assert all(each.synthetic for each in micrographs)
    page = told[0].written.page.read_text("utf-8")
    assert "Pictures in this report were drawn by a program" in page
    assert page.count(" synthetic</text>") == 24
    # What a screen reader says of each picture on paper.
    paper = pdf_parts(told[0].written.paper.read_bytes())
    assert len(set(re.findall(rb"\(Synthetic picture of a [^)]*", paper))) == 24
    assert found["synthetic_pictures"] is True


def test_originals_say_synthetic_and_are_20_megapixels_at_most(
    told: Told, state: CaseState
) -> None:
    micrographs = state.records(Micrograph)
    assert sum(each.width_px * each.height_px for each in micrographs) <= 20e6
    for micrograph in micrographs[::6]:
        path = original_file(told[0].case, state, micrograph.file_sha256)
        flags = {flag.name for flag in read_picture(path).flags}
        assert "synthetic" in flags


def test_case_and_report_lie_in_the_folder_given(told: Told) -> None:
    folder: Path = told[0].case.parent
    assert sorted(path.name for path in folder.iterdir()) == [
        "H7",
        "H7-report.findings.json",
        "H7-report.html",
        "H7-report.pdf",
    ]


def test_a_result_holds_only_for_what_was_weighed(text: str) -> None:
    """The brief: K1's route and K2's purity stay undetermined."""
    assert "not weighed, so undetermined: K2, composition; K1, casting route." in text


def test_the_mill_certificate_is_judged_and_4n7_stays_unsupported(text: str) -> None:
    assert (
        "Bears on composition of an 8 mm rod, heat 77-B, 14 elements. Cannot bear on "
        "crystal state. Not linked to any exhibit's lot. Oxygen not reported."
    ) in text
    assert re.search(r"4N7 copper.{0,40}composition and build unsupported by", text)
