"""What a bench measurement says, entered into a case with what it bears on."""

from dataclasses import dataclass

from strandproof.app.workflow.entering import Desk
from strandproof.errors import ParameterError
from strandproof.records.entries import (
    ClaimKind,
    Entry,
    Measurement,
    MeasurementResult,
    Observation,
)
from strandproof.storage import Addition

_METHOD_VERSION = "1"


@dataclass(frozen=True, slots=True, kw_only=True)
class BenchFinding:
    """Numbers from one measurement, in the form that a case holds.

    Parameters
    ----------
    method : str
        Method, in words of the trade.
    results : tuple of MeasurementResult
        The numbers; one at least.
    bears_on : tuple of ClaimKind
        Kinds of claim it bears on; it does not bear on every other kind.
    sentence : str
        What was found, in one sentence, for the weighing.
    flags : tuple of str
        Names of quality flags raised.

    Raises
    ------
    ParameterError
        If there is no result or no sentence.
    """

    method: str
    results: tuple[MeasurementResult, ...]
    bears_on: tuple[ClaimKind, ...]
    sentence: str
    flags: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        if not self.results:
            raise ParameterError("results", self.results, allowed="one or more")
        if not self.sentence:
            raise ParameterError("sentence", self.sentence, allowed="one sentence")

    @property
    def does_not_bear_on(self) -> tuple[ClaimKind, ...]:
        """Every kind of claim that it cannot say anything about."""
        return tuple(kind for kind in ClaimKind if kind not in self.bears_on)


def enter_finding(
    desk: Desk,
    label: str,
    measures: str,
    finding: BenchFinding,
    *,
    observation: str | None = None,
) -> tuple[Entry, ...]:
    """Enter a finding as a measurement and, if wanted, as an observation to weigh.

    Parameters
    ----------
    desk : Desk
        Folder and person.
    label : str
        Short name of the measurement.
    measures : str
        Thing measured, for example ``"specimen/s1"``.
    finding : BenchFinding
        What was found.
    observation : str or None
        Short name of the observation; none: no observation is entered.

    Returns
    -------
    tuple of Entry
        The measurement, then the observation where one was wanted.
    """
    additions = [Addition(_measurement(desk, label, measures, finding))]
    if observation is not None:
        additions.append(Addition(_observation(label, observation, finding)))
    return desk.add(*additions)


def _measurement(
    desk: Desk, label: str, measures: str, finding: BenchFinding
) -> Measurement:
    return Measurement(
        id=label,
        measures=measures,
        method=finding.method,
        method_version=_METHOD_VERSION,
        results=finding.results,
        flags=finding.flags,
        bears_on=finding.bears_on,
        does_not_bear_on=finding.does_not_bear_on,
        measured_at=desk.clock(),
        measured_by=desk.person,
    )


def _observation(
    measurement: str, observation: str, finding: BenchFinding
) -> Observation:
    # The first result that has a number is the one the sentence is about.
    values = [result.value for result in finding.results if result.value is not None]
    return Observation(
        id=observation,
        statement=finding.sentence,
        value=values[0] if values else None,
        evidence=(f"measurement/{measurement}",),
        method=finding.method,
        flags=finding.flags,
        bears_on=finding.bears_on,
        does_not_bear_on=finding.does_not_bear_on,
    )
