"""The use cases that judge papers: of a case, by their kind, and the whole grid."""

from collections.abc import Sequence
from pathlib import Path
from typing import Any

from strandproof.app.workflow.entering import open_case
from strandproof.composition import (
    JudgedDocument,
    adequacy_grid,
    kind_words,
    paper_adequacy,
    paper_title,
)
from strandproof.errors import ParameterError
from strandproof.records.entries import ClaimKind
from strandproof.report.papers import judged_papers, papers_on_claims


def papers_of_case(
    folder: Path, *, document: str | None = None
) -> tuple[JudgedDocument, ...]:
    """Judge the papers of a case.

    Parameters
    ----------
    folder : Path
        Folder of the case.
    document : str, optional
        One paper only.

    Returns
    -------
    tuple of JudgedDocument
        In the order of the entries.

    Raises
    ------
    ParameterError
        If the case has no such paper, or none whose kind is known.
    """
    judged = judged_papers(open_case(folder))
    chosen = tuple(one for one in judged if document in {None, one.document.id})
    if not chosen:
        raise ParameterError(
            "paper",
            document,
            allowed=", ".join(one.document.id for one in judged)
            or "a document entered with its kind of paper",
        )
    return chosen


def case_papers_in_words(
    folder: Path, papers: Sequence[JudgedDocument], *, claim: str | None = None
) -> tuple[str, ...]:
    """Say what the papers of a case bear on, and which claims stay unsupported.

    Parameters
    ----------
    folder : Path
        Folder of the case.
    papers : sequence of JudgedDocument
        From `papers_of_case`.
    claim : str, optional
        One claim only.

    Returns
    -------
    tuple of str
        Lines for people.

    Raises
    ------
    ParameterError
        If no paper is offered for the claim.
    """
    lines: list[str] = []
    for paper in papers:
        lines.append(f"{paper.document.id}: {paper.paragraph}")
        lines += [f"  {verdict.sentence}" for verdict in paper.verdicts]
    on_claims = papers_on_claims(open_case(folder))
    if claim is not None and claim not in on_claims:
        raise ParameterError(
            "claim",
            claim,
            allowed=", ".join(on_claims) or "a claim that a paper was offered for",
        )
    shown = on_claims if claim is None else {claim: on_claims[claim]}
    return (*lines, *shown.values())


def grid_in_words() -> tuple[str, ...]:
    """Say the whole grid of papers and kinds of claim.

    Returns
    -------
    tuple of str
        One paragraph for each kind of paper.
    """
    lines: list[str] = []
    for row in adequacy_grid():
        paper = row[0].paper
        lines.append(f"{paper} ({paper_title(paper)}):")
        lines += [
            f"  {kind_words(each.kind)}: {each.ability}; {each.reason}." for each in row
        ]
    return tuple(lines)


def kind_of_paper_in_words(
    paper: str, kinds: Sequence[str], *, lot_linked: bool | None
) -> tuple[str, ...]:
    """Say what a kind of paper can do, without a case.

    Parameters
    ----------
    paper : str
        Kind of paper.
    kinds : sequence of str
        Kinds of claim; none for all.
    lot_linked : bool or None
        Whether its lot is linked to the exhibit's.

    Returns
    -------
    tuple of str
        One sentence for each kind of claim.

    Raises
    ------
    ParameterError
        If a kind is not known.
    """
    known = [kind.value for kind in ClaimKind]
    for kind in kinds:
        if kind not in known:
            raise ParameterError("kind of claim", kind, allowed=", ".join(known))
    return tuple(
        paper_adequacy(paper, ClaimKind(kind), lot_linked=lot_linked).sentence
        for kind in (kinds or known)
    )


def grid_data() -> list[dict[str, Any]]:
    """Give the grid as plain data.

    Returns
    -------
    list of dict
        Paper, kind, ability and reason of each cell.
    """
    return [
        {
            "paper": each.paper,
            "kind": each.kind.value,
            "ability": each.ability,
            "reason": each.reason,
        }
        for row in adequacy_grid()
        for each in row
    ]


def papers_data(papers: Sequence[JudgedDocument]) -> list[dict[str, Any]]:
    """Give judged papers as plain data.

    Parameters
    ----------
    papers : sequence of JudgedDocument
        From `papers_of_case`.

    Returns
    -------
    list of dict
        JSON data.
    """
    return [
        {
            "document": paper.document.id,
            "lot_linked": paper.lot_linked,
            "sentences": list(paper.sentences),
            "verdicts": {
                each.kind.value: {"ability": each.ability, "reason": each.reason}
                for each in paper.verdicts
            },
        }
        for paper in papers
    ]
