"""The use case that weighs an observation over rival explanations."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from pydantic import ValidationError

from strandproof.app.workflow.entering import Desk, open_case
from strandproof.app.workflow.readings import section_read
from strandproof.errors import InvalidEntryError
from strandproof.records.case_state import CaseState
from strandproof.records.entries import (
    Control,
    Entry,
    Hypothesis,
    Likelihood,
    Observation,
    Reading,
    Weighing,
)
from strandproof.records.entries.building import faults_in_words
from strandproof.storage import Addition
from strandproof.weighing import (
    ControlReading,
    Evidence,
    Signature,
    weigh,
    weighing_lines,
)


@dataclass(frozen=True, slots=True)
class Weighted:
    """What is put on the scales.

    Parameters
    ----------
    observation : str
        Observation to be weighed.
    likelihoods : sequence of Likelihood
        One for every hypothesis weighed.
    claim : str or None
        Claim that it is about.
    """

    observation: str
    likelihoods: Sequence[Likelihood]
    claim: str | None = None


def weigh_observation(desk: Desk, label: str, weighted: Weighted) -> Entry:
    """Weigh an observation with all controls read so far, and enter the result.

    Parameters
    ----------
    desk : Desk
        Folder and person.
    label : str
        Short name of the weighing.
    weighted : Weighted
        Observation, likelihoods and claim.

    Returns
    -------
    Entry
        The weighing as entered.
    """
    state = open_case(desk.folder)
    evidence = Evidence(
        observation=state.record(Observation, weighted.observation),
        hypotheses=_hypotheses(state, weighted.likelihoods),
        likelihoods=tuple(weighted.likelihoods),
        controls=control_readings(state),
        claim=weighted.claim,
    )
    signature = Signature(label=label, weighed_by=desk.person, weighed_at=desk.clock())
    return desk.add(Addition(weigh(evidence, signature=signature)))[0]


def _hypotheses(
    state: CaseState, likelihoods: Sequence[Likelihood]
) -> tuple[Hypothesis, ...]:
    """Give the hypotheses weighed, with those of the same kinds that were left out."""
    named = {likelihood.hypothesis for likelihood in likelihoods}
    known = state.records(Hypothesis)
    kinds = {each.kind for each in known if each.id in named}
    return tuple(
        each
        for each in known
        if each.id in named or (each.left_out_because and each.kind in kinds)
    )


def control_readings(state: CaseState) -> tuple[ControlReading, ...]:
    """Find what readers said of the controls of a case, one verdict a control.

    A control that was read more than once counts once, with its first reading.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    tuple of ControlReading
        In the order of the controls.
    """
    first: dict[str, Reading] = {}
    for reading in state.records(Reading):
        section = section_read(state, reading)
        if section is not None:
            first.setdefault(section.specimen, reading)
    return tuple(
        ControlReading(
            control=control,
            verdict=first[control.specimen].verdict,
            blind=first[control.specimen].blind,
            reader=first[control.specimen].reader,
        )
        for control in state.records(Control)
        if control.specimen in first
    )


def likelihoods_of(rows: Sequence[Mapping[str, Any]]) -> tuple[Likelihood, ...]:
    """Build likelihoods from typed fields.

    Parameters
    ----------
    rows : sequence of mapping
        Fields of `Likelihood`, one mapping for each hypothesis.

    Returns
    -------
    tuple of Likelihood
        In order.

    Raises
    ------
    InvalidEntryError
        If a field is missing or does not fit.
    """
    try:
        return tuple(Likelihood.model_validate(row) for row in rows)
    except ValidationError as error:
        raise InvalidEntryError("likelihood", faults_in_words(error)) from None


def weighing_in_words(entry: Entry) -> tuple[str, ...]:
    """Say a weighing, every pair as loud as the others.

    Parameters
    ----------
    entry : Entry
        Entry of a weighing.

    Returns
    -------
    tuple of str
        Lines for people; empty for an entry of another kind.
    """
    if not isinstance(entry.body, Weighing):
        return ()
    return (*weighing_lines(entry.body), *entry.body.note.splitlines())
