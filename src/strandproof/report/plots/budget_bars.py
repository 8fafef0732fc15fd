"""The sources of an uncertainty as bars, the largest first, their total below."""

from math import sqrt

from markupsafe import Markup

from strandproof.errors import ParameterError
from strandproof.quantity import BudgetLine, Quantity, unit_text
from strandproof.report.plots.canvas import (
    ACCENT,
    FILL,
    INK,
    LINE,
    WIDTH,
    Scale,
    heading,
    number,
    paragraph,
    require_finite,
    shortened,
    svg_plot,
    value_axis,
    words,
)

_MOST_BARS = 9
_BAR = 12
_ROW = 40
_LEFT = 6  # so that the zero of the axis is not cut off
_FIGURES = 66  # room for the figure behind the longest bar
_NOTE = (
    "Each bar is what one source alone would leave as standard uncertainty; they add "
    "in squares, so the total is shorter than the bars end to end."
)
_CORRELATED = " Some sources are correlated, so the squares do not add up to it."


def budget_bars_svg(result: Quantity, *, title: str) -> Markup:
    """Draw the budget of a result.

    Parameters
    ----------
    result : Quantity
        With a budget of one line or more.
    title : str
        What was measured.

    Returns
    -------
    Markup
        An SVG element: one bar for each source, the largest first, small ones taken
        together, the combined standard uncertainty last.

    Raises
    ------
    ParameterError
        If there is no budget, or nothing in it.
    """
    require_finite("components", [line.component for line in result.budget])
    if not any(line.component > 0 for line in result.budget):
        raise ParameterError(
            "budget", result.budget, allowed="one source of uncertainty or more"
        )
    bars = _bars(result.budget)
    total = result.standard_uncertainty
    longest = max(total, *(size for _, size in bars))
    scale = Scale(0.0, longest, _LEFT, WIDTH - _FIGURES)
    unit = unit_text(result.unit)
    top, y = heading(title)
    parts = [top]
    for name, size in bars:
        parts.append(_bar(name, size, scale, y, fill=FILL))
        y += _ROW
    parts.append(_bar("together, k = 1", total, scale, y + 4, fill=ACCENT))
    y += _ROW + 12
    parts.append(value_axis(scale, y, label=f"standard uncertainty, {unit}", most=5))
    note, bottom = paragraph(_NOTE + _words_of_correlation(result), y + 3 * LINE)
    parts.append(note)
    return svg_plot(
        title=title,
        description=_description(bars, total, unit),
        body="".join(parts),
        height=bottom + 6,
    )


def _bars(budget: tuple[BudgetLine, ...]) -> list[tuple[str, float]]:
    lines = sorted(budget, key=lambda line: -line.component)
    lines = [line for line in lines if line.component > 0]
    shown = len(lines) if len(lines) <= _MOST_BARS else _MOST_BARS - 1
    bars = [(line.name, line.component) for line in lines[:shown]]
    rest = lines[shown:]
    if rest:
        together = sqrt(sum(line.component**2 for line in rest))
        bars.append((f"{len(rest)} smaller ones together", together))
    return bars


def _bar(name: str, size: float, scale: Scale, y: float, *, fill: str) -> str:
    end = scale.place(size)
    label = words(shortened(name, WIDTH - _LEFT), _LEFT, y + LINE * 0.8)
    box = (
        f'<rect x="{_LEFT}" y="{number(y + LINE)}" width="{number(end - _LEFT)}" '
        f'height="{_BAR}" fill="{fill}" stroke="{INK}"/>'
    )
    figure = words(f"{size:.2g}", end + 6, y + LINE + 0.85 * _BAR)
    return label + box + figure


def _words_of_correlation(result: Quantity) -> str:
    squares = sum(line.component**2 for line in result.budget)
    apart = abs(squares - result.standard_uncertainty**2) > 1e-6 * squares
    return _CORRELATED if apart else ""


def _description(bars: list[tuple[str, float]], total: float, unit: str) -> str:
    listed = "; ".join(f"{name} {size:.2g}" for name, size in bars)
    return f"Standard uncertainty in {unit}: {listed}; together {total:.2g}."
