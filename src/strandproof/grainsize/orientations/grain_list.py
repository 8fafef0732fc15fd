"""A list of grains with one orientation each: sizes, neighbours, likeness."""

from dataclasses import replace

import numpy as np
import numpy.typing as npt

from strandproof.errors import ParameterError
from strandproof.grainsize.orientations.cubic import (
    disorientations_deg,
    smallest_cubic_angles,
)
from strandproof.grainsize.orientations.map_measurement import require_rules
from strandproof.grainsize.orientations.rotations import (
    quaternions_of_bunge_angles,
    relative_rotations,
)
from strandproof.grainsize.orientations.twin_relation import (
    TWIN_SIGMA,
    brandon_limit_deg,
    twin_departures_deg,
)
from strandproof.records.orientation import GrainTable, OrientationRules
from strandproof.records.orientation_results import GrainListResult


def measure_grain_list(
    table: GrainTable, *, rules: OrientationRules | None = None
) -> GrainListResult:
    """Measure a list of grains.

    The grains are those that the laboratory's own threshold made; the rules
    here sort the pairs of neighbours that the list names, and no lengths.

    Parameters
    ----------
    table : GrainTable
        The list.
    rules : OrientationRules, optional
        Boundary angle and small angle; None takes the defaults.

    Returns
    -------
    GrainListResult
        Everything found.

    Raises
    ------
    ParameterError
        If the list is empty, an orientation is missing, or an area is not above
        0.
    """
    chosen = rules or OrientationRules()
    require_rules(chosen)
    _require_complete(table)
    orientations = quaternions_of_bunge_angles(table.angles_rad, meaning=table.meaning)
    total = float(table.area_um2.sum())
    largest = int(table.area_um2.argmax())
    angles = disorientations_deg(orientations[largest], orientations)
    near = angles < chosen.boundary_deg
    result = GrainListResult(
        rules=chosen,
        grains=len(table.numbers),
        total_area_um2=total,
        mean_area_um2=total / len(table.numbers),
        largest_share=float(table.area_um2[largest]) / total,
        share_near_largest=float(table.area_um2[near].sum()) / total,
        pairs=None,
        high=None,
        twin=None,
        small=None,
    )
    pairs = _pairs(table)
    return result if pairs is None else _with_pairs(result, pairs, orientations)


def _with_pairs(
    result: GrainListResult,
    pairs: npt.NDArray[np.int64],
    orientations: npt.NDArray[np.float64],
) -> GrainListResult:
    relative = relative_rotations(orientations[pairs[:, 0]], orientations[pairs[:, 1]])
    angles = np.rad2deg(smallest_cubic_angles(relative))
    high = angles >= result.rules.boundary_deg
    limit = brandon_limit_deg(TWIN_SIGMA)
    twin = high & (twin_departures_deg(relative) <= limit)
    small = ~high & (angles >= result.rules.small_deg)
    return replace(
        result,
        pairs=len(pairs),
        high=int(high.sum()),
        twin=int(twin.sum()),
        small=int(small.sum()),
    )


def _pairs(table: GrainTable) -> npt.NDArray[np.int64] | None:
    if table.neighbours is None:
        return None
    place = {number: index for index, number in enumerate(table.numbers)}
    pairs = {
        (min(index, place[other]), max(index, place[other]))
        for index, others in enumerate(table.neighbours)
        for other in others
    }
    return np.array(sorted(pairs), dtype=np.int64).reshape(-1, 2)


def _require_complete(table: GrainTable) -> None:
    if not table.numbers:
        raise ParameterError("grains of the list", 0, allowed="1 or more")
    if not np.isfinite(table.angles_rad).all():
        raise ParameterError(
            "angles of a grain", "none", allowed="three angles for each grain"
        )
    if not (table.area_um2 > 0).all():
        raise ParameterError(
            "smallest area_um2", float(table.area_um2.min()), allowed="above 0 [um2]"
        )
