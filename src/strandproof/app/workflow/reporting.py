"""The use case that writes the report on a case: page, paper, findings."""

import json
from dataclasses import dataclass
from pathlib import Path

from strandproof import __version__
from strandproof.app.workflow.combining_plot import combined_drawings
from strandproof.app.workflow.entering import Desk, open_case
from strandproof.app.workflow.resize_guarding import resized_copies
from strandproof.records.case_state import CaseState
from strandproof.records.entries import Micrograph
from strandproof.report import (
    MicrographPicture,
    answer_in_five_sentences,
    case_report,
    case_report_html,
    case_report_pdf,
    findings_data,
)
from strandproof.storage import (
    original_file,
    preview_jpeg,
    read_picture,
    write_output_file,
)

_PREVIEW_SIDE_PX = 900


@dataclass(frozen=True, slots=True)
class WrittenReport:
    """Where the files of a report lie.

    Parameters
    ----------
    page, paper, findings : Path
        The HTML file, the PDF, the JSON file.
    """

    page: Path
    paper: Path
    findings: Path


def write_report(desk: Desk, target: Path | None = None) -> WrittenReport:
    """Write the report on a case: an HTML file, a PDF, and findings as JSON.

    Parameters
    ----------
    desk : Desk
        Folder and person.
    target : Path or None
        The HTML file, the others get their own endings beside it; beside the
        case folder when None. Earlier reports of that name are replaced.

    Returns
    -------
    WrittenReport
        The files written.
    """
    state = open_case(desk.folder)
    report = case_report(
        state,
        pictures=_pictures(desk.folder, state),
        made_at=desk.clock(),
        program=f"Strandproof {__version__}",
        drawings=combined_drawings(state),
        open_points=resized_copies(desk.folder),
    )
    page = target or desk.folder.with_name(f"{desk.folder.name}-report.html")
    written = WrittenReport(
        page, page.with_suffix(".pdf"), page.with_suffix(".findings.json")
    )
    found = json.dumps(findings_data(report), indent=2, ensure_ascii=False)
    for path, content in (
        (written.page, case_report_html(report).encode("utf-8")),
        (written.paper, case_report_pdf(report)),
        (written.findings, (found + "\n").encode("utf-8")),
    ):
        write_output_file(path, content, overwrite=True)
    return written


def report_answer(state: CaseState) -> tuple[str, ...]:
    """Give the answer of a case in five sentences.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    tuple of str
        Said, examined, found, weighed, not shown.
    """
    return answer_in_five_sentences(state).sentences()


def _pictures(folder: Path, state: CaseState) -> dict[str, MicrographPicture]:
    shown: dict[str, MicrographPicture] = {}
    for micrograph in state.records(Micrograph):
        path = original_file(folder, state, micrograph.file_sha256)
        picture = read_picture(path, page=micrograph.page)
        copy = preview_jpeg(picture.pixels, max_side=_PREVIEW_SIDE_PX)
        shown[micrograph.id] = MicrographPicture(
            copy, micrograph.width_px, micrograph.height_px
        )
    return shown
