"""What one paper of a case says and does not say, in the sentences of a report."""

from collections.abc import Iterable
from dataclasses import dataclass

from strandproof.composition.papers import (
    PaperVerdict,
    kind_words,
    paper_adequacy,
    paper_title,
)
from strandproof.errors import MissingMeasurementError
from strandproof.records.entries import Claim, ClaimKind, Document

_ANALYSES = frozenset({"purity_certificate", "mill_certificate"})


@dataclass(frozen=True, slots=True, kw_only=True)
class JudgedDocument:
    """A paper of a case and what it can do.

    Parameters
    ----------
    document : Document
        As entered.
    lot_linked : bool
        True where its lot is that of an exhibit.
    verdicts : tuple of PaperVerdict
        One for each kind of claim.
    sentences : tuple of str
        What it bears on, cannot bear on, whether it is linked, what it lacks.
    """

    document: Document
    lot_linked: bool
    verdicts: tuple[PaperVerdict, ...]
    sentences: tuple[str, ...]

    @property
    def paragraph(self) -> str:
        """The sentences as one paragraph."""
        return " ".join(self.sentences)

    def verdict(self, kind: ClaimKind) -> PaperVerdict:
        """Give the verdict for a kind of claim.

        Parameters
        ----------
        kind : ClaimKind
            The kind.

        Returns
        -------
        PaperVerdict
            Its verdict.
        """
        return next(one for one in self.verdicts if one.kind is kind)


def judge_document(document: Document, lot_marks: Iterable[str]) -> JudgedDocument:
    """Judge a paper of a case by the grid, its lot and its list of elements.

    Parameters
    ----------
    document : Document
        With its kind of paper.
    lot_marks : iterable of str
        Lot marks of the exhibits; empty ones are not compared.

    Returns
    -------
    JudgedDocument
        Verdicts and sentences.

    Raises
    ------
    MissingMeasurementError
        If the document has no kind of paper.
    ParameterError
        If the grid has no such kind.

    Examples
    --------
    >>> paper = Document(
    ...     id="mill", title="mill certificate", issuer="a mill", item="8 mm rod",
    ...     lot="heat 77-B", paper_kind="mill_certificate", elements=("Fe", "Ag"))
    >>> print(judge_document(paper, ("3107",)).paragraph)
    Bears on composition of an 8 mm rod, heat 77-B, 2 elements. Cannot bear on \
crystal state. Not linked to any exhibit's lot. Oxygen not reported.
    """
    if not document.paper_kind:
        missing = f"The kind of paper of {document.id}"
        raise MissingMeasurementError(
            missing,
            reason="What a paper can bear on goes by what it is.",
            remedy="Enter it with its kind, for example mill_certificate.",
        )
    linked = bool(document.lot) and document.lot in {mark for mark in lot_marks if mark}
    verdicts = tuple(
        paper_adequacy(document.paper_kind, kind, lot_linked=linked)
        for kind in ClaimKind
    )
    return JudgedDocument(
        document=document,
        lot_linked=linked,
        verdicts=verdicts,
        sentences=tuple(_sentences(document, verdicts, linked=linked)),
    )


def unsupported_kinds(
    claim: Claim, papers: Iterable[JudgedDocument]
) -> tuple[ClaimKind, ...]:
    """Give the kinds of a claim that no paper offered can bear on.

    Parameters
    ----------
    claim : Claim
        The claim.
    papers : iterable of JudgedDocument
        Papers offered for it.

    Returns
    -------
    tuple of ClaimKind
        Kinds without a paper that can bear on them for the exhibits.
    """
    judged = tuple(papers)
    return tuple(
        kind
        for kind in claim.kinds
        if not any(_supports(paper, kind) for paper in judged)
    )


def claim_and_papers(claim: Claim, papers: Iterable[JudgedDocument]) -> str:
    """Say whether papers bear on a claim.

    Parameters
    ----------
    claim : Claim
        The claim.
    papers : iterable of JudgedDocument
        Papers offered for it.

    Returns
    -------
    str
        For example ``"K2, “4N7 copper”: composition unsupported by papers."``
    """
    bare = unsupported_kinds(claim, papers)
    quoted = f"{claim.id}, “{claim.words}”"
    if not bare:
        return f"{quoted}: a paper bears on each kind of it; it still has to be read."
    return f"{quoted}: {' and '.join(map(kind_words, bare))} unsupported by papers."


def _sentences(
    document: Document, verdicts: tuple[PaperVerdict, ...], *, linked: bool
) -> list[str]:
    bears = [one.kind for one in verdicts if _bears(one, document)]
    states = [one.kind for one in verdicts if one.ability == "states it"]
    found = []
    if bears:
        found.append(f"Bears on {_listed(bears)} of {_item(document)}.")
    if states:
        found.append(f"States {_listed(states)}: a claim, not evidence.")
    if not bears and not states:
        found.append(f"A {paper_title(document.paper_kind)} bears on nothing claimed.")
    # The crystal state is always named: papers on elements are taken for it most.
    if ClaimKind.CRYSTAL_STATE not in {*bears, *states}:
        found.append("Cannot bear on crystal state.")
    if not linked:
        found.append("Not linked to any exhibit's lot.")
    if document.paper_kind in _ANALYSES and "O" not in document.elements:
        found.append("Oxygen not reported.")
    return found


def _supports(paper: JudgedDocument, kind: ClaimKind) -> bool:
    verdict = paper.verdict(kind)
    return verdict.ability == "can bear" and _bears(verdict, paper.document)


def _bears(verdict: PaperVerdict, document: Document) -> bool:
    """Say whether it bears on its own item, whether or not the lot is linked."""
    if verdict.ability not in {"can bear", "only if lot-linked"}:
        return False
    if verdict.kind is ClaimKind.OXYGEN and document.paper_kind in _ANALYSES:
        return "O" in document.elements
    # A mill certificate speaks of the casting only where it states it.
    conditional = verdict.reason.startswith("only if it states")
    return not conditional or verdict.kind in document.bears_on


def _item(document: Document) -> str:
    parts = [_with_article(document.item or "an item not named")]
    if document.lot:
        parts.append(document.lot)
    if document.elements:
        count = len(document.elements)
        parts.append(f"{count} element{'' if count == 1 else 's'}")
    return ", ".join(parts)


def _with_article(item: str) -> str:
    if item.startswith(("a ", "an ", "the ")):
        return item
    # "an 8 mm rod", "an 18 mm rod", "an 11 mm rod": as they are spoken.
    spoken_vowel = item[0].lower() in "aeio8" or item.startswith(("11 ", "18 "))
    return f"{'an' if spoken_vowel else 'a'} {item}"


def _listed(kinds: list[ClaimKind]) -> str:
    return ", ".join(map(kind_words, kinds))
