"""Tiles: where they lie, how many, and that levels come back as they were."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from strandproof.micrograph.lab import lab_picture
from strandproof.micrograph.quality.tiles import camera_levels, sampled_tiles


@given(st.lists(st.integers(0, 255), min_size=3, max_size=3))
def test_colours_come_back_as_the_luma_of_the_file(rgb: list[int]) -> None:
    picture = (np.array(rgb) / 255).astype(np.float32).reshape(1, 1, 3)
    (levels,) = camera_levels(lab_picture(picture).lab).ravel()
    assert levels == pytest.approx(np.dot([0.299, 0.587, 0.114], rgb), abs=0.02)


def test_grey_levels_come_back_whole() -> None:
    every = (np.arange(256) / 255).astype(np.float32).reshape(16, 16)
    levels = camera_levels(lab_picture(every).lab)
    assert np.abs(levels.ravel() - np.arange(256)).max() < 0.01


@pytest.mark.parametrize(
    ("shape", "expected"),
    [
        ((63, 500), (0, 48)),
        ((64, 64), (1, 64)),
        ((200, 333), (1, 192)),
        ((512, 512), (3, 256)),
        ((1024, 1024), (3, 256)),
        ((4096, 4096), (24, 256)),
    ],
)
def test_number_of_tiles_is_bounded(
    shape: tuple[int, int], expected: tuple[int, int]
) -> None:
    picture = lab_picture(np.full(shape, 0.5, np.float32))
    tiles = sampled_tiles(picture, np.ones(shape, np.bool_))
    n_tiles, side = expected
    assert tiles.shape == (n_tiles, side, side)


def test_tiles_lie_on_metal() -> None:
    plane = np.zeros((768, 768), np.float32)
    plane[:, 256:] = 0.5
    tiles = sampled_tiles(lab_picture(plane), plane > 0)
    assert len(tiles) == 3
    assert tiles.min() > 100


def test_no_tile_without_enough_metal() -> None:
    metal = np.zeros((512, 512), np.bool_)
    metal[::2] = True
    picture = lab_picture(np.full((512, 512), 0.5, np.float32))
    assert len(sampled_tiles(picture, metal[::-1] & False)) == 0
