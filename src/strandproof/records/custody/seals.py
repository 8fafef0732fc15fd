"""What was found of seals: broken, opened, put on again, not checked on arrival."""

from dataclasses import dataclass
from datetime import datetime
from typing import Literal

from strandproof.records.case_state import CaseState
from strandproof.records.entries import HandOver, Seal

SealKind = Literal["broken", "opened", "sealed_again", "not_checked"]


@dataclass(frozen=True, slots=True, kw_only=True)
class SealFinding:
    """Something that a reader must know of a seal.

    Parameters
    ----------
    kind : {"broken", "opened", "sealed_again", "not_checked"}
        What was found; the last: a hand-over names a seal that nobody looked at on
        arrival.
    thing : str
        What the seal closes, as kind and short name.
    seal_number : str
        Number on the seal.
    at : datetime
        When.
    words : str
        In a sentence.
    corrected : bool
        True when a later entry corrects the one that says so; it stays listed.
    """

    kind: SealKind
    thing: str
    seal_number: str
    at: datetime
    words: str
    corrected: bool = False


def seal_findings(state: CaseState) -> tuple[SealFinding, ...]:
    """List what was found of seals.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    tuple of SealFinding
        In order of time. What was ever entered as broken or opened stays listed.
    """
    found = [*_broken_or_opened(state), *_sealed_again(state), *_not_checked(state)]
    return tuple(sorted(found, key=lambda each: (each.at, each.thing, each.kind)))


def _broken_or_opened(state: CaseState) -> list[SealFinding]:
    now = set(state.current.get("seal", {}).values())
    found: list[SealFinding] = []
    for entry in state.entries:
        seal = entry.body
        if not isinstance(seal, Seal):
            continue
        corrected = entry not in now
        if seal.event == "found_broken":
            words = f"seal {seal.seal_number} on {seal.on} found broken by {seal.by}"
            found.append(_finding(seal, "broken", words, corrected=corrected))
        elif seal.event == "opened":
            words = f"seal {seal.seal_number} on {seal.on} opened by {seal.by}"
            found.append(_finding(seal, "opened", words, corrected=corrected))
    return found


def _sealed_again(state: CaseState) -> list[SealFinding]:
    found: list[SealFinding] = []
    for thing, seals in _by_thing(state).items():
        was_open = False
        for seal in seals:
            if seal.event in {"found_broken", "opened"}:
                was_open = True
            elif seal.event == "applied" and was_open:
                words = f"{thing} sealed again with {seal.seal_number} by {seal.by}"
                found.append(_finding(seal, "sealed_again", words))
                was_open = False
    return found


def _not_checked(state: CaseState) -> list[SealFinding]:
    found: list[SealFinding] = []
    for hand_over in state.records(HandOver):
        if hand_over.seal is None or hand_over.received_at is None:
            continue
        put_on = state.record(Seal, hand_over.seal)
        looked = any(
            each.seal_number == put_on.seal_number
            and each.event != "applied"
            and each.at >= hand_over.received_at
            for each in state.records(Seal)
        )
        if not looked:
            words = (
                f"seal {put_on.seal_number} of hand-over {hand_over.id}: nobody noted "
                "on arrival whether it was intact"
            )
            found.append(
                SealFinding(
                    kind="not_checked",
                    thing=put_on.on,
                    seal_number=put_on.seal_number,
                    at=hand_over.received_at,
                    words=f"{words[0].upper()}{words[1:]}.",
                )
            )
    return found


def _by_thing(state: CaseState) -> dict[str, list[Seal]]:
    found: dict[str, list[Seal]] = {}
    for seal in sorted(state.records(Seal), key=lambda each: each.at):
        found.setdefault(seal.on, []).append(seal)
    return found


def _finding(
    seal: Seal, kind: SealKind, words: str, *, corrected: bool = False
) -> SealFinding:
    told = f"{words}, {seal.at:%Y-%m-%d %H:%M} UTC"
    if corrected:
        told += "; a later entry corrects this"
    return SealFinding(
        kind=kind,
        thing=seal.on,
        seal_number=seal.seal_number,
        at=seal.at,
        words=f"{told[0].upper()}{told[1:]}.",
        corrected=corrected,
    )
