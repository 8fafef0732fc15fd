import numpy as np
import pytest

from strandproof.errors import ParameterError
from strandproof.grainsize.orientations import (
    SyntheticMap,
    disorientations_deg,
    draw_synthetic_map,
    quaternions_of_bunge_angles,
)
from strandproof.grainsize.orientations.axis_direction import axis_directions
from strandproof.grainsize.orientations.rotations import random_rotations
from strandproof.grainsize.orientations.synthetic import bunge_angles
from strandproof.records.orientation_results import FibreTexture


def test_angles_lead_back_to_the_orientation() -> None:
    turned = random_rotations(2000, np.random.default_rng(1))
    again = quaternions_of_bunge_angles(bunge_angles(turned), meaning="passive")
    cosine = np.abs(np.sum(turned * again, axis=1))
    np.testing.assert_allclose(cosine, 1.0, rtol=0, atol=1e-12)


def test_the_table_says_that_it_is_synthetic() -> None:
    drawn = draw_synthetic_map(SyntheticMap(rows=5, columns=5), seed=1)
    assert drawn.table.notes[0].startswith("SYNTHETIC")


def test_the_same_seed_draws_the_same_map() -> None:
    wanted = SyntheticMap(rows=20, columns=30)
    first, second = (draw_synthetic_map(wanted, seed=4) for _ in range(2))
    np.testing.assert_array_equal(first.table.angles_rad, second.table.angles_rad)
    other = draw_synthetic_map(wanted, seed=5)
    assert not np.array_equal(first.crystal, other.crystal)


def test_points_carry_their_crystal_with_the_noise_asked_for() -> None:
    wanted = SyntheticMap(noise_deg=0.5, wrong_share=0.0)
    drawn = draw_synthetic_map(wanted, seed=2)
    found = quaternions_of_bunge_angles(drawn.table.angles_rad, meaning="passive")
    angles = disorientations_deg(drawn.orientations[drawn.crystal], found)
    indexed = np.isfinite(angles)
    assert indexed.mean() == pytest.approx(0.97, rel=0, abs=0.005)
    # Three normal parts of 0.5 deg: a mean square of 0.75 deg2.
    assert np.mean(angles[indexed] ** 2) == pytest.approx(0.75, rel=0.03)


def test_a_texture_lies_along_x() -> None:
    texture = FibreTexture(share_111=1.0, share_100=0.0)
    drawn = draw_synthetic_map(SyntheticMap(texture=texture, twin_share=0.0), seed=3)
    parents = drawn.orientations[np.unique(drawn.crystal)]
    found = axis_directions(parents, np.array([1.0, 0.0, 0.0]))
    np.testing.assert_allclose(found, 1.0 / np.sqrt(3.0), rtol=0, atol=1e-9)


@pytest.mark.parametrize(
    ("wanted", "named"),
    [
        (SyntheticMap(rows=0), "rows"),
        (SyntheticMap(columns=5000), "columns"),
        (SyntheticMap(step_um=0.0), "step_um"),
        (SyntheticMap(twin_share=1.5), "twin_share"),
        (SyntheticMap(noise_deg=90.0), "noise_deg"),
    ],
)
def test_maps_that_cannot_be_drawn(wanted: SyntheticMap, named: str) -> None:
    with pytest.raises(ParameterError, match=named):
        draw_synthetic_map(wanted, seed=1)
