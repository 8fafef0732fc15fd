"""Sections of a report on what was said where, how pieces came, how they are built."""

from dataclasses import dataclass

from strandproof.records.case_facts.captures import changes_at
from strandproof.records.case_facts.claim_grid import (
    ClaimGrid,
    GridRow,
    Said,
    claim_grid,
    said_nowhere,
)
from strandproof.records.case_facts.interests import cost_sums
from strandproof.records.case_facts.own_words import own_words_due
from strandproof.records.case_facts.places import Place
from strandproof.records.case_facts.portions import ExhibitPortions
from strandproof.records.case_facts.purchase_match import (
    piece_in_words,
    purchase_match,
)
from strandproof.records.case_state import CaseState
from strandproof.records.entries import Claim, Exhibit
from strandproof.report.build_table import (
    BuildRow,
    build_rows,
    not_tested,
    target_sentences,
)
from strandproof.report.portion_words import (
    all_portions,
    balance_in_words,
    usual_tolerances,
)
from strandproof.report.wording import as_sentence


@dataclass(frozen=True, slots=True)
class SaidWhere:
    """The claim grid, ready to be set as a table.

    Parameters
    ----------
    columns : tuple of str
        Names of the places; the medium alone where that is enough.
    rows : tuple of tuple of str
        Claim and wording, then one cell for each place.
    sentences : tuple of str
        Who says what nowhere, what changed when, own words with a correction due.
    """

    columns: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    sentences: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ReceivedPieces:
    """How the pieces came, whether they match, what they were split into.

    Parameters
    ----------
    pieces : tuple of (str, tuple of str)
        How a piece came; then mismatches, balances, what is missing.
    """

    pieces: tuple[tuple[str, tuple[str, ...]], ...]


@dataclass(frozen=True, slots=True)
class BuiltPieces:
    """The build table and what was tested on each conductor type.

    Parameters
    ----------
    rows : tuple of BuildRow
        Layers and conductor types.
    targets : tuple of str
        One sentence for each conductor type.
    not_tested : tuple of str
        What no test of the case touches.
    """

    rows: tuple[BuildRow, ...]
    targets: tuple[str, ...]
    not_tested: tuple[str, ...]


def said_where(state: CaseState) -> SaidWhere:
    """Set out the claim grid with the sentences that follow from it.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    SaidWhere
        Every cell is "said", "not said" with its day, or "not looked at".
    """
    grid = claim_grid(state)
    return SaidWhere(
        _columns(grid),
        tuple(_row(row) for row in grid.rows),
        (
            *said_nowhere(grid),
            *(change.words for change in changes_at(state)),
            *(due.words for due in own_words_due(state)),
        ),
    )


def places_without(state: CaseState, claim: Claim, said: Said) -> tuple[str, ...]:
    """Name the captured places at which every wording of a claim has one state.

    Parameters
    ----------
    state : CaseState
        State of the case.
    claim : Claim
        The claim.
    said : Said
        Not said, or not looked at.

    Returns
    -------
    tuple of str
        Names of places.
    """
    rows = [row for row in claim_grid(state).rows if row.claim == claim]
    return tuple(
        cells[0].place.name
        for cells in zip(*(row.cells for row in rows), strict=True)
        if cells[0].place.captures and all(cell.said is said for cell in cells)
    )


def received_pieces(state: CaseState) -> ReceivedPieces:
    """Say how each piece came, what does not match, and whether its parts add up.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    ReceivedPieces
        Pieces without a purchase, such as controls, are left out.
    """
    parted = {each.exhibit.id: each for each in all_portions(state, usual_tolerances())}
    return ReceivedPieces(
        tuple(
            (
                piece_in_words(state, piece.id),
                (*_mismatches(state, piece), *_parts(parted[piece.id])),
            )
            for piece in state.records(Exhibit)
            if piece.purchase is not None
        )
    )


def built_pieces(state: CaseState) -> BuiltPieces:
    """Set out build and targets.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    BuiltPieces
        Empty rows where no build was entered.
    """
    rows = build_rows(state)
    return BuiltPieces(
        rows,
        target_sentences(state),
        not_tested(state) if rows else (),
    )


def cost_total(state: CaseState) -> str:
    """Say what the case took in all.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    str
        For example ``"594.90 EUR, 31 hours"``; empty where nothing was entered.
    """
    sums = cost_sums(state)
    parts = [f"{amount:.2f} {currency}".rstrip() for currency, amount in sums.money]
    if sums.hours:
        parts.append(f"{sums.hours:g} hours")
    return ", ".join(parts)


def _columns(grid: ClaimGrid) -> tuple[str, ...]:
    media = [place.medium.casefold() for place in grid.places]
    return tuple(
        _with_role(place, place.medium)
        if media.count(place.medium.casefold()) == 1
        else _with_role(place, place.name)
        for place in grid.places
    )


def _with_role(place: Place, name: str) -> str:
    roles = ", ".join(role.value for role in place.roles)
    return f"{name} ({roles})" if roles else name


def _row(row: GridRow) -> tuple[str, ...]:
    return (
        f"{row.claim.id}: “{row.wording}”",
        *(cell.words for cell in row.cells),
    )


def _parts(parted: ExhibitPortions) -> list[str]:
    balances = [parted.length, *([parted.mass] if parted.portions else [])]
    words = [as_sentence(balance_in_words(each)) for each in balances]
    return [*words, *parted.missing]


def _mismatches(state: CaseState, piece: Exhibit) -> list[str]:
    """Give what differs, claims with the same difference together."""
    found: dict[str, list[str]] = {}
    for claim in state.records(Claim):
        for each in purchase_match(state, piece.id, claim.id).mismatches:
            found.setdefault(each.words, []).append(claim.id)
    return [
        f"Mismatch with {', '.join(claims)}: {words}" for words, claims in found.items()
    ]
