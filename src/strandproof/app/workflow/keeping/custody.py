"""Use cases of custody: hand over, note arrivals, explain gaps, say who held what."""

from collections.abc import Mapping, Sequence
from datetime import datetime
from pathlib import Path
from typing import Any, Literal

from strandproof.app.workflow.entering import Desk, Fields, open_case, read_original
from strandproof.errors import ParameterError
from strandproof.records.case_state import CaseState
from strandproof.records.custody import (
    CustodyGap,
    custody_gaps,
    custody_lines,
    custody_records,
    custody_trail,
    gap_in_words,
    gap_named,
    holder_at,
    seal_findings,
    stray_explanations,
    things_in_custody,
    trail_lines,
)
from strandproof.records.entries import Entry, HandOver, Seal
from strandproof.records.entries.building import build_body
from strandproof.storage import Addition

SealFound = Literal["intact", "broken"]


def hand_over(
    desk: Desk, fields: Fields, *, seal_found: SealFound | None = None
) -> tuple[Entry, ...]:
    """Enter that things passed from one person to another.

    Parameters
    ----------
    desk : Desk
        Folder and person.
    fields : mapping
        Fields of the record `HandOver`.
    seal_found : {"intact", "broken"} or None
        What the receiver found of the seal named; None: nobody looked, or no seal.

    Returns
    -------
    tuple of Entry
        The hand-over, and the check of the seal where there was one.

    Raises
    ------
    ParameterError
        If it was received before it was given, giver and receiver are one person, or
        a seal was found but none is named.
    """
    body = build_body("hand_over", fields)
    if not isinstance(body, HandOver):  # pragma: no cover - the registry says so
        raise ParameterError("hand-over", body, allowed="a hand-over record")
    _check(body)
    state = open_case(desk.folder)
    checks = _seal_check(state, body, seal_found)
    return desk.add(Addition(body), *checks)


def note_arrival(
    desk: Desk,
    label: str,
    *,
    received_at: datetime,
    condition: str,
    seal_found: SealFound | None = None,
) -> tuple[Entry, ...]:
    """Enter that something under way reached its receiver.

    Parameters
    ----------
    desk : Desk
        Folder and person.
    label : str
        Short name of the hand-over.
    received_at : datetime
        When it arrived.
    condition : str
        State on arrival.
    seal_found : {"intact", "broken"} or None
        What was found of its seal.

    Returns
    -------
    tuple of Entry
        The hand-over with its receipt, which takes the place of the one without.

    Raises
    ------
    ParameterError
        If its receipt is on record already, or lies before it was given.
    """
    state = open_case(desk.folder)
    held = state.entry(HandOver, label)
    sent = state.record(HandOver, label)
    if sent.received_at is not None:
        raise ParameterError(
            "hand-over",
            label,
            allowed="one that is still under way",
            remedy=f"It was received {sent.received_at:%Y-%m-%d %H:%M} UTC.",
        )
    body = sent.model_copy(update={"received_at": received_at, "condition": condition})
    _check(body)
    addition = Addition(body, supersedes=held.number, reason="its arrival is noted")
    return desk.add(addition, *_seal_check(state, body, seal_found))


def explain_gap(
    desk: Desk,
    gap: str,
    explanation: str,
    *,
    evidence: Sequence[str] = (),
    paper: Path | None = None,
    label: str = "",
) -> Entry:
    """Put an explanation beside a gap; the gap stays.

    Parameters
    ----------
    desk : Desk
        Folder and person; the person at the desk is the one who explains.
    gap : str
        Name of the gap, for example ``"G1"``.
    explanation : str
        What happened.
    evidence : sequence of str
        Entries that bear it out.
    paper : Path or None
        A paper to keep with it.
    label : str
        Short name; made from the gap's when empty.

    Returns
    -------
    Entry
        The explanation as entered.
    """
    found = gap_named(open_case(desk.folder), gap)
    original = None if paper is None else read_original(paper)
    body = build_body(
        "gap_explanation",
        {
            "id": label or f"{gap}-{len(found.explanations) + 1}",
            "gap": gap,
            "items": found.things,
            "gap_from": found.start,
            "gap_to": found.end,
            "explanation": explanation,
            "explained_by": desk.person,
            "explained_at": desk.clock(),
            "evidence": tuple(evidence),
            "file_sha256": None if original is None else original.sha256,
        },
    )
    return desk.add(Addition(body, () if original is None else (original,)))[0]


def custody_in_words(
    state: CaseState, *, thing: str | None = None, at: datetime | None = None
) -> tuple[str, ...]:
    """Say who held what, with every gap.

    Parameters
    ----------
    state : CaseState
        State of the case.
    thing : str or None
        One thing only, by reference; None: gaps and seals of the whole case.
    at : datetime or None
        With a moment: who held each thing then.

    Returns
    -------
    tuple of str
        Lines.
    """
    if at is not None:
        asked = (thing,) if thing else things_in_custody(state)
        return tuple(holder_at(state, each, at).words for each in asked)
    if thing is not None:
        return tuple(trail_lines(custody_trail(custody_records(state), thing)))
    stray = tuple(
        f"Explanation {each.id} names a gap {each.gap} that the case does not show so."
        for each in stray_explanations(state)
    )
    return (*custody_lines(state), *stray)


def custody_data(state: CaseState) -> dict[str, Any]:
    """Give custody as data for programs.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    dict
        Trails by thing, gaps, findings on seals.
    """
    records = custody_records(state)
    return {
        "trails": {
            thing: [
                {
                    "holder": each.holder,
                    "from": each.start.isoformat(),
                    "to": None if each.end is None else each.end.isoformat(),
                    "by": each.basis,
                }
                for each in custody_trail(records, thing).holdings
            ]
            for thing in things_in_custody(state)
        },
        "gaps": [_gap_data(each) for each in custody_gaps(state)],
        "seals": [each.words for each in seal_findings(state)],
    }


def new_gaps(before: CaseState, after: CaseState) -> tuple[CustodyGap, ...]:
    """Give the gaps that entries have brought to light.

    Parameters
    ----------
    before, after : CaseState
        The case without and with them.

    Returns
    -------
    tuple of CustodyGap
        Those first seen in between.
    """
    return custody_gaps(after)[len(custody_gaps(before)) :]


def _gap_data(gap: CustodyGap) -> Mapping[str, Any]:
    return {
        "name": gap.name,
        "kind": gap.kind,
        "things": list(gap.things),
        "from": gap.start.isoformat(),
        "to": None if gap.end is None else gap.end.isoformat(),
        "last_holder": gap.last_holder,
        "next_holder": gap.next_holder,
        "cause": gap.cause,
        "seen_at_entry": gap.seen_at_entry,
        "filled_at_entry": gap.filled_at_entry,
        "words": gap_in_words(gap),
        "explanations": [each.model_dump(mode="json") for each in gap.explanations],
    }


def _check(body: HandOver) -> None:
    """Refuse what cannot be.

    Raises
    ------
    ParameterError
        If the times or the persons do not fit.
    """
    if body.received_at is not None and body.received_at < body.given_at:
        raise ParameterError(
            "received_at",
            body.received_at.isoformat(),
            allowed=f"the moment of giving ({body.given_at.isoformat()}) or later",
        )
    if body.giver.strip().casefold() == body.receiver.strip().casefold():
        raise ParameterError(
            "receiver", body.receiver, allowed="somebody else than the giver"
        )


def _seal_check(
    state: CaseState, body: HandOver, found: SealFound | None
) -> tuple[Addition, ...]:
    """Make the entry of what the receiver found of a seal.

    Raises
    ------
    ParameterError
        If no seal is named, or nobody received it yet.
    """
    if found is None:
        return ()
    if body.seal is None or body.received_at is None:
        raise ParameterError(
            "seal_found",
            found,
            allowed="a hand-over that was received and names its seal",
        )
    seal = state.record(Seal, body.seal)
    check = Seal(
        id=f"{body.id}-arrival",
        seal_number=seal.seal_number,
        on=seal.on,
        event="found_intact" if found == "intact" else "found_broken",
        at=body.received_at,
        by=body.receiver,
    )
    return (Addition(check),)
