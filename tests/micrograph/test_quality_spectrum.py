"""Noise by frequency, regular combs, and what they say about resizing."""

from typing import Literal

import numpy as np
import pytest
from quality_pictures import (
    Plane,
    as_tiles,
    cell_labels,
    eight_bits,
    grooved,
    noise_plane,
)
from scipy import ndimage

from strandproof.micrograph.quality.resizing import Resizing, resizing_traces
from strandproof.micrograph.quality.spectrum import (
    Combs,
    FlatPower,
    flat_power,
    regular_combs,
)


def traces(picture: Plane) -> Resizing:
    tiles = as_tiles(picture)
    power = flat_power(tiles)
    assert power is not None
    return resizing_traces(power, regular_combs(tiles))


def enlarged(factor: float, order: Literal[1, 3], side: int = 300) -> Plane:
    small = grooved(cell_labels(side, 90))
    big = ndimage.zoom(small, factor, order=order, grid_mode=True, mode="nearest")
    return eight_bits(big)


def test_white_noise_has_its_variance_at_the_finest_scale() -> None:
    """Blocks are chosen by coarse power alone, so the fine band is not biased."""
    power = flat_power(noise_plane((8, 256, 256), 3.0))
    assert power is not None
    assert power.finest == pytest.approx(9.0, rel=0.05)
    assert power.coarse < 9.0  # the flattest fifth has less of it


def test_rounding_alone_leaves_a_twelfth() -> None:
    """Variance of a value rounded to whole numbers: 1/12."""
    slope = np.cumsum(noise_plane((256, 256), 1.0), axis=1)
    smooth = ndimage.gaussian_filter(20 * slope, 4)
    power = flat_power(np.rint(smooth)[None].astype(np.float32))
    assert power is not None
    assert power.finest == pytest.approx(1 / 12, rel=0.15)


def test_too_few_blocks_give_no_power() -> None:
    assert flat_power(np.empty((0, 256, 256), np.float32)) is None


@pytest.mark.parametrize("side", [64, 128, 256])
def test_noise_has_no_comb(side: int) -> None:
    found = regular_combs(noise_plane((3, side, side), 4.0))
    assert max(found.blocks, found.halves) < 6
    assert found.other < 12


@pytest.mark.parametrize("shift", [0, 3])
def test_blocks_of_eight_make_a_comb_wherever_they_begin(shift: int) -> None:
    plane = noise_plane((256, 256), 2.0)
    plane += 3 * ((np.indices((256, 256)) + shift) // 8).sum(axis=0) % 7
    assert regular_combs(plane[None].astype(np.float32)).blocks > 20


def test_no_roughness_divides_by_nothing() -> None:
    found = regular_combs(np.full((1, 64, 64), 7, np.float32))
    assert (found.blocks, found.halves, found.other) == (0, 0, 0)


@pytest.mark.parametrize("order", [1, 3])
@pytest.mark.parametrize("factor", [1.3, 1.5, 1.8, 2.4, 3.0])
def test_factor_of_an_enlargement_is_among_the_two_named(
    factor: float, order: Literal[1, 3]
) -> None:
    found = traces(enlarged(factor, order))
    assert min(abs(one / factor - 1) for one in found.factors) < 0.03


@pytest.mark.parametrize("order", [1, 3])
def test_doubling_leaves_an_empty_band(order: Literal[1, 3]) -> None:
    found = traces(enlarged(2.0, order))
    assert found.empty_band
    assert found.factors == ()


def test_picture_as_taken_has_no_trace() -> None:
    found = traces(grooved(cell_labels()))
    assert (found.comb, found.factors, found.empty_band) == (0.0, (), False)


POWER = FlatPower(coarse=20.0, finest=0.08)


@pytest.mark.parametrize(
    ("combs", "comb", "empty"),
    [
        ({"blocks": 1, "halves": 1, "other": 3}, 0, True),
        ({"blocks": 50, "halves": 80, "other": 3}, 0, False),  # compression
        ({"blocks": 1, "halves": 80, "other": 3}, 80, True),
        ({"blocks": 50, "halves": 80, "other": 90}, 90, False),
    ],
)
def test_combs_of_compression_are_not_taken_for_enlarging(
    combs: dict[str, float], comb: float, *, empty: bool
) -> None:
    found = resizing_traces(POWER, Combs(**combs, other_frequency=0.3))
    assert found.comb == comb
    assert found.empty_band is empty
