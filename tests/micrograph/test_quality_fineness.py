"""Test lines on lattices whose intercepts and widths are known by counting."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from strandproof.micrograph.quality.crossings import (
    REACH_PX,
    line_crossings,
    profiles_at_crossings,
    profiles_inside,
)
from strandproof.micrograph.quality.fineness import (
    grains_across_strands,
    structure_scale,
)

ROWS, COLS = np.indices((400, 400))
ONE = np.ones((400, 400), np.int32)


def lattice(down: int, right: int) -> np.ndarray[tuple[int, int], np.dtype[np.int32]]:
    labels = (ROWS // down) * 1000 + COLS // right + 1
    return labels.astype(np.int32)


@given(st.integers(4, 60), st.integers(4, 60))
def test_intercepts_of_a_lattice_are_its_sides(down: int, right: int) -> None:
    scale = structure_scale(line_crossings(lattice(down, right), ONE))
    assert scale is not None
    crossings = {"down": 399 // down, "right": 399 // right}
    mean = 800 / (crossings["down"] + crossings["right"])
    assert scale.mean_intercept_px == pytest.approx(mean)
    assert scale.thin_intercept_px == pytest.approx(400 / max(crossings.values()))


def test_lines_of_boundary_pixels_do_not_add_crossings() -> None:
    labels = lattice(20, 20)
    ruled = np.where((ROWS % 20 == 0) | (COLS % 20 == 0), 0, labels)
    found = line_crossings(ruled.astype(np.int32), ONE)
    full = line_crossings(labels, ONE)
    for way, other in zip(found, full, strict=True):
        on_rule = np.isin(other.line % 20, 0)
        assert way.place.size == np.count_nonzero(~on_rule)
        assert set(way.place % 20) <= {0, 1}


def test_neighbouring_strands_do_not_cross() -> None:
    strands = (1 + (COLS >= 200)).astype(np.int32)
    along, upright = line_crossings(strands, strands)
    assert along.place.size == upright.place.size == 0
    assert list(along.length_px[1:]) == [along.length_px[1]] * 2


def test_profiles_have_the_crossing_in_the_middle() -> None:
    plane = COLS.astype(np.float32)[..., None]
    along, upright = line_crossings(lattice(50, 50), ONE)
    middle = profiles_at_crossings(plane, along)[:, REACH_PX, 0]
    assert set(middle) == {50.0 * k for k in range(1, 8)}
    turned = profiles_at_crossings(ROWS.astype(np.float32)[..., None], upright)
    assert set(turned[:, REACH_PX, 0]) == set(middle)


def test_profiles_inside_lie_half_way() -> None:
    plane = COLS.astype(np.float32)[..., None]
    along, _ = line_crossings(lattice(50, 50), ONE)
    middle = profiles_inside(plane, along, least_chord_px=50)[:, REACH_PX, 0]
    assert set(middle) == {25.0 + 50 * k for k in range(1, 7)}
    assert len(profiles_inside(plane, along, least_chord_px=51)) == 0


@pytest.mark.parametrize("width", [40, 100, 200])
def test_width_over_intercept_of_a_level_strand(width: int) -> None:
    strands = np.zeros_like(ONE)
    strands[100 : 100 + width] = 1
    across = grains_across_strands(strands, line_crossings(lattice(10, 60), strands))
    expected = width / 10 * (1 - 10 / width)  # crossings of one whole chord
    assert across[1] == pytest.approx(expected, rel=0.05)


def test_width_over_intercept_of_a_round_face() -> None:
    strands = (np.hypot(ROWS - 200, COLS - 200) < 150).astype(np.int32)
    across = grains_across_strands(strands, line_crossings(lattice(20, 20), strands))
    assert across[1] == pytest.approx(15, rel=0.08)


def test_level_turned_and_steep_strands_agree() -> None:
    level = ((ROWS >= 100) & (ROWS < 220)).astype(np.int32)
    labels = lattice(15, 50)
    one = grains_across_strands(level, line_crossings(labels, level))
    two = grains_across_strands(level.T, line_crossings(labels.T, level.T))
    assert one == pytest.approx(two)


def test_slanted_strand_of_equal_grains() -> None:
    strands = (np.abs(ROWS - COLS) < 100).astype(np.int32)  # 141 px wide
    across = grains_across_strands(strands, line_crossings(lattice(14, 14), strands))
    assert across[1] == pytest.approx(10, rel=0.08)


def test_field_and_strand_with_one_edge_show_no_width() -> None:
    ways = line_crossings(lattice(20, 20), ONE)
    assert grains_across_strands(ONE, ways) == {}
    half = (ROWS >= 200).astype(np.int32)
    assert grains_across_strands(half, line_crossings(lattice(20, 20), half)) == {}


def test_strand_without_a_boundary_has_no_grain_across() -> None:
    strands = ((ROWS >= 100) & (ROWS < 200)).astype(np.int32)
    assert grains_across_strands(strands, line_crossings(strands, strands)) == {1: 0.0}


def test_few_crossings_give_no_scale() -> None:
    assert structure_scale(line_crossings(ONE, ONE)) is None


def test_rough_slanted_strand_keeps_its_width() -> None:
    """Edges that wave by a few pixels do not look like a cut strand."""
    wave = 4 * np.sin((ROWS + COLS) / 23) + 3 * np.sin((ROWS + COLS) / 9)
    strands = (np.abs(ROWS - COLS) < 60 + wave).astype(np.int32)  # about 85 px wide
    across = grains_across_strands(strands, line_crossings(lattice(17, 17), strands))
    assert across[1] == pytest.approx(5, rel=0.15)
