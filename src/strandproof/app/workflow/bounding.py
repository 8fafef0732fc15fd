"""The use case that enters a bound where no boundary, or hardly one, was resolved."""

from collections.abc import Sequence

from strandproof.app.workflow.bounding_events import event_results, require_within
from strandproof.app.workflow.deciding import control_readings
from strandproof.app.workflow.entering import Desk, open_case
from strandproof.grainsize.by_level import BoundaryEvent
from strandproof.records.case_state import CaseState
from strandproof.records.entries import (
    ClaimKind,
    Entry,
    Measurement,
    MeasurementResult,
    Section,
)
from strandproof.records.entries.bodies import MeasuredValue
from strandproof.storage import Addition
from strandproof.weighing import NoBoundaryBound, no_boundary_bound


def enter_no_boundary(
    desk: Desk,
    label: str,
    specimen: str,
    *,
    length_mm: float,
    events: Sequence[BoundaryEvent] = (),
) -> Entry:
    """Enter what may be said when no boundary was or few were resolved over a length.

    With events the piece is more than one crystal, and their rate has exact limits.
    Without, "single" needs a control with boundaries, in the same mount, that showed
    its own; without one the structure stays undecided, and the bound is flagged.

    Parameters
    ----------
    desk : Desk
        Folder and person.
    label : str
        Short name of the measurement.
    specimen : str
        Specimen looked at.
    length_mm : float
        Length of long section looked at [mm].
    events : sequence of BoundaryEvent
        What was resolved there, from `events_at` or `stray_crystals_of`.

    Returns
    -------
    Entry
        The measurement as entered.
    """
    require_within(events, length_mm)
    would_show = _boundaries_would_show(open_case(desk.folder), specimen)
    results = (
        event_results(events, length_mm)
        if events
        else _results(no_boundary_bound(length_mm))
    )
    undecided = not (events or would_show)
    body = Measurement(
        id=label,
        measures=f"specimen/{specimen}",
        method=f"boundaries looked for along {length_mm:g} mm of long section",
        method_version="1",
        results=results,
        verdict="undecided" if undecided else "poly" if events else "single",
        flags=("no_boundary_found",) if undecided else (),
        bears_on=(ClaimKind.CRYSTAL_STATE,),
        does_not_bear_on=tuple(
            kind for kind in ClaimKind if kind != ClaimKind.CRYSTAL_STATE
        ),
        measured_at=desk.clock(),
        measured_by=desk.person,
    )
    return desk.add(Addition(body))[0]


def bound_in_words(entry: Entry) -> str:
    """Say what an entry says of the rate along the length.

    Parameters
    ----------
    entry : Entry
        From `enter_no_boundary`.

    Returns
    -------
    str
        Its first sentence; empty for another kind of entry.
    """
    body = entry.body
    return body.results[0].words if isinstance(body, Measurement) else ""


def _results(bound: NoBoundaryBound) -> tuple[MeasurementResult, ...]:
    rate, spacing = bound.rate, bound.spacing
    return (
        MeasurementResult(
            name="boundaries_per_mm",
            value=MeasuredValue(
                value=0.0,
                unit="1/mm",
                upper=rate.upper,
                confidence=rate.confidence,
                interval_method=rate.method,
            ),
            words=bound.sentence,
        ),
        MeasurementResult(
            name="mean_crystal_length",
            value=MeasuredValue(
                value=spacing.lower or 0.0,
                unit=spacing.unit,
                lower=spacing.lower,
                confidence=spacing.confidence,
                interval_method=spacing.method,
            ),
        ),
    )


def _boundaries_would_show(state: CaseState, specimen: str) -> bool:
    """Tell whether a control in the specimen's mount showed its boundaries."""
    sections = state.records(Section)
    mounts = {s.mount for s in sections if s.specimen == specimen and s.mount}
    return any(
        each.control.kind == "polycrystal"
        and each.verdict == "boundaries"
        and each.control.mount in mounts
        for each in control_readings(state)
    )
