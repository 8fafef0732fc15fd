"""Strands that touch are parted at their necks; everything else stays whole."""

import numpy as np
import numpy.typing as npt
import pytest
from scipy import ndimage

from strandproof.micrograph.pieces import separated_metal

Mask = npt.NDArray[np.bool_]
SIDE = 160
ROWS, COLS = np.indices((SIDE, SIDE))


def disc(row: float, col: float, radius: float) -> Mask:
    inside: Mask = np.hypot(ROWS - row, COLS - col) <= radius
    return inside


def number_of_strands(metal: Mask) -> int:
    return int(separated_metal(metal)[1].max())


def half_neck(radius: float, distance: float) -> float:
    """Half the common chord of two discs of one radius."""
    return float(np.sqrt(radius**2 - distance**2 / 4))


# The parting ratio is 0.7 of the depth; pixels and the flank of a neck blur it.
@pytest.mark.parametrize(("distance", "strands"), [(30, 1), (40, 1), (46, 2), (56, 2)])
def test_two_touching_discs_are_parted_where_the_neck_is_narrow(
    distance: int, strands: int
) -> None:
    share = half_neck(30, distance) / 30
    assert (share < 0.7) == (strands == 2)
    metal = disc(80, 80 - distance / 2, 30) | disc(80, 80 + distance / 2, 30)
    assert number_of_strands(metal) == strands


def test_parting_line_runs_along_the_common_chord() -> None:
    metal = disc(80, 52, 30) | disc(80, 108, 30)
    kept, labels = separated_metal(metal)
    line = metal & ~kept
    assert np.abs(COLS[line] - 80).max() <= 2
    assert abs(np.count_nonzero(line) - 2 * half_neck(30, 56)) <= 4
    assert labels[80, 52] == 1
    assert labels[80, 108] == 2


def test_parted_strands_have_no_side_in_common() -> None:
    metal = disc(60, 60, 30) | disc(98, 98, 28)
    _, labels = separated_metal(metal)
    assert labels.max() == 2
    for one, other in ((labels[1:], labels[:-1]), (labels[:, 1:], labels[:, :-1])):
        assert not ((one != other) & (one > 0) & (other > 0)).any()


def test_a_small_disc_is_parted_from_a_large_one() -> None:
    metal = disc(80, 60, 50) | disc(80, 125, 18)
    _, labels = separated_metal(metal)
    assert labels.max() == 2
    assert labels[80, 60] != labels[80, 125]


def test_seven_strands_of_a_rope_are_seven() -> None:
    angles = np.deg2rad(np.arange(6) * 60 + 10)
    metal = disc(80, 80, 22)
    for angle in angles:
        metal |= disc(80 + 43 * np.sin(angle), 80 + 43 * np.cos(angle), 22)
    assert ndimage.label(metal)[1] == 1
    assert number_of_strands(metal) == 7


@pytest.mark.parametrize("angle", [0.0, 20.0, 45.0, 70.0, 90.0])
@pytest.mark.parametrize("width", [8, 30])
def test_a_long_strip_stays_whole(angle: float, width: int) -> None:
    turn = np.deg2rad(angle)
    across = (ROWS - 80) * np.cos(turn) + (COLS - 80) * np.sin(turn)
    metal = np.abs(across) <= width / 2
    kept, labels = separated_metal(metal)
    assert np.array_equal(kept, metal)
    assert labels.max() == 1


def test_a_strip_with_a_wavy_edge_stays_whole() -> None:
    half = 20 + 3 * np.sin(COLS / 9)
    assert number_of_strands(np.abs(ROWS - 80) <= half) == 1


@pytest.mark.parametrize(("half_neck_px", "strands"), [(16, 1), (8, 2)])
def test_a_waist_parts_a_strip_only_below_seven_tenths(
    half_neck_px: int, strands: int
) -> None:
    half = np.where(np.abs(COLS - 80) < 10, half_neck_px, 20)
    assert number_of_strands(np.abs(ROWS - 79.5) <= half) == strands


def test_strands_are_numbered_as_one_reads() -> None:
    metal = disc(120, 40, 20) | disc(30, 110, 20) | disc(40, 40, 15)
    _, labels = separated_metal(metal)
    assert [int(labels[at]) for at in ((30, 110), (40, 40), (120, 40))] == [1, 2, 3]


def test_dirt_is_left_out() -> None:
    metal = disc(80, 80, 60)
    dirty = metal.copy()
    dirty[3:9, 3:9] = dirty[150, 150] = True  # 36 px of about 11300
    kept, labels = separated_metal(dirty)
    assert np.array_equal(kept, metal)
    assert labels.max() == 1


def test_a_small_strand_above_the_least_share_is_kept() -> None:
    metal = disc(80, 80, 60)
    metal[2:12, 2:12] = True  # 100 px of about 11300, more than 0.5 %
    assert number_of_strands(metal) == 2


def test_the_only_metal_is_kept_however_small() -> None:
    metal = np.zeros((9, 9), np.bool_)
    metal[4, 4] = True
    kept, labels = separated_metal(metal)
    assert np.array_equal(kept, metal)
    assert labels[4, 4] == 1


@pytest.mark.parametrize("filled", [True, False])
def test_all_metal_is_one_strand_and_no_metal_none(*, filled: bool) -> None:
    metal = np.full((30, 40), filled)
    kept, labels = separated_metal(metal)
    assert np.array_equal(kept, metal)
    assert (labels == int(filled)).all()


def test_large_pictures_are_searched_coarsely_and_parted_finely() -> None:
    rows, cols = np.indices((500, 1100))
    metal = np.hypot(rows - 250, cols - 350) <= 220
    metal |= np.hypot(rows - 250, cols - 760) <= 220
    kept, labels = separated_metal(metal)
    assert labels.max() == 2
    line = metal & ~kept
    assert np.count_nonzero(line) <= np.count_nonzero(metal[:, 555]) + 6
    assert np.abs(cols[line] - 555).max() <= 6


def test_a_hole_that_the_coarse_search_misses_changes_nothing() -> None:
    metal = np.ones((600, 600), np.bool_)
    metal[1, 1] = False
    kept, labels = separated_metal(metal)
    assert np.array_equal(kept, metal)
    assert labels.max() == 1


def test_the_mask_given_is_not_changed() -> None:
    metal = disc(80, 52, 30) | disc(80, 108, 30)
    before = metal.copy()
    separated_metal(metal)
    assert np.array_equal(metal, before)
