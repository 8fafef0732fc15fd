import numpy as np
import pytest
from orientation_examples import grid_of, map_of_blocks

from strandproof.grainsize.orientations.neighbours import (
    neighbour_pairs,
    pair_disorientations_deg,
    twin_related_pairs,
)
from strandproof.grainsize.orientations.rotations import (
    product,
    quaternions_of_bunge_angles,
    random_rotations,
)
from strandproof.grainsize.orientations.twin_relation import twin_rotations


@pytest.mark.parametrize(("hexagonal", "most"), [(False, 4), (True, 6)])
def test_every_inner_point_has_all_its_neighbours_at_one_step(
    *, hexagonal: bool, most: int
) -> None:
    table = map_of_blocks(np.zeros((7, 9)), step_um=0.4, hexagonal=hexagonal)
    pairs = neighbour_pairs(grid_of(table))
    x, y = table.x_um, table.y_um
    distance = np.hypot(
        x[pairs.first] - x[pairs.second], y[pairs.first] - y[pairs.second]
    )
    np.testing.assert_allclose(distance, 0.4, rtol=0, atol=1e-9)
    both = np.concatenate([pairs.first, pairs.second])
    counts = np.bincount(both).reshape(7, 9)
    assert (counts[1:-1, 1:-1] == most).all()
    assert len(set(zip(pairs.first, pairs.second, strict=True))) == len(pairs.first)


@pytest.mark.parametrize("first_row_shifted", [False, True])
def test_either_row_of_hexagons_may_be_shifted(*, first_row_shifted: bool) -> None:
    table = map_of_blocks(np.zeros((6, 8)), hexagonal=True)
    if first_row_shifted:
        table.y_um[:] = table.y_um.max() - table.y_um
    pairs = neighbour_pairs(grid_of(table))
    # 7 along each of 6 rows; between rows 8 straight and 7 slanted.
    assert len(pairs.first) == 6 * 7 + 5 * 15


def test_edges_of_hexagons_are_as_long_as_their_side() -> None:
    table = map_of_blocks(np.zeros((4, 4)), step_um=3.0, hexagonal=True)
    pairs = neighbour_pairs(grid_of(table))
    np.testing.assert_allclose(pairs.edge_um, np.sqrt(3.0), rtol=1e-6)


def test_edges_of_rectangles_lie_across_the_pair() -> None:
    table = map_of_blocks(np.zeros((3, 3)), step_um=0.5, row_step_um=2.0)
    pairs = neighbour_pairs(grid_of(table))
    np.testing.assert_allclose(pairs.edge_um[pairs.along == 0], 2.0, rtol=0)
    np.testing.assert_allclose(pairs.edge_um[pairs.along == 1], 0.5, rtol=0)


@pytest.mark.parametrize("hexagonal", [False, True])
def test_a_straight_boundary_is_four_over_pi_too_long_on_average(
    *,
    hexagonal: bool,
) -> None:
    """Over all directions, by the mean of |cos|; what the docstring says."""
    table = map_of_blocks(np.zeros((160, 160)), hexagonal=hexagonal)
    pairs = neighbour_pairs(grid_of(table))
    x, y = table.x_um - 80.0, table.y_um - 0.5 * table.y_um.max()
    inside = np.hypot(x, y) < 60.0
    both = inside[pairs.first] & inside[pairs.second]
    found = []
    for direction in np.radians(np.arange(0.5, 180.0, 3.0)):
        side = x * np.cos(direction) + y * np.sin(direction) > 0.2
        cut = both & (side[pairs.first] != side[pairs.second])
        found.append(float(pairs.edge_um[cut].sum()) / 120.0)
    assert np.mean(found) == pytest.approx(4.0 / np.pi, rel=0.02)


def test_a_pair_without_orientation_has_no_angle() -> None:
    table = map_of_blocks([[0.0, np.nan], [30.0, 30.0]])
    pairs = neighbour_pairs(grid_of(table))
    turned = quaternions_of_bunge_angles(table.angles_rad, meaning="passive")
    angles = pair_disorientations_deg(pairs, turned)
    assert np.isnan(angles).sum() == 2
    np.testing.assert_allclose(
        np.sort(angles[np.isfinite(angles)]), [0.0, 30.0], rtol=0, atol=1e-4
    )


def test_only_twin_related_pairs_are_told() -> None:
    table = map_of_blocks(np.zeros((1, 3)))
    pairs = neighbour_pairs(grid_of(table))
    crystal = random_rotations(1, np.random.default_rng(1))[0]
    third = np.array([np.cos(np.pi / 8), 0.0, 0.0, np.sin(np.pi / 8)])
    turned = np.array(
        [crystal, product(crystal, twin_rotations()[2]), product(crystal, third)]
    )
    angles = pair_disorientations_deg(pairs, turned)
    twins = twin_related_pairs(pairs, turned, angles, limit_deg=8.66)
    assert twins.tolist() == [True, False]
