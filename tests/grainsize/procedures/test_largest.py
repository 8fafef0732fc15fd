from collections.abc import Callable
from math import pi

import numpy as np
import numpy.typing as npt
import pytest

from strandproof.grainsize.patch import MetalPatch
from strandproof.grainsize.procedures.largest import (
    caliper_area,
    caliper_widths,
    largest_grain,
    one_grain_g,
)
from strandproof.grainsize.procedures.settings import procedure_settings
from strandproof.quantity import Quantity

AsPatch = Callable[[npt.NDArray[np.integer]], MetalPatch]
PIXELS = procedure_settings(None)


@pytest.mark.parametrize("tilt_deg", [0.0, 25.0, 60.0])
def test_calipers_of_an_ellipse_are_its_axes(tilt_deg: float) -> None:
    rows, cols = np.indices((201, 201)) - 100.0
    angle = np.radians(tilt_deg)
    along = cols * np.cos(angle) + rows * np.sin(angle)
    across = rows * np.cos(angle) - cols * np.sin(angle)
    mask = (along / 80.0) ** 2 + (across / 40.0) ** 2 <= 1.0
    longest, width = caliper_widths(mask)
    # Corners of pixels reach up to a pixel beyond the ellipse at either end.
    assert longest == pytest.approx(160.0, rel=0, abs=2.0)
    assert width == pytest.approx(80.0, rel=0, abs=2.0)
    assert caliper_area(longest, width) == pytest.approx(
        float(mask.sum()), rel=0.03, abs=0
    )


def test_one_pixel_has_calipers() -> None:
    longest, width = caliper_widths(np.ones((1, 1), np.bool_))
    assert (longest, width) == pytest.approx((2**0.5, 2**0.5), rel=1e-12, abs=0)


def test_the_larger_grain_is_found_and_a_cut_one_said(disc: MetalPatch) -> None:
    found = largest_grain(disc, PIXELS)
    assert found is not None
    assert (found.label, found.cut) == (1, True)
    assert "larger than seen" in found.sentence
    assert found.g_counted is None


def test_a_whole_largest_grain_has_a_number_of_its_own(as_patch: AsPatch) -> None:
    rows, cols = np.indices((200, 200))
    labels = 1 + (rows // 20) * 10 + cols // 20
    labels[np.hypot(rows - 99.5, cols - 99.5) <= 50] = 500
    found = largest_grain(
        as_patch(labels), procedure_settings(Quantity(0.5, "um", 0.005))
    )
    assert found is not None
    assert (found.label, found.cut) == (500, False)
    area = pi * 25.0**2
    assert found.counted_area.value == pytest.approx(area, rel=0.01, abs=0)
    assert found.counted_area.standard_uncertainty == pytest.approx(
        0.02 * found.counted_area.value, rel=1e-12, abs=0
    )
    assert found.g_counted == pytest.approx(one_grain_g(area * 1e-6), rel=0, abs=0.02)
    assert found.g_caliper == pytest.approx(found.g_counted, rel=0, abs=0.06)


def test_without_grains_there_is_no_largest(as_patch: AsPatch) -> None:
    assert largest_grain(as_patch(np.zeros((10, 10), np.int32)), PIXELS) is None
