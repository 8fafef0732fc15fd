"""Fields within strands within cables: every value, every mean, every interval."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import chain

from markupsafe import Markup

from strandproof.errors import ParameterError
from strandproof.quantity import unit_text
from strandproof.report.plots.canvas import (
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
    span_of,
    svg_plot,
    value_axis,
    words,
)
from strandproof.report.plots.means import MeanWithInterval, mean_sign

_LEFT, _RIGHT = 84, WIDTH - 14
_STRAND_ROW, _CABLE_GAP, _SIGN_ROW = 20, 12, 24


@dataclass(frozen=True, slots=True, kw_only=True)
class StrandValues:
    """The fields of one strand.

    Parameters
    ----------
    name : str
        Which strand.
    values : tuple of float
        One value for each field; at least one.
    mean : float
        Mean of the strand.
    """

    name: str
    values: tuple[float, ...]
    mean: float


@dataclass(frozen=True, slots=True, kw_only=True)
class CableValues:
    """The strands of one cable.

    Parameters
    ----------
    name : str
        Which cable.
    strands : tuple of StrandValues
        Its strands; at least one.
    mean : float
        Mean of the cable.
    """

    name: str
    strands: tuple[StrandValues, ...]
    mean: float


@dataclass(frozen=True, slots=True, kw_only=True)
class LevelMean:
    """The mean of all, with the interval that one level of units gives.

    Parameters
    ----------
    units : str
        What was taken for independent, in the plural, for example "cables".
    count : int
        How many of them.
    mean : MeanWithInterval
        Mean and interval.
    holds : bool
        False where these units are not independent, so that the interval is shown
        as a warning only.
    speaks_for : str
        What the interval is about; may be empty.
    narrow : bool
        True where it is about the pieces examined only, had others of their parts been
        taken.
    """

    units: str
    count: int
    mean: MeanWithInterval
    holds: bool
    speaks_for: str = ""
    narrow: bool = False


def level_scatter_svg(
    cables: Sequence[CableValues],
    *,
    levels: Sequence[LevelMean],
    quantity: str,
    unit: str,
    title: str,
) -> Markup:
    """Draw every field, the means of strands and cables, and intervals by level.

    An open dot is a field, an upright stroke the mean of its strand, a long stroke
    through all strands the mean of the cable. Below stand the intervals: a thick bar
    where it holds, a thin one where it speaks for the pieces examined only, a dashed
    line where its units are not independent.

    Parameters
    ----------
    cables : sequence of CableValues
        One or more.
    levels : sequence of LevelMean
        Intervals, from top to bottom; may be empty.
    quantity : str
        What is shown.
    unit : str
        Unit of all numbers, for example ``"um"``.
    title : str
        What and of which pieces.

    Returns
    -------
    Markup
        An SVG element, 390 units wide.

    Raises
    ------
    ParameterError
        If there is no cable, a cable without a strand, a strand without a field, or a
        number that is not finite.
    """
    _check(cables)
    scale = _scale(cables, levels)
    top_words, top = heading(title)
    parts = [top_words]
    y = top
    for cable in cables:
        drawn, y = _cable(cable, scale, y)
        parts.append(drawn)
    for level in levels:
        drawn, y = _level(level, scale, y, unit)
        parts.append(drawn)
    y += 4
    parts.append(value_axis(scale, y, label=f"{quantity}, {unit_text(unit)}"))
    note, bottom = paragraph(_note(levels), y + 2 * LINE + 12)
    told = _described(cables, levels, quantity, unit)
    return svg_plot(
        title=title,
        description=told,
        body="".join(parts) + note,
        height=bottom + 6,
    )


def _check(cables: Sequence[CableValues]) -> None:
    strands = [strand for cable in cables for strand in cable.strands]
    whole = all(cable.strands for cable in cables) and all(s.values for s in strands)
    if not (strands and whole):
        raise ParameterError(
            "cables",
            tuple(cable.name for cable in cables),
            allowed="one cable or more, each with a strand, each strand with a field",
        )
    require_finite("values", _numbers(cables))


def _numbers(cables: Sequence[CableValues]) -> list[float]:
    return [
        value
        for cable in cables
        for strand in cable.strands
        for value in (cable.mean, strand.mean, *strand.values)
    ]


def _scale(cables: Sequence[CableValues], levels: Sequence[LevelMean]) -> Scale:
    ends = [level.mean.ends() for level in levels]
    every = [*_numbers(cables), *chain.from_iterable(ends)]
    low, high = min(every), max(every)
    margin = 0.04 * span_of(low, high)
    return Scale(low - margin, high + margin, _LEFT, _RIGHT)


def _cable(cable: CableValues, scale: Scale, top: float) -> tuple[str, float]:
    bottom = top + _CABLE_GAP + _STRAND_ROW * len(cable.strands)
    x = scale.place(cable.mean)
    parts = [
        line((0, top), (_RIGHT, top), style=f'stroke="{FILL}"'),
        line(
            (x, top + 5),
            (x, bottom - 3),
            style=f'stroke="{INK}" stroke-width="1.4"',
        ),
        words(shortened(cable.name, 40), 0, top + _CABLE_GAP / 2 + 14),
    ]
    for k, strand in enumerate(cable.strands):
        y = top + _CABLE_GAP / 2 + _STRAND_ROW * (k + 0.5)
        name = shortened(strand.name, 40)
        parts.append(f'<g fill="{QUIET}">{words(name, 44, y + 4.5)}</g>')
        parts += [_field(value, scale, y) for value in strand.values]
        x = scale.place(strand.mean)
        heavy = f'stroke="{INK}" stroke-width="3"'
        parts.append(line((x, y - 7), (x, y + 7), style=heavy))
    return "".join(parts), bottom


def _field(value: float, scale: Scale, y: float) -> str:
    return (
        f'<circle cx="{number(scale.place(value))}" cy="{number(y)}" r="3.5" '
        f'fill="#fff" fill-opacity="0.6" stroke="{QUIET}"/>'
    )


def _level(level: LevelMean, scale: Scale, top: float, unit: str) -> tuple[str, float]:
    told, below = paragraph(_level_words(level, unit), top + 2)
    rule = line((0, top), (_RIGHT, top), style=f'stroke="{FILL}"')
    sign = mean_sign(
        level.mean, scale, below + 11, holds=level.holds, narrow=level.narrow
    )
    return rule + told + sign, below + _SIGN_ROW


def _level_words(level: LevelMean, unit: str) -> str:
    told = f"{level.count} {level.units}: {level.mean.in_words(unit)}"
    if not level.holds:
        return f"{told}: does not hold"
    return f"{told}, for {level.speaks_for}" if level.speaks_for else told


def _note(levels: Sequence[LevelMean]) -> str:
    signs = (
        "Dot: field. Short stroke: mean of the strand. "
        "Long stroke: mean of the cable or lead."
    )
    if any(level.holds and not level.narrow for level in levels):
        signs += " Thick bar: interval of the mean."
    if any(level.narrow for level in levels):
        signs += " Thin bar: for the very pieces examined only."
    if not all(level.holds for level in levels):
        signs += (
            " Dashed: as if these units were independent; they are not, so it is "
            "shown as a warning."
        )
    return signs


def _described(
    cables: Sequence[CableValues],
    levels: Sequence[LevelMean],
    quantity: str,
    unit: str,
) -> str:
    told = unit_text(unit)
    means = "; ".join(
        f"{cable.name} {cable.mean:.3g} {told} from {_counted(cable)}"
        for cable in cables
    )
    intervals = "".join(f" {_level_words(level, unit)}." for level in levels)
    return f"{quantity} by cable, strand and field. Means: {means}.{intervals}"


def _counted(cable: CableValues) -> str:
    strands = len(cable.strands)
    fields = sum(len(strand.values) for strand in cable.strands)
    return (
        f"{strands} strand{'' if strands == 1 else 's'} and {fields} "
        f"field{'' if fields == 1 else 's'}"
    )
