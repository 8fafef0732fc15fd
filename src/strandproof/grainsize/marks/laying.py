"""Test lines at places that a seed fixes, so that nobody picks where grains show."""

from collections.abc import Sequence
from math import cos, inf, radians, sin
from random import Random

from strandproof.errors import ParameterError
from strandproof.grainsize.marks.lines import (
    CircularTestLine,
    PlacedLine,
    StraightTestLine,
)

DIRECTIONS_DEG = (0.0, 45.0, 90.0, 135.0)
"""Directions that straight test lines take in turn [deg], from right towards up."""

# A line that only clips a corner of the picture would hold hardly any grain.
_LEAST_SHARE_OF_SIDE = 0.5
_DECIMALS = 1


def lay_test_lines(
    width_px: int,
    height_px: int,
    *,
    lines: int,
    circles: int = 0,
    directions_deg: Sequence[float] = DIRECTIONS_DEG,
    chance: Random,
) -> tuple[PlacedLine, ...]:
    """Lay test lines and circles over a picture at random places.

    Straight lines run from frame to frame, in the directions by turns. Circles are
    as large as half of the picture's shorter side allows.

    Parameters
    ----------
    width_px, height_px : int
        Columns and rows of the picture [px].
    lines : int
        Straight lines wanted; 0 or more.
    circles : int
        Circles wanted; 0 or more.
    directions_deg : sequence of float
        Directions of the lines [deg], from right towards up.
    chance : random.Random
        Source of chance. Its method ``random`` gives the same numbers for the same
        seed in every version of Python, so that a seed is worth recording.

    Returns
    -------
    tuple of StraightTestLine or CircularTestLine
        Numbered from 1, straight lines first; ends rounded to 0.1 px.

    Raises
    ------
    ParameterError
        If no line is wanted, a number is negative, a side is below 16 px, or there
        is no direction.

    Notes
    -----
    A line's distance from the middle of the picture is uniform over the picture's
    width across the line's direction. Lines shorter than half of the shorter side
    are drawn again, so corners are looked at a little less than the rest.

    Examples
    --------
    >>> line = lay_test_lines(800, 560, lines=1, chance=Random(1))[0]
    >>> line.start_px[0], line.length_px
    (-0.5, 800.0)
    """
    if lines < 0 or circles < 0 or lines + circles == 0:
        raise ParameterError(
            "lines and circles", (lines, circles), allowed="one line or circle or more"
        )
    if min(width_px, height_px) < 16 or not directions_deg:
        raise ParameterError(
            "picture and directions",
            (width_px, height_px, tuple(directions_deg)),
            allowed="sides of 16 px or more, and a direction or more",
        )
    straight = [
        _line_across(
            number + 1,
            (width_px, height_px),
            directions_deg[number % len(directions_deg)],
            chance,
        )
        for number in range(lines)
    ]
    round_ones = [
        _circle_inside(lines + number + 1, (width_px, height_px), chance)
        for number in range(circles)
    ]
    return (*straight, *round_ones)


def _line_across(
    number: int, size: tuple[int, int], direction_deg: float, chance: Random
) -> StraightTestLine:
    across = _exact(cos(radians(direction_deg)))
    down = _exact(-sin(radians(direction_deg)))
    middle = ((size[0] - 1) / 2, (size[1] - 1) / 2)
    extent = abs(down) * size[0] + abs(across) * size[1]
    while True:
        offset = (chance.random() - 0.5) * extent
        point = (middle[0] - offset * down, middle[1] + offset * across)
        first, last = _span(size, point, (across, down))
        if last - first >= _LEAST_SHARE_OF_SIDE * min(size):
            break
    ends = [
        (
            round(point[0] + place * across, _DECIMALS),
            round(point[1] + place * down, _DECIMALS),
        )
        for place in (first, last)
    ]
    return StraightTestLine(number=number, start_px=ends[0], end_px=ends[1])


def _circle_inside(
    number: int, size: tuple[int, int], chance: Random
) -> CircularTestLine:
    radius = round(0.25 * min(size), _DECIMALS)
    column, row = (
        round(radius - 0.5 + chance.random() * (side - 2 * radius), _DECIMALS)
        for side in size
    )
    return CircularTestLine(number=number, centre_px=(column, row), radius_px=radius)


def _span(
    size: tuple[int, int], point: tuple[float, float], step: tuple[float, float]
) -> tuple[float, float]:
    """First and last distance from a point at which the line is on the picture."""
    first, last = -inf, inf
    for side, at, slope in zip(size, point, step, strict=True):
        if slope == 0.0:
            continue
        near, far = sorted(((-0.5 - at) / slope, (side - 0.5 - at) / slope))
        first, last = max(first, near), min(last, far)
    return first, last


def _exact(step: float) -> float:
    return 0.0 if abs(step) < 1e-12 else step
