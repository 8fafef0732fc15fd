"""Grains of a map: regions that no boundary parts."""

import numpy as np
import numpy.typing as npt

from strandproof.grainsize.orientations.grid import PointGrid
from strandproof.records.orientation_results import MapGrains

Labels = npt.NDArray[np.int32]


def map_grains(grid: PointGrid, labels: Labels, merged: Labels) -> MapGrains:
    """Count the regions of a map.

    Parameters
    ----------
    grid : PointGrid
        The grid.
    labels : ndarray of int32, shape (n,)
        Region of each point; -1 without an orientation to go by.
    merged : ndarray of int32, shape (n,)
        The same with twin-related boundaries taken away.

    Returns
    -------
    MapGrains
        Numbers and mean area.

    Notes
    -----
    The mean area counts grains at the frame whole, so it is too small by their
    missing parts; a grain size number is not made from it.
    """
    held = labels[labels >= 0]
    grains = len(np.unique(held))
    sizes = np.bincount(held)
    area = len(held) * grid.cell_area_um2 / grains
    return MapGrains(
        grains=grains,
        touching_frame=_at_frame(grid, labels),
        grains_twins_merged=len(np.unique(merged[merged >= 0])),
        mean_area_um2=None if grid.kind == "line" else area,
        largest_share=float(sizes.max() / len(held)),
    )


def largest_region(labels: Labels, counted: npt.NDArray[np.bool_]) -> int:
    """Give the region with the most points.

    Parameters
    ----------
    labels : ndarray of int32, shape (n,)
        Region of each point; -1 without an orientation to go by.
    counted : ndarray of bool, shape (n,)
        Points that count; at least one, none of them without a region.

    Returns
    -------
    int
        Its number.
    """
    return int(np.bincount(labels[counted]).argmax())


def _at_frame(grid: PointGrid, labels: Labels) -> int:
    cells = grid.points
    sides = [cells[:, 0], cells[:, -1]]
    if grid.kind != "line" or cells.shape[1] == 1:
        sides += [cells[0], cells[-1]]
    points = np.concatenate(sides)
    touched = np.unique(labels[points[points >= 0]])
    return int((touched >= 0).sum())
