"""What a reader marked on test lines, and how much of a line lies in metal."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import hypot
from typing import Literal

import numpy as np

from strandproof.errors import ParameterError
from strandproof.grainsize.marks.lines import (
    CircularTestLine,
    PlacedLine,
    Point,
    StraightTestLine,
)
from strandproof.records.entries.laboratory import MarkFeature, MarkMeeting

Medium = Literal["metal", "resin"]

OFF_LINE_PX = 3.0
"""Greatest distance of a mark from its test line [px]; a hand is not steadier."""

# A mark at the very end of a line may lie past it by the rounding of its position.
_PAST_END_PX = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class LineMark:
    """One mark on a test line.

    Parameters
    ----------
    along_px : float
        Distance along the line [px].
    feature : str
        What the reader takes it for, see `MarkFeature`.
    direction_deg : float or None
        Direction of what was marked [deg], from right towards up; None where the
        reader noted none.
    meets : str
        How the line meets it, see `MarkMeeting`.
    """

    along_px: float
    feature: MarkFeature
    direction_deg: float | None = None
    meets: MarkMeeting = "crossing"


@dataclass(frozen=True, slots=True, kw_only=True)
class MarkedLine:
    """A test line with everything that one reader marked on it.

    Parameters
    ----------
    line : StraightTestLine or CircularTestLine
        The line.
    marks : tuple of LineMark
        The marks, in any order.
    starts_in : {"metal", "resin"} or None
        What the line begins in; None takes it from the marks, see `metal_px`.

    Raises
    ------
    ParameterError
        If a mark lies beyond the line, a circle crosses the strand's edge an odd
        number of times, or metal and resin cannot be told apart.
    """

    line: PlacedLine
    marks: tuple[LineMark, ...]
    starts_in: Medium | None = None

    def __post_init__(self) -> None:
        length = self.line.length_px
        for mark in self.marks:
            if not -_PAST_END_PX <= mark.along_px <= length + _PAST_END_PX:
                name = f"mark on test line {self.line.number}"
                raise ParameterError(
                    name,
                    mark.along_px,
                    allowed=f"a place from 0 to {length:.1f} px along the line",
                )
        edges = len(self.edges_px)
        if isinstance(self.line, CircularTestLine) and edges % 2:
            name = f"strand edges on test circle {self.line.number}"
            raise ParameterError(
                name,
                edges,
                allowed="an even number, since the circle comes back to its start",
            )
        _first_stretch(self)

    @property
    def edges_px(self) -> tuple[float, ...]:
        """Places where the strand's edge was marked, in order [px]."""
        return tuple(
            sorted(m.along_px for m in self.marks if m.feature == "strand_edge")
        )

    @property
    def metal_px(self) -> float:
        """Length of the line in metal [px].

        Strand edges part the line into stretches of metal and resin by turns. Metal
        is where the other marks lie. Without other marks it is what `starts_in` says
        or, on a straight line with an even number of edges, the stretch between the
        first two.
        """
        ends = (*self.edges_px, self.line.length_px)
        starts = (0.0, *self.edges_px)
        first = 0 if _first_stretch(self) == "metal" else 1
        return sum(
            end - start
            for start, end in zip(starts[first::2], ends[first::2], strict=True)
        )


def placed_mark(
    line: PlacedLine,
    point_px: Point,
    feature: MarkFeature,
    *,
    direction_deg: float | None = None,
    meets: MarkMeeting = "crossing",
) -> LineMark:
    """Put a mark, set by hand near a test line, onto the line.

    Parameters
    ----------
    line : StraightTestLine or CircularTestLine
        The line.
    point_px : tuple of float
        Column and row of the mark [px].
    feature : str
        What the reader takes it for.
    direction_deg : float or None
        Direction of what was marked [deg].
    meets : str
        How the line meets it.

    Returns
    -------
    LineMark
        The mark at the nearest place of the line.

    Raises
    ------
    ParameterError
        If the mark lies further from the line than `OFF_LINE_PX`.
    """
    along = line.nearest_px(point_px)
    at = line.position_px(along)
    distance = hypot(point_px[0] - at[0], point_px[1] - at[1])
    if not distance <= OFF_LINE_PX:
        name = f"mark for test line {line.number}"
        raise ParameterError(
            name,
            point_px,
            allowed=f"a place within {OFF_LINE_PX:g} px of that line",
            remedy=f"It lies {distance:.1f} px away. Check the number of the line.",
        )
    return LineMark(
        along_px=along, feature=feature, direction_deg=direction_deg, meets=meets
    )


def _first_stretch(marked: MarkedLine) -> Medium:
    """Tell what a line begins in.

    Raises
    ------
    ParameterError
        If marks lie on both sides of the strand's edges, or nothing tells.
    """
    edges = marked.edges_px
    others = [m.along_px for m in marked.marks if m.feature != "strand_edge"]
    sides = {int(side) % 2 for side in np.searchsorted(edges, others)}
    if marked.starts_in is not None:
        sides.add(0 if marked.starts_in == "metal" else 1)
    if len(sides) > 1:
        name = f"marks on test line {marked.line.number}"
        raise ParameterError(
            name,
            _listed(edges),
            allowed="strand edges with all other marks on the metal's side of them",
            remedy="A mark lies in the resin; check it and the strand edges.",
        )
    if sides:
        return "metal" if sides == {0} else "resin"
    if not edges:
        return "metal"
    if isinstance(marked.line, StraightTestLine) and len(edges) % 2 == 0:
        return "resin"
    name = f"strand edges on test line {marked.line.number}"
    raise ParameterError(
        name,
        _listed(edges),
        allowed="edges that leave no doubt on which side the metal lies",
        remedy="Say what the line starts in, metal or resin.",
    )


def _listed(places_px: Sequence[float]) -> str:
    return ", ".join(f"{place:.1f} px" for place in places_px) or "none"
