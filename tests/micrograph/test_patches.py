"""Patches: basins of drawn reliefs."""

import numpy as np
import numpy.typing as npt
import pytest
from scipy import ndimage

from strandproof.micrograph.evidence import BoundaryEvidence
from strandproof.micrograph.patches import patches_of

Plane = npt.NDArray[np.float32]
Mask = npt.NDArray[np.bool_]


def cut(strength: Plane, metal: Mask | None = None) -> npt.NDArray[np.int32]:
    return patches_of(
        BoundaryEvidence(
            strength=strength,
            line_strength=strength,
            shade=np.zeros((*strength.shape, 1), np.float32),
            shade_weight=np.ones(strength.shape, np.float32),
            metal=np.ones(strength.shape, np.bool_) if metal is None else metal,
            visible_line_depth=1.0,
            visible_step=1.0,
        )
    )


def noise(seed: int, side: int = 40) -> Plane:
    return np.random.default_rng(seed).random((side, side)).astype(np.float32)


@pytest.mark.parametrize("side", [1, 2, 40])
def test_flat_relief_is_one_patch(side: int) -> None:
    assert (cut(np.zeros((side, side), np.float32)) == 1).all()


def test_crests_part_the_metal_where_they_run() -> None:
    strength = np.zeros((60, 60), np.float32)
    strength[20] = strength[:, 35] = 1
    patches = cut(strength)
    assert patches.max() == 4
    for rows in (slice(0, 20), slice(21, 60)):
        for cols in (slice(0, 35), slice(36, 60)):
            assert np.unique(patches[rows, cols]).size == 1


def test_a_faint_crest_cuts_like_a_strong_one() -> None:
    strength = np.zeros((60, 60), np.float32)
    strength[20] = 1
    strong = cut(strength)
    assert strong.max() == 2
    assert np.array_equal(cut(strength * np.float32(0.05)), strong)


def test_a_crest_with_a_gap_still_parts_two_basins() -> None:
    """Closing gaps is left to the merging; the cut must be on offer."""
    strength = np.zeros((60, 60), np.float32)
    strength[:, 30] = 1
    strength[28:31, 30] = 0.6
    patches = cut(strength)
    assert patches[29, 10] != patches[29, 50]


def test_minima_closer_than_the_smoothing_are_one() -> None:
    strength = np.ones((30, 30), np.float32)
    strength[15, [14, 16]] = 0
    assert cut(strength).max() == 1
    strength[15, [14, 22]] = 0
    assert cut(strength).max() == 2


@pytest.mark.parametrize("seed", range(3))
def test_patches_cover_the_metal_without_gaps_each_in_one_piece(seed: int) -> None:
    metal = ndimage.gaussian_filter(noise(seed + 10), 2) > 0.48
    assert metal.any()
    assert not metal.all()
    patches = cut(noise(seed), metal)
    assert patches.dtype == np.int32
    assert np.array_equal(patches > 0, metal)
    assert np.array_equal(np.unique(patches[metal]), np.arange(1, patches.max() + 1))
    for number in range(1, patches.max() + 1):
        assert ndimage.label(patches == number)[1] == 1


def test_no_patch_reaches_over_a_gap_in_the_metal() -> None:
    metal = np.ones((20, 20), np.bool_)
    metal[:, 10] = False
    patches = cut(np.zeros((20, 20), np.float32), metal)
    assert (patches[:, :10] == 1).all()
    assert (patches[:, 11:] == 2).all()


def test_a_basin_that_is_open_to_the_resin_is_a_basin() -> None:
    """Evidence falls towards the resin, where a method may know nothing."""
    metal = np.indices((30, 50))[1] < 31
    strength = np.where(metal, 0.3, 0).astype(np.float32)
    strength[:, 15] = 1
    patches = cut(strength, metal)
    assert patches[15, 5] != patches[15, 25]


def test_metal_that_touches_at_a_corner_is_seeded_though_it_has_no_minimum() -> None:
    """The upper pixel's only lower neighbour lies across the corner, off its piece."""
    metal = np.zeros((12, 12), np.bool_)
    metal[3, 3] = metal[4:10, 4:10] = True
    strength = np.zeros((12, 12), np.float32)
    strength[3, 3] = 1
    patches = cut(strength, metal)
    assert np.array_equal(patches > 0, metal)
    assert patches[3, 3] not in patches[4:10, 4:10]


def test_without_metal_there_is_no_patch() -> None:
    assert not cut(noise(1), np.zeros((40, 40), np.bool_)).any()


def test_evidence_is_not_changed() -> None:
    strength, metal = noise(4), noise(5) > 0.2
    before = strength.copy(), metal.copy()
    cut(strength, metal)
    assert np.array_equal(strength, before[0])
    assert np.array_equal(metal, before[1])
