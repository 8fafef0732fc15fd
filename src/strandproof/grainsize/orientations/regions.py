"""Regions of like orientation, untrusted islands, and points that bridge gaps."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from scipy.sparse import coo_array
from scipy.sparse.csgraph import connected_components
from scipy.spatial import KDTree

from strandproof.grainsize.orientations.cubic import is_finite_orientation
from strandproof.grainsize.orientations.neighbours import (
    NeighbourPairs,
    pair_disorientations_deg,
)
from strandproof.grainsize.orientations.rotations import Floats
from strandproof.records.orientation import OrientationRules, OrientationTable

Labels = npt.NDArray[np.int32]

_SLACK = 1.01  # of a step: coordinates are rounded


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class TrustedPoints:
    """Orientations to go by, after islands were set aside and gaps bridged.

    Parameters
    ----------
    orientations : ndarray of float, shape (n, 4)
        Orientation of each point; NaN where there is none to go by.
    measured : ndarray of bool, shape (n,)
        Points whose own orientation is trusted.
    indexed, isolated, bridged : int
        Points with an orientation in the table; of these, in islands too
        small; points that took a neighbour's orientation.
    """

    orientations: Floats
    measured: npt.NDArray[np.bool_]
    indexed: int
    isolated: int
    bridged: int


def region_labels(pairs: NeighbourPairs, joined: npt.NDArray[np.bool_]) -> Labels:
    """Give each point the number of its region, held together by joined pairs.

    Parameters
    ----------
    pairs : NeighbourPairs
        The pairs.
    joined : ndarray of bool, shape (n_pairs,)
        Pairs without a boundary between them.

    Returns
    -------
    ndarray of int32, shape (n,)
        Region of each point, from 0; a point without any joined pair is a
        region of its own.
    """
    count = 1 + int(max(pairs.first.max(initial=0), pairs.second.max(initial=0)))
    first, second = pairs.first[joined], pairs.second[joined]
    ones = np.ones(len(first), dtype=np.int8)
    links = coo_array((ones, (first, second)), shape=(count, count))
    _, labels = connected_components(links, directed=False)
    return np.asarray(labels, dtype=np.int32)


def trusted_points(
    table: OrientationTable,
    orientations: Floats,
    pairs: NeighbourPairs,
    *,
    step_um: float,
    rules: OrientationRules,
) -> TrustedPoints:
    """Set small islands aside and bridge narrow gaps.

    Parameters
    ----------
    table : OrientationTable
        Places of the points.
    orientations : ndarray of float, shape (n, 4)
        Orientations as listed; NaN where not indexed.
    pairs : NeighbourPairs
        Neighbouring points.
    step_um : float
        Larger distance of neighbouring points [um].
    rules : OrientationRules
        Boundary angle, smallest island, width of a gap to bridge.

    Returns
    -------
    TrustedPoints
        Orientations to go by.

    Notes
    -----
    Points on grain boundaries are often not indexed. Left out, they would hide
    those boundaries; bridged, they put the boundary somewhere inside the gap. A
    bridge joins measured orientations only, so it makes no boundary where both
    sides agree.
    """
    indexed = is_finite_orientation(orientations)
    measured = indexed & ~_in_small_island(orientations, pairs, rules)
    filled = np.where(measured[:, np.newaxis], orientations, np.nan)
    bridged = np.zeros(0, dtype=np.intp)
    if rules.bridge_points > 0 and measured.any() and not measured.all():
        lost = np.flatnonzero(~measured)
        reach = rules.bridge_points * step_um * _SLACK
        nearest = _nearest(table, measured, lost, reach)
        bridged = lost[nearest >= 0]
        filled[bridged] = orientations[nearest[nearest >= 0]]
    return TrustedPoints(
        orientations=filled,
        measured=measured,
        indexed=int(indexed.sum()),
        isolated=int((indexed & ~measured).sum()),
        bridged=len(bridged),
    )


def _in_small_island(
    orientations: Floats, pairs: NeighbourPairs, rules: OrientationRules
) -> npt.NDArray[np.bool_]:
    small = np.zeros(len(orientations), dtype=np.bool_)
    if rules.smallest_grain_points <= 1:
        return small
    angles = pair_disorientations_deg(pairs, orientations)
    labels = region_labels(pairs, angles < rules.boundary_deg)
    sizes = np.bincount(labels)
    small[: len(labels)] = sizes[labels] < rules.smallest_grain_points
    small[len(labels) :] = True  # points without any neighbour
    return small


def _nearest(
    table: OrientationTable,
    measured: npt.NDArray[np.bool_],
    lost: npt.NDArray[np.intp],
    reach_um: float,
) -> npt.NDArray[np.intp]:
    places = np.column_stack([table.x_um, table.y_um])
    kept = np.flatnonzero(measured)
    distance, found = KDTree(places[kept], balanced_tree=False).query(
        places[lost], distance_upper_bound=reach_um
    )
    found = np.where(np.isfinite(distance), found, 0)
    return np.asarray(np.where(np.isfinite(distance), kept[found], -1))
