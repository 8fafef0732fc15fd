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
    n_rows, n_cols = patch.labels.shape
    windows = np.stack(
        [
            patch.labels[row : n_rows - 1 + row, col : n_cols - 1 + col]
            for row in (0, 1)
            for col in (0, 1)
        ],
        axis=-1,
    )
    windows.sort(axis=-1)
    grains = 1 + np.count_nonzero(np.diff(windows, axis=-1), axis=-1)
    # The smallest label is 0 where the window reaches out of the metal.
    rows, cols = np.nonzero((grains >= 3) & (windows[..., 0] > 0))
    weights = (grains[rows, cols] - 2).astype(np.float64)
    points = _parts(grid, patch.corner_px, rows + 0.5, cols + 0.5)
    pixels = _parts(grid, patch.corner_px, *np.nonzero(patch.metal))
    return AreaTally(
        areas_px=np.bincount(pixels, minlength=grid.size).astype(np.float64),
        triple_points=np.asarray(
            np.bincount(points, weights=weights, minlength=grid.size), dtype=np.float64
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
