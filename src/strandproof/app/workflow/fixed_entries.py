"""Entries that stand for good: locks, deviations, sealed lists, hand-outs.

Stands below everything that enters, so that any way into a case can ask.
"""

from strandproof.errors import FixedEntryError
from strandproof.records.entries import (
    BlindListOpened,
    BlindListSealed,
    CaseRecord,
    Deviation,
    HandOut,
    HandOutReturned,
    PlanLock,
    kind_in_words,
    kind_of,
)

_STANDING = (
    PlanLock,
    Deviation,
    BlindListSealed,
    BlindListOpened,
    HandOut,
    HandOutReturned,
)
_COMMANDS: dict[type[CaseRecord], str] = {
    PlanLock: "lock-plan",
    Deviation: "deviate",
    BlindListSealed: "seal-list",
    BlindListOpened: "open-list",
    HandOut: "hand-out",
    HandOutReturned: "take-back",
}


def refuse_changing_fixed(body: CaseRecord, *, corrects: bool) -> None:
    """Refuse to correct what stands for good, and to type what a use case makes.

    For ways into a case that know nothing of plans and sealed lists, such as the
    general entry of any kind of record.

    Parameters
    ----------
    body : CaseRecord
        What is to be added.
    corrects : bool
        Whether it would take the place of an earlier entry.

    Raises
    ------
    FixedEntryError
        If it would change what stands, or goes round the checks of its own command.
    """
    what = f"{kind_in_words(kind_of(body)).capitalize()} {body.id}"
    if corrects and isinstance(body, _STANDING):
        raise FixedEntryError(
            what, remedy="Enter what changed as a deviation ('strandproof deviate')."
        )
    command = _COMMANDS.get(type(body))
    if command is not None:
        raise FixedEntryError(
            what,
            remedy=f"It is made by 'strandproof {command}' alone, which checks it.",
        )
