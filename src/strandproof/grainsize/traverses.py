"""Straight test lines across labelled metal, and where they change grain."""

from collections.abc import Iterator
from dataclasses import dataclass
from math import cos, inf, radians, sin

import numpy as np
import numpy.typing as npt

from strandproof.grainsize.patch import MetalPatch
from strandproof.records.measurement import Traverse

# A digital boundary is a staircase of one-pixel treads; see `walk_line`.
_STAIRCASE_PX = 2.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class WalkedLine:
    """One unbroken run of line in metal and where it crosses boundaries.

    Parameters
    ----------
    traverse : Traverse
        The run, in the picture's pixels.
    crossings_px : ndarray of float, shape (n_crossings,)
        Distance of each crossing from the start of the run [px].
    """

    traverse: Traverse
    crossings_px: npt.NDArray[np.float64]

    def positions_px(
        self, distances_px: npt.NDArray[np.float64]
    ) -> tuple[npt.NDArray[np.float64], npt.NDArray[np.float64]]:
        """Rows and columns of points along the run.

        Parameters
        ----------
        distances_px : ndarray of float, shape (n,)
            Distances from the start [px].

        Returns
        -------
        rows, columns : ndarray of float, shape (n,)
            Positions in the picture [px].
        """
        start, end = self.traverse.start_px, self.traverse.end_px
        share = distances_px / self.traverse.length_px
        return (
            start[0] + share * (end[0] - start[0]),
            start[1] + share * (end[1] - start[1]),
        )


def parallel_lines(
    patch: MetalPatch, *, direction_deg: float, spacing_px: float, step_px: float
) -> tuple[WalkedLine, ...]:
    """Walk parallel lines, evenly spaced over a piece of metal.

    The lines stand at the middles of equal strips that fill the patch, so that
    their place does not depend on what is seen.

    Parameters
    ----------
    patch : MetalPatch
        The piece of metal.
    direction_deg : float
        Direction of the lines [deg], from +x towards +y upwards.
    spacing_px : float
        Wanted distance of neighbouring lines [px]; above 0.
    step_px : float
        Distance of samples along a line [px]; above 0.

    Returns
    -------
    tuple of WalkedLine
        Every unbroken run in metal, line by line.
    """
    along_row, along_col = _unit_vector(direction_deg)
    n_rows, n_cols = patch.metal.shape
    extent = abs(along_col) * n_rows + abs(along_row) * n_cols
    count = max(1, round(extent / spacing_px))
    offsets = [((number + 0.5) / count - 0.5) * extent for number in range(count)]
    middle = ((n_rows - 1) / 2, (n_cols - 1) / 2)
    walked: list[WalkedLine] = []
    for offset in offsets:
        # The normal of (along_row, along_col) is (along_col, -along_row).
        point = (middle[0] + offset * along_col, middle[1] - offset * along_row)
        walked.extend(walk_line(patch, point, direction_deg, step_px=step_px))
    return tuple(walked)


def walk_line(
    patch: MetalPatch,
    point_px: tuple[float, float],
    direction_deg: float,
    *,
    step_px: float,
) -> Iterator[WalkedLine]:
    """Walk one straight line from border to border of a patch.

    The label of the nearest pixel is read at every step, and a crossing is a
    change from one grain to another. A grain met for less than two pixels
    between two stretches of the same other grain is passed over: on a square
    pixel grid a slanting boundary is a staircase, which a line near its
    direction would otherwise cross again and again. Leaving the metal ends a
    run; what lies on the other side begins a new one.

    Parameters
    ----------
    patch : MetalPatch
        The piece of metal.
    point_px : tuple of float
        Row and column of a point of the line, in the patch [px].
    direction_deg : float
        Direction [deg], from +x towards +y upwards.
    step_px : float
        Distance of samples [px]; above 0.

    Yields
    ------
    WalkedLine
        Each unbroken run in metal.

    Notes
    -----
    Without the rule of two pixels, mean intercepts at 30 and 45 deg came out
    22 to 25 % too short on synthetic structures; with it they are right within
    1 % for mean intercepts of 30 pixels and within 3 % for 10 pixels. It hides
    real lamellae thinner than two pixels inside one grain.
    """
    direction = _unit_vector(direction_deg)
    first, last = _span_inside(patch.metal.shape, point_px, direction)
    if last <= first:
        return
    count = max(1, round((last - first) / step_px))
    step = (last - first) / count
    places = first + (np.arange(count, dtype=np.float64) + 0.5) * step
    rows = _nearest(point_px[0] + places * direction[0], patch.metal.shape[0])
    cols = _nearest(point_px[1] + places * direction[1], patch.metal.shape[1])
    labels = patch.labels[rows, cols]
    for start, stop in _runs(patch.metal[rows, cols]):
        ends = (first + start * step, first + stop * step)
        frame_ends = int(start == 0) + int(stop == count)
        crossings = _changes(labels[start:stop], step)
        yield WalkedLine(
            traverse=Traverse(
                start_px=_picture_point(patch, point_px, direction, ends[0]),
                end_px=_picture_point(patch, point_px, direction, ends[1]),
                length_px=(stop - start) * step,
                crossings=crossings.size,
                frame_ends=frame_ends,
                strand_edge_ends=2 - frame_ends,
            ),
            crossings_px=crossings,
        )


def _unit_vector(direction_deg: float) -> tuple[float, float]:
    """Row and column step of a direction, with exact zeros."""
    # cos(90 deg) is 6e-17: enough for a line between two pixel rows to hop to and fro.
    steps = (-sin(radians(direction_deg)), cos(radians(direction_deg)))
    row, col = (0.0 if abs(step) < 1e-12 else step for step in steps)
    return row, col


def _span_inside(
    shape: tuple[int, ...], point: tuple[float, float], direction: tuple[float, float]
) -> tuple[float, float]:
    """First and last distance from `point` at which the line is on the pixels."""
    first, last = -inf, inf
    for size, at, slope in zip(shape, point, direction, strict=True):
        low, high = -0.5 - at, size - 0.5 - at
        if slope == 0.0:
            if low > 0 or high < 0:
                return (0.0, 0.0)
            continue
        near, far = sorted((low / slope, high / slope))
        first, last = max(first, near), min(last, far)
    return first, last


def _nearest(places: npt.NDArray[np.float64], size: int) -> npt.NDArray[np.intp]:
    return np.clip(np.floor(places + 0.5).astype(np.intp), 0, size - 1)


def _runs(metal: npt.NDArray[np.bool_]) -> Iterator[tuple[int, int]]:
    """Start and stop of every unbroken stretch of True."""
    edges = np.flatnonzero(np.diff(metal, prepend=False, append=False))
    yield from zip(edges[::2].tolist(), edges[1::2].tolist(), strict=True)


def _changes(labels: npt.NDArray[np.integer], step: float) -> npt.NDArray[np.float64]:
    """Distances from the start of a run at which the grain changes [px]."""
    starts = np.concatenate(([0], np.flatnonzero(np.diff(labels)) + 1))
    grains = labels[starts]
    lengths = step * np.diff(np.append(starts, labels.size))
    stays = np.ones(grains.size, dtype=np.bool_)
    stays[1:-1] = (grains[:-2] != grains[2:]) | (lengths[1:-1] >= _STAIRCASE_PX)
    changed = np.flatnonzero(np.diff(grains[stays])) + 1
    return step * starts[stays][changed].astype(np.float64)


def _picture_point(
    patch: MetalPatch,
    point: tuple[float, float],
    direction: tuple[float, float],
    place: float,
) -> tuple[float, float]:
    return (
        patch.corner_px[0] + point[0] + place * direction[0],
        patch.corner_px[1] + point[1] + place * direction[1],
    )
