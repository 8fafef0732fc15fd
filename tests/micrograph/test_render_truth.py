"""Measured intercepts of planes whose answer is known in closed form."""

from math import cos, radians, sin

import numpy as np
import numpy.typing as npt
import pytest

from strandproof.micrograph.render import GrainPopulation, measure_intercepts
from strandproof.micrograph.render.truth import label_changes

Labels = npt.NDArray[np.int32]
SIDE = 300


def stripes(normal_deg: float, width: float) -> Labels:
    """Stripes of equal width whose normal points in the given direction."""
    y, x = np.mgrid[:SIDE, :SIDE]
    place = x * cos(radians(normal_deg)) - y * sin(radians(normal_deg))
    numbers: Labels = np.floor(place / width).astype(np.int32)
    first: Labels = numbers - numbers.min() + np.int32(1)
    return first


def population(direction_deg: float, elongation: float = 1.0) -> GrainPopulation:
    return GrainPopulation(
        family="drawn",
        mean_intercept_um=5,
        direction_deg=direction_deg,
        elongation=elongation,
    )


def test_upright_stripes_are_counted_exactly() -> None:
    labels = stripes(0.0, 8)
    found = measure_intercepts(
        labels, np.ones_like(labels), um_per_px=0.5, population=population(0.0)
    )
    per_row = 37  # stripes of 8 pixels in 300 pixels
    assert found.crossings == SIDE * per_row
    assert found.length_um == pytest.approx(2 * SIDE * (SIDE - 1) * 0.5, rel=1e-12)
    assert found.along_um == pytest.approx((SIDE - 1) / per_row * 0.5, rel=1e-12)
    assert found.across_um is None


@pytest.mark.parametrize("normal_deg", [0.0, 13.0, 30.0, 45.0, 71.0, 90.0])
def test_stripes_are_met_at_their_width_across(normal_deg: float) -> None:
    labels = stripes(normal_deg, 9.0)
    direction = normal_deg - 90
    found = measure_intercepts(
        labels, np.ones_like(labels), um_per_px=2.0, population=population(direction)
    )
    # 300 px hold 33.3 stripes; a whole number of sides falls into each line.
    assert found.across_um == pytest.approx(18.0, rel=1 / 33, abs=0.0)


@pytest.mark.parametrize("direction_deg", [-60.0, -10.0, 0.0, 25.0, 90.0])
def test_lines_at_an_angle_to_stripes_meet_them_less_often(
    direction_deg: float,
) -> None:
    labels = stripes(direction_deg + 35, 12.0)
    found = measure_intercepts(
        labels,
        np.ones_like(labels),
        um_per_px=1.0,
        population=population(direction_deg, elongation=5),
    )
    assert found.along_um == pytest.approx(12.0 / cos(radians(35)), rel=0.02, abs=0.0)
    assert found.across_um == pytest.approx(12.0 / sin(radians(35)), rel=0.02, abs=0.0)


def test_one_grain_has_no_mean_intercept() -> None:
    labels = np.ones((40, 40), np.int32)
    found = measure_intercepts(
        labels,
        labels,
        um_per_px=1.0,
        population=GrainPopulation(family="single", mean_intercept_um=None),
    )
    assert (found.mean_um, found.along_um, found.across_um) == (None, None, None)
    assert found.crossings == 0


def test_changes_across_strands_and_outside_do_not_count() -> None:
    grains = np.array([[1, 1, 2, 2, 3, 0, 4]], np.int32)
    strands = np.array([[1, 1, 1, 1, 2, 0, 3]], np.int32)
    found = measure_intercepts(
        grains, strands, um_per_px=1.0, population=population(0.0)
    )
    assert (found.crossings, found.length_um) == (1, 3.0)
    changes = label_changes(grains, strands)
    assert changes.tolist() == [[False, True, True, False, False, False, False]]
