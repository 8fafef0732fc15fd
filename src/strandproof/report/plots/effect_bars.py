"""Ranges of effects at three temperatures, as bars over powers of ten."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import log10

from markupsafe import Markup

from strandproof.errors import ParameterError
from strandproof.report.plots.canvas import (
    ACCENT,
    INK,
    LINE,
    RANGE,
    WIDTH,
    Scale,
    heading,
    line,
    number,
    paragraph,
    require_finite,
    shortened,
    svg_plot,
    words,
)
from strandproof.report.plots.decades import decade_axis, decade_lines, plain_power

_LEFT, _RIGHT = 58, WIDTH - 32
_LOW_PERCENT, _HIGH_PERCENT = 0.001, 10_000.0
_BAR, _STEP = 9, 16
# Dark, middle and light, the last with an outline: they differ in grey too.
_LOOKS = (
    ("293 K", f'fill="{ACCENT}"'),
    ("77 K", f'fill="{RANGE}"'),
    ("4.2 K", f'fill="#fff" stroke="{INK}" stroke-width="1.2"'),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class EffectRow:
    """One effect at room temperature, in liquid nitrogen and in liquid helium.

    Parameters
    ----------
    name : str
        Which effect, in words.
    percents : tuple of three tuples of float
        Lower and upper increase at 293, 77 and 4.2 K [%]; zero or above.
    """

    name: str
    percents: tuple[tuple[float, float], tuple[float, float], tuple[float, float]]


def effect_bars_svg(
    rows: Sequence[EffectRow], *, reachable_percent: float | None, title: str
) -> Markup:
    """Draw effects as ranges, with the uncertainty that can be reached as a line.

    Parameters
    ----------
    rows : sequence of EffectRow
        One or more.
    reachable_percent : float or None
        Expanded uncertainty of the conductivity at room temperature [%].
    title : str
        What is shown.

    Returns
    -------
    Markup
        An SVG element, 390 units wide.

    Raises
    ------
    ParameterError
        If there is no row or a number is negative or not finite.

    Examples
    --------
    >>> row = EffectRow(
    ...     name="boundaries", percents=((0.1, 0.3), (0.8, 2.5), (44.0, 131.0))
    ... )
    >>> "boundaries" in effect_bars_svg([row], reachable_percent=0.4, title="A strand")
    True
    """
    _check(rows, reachable_percent)
    title_words, top = heading(title)
    scale = Scale(log10(_LOW_PERCENT), log10(_HIGH_PERCENT), _LEFT, _RIGHT)
    begin = top + (LINE + 6 if reachable_percent is not None else 4)
    each = LINE + 3 * _STEP + 8
    bottom = begin + each * len(rows)
    parts = [title_words, decade_lines(scale, (begin, bottom), upright=True)]
    tops = [begin + place * each for place in range(len(rows))]
    for row, row_top in zip(rows, tops, strict=True):
        parts.append(_row(row, scale, row_top))
    if reachable_percent is not None:
        parts.append(_reachable(reachable_percent, scale, tops))
    label = "increase of the resistance, %"
    parts.append(decade_axis(scale, bottom, label=label, named=plain_power))
    note, end = paragraph(_NOTE, bottom + 2 * LINE + 12)
    return svg_plot(
        title=title,
        description=_described(rows, reachable_percent),
        body="".join(parts) + note,
        height=end + 6,
    )


_NOTE = (
    "Each bar is the range of the sources, alone and by itself; an arrow says that it "
    "goes on. At 77 K and 4.2 K the increase is over the same metal without it."
)


def _check(rows: Sequence[EffectRow], reachable_percent: float | None) -> None:
    if not rows:
        raise ParameterError("rows", len(rows), allowed="one or more")
    values = [end for row in rows for ends in row.percents for end in ends]
    if reachable_percent is not None:
        values.append(reachable_percent)
    require_finite("percents", values)
    if any(value < 0 for value in values):
        raise ParameterError("percents", min(values), allowed="zero or above")


def _row(row: EffectRow, scale: Scale, top: float) -> str:
    parts = [words(shortened(row.name, WIDTH), 0, top + LINE * 0.8)]
    for place, (ends, (name, look)) in enumerate(
        zip(row.percents, _LOOKS, strict=True)
    ):
        y = top + LINE + place * _STEP + 4
        parts.append(words(name, _LEFT - 12, y + _BAR, anchor="end"))
        parts.append(_bar(ends, scale, y, look))
    return "".join(parts)


def _bar(ends: tuple[float, float], scale: Scale, y: float, look: str) -> str:
    low, high = (log10(max(end, 0.1 * _LOW_PERCENT)) for end in ends)
    start, end = scale.place(low), scale.place(high)
    drawn = (
        f'<rect x="{number(start)}" y="{number(y)}" '
        f'width="{number(max(end - start, 2.0))}" height="{_BAR}" {look}/>'
    )
    if ends[0] < _LOW_PERCENT:
        drawn += (
            f'<path d="M{number(scale.start)} {number(y - 1)} l-6 {_BAR / 2 + 1:g} '
            f'l6 {_BAR / 2 + 1:g} z" fill="{INK}"/>'
        )
    return drawn


def _reachable(percent: float, scale: Scale, tops: Sequence[float]) -> str:
    """Draw the user's uncertainty across the bars it holds for, at 293 K."""
    x = scale.place(log10(max(percent, _LOW_PERCENT)))
    look = f'stroke="{INK}" stroke-width="2.4"'
    ticks = [
        line((x, top + LINE), (x, top + LINE + _BAR + 8), style=look) for top in tops
    ]
    y = tops[0] - 12
    key = line((6, y - 10), (6, y + 6), style=look)
    text = f"your uncertainty at 293 K: {_short(percent)} %"
    return "".join(ticks) + key + words(text, 16, y + 2)


def _described(rows: Sequence[EffectRow], reachable_percent: float | None) -> str:
    told = "; ".join(
        f"{row.name}: "
        + ", ".join(
            f"{_short(low)} to {_short(high)} % at {name}"
            for (low, high), (name, _) in zip(row.percents, _LOOKS, strict=True)
        )
        for row in rows
    )
    reach = (
        ""
        if reachable_percent is None
        else f" Your uncertainty at 293 K: {_short(reachable_percent)} %."
    )
    return f"{told}.{reach} {_NOTE}"


def _short(value: float) -> str:
    return f"{float(f'{value:.2g}'):g}"
