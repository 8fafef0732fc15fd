"""A report written from a case on disk."""

import json
from datetime import timedelta
from pathlib import Path

import numpy as np
import pytest
from report_examples import PageReader
from workflow_examples import NOON, add, contents, started

from strandproof.app.workflow import (
    Desk,
    WrittenReport,
    enter_micrograph,
    open_case,
    write_report,
)
from strandproof.app.workflow.reporting import report_answer
from strandproof.storage import encode_png


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    """A case with one uncalibrated micrograph that is wider than a report shows."""
    desk = started(tmp_path / "H7")
    section = {"id": "L", "specimen": "E1-s1", "direction": "longitudinal"}
    add(desk, [("section", section)])
    path = tmp_path / "field.png"
    pixels = np.random.default_rng(3).integers(0, 255, (500, 1500), np.uint8)
    path.write_bytes(encode_png(pixels))
    enter_micrograph(desk, {"id": "f1", "section": "L"}, picture=path)
    return desk


def test_three_files_beside_the_case(desk: Desk) -> None:
    written = write_report(desk)
    beside = desk.folder.parent
    assert written == WrittenReport(
        beside / "H7-report.html",
        beside / "H7-report.pdf",
        beside / "H7-report.findings.json",
    )
    assert written.page.read_text("utf-8").startswith("<!DOCTYPE html>")
    assert written.paper.read_bytes().startswith(b"%PDF")
    assert json.loads(written.findings.read_bytes())["schema"] == "strandproof-findings"


def test_all_three_carry_the_head_of_the_case(desk: Desk) -> None:
    written = write_report(desk)
    head = open_case(desk.folder).head
    assert head in PageReader(written.page.read_text("utf-8")).text
    assert json.loads(written.findings.read_bytes())["head"] == head


def test_report_changes_nothing_in_the_case(desk: Desk, tmp_path: Path) -> None:
    before = contents(desk.folder)
    write_report(desk, tmp_path / "elsewhere.html")
    assert contents(desk.folder) == before
    assert (tmp_path / "elsewhere.pdf").exists()
    assert (tmp_path / "elsewhere.findings.json").exists()


def test_same_case_and_moment_give_the_same_files(desk: Desk) -> None:
    written = write_report(desk)
    first = [path.read_bytes() for path in (written.page, written.paper)]
    again = write_report(desk)
    assert [path.read_bytes() for path in (again.page, again.paper)] == first


def test_later_report_replaces_the_earlier(desk: Desk) -> None:
    first = write_report(desk).findings.read_bytes()
    later = Desk(desk.folder, "A1", lambda: NOON + timedelta(days=1))
    second = write_report(later).findings.read_bytes()
    assert json.loads(first)["made_at"] == "2031-06-01T12:00:00+00:00"
    assert json.loads(second)["made_at"] == "2031-06-02T12:00:00+00:00"


def test_picture_is_shown_reduced_on_the_grid_of_the_original(desk: Desk) -> None:
    page = write_report(desk).page.read_text("utf-8")
    assert 'viewBox="0 0 1500 500"' in page
    assert "no scale" in PageReader(page).text
    assert len(page) < 500_000


def test_answer_has_five_sentences(desk: Desk) -> None:
    assert len(report_answer(open_case(desk.folder))) == 5
