"""Use cases of intake and of the split into test, maker's and referee's part."""

from collections.abc import Mapping
from datetime import datetime
from typing import Any

from strandproof.app.workflow.entering import Desk, open_case
from strandproof.errors import ParameterError
from strandproof.records.case_facts.portions import (
    PortionBalance,
    intake_missing,
    keeping_reasons,
    printed_words_not_claimed,
)
from strandproof.records.case_state import CaseState
from strandproof.records.entries import CaseRecord, Entry, Exhibit
from strandproof.records.entries.building import build_body
from strandproof.report import (
    Tolerances,
    all_portions,
    balance_in_words,
    usual_tolerances,
)
from strandproof.storage import Addition

PURPOSES = ("test", "maker", "referee", "waste")
_MM_PER_M = 1000
_THREE_PARTS = PURPOSES[:3]


def tolerances(
    *, length_mm: float | None = None, mass_g: float | None = None
) -> Tolerances:
    """Give the usual tolerances, with what is typed in their place.

    Parameters
    ----------
    length_mm : float or None
        Length [mm], 0 or more; the usual one when None.
    mass_g : float or None
        Mass [g], 0 or more; the usual one when None.

    Returns
    -------
    Tolerances
        For the balances.
    """
    usual = usual_tolerances()
    return Tolerances(
        usual.length_m if length_mm is None else length_mm / _MM_PER_M,
        usual.mass_g if mass_g is None else mass_g,
    )


def split_piece(
    desk: Desk,
    exhibit: str,
    lengths_m: Mapping[str, float],
    *,
    masses_g: Mapping[str, float] | None = None,
) -> tuple[Entry, ...]:
    """Split a piece into test part, maker's part, referee's part and waste.

    Parameters
    ----------
    desk : Desk
        Folder and person.
    exhibit : str
        Short name of the piece.
    lengths_m : mapping of str to float
        Purpose to length [m]: test, maker and referee; waste where there is some.
    masses_g : mapping of str to float or None
        Purpose to mass [g], as far as weighed.

    Returns
    -------
    tuple of Entry
        One portion for each purpose, named after piece and purpose.

    Raises
    ------
    ParameterError
        If one of the three parts is not given, or a purpose is not known.
    UnknownLabelError
        If the case has no such exhibit.
    """
    masses = masses_g or {}
    open_case(desk.folder).record(Exhibit, exhibit)
    for purpose in (*lengths_m, *masses):
        if purpose not in PURPOSES:
            raise ParameterError("purpose", purpose, allowed=", ".join(PURPOSES))
    for purpose in _THREE_PARTS:
        if purpose not in lengths_m:
            part = f"{purpose} part"
            raise ParameterError(
                part,
                None,
                allowed="a length in m",
                remedy="A piece is split three ways by default: test, maker, referee.",
            )
    return desk.add(
        *(
            Addition(_portion(desk, exhibit, purpose, lengths_m, masses))
            for purpose in PURPOSES
            if purpose in lengths_m or purpose in masses
        )
    )


def _portion(
    desk: Desk,
    exhibit: str,
    purpose: str,
    lengths_m: Mapping[str, float],
    masses_g: Mapping[str, float],
) -> CaseRecord:
    fields = {
        "id": f"{exhibit}-{purpose}",
        "exhibit": exhibit,
        "purpose": purpose,
        "length_m": lengths_m.get(purpose),
        "mass_g": masses_g.get(purpose),
        "cut_at": desk.clock(),
        "cut_by": desk.person,
    }
    return build_body("portion", fields)


def portions_in_words(state: CaseState, tolerances: Tolerances) -> tuple[str, ...]:
    """Say for every piece how it was parted and whether the parts make the whole.

    Parameters
    ----------
    state : CaseState
        State of the case.
    tolerances : Tolerances
        What may stay unexplained.

    Returns
    -------
    tuple of str
        Lines for people.
    """
    lines: list[str] = []
    for parted in all_portions(state, tolerances):
        lines += [f"{parted.exhibit.id}: {balance_in_words(parted.length)}"]
        if parted.portions:
            lines += [f"{parted.exhibit.id}: {balance_in_words(parted.mass)}"]
        lines += [f"{parted.exhibit.id}: {sentence}" for sentence in parted.missing]
    return tuple(lines)


def portions_data(state: CaseState, tolerances: Tolerances) -> list[dict[str, Any]]:
    """Give the portions of every piece as JSON data.

    Parameters
    ----------
    state : CaseState
        State of the case.
    tolerances : Tolerances
        What may stay unexplained.

    Returns
    -------
    list of dict
        Both balances and what is missing, piece by piece.
    """
    return [
        {
            "exhibit": parted.exhibit.id,
            "length": balance_data(parted.length),
            "mass": balance_data(parted.mass),
            "missing": list(parted.missing),
        }
        for parted in all_portions(state, tolerances)
    ]


def balance_data(balance: PortionBalance) -> dict[str, Any]:
    """Give a balance as JSON data, unrounded.

    Parameters
    ----------
    balance : PortionBalance
        By length or mass.

    Returns
    -------
    dict
        Numbers in the unit that stands beside them; null where not entered.
    """
    return {
        "quantity": balance.quantity,
        "unit": balance.unit,
        "whole": balance.whole,
        "parts": [[name, size] for name, size in balance.parts],
        "waste": list(balance.waste),
        "unexplained": balance.unexplained,
        "tolerance": balance.tolerance,
        "balance": balance.word.value,
    }


def intake_in_words(state: CaseState, exhibit: str) -> tuple[str, ...]:
    """Say what the intake of a piece lacks, and which printed words are no claim yet.

    Parameters
    ----------
    state : CaseState
        State of the case.
    exhibit : str
        Short name.

    Returns
    -------
    tuple of str
        Lines for people.

    Raises
    ------
    UnknownLabelError
        If the case has no such exhibit.
    """
    lines = [f"{exhibit}: {sentence}" for sentence in intake_missing(state, exhibit)]
    lines += [
        f"{exhibit}: printed words, not yet a claim: “{words}”. Freeze them with "
        "'strandproof claim', with a picture that shows them."
        for words in printed_words_not_claimed(state, exhibit)
    ]
    return tuple(lines or [f"{exhibit}: the intake is complete."])


def keeping_in_words(state: CaseState, *, now: datetime) -> str:
    """Say whether maker's and referee's parts must stay whole now, and why.

    Parameters
    ----------
    state : CaseState
        State of the case.
    now : datetime
        The present moment.

    Returns
    -------
    str
        One sentence.
    """
    reasons = keeping_reasons(state, now=now)
    if not reasons:
        return "Maker's and referee's parts may be used: published, no window is open."
    return f"Maker's and referee's parts must stay whole: {'; '.join(reasons)}."
