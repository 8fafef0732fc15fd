"""Tiles put together: one path for a crop and a large picture."""

import numpy as np
import numpy.typing as npt
import pytest

from strandproof.micrograph.learned.maps import structure_maps
from strandproof.micrograph.learned.planes import PLANES
from strandproof.micrograph.learned.scales import SEEN_TWICE

Bytes = npt.NDArray[np.uint8]


def copied(seen: Bytes) -> Bytes:
    """Answer with the red channel in every plane; sides must divide by 32."""
    assert all(side % 32 == 0 for side in seen.shape[1:])
    assert seen.flags.c_contiguous
    return np.repeat(seen[:1], len(PLANES), axis=0)


def picture(n_rows: int, n_cols: int) -> Bytes:
    chance = np.random.default_rng(n_rows * n_cols)
    return chance.integers(0, 256, (n_rows, n_cols, 3), np.uint8)


@pytest.mark.parametrize(
    ("n_rows", "n_cols"), [(1, 1), (31, 33), (64, 1025), (1500, 40), (2100, 1100)]
)
def test_every_pixel_is_answered_once_at_its_place(n_rows: int, n_cols: int) -> None:
    drawn = picture(n_rows, n_cols)
    maps = structure_maps(drawn, answer=copied)
    assert maps.shape == (len(PLANES), n_rows, n_cols)
    for number, plane in enumerate(maps):
        if number not in SEEN_TWICE:
            assert np.array_equal(plane, drawn[..., 0])


def test_no_tile_is_larger_than_the_bound() -> None:
    sizes: list[int] = []

    def answer(seen: Bytes) -> Bytes:
        sizes.append(max(seen.shape[1:]))
        return copied(seen)

    structure_maps(picture(3000, 1400), answer=answer)
    assert len(sizes) == 6 + 2
    assert max(sizes) <= 1024 + 2 * 64 + 32


def test_progress_is_told_before_each_tile_and_cancels() -> None:
    told: list[float] = []
    structure_maps(picture(2100, 60), answer=copied, progress=told.append)
    assert told == pytest.approx([0, 0.8 / 3, 1.6 / 3])
    told.clear()
    structure_maps(picture(2100, 64), answer=copied, progress=told.append)
    assert told == pytest.approx([0, 0.8 / 3, 1.6 / 3, 0.8, 0.9])

    def cancel(_done: float) -> None:
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        structure_maps(picture(64, 64), answer=copied, progress=cancel)
