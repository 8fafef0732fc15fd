"""Boundaries of a map by disorientation: lengths, crossings, distribution."""

import numpy as np
import numpy.typing as npt

from strandproof.grainsize.orientations.grid import PointGrid
from strandproof.grainsize.orientations.neighbours import Angles, NeighbourPairs
from strandproof.grainsize.orientations.random_pairs import random_share_below
from strandproof.records.orientation import OrientationRules
from strandproof.records.orientation_results import BoundaryClass, MapBoundaries

_CLASS_DEG = 5.0
_LAST_DEG = 65.0

Chosen = npt.NDArray[np.bool_]


def map_boundaries(
    grid: PointGrid,
    pairs: NeighbourPairs,
    angles_deg: Angles,
    twins: Chosen,
    *,
    rules: OrientationRules,
) -> MapBoundaries:
    """Sum up the boundaries between neighbouring points.

    Parameters
    ----------
    grid : PointGrid
        The grid.
    pairs : NeighbourPairs
        Neighbouring points.
    angles_deg : ndarray of float32, shape (n_pairs,)
        Their disorientation [deg]; NaN where not judged.
    twins : ndarray of bool, shape (n_pairs,)
        Twin-related pairs.
    rules : OrientationRules
        Boundary angle and small angle.

    Returns
    -------
    MapBoundaries
        Lengths by class, crossings along the axis, distribution of angles.
    """
    high = angles_deg >= rules.boundary_deg
    small = (angles_deg >= rules.small_deg) & ~high
    judged = np.isfinite(angles_deg)
    is_line = grid.kind == "line"
    per_mm, along_um = _crossings(grid, pairs, judged, (high, high & twins), rules)
    edges, shares = _distribution(angles_deg, pairs, rules, is_line=is_line)
    return MapBoundaries(
        high=_class(pairs, high, is_line=is_line),
        twin=_class(pairs, high & twins, is_line=is_line),
        small=_class(pairs, small, is_line=is_line),
        not_judged=_class(pairs, ~judged, is_line=is_line),
        high_per_mm=per_mm[0],
        twin_per_mm=per_mm[1],
        inside_deg=_median(angles_deg[angles_deg < rules.boundary_deg]),
        judged_along_um=along_um,
        angle_edges_deg=edges,
        angle_share=shares,
        random_share=_random_shares(edges),
    )


def _median(angles_deg: Angles) -> float | None:
    return float(np.median(angles_deg)) if len(angles_deg) else None


def _class(pairs: NeighbourPairs, chosen: Chosen, *, is_line: bool) -> BoundaryClass:
    length = None
    if not is_line:
        length = float(pairs.edge_um[chosen].sum(dtype=np.float64))
    return BoundaryClass(length_um=length, edges=int(chosen.sum()))


def _crossings(
    grid: PointGrid,
    pairs: NeighbourPairs,
    judged: Chosen,
    classes: tuple[Chosen, Chosen],
    rules: OrientationRules,
) -> tuple[tuple[float | None, float | None], float]:
    # On a hexagonal grid no pairs lie along y; nothing is stated there.
    wanted, step = (0, grid.step_um) if rules.axis == "x" else (1, grid.row_step_um)
    along = pairs.along == wanted
    length_um = float((along & judged).sum()) * step
    if length_um == 0.0:
        return (None, None), 0.0
    high, twin = (float((along & chosen).sum()) for chosen in classes)
    return (1000.0 * high / length_um, 1000.0 * twin / length_um), length_um


def _distribution(
    angles_deg: Angles,
    pairs: NeighbourPairs,
    rules: OrientationRules,
    *,
    is_line: bool,
) -> tuple[tuple[float, ...], tuple[float, ...]]:
    first = np.floor(rules.small_deg / _CLASS_DEG) * _CLASS_DEG
    inner = np.arange(first + _CLASS_DEG, _LAST_DEG + 1.0, _CLASS_DEG)
    edges = np.concatenate([[rules.small_deg], inner])
    counted = angles_deg >= rules.small_deg
    weights = None if is_line else pairs.edge_um[counted].astype(np.float64)
    found, _ = np.histogram(angles_deg[counted], bins=edges, weights=weights)
    total = float(found.sum())
    shares = found / total if total > 0.0 else np.zeros(len(found))
    return tuple(edges.tolist()), tuple(np.asarray(shares, dtype=float).tolist())


def _random_shares(edges: tuple[float, ...]) -> tuple[float, ...]:
    below = np.array([random_share_below(edge) for edge in edges])
    shares = np.diff(below) / (1.0 - below[0])
    return tuple(shares.tolist())
