"""Clipped shares and the surface of the light."""

import numpy as np
import pytest
from quality_pictures import cell_labels, grooved

from strandproof.micrograph.lab import lab_picture
from strandproof.micrograph.quality.light import clipped_shares, light_ratio

SIDE = 384
ROWS, COLS = np.indices((SIDE, SIDE)) / (SIDE - 1)
EVERYWHERE = np.ones((SIDE, SIDE), np.bool_)


def test_shares_are_of_the_metal() -> None:
    plane = np.full((100, 100), 0.5, np.float32)
    plane[:10] = 1.0  # half of it on metal
    plane[90:] = 0.0
    metal = np.zeros((100, 100), np.bool_)
    metal[:, :50] = True
    found = clipped_shares(lab_picture(plane), metal)
    assert (found.white, found.black, found.largest_white) == (0.1, 0.1, 0.1)


def test_largest_patch_is_one_piece() -> None:
    plane = np.full((100, 100), 0.5, np.float32)
    plane[:10, :10] = plane[50:60, 50:55] = 1.0
    found = clipped_shares(lab_picture(plane), np.ones((100, 100), np.bool_))
    assert (found.white, found.largest_white) == (0.015, 0.01)


def lit(luminance: np.ndarray[tuple[int, int], np.dtype[np.float64]]) -> float | None:
    """Ratio found where cells are lit by a luminance, in linear light."""
    linear = ((grooved(cell_labels()) + 0.055) / 1.055) ** 2.4 * luminance
    picture = 1.055 * np.maximum(linear, 0.0032) ** (1 / 2.4) - 0.055
    return light_ratio(lab_picture(picture.astype(np.float32)), EVERYWHERE)


@pytest.mark.parametrize("fall", [0.3, 0.5, 0.7])
def test_ratio_of_an_exponential_fall_is_its_own(fall: float) -> None:
    """The logarithm is a plane, of which 95 % lie between the quantiles."""
    found = lit(fall**COLS)
    assert found == pytest.approx(fall**-0.95, rel=0.03)


def test_even_light_has_no_ratio() -> None:
    assert lit(np.ones((SIDE, SIDE))) == 1.0


def test_dark_corners_are_found() -> None:
    far = (2 * ROWS - 1) ** 2 + (2 * COLS - 1) ** 2
    found = lit(np.exp(-0.6 * far))
    assert found is not None
    assert found > 2


def test_shades_of_grains_are_no_uneven_light() -> None:
    labels = cell_labels(SIDE, 60)
    shade = np.random.default_rng(3).uniform(0.4, 0.9, 100)[labels]
    found = light_ratio(lab_picture(shade.astype(np.float32)), EVERYWHERE)
    assert found is not None
    assert found < 2


def test_too_little_metal_gives_no_ratio() -> None:
    metal = np.zeros((SIDE, SIDE), np.bool_)
    metal[:20, :20] = True
    picture = lab_picture(np.full((SIDE, SIDE), 0.5, np.float32))
    assert light_ratio(picture, metal) is None
