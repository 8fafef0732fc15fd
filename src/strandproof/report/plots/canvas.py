"""What all plots share: width, letters, inks, scales, ticks, the SVG around them.

A plot is 390 units wide, as a phone is, and its smallest letters are 13 units high;
on a wider page it grows. Nothing is told by colour alone: the one accent is dark in
grey, and whatever it marks has a shape of its own too.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from hashlib import sha256
from math import ceil, floor, isfinite, log10
from textwrap import wrap

from markupsafe import Markup, escape

from strandproof.errors import ParameterError

WIDTH = 390
LETTERS, HEADING = 13, 15
LINE = 18
INK, QUIET, RANGE, FILL, ACCENT = "#1d2226", "#566067", "#9aa5ab", "#dde2e4", "#7a3e12"

_LETTER_SHARE = 0.56  # mean width of a letter of a sans-serif, in letter heights
_BOLD_SHARE = 0.6
_LARGEST = 1e100
_SMALLEST_SPAN = 1e-100
_ALIKE = 1e-9  # values closer than this share of their size are drawn as one
_NEAR_ZERO = 0.05  # what .1f would write as 0.0 or -0.0


@dataclass(frozen=True, slots=True)
class Scale:
    """A straight scale from values to places.

    Parameters
    ----------
    low, high : float
        Values at the two ends; `high` is above `low`.
    start, end : float
        Places of the two ends in units of the drawing.
    """

    low: float
    high: float
    start: float
    end: float

    def place(self, value: float) -> float:
        """Give the place of a value; outside of the scale, that of the nearer end."""
        held = min(max(value, self.low), self.high)
        share = (held - self.low) / (self.high - self.low)
        return self.start + share * (self.end - self.start)


def require_finite(name: str, values: Iterable[float]) -> None:
    """Raise unless all values are numbers that a scale can hold.

    Raises
    ------
    ParameterError
        If one is not.
    """
    for value in values:
        if not (isfinite(value) and abs(value) <= _LARGEST):
            raise ParameterError(
                name,
                value,
                allowed=f"finite numbers up to {_LARGEST:g} in size",
                remedy="Leave out what could not be measured, and say how many.",
            )


def span_of(low: float, high: float) -> float:
    """Give a length that a scale from one value to another can be divided by.

    Parameters
    ----------
    low, high : float
        Least and greatest value.

    Returns
    -------
    float
        Their difference; where they are alike, their size, or 1 for zero.

    Examples
    --------
    >>> span_of(7.0, 9.0), span_of(8.0, 8.0), span_of(0.0, 0.0)
    (2.0, 8.0, 1.0)
    """
    size = max(abs(low), abs(high))
    span = high - low if high - low > _ALIKE * size else size
    return max(span, _SMALLEST_SPAN) if size else 1.0


def round_step(span: float, most: int) -> float:
    """Choose the shortest step 1, 2 or 5 times a power of ten that fits.

    Parameters
    ----------
    span : float
        Length to be divided; above zero.
    most : int
        Most steps wanted.

    Returns
    -------
    float
        The step.

    Examples
    --------
    >>> round_step(31.0, 8)
    5.0
    """
    decade = 10.0 ** floor(log10(span / most))
    return next(
        step * decade
        for step in (1, 2, 5, 10)
        if span <= step * decade * most * (1 + 1e-9)
    )


def round_ticks(low: float, high: float, most: int) -> tuple[float, ...]:
    """Give round values within a range.

    Parameters
    ----------
    low, high : float
        Ends; `high` is above `low`.
    most : int
        Most steps between ticks.

    Returns
    -------
    tuple of float
        Multiples of a round step, rising.

    Examples
    --------
    >>> round_ticks(7.4, 9.6, 5)
    (7.5, 8.0, 8.5, 9.0, 9.5)
    """
    step = round_step(high - low, most)
    first, last = ceil(low / step - 1e-9), floor(high / step + 1e-9)
    return tuple(tick(number * step) for number in range(first, last + 1))


def tick(value: float) -> float:
    """Give a multiple of a step without the dust of binary fractions."""
    return float(f"{value:.12g}")


def number(value: float) -> str:
    """Write a place so that the same drawing gives the same bytes everywhere."""
    return "0.0" if abs(value) < _NEAR_ZERO else f"{value:.1f}"


def line(
    start: tuple[float, float], end: tuple[float, float], *, style: str = ""
) -> str:
    """Draw a straight line; `style` holds further attributes."""
    (x1, y1), (x2, y2) = start, end
    look = style or f'stroke="{INK}"'
    return (
        f'<line x1="{number(x1)}" y1="{number(y1)}" x2="{number(x2)}" '
        f'y2="{number(y2)}" {look}/>'
    )


def words(text: str, x: float, y: float, *, anchor: str = "start") -> str:
    """Write a line of text with its baseline at (x, y)."""
    place = "" if anchor == "start" else f' text-anchor="{anchor}"'
    return f'<text x="{number(x)}" y="{number(y)}"{place}>{escape(text)}</text>'


def paragraph(text: str, y: float) -> tuple[str, float]:
    """Write text over the whole width, broken into lines.

    Parameters
    ----------
    text : str
        The text.
    y : float
        Upper edge.

    Returns
    -------
    drawing : str
        The lines.
    bottom : float
        Lower edge of the last line.
    """
    rows = wrap(text, int(WIDTH / (_LETTER_SHARE * LETTERS)))
    drawn = "".join(words(row, 0, y + LINE * (k + 0.75)) for k, row in enumerate(rows))
    return drawn, y + LINE * len(rows)


def heading(text: str) -> tuple[str, float]:
    """Write the title at the top of a plot.

    Parameters
    ----------
    text : str
        The title.

    Returns
    -------
    drawing : str
        Its lines.
    bottom : float
        Where the plot may begin.
    """
    rows = wrap(text, int(WIDTH / (_BOLD_SHARE * HEADING)))
    drawn = "".join(
        f'<text x="0" y="{number(20 * k + 16)}" font-size="{HEADING}" '
        f'font-weight="bold">{escape(row)}</text>'
        for k, row in enumerate(rows)
    )
    return drawn, 20 * len(rows) + 8


def shortened(text: str, width: float) -> str:
    """Cut a name to a width, with an ellipsis where something was cut."""
    most = max(1, int(width / (_LETTER_SHARE * LETTERS)))
    return text if len(text) <= most else text[: most - 1] + "…"


def value_axis(scale: Scale, y: float, *, label: str, most: int = 6) -> str:
    """Draw a horizontal axis with round values below it and its name below those.

    Parameters
    ----------
    scale : Scale
        The scale.
    y : float
        Where the axis lies.
    label : str
        Quantity and unit.
    most : int
        Most steps between ticks.

    Returns
    -------
    str
        The axis; it needs 44 units below `y`.
    """
    parts = [line((scale.start, y), (scale.end, y))]
    for value in round_ticks(scale.low, scale.high, most):
        x = scale.place(value)
        parts.append(line((x, y), (x, y + 5)))
        parts.append(words(f"{value:g}", x, y + LINE, anchor="middle"))
    middle = (scale.start + scale.end) / 2
    parts.append(words(label, middle, y + 2 * LINE + 2, anchor="middle"))
    return "".join(parts)


def svg_plot(*, title: str, description: str, body: str, height: float) -> Markup:
    """Wrap a drawing with its title and its description for those who cannot see it.

    Parameters
    ----------
    title : str
        What the plot shows.
    description : str
        The same numbers as in the drawing, in sentences.
    body : str
        The drawing, words escaped.
    height : float
        Height in units.

    Returns
    -------
    Markup
        An SVG element; the same input gives the same bytes.
    """
    # Two plots of a page must not share names, and the same plot must keep its own.
    content = f"{title}\n{description}\n{body}".encode()
    name = f"plot-{sha256(content).hexdigest()[:12]}"
    return Markup(  # noqa: S704 - all words are escaped
        f'<svg xmlns="http://www.w3.org/2000/svg" '
        f'viewBox="0 0 {WIDTH} {ceil(height)}" role="img" '
        f'aria-labelledby="{name}-title" aria-describedby="{name}-desc" '
        f'font-family="sans-serif" font-size="{LETTERS}" fill="{INK}">'
        f'<title id="{name}-title">{escape(title)}</title>'
        f'<desc id="{name}-desc">{escape(description)}</desc>{body}</svg>'
    )
