"""Straight lines and circles as points, and their unbroken runs in metal."""

from collections.abc import Iterator
from dataclasses import dataclass
from math import hypot, pi
from typing import Literal

import numpy as np
import numpy.typing as npt

from strandproof.errors import ParameterError
from strandproof.grainsize.patch import MetalPatch

EndKind = Literal["frame", "strand_edge", "line_end"]
Floats = npt.NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Curve:
    """Evenly spaced points of a test line in the pixels of a patch.

    Parameters
    ----------
    rows, cols : ndarray of float, shape (n,)
        Points at the middles of equal steps [px].
    step_px : float
        Length of a step along the curve [px].
    closed : bool
        Whether the last step leads to the first point.
    """

    rows: Floats
    cols: Floats
    step_px: float
    closed: bool


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class CurveRun:
    """One unbroken run of a curve in metal.

    Parameters
    ----------
    rows, cols : ndarray of float, shape (n,)
        Its points [px].
    length_px : float
        Its length [px].
    ends : tuple of {"frame", "strand_edge", "line_end"}
        What ends it at start and end; empty for a whole circle.
    """

    rows: Floats
    cols: Floats
    length_px: float
    ends: tuple[EndKind, ...]


def straight_curve(
    start_px: tuple[float, float], end_px: tuple[float, float], *, step_px: float
) -> Curve:
    """Points of a straight line.

    Parameters
    ----------
    start_px, end_px : tuple of float
        Row and column of its ends [px].
    step_px : float
        Wanted step [px]; above 0.

    Returns
    -------
    Curve
        At least one point.

    Raises
    ------
    ParameterError
        If the ends are one point.
    """
    length = hypot(end_px[0] - start_px[0], end_px[1] - start_px[1])
    if length <= 0:
        raise ParameterError("end_px", end_px, allowed="a point away from start_px")
    count = max(1, round(length / step_px))
    share = (np.arange(count) + 0.5) / count
    return Curve(
        rows=start_px[0] + share * (end_px[0] - start_px[0]),
        cols=start_px[1] + share * (end_px[1] - start_px[1]),
        step_px=length / count,
        closed=False,
    )


def circle_curve(
    centre_px: tuple[float, float], diameter_px: float, *, step_px: float
) -> Curve:
    """Points of a circle.

    Parameters
    ----------
    centre_px : tuple of float
        Row and column of the centre [px].
    diameter_px : float
        Diameter [px]; above 0.
    step_px : float
        Wanted step [px]; above 0.

    Returns
    -------
    Curve
        Closed.

    Raises
    ------
    ParameterError
        If the diameter is not above 0.
    """
    if not diameter_px > 0:
        raise ParameterError("diameter_px", diameter_px, allowed="a length above 0")
    count = max(8, round(pi * diameter_px / step_px))
    angle = 2.0 * pi * (np.arange(count) + 0.5) / count
    return Curve(
        rows=centre_px[0] - 0.5 * diameter_px * np.sin(angle),
        cols=centre_px[1] + 0.5 * diameter_px * np.cos(angle),
        step_px=pi * diameter_px / count,
        closed=True,
    )


def metal_runs(curve: Curve, patch: MetalPatch) -> Iterator[CurveRun]:
    """Yield every unbroken run of a curve in the metal of a patch.

    Parameters
    ----------
    curve : Curve
        The curve, in the patch's pixels.
    patch : MetalPatch
        The piece of metal.

    Yields
    ------
    CurveRun
        In order along the curve; a circle that leaves the metal gives arcs.
    """
    inside = _in_metal(curve, patch)
    if not inside.any():
        return
    rows, cols = curve.rows, curve.cols
    if curve.closed and inside.all():
        yield CurveRun(
            rows=rows, cols=cols, length_px=rows.size * curve.step_px, ends=()
        )
        return
    if curve.closed:
        # Begin off the metal, so that no arc is split where the circle began.
        shift = -int(np.flatnonzero(~inside)[0])
        rows, cols = np.roll(rows, shift), np.roll(cols, shift)
        inside = np.roll(inside, shift)
    edges = np.flatnonzero(np.diff(inside, prepend=False, append=False))
    for start, stop in zip(edges[::2].tolist(), edges[1::2].tolist(), strict=True):
        # The next point beyond each end, on a line that goes straight on.
        beyond = [
            (2 * rows[at] - rows[inner], 2 * cols[at] - cols[inner])
            for at, inner in (
                (start, min(start + 1, stop - 1)),
                (stop - 1, max(stop - 2, start)),
            )
        ]
        ends = tuple(_end_kind(patch, place, curve.step_px) for place in beyond)
        yield CurveRun(
            rows=rows[start:stop],
            cols=cols[start:stop],
            length_px=(stop - start) * curve.step_px,
            ends=ends,
        )


def nearest_pixels(
    rows: Floats, cols: Floats, shape: tuple[int, ...]
) -> tuple[npt.NDArray[np.intp], npt.NDArray[np.intp]]:
    """Give the pixels that points lie in.

    Parameters
    ----------
    rows, cols : ndarray of float, shape (n,)
        Points [px].
    shape : tuple of int
        Size of the picture; points outside go to the nearest pixel.

    Returns
    -------
    rows, cols : ndarray of int, shape (n,)
        Pixels.
    """
    row = np.clip(np.floor(rows + 0.5).astype(np.intp), 0, shape[0] - 1)
    col = np.clip(np.floor(cols + 0.5).astype(np.intp), 0, shape[1] - 1)
    return row, col


def _in_metal(curve: Curve, patch: MetalPatch) -> npt.NDArray[np.bool_]:
    n_rows, n_cols = patch.metal.shape
    on_pixels = (
        (curve.rows >= -0.5)
        & (curve.rows < n_rows - 0.5)
        & (curve.cols >= -0.5)
        & (curve.cols < n_cols - 0.5)
    )
    metal = patch.metal[nearest_pixels(curve.rows, curve.cols, patch.metal.shape)]
    found: npt.NDArray[np.bool_] = on_pixels & metal
    return found


def _end_kind(
    patch: MetalPatch, beyond: tuple[float, float], step_px: float
) -> EndKind:
    # The patch has a rim off the metal except where the picture's frame cuts it.
    for place, size in zip(beyond, patch.metal.shape, strict=True):
        if place - step_px <= -0.5 or place + step_px >= size - 0.5:
            return "frame"
    row, col = (int(np.floor(place + 0.5)) for place in beyond)
    return "line_end" if patch.metal[row, col] else "strand_edge"
