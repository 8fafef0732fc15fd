"""Every planned field at its place: used ones as boxes, the others crossed out."""

from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from strandproof.errors import ParameterError
from strandproof.report.plots.canvas import (
    ACCENT,
    FILL,
    INK,
    LINE,
    QUIET,
    WIDTH,
    Scale,
    heading,
    line,
    number,
    paragraph,
    require_finite,
    shortened,
    svg_plot,
    value_axis,
    words,
)

_NAMES = 92  # room for the name of a section
_ROW = 22
_BOX = 12
_LEAST_BOX = 6.0
_FACE = 7
_FACES_IN_ROW = 3
_NOTE = (
    "Box or circle: a planned field that is used. Crossed out: one that is not; the "
    "reason stands in the list."
)


@dataclass(frozen=True, slots=True)
class FieldStrip:
    """The planned fields of one long section.

    Parameters
    ----------
    section : str
        Name of the section.
    places_mm : tuple of float
        Near edge of each field along the section [mm].
    used : tuple of bool
        Whether each is used.
    """

    section: str
    places_mm: tuple[float, ...]
    used: tuple[bool, ...]


def field_places_svg(
    strips: Sequence[FieldStrip],
    faces: Sequence[tuple[str, bool]],
    *,
    length_mm: float,
    width_mm: float,
    title: str,
) -> Markup:
    """Draw every planned field where it lies.

    Parameters
    ----------
    strips : sequence of FieldStrip
        Long sections.
    faces : sequence of (str, bool)
        Transverse sections whose whole face is a field, and whether it is used.
    length_mm : float
        Length within which places were drawn [mm].
    width_mm : float
        Width of a field [mm]; narrow ones are drawn wider, so that they show.
    title : str
        What it is about.

    Returns
    -------
    Markup
        An SVG element.

    Raises
    ------
    ParameterError
        If there is no field, or a size is not above zero.
    """
    if not strips and not faces:
        raise ParameterError("fields", 0, allowed="one planned field or more")
    if not (length_mm > 0 and width_mm > 0):
        raise ParameterError(
            "length and width", (length_mm, width_mm), allowed="above zero"
        )
    require_finite("places", [x for strip in strips for x in strip.places_mm])
    top, y = heading(title)
    parts = [top]
    scale = Scale(0.0, length_mm, _NAMES, WIDTH - 12)
    for strip in strips:
        parts.append(_strip(strip, scale, y, width_mm=width_mm))
        y += _ROW
    if strips:
        label = "mm from the coded end"
        parts.append(value_axis(scale, y + 4, label=label, most=5))
        y += 3.6 * LINE
    drawn, y = _faces(faces, y)
    note, bottom = paragraph(_NOTE, y + 4)
    return svg_plot(
        title=title,
        description=_description(strips, faces),
        body="".join([*parts, drawn, note]),
        height=bottom + 6,
    )


def _strip(strip: FieldStrip, scale: Scale, y: float, *, width_mm: float) -> str:
    middle = y + _ROW / 2
    name = words(shortened(strip.section, _NAMES - 8), 0, middle + 4.5)
    axis = line((scale.start, middle), (scale.end, middle), style=f'stroke="{QUIET}"')
    wide = max(_LEAST_BOX, scale.place(width_mm) - scale.start)
    boxes = [
        _box(scale.place(place), middle, wide, used=used)
        for place, used in zip(strip.places_mm, strip.used, strict=True)
    ]
    return "".join([name, axis, *boxes])


def _box(x: float, middle: float, wide: float, *, used: bool) -> str:
    top, bottom = middle - _BOX / 2, middle + _BOX / 2
    fill = FILL if used else "#fff"
    box = (
        f'<rect x="{number(x)}" y="{number(top)}" width="{number(wide)}" '
        f'height="{_BOX}" fill="{fill}" stroke="{INK}"/>'
    )
    return box if used else box + _cross((x, top), (x + wide, bottom))


def _faces(faces: Sequence[tuple[str, bool]], y: float) -> tuple[str, float]:
    """Draw whole faces, three in a row."""
    parts = []
    column = WIDTH / _FACES_IN_ROW
    for place, (name, used) in enumerate(faces):
        x = column * (place % _FACES_IN_ROW) + _FACE + 2
        middle = y + _ROW * (place // _FACES_IN_ROW) + _ROW / 2
        fill = FILL if used else "#fff"
        parts.append(
            f'<circle cx="{number(x)}" cy="{number(middle)}" r="{_FACE}" '
            f'fill="{fill}" stroke="{INK}"/>'
        )
        if not used:
            parts.append(
                _cross((x - _FACE, middle - _FACE), (x + _FACE, middle + _FACE))
            )
        label = shortened(name, column - 2 * _FACE - 12)
        parts.append(words(label, x + _FACE + 6, middle + 4.5))
    rows = -(-len(faces) // _FACES_IN_ROW)
    return "".join(parts), y + _ROW * rows


def _cross(corner: tuple[float, float], opposite: tuple[float, float]) -> str:
    (x1, y1), (x2, y2) = corner, opposite
    look = f'stroke="{ACCENT}" stroke-width="2"'
    return line((x1, y1), (x2, y2), style=look) + line((x1, y2), (x2, y1), style=look)


def _description(
    strips: Sequence[FieldStrip], faces: Sequence[tuple[str, bool]]
) -> str:
    told = [
        f"{strip.section}: {sum(strip.used)} of {len(strip.used)} fields used"
        for strip in strips
    ]
    told += [f"{name}: face {'used' if used else 'not used'}" for name, used in faces]
    return "; ".join(told) + "."
