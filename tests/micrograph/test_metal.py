"""Metal and mount on drawn (synthetic) pictures: dark, bright, none; touching faces."""

import numpy as np
import numpy.typing as npt
import pytest

from strandproof.micrograph.lab import lab_picture
from strandproof.micrograph.metal import metal_mask
from strandproof.micrograph.pieces import separated_metal

Plane = npt.NDArray[np.float32]
Mask = npt.NDArray[np.bool_]
ROWS, COLS = np.indices((240, 240))


def disk(row: int, col: int, radius: int) -> Mask:
    found: Mask = np.hypot(ROWS - row, COLS - col) < radius
    return found


def picture(metal: Mask, metal_grey: float, mount_grey: float) -> Plane:
    noise = np.random.default_rng(4).normal(0, 0.01, metal.shape)
    grey = np.where(metal, metal_grey, mount_grey) + noise
    return np.clip(grey, 0, 1).astype(np.float32)


@pytest.mark.parametrize(("metal_grey", "mount_grey"), [(0.75, 0.08), (0.6, 0.95)])
def test_a_face_is_found_in_dark_and_in_bright_mounts(
    metal_grey: float, mount_grey: float
) -> None:
    truth = disk(120, 120, 70)
    found = metal_mask(lab_picture(picture(truth, metal_grey, mount_grey)))
    assert (found != truth).mean() < 0.01


@pytest.mark.parametrize(
    ("side", "greys"),
    [(40, (0.35, 0.55, 0.75)), (60, (0.5, 0.6, 0.85)), (20, (0.45, 0.9, 0.9))],
)
def test_dark_and_bright_grains_at_the_edge_are_metal(
    side: int, greys: tuple[float, ...]
) -> None:
    """Square cells of three greys; none as dark as a mount, none holds the edge."""
    cells = (ROWS // side + COLS // side) % 3
    grey = np.array(greys)[cells].astype(np.float32)
    assert metal_mask(lab_picture(grey)).all()


def test_a_black_picture_shows_no_metal() -> None:
    assert not metal_mask(lab_picture(np.full((40, 40), 0.02, np.float32))).any()


def test_what_is_transparent_is_no_metal() -> None:
    valid = ROWS < 120
    found = metal_mask(lab_picture(np.full((240, 240), 0.7, np.float32), valid=valid))
    assert np.array_equal(found, valid)


def test_two_faces_that_touch_are_parted() -> None:
    _, strands = separated_metal(disk(120, 71, 50) | disk(120, 168, 50))
    assert strands.max() == 2
    assert strands[120, 60] != strands[120, 180]


def test_a_long_section_is_not_parted() -> None:
    band = np.abs(ROWS - 120 + 3 * np.sin(COLS / 9)) < 40
    assert separated_metal(band)[1].max() == 1


def test_dirt_is_left_out() -> None:
    metal = disk(120, 120, 70)
    metal[4:6, 4:6] = True
    kept, strands = separated_metal(metal)
    assert strands.max() == 1
    assert not kept[:10].any()
