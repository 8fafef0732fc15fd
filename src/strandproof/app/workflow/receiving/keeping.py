"""Maker's and referee's parts stay whole until all is said and answered.

Stands below everything that enters, so that no way into a case goes round it.
"""

from collections.abc import Sequence
from datetime import datetime

from strandproof.errors import KeptPartError
from strandproof.records.case_facts.portions import (
    keeping_reasons,
    kept_parts_touched,
)
from strandproof.records.case_state import CaseState
from strandproof.records.entries import CaseRecord, Disposal, Portion, Specimen


def may_use_up(body: CaseRecord) -> bool:
    """Tell whether an entry could use up a kept part at all.

    Parameters
    ----------
    body : CaseRecord
        What is to be entered.

    Returns
    -------
    bool
        False for all but disposals, portions and specimens from a portion.
    """
    return isinstance(body, Disposal | Portion) or (
        isinstance(body, Specimen) and body.portion is not None
    )


def refuse_using_kept_parts(
    state: CaseState, bodies: Sequence[CaseRecord], *, now: datetime
) -> None:
    """Refuse what would use up a maker's or referee's part too early.

    Parameters
    ----------
    state : CaseState
        State before the additions.
    bodies : sequence of CaseRecord
        What is to be entered.
    now : datetime
        The present moment; an earlier moment written into a disposal counts, a later
        one does not.

    Raises
    ------
    KeptPartError
        If nothing is published yet, or somebody may still answer.
    """
    for body in bodies:
        touched = kept_parts_touched(state, body, entered_with=bodies)
        moment = min(body.at, now) if isinstance(body, Disposal) else now
        reasons = keeping_reasons(state, now=moment) if touched else ()
        if reasons:
            raise KeptPartError(touched, reasons)
