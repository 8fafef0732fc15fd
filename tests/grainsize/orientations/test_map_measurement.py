from dataclasses import replace

import numpy as np
import pytest
from orientation_examples import map_of_blocks

from strandproof.errors import ParameterError
from strandproof.grainsize.orientations import (
    SyntheticMap,
    draw_synthetic_map,
    measure_orientation_map,
)
from strandproof.records.orientation import OrientationRules

PLAIN = OrientationRules(smallest_grain_points=1, bridge_points=0)


def blocks(*widths_and_angles: tuple[int, float], rows: int = 10) -> np.ndarray:
    row = np.concatenate([np.full(width, angle) for width, angle in widths_and_angles])
    return np.tile(row, (rows, 1))


def test_three_blocks_counted_by_hand() -> None:
    """30 deg, then 5 deg: 10 rows of 0.5 um, so 5 um of each boundary."""
    table = map_of_blocks(blocks((6, 0.0), (8, 30.0), (6, 35.0)), step_um=0.5)
    found = measure_orientation_map(table)
    assert found.boundaries.high.length_um == pytest.approx(5.0)
    assert found.boundaries.small.length_um == pytest.approx(5.0)
    assert found.boundaries.twin.edges == 0
    assert found.boundaries.not_judged.edges == 0
    assert found.boundaries.judged_along_um == pytest.approx(19 * 0.5 * 10)
    assert found.boundaries.high_per_mm == pytest.approx(1000.0 / (19 * 0.5))
    assert found.grains.grains == 2
    assert found.grains.touching_frame == 2
    assert found.grains.mean_area_um2 == pytest.approx(100 * 0.25)
    assert found.grains.largest_share == pytest.approx(0.7)
    assert found.coverage.length_um == pytest.approx(9.5)
    assert found.coverage.width_um == pytest.approx(4.5)


@pytest.mark.parametrize(
    ("angle", "high", "small"),
    [(1.9, 0, 0), (2.1, 0, 10), (14.9, 0, 10), (15.1, 10, 0)],
)
def test_limits_of_the_classes(angle: float, high: int, small: int) -> None:
    found = measure_orientation_map(map_of_blocks(blocks((5, 0.0), (5, angle))))
    assert (found.boundaries.high.edges, found.boundaries.small.edges) == (high, small)
    assert found.grains.grains == (2 if high else 1)


def test_the_boundary_angle_can_be_set() -> None:
    table = map_of_blocks(blocks((5, 0.0), (5, 12.0)))
    found = measure_orientation_map(table, rules=OrientationRules(boundary_deg=10.0))
    assert found.boundaries.high.edges == 10
    assert found.grains.grains == 2


def test_misindexed_islands_are_set_aside_and_bridged() -> None:
    angles = blocks((10, 0.0), (10, 30.0))
    angles[4, 4] = 40.0
    angles[7, 12:14] = 5.0
    found = measure_orientation_map(map_of_blocks(angles))
    assert found.coverage.isolated == 3
    assert found.coverage.bridged == 3
    assert found.boundaries.high.edges == 10
    assert found.grains.grains == 2
    with_islands = measure_orientation_map(map_of_blocks(angles), rules=PLAIN)
    assert with_islands.grains.grains == 4
    assert with_islands.boundaries.high.edges == 10 + 4 + 6


def test_a_boundary_lost_in_a_gap_comes_back_by_bridging() -> None:
    angles = blocks((10, 0.0), (2, np.nan), (10, 30.0))
    bridged = measure_orientation_map(map_of_blocks(angles))
    assert bridged.boundaries.high.edges == 10
    assert bridged.boundaries.not_judged.edges == 0
    assert bridged.coverage.share_indexed == pytest.approx(20 / 22)
    left = measure_orientation_map(
        map_of_blocks(angles), rules=OrientationRules(bridge_points=0)
    )
    assert left.boundaries.high.edges == 0
    # 3 of 21 pairs in each row, 2 of 22 columns down 9 pairs.
    assert left.boundaries.not_judged.edges == 10 * 3 + 9 * 2


def test_bridging_one_crystal_makes_no_boundary() -> None:
    chance = np.random.default_rng(1)
    angles = blocks((40, 20.0), rows=40)
    angles[chance.random(angles.shape) < 0.2] = np.nan
    found = measure_orientation_map(map_of_blocks(angles))
    assert found.boundaries.high.edges == 0
    assert found.grains.grains == 1


def test_axis_y_turns_everything() -> None:
    table = map_of_blocks(blocks((6, 0.0), (8, 30.0)).T)
    found = measure_orientation_map(table, rules=OrientationRules(axis="y"))
    assert found.coverage.length_um == pytest.approx(13.0)
    assert found.boundaries.high_per_mm == pytest.approx(1000.0 / 13.0)


def test_no_rate_along_y_on_hexagons() -> None:
    table = map_of_blocks(blocks((6, 0.0), (8, 30.0)), hexagonal=True)
    found = measure_orientation_map(table, rules=OrientationRules(axis="y"))
    assert found.boundaries.high_per_mm is None
    assert found.boundaries.high.edges > 0


def test_a_line_counts_boundaries_without_lengths() -> None:
    table = map_of_blocks(blocks((6, 0.0), (8, 30.0), (9, 0.0), rows=1))
    found = measure_orientation_map(table)
    assert found.boundaries.high.edges == 2
    assert found.boundaries.high.length_um is None
    assert found.grains.mean_area_um2 is None
    assert found.grains.touching_frame == 2


@pytest.mark.parametrize("grid", ["square", "hexagonal"])
def test_synthetic_map_gives_its_truth_back(grid: str) -> None:
    wanted = SyntheticMap(rows=120, columns=200, grid=grid)  # type: ignore[arg-type]
    drawn = draw_synthetic_map(wanted, seed=7)
    clean = draw_synthetic_map(
        replace(wanted, noise_deg=0.0, lost_share=0.0, wrong_share=0.0), seed=7
    )
    found = measure_orientation_map(drawn.table)
    true = measure_orientation_map(clean.table, rules=PLAIN)
    assert found.coverage.share_indexed == pytest.approx(0.97, rel=0, abs=0.01)
    assert found.boundaries.high.length_um == pytest.approx(
        true.boundaries.high.length_um, rel=0.02
    )
    assert found.boundaries.twin_share == pytest.approx(
        true.boundaries.twin_share, rel=0, abs=0.02
    )
    # Lamella ends of under 4 points are lost with the islands.
    assert found.grains.grains == pytest.approx(true.grains.grains, rel=0.1)


@pytest.mark.parametrize("grid", ["square", "hexagonal"])
def test_length_and_crossings_agree_by_stereology(grid: str) -> None:
    """L_A = pi/2 P_L for boundaries of all directions; edges are 4/pi too long."""
    wanted = SyntheticMap(rows=300, columns=300, grid=grid, twin_share=0.0)  # type: ignore[arg-type]
    found = measure_orientation_map(draw_synthetic_map(wanted, seed=8).table)
    step, row = found.coverage.step_um, found.coverage.row_step_um
    area_mm2 = found.coverage.points * step * row * 1e-6
    assert found.boundaries.high.length_um is not None
    assert found.boundaries.high_per_mm is not None
    smooth_mm = found.boundaries.high.length_um * 1e-3 * np.pi / 4.0
    expected = 0.5 * np.pi * found.boundaries.high_per_mm
    assert smooth_mm / area_mm2 == pytest.approx(expected, rel=0.06)


def test_a_bent_crystal_shows_in_the_spread() -> None:
    angles = np.tile(np.linspace(0.0, 10.0, 200), (5, 1))
    found = measure_orientation_map(map_of_blocks(angles))
    assert found.boundaries.high.edges == 0
    assert found.boundaries.small.edges == 0
    first, *_, last = found.spread.stretches
    assert first.median_deg == pytest.approx(4.75, rel=0, abs=0.1)
    assert last.median_deg == pytest.approx(4.75, rel=0, abs=0.1)
    assert found.spread.share_within[0] == pytest.approx(0.4, rel=0, abs=0.02)
    assert found.spread.share_within[1] > 0.99


def test_random_shares_add_up_to_one() -> None:
    found = measure_orientation_map(map_of_blocks(blocks((5, 0.0), (5, 30.0))))
    assert sum(found.boundaries.random_share) == pytest.approx(1.0, rel=0, abs=1e-9)
    assert sum(found.boundaries.angle_share) == pytest.approx(1.0, rel=0, abs=1e-9)
    assert len(found.boundaries.angle_edges_deg) == 14


@pytest.mark.parametrize(
    ("rules", "named"),
    [
        (OrientationRules(boundary_deg=0.5), "boundary_deg"),
        (OrientationRules(boundary_deg=float("nan")), "boundary_deg"),
        (OrientationRules(small_deg=16.0), "small_deg"),
        (OrientationRules(smallest_grain_points=0), "smallest_grain_points"),
        (OrientationRules(bridge_points=9), "bridge_points"),
    ],
)
def test_rules_that_contradict_themselves(rules: OrientationRules, named: str) -> None:
    with pytest.raises(ParameterError, match=named):
        measure_orientation_map(map_of_blocks(blocks((5, 0.0))), rules=rules)


def test_a_map_without_any_orientation_is_refused() -> None:
    table = map_of_blocks(blocks((5, np.nan)))
    with pytest.raises(ParameterError, match="indexed points"):
        measure_orientation_map(table)


def test_a_map_of_islands_only_is_refused_with_a_remedy() -> None:
    table = map_of_blocks([[0.0, 20.0, 40.0], [40.0, 0.0, 20.0]])
    with pytest.raises(ParameterError, match="Lower the smallest number"):
        measure_orientation_map(table)
