"""The plan in a report: what was locked, what changed, every field, blinding."""

from collections.abc import Iterable
from dataclasses import dataclass

from markupsafe import Markup

from strandproof.planning import (
    AccountedField,
    FieldsAccount,
    LaterChange,
    fields_account,
    later_changes,
)
from strandproof.records.case_state import CaseState
from strandproof.records.entries import (
    BlindListOpened,
    BlindListSealed,
    Deviation,
    HandOut,
    HandOutReturned,
    PlanLock,
)
from strandproof.report.plots import FieldStrip, field_places_svg


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanSection:
    """What a report says of plan and blinding.

    Parameters
    ----------
    plans : tuple of PlanLock
        Locked plans.
    changes : tuple of LaterChange
        Additions and deviations, dated by the record.
    account : FieldsAccount
        Every planned field.
    blinding : tuple of str
        Sealed lists, hand-outs, returns and openings, a sentence each.
    drawing : Markup or None
        Every planned field at its place; None where none was planned.
    """

    plans: tuple[PlanLock, ...]
    changes: tuple[LaterChange, ...]
    account: FieldsAccount
    blinding: tuple[str, ...]
    drawing: Markup | None

    @property
    def empty(self) -> bool:
        """True when there is nothing to tell."""
        return not (self.plans or self.changes or self.blinding)

    @property
    def field_rows(self) -> tuple[tuple[str, str, str, str], ...]:
        """Section, code, places, and how many are used; one row a section."""
        sections = dict.fromkeys(each.field.section for each in self.account.fields)
        return tuple(
            _row([each for each in self.account.fields if each.field.section == name])
            for name in sections
        )


def plan_section(state: CaseState) -> PlanSection:
    """Gather what a report says of plan and blinding.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    PlanSection
        Empty where nothing was planned.
    """
    account = fields_account(state)
    return PlanSection(
        plans=state.records(PlanLock),
        changes=later_changes(state),
        account=account,
        blinding=tuple(_blinding(state)),
        drawing=_drawing(state, account),
    )


def plan_lines(plan: PlanLock) -> tuple[tuple[str, str], ...]:
    """Give what a plan fixes, each with its heading.

    Parameters
    ----------
    plan : PlanLock
        A locked plan.

    Returns
    -------
    tuple of (str, str)
        Heading and words; what the plan leaves empty is left out.
    """
    draw = plan.field_draw
    places = (
        f"{len(plan.planned_fields)} fields, drawn with seed {draw.seed}"
        if draw is not None
        else ""
    )
    rows = (
        ("Decides", plan.primary_reading),
        ("Rivals", ", ".join(plan.hypotheses)),
        ("Tests", "; ".join(plan.tests)),
        ("Counting rules", "; ".join(plan.counting_rules)),
        ("Ends", plan.stop_rule),
        ("Would change my mind", plan.would_change_my_mind),
        ("Places", places),
        ("Controls", "; ".join(plan.controls)),
        ("Remarks before the lock", " ".join(plan.remarks)),
    )
    return tuple((head, words) for head, words in rows if words)


def _drawing(state: CaseState, account: FieldsAccount) -> Markup | None:
    """Draw the fields; the longest of several draws sets the scale."""
    if not account.fields:
        return None
    locked = (plan.field_draw for plan in state.records(PlanLock))
    added = (change.field_draw for change in state.records(Deviation))
    draws = [draw for draw in (*locked, *added) if draw is not None]
    longest = max(draws, key=lambda each: each.section_length_mm, default=None)
    long_ones = [each for each in account.fields if each.field.extent == "field"]
    names = dict.fromkeys(each.field.section for each in long_ones)
    return field_places_svg(
        [
            _strip([each for each in long_ones if each.field.section == name])
            for name in names
        ],
        [
            (each.field.section, each.standing == "used")
            for each in account.fields
            if each.field.extent == "whole_face"
        ],
        length_mm=longest.section_length_mm if longest else 1.0,
        width_mm=longest.field_width_mm if longest else 0.1,
        title=account.sentence,
    )


def _strip(fields: list[AccountedField]) -> FieldStrip:
    return FieldStrip(
        fields[0].field.section,
        tuple(each.field.position_mm or 0.0 for each in fields),
        tuple(each.standing == "used" for each in fields),
    )


def _row(fields: list[AccountedField]) -> tuple[str, str, str, str]:
    first = fields[0]
    used = sum(each.standing == "used" for each in fields)
    places = ", ".join(
        f"{each.field.position_mm:.3f}"
        for each in fields
        if each.field.position_mm is not None
    )
    others = dict.fromkeys(each.standing for each in fields if each.standing != "used")
    why = f" ({', '.join(others)})" if others else ""
    return (
        first.field.section,
        first.code or "none",
        f"{places} mm" if places else "whole face",
        f"{used} of {len(fields)}{why}",
    )


def _blinding(state: CaseState) -> Iterable[str]:
    for sealed in state.records(BlindListSealed):
        yield (
            f"List {sealed.id} of {len(sealed.codes)} blind codes, sealed by "
            f"{sealed.sealed_by} on {sealed.sealed_at:%Y-%m-%d %H:%M} UTC, SHA-256 "
            f"{sealed.list_sha256}."
        )
    for given in state.records(HandOut):
        yield (
            f"Hand-out {given.id}: {len(given.pictures)} coded pictures to "
            f"{given.reader} on {given.made_at:%Y-%m-%d}, seal {given.seal_sha256}."
        )
    for back in state.records(HandOutReturned):
        yield (
            f"Hand-out {back.hand_out} came back on {back.returned_at:%Y-%m-%d} with "
            f"{len(back.readings)} readings, each locked."
        )
    opened = {each.sealed_list: each for each in state.records(BlindListOpened)}
    for sealed in state.records(BlindListSealed):
        if sealed.id in opened:
            at = opened[sealed.id].opened_at
            by = opened[sealed.id].opened_by
            yield f"List {sealed.id} was opened by {by} on {at:%Y-%m-%d %H:%M} UTC."
        else:
            yield f"List {sealed.id} is still sealed."
