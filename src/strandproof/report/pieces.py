"""Which pieces are the product in question, and which are controls beside it."""

from strandproof.records.case_state import CaseState
from strandproof.records.entries import (
    Control,
    Exhibit,
    Measurement,
    Micrograph,
    Section,
    Specimen,
)


def exhibits_in_question(state: CaseState) -> tuple[Exhibit, ...]:
    """Give the exhibits that are no mere source of controls.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    tuple of Exhibit
        All of them where nothing else is left.
    """
    exhibits = state.records(Exhibit)
    return tuple(e for e in exhibits if not _gives_controls_only(state, e.id)) or (
        exhibits
    )


def own_measurements(state: CaseState) -> tuple[Measurement, ...]:
    """Give the measurements of the pieces in question; controls are no part of them.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    tuple of Measurement
        In the order of entry.
    """
    return tuple(
        measurement
        for measurement in state.records(Measurement)
        if not _is_of_control(state, measurement.measures)
    )


def micrograph_measured(measurement: Measurement) -> str:
    """Give the micrograph that a measurement was made on.

    Parameters
    ----------
    measurement : Measurement
        A measurement.

    Returns
    -------
    str
        Its short name; empty where something else was measured.
    """
    kind, _, label = measurement.measures.partition("/")
    return label if kind == "micrograph" else ""


def specimen_behind(state: CaseState, reference: str) -> str:
    """Give the specimen that a micrograph, a section or a specimen belongs to.

    Parameters
    ----------
    state : CaseState
        State of the case.
    reference : str
        Kind and short name, for example ``"section/E1-s1-L"``.

    Returns
    -------
    str
        Its short name; empty for things of another kind.
    """
    kind, _, label = reference.partition("/")
    if kind == "micrograph":
        kind, label = "section", state.record(Micrograph, label).section
    if kind == "section":
        return state.record(Section, label).specimen
    return label if kind == "specimen" else ""


def _is_of_control(state: CaseState, reference: str) -> bool:
    kind, _, label = reference.partition("/")
    if kind == "exhibit":
        return _gives_controls_only(state, label)
    return specimen_behind(state, reference) in _controls(state)


def _gives_controls_only(state: CaseState, exhibit: str) -> bool:
    taken = {s.id for s in state.records(Specimen) if s.exhibit == exhibit}
    return bool(taken) and taken <= _controls(state)


def _controls(state: CaseState) -> set[str]:
    return {control.specimen for control in state.records(Control)}
