"""The plan in a report: hash, changes dated by the record, every field, blinding."""

from pathlib import Path

from blinding_examples import CODES, coded_case, given_out
from plan_examples import ADDITION, DEVIATION, PLAN, drawn, planned, read_bench
from report_examples import report_on, state_of

from strandproof.app.workflow.blinding import seal_list
from strandproof.app.workflow.entering import open_case
from strandproof.app.workflow.plan_locking import deviate, lock_plan
from strandproof.records.case_state import CaseState
from strandproof.report import case_report_html, case_report_pdf
from strandproof.report.plain import findings_data, paper_data
from strandproof.report.plan import plan_section


def h7(folder: Path) -> CaseState:
    desk = planned(folder)
    lock_plan(desk, PLAN)
    deviate(desk, ADDITION, drawn=drawn())
    read_bench(desk)
    deviate(desk, {**DEVIATION, "results_seen": False})
    return open_case(desk.folder)


def test_page_tells_plan_changes_and_every_field(tmp_path: Path) -> None:
    state = h7(tmp_path)
    page = case_report_html(report_on(state))
    told = plan_section(state)
    assert told.plans[0].plan_sha256 in page
    assert "Addition 1, before any result" in page
    assert "Deviation 1, after results were seen: section dropped, " in page
    assert "Word and record differ." in page
    assert "54 fields; 53 used (45 of 45, 8 of 9)" in page
    assert "The face of E2-s3-T, dropped" in page
    assert len(told.field_rows) == 18
    assert told.field_rows[0][1] == "ZJP-250"
    assert told.field_rows[0][3] == "5 of 5"
    face = next(row for row in told.field_rows if row[0] == "E2-s3-T")
    assert face[2:] == ("whole face", "0 of 1 (dropped)")


def test_paper_and_data_say_the_same(tmp_path: Path) -> None:
    report = report_on(h7(tmp_path))
    data = paper_data(report)["plan"]
    assert data["fields"][0].startswith("54 fields; 53 used (45 of 45, 8 of 9)")
    assert len(data["changes"]) == 2
    assert findings_data(report)["plan"]["changes"] == data["changes"]
    assert case_report_pdf(report).startswith(b"%PDF")


def test_nothing_planned_nothing_told() -> None:
    state = state_of()
    assert plan_section(state).empty
    assert plan_section(state).drawing is None
    assert 'id="plan"' not in case_report_html(report_on(state))


def test_blinding_is_told_without_the_pieces(tmp_path: Path) -> None:
    desk = coded_case(tmp_path)
    seal_list(desk, "list-1", CODES)
    given_out(desk, tmp_path / "out")
    told = plan_section(open_case(desk.folder)).blinding
    assert len(told) == 3
    assert told[0].startswith("List list-1 of 4 blind codes, sealed by C on 2031-06-01")
    assert told[1].startswith("Hand-out to-A1: 4 coded pictures to A1")
    assert told[2] == "List list-1 is still sealed."
    assert not any("section/" in line for line in told)
