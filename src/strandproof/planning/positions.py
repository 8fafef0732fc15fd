"""Places on sections: drawn by chance before anyone looks; anyone can draw again."""

from collections.abc import Iterable, Sequence
from itertools import count
from random import Random

from strandproof.errors import ParameterError
from strandproof.records.entries import FieldDraw, PlannedField

_UM_PER_MM = 1000


def draw_fields(
    long_sections: Sequence[str], faces: Sequence[str], *, draw: FieldDraw
) -> tuple[PlannedField, ...]:
    """Draw the places of all fields to be looked at.

    Assumes that every long section is at least as long as the draw says; a shorter
    one has to be drawn anew, as a deviation.

    Parameters
    ----------
    long_sections : sequence of str
        Names of the long sections, in the order of the draw.
    faces : sequence of str
        Names of the transverse sections; the whole face of each is one field.
    draw : FieldDraw
        Seed, fields on each long section, its length, width of a field.

    Returns
    -------
    tuple of PlannedField
        Those of the long sections by their place along it, then the faces.

    Raises
    ------
    ParameterError
        If a name stands twice, or the fields do not fit on the section.

    Notes
    -----
    With k fields of width w on a length L: k numbers u from 0 to 1, sorted, put field
    i at u_i (L - k w) + (i - 1) w. Every arrangement without overlap is equally
    likely. Whole micrometres; the numbers are those of Python's ``random.Random(seed)
    .random()``, section after section, which that language promises to keep.

    Examples
    --------
    >>> draw = FieldDraw(
    ...     seed=1, fields_per_section=5, section_length_mm=10, field_width_mm=0.31
    ... )
    >>> fields = draw_fields(["a-L"], ["a-T"], draw=draw)
    >>> len(fields), fields[-1].extent
    (6, 'whole_face')
    """
    names = [*long_sections, *faces]
    if len(set(names)) < len(names):
        raise ParameterError("sections", names, allowed="each name once")
    chance = Random(draw.seed)  # noqa: S311 - places that anyone can draw again
    return (
        *(
            PlannedField(section=name, number=number, position_mm=place / _UM_PER_MM)
            for name in long_sections
            for number, place in zip(count(1), _places_um(draw, chance), strict=False)
        ),
        *(PlannedField(section=name, number=1, extent="whole_face") for name in faces),
    )


def drawn_by(fields: Iterable[PlannedField], draw: FieldDraw) -> bool:
    """Tell whether fields lie where a draw puts them.

    Parameters
    ----------
    fields : iterable of PlannedField
        Fields of a plan.
    draw : FieldDraw
        How they are said to have been drawn.

    Returns
    -------
    bool
        False for places that were moved, taken out or put in.
    """
    given = tuple(fields)
    long_sections = tuple(
        dict.fromkeys(each.section for each in given if each.extent == "field")
    )
    faces = tuple(each.section for each in given if each.extent == "whole_face")
    return given == draw_fields(long_sections, faces, draw=draw)


def _places_um(draw: FieldDraw, chance: Random) -> list[int]:
    """Draw the near edges of the fields of one section [um].

    Raises
    ------
    ParameterError
        If they do not fit on it.
    """
    width = round(draw.field_width_mm * _UM_PER_MM)
    free = round(draw.section_length_mm * _UM_PER_MM) - draw.fields_per_section * width
    if free < 0:
        raise ParameterError(
            "fields_per_section",
            draw.fields_per_section,
            allowed=f"fields of {draw.field_width_mm:g} mm that fit on "
            f"{draw.section_length_mm:g} mm",
        )
    numbers = sorted(chance.random() for _ in range(draw.fields_per_section))
    return [int(u * (free + 1)) + i * width for i, u in enumerate(numbers)]
