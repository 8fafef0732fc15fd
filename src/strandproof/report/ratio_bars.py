"""Likelihood ratios drawn as bars on one logarithmic scale, readable in grey."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import log10

from markupsafe import Markup, escape

from strandproof.records.entries import WeighingPair
from strandproof.report.wording import ratio_text

_LOWEST, _HIGHEST = 0.1, 1000.0
_LABEL_WIDTH, _SCALE_WIDTH, _ROW = 118, 470, 30
_TOP, _BOTTOM = 34, 30
_VALUE_WIDTH = 212
_LETTERS, _LETTER_SHARE = 13, 0.56
_TICKS = (0.1, 1, 10, 100, 1000)


@dataclass(frozen=True, slots=True)
class RatioBar:
    """One pair of hypotheses on the scale.

    Parameters
    ----------
    label : str
        Names of the two hypotheses.
    best, lower, upper, controls : float or None
        Ratios; an open upper end is None. Where the lower end is None there is no
        ratio at all.
    """

    label: str
    best: float | None
    lower: float | None
    upper: float | None
    controls: float | None


def ratio_bar(pair: WeighingPair) -> RatioBar:
    """Take the ratios of a pair out of its record.

    Parameters
    ----------
    pair : WeighingPair
        A pair of a weighing.

    Returns
    -------
    RatioBar
        For drawing.
    """
    return RatioBar(
        f"{pair.first} over {pair.second}",
        pair.best_ratio,
        pair.lower_ratio,
        pair.upper_ratio,
        pair.controls_ratio,
    )


def ratio_bars_svg(bars: Sequence[RatioBar]) -> Markup:
    """Draw pairs of hypotheses on one scale from 0.1 to 1000.

    A thick line is the range, a filled circle the best estimate, an open diamond
    what the controls alone support; an arrow says that the range goes on. Names
    that are too long for their column are written smaller.

    Parameters
    ----------
    bars : sequence of RatioBar
        The pairs, from top to bottom.

    Returns
    -------
    Markup
        An SVG element.
    """
    width = _LABEL_WIDTH + _SCALE_WIDTH + _VALUE_WIDTH
    height = _TOP + _ROW * len(bars) + _BOTTOM
    alt = "; ".join(
        f"{bar.label}: best estimate {ratio_text(bar.best)}, controls alone "
        f"{ratio_text(bar.controls)}"
        for bar in bars
    )
    rows = "".join(_row(bar, _TOP + _ROW * (k + 0.5)) for k, bar in enumerate(bars))
    return Markup(  # noqa: S704 - all words are escaped
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width} {height}" '
        f'role="img" aria-label="{escape(alt)}" font-family="sans-serif" '
        f'font-size="{_LETTERS}"><title>{escape(alt)}</title>'
        f"{_scale(height)}{rows}</svg>"
    )


def _x(ratio: float) -> float:
    held = min(max(ratio, _LOWEST), _HIGHEST)
    share = log10(held / _LOWEST) / log10(_HIGHEST / _LOWEST)
    return _LABEL_WIDTH + share * _SCALE_WIDTH


def _scale(height: float) -> str:
    bottom = height - _BOTTOM
    ticks = []
    for value in _TICKS:
        heavy = value in {1, 100}
        dash = "" if heavy else ' stroke-dasharray="2 4"'
        ticks.append(
            f'<line x1="{_x(value):.1f}" x2="{_x(value):.1f}" y1="{_TOP - 6}" '
            f'y2="{bottom}" stroke="#566067" stroke-width="{1.4 if heavy else 0.8}"'
            f"{dash}/>"
            f'<text x="{_x(value):.1f}" y="{bottom + 18}" text-anchor="middle">'
            f"{value:g}</text>"
        )
    heads = (
        f'<text x="{_x(1):.1f}" y="{_TOP - 14}" text-anchor="middle">no help</text>'
        f'<text x="{_x(100):.1f}" y="{_TOP - 14}" text-anchor="middle">'
        "needed for a word</text>"
    )
    return "".join(ticks) + heads


def _row(bar: RatioBar, y: float) -> str:
    size = min(_LETTERS, _LABEL_WIDTH / (_LETTER_SHARE * max(len(bar.label), 1)))
    parts = [
        f'<text x="0" y="{y + 4:.1f}" font-size="{size:.1f}">{escape(bar.label)}</text>'
    ]
    if bar.lower is not None:
        parts.append(_range(bar.lower, bar.upper, y))
    if bar.best is not None:
        parts.append(f'<circle cx="{_x(bar.best):.1f}" cy="{y:.1f}" r="6"/>')
    if bar.controls is not None:
        x = _x(bar.controls)
        parts.append(
            f'<path d="M{x:.1f} {y - 8:.1f} l8 8 l-8 8 l-8 -8 z" fill="#fff" '
            'stroke="#000" stroke-width="1.6"/>'
        )
    x = _LABEL_WIDTH + _SCALE_WIDTH + 18
    return (
        "".join(parts) + f'<text x="{x}" y="{y + 4:.1f}">{escape(_words(bar))}</text>'
    )


def _range(lower: float, upper: float | None, y: float) -> str:
    start, end = _x(lower), _x(_HIGHEST if upper is None else upper)
    line = (
        f'<line x1="{start:.1f}" x2="{end:.1f}" y1="{y:.1f}" y2="{y:.1f}" '
        'stroke="#9aa5ab" stroke-width="8"/>'
    )
    if lower < _LOWEST:
        line += _arrow(start, y, -10)
    if upper is None or upper > _HIGHEST:
        line += _arrow(end, y, 10)
    return line


def _arrow(x: float, y: float, reach: int) -> str:
    return f'<path d="M{x:.1f} {y - 8:.1f} l{reach} 8 l{-reach} 8 z" fill="#9aa5ab"/>'


def _words(bar: RatioBar) -> str:
    if bar.best is not None and 0.5 < bar.best < 2:
        return "ABOUT 1: NO HELP"
    if bar.controls is None:
        return f"best {ratio_text(bar.best)}; no controls"
    return f"best {ratio_text(bar.best)}; controls {ratio_text(bar.controls)}"
