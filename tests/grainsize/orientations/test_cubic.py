import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from strandproof.errors import ParameterError
from strandproof.grainsize.orientations import (
    LARGEST_DISORIENTATION_DEG,
    cubic_rotations,
    disorientations_deg,
    mean_orientation,
)
from strandproof.grainsize.orientations.cubic import nearest_equivalents
from strandproof.grainsize.orientations.rotations import (
    about_axis,
    product,
    random_rotations,
)

SEEDS = st.integers(0, 2**32 - 1)


@given(SEEDS)
def test_disorientation_ignores_symmetry_order_and_frame(seed: int) -> None:
    chance = np.random.default_rng(seed)
    first, second, frame = random_rotations(3, chance)
    angle = disorientations_deg(first, second)
    assert 0.0 <= angle <= LARGEST_DISORIENTATION_DEG + 1e-9
    assert disorientations_deg(second, first) == pytest.approx(angle, abs=1e-6)
    turned = disorientations_deg(product(frame, first), product(frame, second))
    assert turned == pytest.approx(angle, abs=1e-6)
    for rotation in cubic_rotations():
        again = disorientations_deg(product(first, rotation), second)
        assert again == pytest.approx(angle, abs=1e-6)


@given(SEEDS)
def test_disorientation_obeys_the_triangle_rule(seed: int) -> None:
    a, b, c = random_rotations(3, np.random.default_rng(seed))
    by_way = disorientations_deg(a, b) + disorientations_deg(b, c)
    assert disorientations_deg(a, c) <= by_way + 1e-6


def test_the_list_of_rotations_cannot_be_changed() -> None:
    with pytest.raises(ValueError, match="read-only"):
        cubic_rotations()[0, 0] = 2.0


def test_nearest_equivalents_are_as_near_as_the_disorientation() -> None:
    chance = np.random.default_rng(3)
    rotations, reference = random_rotations(200, chance), random_rotations(1, chance)[0]
    chosen = nearest_equivalents(rotations, reference)
    cosine = chosen @ reference
    angle = np.rad2deg(2.0 * np.arccos(np.clip(cosine, -1.0, 1.0)))
    expected = disorientations_deg(reference, rotations)
    np.testing.assert_allclose(angle, expected, rtol=0, atol=1e-5)


def test_mean_of_equivalents_scattered_about_one_orientation() -> None:
    chance = np.random.default_rng(4)
    true = random_rotations(1, chance)[0]
    axes = chance.standard_normal((2000, 3))
    axes /= np.linalg.norm(axes, axis=1, keepdims=True)
    scattered = product(true, about_axis(axes, chance.normal(0.0, 0.03, 2000)))
    mixed = product(scattered, cubic_rotations()[chance.integers(0, 24, 2000)])
    # 1.7 deg of scatter over 2000 points: the mean is within a tenth of a degree.
    assert disorientations_deg(mean_orientation(mixed), true) < 0.1


def test_mean_of_nothing_is_refused() -> None:
    with pytest.raises(ParameterError, match="at least one orientation"):
        mean_orientation(np.empty((0, 4)))
