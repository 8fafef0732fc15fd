"""Neighbouring points of a grid, and the edge of the cells between them."""

from dataclasses import dataclass
from math import sqrt

import numpy as np
import numpy.typing as npt

from strandproof.grainsize.orientations.cubic import smallest_cubic_angles
from strandproof.grainsize.orientations.grid import PointGrid
from strandproof.grainsize.orientations.rotations import Floats, relative_rotations
from strandproof.grainsize.orientations.twin_relation import twin_departures_deg

Indices = npt.NDArray[np.int32]
Angles = npt.NDArray[np.float32]

_BLOCK = 400_000  # pairs worked on at a time, which bounds the memory
_MARGIN_DEG = 0.01


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class NeighbourPairs:
    """Pairs of neighbouring points of a table.

    Parameters
    ----------
    first, second : ndarray of int32, shape (n_pairs,)
        Numbers of the points.
    edge_um : ndarray of float32, shape (n_pairs,)
        Length of the edge between their cells [um]; 0 on a line of points.
    along : ndarray of int8, shape (n_pairs,)
        0 where the pair lies along x, 1 along y, 2 on a slant.
    """

    first: Indices
    second: Indices
    edge_um: npt.NDArray[np.float32]
    along: npt.NDArray[np.int8]


def neighbour_pairs(grid: PointGrid) -> NeighbourPairs:
    """List the pairs of neighbouring points of a grid.

    Parameters
    ----------
    grid : PointGrid
        The grid.

    Returns
    -------
    NeighbourPairs
        Four neighbours for each point of a square grid, six on a hexagonal one;
        each pair once, with both points in the table.

    Notes
    -----
    The edge between two cells is as long as the cell is across: the row step, the
    step, or step / sqrt 3 for hexagons. Edges follow the cells, so a smooth
    boundary comes out longer than it is, by 4/pi over all directions on either
    grid: pairs of a family with vector v are parted |v . n| / cell area times per
    length, and the mean of |cos| is 2/pi.
    """
    cells = grid.points
    if grid.kind == "hexagonal":
        edge = grid.step_um / sqrt(3.0)
        families = [(cells[:, :-1], cells[:, 1:], edge, 0)]
        families += [(*two, edge, 2) for two in _slanted(cells, grid.shifted_parity)]
    else:
        flat = grid.kind == "line"
        families = [
            (cells[:, :-1], cells[:, 1:], 0.0 if flat else grid.row_step_um, 0),
            (cells[:-1], cells[1:], 0.0 if flat else grid.step_um, 1),
        ]
    parts = [_family(*family) for family in families]
    return NeighbourPairs(
        first=np.concatenate([part.first for part in parts]),
        second=np.concatenate([part.second for part in parts]),
        edge_um=np.concatenate([part.edge_um for part in parts]),
        along=np.concatenate([part.along for part in parts]),
    )


def pair_disorientations_deg(pairs: NeighbourPairs, orientations: Floats) -> Angles:
    """Give the disorientation of each pair.

    Parameters
    ----------
    pairs : NeighbourPairs
        The pairs.
    orientations : ndarray of float, shape (n, 4)
        Orientation of each point; NaN where there is none.

    Returns
    -------
    ndarray of float32, shape (n_pairs,)
        Disorientation [deg]; NaN where one of the two has no orientation.
    """
    angles = np.empty(len(pairs.first), dtype=np.float32)
    for start in range(0, len(angles), _BLOCK):
        part = slice(start, start + _BLOCK)
        relative = _relative(pairs, orientations, part)
        angles[part] = np.rad2deg(smallest_cubic_angles(relative))
    return angles


def twin_related_pairs(
    pairs: NeighbourPairs,
    orientations: Floats,
    angles_deg: Angles,
    *,
    limit_deg: float,
) -> npt.NDArray[np.bool_]:
    """Tell which pairs lie within a limit of a twin relation.

    Parameters
    ----------
    pairs : NeighbourPairs
        The pairs.
    orientations : ndarray of float, shape (n, 4)
        Orientation of each point.
    angles_deg : ndarray of float32, shape (n_pairs,)
        Their disorientation [deg].
    limit_deg : float
        Largest departure [deg].

    Returns
    -------
    ndarray of bool, shape (n_pairs,)
        True where twin-related.
    """
    related = np.zeros(len(angles_deg), dtype=np.bool_)
    # A pair within the limit has an angle within the limit of 60 deg.
    candidates = np.flatnonzero(angles_deg >= 60.0 - limit_deg - _MARGIN_DEG)
    for start in range(0, len(candidates), _BLOCK):
        part = candidates[start : start + _BLOCK]
        departures = twin_departures_deg(_relative(pairs, orientations, part))
        related[part] = departures <= limit_deg
    return related


def _relative(
    pairs: NeighbourPairs,
    orientations: Floats,
    part: slice | npt.NDArray[np.intp],
) -> Floats:
    return relative_rotations(
        orientations[pairs.first[part]], orientations[pairs.second[part]]
    )


def _slanted(
    cells: npt.NDArray[np.int64], shifted_parity: int
) -> list[tuple[npt.NDArray[np.int64], npt.NDArray[np.int64]]]:
    # Below a row that is not shifted lie columns c - 1 and c; below a shifted
    # row, which stands half a step to the right, c and c + 1.
    upper, lower = cells[:-1], cells[1:]
    shifted = np.arange(len(upper)) % 2 == shifted_parity
    return [
        (upper, lower),
        (upper[~shifted, 1:], lower[~shifted, :-1]),
        (upper[shifted, :-1], lower[shifted, 1:]),
    ]


def _family(
    first: npt.NDArray[np.int64],
    second: npt.NDArray[np.int64],
    edge_um: float,
    along: int,
) -> NeighbourPairs:
    both = (first >= 0) & (second >= 0)
    count = int(both.sum())
    return NeighbourPairs(
        first=first[both].astype(np.int32),
        second=second[both].astype(np.int32),
        edge_um=np.full(count, edge_um, dtype=np.float32),
        along=np.full(count, along, dtype=np.int8),
    )
