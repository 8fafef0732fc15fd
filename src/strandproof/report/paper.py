"""The report on paper: a tagged PDF/A, made from the same records as the page."""

import json
from collections.abc import Mapping
from importlib.resources import files
from typing import Any

from strandproof.report.case_report import CaseReport
from strandproof.report.keeping import CUSTODY_DRAWING
from strandproof.report.plain import paper_data
from strandproof.report.typesetting import (
    WITHOUT_GLYPH,
    characters_without_glyph,
    typeset,
)

_NAMED_AT_MOST = 12


def case_report_pdf(report: CaseReport) -> bytes:
    """Write a report as a tagged PDF/A-2a that is also PDF/UA-1.

    Characters that the paper's fonts do not draw, for example Chinese ones, are
    replaced by a box; the paper says which, and that the page shows them.

    Parameters
    ----------
    report : CaseReport
        What it says; every word of a user goes in as data, never as markup.

    Returns
    -------
    bytes
        The same bytes for the same report.
    """
    data, pictures = paper_data(report), _pictures(report)
    missing = characters_without_glyph((*_texts(data), *pictures.values()))
    boxes = str.maketrans(dict.fromkeys(missing, WITHOUT_GLYPH))
    words = {**_replaced(data, boxes), "without_glyph": _notice(missing)}
    template = files("strandproof.report").joinpath("templates/case_report.typ")
    sources = {
        "main.typ": template.read_bytes(),
        "report.json": json.dumps(words).encode("utf-8"),
        **{
            name: svg.translate(boxes).encode("utf-8") for name, svg in pictures.items()
        },
    }
    return typeset(sources, made_at=report.made_at)


def _pictures(report: CaseReport) -> dict[str, str]:
    figures = {f"figure-{k}.svg": str(f.svg) for k, f in enumerate(report.figures)}
    bars = {f"bars-{each.claim.id}.svg": str(each.bars) for each in report.weighed}
    drawings = {
        f"drawing-{each.measurement.id}.svg": str(each.drawing.svg)
        for each in report.findings
        if each.drawing is not None
    }
    custody = report.keeping.drawing
    kept = {} if custody is None else {CUSTODY_DRAWING: str(custody.svg)}
    return {**figures, **bars, **drawings, **kept}


def _texts(data: object) -> list[str]:
    if isinstance(data, str):
        return [data]
    if isinstance(data, Mapping):
        data = list(data.values())
    if isinstance(data, list):
        return [text for each in data for text in _texts(each)]
    return []


def _replaced(data: Any, boxes: Mapping[int, str]) -> Any:  # noqa: ANN401 - JSON data have no common type
    if isinstance(data, str):
        return data.translate(boxes)
    if isinstance(data, Mapping):
        return {name: _replaced(each, boxes) for name, each in data.items()}
    if isinstance(data, list):
        return [_replaced(each, boxes) for each in data]
    return data


def _notice(missing: tuple[str, ...]) -> str:
    if not missing:
        return ""
    named = ", ".join(f"U+{ord(each):04X}" for each in missing[:_NAMED_AT_MOST])
    more = " and others" if len(missing) > _NAMED_AT_MOST else ""
    return (
        f"The fonts of this paper do not draw {named}{more}; a box ({WITHOUT_GLYPH}) "
        "stands in their place. The page (HTML) and the entries keep them."
    )
