"""Use cases of the plan: check it, lock it, enter what was changed later."""

from collections.abc import Iterable
from dataclasses import dataclass

from strandproof.app.workflow.entering import Desk, Fields, open_case
from strandproof.app.workflow.plan_locking.positions import DrawnFields
from strandproof.errors import LockRefusedError, ParameterError
from strandproof.planning import (
    DraftPlan,
    PlanCheck,
    check_plan,
    planned_fields,
    results_before,
    sections_of,
)
from strandproof.records.case_facts.interests import (
    blank_interests,
    disclosure_blockers,
)
from strandproof.records.case_state import CaseState
from strandproof.records.entries import (
    CaseRecord,
    Control,
    Deviation,
    Disclosure,
    Entry,
    Hypothesis,
    PlanLock,
    PlannedField,
)
from strandproof.records.entries.building import build_body
from strandproof.storage import Addition, Original, canonical_json

_PLAN_FILE = "application/json"
_NO_HASH_YET = "0" * 64
# What belongs to the envelope of the sealed file, not to its content.
_NOT_IN_FILE = {"plan_sha256"}


@dataclass(frozen=True, slots=True, kw_only=True)
class LockedPlan:
    """A plan as locked.

    Parameters
    ----------
    entry : Entry
        The lock.
    plan_sha256 : str
        SHA-256 of the plan's canonical JSON, to be published.
    remarks : tuple of str
        What the check found and left standing, and what the controls can support;
        printed with the plan.
    """

    entry: Entry
    plan_sha256: str
    remarks: tuple[str, ...]


def check_draft(
    state: CaseState, fields: Fields, drawn: DrawnFields | None = None
) -> PlanCheck:
    """Look for what a plan lacks; nothing is entered.

    Parameters
    ----------
    state : CaseState
        State of the case.
    fields : mapping
        Fields of the record `PlanLock`.
    drawn : DrawnFields or None
        Places to be looked at.

    Returns
    -------
    PlanCheck
        Blanks that keep it from being locked, and remarks.
    """
    labels = tuple(fields.get("hypotheses", ()))
    left_out = tuple(
        each
        for each in state.records(Hypothesis)
        if each.left_out_because.strip() and each.id not in labels
    )
    named = tuple(state.record(Hypothesis, label) for label in labels)
    return check_plan(
        DraftPlan(
            claims=tuple(fields.get("claims", ())),
            hypotheses=(*named, *left_out),
            tests=tuple(fields.get("tests", ())),
            fields=() if drawn is None else drawn.fields,
            draw=None if drawn is None else drawn.draw,
            controls=state.records(Control),
            counting_rules=tuple(fields.get("counting_rules", ())),
        )
    )


def lock_plan(
    desk: Desk, fields: Fields, *, drawn: DrawnFields | None = None
) -> LockedPlan:
    """Lock a plan before results are seen; its hash is printed, to be published.

    Parameters
    ----------
    desk : Desk
        Folder and person.
    fields : mapping
        Fields of the record `PlanLock` other than hash, moment, person, places,
        controls, disclosures and remarks, which come from the case.
    drawn : DrawnFields or None
        Places to be looked at.

    Returns
    -------
    LockedPlan
        The lock, with its hash.

    Raises
    ------
    LockRefusedError
        If interests, rivals, tests or rules are blank.
    """
    state = open_case(desk.folder)
    checked = check_draft(state, fields, drawn)
    _refuse_blanks(state, checked.blanks)
    places = () if drawn is None else drawn.fields
    _refuse_doubled(state, places)
    draft = build_body(
        "plan_lock",
        {
            **fields,
            "planned_fields": places,
            "field_draw": None if drawn is None else drawn.draw,
            "controls": tuple(map(_control_in_words, state.records(Control))),
            "disclosures": tuple(each.statement for each in state.records(Disclosure)),
            "remarks": (*checked.remarks, *checked.ceiling),
            "plan_sha256": _NO_HASH_YET,
            "locked_at": desk.clock(),
            "locked_by": desk.person,
        },
    )
    original = Original(plan_content(draft), f"{draft.id}.json", _PLAN_FILE)
    body = draft.model_copy(update={"plan_sha256": original.sha256})
    entry = desk.add(Addition(body, (original,)))[0]
    return LockedPlan(
        entry=entry,
        plan_sha256=original.sha256,
        remarks=(*checked.remarks, *checked.ceiling),
    )


def plan_content(plan: CaseRecord) -> bytes:
    """Give the bytes of a plan whose hash is published.

    Parameters
    ----------
    plan : PlanLock
        The plan.

    Returns
    -------
    bytes
        Canonical JSON (RFC 8785) of everything but the hash itself.
    """
    data = plan.model_dump(mode="json")
    return canonical_json({k: v for k, v in data.items() if k not in _NOT_IN_FILE})


def deviate(desk: Desk, fields: Fields, *, drawn: DrawnFields | None = None) -> Entry:
    """Enter a change to a locked plan; the plan itself stays as it was.

    Whether results had been seen is derived from the record. What the person says of
    it is kept beside that, and both are shown.

    Parameters
    ----------
    desk : Desk
        Folder and person.
    fields : mapping
        Fields of the record `Deviation`; ``results_seen`` is the person's word, and
        what the record shows where it is left out.
    drawn : DrawnFields or None
        Places added to be looked at.

    Returns
    -------
    Entry
        The addition or deviation.

    Raises
    ------
    ParameterError
        If a dropped field was never planned, or was dropped before.
    """
    state = open_case(desk.folder)
    places = () if drawn is None else drawn.fields
    _refuse_doubled(state, places)
    stated = {key: value for key, value in fields.items() if value is not None}
    body = build_body(
        "deviation",
        {
            "results_seen": False,
            "decided_at": desk.clock(),
            "decided_by": desk.person,
            **stated,
            "planned_fields": places,
            "field_draw": None if drawn is None else drawn.draw,
        },
    )
    if not isinstance(body, Deviation):  # pragma: no cover - the registry says so
        raise ParameterError("deviation", body.id, allowed="a deviation")
    state.record(PlanLock, body.plan)
    _refuse_unknown_drops(state, body)
    if "results_seen" not in stated:
        these, _ = results_before(state, len(state.entries) + 1, sections_of(body))
        body = body.model_copy(update={"results_seen": bool(these)})
    return desk.add(Addition(body))[0]


def _refuse_blanks(state: CaseState, blanks: Iterable[str]) -> None:
    """Refuse while something is blank.

    Raises
    ------
    LockRefusedError
        If it is.
    """
    interests = [
        f"{kind.replace('_', ' ').capitalize()} blank"
        for kind in blank_interests(state)
    ]
    found = (*interests, *blanks)
    if found:
        raise LockRefusedError(found, details=disclosure_blockers(state))


def _refuse_doubled(state: CaseState, places: Iterable[PlannedField]) -> None:
    """Refuse a place that is planned already.

    Raises
    ------
    ParameterError
        If one is.
    """
    known = {(each.section, each.number) for each in planned_fields(state)}
    for each in places:
        if (each.section, each.number) in known:
            raise ParameterError(
                "planned field",
                f"{each.section}, {each.number}",
                allowed="a field that no plan of the case has yet",
            )


def _refuse_unknown_drops(state: CaseState, change: Deviation) -> None:
    """Refuse to drop a field that was never planned, or was dropped before.

    Raises
    ------
    ParameterError
        If one is.
    """
    planned = {(each.section, each.number) for each in planned_fields(state)}
    dropped = {
        (each.section, each.number)
        for change in state.records(Deviation)
        for each in change.drops
    }
    for each in change.drops:
        key = (each.section, each.number)
        if key not in planned or key in dropped:
            raise ParameterError(
                "dropped field",
                f"{each.section}, {each.number}",
                allowed="a planned field that was not dropped before",
            )


def _control_in_words(control: Control) -> str:
    where = f", mount {control.mount}" if control.mount else ""
    kind = control.kind.replace("_", " ")
    return f"{control.id}: {kind}, known by {control.known_by}{where}"
