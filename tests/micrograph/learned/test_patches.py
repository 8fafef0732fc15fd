"""Patches: what a drawn boundary plane is cut into."""

import numpy as np
import numpy.typing as npt
import pytest
from scipy import ndimage

from strandproof.micrograph.learned.patches import patches_of

Bytes = npt.NDArray[np.uint8]
Mask = npt.NDArray[np.bool_]


def cut(boundary: Bytes, metal: Mask | None = None) -> npt.NDArray[np.int32]:
    strands = np.ones(boundary.shape, np.int32)
    return patches_of(boundary, strands if metal is None else metal.astype(np.int32))


def noise(seed: int, side: int = 60) -> Bytes:
    return np.random.default_rng(seed).integers(0, 256, (side, side), np.uint8)


@pytest.mark.parametrize("side", [1, 2, 40])
def test_flat_plane_is_one_patch(side: int) -> None:
    assert (cut(np.zeros((side, side), np.uint8)) == 1).all()


def test_crests_part_the_metal_where_they_run() -> None:
    boundary = np.zeros((60, 60), np.uint8)
    boundary[20] = boundary[:, 35] = 255
    patches = cut(boundary)
    quarters = [
        patches[rows, cols]
        for rows in (slice(0, 20), slice(21, 60))
        for cols in (slice(0, 35), slice(36, 60))
    ]
    assert [np.unique(quarter).size for quarter in quarters] == [1] * 4
    assert len({int(quarter[0, 0]) for quarter in quarters}) == 4


@pytest.mark.parametrize("gap", [4, 10, 20])
def test_a_crest_with_a_gap_still_parts_two_basins(gap: int) -> None:
    """Whether the gap is closed is decided later; the cut must be on offer."""
    boundary = np.zeros((80, 80), np.uint8)
    boundary[:, 40] = 255
    boundary[40 - gap // 2 : 40 + gap // 2, 40] = 0
    patches = cut(boundary)
    assert patches[40, 10] != patches[40, 70]
    crossing = np.flatnonzero(np.diff(patches[40]))
    assert abs(crossing - 40).min() <= 2


@pytest.mark.parametrize("seed", range(3))
def test_patches_cover_the_metal_each_in_one_piece(seed: int) -> None:
    metal = ndimage.gaussian_filter(noise(seed + 10).astype(float), 2) > 122
    assert metal.any()
    assert not metal.all()
    boundary = ndimage.gaussian_filter(noise(seed).astype(float), 1.5)
    boundary = np.clip((boundary - 110) * 6, 0, 255).astype(np.uint8)
    patches = cut(boundary, metal)
    assert patches.dtype == np.int32
    assert np.array_equal(patches > 0, metal)
    for number in np.unique(patches[metal]):
        assert ndimage.label(patches == number)[1] == 1


def test_no_patch_reaches_over_a_gap_in_the_metal() -> None:
    metal = np.ones((20, 20), np.bool_)
    metal[:, 10] = False
    patches = cut(np.zeros((20, 20), np.uint8), metal)
    assert np.unique(patches[:, :10]).size == np.unique(patches[:, 11:]).size == 1
    assert patches[0, 0] != patches[0, 19]


def test_metal_that_is_all_boundary_is_one_patch() -> None:
    metal = np.zeros((20, 20), np.bool_)
    metal[5:9, 5:9] = True
    patches = cut(np.full((20, 20), 255, np.uint8), metal)
    assert np.array_equal(patches > 0, metal)
    assert np.unique(patches[metal]).size == 1


def test_no_patch_lies_in_two_strands() -> None:
    strands = np.ones((40, 40), np.int32)
    strands[:, 25:] = 7
    patches = patches_of(np.zeros((40, 40), np.uint8), strands)
    assert sorted(np.unique(patches)) == [1, 2]
    assert patches[0, 24] != patches[0, 25]


def test_a_seam_of_tiles_is_no_border_without_a_crest() -> None:
    for shape in ((20, 600), (600, 20), (1100, 1100)):
        assert np.unique(cut(np.zeros(shape, np.uint8))).tolist() == [1]


def test_a_crest_on_a_seam_of_tiles_is_a_border() -> None:
    boundary = np.zeros((40, 600), np.uint8)
    boundary[:, 511] = 255
    patches = cut(boundary)
    assert sorted(np.unique(patches)) == [1, 2]
    assert patches[20, 400] != patches[20, 550]


def test_strands_that_meet_on_a_seam_stay_apart() -> None:
    strands = np.ones((20, 600), np.int32)
    strands[:, 512:] = 2
    patches = patches_of(np.zeros((20, 600), np.uint8), strands)
    assert sorted(np.unique(patches)) == [1, 2]


def test_metal_far_from_any_core_is_cut_at_its_crests() -> None:
    # Cells of 12 px with walls at 220 and insides that are never certain, beside one
    # core: grains hardly resolved.
    boundary = np.full((120, 120), 110, np.uint8)
    boundary[::12] = boundary[:, ::12] = 220
    boundary[56:64, 2:10] = 0
    assert np.unique(cut(boundary)).size > 60


def test_without_metal_there_is_no_patch() -> None:
    assert not cut(noise(1), np.zeros((60, 60), np.bool_)).any()
