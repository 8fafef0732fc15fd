"""The report on paper: a tagged PDF/A, made from the same records as the page."""

import json
from collections.abc import Callable
from importlib.resources import files
from typing import cast

import typst

from strandproof.report.case_report import CaseReport
from strandproof.report.plain import paper_data


def case_report_pdf(report: CaseReport) -> bytes:
    """Write a report as a tagged PDF/A-2a that is also PDF/UA-1.

    Parameters
    ----------
    report : CaseReport
        What it says; every word of a user goes in as data, never as markup.

    Returns
    -------
    bytes
        The same bytes for the same report.
    """
    template = files("strandproof.report").joinpath("templates/case_report.typ")
    sources: dict[str, bytes] = {
        "main.typ": template.read_bytes(),
        "report.json": json.dumps(paper_data(report)).encode("utf-8"),
    }
    for number, figure in enumerate(report.figures):
        sources[f"figure-{number}.svg"] = str(figure.svg).encode("utf-8")
    for weighed in report.weighed:
        sources[f"bars-{weighed.claim.id}.svg"] = str(weighed.bars).encode("utf-8")
    # Virtual files and lists of standards are taken, though its type hints say less.
    compile_paper = cast(Callable[..., bytes], typst.compile)
    return compile_paper(
        sources,
        format="pdf",
        timestamp=int(report.made_at.timestamp()),
        ignore_system_fonts=True,
        pdf_standards=["a-2a", "ua-1"],
    )
