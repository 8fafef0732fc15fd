"""Case H0: a pass is reported as fully as a failure, and the same twice.

Numbers are those of the product brief, section 2.2 (invented readings, computed
there), to the digits printed there.
"""

import json
import re
from pathlib import Path
from typing import Any

import pytest
from report_examples import PageReader, pdf_parts

from strandproof.app.workflow import DemoOutcome, open_case, run_demo, verify
from strandproof.records.case_state import CaseState
from strandproof.records.entries import Measurement, Micrograph


def tell(folder: Path) -> DemoOutcome:
    return run_demo(folder, case="H0", progress=lambda _done, _words: None)


@pytest.fixture(scope="module")
def told(tmp_path_factory: pytest.TempPathFactory) -> DemoOutcome:
    return tell(tmp_path_factory.mktemp("demo") / "H0")


@pytest.fixture(scope="module")
def state(told: DemoOutcome) -> CaseState:
    return open_case(told.case)


@pytest.fixture(scope="module")
def text(told: DemoOutcome) -> str:
    return PageReader(told.written.page.read_text("utf-8")).text


def findings_of(told: DemoOutcome) -> dict[str, Any]:
    data: dict[str, Any] = json.loads(told.written.findings.read_bytes())
    return data


def test_case_verifies(told: DemoOutcome) -> None:
    assert verify(told.case, head=told.head).sound


@pytest.mark.parametrize(
    "words",
    [
        "boundaries along the length at most 0.083 /mm (95 %, one-sided)",
        "No boundary resolved over 36 mm: at most 0.083 per mm",
        "mean crystal at least 12.0 mm (95 %)",
        "K1, crystal state of the finished strand: supported",
        "best estimate 190 for X1 over X4, judgement; the controls alone support 1.0",
        "Controls alone: 1.0, no support",
        "orientation spread 2",
        "Examined were 1 exhibit (E1 bought from the supplier)",
        "One exhibit cannot speak for a product",
        "Casting route: not claimed here, and not tested.",
        "Left out, X5: Tough-pitch copper, drawn and annealed.",
    ],
)
def test_number_of_the_brief_stands_on_the_page(text: str, words: str) -> None:
    assert words in text


def test_it_never_says_that_there_is_no_boundary(text: str) -> None:
    assert "No boundary resolved" in text
    assert "no boundaries" not in text.lower()


def test_every_usual_rival_is_weighed_or_left_out_with_a_reason(text: str) -> None:
    assert "no reason given" not in text


def test_bound_in_the_findings(told: DemoOutcome) -> None:
    bound = next(
        each
        for each in findings_of(told)["measurements"]
        if each["id"] == "no-boundary"
    )
    rate, spacing = (each["value"] for each in bound["results"])
    assert rate["upper"] == pytest.approx(0.083, rel=0, abs=0.0005)
    assert spacing["lower"] == pytest.approx(12.0, rel=0, abs=0.05)
    assert bound["verdict"] == "single"
    assert bound["flags"] == []


def test_program_resolves_boundaries_on_the_control_only(state: CaseState) -> None:
    """It may abstain on a field of the rod; it may not contradict the readers there."""
    measured = {
        each.measures.removeprefix("micrograph/"): each
        for each in state.records(Measurement)
        if each.measures.startswith("micrograph/")
    }
    assert measured.pop("soft-1").verdict == "poly"
    assert len(measured) == 8
    for field in measured.values():
        assert field.verdict in {"single", "undecided"}
        words = {result.name: result.words for result in field.results}
        assert words["crossings_per_mm"].startswith("No boundary was resolved")


def test_length_seen_is_that_of_the_pictures(state: CaseState) -> None:
    rods = [each for each in state.records(Micrograph) if each.id != "soft-1"]
    length_um = sum(each.width_px for each in rods) * 5.0
    assert length_um == pytest.approx(36_000, rel=1e-12, abs=0)


def test_grain_size_of_the_control_is_not_told_of_the_rod(text: str) -> None:
    answer = text.partition("The answer in five sentences")[2].partition("Interests")[0]
    assert "boundaries along the length" in answer
    assert "mean distance between grain boundaries" not in answer


def test_everything_drawn_says_synthetic(told: DemoOutcome, state: CaseState) -> None:
    micrographs = state.records(Micrograph)
    assert all(each.synthetic for each in micrographs)
    assert sum(each.width_px * each.height_px for each in micrographs) <= 20e6
    page = told.written.page.read_text("utf-8")
    assert page.count(" synthetic</text>") == len(micrographs)
    paper = pdf_parts(told.written.paper.read_bytes())
    described = set(re.findall(rb"\(Synthetic picture of a [^)]*", paper))
    assert len(described) == len(micrographs)


def test_told_twice_it_is_the_same_case_to_the_last_byte(
    told: DemoOutcome, tmp_path: Path
) -> None:
    again = tell(tmp_path / "again")
    assert again.head == told.head
    assert findings_of(again) == findings_of(told)
    assert again.written.page.read_bytes() == told.written.page.read_bytes()
    assert again.written.paper.read_bytes() == told.written.paper.read_bytes()
    assert again.paragraphs == told.paragraphs
