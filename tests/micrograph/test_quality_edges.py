"""Softness of edges and seams beside lines, on drawings of known blur."""

import numpy as np
import pytest
from quality_pictures import Plane, as_tiles, cell_labels, grooved, noise_plane
from scipy import ndimage

from strandproof.micrograph.quality.sharpening import seam_height
from strandproof.micrograph.quality.softness import edge_softness


def discs(blur: float, noise: float = 0.5) -> Plane:
    """Bright discs on dark: nothing but steps."""
    rows, cols = np.indices((256, 256))
    inside = np.hypot(rows % 64 - 32, cols % 64 - 32) < 22
    soft = ndimage.gaussian_filter(np.where(inside, 180.0, 60.0), blur)
    return (soft + noise_plane((256, 256), noise)).astype(np.float32)[None]


@pytest.mark.parametrize("blur", [1.0, 2.0, 3.0, 4.0])
def test_softness_of_steps_is_their_blur(blur: float) -> None:
    """Pixels themselves and the slope over 2 px widen by about 0.6 px in quadrature."""
    found = edge_softness(discs(blur))
    assert found == pytest.approx(blur, rel=0.12, abs=0.1)


def test_softness_of_grooves_grows_with_blur() -> None:
    sharp = as_tiles(grooved(cell_labels(), noise=0.0))
    found = [
        edge_softness(ndimage.gaussian_filter(sharp, (0, blur, blur)))
        for blur in (0.5, 1.5, 2.5, 3.5)
    ]
    assert found == sorted(found, key=lambda one: one or 0.0)
    assert (found[-1] or 0.0) > 2


def test_noise_does_not_make_a_soft_picture_sharp() -> None:
    found = edge_softness(discs(3.0, noise=4.0))
    assert found is not None
    assert found > 2.4


def test_even_plane_has_no_edges_and_no_lines() -> None:
    plane = np.full((2, 128, 128), 9, np.float32)
    assert edge_softness(plane) is None
    assert seam_height(plane) is None
    assert edge_softness(plane[:0]) is None
    assert seam_height(plane[:0]) is None


@pytest.mark.parametrize(("amount", "low", "high"), [(0, -0.05, 0.04), (2, 0.06, 0.4)])
def test_seams_come_with_sharpening(amount: float, low: float, high: float) -> None:
    picture = as_tiles(grooved(cell_labels(384, 80), noise=0.004))
    soft = ndimage.gaussian_filter(picture, (0, 1.5, 1.5))
    found = seam_height(picture + amount * (picture - soft))
    assert found is not None
    assert low < found < high


def test_step_in_height_lit_from_one_side_is_no_seam() -> None:
    """One side light and the other dark is relief."""
    labels = cell_labels(384, 80)
    chance = np.random.default_rng(5)
    height = ndimage.gaussian_filter(chance.normal(0, 1, 500)[labels], 1.5)
    slope = np.gradient(height, axis=1)
    found = seam_height(as_tiles((grooved(labels) + 0.15 * slope).astype(np.float32)))
    assert found is not None
    assert found < 0.05
