import numpy as np
from orientation_examples import grid_of, map_of_blocks

from strandproof.grainsize.orientations.neighbours import (
    NeighbourPairs,
    neighbour_pairs,
)
from strandproof.grainsize.orientations.regions import region_labels, trusted_points
from strandproof.grainsize.orientations.rotations import quaternions_of_bunge_angles
from strandproof.records.orientation import OrientationRules


def pairs_of(*pairs: tuple[int, int]) -> NeighbourPairs:
    both = np.array(pairs, dtype=np.int32).reshape(-1, 2)
    return NeighbourPairs(
        first=both[:, 0],
        second=both[:, 1],
        edge_um=np.ones(len(both), dtype=np.float32),
        along=np.zeros(len(both), dtype=np.int8),
    )


def test_joined_pairs_hold_regions_together() -> None:
    pairs = pairs_of((0, 1), (1, 2), (2, 3), (3, 4))
    labels = region_labels(pairs, np.array([True, False, True, True]))
    assert labels[0] == labels[1]
    assert labels[2] == labels[3] == labels[4]
    assert labels[0] != labels[2]


def test_points_without_joined_pair_stand_alone() -> None:
    labels = region_labels(pairs_of((0, 1), (1, 2)), np.array([False, False]))
    assert len(set(labels.tolist())) == 3


def test_a_bridge_reaches_as_many_steps_as_allowed() -> None:
    angles = np.zeros((1, 13))
    angles[0, 4:9] = np.nan
    table = map_of_blocks(angles)
    listed = quaternions_of_bunge_angles(table.angles_rad, meaning="passive")
    pairs = neighbour_pairs(grid_of(table))
    for steps, expected in ((0, 0), (1, 2), (2, 4), (3, 5)):
        rules = OrientationRules(bridge_points=steps)
        found = trusted_points(table, listed, pairs, step_um=1.0, rules=rules)
        assert found.bridged == expected
        assert int(np.isfinite(found.orientations[:, 0]).sum()) == 8 + expected
        assert int(found.measured.sum()) == 8


def test_a_point_far_from_the_map_is_an_island() -> None:
    table = map_of_blocks([[0.0, 0.0, 0.0, 0.0, 0.0, np.nan, 0.0]])
    listed = quaternions_of_bunge_angles(table.angles_rad, meaning="passive")
    pairs = neighbour_pairs(grid_of(table))
    found = trusted_points(
        table, listed, pairs, step_um=1.0, rules=OrientationRules(bridge_points=0)
    )
    assert found.isolated == 1
    assert not found.measured[6]
