"""The tester's own earlier words: which are due for correction, and where."""

from dataclasses import dataclass

from strandproof.records.case_state import CaseState
from strandproof.records.entries import (
    Claim,
    Correction,
    ErrorPlace,
    OwnStatement,
    Weighing,
)


@dataclass(frozen=True, slots=True)
class OwnWordsDue:
    """An own statement that is wrong, or was.

    Parameters
    ----------
    statement : OwnStatement
        The words.
    reason : str
        Why it is due.
    corrected : bool
        True when a correction was entered.
    places_open, places : int
        Places still to be put right, of all places of that correction.
    """

    statement: OwnStatement
    reason: str
    corrected: bool
    places_open: int
    places: int

    @property
    def words(self) -> str:
        """What is to be done, as a sentence."""
        head = (
            f"{self.statement.id}, “{self.statement.words}” ({self.statement.place}, "
            f"{self.statement.said_at:%Y-%m-%d})"
        )
        if not self.corrected:
            return f"{head}: correction due, {self.reason}."
        if self.places_open:
            return (
                f"{head}: corrected; places still to be corrected: "
                f"{self.places_open} of {self.places}."
            )
        return f"{head}: corrected, in every place entered."


def own_words_due(state: CaseState) -> tuple[OwnWordsDue, ...]:
    """Give the own statements that are due for correction, or were corrected.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    tuple of OwnWordsDue
        In the order of first entry; words that nothing contradicts are left out.
    """
    return tuple(
        _due(state, statement, reason)
        for statement in state.records(OwnStatement)
        for reason in (_reason(state, statement),)
        if reason
    )


def _reason(state: CaseState, statement: OwnStatement) -> str:
    claim = statement.repeats_claim
    last = [each for each in state.records(Weighing) if each.claim == claim and claim]
    if last and last[-1].result == "contradicted" and claim:
        return f"it repeats {claim}, which is contradicted in the pieces examined"
    if statement.correction_due:
        words = f" (it repeats {state.record(Claim, claim).id})" if claim else ""
        return f"as entered{words}"
    return ""


def _due(state: CaseState, statement: OwnStatement, reason: str) -> OwnWordsDue:
    corrections = {
        each.id
        for each in state.records(Correction)
        if each.corrects == f"own_statement/{statement.id}"
    }
    where = [p for p in state.records(ErrorPlace) if p.correction in corrections]
    undone = sum(not place.done for place in where)
    return OwnWordsDue(statement, reason, bool(corrections), undone, len(where))
