"""Blocks of lossy compression, written by a library's own encoder."""

import numpy as np
import pytest
import pyvips
from quality_pictures import Plane, as_tiles, cell_labels, eight_bits, grooved
from scipy import ndimage

from strandproof.micrograph.quality.compression import (
    compression_quality,
    shows_blocks,
)
from strandproof.micrograph.quality.spectrum import regular_combs


def stored(picture: Plane, quality: int) -> Plane:
    """Pass a picture through a lossy file of libjpeg (outside of this project)."""
    levels = np.rint(picture * 255).astype(np.uint8)
    image = pyvips.Image.new_from_array(levels)
    data = image.jpegsave_buffer(Q=quality, keep="none")
    decoded = pyvips.Image.new_from_buffer(data, "").numpy() / 255
    plane: Plane = decoded.reshape(picture.shape[:2]).astype(np.float32)
    return plane


@pytest.mark.parametrize("quality", [30, 50, 75, 85])
def test_setting_is_found(quality: int) -> None:
    tiles = as_tiles(stored(grooved(cell_labels()), quality))
    assert shows_blocks(regular_combs(tiles))
    assert compression_quality(tiles) == quality


def test_setting_is_found_after_cropping() -> None:
    tiles = as_tiles(stored(grooved(cell_labels()), 60)[5:, 3:])
    assert shows_blocks(regular_combs(tiles))
    assert compression_quality(tiles) == 60


def test_change_after_compression_hides_the_setting_but_not_the_blocks() -> None:
    picture = stored(grooved(cell_labels()), 50)
    changed = eight_bits(0.2 + 0.7 * picture**0.8)
    tiles = as_tiles(changed)
    assert shows_blocks(regular_combs(tiles))
    assert compression_quality(tiles) != 50


def test_picture_never_compressed_shows_neither() -> None:
    tiles = as_tiles(grooved(cell_labels()))
    assert not shows_blocks(regular_combs(tiles))
    assert compression_quality(tiles) is None


def test_blocks_do_not_survive_strong_smoothing() -> None:
    soft = ndimage.gaussian_filter(stored(grooved(cell_labels()), 50), 5)
    assert compression_quality(as_tiles(eight_bits(soft))) is None
