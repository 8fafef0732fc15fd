import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from strandproof.errors import ParameterError
from strandproof.grainsize.orientations import brandon_limit_deg, twin_departures_deg
from strandproof.grainsize.orientations.rotations import (
    about_axis,
    product,
    random_rotations,
)
from strandproof.grainsize.orientations.twin_relation import twin_rotations


@given(st.floats(0.0, 12.0), st.integers(0, 2**32 - 1))
def test_departure_is_the_turn_that_was_added(degrees: float, seed: int) -> None:
    chance = np.random.default_rng(seed)
    axis = chance.standard_normal(3)
    added = about_axis(axis / np.linalg.norm(axis), np.array(np.radians(degrees)))
    for twin in twin_rotations():
        found = twin_departures_deg(product(twin, added))
        assert found == pytest.approx(degrees, rel=0, abs=1e-5)


def test_a_crystal_is_60_degrees_from_its_own_twin_relation() -> None:
    none = np.array([1.0, 0.0, 0.0, 0.0])
    assert twin_departures_deg(none) == pytest.approx(60.0, rel=0, abs=1e-6)


def test_departures_come_in_the_shape_given() -> None:
    relative = random_rotations(12, np.random.default_rng(1)).reshape(3, 4, 4)
    assert twin_departures_deg(relative).shape == (3, 4)


def test_the_list_handed_out_is_a_copy() -> None:
    twin_rotations()[0] = 0.0
    assert np.linalg.norm(twin_rotations()[0]) == pytest.approx(1.0)


@pytest.mark.parametrize("sigma", [0, -3, 2])
def test_sigma_that_is_none_is_refused(sigma: int) -> None:
    with pytest.raises(ParameterError, match="odd whole number"):
        brandon_limit_deg(sigma)
