"""What a report says, drawn from the records of a case: no markup, no disk."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime

from markupsafe import Markup

from strandproof.records import FLAGS, FlagDefinition
from strandproof.records.case_state import CaseState
from strandproof.records.entries import (
    Calibration,
    Capture,
    Case,
    Claim,
    ClaimKind,
    Exhibit,
    Measurement,
    Micrograph,
    Section,
    Specimen,
    Weighing,
)
from strandproof.report.figures import MicrographPicture, micrograph_svg
from strandproof.report.wording import (
    KIND_WORDS,
    result_in_words,
    result_name,
    value_in_words,
)

_NOT_WEIGHED = (
    "No rival explanations were weighed in this case yet: it says what was measured, "
    "not how strongly that speaks for or against a claim."
)


@dataclass(frozen=True, slots=True)
class SaidClaim:
    """A claim with the copies that show it."""

    claim: Claim
    kinds: tuple[str, ...]
    captures: tuple[Capture, ...]


@dataclass(frozen=True, slots=True)
class ExaminedPiece:
    """An exhibit with the pieces and sections taken from it."""

    exhibit: Exhibit
    specimens: tuple[Specimen, ...]
    sections: tuple[Section, ...]


@dataclass(frozen=True, slots=True)
class Finding:
    """A measurement as a reader meets it."""

    measurement: Measurement
    sentence: str
    rows: tuple[tuple[str, str], ...]
    bears_on: tuple[str, ...]
    does_not_bear_on: tuple[str, ...]
    flags: tuple[FlagDefinition, ...]
    figure: Markup | None
    caption: str
    synthetic: bool


@dataclass(frozen=True, slots=True)
class CoverageRow:
    """What was done about one kind that a claim speaks of."""

    claim: Claim
    kind: str
    readings: tuple[str, ...]
    tested_by: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class CaseReport:
    """Everything that one report says.

    Parameters
    ----------
    case : Case
        The case's own record.
    head : str
        Hash of the last entry.
    entries : int
        Number of entries.
    made_at : datetime
        When the report was made.
    program : str
        Name and version of the program that made it.
    claims, pieces, findings, coverage : tuple
        Contents of the sections.
    not_shown : tuple of str
        What the case does not show, in sentences.
    """

    case: Case
    head: str
    entries: int
    made_at: datetime
    program: str
    claims: tuple[SaidClaim, ...]
    pieces: tuple[ExaminedPiece, ...]
    findings: tuple[Finding, ...]
    coverage: tuple[CoverageRow, ...]
    not_shown: tuple[str, ...]

    @property
    def synthetic(self) -> bool:
        """True when a finding rests on a picture drawn by a program."""
        return any(finding.synthetic for finding in self.findings)


def case_report(
    state: CaseState,
    *,
    pictures: Mapping[str, MicrographPicture],
    made_at: datetime,
    program: str,
) -> CaseReport:
    """Gather what a report on a case says.

    Parameters
    ----------
    state : CaseState
        State of the case.
    pictures : mapping of str to MicrographPicture
        Reduced copies of the micrographs, by short name.
    made_at : datetime
        Now.
    program : str
        Name and version of this program.

    Returns
    -------
    CaseReport
        For the page or the paper.
    """
    measurements = state.records(Measurement)
    coverage = _coverage(state, measurements)
    return CaseReport(
        case=state.case,
        head=state.head,
        entries=len(state.entries),
        made_at=made_at,
        program=program,
        claims=tuple(_said(state, claim) for claim in state.records(Claim)),
        pieces=tuple(_piece(state, exhibit) for exhibit in state.records(Exhibit)),
        findings=tuple(_finding(state, item, pictures) for item in measurements),
        coverage=coverage,
        not_shown=_not_shown(state, coverage),
    )


def _said(state: CaseState, claim: Claim) -> SaidClaim:
    return SaidClaim(
        claim,
        tuple(KIND_WORDS[kind] for kind in claim.kinds),
        tuple(state.record(Capture, label) for label in claim.captures),
    )


def _piece(state: CaseState, exhibit: Exhibit) -> ExaminedPiece:
    specimens = tuple(s for s in state.records(Specimen) if s.exhibit == exhibit.id)
    labels = {specimen.id for specimen in specimens}
    sections = tuple(s for s in state.records(Section) if s.specimen in labels)
    return ExaminedPiece(exhibit, specimens, sections)


def _finding(
    state: CaseState,
    measurement: Measurement,
    pictures: Mapping[str, MicrographPicture],
) -> Finding:
    kind, _, label = measurement.measures.partition("/")
    micrograph = state.record(Micrograph, label) if kind == "micrograph" else None
    figure, caption = None, ""
    if micrograph is not None and micrograph.id in pictures:
        figure, caption = _figure(state, micrograph, pictures[micrograph.id])
    return Finding(
        measurement=measurement,
        sentence=_sentence(state, measurement, micrograph),
        rows=tuple(
            (result_name(r.name), result_in_words(r)) for r in measurement.results
        ),
        bears_on=tuple(KIND_WORDS[kind] for kind in measurement.bears_on),
        does_not_bear_on=tuple(KIND_WORDS[k] for k in measurement.does_not_bear_on),
        flags=tuple(FLAGS[name] for name in measurement.flags if name in FLAGS),
        figure=figure,
        caption=caption,
        synthetic=micrograph is not None and micrograph.synthetic,
    )


def _figure(
    state: CaseState, micrograph: Micrograph, picture: MicrographPicture
) -> tuple[Markup, str]:
    section = state.record(Section, micrograph.section)
    pixel_size = None
    scale = "no calibration: shown, not measured"
    if micrograph.calibration is not None:
        calibration = state.record(Calibration, micrograph.calibration)
        pixel_size = calibration.pixel_size.value
        size = value_in_words(calibration.pixel_size)
        scale = f"pixel size {size} per pixel, {calibration.method}"
    kind = "Synthetic picture" if micrograph.synthetic else "Micrograph"
    parts = [
        f"{kind} {micrograph.id}, {section.direction} section {section.id}",
        *filter(None, (micrograph.field, micrograph.light, micrograph.etch_step)),
        scale,
        f"original {micrograph.file_sha256[:16]}…",
    ]
    mark = f"{micrograph.id} synthetic" if micrograph.synthetic else micrograph.id
    alt = f"{kind} of a {section.direction} section, code {micrograph.id}"
    figure = micrograph_svg(picture, pixel_size_um=pixel_size, alt=alt, mark=mark)
    return figure, "; ".join(parts) + "."


def _sentence(
    state: CaseState, measurement: Measurement, micrograph: Micrograph | None
) -> str:
    where = measurement.measures.replace("/", " ")
    if micrograph is not None:
        section = state.record(Section, micrograph.section)
        specimen = state.record(Specimen, section.specimen)
        where = (
            f"the {section.direction} section {section.id} of specimen {specimen.id}, "
            f"exhibit {specimen.exhibit}, at the place shown"
        )
    said = {result.name: result for result in measurement.results}
    size = said.get("mean_intercept")
    if size is not None and size.value is not None:
        return (
            f"On {where}, the mean lineal intercept between grain boundaries is "
            f"{value_in_words(size.value)}."
        )
    first = measurement.results[0]
    return f"On {where}: {result_name(first.name)}: {result_in_words(first)}"


def _coverage(
    state: CaseState, measurements: tuple[Measurement, ...]
) -> tuple[CoverageRow, ...]:
    return tuple(
        CoverageRow(
            claim,
            KIND_WORDS[kind],
            tuple(r.words for r in claim.readings if r.kind is kind),
            tuple(m.id for m in measurements if kind in m.bears_on),
        )
        for claim in state.records(Claim)
        for kind in claim.kinds
    )


def _not_shown(state: CaseState, coverage: tuple[CoverageRow, ...]) -> tuple[str, ...]:
    sentences = [
        f"{row.claim.id}, {row.kind}: tested by nothing in this case."
        for row in coverage
        if not row.tested_by
    ]
    claimed = {kind for claim in state.records(Claim) for kind in claim.kinds}
    tested = {kind for m in state.records(Measurement) for kind in m.bears_on}
    sentences += [
        f"{KIND_WORDS[kind].capitalize()}: not claimed here, and not tested."
        for kind in ClaimKind
        if kind not in claimed | tested
    ]
    exhibits = len(state.records(Exhibit))
    piece = "One exhibit" if exhibits == 1 else f"{exhibits} exhibits"
    sentences.append(
        f"{piece} cannot speak for a product; every number holds for the pieces and "
        "places examined only."
    )
    if not state.records(Weighing):
        sentences.append(_NOT_WEIGHED)
    sentences.append(
        "What anybody intended, and whether a difference could be heard, is not "
        "examined here."
    )
    return tuple(sentences)
