"""What the labels of a picture show along the test lines that people marked."""

from collections.abc import Iterator, Sequence
from math import hypot

from strandproof.grainsize.marks.lines import StraightTestLine
from strandproof.grainsize.marks.marked import LineMark, MarkedLine
from strandproof.grainsize.patch import MetalPatch, metal_patch
from strandproof.grainsize.traverses import WalkedLine, walk_line
from strandproof.records import LabelledStructure

# What lies in the last half pixel of a line is taken for its end.
_AT_END_PX = 0.5


def program_marks(
    structure: LabelledStructure,
    lines: Sequence[StraightTestLine],
    *,
    step_px: float = 0.25,
) -> tuple[MarkedLine, ...]:
    """Mark test lines by the labels of a picture, as a further reader.

    Labels know boundaries and the strand's edge. They do not know scratches, slip
    traces or twins as marks: a twin inside a grain is no change of label.

    Parameters
    ----------
    structure : LabelledStructure
        Labels of the picture that the lines lie on.
    lines : sequence of StraightTestLine
        The lines; circles are not walked.
    step_px : float
        Distance of samples along a line [px]; above 0.

    Returns
    -------
    tuple of MarkedLine
        One for each line, in the same order.
    """
    patch = metal_patch(structure.grain_labels, structure.strand_labels > 0)
    return tuple(_marked(patch, line, step_px) for line in lines)


def _marked(patch: MetalPatch, line: StraightTestLine, step_px: float) -> MarkedLine:
    length = line.length_px
    point = (line.start_px[1], line.start_px[0])
    marks: list[LineMark] = []
    starts_in_metal = False
    for run in walk_line(patch, point, line.direction_deg, step_px=step_px):
        low, high = sorted(
            _along(line, end) for end in (run.traverse.start_px, run.traverse.end_px)
        )
        starts_in_metal |= low <= _AT_END_PX < high
        marks += [
            LineMark(along_px=edge, feature="strand_edge")
            for edge in (low, high)
            if _AT_END_PX < edge < length - _AT_END_PX
        ]
        marks += [
            LineMark(along_px=place, feature="boundary")
            for place in _crossings(line, run)
            if _AT_END_PX < place < length - _AT_END_PX
        ]
    return MarkedLine(
        line=line,
        marks=tuple(sorted(marks, key=lambda mark: mark.along_px)),
        starts_in="metal" if starts_in_metal else "resin",
    )


def _crossings(line: StraightTestLine, run: WalkedLine) -> Iterator[float]:
    rows, columns = run.positions_px(run.crossings_px)
    for row, column in zip(rows.tolist(), columns.tolist(), strict=True):
        yield _along(line, (row, column))


def _along(line: StraightTestLine, row_column_px: tuple[float, float]) -> float:
    """Distance from the line's start, negative before it."""
    across = line.end_px[0] - line.start_px[0]
    down = line.end_px[1] - line.start_px[1]
    right = row_column_px[1] - line.start_px[0]
    below = row_column_px[0] - line.start_px[1]
    return (right * across + below * down) / hypot(across, down)
