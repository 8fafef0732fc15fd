import numpy as np
import pytest
from orientation_examples import grid_of, map_of_blocks

from strandproof.grainsize.orientations.map_boundaries import map_boundaries
from strandproof.grainsize.orientations.neighbours import neighbour_pairs
from strandproof.records.orientation import OrientationRules
from strandproof.records.orientation_results import MapBoundaries

RULES = OrientationRules()


def of_row(angles_deg: list[float], twins: list[bool]) -> MapBoundaries:
    grid = grid_of(map_of_blocks(np.zeros((1, len(angles_deg) + 1)), step_um=2.0))
    return map_boundaries(
        grid,
        neighbour_pairs(grid),
        np.array(angles_deg, dtype=np.float32),
        np.array(twins),
        rules=RULES,
    )


def test_pairs_fall_into_their_classes() -> None:
    found = of_row([0.5, 3.0, 20.0, 60.0, np.nan], [False, False, False, True, False])
    assert found.high.edges == 2
    assert found.twin.edges == 1
    assert found.small.edges == 1
    assert found.not_judged.edges == 1
    assert found.twin_share == pytest.approx(0.5)
    assert found.judged_along_um == pytest.approx(8.0)
    assert found.high_per_mm == pytest.approx(250.0)
    assert found.twin_per_mm == pytest.approx(125.0)
    assert found.inside_deg == pytest.approx(1.75)


def test_angles_fall_into_steps_of_five_degrees() -> None:
    found = of_row([3.0, 4.9, 5.0, 62.0], [False] * 4)
    assert found.angle_edges_deg[:3] == (2.0, 5.0, 10.0)
    assert found.angle_share[:2] == (0.5, 0.25)
    assert found.angle_share[-1] == pytest.approx(0.25)


def test_nothing_judged_states_no_rate() -> None:
    found = of_row([np.nan, np.nan], [False, False])
    assert found.high_per_mm is None
    assert found.inside_deg is None
    assert found.twin_share is None
    assert sum(found.angle_share) == 0.0
