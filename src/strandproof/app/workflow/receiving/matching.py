"""How the pieces were obtained beside what is claimed, in lines and as data."""

from typing import Any

from strandproof.records.case_facts.purchase_match import (
    Match,
    PurchaseMatch,
    may_speak_for_product,
    piece_in_words,
    provenance_in_words,
    purchase_match,
)
from strandproof.records.case_state import CaseState
from strandproof.records.entries import Claim, Exhibit

__all__ = [
    "all_matches",
    "match_data",
    "match_in_words",
    "may_speak_for_product",
    "piece_in_words",
    "provenance_in_words",
]


def all_matches(
    state: CaseState, *, exhibit: str | None = None, claim: str | None = None
) -> tuple[PurchaseMatch, ...]:
    """Set every piece that was obtained beside every claim.

    Parameters
    ----------
    state : CaseState
        State of the case.
    exhibit, claim : str or None
        One of them only.

    Returns
    -------
    tuple of PurchaseMatch
        Pieces without a purchase, such as controls, only when asked for by name.

    Raises
    ------
    UnknownLabelError
        If the case has no such exhibit or claim.
    """
    pieces = (
        [each.id for each in state.records(Exhibit) if each.purchase]
        if exhibit is None
        else [exhibit]
    )
    claims = [each.id for each in state.records(Claim)] if claim is None else [claim]
    return tuple(
        purchase_match(state, piece, words) for piece in pieces for words in claims
    )


def match_in_words(
    state: CaseState, matches: tuple[PurchaseMatch, ...]
) -> tuple[str, ...]:
    """Say how each piece came, then every aspect that does not match.

    Parameters
    ----------
    state : CaseState
        State of the case.
    matches : tuple of PurchaseMatch
        From `all_matches`.

    Returns
    -------
    tuple of str
        Lines for people; what was not recorded is named, too.
    """
    lines: list[str] = []
    for piece in dict.fromkeys(match.exhibit.id for match in matches):
        lines.append(piece_in_words(state, piece))
        for match in matches:
            if match.exhibit.id == piece:
                lines += _match_lines(match)
    return tuple(lines or ["No piece with a purchase, or no claim, is entered yet."])


def match_data(
    state: CaseState, matches: tuple[PurchaseMatch, ...]
) -> list[dict[str, Any]]:
    """Give the matches as JSON data.

    Parameters
    ----------
    state : CaseState
        State of the case.
    matches : tuple of PurchaseMatch
        From `all_matches`.

    Returns
    -------
    list of dict
        One for each piece and claim.
    """
    return [
        {
            "exhibit": match.exhibit.id,
            "claim": match.claim.id,
            "provenance": provenance_in_words(state, match.exhibit.id),
            "may_not_speak_for_product": list(
                may_speak_for_product(state, (match.exhibit.id,))
            ),
            "aspects": [
                {
                    "aspect": each.aspect,
                    "claimed": each.claimed,
                    "obtained": each.obtained,
                    "match": each.match.value,
                }
                for each in match.aspects
            ],
        }
        for match in matches
    ]


def _match_lines(match: PurchaseMatch) -> list[str]:
    head = f"{match.exhibit.id} beside {match.claim.id}"
    lines = [f"{head}, mismatch: {each.words}" for each in match.mismatches]
    same = [each.aspect for each in match.aspects if each.match is Match.MATCHES]
    blank = [each.aspect for each in match.aspects if each.match is Match.NOT_RECORDED]
    lines.append(
        f"{head}: matches in {', '.join(same) or 'nothing'}"
        + (f"; not recorded: {', '.join(blank)}." if blank else ".")
    )
    return lines
