"""Resized copies: recognised by content, with the pixel size they would have."""

import numpy as np
import numpy.typing as npt
import pytest
from hypothesis import given
from hypothesis import strategies as st
from skimage.transform import resize

from strandproof.errors import ParameterError
from strandproof.micrograph.calibration import (
    SAME_CONTENT_FROM,
    Resizing,
    likeness,
    resized_pixel_size,
    same_proportions,
)
from strandproof.quantity import Quantity

SIZE = Quantity(0.1726, "um", 0.0004, degrees_of_freedom=8)


def field(seed: int, shape: tuple[int, int] = (300, 400)) -> npt.NDArray[np.float64]:
    """Draw cells of many shades, under light that falls off to one side."""
    chance = np.random.default_rng(seed)
    places = chance.uniform((0, 0), shape, (60, 2))
    rows, columns = np.indices(shape)
    nearest = np.hypot(
        rows[..., None] - places[:, 0], columns[..., None] - places[:, 1]
    ).argmin(axis=2)
    grey = chance.uniform(0.3, 0.6, 60)[nearest] + 0.4 * columns / shape[1]
    return np.asarray(grey + chance.normal(0, 0.02, shape))


@pytest.mark.parametrize("share", [0.25, 0.5, 0.71, 1.5, 2.0])
@pytest.mark.parametrize("order", [0, 1, 3])
def test_copies_are_recognised(share: float, order: int) -> None:
    original = field(1)
    shape = (round(300 * share), round(400 * share))
    copy = resize(  # type: ignore[no-untyped-call]
        original, shape, order=order, anti_aliasing=share < 1 and order > 0
    )
    assert likeness(original, copy) > SAME_CONTENT_FROM
    brighter = np.clip(0.2 + 0.6 * copy, 0, 1)
    assert likeness(original, brighter) > SAME_CONTENT_FROM


@pytest.mark.parametrize("seed", range(2, 8))
def test_other_fields_under_the_same_light_are_not(seed: int) -> None:
    assert abs(likeness(field(1), field(seed, (150, 200)))) < 0.3


def test_a_field_without_boundaries_is_recognised_by_its_grain() -> None:
    chance = np.random.default_rng(3)
    original = chance.normal(0.5, 0.05, (600, 800))
    half = original.reshape(300, 2, 400, 2).mean(axis=(1, 3))
    assert likeness(original, half) > SAME_CONTENT_FROM


def test_other_proportions_and_blank_pictures_are_not_alike() -> None:
    assert likeness(field(1), field(1)[:150]) == 0
    assert likeness(np.full((60, 80), 0.5), np.full((30, 40), 0.5)) == 0


@pytest.mark.parametrize(
    ("first", "second", "alike"),
    [
        ((2736, 1824), (1368, 912), True),
        ((2736, 1824), (1367, 912), True),
        ((2736, 1824), (1024, 683), True),
        ((2736, 1824), (1280, 960), False),
        ((2736, 1824), (1824, 2736), False),
    ],
)
def test_proportions(
    first: tuple[int, int], second: tuple[int, int], *, alike: bool
) -> None:
    assert same_proportions(first, second) is alike


@given(
    width=st.integers(1, 20_000), other=st.integers(1, 20_000), size=st.floats(1e-3, 10)
)
def test_the_field_keeps_its_width(width: int, other: int, size: float) -> None:
    found = resized_pixel_size(
        Quantity(size, "um", 0.01 * size), from_width=width, to_width=other
    )
    assert found.value * other == pytest.approx(size * width, rel=1e-9, abs=0)
    assert found.relative_uncertainty == pytest.approx(0.01, rel=1e-9, abs=0)


@pytest.mark.parametrize(("old", "new"), [(0, 100), (100, 0)])
def test_widths_have_to_be_above_zero(old: int, new: int) -> None:
    with pytest.raises(ParameterError, match="1 pixel or more"):
        resized_pixel_size(SIZE, from_width=old, to_width=new)


def test_only_the_scaled_pixel_size_agrees() -> None:
    pair = Resizing(known_px=(2736, 1824), given_px=(1368, 912), pixel_size=SIZE)
    assert not pair.agrees_with(SIZE)
    assert pair.agrees_with(Quantity(0.3450, "um", 0.0008))
