"""Drawn figures with known answers."""

from collections.abc import Callable

import numpy as np
import numpy.typing as npt
import pytest

from strandproof.grainsize.patch import MetalPatch, metal_patch

Labels = npt.NDArray[np.int32]
AsPatch = Callable[[npt.NDArray[np.integer]], MetalPatch]


def _as_patch(labels: npt.NDArray[np.integer]) -> MetalPatch:
    return metal_patch(labels.astype(np.int32), np.ones(labels.shape, np.bool_))


@pytest.fixture(scope="session")
def as_patch() -> AsPatch:
    """A patch of metal from edge to edge of the picture."""
    return _as_patch


@pytest.fixture(scope="session")
def stripes() -> MetalPatch:
    """Ten upright stripes of 20 px, 120 px high."""
    numbers = np.repeat(np.arange(1, 11), 20)
    return _as_patch(np.tile(numbers, (120, 1)))


@pytest.fixture(scope="session")
def disc() -> MetalPatch:
    """A round grain of radius 40 px in the middle of another, 201 px square."""
    rows, cols = np.indices((201, 201)) - 100
    return _as_patch(np.where(np.hypot(rows, cols) <= 40, 2, 1))


@pytest.fixture(scope="session")
def three_sectors() -> MetalPatch:
    """Three grains that meet at 120 deg in the middle of 201 x 201 px."""
    rows, cols = np.indices((201, 201)) - 100.0
    # A tilt keeps boundaries off the directions of the grid.
    angle = (np.degrees(np.arctan2(-rows, cols)) + 360.0 - 17.0) % 360.0
    return _as_patch(1 + (angle // 120.0).astype(np.int32))
