"""Two readers' marks along one test line, side by side."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from typing import get_args

from markupsafe import Markup

from strandproof.errors import ParameterError
from strandproof.quantity import unit_text
from strandproof.records.entries.laboratory import MarkFeature
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

FEATURES: tuple[MarkFeature, ...] = get_args(MarkFeature)
"""What a mark can be, in the order of the key."""

_LEFT, _RIGHT = 12, WIDTH - 12
_TALL = 26  # height of a mark
_BETWEEN = 34  # from the first reader's marks to the second's
_KEY_SIGN, _KEY_NAME, _KEY_FIRST, _KEY_SECOND = 16, 40, 250, 350


@dataclass(frozen=True, slots=True)
class DrawnMark:
    """A mark on a test line.

    Parameters
    ----------
    position : float
        Place along the line, from 0 to its length.
    feature : str
        What the reader takes it for: boundary, twin, scratch, slip_trace,
        strand_edge or uncertain.
    """

    position: float
    feature: MarkFeature


@dataclass(frozen=True, slots=True)
class ReaderMarks:
    """What one reader marked on the line.

    Parameters
    ----------
    reader : str
        Who.
    marks : tuple of DrawnMark
        The marks, in any order.
    """

    reader: str
    marks: tuple[DrawnMark, ...]


def reader_marks_svg(
    first: ReaderMarks,
    second: ReaderMarks,
    *,
    length: float,
    unit: str,
    title: str,
    same: Sequence[tuple[int, int]] | None = None,
) -> Markup:
    """Draw what two readers marked on one test line, one above the other.

    Signs, not colours, tell what a mark is: boundary one stroke, twin two closed ones,
    scratch dashed, strand edge dotted, slip trace slanted, uncertain "?". Marks that
    belong together are joined; one without a counterpart has an open circle.

    Parameters
    ----------
    first, second : ReaderMarks
        The readers; the first stands above.
    length : float
        Length of the line, above zero.
    unit : str
        Unit of length and positions, for example ``"um"`` or ``"px"``.
    title : str
        Which line of which field.
    same : sequence of (int, int), optional
        Marks taken for the same place: their numbers, from 0, in `first` and in
        `second`. None joins nothing and says nothing of agreement.

    Returns
    -------
    Markup
        An SVG element, 390 units wide.

    Raises
    ------
    ParameterError
        If the length is not above zero, a position lies outside of the line, a feature
        is unknown, or `same` names a mark twice or one that is not there.

    Examples
    --------
    >>> svg = reader_marks_svg(
    ...     ReaderMarks("A1", (DrawnMark(20.0, "boundary"),)),
    ...     ReaderMarks("A2", (DrawnMark(21.0, "twin"),)),
    ...     length=103.6, unit="um", title="DQV-835 field 3", same=[(0, 0)],
    ... )
    >>> "1 place marked by both, 0 as the same thing" in svg
    True
    """
    _check((first, second), length, same)
    scale = Scale(0, length, _LEFT, _RIGHT)
    top_words, top = heading(title)
    upper = top + LINE + 14
    lower = upper + _TALL + _BETWEEN
    axis = lower + _TALL + 14 + LINE
    key, bottom = _key(first, second, axis + 3 * LINE)
    note, end = paragraph(_note(first, second, same), bottom + 4)
    body = (
        top_words
        + _rail(first, scale, upper, alone=_alone(first, same, 0), above=True)
        + _rail(second, scale, lower, alone=_alone(second, same, 1), above=False)
        + _joined(first, second, scale, (upper + _TALL, lower), same or ())
        + value_axis(scale, axis, label=f"place on the line, {unit_text(unit)}")
        + key
        + note
    )
    told = _described(first, second, f"{length:.4g} {unit_text(unit)}", same)
    return svg_plot(title=title, description=told, body=body, height=end + 6)


def _check(
    readers: tuple[ReaderMarks, ReaderMarks],
    length: float,
    same: Sequence[tuple[int, int]] | None,
) -> None:
    require_finite("length", [length])
    if length <= 0:
        raise ParameterError("length", length, allowed="a length above zero")
    for mark in (*readers[0].marks, *readers[1].marks):
        if not 0 <= mark.position <= length:
            raise ParameterError(
                "position", mark.position, allowed=f"places from 0 to {length:g}"
            )
        if mark.feature not in FEATURES:
            raise ParameterError(
                "feature", mark.feature, allowed="one of " + ", ".join(FEATURES)
            )
    for side, reader in enumerate(readers):
        named = [pair[side] for pair in same or ()]
        there = range(len(reader.marks))
        if len(set(named)) < len(named) or not all(each in there for each in named):
            raise ParameterError(
                "same",
                tuple(same or ()),
                allowed=f"each of the {len(there)} marks of {reader.reader} at most "
                "once, counted from 0",
            )


def _alone(
    reader: ReaderMarks, same: Sequence[tuple[int, int]] | None, side: int
) -> frozenset[int]:
    if same is None:
        return frozenset()
    return frozenset(range(len(reader.marks))) - {pair[side] for pair in same}


def _rail(
    reader: ReaderMarks,
    scale: Scale,
    top: float,
    *,
    alone: frozenset[int],
    above: bool,
) -> str:
    middle = top + _TALL / 2
    name = shortened(reader.reader, _RIGHT - _LEFT)
    parts = [
        line((_LEFT, middle), (_RIGHT, middle), style=f'stroke="{FILL}"'),
        words(name, _LEFT, top - 16 if above else top + _TALL + 24),
    ]
    for k, mark in enumerate(reader.marks):
        x = scale.place(mark.position)
        parts.append(_sign(mark.feature, x, top))
        if k in alone:
            y = top - 8 if above else top + _TALL + 8
            parts.append(
                f'<circle cx="{number(x)}" cy="{number(y)}" r="4" fill="#fff" '
                f'stroke="{ACCENT}" stroke-width="1.8"/>'
            )
    return "".join(parts)


def _sign(feature: MarkFeature, x: float, top: float) -> str:
    bottom = top + _TALL
    ink = f'stroke="{INK}" stroke-width="2"'
    if feature == "uncertain":
        return (
            f'<text x="{number(x)}" y="{number(top + _TALL / 2 + 6)}" font-size="17" '
            'font-weight="bold" text-anchor="middle" stroke="#fff" stroke-width="3" '
            'paint-order="stroke">?</text>'
        )
    if feature == "twin":
        # Closed, so that two boundaries side by side do not look like a twin.
        return (
            f'<rect x="{number(x - 2.5)}" y="{number(top)}" width="5" '
            f'height="{_TALL}" fill="#fff" {ink}/>'
        )
    if feature == "slip_trace":
        return line((x - 5, bottom), (x + 5, top), style=ink)
    dashes = {"scratch": "6 4", "strand_edge": "1.5 3"}
    if feature in dashes:
        ink += f' stroke-dasharray="{dashes[feature]}"'
    return line((x, top), (x, bottom), style=ink)


def _joined(
    first: ReaderMarks,
    second: ReaderMarks,
    scale: Scale,
    ends: tuple[float, float],
    same: Sequence[tuple[int, int]],
) -> str:
    """Join what belongs together; a thick line where the two name it differently."""
    parts = []
    for one, other in same:
        upper, lower = first.marks[one], second.marks[other]
        agrees = upper.feature == lower.feature
        look = f'stroke="{QUIET}"' if agrees else f'stroke="{ACCENT}" stroke-width="4"'
        start = (scale.place(upper.position), ends[0] + 3)
        end = (scale.place(lower.position), ends[1] - 3)
        parts.append(line(start, end, style=look))
    return "".join(parts)


def _key(first: ReaderMarks, second: ReaderMarks, top: float) -> tuple[str, float]:
    counts = [Counter(mark.feature for mark in r.marks) for r in (first, second)]
    parts = [
        words(shortened(reader.reader, 90), x, top + 13, anchor="middle")
        for reader, x in ((first, _KEY_FIRST), (second, _KEY_SECOND))
    ]
    y = top + LINE + 4
    for feature in FEATURES:
        if not any(count[feature] for count in counts):
            continue
        parts.append(line((0, y), (WIDTH, y), style=f'stroke="{FILL}"'))
        parts.append(_sign(feature, _KEY_SIGN, y + 3))
        parts.append(words(feature.replace("_", " "), _KEY_NAME, y + 21))
        for count, x in zip(counts, (_KEY_FIRST, _KEY_SECOND), strict=True):
            parts.append(words(str(count[feature]), x, y + 21, anchor="middle"))
        y += _TALL + 6
    return "".join(parts), y


def _note(
    first: ReaderMarks, second: ReaderMarks, same: Sequence[tuple[int, int]] | None
) -> str:
    if same is None:
        return "Which marks belong together was not judged."
    alike = sum(first.marks[a].feature == second.marks[b].feature for a, b in same)
    places = "place" if len(same) == 1 else "places"
    return (
        f"{len(same)} {places} marked by both, {alike} as the same thing (thin line), "
        f"{len(same) - alike} as different things (thick line). Open circle: marked by "
        f"one only, {first.reader} {len(first.marks) - len(same)}, {second.reader} "
        f"{len(second.marks) - len(same)}."
    )


def _described(
    first: ReaderMarks,
    second: ReaderMarks,
    length: str,
    same: Sequence[tuple[int, int]] | None,
) -> str:
    told = [f"Marks on a test line of {length}."]
    for reader in (first, second):
        counts = Counter(mark.feature for mark in reader.marks)
        listed = ", ".join(
            f"{feature.replace('_', ' ')} {counts[feature]}"
            for feature in FEATURES
            if counts[feature]
        )
        told.append(f"{reader.reader}: {listed or 'no mark'}.")
    return " ".join([*told, _note(first, second, same)])
