"""A certificate against the limits of a grade, each element on one log scale."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, floor, log10

from markupsafe import Markup

from strandproof.composition import GradeCheck, LimitCheck
from strandproof.errors import ParameterError
from strandproof.report.plots.canvas import (
    ACCENT,
    FILL,
    INK,
    LINE,
    QUIET,
    RANGE,
    Scale,
    heading,
    line,
    number,
    paragraph,
    shortened,
    svg_plot,
    words,
)

_ROW = 24
_LEFT, _RIGHT = 88, 280
_VERDICTS = {
    "within": "within",
    "above": "above",
    "too_close": "too close",
    "cannot_tell": "cannot tell",
    "not_measured": "not listed",
}
_LONG_NAME = 2
_BAR = f'stroke="{RANGE}" stroke-width="6"'


@dataclass(frozen=True, slots=True)
class _Key:
    sign: str
    text: str


def certificate_limits_svg(check: GradeCheck, *, title: str = "") -> Markup:
    """Draw every element of a grade: content, detection limit, and limit.

    A filled dot is a content, an open dot with an arrow to the left a detection limit,
    a bar the range of a group with elements below their limits; the upright stroke is
    the limit of the grade, with the allowed side shaded. The verdict stands at the
    right in words.

    Parameters
    ----------
    check : GradeCheck
        From `strandproof.composition.grade_check`.
    title : str
        Heading; empty for the grade's own.

    Returns
    -------
    Markup
        An SVG element, readable in grey.

    Raises
    ------
    ParameterError
        If the grade has no limit of an impurity.
    """
    rows = [each for each in check.limits if each.unit == "ppm"]
    if not rows:
        raise ParameterError(
            "grade", check.title, allowed="a grade with a limit of an impurity"
        )
    shown = title or f"Certificate against {check.title}"
    top_text, top = heading(shown)
    scale = _scale(rows)
    bottom = top + _ROW * len(rows)
    parts = [top_text, _grid(scale, top, bottom)]
    for place, row in enumerate(rows):
        parts.append(_row(row, scale, top + _ROW * (place + 0.5)))
    key, end = _legend(bottom + 3 * LINE)
    parts.append(key)
    sentence, height = paragraph(check.sentence, end + 6)
    parts.append(sentence)
    return svg_plot(
        title=shown,
        description=" ".join(_row_in_words(row) for row in rows) + f" {check.sentence}",
        body="".join(parts),
        height=height + 8,
    )


def _scale(rows: Sequence[LimitCheck]) -> Scale:
    given = [row.limit for row in rows]
    given += [end for row in rows for end in (row.lowest, row.highest) if end]
    low, high = floor(log10(min(given)) - 0.15), ceil(log10(max(given)) + 0.05)
    return Scale(low, max(high, low + 1), _LEFT, _RIGHT)


def _grid(scale: Scale, top: float, bottom: float) -> str:
    parts = []
    for power in range(round(scale.low), round(scale.high) + 1):
        x = scale.place(power)
        look = f'stroke="{FILL}" stroke-width="1"'
        parts.append(line((x, top), (x, bottom), style=look))
        parts.append(line((x, bottom), (x, bottom + 5)))
        parts.append(words(f"{10.0**power:g}", x, bottom + LINE, anchor="middle"))
    parts.append(line((scale.start, bottom), (scale.end, bottom)))
    middle = (scale.start + scale.end) / 2
    parts.append(words("ppm by mass", middle, bottom + 2 * LINE, anchor="middle"))
    return "".join(parts)


def _row(row: LimitCheck, scale: Scale, y: float) -> str:
    limit = scale.place(log10(row.limit))
    allowed = (
        f'<rect x="{number(scale.start)}" y="{number(y - 8)}" '
        f'width="{number(limit - scale.start)}" height="16" fill="{FILL}"/>'
    )
    stroke = f'stroke="{INK}" stroke-width="3"'
    parts = [
        words(shortened(_short(row), _LEFT - 6), 0, y + 5),
        allowed,
        line((limit, y - 9), (limit, y + 9), style=stroke),
        _content(row, scale, y),
        _verdict(row, y),
    ]
    return "".join(parts)


def _content(row: LimitCheck, scale: Scale, y: float) -> str:
    if row.highest is None or row.lowest is None:
        return ""
    if row.highest == 0:
        return _arrow(scale.start + 14, y) + _dot(scale.start + 14, y, filled=True)
    end = scale.place(log10(row.highest))
    if row.lowest == 0:
        return _arrow(end, y) + _dot(end, y, filled=False)
    start = scale.place(log10(row.lowest))
    bar = line((start, y), (end, y), style=_BAR)
    open_end = _dot(end, y, filled=False) if row.highest > row.lowest else ""
    return bar + open_end + _dot(start, y, filled=True)


def _dot(x: float, y: float, *, filled: bool) -> str:
    fill = ACCENT if filled else "#fff"
    return (
        f'<circle cx="{number(x)}" cy="{number(y)}" r="4.5" fill="{fill}" '
        f'stroke="{INK}" stroke-width="1.4"/>'
    )


def _arrow(x: float, y: float) -> str:
    """Draw an arrow that points to lower contents."""
    look = f'stroke="{INK}" stroke-width="1.4"'
    tip = x - 16
    return (
        line((x, y), (tip, y), style=look)
        + line((tip, y), (tip + 5, y - 4), style=look)
        + line((tip, y), (tip + 5, y + 4), style=look)
    )


def _verdict(row: LimitCheck, y: float) -> str:
    partly = row.verdict == "not_measured" and row.highest is None and row.lowest
    text = "incomplete" if partly else _VERDICTS[row.verdict]
    drawn = words(text, _RIGHT + 10, y + 5)
    if row.verdict == "within":
        return drawn.replace("<text ", f'<text fill="{QUIET}" ')
    return drawn.replace("<text ", '<text font-weight="bold" ')


def _legend(y: float) -> tuple[str, float]:
    keys = (
        _Key(_dot(12, y, filled=True), "content as listed"),
        _Key(
            _arrow(18, y + LINE) + _dot(18, y + LINE, filled=False),
            "below this detection limit (arrow: may be less)",
        ),
        _Key(
            line((6, y + 2 * LINE), (20, y + 2 * LINE), style=_BAR)
            + _dot(20, y + 2 * LINE, filled=False)
            + _dot(6, y + 2 * LINE, filled=True),
            "sum: as listed, to all at their detection limits",
        ),
        _Key(
            line(
                (12, y + 3 * LINE - 8),
                (12, y + 3 * LINE + 8),
                style=f'stroke="{INK}" stroke-width="3"',
            ),
            "limit of the grade; allowed on the shaded side",
        ),
    )
    drawn = "".join(
        key.sign + words(key.text, 30, y + place * LINE + 5)
        for place, key in enumerate(keys)
    )
    return drawn, y + len(keys) * LINE


def _short(row: LimitCheck) -> str:
    if len(row.symbols) <= _LONG_NAME:
        return row.name
    if row.name.startswith(("total", "others")):
        return row.name.partition(" ")[0]
    return f"{row.symbols[0]}\N{HORIZONTAL ELLIPSIS}{row.symbols[-1]} sum"


def _row_in_words(row: LimitCheck) -> str:
    verdict = _VERDICTS[row.verdict]
    if row.highest is None or row.lowest is None:
        return f"{row.name}: limit {row.limit:g} ppm, {verdict}."
    content = (
        f"{row.highest:g}"
        if row.lowest == row.highest
        else f"{row.lowest:g} to {row.highest:g}"
    )
    return f"{row.name}: {content} ppm, limit {row.limit:g} ppm, {verdict}."
