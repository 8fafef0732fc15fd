"""Custody on a time axis: one lane a holder, times without a holder hatched."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from itertools import pairwise

from markupsafe import Markup

from strandproof.errors import ParameterError
from strandproof.report.plots.canvas import (
    ACCENT,
    FILL,
    INK,
    LETTERS,
    LINE,
    QUIET,
    RANGE,
    WIDTH,
    Scale,
    heading,
    line,
    number,
    paragraph,
    shortened,
    svg_plot,
    words,
)

_LEFT, _RIGHT = 92, WIDTH - 8
_LANE, _BAR = 22, 12
_HATCH = 4.0
_NARROWEST = 5.0
_LETTER_WIDTH = 0.56 * LETTERS
_STEPS_DAYS = (1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000)
_MOST_TICKS = 5
_YEAR_LABELS_FROM_DAYS = 300

_NOTE = (
    "A bar: held by the person at its left. Hatched: no holder recorded, or records "
    "that disagree; a very short gap is drawn wider than it was."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class HeldSpan:
    """A time in the hands of one person.

    Parameters
    ----------
    holder : str
        Who.
    start, end : datetime
        From and to.
    """

    holder: str
    start: datetime
    end: datetime


@dataclass(frozen=True, slots=True, kw_only=True)
class GapSpan:
    """A time without a recorded holder.

    Parameters
    ----------
    name : str
        Name it is listed under, for example G1.
    start, end : datetime
        From and to.
    last_holder, next_holder : str
        Who is recorded before and after; empty for nobody.
    """

    name: str
    start: datetime
    end: datetime
    last_holder: str
    next_holder: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CustodyPanel:
    """The trail that one or several things share.

    Parameters
    ----------
    things : str
        Which, in words.
    held : tuple of HeldSpan
        In order of time.
    gaps : tuple of GapSpan
        In order of time.
    """

    things: str
    held: tuple[HeldSpan, ...]
    gaps: tuple[GapSpan, ...]

    @property
    def holders(self) -> tuple[str, ...]:
        """Everybody named, in order of first mention.

        Returns
        -------
        tuple of str
            Each once.
        """
        named = [each.holder for each in self.held]
        named += [n for each in self.gaps for n in (each.last_holder, each.next_holder)]
        return tuple(dict.fromkeys(name for name in named if name))


def custody_svg(panels: Sequence[CustodyPanel], *, title: str) -> Markup:
    """Draw trails of custody on one time axis.

    Parameters
    ----------
    panels : sequence of CustodyPanel
        One or more, each with a holder or a gap.
    title : str
        What is shown.

    Returns
    -------
    Markup
        An SVG element, 390 units wide; told by shape, readable in grey.

    Raises
    ------
    ParameterError
        If there is no panel, or one is empty.

    Examples
    --------
    >>> first, last = datetime(2031, 4, 2), datetime(2031, 5, 10)
    >>> held = (HeldSpan(holder="R", start=first, end=last),)
    >>> panel = CustodyPanel(things="exhibit E1", held=held, gaps=())
    >>> "exhibit E1" in custody_svg([panel], title="Custody")
    True
    """
    if not panels or not all(panel.holders for panel in panels):
        raise ParameterError("panels", len(panels), allowed="one or more, none empty")
    first, last = _ends(panels)
    scale = Scale(0.0, max((last - first).total_seconds(), 1.0), _LEFT, _RIGHT)
    title_words, y = heading(title)
    parts = [title_words]
    for panel in panels:
        drawn, y = _panel(panel, scale, first, y)
        parts.append(drawn)
    parts.append(_axis(scale, first, last, y))
    note, bottom = paragraph(_NOTE, y + 2 * LINE + 12)
    return svg_plot(
        title=title,
        description=_described(panels),
        body="".join(parts) + note,
        height=bottom + 6,
    )


def _ends(panels: Sequence[CustodyPanel]) -> tuple[datetime, datetime]:
    held = [span for panel in panels for span in panel.held]
    gaps = [span for panel in panels for span in panel.gaps]
    moments = [moment for each in held for moment in (each.start, each.end)]
    moments += [moment for each in gaps for moment in (each.start, each.end)]
    return min(moments), max(moments)


def _panel(
    panel: CustodyPanel, scale: Scale, first: datetime, top: float
) -> tuple[str, float]:
    parts = [words(shortened(panel.things, WIDTH), 0, top + LINE * 0.8)]
    lanes = top + LINE + 6
    if panel.gaps:
        parts.append(_gap_names(panel, scale, first, lanes + LINE * 0.6))
        lanes += LINE
    places = {name: lanes + _LANE * k for k, name in enumerate(panel.holders)}
    for name, y in places.items():
        parts.append(words(shortened(name, _LEFT - 10), 0, y + _BAR))
        middle = y + _LANE / 2 - 3
        parts.append(line((_LEFT, middle), (_RIGHT, middle), style=f'stroke="{FILL}"'))
    for each in panel.held:
        x = _x(scale, first, each.start)
        wide = max(_x(scale, first, each.end) - x, 1.5)
        parts.append(_rectangle((x, places[each.holder] + 2), (wide, _BAR)))
    parts.extend(_gap(gap, scale, first, places) for gap in panel.gaps)
    return "".join(parts), lanes + _LANE * len(places) + 8


def _rectangle(corner: tuple[float, float], size: tuple[float, float]) -> str:
    return (
        f'<rect x="{number(corner[0])}" y="{number(corner[1])}" '
        f'width="{number(size[0])}" height="{number(size[1])}" fill="{RANGE}" '
        f'stroke="{INK}" stroke-width="0.8"/>'
    )


def _gap(gap: GapSpan, scale: Scale, first: datetime, places: dict[str, float]) -> str:
    left, right = _gap_ends(gap, scale, first)
    lanes = [places[n] for n in (gap.last_holder, gap.next_holder) if n in places]
    top = min(lanes, default=min(places.values())) + 2
    bottom = max(lanes, default=top - 2) + 2 + _BAR
    style = f'stroke="{ACCENT}" stroke-width="1"'
    edge = (
        f'<rect x="{number(left)}" y="{number(top)}" width="{number(right - left)}" '
        f'height="{number(bottom - top)}" fill="#fff" {style}/>'
    )
    return edge + "".join(
        line(start, end, style=style)
        for start, end in _hatching((left, top), (right, bottom))
    )


def _gap_ends(gap: GapSpan, scale: Scale, first: datetime) -> tuple[float, float]:
    left, right = _x(scale, first, gap.start), _x(scale, first, gap.end)
    lacking = max(_NARROWEST - (right - left), 0.0)
    left = max(left - lacking / 2, _LEFT)
    return left, max(right + lacking / 2, left + _NARROWEST)


def _hatching(
    upper_left: tuple[float, float], lower_right: tuple[float, float]
) -> list[tuple[tuple[float, float], tuple[float, float]]]:
    """Lay lines at 45 degrees over a rectangle, cut off at its edges."""
    (left, top), (right, bottom) = upper_left, lower_right
    found = []
    offset = left - (bottom - top) + _HATCH
    while offset < right:
        low, high = max(offset, left), min(offset + bottom - top, right)
        if high > low:
            found.append(
                ((low, bottom - (low - offset)), (high, bottom - (high - offset)))
            )
        offset += _HATCH
    return found


def _gap_names(panel: CustodyPanel, scale: Scale, first: datetime, y: float) -> str:
    """Write names over gaps; those too close to stand apart share one place."""
    groups: list[tuple[float, list[str]]] = []
    for gap in panel.gaps:
        left, right = _gap_ends(gap, scale, first)
        middle = (left + right) / 2
        room = (
            _LETTER_WIDTH * (len(", ".join((*groups[-1][1], gap.name))) + 1)
            if (groups)
            else 0.0
        )
        if groups and middle - groups[-1][0] < room:
            groups[-1][1].append(gap.name)
        else:
            groups.append((middle, [gap.name]))
    parts = []
    for middle, names in groups:
        text = ", ".join(dict.fromkeys(names))
        half = _LETTER_WIDTH * len(text) / 2
        x = min(max(middle, _LEFT + half), _RIGHT - half)
        parts.append(words(text, x, y, anchor="middle"))
    return "".join(parts)


def _axis(scale: Scale, first: datetime, last: datetime, y: float) -> str:
    days = max((last - first) / timedelta(days=1), 1 / 24)
    step = next((s for s in _STEPS_DAYS if days / s <= _MOST_TICKS), _STEPS_DAYS[-1])
    form = "%Y-%m" if days > _YEAR_LABELS_FROM_DAYS else "%m-%d"
    midnight = datetime(first.year, first.month, first.day, tzinfo=first.tzinfo)
    moments = [midnight + timedelta(days=step * k) for k in range(_MOST_TICKS + 2)]
    shown = [each for each in moments if first <= each <= last] or [first]
    parts = [line((_LEFT, y), (_RIGHT, y))]
    for moment in shown:
        x = _x(scale, first, moment)
        half = _LETTER_WIDTH * len(moment.strftime(form)) / 2
        at = min(max(x, _LEFT + half), _RIGHT - half)
        parts.append(line((x, y), (x, y + 5)))
        parts.append(words(moment.strftime(form), at, y + LINE, anchor="middle"))
    years = dict.fromkeys((first.year, last.year))
    label = f"date, UTC, {' to '.join(str(year) for year in years)}"
    middle = (_LEFT + _RIGHT) / 2
    parts.append(
        f'<g fill="{QUIET}">{words(label, middle, y + 2 * LINE, anchor="middle")}</g>'
    )
    return "".join(parts)


def _x(scale: Scale, first: datetime, moment: datetime) -> float:
    return scale.place((moment - first).total_seconds())


def _described(panels: Sequence[CustodyPanel]) -> str:
    return f"{' '.join(_panel_described(panel) for panel in panels)} {_NOTE}"


def _panel_described(panel: CustodyPanel) -> str:
    spans = [
        (each.start, f"{each.holder} {each.start:%Y-%m-%d %H:%M} to {_to(each.end)}")
        for each in panel.held
    ]
    spans += [
        (
            each.start,
            f"gap {each.name} {each.start:%Y-%m-%d %H:%M} to {_to(each.end)}",
        )
        for each in panel.gaps
    ]
    told = [text for _, text in sorted(spans, key=lambda each: each[0])]
    return f"{panel.things}: {'; '.join(told)}."


def _to(moment: datetime) -> str:
    return f"{moment:%Y-%m-%d %H:%M}"


def merged(held: Sequence[HeldSpan]) -> tuple[HeldSpan, ...]:
    """Join spans of one holder that follow each other without a break.

    Parameters
    ----------
    held : sequence of HeldSpan
        In order of time.

    Returns
    -------
    tuple of HeldSpan
        Each change of hands starts a new one.
    """
    found: list[HeldSpan] = list(held[:1])
    for before, after in pairwise(held):
        if after.holder == before.holder and after.start == before.end:
            found[-1] = HeldSpan(
                holder=after.holder, start=found[-1].start, end=after.end
            )
        else:
            found.append(after)
    return tuple(found)
