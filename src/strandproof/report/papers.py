"""Papers offered in a case: what they bear on, and which claims stay unsupported."""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from strandproof.composition import (
    JudgedDocument,
    claim_and_papers,
    judge_document,
    paper_kinds,
)
from strandproof.records.case_state import CaseState
from strandproof.records.entries import Claim, Document, Exhibit

_NOT_JUDGED = (
    "Not judged: its kind of paper was not entered, or is none of the grid of papers."
)


@dataclass(frozen=True, slots=True)
class OfferedPaper:
    """A paper as the report shows it.

    Parameters
    ----------
    document : Document
        Its record.
    paragraph : str
        What it bears on and what not.
    rows : tuple of (str, str)
        Ability and reason, one for each kind of claim.
    """

    document: Document
    paragraph: str
    rows: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class PapersSection:
    """The section on papers.

    Parameters
    ----------
    papers : tuple of OfferedPaper
        Papers in the order of the entries; one of unknown kind is not judged.
    on_claims : tuple of str
        What they leave unsupported, one sentence for each claim.
    """

    papers: tuple[OfferedPaper, ...]
    on_claims: tuple[str, ...]


def papers_section(state: CaseState) -> PapersSection:
    """Draw up the section on papers.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    PapersSection
        Empty where no paper was entered.
    """
    judged = {paper.document.id: paper for paper in judged_papers(state)}
    return PapersSection(
        tuple(
            _offered(judged[document.id])
            if document.id in judged
            else OfferedPaper(document, _NOT_JUDGED, ())
            for document in state.records(Document)
        ),
        tuple(papers_on_claims(state).values()),
    )


def judged_papers(state: CaseState) -> tuple[JudgedDocument, ...]:
    """Judge every paper of a case whose kind is in the grid.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    tuple of JudgedDocument
        In the order of the entries.
    """
    marks = tuple(each.lot_mark for each in state.records(Exhibit))
    return tuple(
        judge_document(document, marks)
        for document in state.records(Document)
        if document.paper_kind in paper_kinds()
    )


def papers_on_claims(state: CaseState) -> Mapping[str, str]:
    """Say for each claim with a paper what stays unsupported.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    mapping of str to str
        Sentences by short name of the claim.
    """
    judged = judged_papers(state)
    found = {}
    for claim in state.records(Claim):
        papers = [one for one in judged if claim.id in one.document.offered_for]
        if papers:
            found[claim.id] = claim_and_papers(claim, papers)
    return MappingProxyType(found)


def _offered(paper: JudgedDocument) -> OfferedPaper:
    rows = tuple((each.sentence, each.ability) for each in paper.verdicts)
    return OfferedPaper(paper.document, paper.paragraph, rows)
