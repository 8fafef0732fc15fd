"""Use cases of controls: what is known of each, and the ceiling they can bring."""

from collections.abc import Sequence
from typing import Any

from strandproof.errors import ParameterError
from strandproof.records.case_state import CaseState
from strandproof.records.entries import Control
from strandproof.weighing import (
    ControlsCeiling,
    ceiling_of_controls,
    control_line,
    planned_controls,
    planned_controls_ceiling,
)

OF_RECORD = {
    "single_crystal": ("single_crystal", "single-crystal"),
    "soft_oxygen_free": ("polycrystal", "oxygen-free"),
    "process": ("single_crystal", "single-crystal"),
    "handling": ("handling", ""),
    "blank_mount": ("blank_mount", ""),
}
"""Kinds as a plan names them, with kind and description of the record."""


def controls_of_plan(planned: Sequence[tuple[str, int, str]]) -> tuple[Control, ...]:
    """Make the controls that a plan names.

    Parameters
    ----------
    planned : sequence of (str, int, str)
        Kind (`single_crystal`, `soft_oxygen_free`, `process`, `handling`,
        `blank_mount`), how many, and mounts joined by ``+``; empty for none named.

    Returns
    -------
    tuple of Control
        Not entered; for `planned_controls_ceiling`.

    Raises
    ------
    ParameterError
        If a kind is none of these.
    """
    made: list[Control] = []
    for place, (kind, count, mounts) in enumerate(planned):
        if kind not in OF_RECORD:
            raise ParameterError("kind", kind, allowed=", ".join(OF_RECORD))
        of_record, described_as = OF_RECORD[kind]
        several = planned_controls(
            of_record,
            count,
            mounts=mounts.split("+"),
            described_as=described_as,
        )
        made += [
            each.model_copy(update={"id": f"{place}-{each.id}"}) for each in several
        ]
    return tuple(made)


def ceiling_of_plan(
    planned: Sequence[tuple[str, int, str]], *, section_mounts: Sequence[str] = ()
) -> ControlsCeiling:
    """Give the ceiling of a plan, before anything of it exists.

    Parameters
    ----------
    planned : sequence of (str, int, str)
        As `controls_of_plan` takes them.
    section_mounts : sequence of str
        Mounts that sections of the product will stand in.

    Returns
    -------
    ControlsCeiling
        With its sentences.
    """
    controls = controls_of_plan(planned)
    return planned_controls_ceiling(controls, specimen_mounts=section_mounts)


def ceiling_of_case(
    state: CaseState, planned: Sequence[tuple[str, int, str]] = ()
) -> ControlsCeiling:
    """Give the ceiling that the controls of a case can bring, with more if planned.

    Parameters
    ----------
    state : CaseState
        State of the case.
    planned : sequence of (str, int, str)
        Further controls, as `controls_of_plan` takes them.

    Returns
    -------
    ControlsCeiling
        If all of them are read blind and right; what was read is weighed elsewhere.
    """
    return ceiling_of_controls(state, controls_of_plan(planned))


def controls_in_words(
    state: CaseState, planned: Sequence[tuple[str, int, str]] = ()
) -> tuple[str, ...]:
    """Say what is known of each control, what it informs, and the ceiling.

    Parameters
    ----------
    state : CaseState
        State of the case.
    planned : sequence of (str, int, str)
        Further controls, as `controls_of_plan` takes them.

    Returns
    -------
    tuple of str
        One line a control, then the ceiling.
    """
    lines = tuple(control_line(each) for each in state.records(Control))
    return (*lines, *ceiling_of_case(state, planned).words)


def ceiling_data(found: ControlsCeiling) -> dict[str, Any]:
    """Give a ceiling as data for programs.

    Parameters
    ----------
    found : ControlsCeiling
        The ceiling.

    Returns
    -------
    dict
        Ratios by level, what is lacking, sentences.
    """
    support = found.support
    return {
        "controls": found.controls,
        "ceiling": found.ratio,
        "expected": None if support is None else support.expected_ratio,
        "nothing_judged": None if support is None else support.ratio_unjudged,
        "by_group": {} if support is None else dict(support.group_ratios),
        "mounts_without_process_control": list(found.without_process),
        "words": list(found.words),
    }
