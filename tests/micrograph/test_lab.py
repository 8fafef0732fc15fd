"""Conversion to L*a*b*, held against an independent library; what is refused."""

from typing import Any

import numpy as np
import numpy.typing as npt
import pytest
from skimage.color import rgb2lab

from strandproof.errors import ParameterError
from strandproof.micrograph.lab import lab_of_bytes, lab_picture


def test_colours_agree_with_an_independent_library() -> None:
    picture = np.random.default_rng(1).random((300, 7, 3), dtype=np.float32)
    # Both round constants of the standard to six digits and work in float32.
    assert lab_picture(picture).lab == pytest.approx(rgb2lab(picture), abs=0.02)


def test_equal_channels_are_grey() -> None:
    grey = np.random.default_rng(2).random((5, 6), dtype=np.float32)
    colour = np.repeat(grey[..., None], 3, axis=2)
    assert lab_picture(colour).lab.shape == (5, 6, 1)
    assert np.array_equal(lab_picture(colour).lab, lab_picture(grey).lab)


@pytest.mark.parametrize("seed", [3, 4])
@pytest.mark.parametrize("levels", [256, 2])
def test_bytes_are_converted_as_their_fractions_are(seed: int, levels: int) -> None:
    chance = np.random.default_rng(seed)
    pixels = chance.integers(0, levels, (70, 9, 3), np.uint8) * (255 // (levels - 1))
    pixels = pixels.astype(np.uint8)
    valid = chance.random((70, 9)) < 0.8
    found = lab_of_bytes(pixels, valid=valid)
    expected = lab_picture((pixels / 255).astype(np.float32), valid=valid)
    assert np.allclose(found.lab, expected.lab, rtol=0, atol=1e-4)
    assert np.array_equal(found.clipped, expected.clipped)
    assert np.array_equal(found.valid, valid)


def test_equal_bytes_are_grey() -> None:
    every = np.repeat(np.arange(256, dtype=np.uint8).reshape(64, 4, 1), 3, axis=2)
    found = lab_of_bytes(every)
    expected = lab_picture((every / 255).astype(np.float32))
    assert found.lab.shape == (64, 4, 1)
    assert np.allclose(found.lab, expected.lab, rtol=0, atol=1e-4)
    assert np.argwhere(found.clipped).tolist() == [[0, 0], [63, 3]]


@pytest.mark.parametrize(
    "wrong", [np.zeros((4, 4), np.uint8), np.zeros((4, 4, 3), np.uint16)]
)
def test_other_bytes_are_refused(wrong: npt.NDArray[Any]) -> None:
    with pytest.raises(ParameterError, match="uint8 of shape"):
        lab_of_bytes(wrong)


def test_black_and_white_are_clipped_and_nothing_else() -> None:
    picture = np.array([[0.0, 1.0, 0.5, 0.01]], np.float32)
    assert lab_picture(picture).clipped.tolist() == [[True, True, False, False]]


def test_what_is_not_visible_may_hold_anything() -> None:
    picture = np.array([[0.5, np.nan]], np.float32)
    found = lab_picture(picture, valid=np.array([[True, False]]))
    assert np.isfinite(found.lab).all()


@pytest.mark.parametrize("wrong", [np.nan, np.inf, -0.1, 1.1])
def test_numbers_outside_of_zero_to_one_are_refused(wrong: float) -> None:
    picture = np.array([[0.5, wrong]], np.float32)
    with pytest.raises(ParameterError, match="numbers from 0 to 1"):
        lab_picture(picture)


@pytest.mark.parametrize("shape", [(0, 4), (3,), (4, 4, 2), (4, 4, 4)])
def test_other_shapes_are_refused(shape: tuple[int, ...]) -> None:
    with pytest.raises(ParameterError, match="n_rows"):
        lab_picture(np.zeros(shape, np.float32))


def test_whole_numbers_are_refused() -> None:
    with pytest.raises(ParameterError, match="floating point"):
        lab_picture(np.zeros((4, 4), np.uint8))


def test_mask_of_another_shape_is_refused() -> None:
    with pytest.raises(ParameterError, match="valid"):
        lab_picture(np.zeros((4, 4), np.float32), valid=np.ones((3, 4), np.bool_))
