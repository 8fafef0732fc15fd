import numpy as np
import pytest
from orientation_examples import grid_of, map_of_blocks

from strandproof.grainsize.orientations.map_grains import largest_region, map_grains


def test_regions_are_counted_with_and_without_twins() -> None:
    grid = grid_of(map_of_blocks(np.zeros((3, 4)), step_um=2.0))
    labels = np.array([0, 0, 0, 0, 0, 1, 2, 0, 0, 0, 0, -1], dtype=np.int32)
    merged = np.array([0, 0, 0, 0, 0, 0, 2, 0, 0, 0, 0, -1], dtype=np.int32)
    found = map_grains(grid, labels, merged)
    assert (found.grains, found.grains_twins_merged) == (3, 2)
    assert found.touching_frame == 1
    assert found.mean_area_um2 == pytest.approx(11 * 4.0 / 3)
    assert found.largest_share == pytest.approx(9 / 11)


def test_only_counted_points_make_the_largest_region() -> None:
    labels = np.array([0, 0, 0, 1, 1, -1], dtype=np.int32)
    counted = np.array([False, False, True, True, True, False])
    assert largest_region(labels, counted) == 1
