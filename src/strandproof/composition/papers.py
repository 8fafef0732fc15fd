"""What a paper can bear on: the grid of papers and kinds of claim, as data."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from strandproof.errors import ParameterError
from strandproof.records.entries import ClaimKind
from strandproof.tables import TableRow, package_table

Ability = Literal["can bear", "cannot bear", "only if lot-linked", "states it"]

_ABILITIES: tuple[Ability, ...] = (
    "cannot bear",
    "states it",
    "only if lot-linked",
    "can bear",
)
_KIND_WORDS = {
    ClaimKind.COMPOSITION: "composition",
    ClaimKind.OXYGEN: "oxygen",
    ClaimKind.CASTING_ROUTE: "casting route",
    ClaimKind.CRYSTAL_STATE: "crystal state",
    ClaimKind.BUILD: "build",
    ClaimKind.PERFORMANCE: "performance",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class PaperVerdict:
    """What one paper can do for one kind of claim.

    Parameters
    ----------
    paper : str
        Key of the paper, for example ``"mill_certificate"``.
    kind : ClaimKind
        Kind of claim.
    ability : Ability
        What it can do, given the link between its lot and the exhibit's.
    reason : str
        Why, in words.
    sentence : str
        The same for a reader.
    """

    paper: str
    kind: ClaimKind
    ability: Ability
    reason: str
    sentence: str


def paper_kinds(table: Mapping[str, TableRow] | None = None) -> tuple[str, ...]:
    """Give the kinds of paper of the grid.

    Parameters
    ----------
    table : Mapping from str to TableRow, optional
        Rows as in ``paper_adequacy``; None takes the package's table.

    Returns
    -------
    tuple of str
        Keys, for example ``"mill_certificate"``.
    """
    return tuple(
        key.removesuffix(".title") for key in _rows(table) if key.endswith(".title")
    )


def paper_title(paper: str, *, table: Mapping[str, TableRow] | None = None) -> str:
    """Give a kind of paper in words.

    Parameters
    ----------
    paper : str
        Key of the paper.
    table : Mapping from str to TableRow, optional
        Rows as in ``paper_adequacy``; None takes the package's table.

    Returns
    -------
    str
        For example ``"mill certificate for rod"``.
    """
    return _rows(table)[f"{_known(paper, table)}.title"].conditions


def paper_adequacy(
    paper: str,
    claim_kind: ClaimKind,
    *,
    lot_linked: bool | None,
    table: Mapping[str, TableRow] | None = None,
) -> PaperVerdict:
    """Judge what a paper can do for a kind of claim.

    It judges the kind of paper, not whether it is genuine, and not whether its numbers
    hold.

    Parameters
    ----------
    paper : str
        Key of the paper, see `paper_kinds`.
    claim_kind : ClaimKind
        Kind of claim that it is offered for.
    lot_linked : bool or None
        Whether its lot is linked to an exhibit's; None where nobody knows, which
        counts as not linked.
    table : Mapping from str to TableRow, optional
        Rows as in ``paper_adequacy``; None takes the package's table.

    Returns
    -------
    PaperVerdict
        Ability, reason, sentence.

    Raises
    ------
    ParameterError
        If the grid has no such paper.

    Notes
    -----
    The grid is this project's judgement; no standard gives it.

    Examples
    --------
    >>> paper = "mill_certificate"
    >>> paper_adequacy(paper, ClaimKind.CRYSTAL_STATE, lot_linked=True).ability
    'cannot bear'
    >>> paper_adequacy(paper, ClaimKind.COMPOSITION, lot_linked=None).ability
    'only if lot-linked'
    """
    row = _rows(table)[f"{_known(paper, table)}.{claim_kind.value}"]
    ability = _ABILITIES[int(row.value)]
    if ability == "only if lot-linked" and lot_linked:
        ability = "can bear"
    title = paper_title(paper, table=table)
    words = _KIND_WORDS[claim_kind]
    sentence = f"{title[0].upper()}{title[1:]}, {words}: {ability}; {row.conditions}."
    return PaperVerdict(
        paper=paper,
        kind=claim_kind,
        ability=ability,
        reason=row.conditions,
        sentence=sentence,
    )


def adequacy_grid(
    table: Mapping[str, TableRow] | None = None,
) -> tuple[tuple[PaperVerdict, ...], ...]:
    """Give the whole grid, with no lot linked.

    Parameters
    ----------
    table : Mapping from str to TableRow, optional
        Rows as in ``paper_adequacy``; None takes the package's table.

    Returns
    -------
    tuple of tuple of PaperVerdict
        One row for each kind of paper, one cell for each kind of claim.
    """
    return tuple(
        tuple(
            paper_adequacy(paper, kind, lot_linked=None, table=table)
            for kind in ClaimKind
        )
        for paper in paper_kinds(table)
    )


def kind_words(kind: ClaimKind) -> str:
    """Give a kind of claim in words.

    Parameters
    ----------
    kind : ClaimKind
        The kind.

    Returns
    -------
    str
        For example ``"crystal state"``.
    """
    return _KIND_WORDS[kind]


def _rows(table: Mapping[str, TableRow] | None) -> Mapping[str, TableRow]:
    return package_table("paper_adequacy") if table is None else table


def _known(paper: str, table: Mapping[str, TableRow] | None) -> str:
    kinds = paper_kinds(table)
    if paper not in kinds:
        raise ParameterError("kind of paper", paper, allowed=", ".join(kinds))
    return paper
