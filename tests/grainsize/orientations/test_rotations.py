import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from strandproof.grainsize.orientations.rotations import (
    about_axis,
    inverse,
    product,
    quaternions_of_bunge_angles,
    random_rotations,
    relative_rotations,
)
from strandproof.records.orientation import AngleMeaning

ANGLES = st.tuples(
    st.floats(-6.2, 6.2), st.floats(0.0, float(np.pi)), st.floats(-6.2, 6.2)
)


@given(ANGLES, st.sampled_from(["passive", "active"]))
def test_every_angle_gives_a_unit_quaternion(
    angles: tuple[float, float, float], meaning: AngleMeaning
) -> None:
    found = quaternions_of_bunge_angles(np.array(angles), meaning=meaning)
    assert np.linalg.norm(found) == pytest.approx(1.0, rel=0, abs=1e-12)


def test_points_without_angles_stay_without() -> None:
    angles = np.array([[np.nan, np.nan, np.nan], [0.0, 0.0, 0.0]])
    found = quaternions_of_bunge_angles(angles, meaning="passive")
    assert np.isnan(found[0]).all()
    np.testing.assert_allclose(found[1], [1.0, 0.0, 0.0, 0.0], rtol=0, atol=0)


def test_a_rotation_and_its_opposite_leave_nothing() -> None:
    turned = random_rotations(100, np.random.default_rng(1))
    np.testing.assert_allclose(
        product(turned, inverse(turned)),
        np.tile([1.0, 0.0, 0.0, 0.0], (100, 1)),
        rtol=0,
        atol=1e-12,
    )


def test_one_orientation_goes_with_many() -> None:
    many = random_rotations(5, np.random.default_rng(2))
    assert relative_rotations(many[0], many).shape == (5, 4)


def test_turns_about_one_axis_add_up() -> None:
    axis = np.array([0.0, 0.6, 0.8])
    both = product(about_axis(axis, np.array(0.3)), about_axis(axis, np.array(0.5)))
    np.testing.assert_allclose(
        both, about_axis(axis, np.array(0.8)), rtol=0, atol=1e-12
    )
