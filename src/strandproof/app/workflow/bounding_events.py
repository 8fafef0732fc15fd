"""Boundaries found along a length, merged to events, and what their rate may be."""

import csv
from collections.abc import Sequence
from math import inf, nan

from strandproof.errors import ParameterError
from strandproof.grainsize.by_level import (
    BoundaryCrossing,
    BoundaryEvent,
    event_rate,
    events_along_axis,
)
from strandproof.grainsize.procedures.digits import three_digits
from strandproof.quantity import (
    Interval,
    format_interval,
    poisson_upper_limit,
    reciprocal_interval,
)
from strandproof.records.entries import MeasuredValue, MeasurementResult

_COLUMNS = ("start_mm", "end_mm")
_TABLE = (
    "a CSV table with the columns start_mm,end_mm; in each row the places in mm of the "
    "two boundaries of a stray crystal, the first one first"
)
_SINGLE = "Leave end_mm empty for a boundary by itself."


def events_at(
    positions_mm: Sequence[float], *, stray_length_mm: float | None
) -> tuple[BoundaryEvent, ...]:
    """Merge boundaries at known places to events.

    Parameters
    ----------
    positions_mm : sequence of float
        Places along the axis [mm].
    stray_length_mm : float or None
        Longest stray crystal [mm]: two neighbouring boundaries at most so far apart
        are one event. None only where there are not two.

    Returns
    -------
    tuple of BoundaryEvent
        Along the axis.

    Raises
    ------
    ParameterError
        If there are two boundaries or more and no length to merge them by.
    """
    if stray_length_mm is None and len(positions_mm) > 1:
        raise ParameterError(
            "stray_length",
            stray_length_mm,
            allowed="the length in mm of the longest stray crystal, 0 or more",
            remedy="Two boundaries of one stray crystal are one event; say how far "
            "apart two may be to count as one (--stray-length).",
        )
    return events_along_axis(
        [BoundaryCrossing(position_mm=each) for each in positions_mm],
        stray_length_mm=stray_length_mm or 0.0,
    )


def stray_crystals_of(content: bytes) -> tuple[BoundaryEvent, ...]:
    """Read stray crystals from a table, one event for each row.

    Parameters
    ----------
    content : bytes
        CSV in UTF-8 with the columns start_mm and end_mm: the two boundaries of a
        stray crystal [mm]. An empty end_mm stands for a boundary by itself.

    Returns
    -------
    tuple of BoundaryEvent
        Along the axis.

    Raises
    ------
    ParameterError
        If it is no such table, or a crystal ends before it begins.
    """
    table = csv.DictReader(content.decode("utf-8-sig", "replace").splitlines())
    columns = tuple(table.fieldnames or ())
    rows = list(table) if columns == _COLUMNS else []
    if not rows:
        given = ",".join(columns) or "no row"
        raise ParameterError("stray_crystals", given, allowed=_TABLE, remedy=_SINGLE)
    events = [_event(row, number) for number, row in enumerate(rows, start=2)]
    return tuple(sorted(events, key=lambda event: event.start_mm))


def require_within(events: Sequence[BoundaryEvent], length_mm: float) -> None:
    """Refuse events off the length seen, and stray crystals that overlap.

    Parameters
    ----------
    events : sequence of BoundaryEvent
        Along the axis.
    length_mm : float
        Length looked at [mm].

    Raises
    ------
    ParameterError
        If one lies outside of 0 to the length, or begins before the last one ends.
    """
    reached = 0.0
    for event in events:
        if not reached <= event.start_mm <= event.end_mm <= length_mm:
            raise ParameterError(
                "place of a boundary",
                _place(event),
                allowed=f"places from 0 to {length_mm:g} mm, one event after another",
                remedy="Count from the beginning of the length that was looked at.",
            )
        reached = event.end_mm


def event_results(
    events: Sequence[BoundaryEvent], length_mm: float
) -> tuple[MeasurementResult, ...]:
    """Say how often events come along the length, with exact limits.

    The limit stated is the one-sided one, as it is where none was resolved.

    Parameters
    ----------
    events : sequence of BoundaryEvent
        One or more.
    length_mm : float
        Length looked at [mm].

    Returns
    -------
    tuple of MeasurementResult
        Rate, mean distance, places.
    """
    number = len(events)
    at_most = poisson_upper_limit(number, exposure=length_mm, unit="1/mm")
    at_least = reciprocal_interval(at_most, unit="mm")
    return (
        MeasurementResult(
            name="events_per_mm",
            value=MeasuredValue(
                value=number / length_mm,
                unit="1/mm",
                upper=at_most.upper,
                confidence=at_most.confidence,
                interval_method=at_most.method,
            ),
            words=_sentence(events, length_mm, at_most),
        ),
        MeasurementResult(
            name="mean_event_distance",
            value=MeasuredValue(
                value=length_mm / number,
                unit="mm",
                lower=at_least.lower,
                confidence=at_least.confidence,
                interval_method=at_least.method,
            ),
        ),
        MeasurementResult(
            name="places_of_the_events",
            value=None,
            words="; ".join(map(_place, events))
            + ". The two boundaries of one stray crystal are one event.",
        ),
    )


def _sentence(
    events: Sequence[BoundaryEvent], length_mm: float, at_most: Interval
) -> str:
    rate = event_rate(events, length_mm=length_mm)
    number = "one event" if rate.events == 1 else f"{rate.events} events"
    lines = "1 boundary" if rate.boundaries == 1 else f"{rate.boundaries} boundaries"
    said = format_interval(at_most, ascii_only=True).replace("1/mm", "per mm")
    # Three digits of each limit: rounded alike, the lower one could read as zero.
    ends = (three_digits(end or 0.0) for end in (rate.limits.lower, rate.limits.upper))
    return (
        f"{number} ({lines}) in {length_mm:.4g} mm: {said}; "
        f"two-sided {' to '.join(ends)} per mm (95 %)."
    ).capitalize()


def _place(event: BoundaryEvent) -> str:
    if event.boundaries == 1:
        return f"a boundary at {event.start_mm:g} mm"
    return f"a stray crystal from {event.start_mm:g} to {event.end_mm:g} mm"


def _event(row: dict[str, str | None], number: int) -> BoundaryEvent:
    """Read one row.

    Raises
    ------
    ParameterError
        If the places are no numbers in order.
    """
    start_text, end_text = (str(row[name] or "").strip() for name in _COLUMNS)
    try:
        start = float(start_text)
        end = float(end_text) if end_text else start
    except ValueError:
        start, end = nan, nan
    if not -inf < start <= end < inf or None in row:
        given = f"line {number}: {start_text},{end_text}"
        raise ParameterError("stray_crystals", given, allowed=_TABLE, remedy=_SINGLE)
    return BoundaryEvent(start_mm=start, end_mm=end, boundaries=2 if end_text else 1)
