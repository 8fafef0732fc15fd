"""Money, permissions, interests: the sums, and what is still blank.

Nothing is judged here. A blank is a question that nobody answered; "none, declared
by ... on ..." is an answer.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from math import fsum
from typing import get_args

from strandproof.records.case_state import CaseState
from strandproof.records.entries import (
    Calibration,
    Claim,
    Cost,
    Disclosure,
    Measurement,
    Micrograph,
    OwnStatement,
    Permission,
    PreparationStep,
    Reading,
    Section,
)
from strandproof.records.entries.claims import InterestKind, PermissionKind

STARTED_BY = "Strandproof, started by "
"""Stands before the name of whoever let the program measure."""

_INTEREST_QUESTIONS: dict[InterestKind, str] = {
    "money": "fees, links, commissions, other income from maker, shop or a rival",
    "gift": "gifts, loans, free or cheap pieces",
    "relationship": "friendships, quarrels, work for a maker, shop or rival",
    "payer": "who pays for purchases and tests",
    "own_statements": "own earlier words on the matter",
}
_PERMISSION_QUESTIONS: dict[PermissionKind, str] = {
    "pictures": "may pictures be shown?",
    "cropping": "may pictures be shown cropped?",
    "quotation": "may words be quoted?",
    "naming": "may the name be given?",
}
_PERMISSION_WORDS: dict[PermissionKind, tuple[str, ...]] = {
    "pictures": ("picture", "photo"),
    "cropping": ("crop",),
    "quotation": ("quot",),
    "naming": ("nam",),
}
_OF_EVERYBODY: tuple[InterestKind, ...] = ("money", "gift", "relationship")


@dataclass(frozen=True, slots=True)
class CostSums:
    """What a case took.

    Parameters
    ----------
    money : tuple of (str, float)
        Currency and sum, in the order of first entry; an empty currency stands for
        sums entered without one.
    hours : float
        Working time [h].
    payers : tuple of str
        Who paid or worked.
    without_sum : tuple of str
        Purposes that have neither money nor hours.
    """

    money: tuple[tuple[str, float], ...]
    hours: float
    payers: tuple[str, ...]
    without_sum: tuple[str, ...]


def cost_sums(state: CaseState) -> CostSums:
    """Add up money and hours; currencies are never added together.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    CostSums
        Sums that hold now.
    """
    costs = state.records(Cost)
    money: dict[str, list[float]] = {}
    for cost in costs:
        if cost.amount is not None:
            money.setdefault(cost.currency, []).append(cost.amount)
    return CostSums(
        tuple((currency, fsum(amounts)) for currency, amounts in money.items()),
        fsum(cost.hours for cost in costs if cost.hours is not None),
        tuple(dict.fromkeys(cost.paid_by for cost in costs)),
        tuple(c.purpose for c in costs if c.amount is None and c.hours is None),
    )


def disclosure_paragraph(state: CaseState) -> str:
    """Say what is declared, for the first paragraph of every output.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    str
        Every declared interest in its own words, none of them shortened; what is
        blank is said too.
    """
    declared = [
        each for each in state.records(Disclosure) if each.kind != "none_declared"
    ]
    none = [each for each in state.records(Disclosure) if each.kind == "none_declared"]
    sentences = [_closed(each.statement) for each in declared]
    sentences += [_none_in_words(each) for each in none]
    said = f"Interests declared: {' '.join(sentences)}" if sentences else ""
    if state.case.owner in {each.person for each in (*declared, *none)}:
        return said
    blank = f"{state.case.owner} has not said anything of own interests yet."
    return f"{said} {blank}".lstrip()


def disclosure_blockers(state: CaseState) -> tuple[str, ...]:
    """Give what is blank on the owner's sheet of interests.

    A plan may be locked only when there is nothing.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    tuple of str
        One plain sentence for each blank; empty when all is filled.
    """
    owner = state.case.owner
    return tuple(_blank(owner, kind) for kind in blank_interests(state))


def blank_interests(state: CaseState) -> tuple[InterestKind, ...]:
    """Give the kinds of interest that the owner said nothing about.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    tuple of str
        For example ``money``; empty when all is filled.
    """
    owner = state.case.owner
    kinds = get_args(InterestKind)
    return tuple(kind for kind in kinds if not _answered(state, owner, kind))


def lock_blockers(state: CaseState) -> tuple[str, ...]:
    """Give what claims and interests still lack before a plan may be locked.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    tuple of str
        One plain sentence each; empty when nothing of it blocks.
    """
    no_claim = () if state.records(Claim) else ("No claim is frozen yet.",)
    return (*no_claim, *disclosure_blockers(state))


def publication_blockers(state: CaseState) -> tuple[str, ...]:
    """Give what claims, interests, costs and permissions lack before publication.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    tuple of str
        One plain sentence each; empty when nothing of it blocks.
    """
    others = people_at_work(state)
    ties = [
        _blank(person, kind)
        for person in others
        for kind in _OF_EVERYBODY
        if not _answered(state, person, kind)
    ]
    sums = [
        f"Cost “{purpose}”: neither a sum nor hours are entered."
        for purpose in cost_sums(state).without_sum
    ]
    asked = [
        f"{person}, blank: {_PERMISSION_QUESTIONS[kind]}"
        for person in dict.fromkeys((*others, *_asked(state)))
        for kind in get_args(PermissionKind)
        if not _permitted(state, person, kind)
    ]
    return (*lock_blockers(state), *ties, *sums, *asked)


def people_at_work(state: CaseState) -> tuple[str, ...]:
    """Name who prepared, pictured, read or measured, other than the owner.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    tuple of str
        Names as entered, in the order of first appearance.
    """
    names = (
        *(section.made_by for section in state.records(Section)),
        *(step.by for step in state.records(PreparationStep)),
        *(calibration.made_by for calibration in state.records(Calibration)),
        *(micrograph.taken_by for micrograph in state.records(Micrograph)),
        *(reading.reader for reading in state.records(Reading)),
        *(measurement.measured_by for measurement in state.records(Measurement)),
    )
    # What the program measured is the work of whoever started it.
    people = (name.removeprefix(STARTED_BY) for name in names)
    return tuple(dict.fromkeys(n for n in people if n and n != state.case.owner))


def _asked(state: CaseState) -> tuple[str, ...]:
    """Name who was asked for a permission: laboratory, shop, reader."""
    return tuple(each.person for each in state.records(Permission))


def _answered(state: CaseState, person: str, kind: InterestKind) -> bool:
    if kind == "payer" and state.records(Cost):
        return True
    if kind == "own_statements" and state.records(OwnStatement):
        return True
    return any(
        each.kind == kind or _declares_none_of(each, kind)
        for each in state.records(Disclosure)
        if each.person == person
    )


def _declares_none_of(disclosure: Disclosure, kind: InterestKind) -> bool:
    """Tell whether "none" was declared of a kind; a bare "none" covers all of them."""
    if disclosure.kind != "none_declared":
        return False
    return not disclosure.covers or kind in disclosure.covers


def _permitted(state: CaseState, person: str, kind: PermissionKind) -> bool:
    return any(
        kind in _questions(each) and each.granted != "not_answered"
        for each in state.records(Permission)
        if each.person == person
    )


def _questions(permission: Permission) -> tuple[PermissionKind, ...]:
    """Give the questions that a permission answers, from its subject if need be."""
    if permission.answers:
        return permission.answers
    subject = permission.subject.casefold()
    return tuple(
        kind for kind, words in _PERMISSION_WORDS.items() if _holds(subject, words)
    )


def _holds(subject: str, words: Iterable[str]) -> bool:
    return any(word in subject for word in words)


def _blank(person: str, kind: InterestKind) -> str:
    return (
        f"Interests of {person}, blank: {_INTEREST_QUESTIONS[kind]}. Enter what there "
        "is, or declare that there is none."
    )


def _none_in_words(disclosure: Disclosure) -> str:
    what = ", ".join(_INTEREST_QUESTIONS[kind] for kind in disclosure.covers)
    return (
        f"None{f' of these ({what})' if what else ''}, declared by "
        f"{disclosure.person} on {disclosure.declared_at:%Y-%m-%d}."
    )


def _closed(statement: str) -> str:
    return statement if statement.endswith((".", "!", "?")) else f"{statement}."
