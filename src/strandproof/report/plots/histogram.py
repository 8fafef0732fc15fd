"""Many single values as bars, with their mean and its interval above them."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import floor

from markupsafe import Markup

from strandproof.errors import ParameterError
from strandproof.quantity import unit_text
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
    round_step,
    round_ticks,
    span_of,
    svg_plot,
    tick,
    value_axis,
    words,
)
from strandproof.report.plots.means import MeanWithInterval, mean_sign

_LEFT, _RIGHT = 36, WIDTH - 12
_MEAN_ROW, _BARS = 26, 150
_FEWEST_BINS, _MOST_BINS = 5, 20


@dataclass(frozen=True, slots=True)
class _Bins:
    """Bins of equal width that begin at a multiple of it, and what is in each."""

    start: float
    width: float
    counts: tuple[int, ...]

    def edge(self, number: int) -> float:
        return tick(self.start + number * self.width)


def histogram_svg(
    values: Sequence[float],
    *,
    mean: MeanWithInterval,
    quantity: str,
    unit: str,
    title: str,
) -> Markup:
    """Draw single values as a histogram, with their mean and its interval.

    The bins are of equal, round width; about the square root of the number of values
    is how many there are, from 5 to 20. The mean comes from the caller: often it is no
    plain mean of the values (by cable, by test line).

    Parameters
    ----------
    values : sequence of float
        One or more single values, for example intercepts or grain areas.
    mean : MeanWithInterval
        The mean that is stated, and its interval.
    quantity : str
        What is shown, for example "lineal intercept".
    unit : str
        Unit of all numbers, for example ``"um"``.
    title : str
        What and of which piece.

    Returns
    -------
    Markup
        An SVG element, 390 units wide.

    Raises
    ------
    ParameterError
        If there is no value, or one is not finite.

    Examples
    --------
    >>> svg = histogram_svg(
    ...     [7.0, 8.0, 9.5], mean=MeanWithInterval(value=8.2), quantity="intercept",
    ...     unit="um", title="Intercepts of E1",
    ... )
    >>> svg.startswith("<svg"), "no interval stated" in svg
    (True, True)
    """
    if not values:
        raise ParameterError("values", tuple(values), allowed="one value or more")
    require_finite("values", values)
    bins = _bins(values)
    scale = _scale(bins, mean)
    top_words, top = heading(title)
    floor_y = top + _MEAN_ROW + _BARS
    label = f"{quantity}, {unit_text(unit)}"
    note, bottom = paragraph(_note(values, mean, unit), floor_y + 2 * LINE + 12)
    body = (
        top_words
        + _bars(bins, scale, floor_y)
        + _mean_line(mean, scale, top + _MEAN_ROW / 2, floor_y)
        + mean_sign(mean, scale, top + _MEAN_ROW / 2)
        + value_axis(scale, floor_y, label=label)
        + note
    )
    told = _described(values, bins, quantity, unit) + _note(values, mean, unit)
    return svg_plot(title=title, description=told, body=body, height=bottom + 6)


def _bins(values: Sequence[float]) -> _Bins:
    low, high = min(values), max(values)
    wanted = min(max(round(len(values) ** 0.5), _FEWEST_BINS), _MOST_BINS)
    width = round_step(span_of(low, high), wanted)
    start = tick(floor(low / width) * width)
    number = max(1, floor((high - start) / width * (1 + 1e-12)) + 1)
    counts = [0] * number
    for value in values:
        place = floor((value - start) / width * (1 + 1e-12))
        counts[min(max(place, 0), number - 1)] += 1
    return _Bins(start, width, tuple(counts))


def _scale(bins: _Bins, mean: MeanWithInterval) -> Scale:
    ends = (bins.start, bins.edge(len(bins.counts)), *mean.ends())
    return Scale(min(ends), max(ends), _LEFT, _RIGHT)


def _bars(bins: _Bins, scale: Scale, floor_y: float) -> str:
    most = max(bins.counts)
    heights = Scale(0, most, floor_y, floor_y - _BARS)
    parts = [words("number", 0, floor_y - _BARS - 8)]
    for value in round_ticks(0, most, 4):
        if value == int(value):
            y = heights.place(value)
            parts.append(
                line((_LEFT, y), (_RIGHT, y), style=f'stroke="{FILL}"')
                + words(f"{value:g}", _LEFT - 6, y + 4.5, anchor="end")
            )
    for k, count in enumerate(bins.counts):
        if count:
            left, right = scale.place(bins.edge(k)), scale.place(bins.edge(k + 1))
            y = heights.place(count)
            parts.append(
                f'<rect x="{number(left)}" y="{number(y)}" '
                f'width="{number(right - left)}" height="{number(floor_y - y)}" '
                f'fill="{FILL}" stroke="{INK}"/>'
            )
    return "".join(parts)


def _mean_line(mean: MeanWithInterval, scale: Scale, top: float, floor_y: float) -> str:
    x = scale.place(mean.value)
    look = f'stroke="{ACCENT}" stroke-width="2" stroke-dasharray="6 4"'
    drawn = line((x, top), (x, floor_y), style=look)
    for end in (mean.lower, mean.upper):
        if end is not None:
            x = scale.place(end)
            thin = f'stroke="{QUIET}" stroke-dasharray="1 3"'
            drawn += line((x, top), (x, floor_y), style=thin)
    return drawn


def _note(values: Sequence[float], mean: MeanWithInterval, unit: str) -> str:
    count = "One value" if len(values) == 1 else f"{len(values)} values"
    says = f"{count}. Circle: mean {mean.in_words(unit)}."
    if mean.lower is not None or mean.upper is not None:
        says += " The bar is the interval of the mean, not the spread of the values."
    return says


def _described(values: Sequence[float], bins: _Bins, quantity: str, unit: str) -> str:
    told = unit_text(unit)
    fullest = bins.counts.index(max(bins.counts))
    return (
        f"Histogram of {quantity}: from {min(values):.4g} to {max(values):.4g} {told}, "
        f"in bins of {bins.width:g} {told}; the fullest, {bins.edge(fullest):g} to "
        f"{bins.edge(fullest + 1):g} {told}, holds {max(bins.counts)}. "
    )
