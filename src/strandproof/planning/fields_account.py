"""Every planned field accounted for: used, or listed with the reason why not."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from strandproof.planning.field_readings import read_place
from strandproof.planning.later_changes import LaterChange, later_changes
from strandproof.records.case_state import CaseState
from strandproof.records.entries import (
    Deviation,
    Micrograph,
    PlanLock,
    PlannedField,
    Reading,
    Section,
)

FieldStanding = Literal["used", "dropped", "not readable", "readers differ", "not read"]
"""What became of a planned field."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AccountedField:
    """One planned field and what became of it; also a place on the contact sheet.

    Parameters
    ----------
    field : PlannedField
        As planned.
    code : str
        Blind code of its section; empty where it has none.
    standing : {"used", "dropped", "not readable", "readers differ", "not read"}
        What became of it.
    reason : str
        Why it is not used; empty for a used one.
    micrograph : str
        Short name of its micrograph; empty where there is none.
    file_sha256 : str
        Hash of that original; empty where there is none.
    readers : tuple of str
        Who read it, in order.
    """

    field: PlannedField
    code: str
    standing: FieldStanding
    reason: str
    micrograph: str
    file_sha256: str
    readers: tuple[str, ...]

    @property
    def name(self) -> str:
        """The field in words, for example ``the face of E2-s3-T``."""
        if self.field.extent == "whole_face":
            return f"the face of {self.field.section}"
        return f"field {self.field.number} of {self.field.section}"


@dataclass(frozen=True, slots=True, kw_only=True)
class FieldsAccount:
    """All planned fields of a case.

    Parameters
    ----------
    fields : tuple of AccountedField
        In the order of the plan; all of them, used or not.
    unplanned : tuple of str
        Micrographs of planned sections that show no planned field.
    """

    fields: tuple[AccountedField, ...]
    unplanned: tuple[str, ...]

    @property
    def not_used(self) -> tuple[AccountedField, ...]:
        """Those that no result rests on."""
        return tuple(each for each in self.fields if each.standing != "used")

    @property
    def sentence(self) -> str:
        """For example ``54 fields; 53 used (45 of 45, 8 of 9)``."""
        if not self.fields:
            return "No field was planned."
        used = len(self.fields) - len(self.not_used)
        kinds = Counter(each.field.extent for each in self.fields)
        missing = Counter(each.field.extent for each in self.not_used)
        shares = ", ".join(f"{kinds[k] - missing[k]} of {kinds[k]}" for k in kinds)
        return f"{len(self.fields)} fields; {used} used ({shares})"

    @property
    def lines(self) -> tuple[str, ...]:
        """The sentence, then every field not used with its reason."""
        explained = {
            "field": "fields on long sections",
            "whole_face": "whole round faces",
        }
        kinds = dict.fromkeys(each.field.extent for each in self.fields)
        order = ", then ".join(explained[kind] for kind in kinds)
        return (
            f"{self.sentence}{f': {order}' if order else ''}.".replace("..", "."),
            *(
                f"{each.name[0].upper()}{each.name[1:]}, {each.standing}: {each.reason}"
                for each in self.not_used
            ),
        )


def fields_account(state: CaseState) -> FieldsAccount:
    """Account for every planned field, those of later additions included.

    A field is used when somebody read it, nobody found it unreadable, and no deviation
    drops it. Where readers differ and no deviation says what was done, it is listed as
    that, and not used. A reading of a whole section speaks of its field where only one
    is planned on it; "not readable" of a whole section speaks of all its fields.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    FieldsAccount
        No planned field is missing from it.
    """
    planned = planned_fields(state)
    per_section = Counter(each.section for each in planned)
    changes = later_changes(state)
    fields = tuple(
        _accounted(state, field, changes, only=per_section[field.section] == 1)
        for field in planned
    )
    shown = {each.micrograph for each in fields}
    return FieldsAccount(
        fields=fields,
        unplanned=tuple(
            each.id
            for each in state.records(Micrograph)
            if each.section in per_section and each.id not in shown
        ),
    )


def planned_fields(state: CaseState) -> tuple[PlannedField, ...]:
    """Give every field planned by a lock or added to it later.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    tuple of PlannedField
        In order of entry.
    """
    return tuple(
        field
        for entry in state.entries
        if isinstance(entry.body, PlanLock | Deviation)
        for field in entry.body.planned_fields
    )


def _accounted(
    state: CaseState,
    field: PlannedField,
    changes: Sequence[LaterChange],
    *,
    only: bool,
) -> AccountedField:
    readings = _readings_of(state, field, only=only)
    standing, reason = _standing(field, readings, changes)
    shown = _micrograph_of(state, field, only=only)
    return AccountedField(
        field=field,
        code=_code_of(state, field.section),
        standing=standing,
        reason=reason,
        micrograph=shown.id if shown else "",
        file_sha256=shown.file_sha256 if shown else "",
        readers=tuple(dict.fromkeys(each.reader for each in readings)),
    )


def _readings_of(
    state: CaseState, field: PlannedField, *, only: bool
) -> tuple[Reading, ...]:
    return tuple(
        each
        for each in state.records(Reading)
        if read_place(state, each).covers(
            field.section,
            field.number,
            only_field=only or each.verdict == "not_readable",
        )
    )


def _standing(
    field: PlannedField, readings: Sequence[Reading], changes: Sequence[LaterChange]
) -> tuple[FieldStanding, str]:
    for change in changes:
        named = {(each.section, each.number) for each in change.change.drops}
        if (field.section, field.number) in named:
            return "dropped", change.words
    unreadable = [each for each in readings if each.verdict == "not_readable"]
    if not readings:
        return "not read", "No reading of it was entered."
    if not unreadable:
        return "used", ""
    said = "; ".join(f"{each.reader}: {each.reason or 'none'}" for each in unreadable)
    if len(unreadable) == len(readings):
        return "not readable", f"Reason given by {said}."
    return "readers differ", (
        f"Not readable for {said}; others read it, and no deviation says what was "
        "done with it."
    )


def _micrograph_of(
    state: CaseState, field: PlannedField, *, only: bool
) -> Micrograph | None:
    for each in state.records(Micrograph):
        if each.section == field.section:
            if each.field_number == field.number:
                return each
            if only and each.field_number is None:
                return each
    return None


def _code_of(state: CaseState, section: str) -> str:
    codes = {each.id: each.blind_code for each in state.records(Section)}
    return codes.get(section, "")
