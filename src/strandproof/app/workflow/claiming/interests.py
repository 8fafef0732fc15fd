"""Costs, interests, permissions: sums, and what is blank before lock or publication."""

from typing import Any

from strandproof.records.case_facts.interests import (
    cost_sums,
    disclosure_blockers,
    disclosure_paragraph,
    lock_blockers,
    publication_blockers,
)
from strandproof.records.case_state import CaseState
from strandproof.records.entries import Cost, Disclosure
from strandproof.report import cost_total

__all__ = [
    "blanks_in_words",
    "costs_data",
    "costs_in_words",
    "disclosure_blockers",
    "disclosure_paragraph",
    "lock_blockers",
    "publication_blockers",
]


def costs_in_words(state: CaseState) -> tuple[str, ...]:
    """Say what the case took, what was declared, and the sums.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    tuple of str
        Lines for people; currencies are not added together.
    """
    sums = cost_sums(state)
    lines = [f"{each.purpose}: {_amount(each)}." for each in state.records(Cost)]
    lines.append(f"In all: {cost_total(state) or 'nothing entered'}.")
    if sums.payers:
        lines.append(f"Paid or worked: {', '.join(sums.payers)}.")
    received = [
        f"{each.person}: {each.amount:.2f} {each.currency}".rstrip()
        for each in state.records(Disclosure)
        if each.amount is not None
    ]
    if received:
        lines.append(f"Received, as declared: {'; '.join(received)}.")
    return (*lines, disclosure_paragraph(state))


def costs_data(state: CaseState) -> dict[str, Any]:
    """Give sums and blanks as JSON data.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    dict
        Money by currency, hours, payers, disclosure.
    """
    sums = cost_sums(state)
    return {
        "money": dict(sums.money),
        "hours": sums.hours,
        "payers": list(sums.payers),
        "without_sum": list(sums.without_sum),
        "disclosure": disclosure_paragraph(state),
    }


def blanks_in_words(state: CaseState) -> tuple[str, ...]:
    """Say what is blank before a plan may be locked, and before publication.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    tuple of str
        Lines for people.
    """
    lock = lock_blockers(state)
    publication = [each for each in publication_blockers(state) if each not in lock]
    return (
        *(f"Before the plan is locked: {each}" for each in lock),
        *(f"Before publication: {each}" for each in publication),
    ) or ("Nothing is blank.",)


def _amount(cost: Cost) -> str:
    parts = []
    if cost.amount is not None:
        parts.append(f"{cost.amount:.2f} {cost.currency}".rstrip())
    if cost.hours is not None:
        parts.append(f"{cost.hours:g} hours")
    return (", ".join(parts) or "neither sum nor hours entered") + f", {cost.paid_by}"
