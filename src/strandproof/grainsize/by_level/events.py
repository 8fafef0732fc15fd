"""Events, not lines: the two boundaries of one stray crystal are one event.

A strand that is one crystal but for a stray one shows two boundaries on a line
along its axis, close together. Against a claim such as "one crystal in 100 m" that
is one thing that happened, and counted as two it would look far rarer than it is.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import inf, isfinite

from strandproof.errors import ParameterError
from strandproof.grainsize.by_level.detection import DetectionRates
from strandproof.quantity import (
    Interval,
    binomial_lower_limit,
    format_interval,
    poisson_interval,
    poisson_upper_limit,
)

_CONFIDENCE = 0.95


@dataclass(frozen=True, slots=True, kw_only=True)
class BoundaryCrossing:
    """One boundary crossed by a line along the strand axis.

    Parameters
    ----------
    position_mm : float
        Place along the axis [mm].
    before, after : str or None
        Names of the crystals on both sides, the same name for the same crystal or
        orientation; None where nobody can tell.

    Raises
    ------
    ParameterError
        If the position is not finite, or both sides have the same name.
    """

    position_mm: float
    before: str | None = None
    after: str | None = None

    def __post_init__(self) -> None:
        if not isfinite(self.position_mm):
            raise ParameterError(
                "position_mm", self.position_mm, allowed="a finite number"
            )
        if self.before is not None and self.before == self.after:
            raise ParameterError(
                "after",
                self.after,
                allowed="another crystal than before",
                remedy="Within one crystal there is no boundary.",
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class BoundaryEvent:
    """One event along the axis: a boundary, or a stray crystal with both of its own.

    Parameters
    ----------
    start_mm, end_mm : float
        First and last boundary [mm]; the same for a single one.
    boundaries : int
        1 or 2.
    """

    start_mm: float
    end_mm: float
    boundaries: int


@dataclass(frozen=True, slots=True, kw_only=True)
class EventRate:
    """Events per length with exact limits.

    Parameters
    ----------
    events, boundaries : int
        How many were seen.
    length_mm : float
        Length looked at [mm].
    limits : Interval
        Events per mm: two-sided, or only the upper limit where none was seen.
    sentence : str
        All of it in words.
    """

    events: int
    boundaries: int
    length_mm: float
    limits: Interval
    sentence: str


def events_along_axis(
    crossings: Sequence[BoundaryCrossing], *, stray_length_mm: float
) -> tuple[BoundaryEvent, ...]:
    """Merge the two boundaries of each stray crystal to one event.

    Assumes crossings of one line along one strand. In doubt it merges: fewer
    events speak for a claim of long crystals, so that the count is not made
    against the claim. Two neighbouring boundaries that belong to two long
    crystals and happen to lie close are merged too.

    Parameters
    ----------
    crossings : sequence of BoundaryCrossing
        In any order.
    stray_length_mm : float
        Longest stray crystal [mm]: two neighbouring boundaries at most so far
        apart are taken for those of one; zero or above.

    Returns
    -------
    tuple of BoundaryEvent
        Along the axis. Each boundary is in one event. A boundary is paired with
        the next one if that is near enough, and not known to lead into a third
        crystal; pairs are made from the low end on.

    Raises
    ------
    ParameterError
        If the length is negative.
    """
    if not 0 <= stray_length_mm < inf:
        raise ParameterError("stray_length_mm", stray_length_mm, allowed="zero or more")
    ordered = sorted(crossings, key=lambda crossing: crossing.position_mm)
    events: list[BoundaryEvent] = []
    place = 0
    while place < len(ordered):
        pair = ordered[place : place + 2]
        taken = len(pair) if _one_stray(pair, stray_length_mm) else 1
        events.append(
            BoundaryEvent(
                start_mm=pair[0].position_mm,
                end_mm=pair[taken - 1].position_mm,
                boundaries=taken,
            )
        )
        place += taken
    return tuple(events)


def event_rate(
    events: Sequence[BoundaryEvent],
    *,
    length_mm: float,
    detection: DetectionRates | None = None,
) -> EventRate:
    """Rate of events along the axis with exact 95 % limits.

    Assumes events that fall independently at one rate. "None resolved over this
    length" never becomes "none".

    Parameters
    ----------
    events : sequence of BoundaryEvent
        From one or several strands.
    length_mm : float
        Length looked at [mm]; above 0.
    detection : DetectionRates or None
        Known pieces read in the same way; then the upper limit allows for
        boundaries that the method misses.

    Returns
    -------
    EventRate
        Limits and a sentence.

    Raises
    ------
    ParameterError
        If the length is not above 0, or nothing was found on the known pieces.

    Notes
    -----
    Garwood's limits of the count over the length; with no event the one-sided
    2.996 / L. With known pieces the upper limit, at 97.5 %, is divided by the
    lower 97.5 % limit of the share of boundaries found (Clopper-Pearson), so that
    both hold together with at least 95 % (Bonferroni). An event of two boundaries
    is missed only if both are, so that this is wide.
    """
    number = len(events)
    limits = _limits(number, length_mm, detection)
    boundaries = sum(event.boundaries for event in events)
    return EventRate(
        events=number,
        boundaries=boundaries,
        length_mm=length_mm,
        limits=limits,
        sentence=_sentence(number, boundaries, length_mm, limits),
    )


def _one_stray(pair: Sequence[BoundaryCrossing], stray_length_mm: float) -> bool:
    if len(pair) < 2:
        return False
    first, second = pair
    if second.position_mm - first.position_mm > stray_length_mm:
        return False
    known = first.before is not None and second.after is not None
    return not known or first.before == second.after


def _limits(
    number: int, length_mm: float, detection: DetectionRates | None
) -> Interval:
    if detection is None:
        if number == 0:
            return poisson_upper_limit(0, exposure=length_mm, unit="1/mm")
        return poisson_interval(number, exposure=length_mm, unit="1/mm")
    # Half of the doubt for each of the two statements that must both hold.
    share = 1.0 - (1.0 - _CONFIDENCE) / (2.0 if number == 0 else 4.0)
    found = binomial_lower_limit(detection.found, detection.shown, confidence=share)
    if not found.lower:
        raise ParameterError(
            "detection",
            f"{detection.found} of {detection.shown} boundaries found",
            allowed="known pieces on which boundaries were found",
            remedy="A method that shows no known boundary bounds nothing.",
        )
    upper = poisson_upper_limit(
        number, exposure=length_mm, unit="1/mm", confidence=share
    )
    lower = poisson_interval(number, exposure=length_mm, unit="1/mm").lower
    return Interval(
        lower=lower if number else None,
        upper=(upper.upper or 0.0) / found.lower,
        unit="1/mm",
        confidence=_CONFIDENCE,
        method=f"exact Poisson limit of {number} events over the least share of "
        f"boundaries found on known pieces ({detection.found} of "
        f"{detection.shown}), {'two' if number else 'one'}-sided",
    )


def _sentence(number: int, boundaries: int, length_mm: float, limits: Interval) -> str:
    said = format_interval(limits, ascii_only=True).replace("1/mm", "per mm")
    if number == 0:
        return f"None resolved over {length_mm:.3g} mm, {said}."
    events = "1 event" if number == 1 else f"{number} events"
    lines = "1 boundary" if boundaries == 1 else f"{boundaries} boundaries"
    return f"{events} ({lines}) over {length_mm:.3g} mm: {said}."
