"""Halving, doubling, and which answer counts where."""

import numpy as np
import numpy.typing as npt
import pytest

from strandproof.micrograph.learned import planes
from strandproof.micrograph.learned.scales import (
    SEEN_TWICE,
    doubled,
    halved,
    put_together,
)

Bytes = npt.NDArray[np.uint8]


def test_halved_is_the_mean_of_four_pixels() -> None:
    picture = np.arange(5 * 7, dtype=np.uint8).reshape(5, 7)
    expected = [
        [round(float(picture[r : r + 2, c : c + 2].mean()) + 0.01) for c in (0, 2, 4)]
        for r in (0, 2)
    ]
    assert halved(picture).tolist() == expected


@pytest.mark.parametrize("shape", [(20, 30), (21, 30), (20, 31), (21, 31)])
def test_a_slope_survives_halving_and_doubling(shape: tuple[int, int]) -> None:
    rows, cols = np.indices(shape)
    slope = (3 * rows + 2 * cols).astype(np.uint8)
    back = doubled(halved(slope), shape)
    assert back.shape == shape
    away = np.abs(back.astype(int) - slope)[2:-3, 2:-3]
    assert away.max() <= 1


def both(near_boundary: int, far_boundary: int) -> Bytes:
    near = np.full((len(planes.PLANES), 128, 128), near_boundary, np.uint8)
    far = np.full((len(planes.PLANES), 64, 64), far_boundary, np.uint8)
    put_together(near, far)
    return near


def test_where_few_boundaries_are_both_count_alike() -> None:
    found = both(10, 200)
    for plane in range(len(planes.PLANES)):
        assert np.unique(found[plane]).tolist() == [105 if plane in SEEN_TWICE else 10]


def test_where_grains_are_fine_only_the_near_answer_counts() -> None:
    assert np.unique(both(80, 200)).tolist() == [80]


def test_between_them_the_share_changes_evenly() -> None:
    found = both(48, 248)
    assert np.unique(found[planes.GRAIN_BOUNDARY]) == pytest.approx(98, abs=1)
