"""Directions of marks as a rose: many alike may be scratches."""

from collections.abc import Sequence
from math import cos, radians, sin, sqrt

from markupsafe import Markup

from strandproof.errors import ParameterError
from strandproof.report.plots.canvas import (
    ACCENT,
    FILL,
    INK,
    LINE,
    QUIET,
    WIDTH,
    heading,
    line,
    number,
    paragraph,
    require_finite,
    round_ticks,
    svg_plot,
    words,
)

_RADIUS = 128
_MIDDLE = WIDTH / 2
_LABELLED = (0, 45, 90, -45)
_ANCHORS = {0: "start", 45: "start", 90: "middle", -45: "start"}
_RING_LABELS_AT = 157.5  # between the labels of directions
_STRAIGHT = 180
_ROUNDING = 1e-9  # a direction at the end of the range lies in it


def direction_rose_svg(
    directions_deg: Sequence[float],
    *,
    title: str,
    what: str = "marks",
    sector_deg: int = 10,
    pointed_at_deg: tuple[float, float] | None = None,
) -> Markup:
    """Draw directions of lines as a rose of sectors.

    A line has no head, so each direction is drawn twice, on opposite sides. The first
    sector is centred on the picture's +x; the area of a sector tells how many.

    Parameters
    ----------
    directions_deg : sequence of float
        Directions of the marks [deg], from the picture's +x towards +y upwards; 180 deg
        more is the same direction.
    title : str
        What and of which piece.
    what : str
        What has these directions, in the plural.
    sector_deg : int
        Width of a sector [deg]; divides 180, and is 1 to 60.
    pointed_at_deg : tuple of float, optional
        From and to [deg], anticlockwise, at most 180 apart: a range to be pointed at,
        with how many lie within it, ends included.

    Returns
    -------
    Markup
        An SVG element, 390 units wide.

    Raises
    ------
    ParameterError
        If there is no direction, one is not finite, or a width does not fit.

    Examples
    --------
    >>> svg = direction_rose_svg([10, 11, 12, 80], title="A2", pointed_at_deg=(9, 12))
    >>> "3 of 4 marks lie within 3°" in svg
    True
    """
    _check(directions_deg, sector_deg, pointed_at_deg)
    counts = _counts(directions_deg, sector_deg)
    top_words, top = heading(title)
    centre = top + LINE + _RADIUS + 8
    note = _note(directions_deg, what, pointed_at_deg)
    told, bottom = paragraph(note, centre + _RADIUS + LINE + 14)
    body = (
        top_words
        + _rings(max(counts), centre)
        + _sectors(counts, sector_deg, centre)
        + _ring_numbers(max(counts), centre)
        + _pointer(pointed_at_deg, centre)
        + _direction_labels(centre)
        + told
    )
    fullest = counts.index(max(counts)) * sector_deg
    says = (
        f"Rose of the directions of {what}, sectors of {sector_deg}°; the fullest "
        f"is centred on {_degrees(fullest)} and holds {max(counts)}. {note}"
    )
    return svg_plot(title=title, description=says, body=body, height=bottom + 6)


def _check(
    directions: Sequence[float],
    sector: int,
    pointed_at: tuple[float, float] | None,
) -> None:
    if not directions:
        raise ParameterError(
            "directions_deg", tuple(directions), allowed="one direction or more"
        )
    require_finite("directions_deg", directions)
    if not (1 <= sector <= 60 and _STRAIGHT % sector == 0):
        raise ParameterError(
            "sector_deg", sector, allowed="a divisor of 180 from 1 to 60"
        )
    if pointed_at is not None:
        require_finite("pointed_at_deg", pointed_at)
        if not 0 <= pointed_at[1] - pointed_at[0] <= _STRAIGHT:
            raise ParameterError(
                "pointed_at_deg",
                pointed_at,
                allowed="from and to, anticlockwise, at most 180 apart",
            )


def _counts(directions: Sequence[float], sector: int) -> list[int]:
    counts = [0] * (_STRAIGHT // sector)
    for direction in directions:
        # Rounding can carry 179.999... to the sector that begins the round again.
        place = int((direction % _STRAIGHT + sector / 2) // sector)
        counts[place % len(counts)] += 1
    return counts


def _degrees(direction: float) -> str:
    """Write a direction between -90 and 90 degrees."""
    turned = direction % _STRAIGHT
    signed = turned - _STRAIGHT if turned > 90 else turned
    return f"{signed:.4g}°".replace("-", "−")


def _point(direction: float, radius: float, centre: float) -> tuple[float, float]:
    turn = radians(direction)
    return _MIDDLE + radius * cos(turn), centre - radius * sin(turn)


def _reach(count: float, most: int) -> float:
    return _RADIUS * sqrt(count / most)


def _ring_counts(most: int) -> tuple[float, ...]:
    ticks = [value for value in round_ticks(0, most, 3) if value == int(value) > 0]
    return tuple(ticks) or (float(most),)


def _rings(most: int, centre: float) -> str:
    parts = [
        f'<circle cx="{number(_MIDDLE)}" cy="{number(centre)}" '
        f'r="{number(_reach(value, most))}" fill="none" stroke="{FILL}"/>'
        for value in _ring_counts(most)
    ]
    style = f'stroke="{FILL}"'
    for direction in _LABELLED:
        ends = (_point(direction + turn, _RADIUS, centre) for turn in (0, _STRAIGHT))
        parts.append(line(next(ends), next(ends), style=style))
    return "".join(parts)


def _ring_numbers(most: int, centre: float) -> str:
    parts = []
    for value in _ring_counts(most):
        x, y = _point(_RING_LABELS_AT, _reach(value, most), centre)
        halo = 'stroke="#fff" stroke-width="4" paint-order="stroke"'
        parts.append(
            f'<g fill="{QUIET}" {halo}>'
            + words(f"{value:g}", x, y + 4.5, anchor="middle")
            + "</g>"
        )
    return "".join(parts)


def _sectors(counts: Sequence[int], sector: int, centre: float) -> str:
    most = max(counts)
    parts = []
    for k, count in enumerate(counts):
        if count:
            reach = _reach(count, most)
            for turn in (0, _STRAIGHT):
                middle = k * sector + turn
                x1, y1 = _point(middle - sector / 2, reach, centre)
                x2, y2 = _point(middle + sector / 2, reach, centre)
                parts.append(
                    f'<path d="M{number(_MIDDLE)} {number(centre)} '
                    f"L{number(x1)} {number(y1)} A{number(reach)} {number(reach)} "
                    f'0 0 0 {number(x2)} {number(y2)} z" '
                    f'fill="#b9c1c6" stroke="{INK}"/>'
                )
    return "".join(parts)


def _pointer(pointed_at: tuple[float, float] | None, centre: float) -> str:
    """Draw arcs outside of the rose; a range of no width still gets a dash."""
    if pointed_at is None:
        return ""
    radius = _RADIUS + 7
    start, end = pointed_at
    if end - start < 2:
        start, end = (start + end) / 2 - 1, (start + end) / 2 + 1
    parts = []
    for turn in (0, _STRAIGHT):
        x1, y1 = _point(start + turn, radius, centre)
        x2, y2 = _point(end + turn, radius, centre)
        parts.append(
            f'<path d="M{number(x1)} {number(y1)} A{number(radius)} {number(radius)} '
            f'0 0 0 {number(x2)} {number(y2)}" fill="none" stroke="{ACCENT}" '
            'stroke-width="9"/>'
        )
    return "".join(parts)


def _direction_labels(centre: float) -> str:
    parts = []
    for direction in _LABELLED:
        x, y = _point(direction, _RADIUS + 16, centre)
        told = _degrees(direction)
        parts.append(words(told, x, y + 4.5, anchor=_ANCHORS[direction]))
    return "".join(parts)


def _note(
    directions: Sequence[float], what: str, pointed_at: tuple[float, float] | None
) -> str:
    total = len(directions)
    says = f"{total} {what}. 0° is along the picture's rows; area tells the number."
    if pointed_at is None:
        return says
    start, end = pointed_at
    width = end - start
    within = sum(
        (each - start + _ROUNDING) % _STRAIGHT <= width + 2 * _ROUNDING
        for each in directions
    )
    return (
        f"{says} Thick arc: {within} of {total} {what} lie within {width:.4g}°, from "
        f"{_degrees(start)} to {_degrees(end)}."
    )
