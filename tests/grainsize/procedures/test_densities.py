from collections.abc import Callable
from math import pi

import numpy as np
import numpy.typing as npt
import pytest

from strandproof.errors import ParameterError
from strandproof.grainsize.patch import MetalPatch
from strandproof.grainsize.procedures.densities import (
    boundary_density,
    twin_density,
    twin_density_of,
)
from strandproof.grainsize.rules import counting_rules
from strandproof.quantity import Interval, Quantity
from strandproof.records.measurement import Estimate

AsPatch = Callable[[npt.NDArray[np.integer]], MetalPatch]


def _estimate(value: float, unit: str) -> Estimate:
    return Estimate(
        quantity=Quantity(value, unit, 0.05 * value),
        interval95=Interval(
            lower=0.9 * value,
            upper=1.1 * value,
            unit=unit,
            confidence=0.95,
            method="drawn",
        ),
        relative_accuracy_percent=10.0,
    )


def test_boundary_area_per_volume_is_twice_the_boundaries_per_length() -> None:
    found = boundary_density(_estimate(8.0, "um"))
    assert found.surface_per_volume.value == pytest.approx(250.0, rel=1e-12, abs=0)
    assert found.surface_per_volume.unit == "1/mm"
    assert found.length_per_area.value == pytest.approx(pi / 0.016, rel=1e-12, abs=0)
    assert found.surface_per_volume.standard_uncertainty == pytest.approx(
        12.5, rel=1e-12, abs=0
    )
    interval = found.surface_interval95
    assert interval is not None
    assert interval.lower == pytest.approx(250 / 1.1, rel=1e-12, abs=0)
    assert interval.upper == pytest.approx(250 / 0.9, rel=1e-12, abs=0)
    assert "equiaxed" in found.sentence


def test_without_a_scale_it_is_per_pixel() -> None:
    assert boundary_density(_estimate(20.0, "px")).surface_per_volume.unit == "1/px"


def test_lamellae_are_counted_apart_from_grains(as_patch: AsPatch) -> None:
    # Two grains of 100 px; one upright lamella of 20 px in each: two boundaries more.
    grains = np.tile(np.repeat([1, 2], 100), (100, 1))
    twins = grains.copy()
    twins[:, 40:60], twins[:, 140:160] = 3, 4
    found = twin_density(
        as_patch(grains),
        as_patch(twins),
        axis_deg=0.0,
        spacing_px=25.0,
        rules=counting_rules(),
        pixel_size=None,
    )
    # Level lines: 1 grain boundary and 4 twin boundaries each; slanted ones alike.
    assert found.grain_crossings > 0
    assert found.twin_crossings > 3 * found.grain_crossings
    assert found.share is not None
    assert found.share == found.twin_crossings / (
        found.twin_crossings + found.grain_crossings
    )
    assert found.surface_per_volume.value == pytest.approx(
        2 * found.per_length.quantity.value, rel=1e-12, abs=0
    )


def test_twin_boundaries_per_length_follow_from_their_spacing(
    as_patch: AsPatch,
) -> None:
    # Upright boundaries each 30 px: 1/w level, 1/(w sqrt 2) on both slants, 0 upright.
    grains = np.ones((300, 300), np.int32)
    twins = np.tile(1 + np.arange(15, 315) // 30, (300, 1))
    found = twin_density(
        as_patch(grains),
        as_patch(twins),
        axis_deg=0.0,
        spacing_px=3.0,
        rules=counting_rules(),
        pixel_size=None,
    )
    assert found.grain_crossings == 0
    expected = (1.0 + 2.0 / 2.0**0.5) / 4.0 / 30.0
    assert found.per_length.quantity.value == pytest.approx(expected, rel=0.01, abs=0)


def test_no_twin_leaves_the_mean_as_it_is() -> None:
    found = twin_density_of(0, 12, length_px=600.0, pixel_size=None)
    assert found.mean_intercept == found.mean_intercept_with_twins
    assert found.share == 0.0
    assert found.per_length.interval95 is not None
    assert found.per_length.interval95.lower == 0.0


def test_without_a_grain_boundary_no_mean_is_stated() -> None:
    found = twin_density_of(3, 0, length_px=600.0, pixel_size=None)
    assert found.mean_intercept is None
    assert "no mean intercept is stated" in found.sentence


def test_labels_of_another_piece_are_refused(as_patch: AsPatch) -> None:
    with pytest.raises(ParameterError, match="labels of the same piece"):
        twin_density(
            as_patch(np.ones((20, 20), np.int32)),
            as_patch(np.ones((20, 30), np.int32)),
            axis_deg=0.0,
            spacing_px=5.0,
            rules=counting_rules(),
            pixel_size=None,
        )
