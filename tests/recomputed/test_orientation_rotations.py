"""Bunge angles, cubic symmetry and disorientations against scipy's rotation algebra.

scipy.spatial.transform.Rotation is an independent implementation: it composes the
three turns itself, holds the cube's rotation group by generators, and multiplies out
what the closed forms here shorten. Tolerance: rounding of double precision.
"""

import numpy as np
import pytest
from scipy.spatial.transform import Rotation

from strandproof.grainsize.orientations import (
    cubic_rotations,
    disorientations_deg,
    quaternions_of_bunge_angles,
    relative_rotations,
    twin_departures_deg,
)
from strandproof.grainsize.orientations.rotations import Floats, random_rotations

CUBE = Rotation.create_group("O")


def of_scipy(quaternions: Floats) -> Rotation:
    return Rotation.from_quat(quaternions[..., [1, 2, 3, 0]])


def smallest_of_all_products(first: Rotation, second: Rotation) -> Floats:
    relative = first.inv() * second
    angles = [(relative * rotation).magnitude() for rotation in CUBE]
    return np.asarray(np.rad2deg(np.min(angles, axis=0)))


def drawn_angles(count: int, seed: int) -> Floats:
    drawn = np.random.default_rng(seed).uniform(0.0, 1.0, (count, 3))
    return np.asarray(drawn * (2.0 * np.pi, np.pi, 2.0 * np.pi))


def test_passive_angles_are_three_turns_of_the_moving_axes() -> None:
    angles = drawn_angles(500, seed=1)
    found = of_scipy(quaternions_of_bunge_angles(angles, meaning="passive"))
    assert (found.inv() * Rotation.from_euler("ZXZ", angles)).magnitude().max() < 1e-7


def test_passive_matrix_takes_specimen_coordinates_to_crystal_coordinates() -> None:
    """The first row of the matrix, as textbooks print it (from memory)."""
    angles = drawn_angles(200, seed=2)
    first, tilt, second = angles.T
    row = np.column_stack(
        [
            np.cos(first) * np.cos(second)
            - np.sin(first) * np.sin(second) * np.cos(tilt),
            np.sin(first) * np.cos(second)
            + np.cos(first) * np.sin(second) * np.cos(tilt),
            np.sin(second) * np.sin(tilt),
        ]
    )
    turned = of_scipy(quaternions_of_bunge_angles(angles, meaning="passive"))
    to_crystal = turned.inv().as_matrix()
    np.testing.assert_allclose(to_crystal[:, 0], row, rtol=0, atol=1e-12)


def test_active_angles_describe_the_opposite_rotation() -> None:
    angles = drawn_angles(500, seed=3)
    passive = of_scipy(quaternions_of_bunge_angles(angles, meaning="passive"))
    active = of_scipy(quaternions_of_bunge_angles(angles, meaning="active"))
    assert (passive * active).magnitude().max() < 1e-7


def test_the_meaning_changes_disorientations() -> None:
    """Why it has to be stated: most pairs come out elsewhere by degrees."""
    first, second = drawn_angles(400, seed=4), drawn_angles(400, seed=5)
    found = [
        disorientations_deg(
            quaternions_of_bunge_angles(first, meaning=meaning),
            quaternions_of_bunge_angles(second, meaning=meaning),
        )
        for meaning in ("passive", "active")
    ]
    assert np.median(np.abs(found[0] - found[1])) > 3.0


def test_24_cubic_rotations_are_those_of_scipy() -> None:
    ours = of_scipy(cubic_rotations())
    assert len(cubic_rotations()) == len(CUBE) == 24
    nearest = [(ours.inv() * rotation).magnitude().min() for rotation in CUBE]
    assert max(nearest) < 1e-7


def test_cubic_rotations_form_a_group() -> None:
    ours = of_scipy(cubic_rotations())
    for rotation in ours:
        products = ours * rotation
        apart = [(ours.inv() * one).magnitude().min() for one in products]
        assert max(apart) < 1e-7
        assert (ours * rotation).magnitude().min() < 1e-7  # holds the inverse


def test_cubic_rotations_map_the_cube_axes_onto_themselves() -> None:
    matrices = of_scipy(cubic_rotations()).as_matrix()
    np.testing.assert_allclose(np.abs(matrices).sum(axis=1), 1.0, rtol=0, atol=1e-12)
    np.testing.assert_allclose(np.linalg.det(matrices), 1.0, rtol=0, atol=1e-12)
    assert len(np.unique(matrices.round(6), axis=0)) == 24


def test_closed_form_disorientation_is_the_smallest_of_24_products() -> None:
    chance = np.random.default_rng(6)
    first, second = random_rotations(3000, chance), random_rotations(3000, chance)
    expected = smallest_of_all_products(of_scipy(first), of_scipy(second))
    found = disorientations_deg(first, second)
    np.testing.assert_allclose(found, expected, rtol=0, atol=1e-5)


def test_twin_departure_is_the_smallest_of_all_576_products() -> None:
    chance = np.random.default_rng(7)
    relative = random_rotations(60, chance)
    twin = Rotation.from_rotvec(np.radians(60.0) * np.ones(3) / np.sqrt(3.0))
    measured = of_scipy(relative)
    departures = [
        (measured.inv() * (one * twin * other)).magnitude()
        for one in CUBE
        for other in CUBE
    ]
    expected = np.rad2deg(np.min(departures, axis=0))
    np.testing.assert_allclose(
        twin_departures_deg(relative), expected, rtol=0, atol=1e-5
    )


@pytest.mark.parametrize("sense", [1.0, -1.0])
def test_both_senses_and_all_diagonals_are_one_twin(sense: float) -> None:
    for signs in ((1, 1, 1), (-1, 1, 1), (1, -1, 1), (1, 1, -1)):
        axis = np.array(signs) / np.sqrt(3.0)
        turned = Rotation.from_rotvec(sense * np.radians(60.0) * axis)
        relative = turned.as_quat()[[3, 0, 1, 2]]
        assert twin_departures_deg(relative) == pytest.approx(0.0, rel=0, abs=1e-5)
        none = np.array([1.0, 0.0, 0.0, 0.0])
        assert disorientations_deg(none, relative) == pytest.approx(60.0, abs=1e-6)


def test_relative_rotation_is_that_of_scipy() -> None:
    chance = np.random.default_rng(8)
    first, second = random_rotations(200, chance), random_rotations(200, chance)
    expected = of_scipy(first).inv() * of_scipy(second)
    found = of_scipy(relative_rotations(first, second))
    assert (found.inv() * expected).magnitude().max() < 1e-7
