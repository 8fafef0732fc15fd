"""Places where three grains meet, and how unevenly they lie over a picture.

Three boundaries meet at a triple point, so that a network of boundaries has two
triple points to a grain. Points, unlike grains, are not cut by the edges of the parts
of a picture: their scatter over the parts is what the interval of a count of grains
comes from.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from strandproof.grainsize.blocks import BlockGrid
from strandproof.grainsize.patch import MetalPatch


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class MeetingPoints:
    """Corners of pixels at which three or four grains meet.

    Parameters
    ----------
    places_px : ndarray of float, shape (n, 2)
        Row and column in the patch [px]; the middle of a pixel is a whole number, so
        these are halves.
    labels : ndarray of int, shape (n, 4)
        Grains of the four pixels around each, in rising order; none is 0.
    """

    places_px: npt.NDArray[np.float64]
    labels: npt.NDArray[np.integer]

    @property
    def triple_points(self) -> npt.NDArray[np.float64]:
        """Triple points that each stands for: 1, or 2 where four grains meet."""
        borders = np.count_nonzero(np.diff(self.labels, axis=-1), axis=-1)
        return np.asarray(borders - 1, dtype=np.float64)


def meeting_points(labels: npt.NDArray[np.integer]) -> MeetingPoints:
    """Find where three or more grains meet.

    The strand's edge is no grain, and a boundary that ends there makes no point.

    Parameters
    ----------
    labels : ndarray of int, shape (n_rows, n_cols)
        Grain of each pixel; 0 off the metal, or off the part that is counted.

    Returns
    -------
    MeetingPoints
        In the order of rows.
    """
    n_rows, n_cols = labels.shape
    around = np.stack(
        [
            labels[row : n_rows - 1 + row, col : n_cols - 1 + col]
            for row in (0, 1)
            for col in (0, 1)
        ],
        axis=-1,
    )
    around.sort(axis=-1)
    borders = np.count_nonzero(np.diff(around, axis=-1), axis=-1)
    # The smallest label is 0 where one of the four pixels lies off the metal.
    rows, cols = np.nonzero((borders >= 2) & (around[..., 0] > 0))
    return MeetingPoints(
        places_px=np.column_stack((rows, cols)).astype(np.float64) + 0.5,
        labels=around[rows, cols],
    )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class AreaTally:
    """Area of metal and triple points in each part of a picture.

    Parameters
    ----------
    areas_px : ndarray of float, shape (n_blocks,)
        Area of metal [px^2].
    triple_points : ndarray of float, shape (n_blocks,)
        Triple points; where four grains meet there are two.
    """

    areas_px: npt.NDArray[np.float64]
    triple_points: npt.NDArray[np.float64]


def area_tally(patch: MetalPatch, grid: BlockGrid) -> AreaTally:
    """Share out the area and the triple points of a patch over the parts of a grid.

    Parameters
    ----------
    patch : MetalPatch
        A piece of metal.
    grid : BlockGrid
        The parts, in the picture's pixels.

    Returns
    -------
    AreaTally
        One area and one number a part.
    """
    met = meeting_points(patch.labels)
    points = _parts(grid, patch.corner_px, *met.places_px.T)
    pixels = _parts(grid, patch.corner_px, *np.nonzero(patch.metal))
    return AreaTally(
        areas_px=np.bincount(pixels, minlength=grid.size).astype(np.float64),
        triple_points=np.asarray(
            np.bincount(points, weights=met.triple_points, minlength=grid.size),
            dtype=np.float64,
        ),
    )


def joined_areas(tallies: Sequence[AreaTally]) -> AreaTally:
    """Parts of several pieces of metal, side by side.

    Parameters
    ----------
    tallies : sequence of AreaTally
        One per piece; at least one.

    Returns
    -------
    AreaTally
        All parts.
    """
    return AreaTally(
        areas_px=np.concatenate([tally.areas_px for tally in tallies]),
        triple_points=np.concatenate([tally.triple_points for tally in tallies]),
    )


def _parts(
    grid: BlockGrid,
    corner_px: tuple[int, int],
    rows: npt.NDArray[np.number],
    cols: npt.NDArray[np.number],
) -> npt.NDArray[np.intp]:
    """Part of the grid of points given in the patch."""
    return grid.numbers(
        rows.astype(np.float64) + corner_px[0], cols.astype(np.float64) + corner_px[1]
    )
