"""Boundaries, grains and spread of a map of orientations."""

import numpy as np
import numpy.typing as npt

from strandproof.errors import ParameterError
from strandproof.grainsize.orientations.along_strand import orientation_spread
from strandproof.grainsize.orientations.cubic import (
    is_finite_orientation,
    mean_orientation,
)
from strandproof.grainsize.orientations.grid import PointGrid, point_grid
from strandproof.grainsize.orientations.map_boundaries import map_boundaries
from strandproof.grainsize.orientations.map_grains import largest_region, map_grains
from strandproof.grainsize.orientations.neighbours import (
    NeighbourPairs,
    neighbour_pairs,
    pair_disorientations_deg,
    twin_related_pairs,
)
from strandproof.grainsize.orientations.regions import (
    TrustedPoints,
    region_labels,
    trusted_points,
)
from strandproof.grainsize.orientations.rotations import quaternions_of_bunge_angles
from strandproof.grainsize.orientations.twin_relation import (
    TWIN_SIGMA,
    brandon_limit_deg,
)
from strandproof.records.orientation import OrientationRules, OrientationTable
from strandproof.records.orientation_results import MapCoverage, OrientationMapResult


def measure_orientation_map(
    table: OrientationTable, *, rules: OrientationRules | None = None
) -> OrientationMapResult:
    """Measure boundaries, grains and spread of a map.

    Assumes one cubic metal, and points on a square or hexagonal grid or on a
    line. Boundaries below the small angle, and grains below a few steps, are
    not seen.

    Parameters
    ----------
    table : OrientationTable
        The map.
    rules : OrientationRules, optional
        What counts as what; None takes the defaults.

    Returns
    -------
    OrientationMapResult
        Everything found.

    Raises
    ------
    ParameterError
        If a rule is outside of what is allowed, the points are too few or on
        no grid, or no point carries a trusted orientation.
    """
    chosen = rules or OrientationRules()
    require_rules(chosen)
    grid = point_grid(table)
    listed = quaternions_of_bunge_angles(table.angles_rad, meaning=table.meaning)
    if not is_finite_orientation(listed).any():
        raise ParameterError(
            "indexed points", 0, allowed="at least one point with an orientation"
        )
    pairs = neighbour_pairs(grid)
    step = max(grid.step_um, grid.row_step_um)
    points = trusted_points(table, listed, pairs, step_um=step, rules=chosen)
    if not points.measured.any():
        raise ParameterError(
            "points in regions of the smallest grain's size",
            0,
            allowed="at least one",
            remedy="Lower the smallest number of points of a grain.",
        )
    angles = pair_disorientations_deg(pairs, points.orientations)
    limit = brandon_limit_deg(TWIN_SIGMA)
    twins = twin_related_pairs(pairs, points.orientations, angles, limit_deg=limit)
    twins &= angles >= chosen.boundary_deg
    labels = _regions(pairs, angles < chosen.boundary_deg, points)
    merged = _regions(pairs, (angles < chosen.boundary_deg) | twins, points)
    # Without small boundaries inside: a region of two parts has no common mean.
    whole = _regions(pairs, angles < chosen.small_deg, points)
    alike = points.measured & (whole == largest_region(whole, points.measured))
    reference = mean_orientation(points.orientations[alike])
    return OrientationMapResult(
        rules=chosen,
        coverage=_coverage(table, grid, points, chosen),
        boundaries=map_boundaries(grid, pairs, angles, twins, rules=chosen),
        grains=map_grains(grid, labels, merged),
        spread=orientation_spread(table, points, reference, rules=chosen),
    )


def require_rules(rules: OrientationRules) -> None:
    """Refuse rules that contradict themselves.

    Parameters
    ----------
    rules : OrientationRules
        The rules.

    Raises
    ------
    ParameterError
        If a rule is outside of what is allowed.
    """
    if not 1.0 <= rules.boundary_deg <= 40.0:
        raise ParameterError(
            "boundary_deg", rules.boundary_deg, allowed="1 to 40 [deg]"
        )
    if not 0.1 <= rules.small_deg <= rules.boundary_deg:
        raise ParameterError(
            "small_deg",
            rules.small_deg,
            allowed=f"0.1 to boundary_deg, here {rules.boundary_deg:g} [deg]",
        )
    if not 1 <= rules.smallest_grain_points <= 1000:
        raise ParameterError(
            "smallest_grain_points", rules.smallest_grain_points, allowed="1 to 1000"
        )
    if not 0 <= rules.bridge_points <= 5:
        raise ParameterError("bridge_points", rules.bridge_points, allowed="0 to 5")


def _regions(
    pairs: NeighbourPairs, joined: npt.NDArray[np.bool_], points: TrustedPoints
) -> npt.NDArray[np.int32]:
    # Region of each point, -1 without an orientation to go by; a NaN angle joins
    # nothing, so such a point is a region of its own until here.
    held = is_finite_orientation(points.orientations)
    labels = np.full(len(held), -1, dtype=np.int32)
    found = region_labels(pairs, joined)
    labels[: len(found)] = found
    labels[~held] = -1
    return labels


def _coverage(
    table: OrientationTable,
    grid: PointGrid,
    points: TrustedPoints,
    rules: OrientationRules,
) -> MapCoverage:
    extent = {"x": float(np.ptp(table.x_um)), "y": float(np.ptp(table.y_um))}
    across = "y" if rules.axis == "x" else "x"
    return MapCoverage(
        grid=grid.kind,
        step_um=grid.step_um,
        row_step_um=grid.row_step_um,
        points=len(table.x_um),
        indexed=points.indexed,
        isolated=points.isolated,
        bridged=points.bridged,
        length_um=extent[rules.axis],
        width_um=extent[across],
    )
