"""The use cases around a certificate: read it, judge it, enter it, draw it."""

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, fields
from pathlib import Path
from typing import Any

from strandproof.app.workflow.bench_findings import BenchFinding
from strandproof.app.workflow.entering import Desk, enter, read_original
from strandproof.composition import (
    CertificateJudgement,
    content_from_words,
    contents_from_cells,
    judge_certificate,
)
from strandproof.composition.totals import ImpurityTotal
from strandproof.errors import MissingMeasurementError, ParameterError
from strandproof.quantity import Interval, Quantity
from strandproof.records.composition import Basis, Certificate, ElementContent
from strandproof.records.entries import ClaimKind, Entry, MeasurementResult
from strandproof.records.entries.numbers import measured_value
from strandproof.report.plots import certificate_limits_svg
from strandproof.storage import write_output_file
from strandproof.storage.cell_tables import read_cell_table

_TEXT_FIELDS = frozenset(
    {"item", "lot", "issuer", "accreditation", "method", "dated", "nines", "grade"}
)
_FIELDS = frozenset(field.name for field in fields(Certificate)) - {"contents"}


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuredElsewhere:
    """What was measured on the metal, to be held against a certificate.

    Parameters
    ----------
    percent_iacs, residual_ratio : tuple of float or None
        Value and standard uncertainty; the ratio is R(273.15 K) / R(4.2 K).
    """

    percent_iacs: tuple[float, float] | None = None
    residual_ratio: tuple[float, float] | None = None


def read_certificate(
    stated: Mapping[str, Any],
    *,
    source: Path | None = None,
    elements: Sequence[str] = (),
    sheet: str | None = None,
) -> Certificate:
    """Read a certificate from a table or a JSON file, from typed elements, or both.

    Parameters
    ----------
    stated : mapping
        Fields of `Certificate` but its contents; empty ones count as not given. They
        go before those of a JSON file.
    source : Path, optional
        A CSV or XLSX table of elements, or a JSON file with the fields of a
        certificate and ``"elements"``, a list of words such as ``"Fe=3.2"``.
    elements : sequence of str
        Elements as typed, for example ``"Bi=<0.5"``; added to those of the file.
    sheet : str, optional
        Sheet of an XLSX file.

    Returns
    -------
    Certificate
        As stated.

    Raises
    ------
    MissingMeasurementError
        If there is neither a file nor an element.
    ParameterError
        If a field or an element cannot be read.
    """
    given = {name: value for name, value in stated.items() if value not in {None, ""}}
    contents: list[ElementContent] = []
    if source is not None and source.suffix.lower() == ".json":
        document = _json_fields(source)
        words = document.pop("elements", [])
        contents += [content_from_words(str(word)) for word in words]
        given = {**document, **given}
    elif source is not None:
        contents += contents_from_cells(read_cell_table(source, sheet=sheet))
    contents += [content_from_words(word) for word in elements]
    if not contents:
        raise MissingMeasurementError(
            "The list of elements",
            reason="A purity without a list of elements is a claim, not an analysis.",
            remedy="Give a table or JSON file, or elements such as Fe=3.2 or Bi=<0.5.",
        )
    return _certificate(given, contents)


def judge_read_certificate(
    certificate: Certificate,
    *,
    grades: Sequence[str] = (),
    measured: MeasuredElsewhere | None = None,
) -> CertificateJudgement:
    """Judge a certificate by its own numbers, and beside what was measured.

    Parameters
    ----------
    certificate : Certificate
        As entered.
    grades : sequence of str
        Grades to check it against.
    measured : MeasuredElsewhere, optional
        Conductivity and residual ratio.

    Returns
    -------
    CertificateJudgement
        Totals, contradictions, gaps, limits, consequence.
    """
    known = MeasuredElsewhere() if measured is None else measured
    return judge_certificate(
        certificate,
        grades=grades,
        percent_iacs=_quantity(known.percent_iacs, "% IACS"),
        residual_ratio=_quantity(known.residual_ratio, "1"),
    )


def certificate_finding(judgement: CertificateJudgement) -> BenchFinding:
    """Turn a judged certificate into what a case holds.

    For an analysis of a piece of the case. A paper about another item is entered as a
    document, see `enter_certificate_paper`.

    Parameters
    ----------
    judgement : CertificateJudgement
        From `judge_read_certificate`.

    Returns
    -------
    BenchFinding
        Bears on composition; on oxygen only where oxygen has a number or a limit.
    """
    certificate = judgement.certificate
    bears = [ClaimKind.COMPOSITION]
    if certificate.content("O") is not None:
        bears.append(ClaimKind.OXYGEN)
    method = certificate.method or "analysis, method not stated"
    metals, whole = judgement.totals
    return BenchFinding(
        method=method,
        results=(
            _result("impurities_metals_only", metals),
            _result("impurities_listed", whole),
        ),
        bears_on=tuple(bears),
        sentence=f"Analysis of {certificate.item}: {metals.sentence}",
        flags=tuple(dict.fromkeys(flag.name for flag in judgement.flags)),
    )


def enter_certificate_paper(
    desk: Desk,
    label: str,
    certificate: Certificate,
    *,
    kind: str,
    source: Path | None = None,
    offered_for: Sequence[str] = (),
) -> Entry:
    """Enter a certificate as a paper of a case, with the elements that it lists.

    Parameters
    ----------
    desk : Desk
        Folder and person.
    label : str
        Short name of the paper.
    certificate : Certificate
        As entered.
    kind : str
        Kind of paper, for example ``"mill_certificate"``.
    source : Path, optional
        The copy that may be shown.
    offered_for : sequence of str
        Claims that it is offered for.

    Returns
    -------
    Entry
        The document.
    """
    bears = [ClaimKind.COMPOSITION]
    listed = tuple(one.symbol for one in certificate.measured)
    if "O" in listed:
        bears.append(ClaimKind.OXYGEN)
    body = {
        "id": label,
        "title": kind.replace("_", " "),
        "issuer": certificate.issuer or "not stated",
        "dated": certificate.dated,
        "item": certificate.item,
        "lot": certificate.lot,
        "method": certificate.method,
        "accreditation": certificate.accreditation,
        "exclusions": "" if "O" in listed else "oxygen not reported",
        "paper_kind": kind,
        "elements": list(listed),
        "offered_for": list(offered_for),
        "bears_on": [each.value for each in bears],
        "does_not_bear_on": [each.value for each in ClaimKind if each not in bears],
    }
    files = {} if source is None else {"file_sha256": source}
    return enter(desk, "document", body, files=files)


def write_certificate_plot(judgement: CertificateJudgement, target: Path) -> None:
    """Write the drawing of a certificate against the first grade checked.

    Parameters
    ----------
    judgement : CertificateJudgement
        With one grade or more.
    target : Path
        New SVG file.

    Raises
    ------
    MissingMeasurementError
        If it was checked against no grade.
    """
    if not judgement.grades:
        raise MissingMeasurementError(
            "The grade for the drawing",
            reason="A certificate is drawn against the limits of a grade.",
            remedy="Name one with --grade.",
        )
    drawing = certificate_limits_svg(judgement.grades[0])
    write_output_file(target, str(drawing).encode("utf-8"))


def _json_fields(source: Path) -> dict[str, Any]:
    try:
        document = json.loads(read_original(source).content)
    except ValueError as error:
        raise ParameterError(
            source.name, str(error), allowed="a JSON file of a certificate"
        ) from None
    allowed = {*_FIELDS, "elements"}
    if not isinstance(document, dict) or set(document) - allowed:
        odd = sorted(set(document) - allowed) if isinstance(document, dict) else "?"
        raise ParameterError(source.name, odd, allowed=", ".join(sorted(allowed)))
    return document


def _certificate(
    given: dict[str, Any], contents: Sequence[ElementContent]
) -> Certificate:
    for name in _TEXT_FIELDS & set(given):
        if not isinstance(given[name], str):
            raise ParameterError(name, given[name], allowed="text")
    basis = given.get("basis", Basis.NOT_STATED.value)
    if basis not in {each.value for each in Basis}:
        raise ParameterError("basis", basis, allowed=", ".join(Basis))
    copper = given.get("copper_percent")
    if copper is not None and not isinstance(copper, int | float):
        raise ParameterError("copper", copper, allowed="a percentage by mass")
    if "item" not in given:
        raise ParameterError(
            "item", "", allowed="what was analysed, for example 8 mm rod"
        )
    fields_given = {
        **given,
        "basis": Basis(basis),
        "copper_includes": tuple(given.get("copper_includes", ())),
    }
    return Certificate(contents=tuple(contents), **fields_given)


def _quantity(given: tuple[float, float] | None, unit: str) -> Quantity | None:
    return None if given is None else Quantity(given[0], unit, given[1])


def _result(name: str, total: ImpurityTotal) -> MeasurementResult:
    uniform = next(one for one in total.treatments if one.name == "uniform")
    interval = Interval(
        lower=total.lowest_ppm,
        upper=total.bound_ppm,
        unit="ppm",
        confidence=total.bound.confidence,
        method="from nothing below a detection limit to the one-sided bound",
    )
    value = Quantity(uniform.expected_ppm, "ppm", total.standard_uncertainty)
    return MeasurementResult(
        name=name, value=measured_value(value, interval), words=total.sentence
    )
