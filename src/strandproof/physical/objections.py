"""Which objection a handling comparison answers, in words."""

from strandproof.records.physical import (
    DeformationVerdict,
    HandlingFacts,
    Objection,
)

_HEAT = (
    "A bend test does not answer the objection that heat made the grains; a record of "
    "the highest temperature and time of each specimen, and a drawn control treated "
    "alike, do."
)
_PREPARATION = (
    "It does not answer the objection that grinding or polishing made the lines; the "
    "picture as polished and a single crystal prepared in the same mount do."
)
_NO_BOUNDARY = "Slip traces are steps inside a crystal and no grain boundaries."
_BENDING = {
    "changed": "It bears on the objection that bending made what is seen: handling "
    "like this leaves traces that this method sees, so lines of this kind on a section "
    "may come from handling. It does not show that bending made boundaries.",
    "not changed": "It answers the objection that bending made the lines, for handling "
    "like this and for this strand.",
    "cannot tell": "The objection that bending made the lines stays open.",
}


def facts_sentences(facts: HandlingFacts) -> tuple[str, ...]:
    """Say what was done between the pictures.

    Parameters
    ----------
    facts : HandlingFacts
        What is known.

    Returns
    -------
    tuple of str
        One sentence.
    """
    states = {True: "yes", False: "no", None: "not stated"}
    sentence = (
        f"Handling: {facts.handling}. Surface polished before: "
        f"{states[facts.polished_before]}; touched after: "
        f"{states[facts.touched_after]}."
    )
    return (sentence,)


def objection_sentences(
    objection: Objection, verdict: DeformationVerdict
) -> tuple[str, ...]:
    """Say which objection the comparison answers and which it does not.

    Parameters
    ----------
    objection : {"bending", "heat", "preparation"}
        The one that it is meant to answer.
    verdict : {"changed", "not changed", "cannot tell"}
        What was decided.

    Returns
    -------
    tuple of str
        The objection asked about first; the limits after it.
    """
    if objection == "heat":
        return (_HEAT, _NO_BOUNDARY)
    if objection == "preparation":
        return (_PREPARATION, _HEAT, _NO_BOUNDARY)
    return (_BENDING[verdict], _HEAT, _NO_BOUNDARY)
