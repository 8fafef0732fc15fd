from dataclasses import replace

import numpy as np
import pytest

from strandproof.errors import ParameterError
from strandproof.grainsize.orientations import measure_grain_list
from strandproof.grainsize.orientations.rotations import product, random_rotations
from strandproof.grainsize.orientations.synthetic import bunge_angles
from strandproof.grainsize.orientations.twin_relation import twin_rotations
from strandproof.records.orientation import GrainTable, OrientationRules

NEIGHBOURS = ((2,), (1, 3), (2, 4), (3,))


def four_grains() -> GrainTable:
    """Grain 2 is a twin of 1; 3 is 6 deg from 2; 4 is 30 deg from 3."""
    first = random_rotations(1, np.random.default_rng(1))[0]
    second = product(first, twin_rotations()[0])
    turns = [np.array([np.cos(a), 0.0, 0.0, np.sin(a)]) for a in np.radians([3.0, 15])]
    third = product(second, turns[0])
    fourth = product(third, turns[1])
    return GrainTable(
        name="grains.csv",
        numbers=(1, 2, 3, 4),
        x_um=np.arange(4.0),
        y_um=np.zeros(4),
        angles_rad=bunge_angles(np.array([first, second, third, fourth])),
        area_um2=np.array([50.0, 20.0, 20.0, 10.0]),
        neighbours=NEIGHBOURS,
        meaning="passive",
    )


def test_four_grains_counted_by_hand() -> None:
    found = measure_grain_list(four_grains())
    assert (found.grains, found.pairs) == (4, 3)
    assert (found.high, found.twin, found.small) == (2, 1, 1)
    assert found.total_area_um2 == pytest.approx(100.0)
    assert found.mean_area_um2 == pytest.approx(25.0)
    assert found.largest_share == pytest.approx(0.5)
    assert found.share_near_largest == pytest.approx(0.5)


def test_a_lower_boundary_angle_makes_the_small_one_high() -> None:
    rules = OrientationRules(boundary_deg=5.0)
    assert measure_grain_list(four_grains(), rules=rules).high == 3


def test_a_list_without_neighbours_says_nothing_of_boundaries() -> None:
    found = measure_grain_list(replace(four_grains(), neighbours=None))
    assert found.pairs is None
    assert found.high is None


def test_each_pair_counts_once_even_if_one_side_names_it() -> None:
    lopsided = replace(four_grains(), neighbours=((2,), (), (2,), (3,)))
    assert measure_grain_list(lopsided).pairs == 3


def test_grains_without_neighbours_make_no_pairs() -> None:
    alone = replace(four_grains(), neighbours=((), (), (), ()))
    assert measure_grain_list(alone).pairs == 0


@pytest.mark.parametrize("fault", ["area", "angle", "empty"])
def test_incomplete_lists_are_refused(fault: str) -> None:
    table = four_grains()
    if fault == "area":
        table.area_um2[1] = 0.0
    elif fault == "angle":
        table.angles_rad[2] = np.nan
    else:
        table = replace(table, numbers=())
    with pytest.raises(
        ParameterError, match="area_um2|angles of a grain|grains of the"
    ):
        measure_grain_list(table)
