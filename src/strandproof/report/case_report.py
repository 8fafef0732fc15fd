"""What a report says, drawn from the records of a case: no markup, no disk."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime

from strandproof.records.case_facts.claim_grid import Said
from strandproof.records.case_facts.interests import disclosure_paragraph
from strandproof.records.case_state import CaseState
from strandproof.records.entries import (
    Capture,
    Case,
    Claim,
    Cost,
    Disclosure,
    Exhibit,
    HandlingEvent,
    HandOver,
    Micrograph,
    OwnStatement,
    PreparationStep,
    Section,
    Specimen,
)
from strandproof.report.answer import Answer, answer_in_five_sentences
from strandproof.report.figures import (
    Drawing,
    Figure,
    MicrographPicture,
    micrograph_figures,
)
from strandproof.report.findings import Finding, ThirdReading, findings, third_readings
from strandproof.report.keeping import KeepingSection, keeping_section
from strandproof.report.not_shown import CoverageRow, coverage, not_shown
from strandproof.report.papers import PapersSection, papers_section
from strandproof.report.plan import PlanSection, plan_section
from strandproof.report.received import (
    BuiltPieces,
    ReceivedPieces,
    SaidWhere,
    built_pieces,
    cost_total,
    places_without,
    received_pieces,
    said_where,
)
from strandproof.report.weighings import WeighedClaim, weighed_claims
from strandproof.report.wording import KIND_WORDS


@dataclass(frozen=True, slots=True)
class SaidClaim:
    """A claim with the copies that show it, and where it was not said."""

    claim: Claim
    kinds: tuple[str, ...]
    captures: tuple[Capture, ...]
    not_said: tuple[str, ...]
    not_looked_at: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ExaminedPiece:
    """An exhibit with the pieces and sections taken from it."""

    exhibit: Exhibit
    specimens: tuple[Specimen, ...]
    sections: tuple[Section, ...]


@dataclass(frozen=True, slots=True)
class Custody:
    """What happened to the pieces in our hands."""

    hand_overs: tuple[HandOver, ...]
    handling: tuple[HandlingEvent, ...]
    preparation: tuple[PreparationStep, ...]


@dataclass(frozen=True, slots=True)
class Interests:
    """What the tester declares about himself."""

    disclosures: tuple[Disclosure, ...]
    own_statements: tuple[OwnStatement, ...]
    costs: tuple[Cost, ...]


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
    synthetic : bool
        True when pictures of the case were drawn by a program.
    answer : Answer
        The answer in five sentences.
    interests : Interests
        What the tester declares.
    disclosure : str
        The same as the first paragraph.
    cost_total : str
        What the case took in all.
    said_where : SaidWhere
        The claim grid.
    received : ReceivedPieces
        How the pieces came and were split.
    built : BuiltPieces
        How they are built, and what is tested on each conductor type.
    claims, pieces, findings, third_readings, figures, coverage, weighed : tuple
        Contents of the sections.
    custody : Custody
        What happened to the pieces.
    keeping : KeepingSection
        Gaps, ledger, preparation and controls, told.
    plan : PlanSection
        The locked plan, later changes, every field, blinding.
    papers : PapersSection
        Papers offered, and what they leave unsupported.
    open_points : tuple of str
        What has to be settled before the numbers can be relied on, in sentences.
    not_shown : tuple of str
        What the case does not show, in sentences.
    """

    case: Case
    head: str
    entries: int
    made_at: datetime
    program: str
    synthetic: bool
    answer: Answer
    interests: Interests
    disclosure: str
    cost_total: str
    said_where: SaidWhere
    received: ReceivedPieces
    built: BuiltPieces
    claims: tuple[SaidClaim, ...]
    pieces: tuple[ExaminedPiece, ...]
    custody: Custody
    keeping: KeepingSection
    plan: PlanSection
    papers: PapersSection
    findings: tuple[Finding, ...]
    third_readings: tuple[ThirdReading, ...]
    figures: tuple[Figure, ...]
    coverage: tuple[CoverageRow, ...]
    weighed: tuple[WeighedClaim, ...]
    open_points: tuple[str, ...]
    not_shown: tuple[str, ...]


def case_report(
    state: CaseState,
    *,
    pictures: Mapping[str, MicrographPicture],
    made_at: datetime,
    program: str,
    drawings: Mapping[str, Drawing] | None = None,
    open_points: Sequence[str] = (),
) -> CaseReport:
    """Gather what a report on a case says.

    Parameters
    ----------
    state : CaseState
        State of the case.
    pictures : mapping of str to MicrographPicture
        Reduced copies of the micrographs, by short name.
    made_at : datetime
        Now, with its time zone; reports show it in UTC.
    program : str
        Name and version of this program.
    drawings : mapping of str to Drawing, optional
        Drawings of numbers, by short name of the measurement.
    open_points : sequence of str
        What has to be settled before the numbers can be relied on.

    Returns
    -------
    CaseReport
        For the page or the paper.
    """
    figures = micrograph_figures(state, pictures)
    return CaseReport(
        case=state.case,
        head=state.head,
        entries=len(state.entries),
        made_at=made_at.astimezone(UTC),
        program=program,
        synthetic=any(each.synthetic for each in state.records(Micrograph)),
        answer=answer_in_five_sentences(state),
        interests=Interests(
            state.records(Disclosure), state.records(OwnStatement), state.records(Cost)
        ),
        disclosure=disclosure_paragraph(state),
        cost_total=cost_total(state),
        said_where=said_where(state),
        received=received_pieces(state),
        built=built_pieces(state),
        claims=tuple(_said(state, claim) for claim in state.records(Claim)),
        pieces=tuple(_piece(state, exhibit) for exhibit in state.records(Exhibit)),
        keeping=keeping_section(state),
        plan=plan_section(state),
        custody=Custody(
            state.records(HandOver),
            state.records(HandlingEvent),
            state.records(PreparationStep),
        ),
        papers=papers_section(state),
        findings=findings(state, figures, drawings),
        third_readings=third_readings(state),
        figures=figures,
        coverage=coverage(state),
        weighed=weighed_claims(state),
        open_points=tuple(open_points),
        not_shown=not_shown(state),
    )


def _said(state: CaseState, claim: Claim) -> SaidClaim:
    return SaidClaim(
        claim,
        tuple(KIND_WORDS[kind] for kind in claim.kinds),
        tuple(state.record(Capture, label) for label in claim.captures),
        places_without(state, claim, Said.NOT_SAID),
        places_without(state, claim, Said.NOT_LOOKED_AT),
    )


def _piece(state: CaseState, exhibit: Exhibit) -> ExaminedPiece:
    specimens = tuple(s for s in state.records(Specimen) if s.exhibit == exhibit.id)
    labels = {specimen.id for specimen in specimens}
    sections = tuple(s for s in state.records(Section) if s.specimen in labels)
    return ExaminedPiece(exhibit, specimens, sections)
