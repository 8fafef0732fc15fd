"""What is looked at of a large picture."""

import numpy as np
import numpy.typing as npt
import pytest
from hypothesis import given
from hypothesis import strategies as st

from strandproof.micrograph.lab import lab_of_bytes
from strandproof.micrograph.quality.windows import fullest_window, seen_parts

LARGE = (1600, 2800)  # 4.48 megapixels


def strands_in(
    shape: tuple[int, int], rows: slice, cols: slice
) -> npt.NDArray[np.int32]:
    strands = np.zeros(shape, np.int32)
    strands[rows, cols] = 1
    return strands


def test_small_picture_is_its_own_window() -> None:
    pixels = np.random.default_rng(1).integers(0, 256, (40, 50, 3), np.uint8)
    strands = strands_in((40, 50), slice(5, 30), slice(7, 50))
    seen = seen_parts(pixels, strands)
    assert seen.overview is None
    assert np.array_equal(seen.detail.lab, lab_of_bytes(pixels).lab)
    assert np.array_equal(seen.metal, strands > 0)


def test_pixels_that_show_nothing_are_no_metal() -> None:
    valid = np.ones((40, 50), np.bool_)
    valid[:10] = False
    ones = np.ones((40, 50), np.int32)
    seen = seen_parts(np.zeros((40, 50, 3), np.uint8), ones, valid=valid)
    assert np.array_equal(seen.metal, valid)


def test_large_picture_is_seen_in_a_window_and_thinned_out() -> None:
    strands = strands_in(LARGE, slice(None), slice(1500, 2800))
    pixels = np.full((*LARGE, 3), 90, np.uint8)
    pixels[:, 2700:] = 200
    seen = seen_parts(pixels, strands)
    assert seen.window == (slice(0, 1600), slice(752, 2800))
    assert seen.detail.lab.shape == (1600, 2048, 1)
    assert np.array_equal(seen.metal, strands[seen.window] > 0)
    assert seen.overview is not None
    picture, metal = seen.overview
    assert metal.shape == (800, 1400)
    assert metal.mean() == pytest.approx(1300 / 2800, abs=0.001)
    assert np.unique(picture.lightness).size == 2


def test_window_lies_in_the_middle_of_plain_metal() -> None:
    ones = np.ones((3200, 4096), np.uint8)
    assert fullest_window(ones) == (slice(576, 2624), slice(1024, 3072))


@given(
    st.tuples(st.integers(1, 700), st.integers(1, 700)),
    st.tuples(st.integers(0, 699), st.integers(0, 699)),
)
def test_window_holds_what_fits_in_it(
    shape: tuple[int, int], corner: tuple[int, int]
) -> None:
    """A square of 100 px lies whole in some window of 256 px, up to the grid."""
    metal = [
        slice(at % side, at % side + 100)
        for at, side in zip(corner, shape, strict=True)
    ]
    strands = strands_in(shape, *metal)
    window = fullest_window(strands, side_px=256)
    kept = strands[window]
    assert kept.shape == tuple(min(side, 256) for side in shape)
    assert [part.start % 16 for part in window] == [0, 0]
    # Windows start at every 16th pixel, so the last rows and columns may be left out.
    assert np.count_nonzero(kept) >= np.count_nonzero(strands) - 2 * 16 * 100
