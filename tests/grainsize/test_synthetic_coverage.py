"""Poisson-Voronoi structures of known mean intercept and density, many seeds.

For a planar Poisson-Voronoi structure of density lambda the boundary length per
area is 2 sqrt(lambda), so that by P_L = (2/pi) L_A the mean intercept is
pi / (4 sqrt(lambda)). Source: Meijering 1953, Miles 1970; from memory.
"""

from collections.abc import Callable
from dataclasses import dataclass
from math import pi, sqrt

import numpy as np
import numpy.typing as npt
import pytest
from scipy import stats

from strandproof.grainsize import measure
from strandproof.quantity import Quantity
from strandproof.records import Estimate, LabelledStructure

SEEDS = range(100)
GRAINS = 150.0
SIDE = 400
PIXEL = Quantity(1.0, "um")
MEAN_INTERCEPT_UM = pi / 4 * SIDE / sqrt(GRAINS)
GRAINS_PER_MM2 = GRAINS / (SIDE * 1e-3) ** 2


@dataclass(frozen=True)
class Found:
    """What one synthetic picture gave."""

    mean_intercept: Estimate
    grains_per_area: Estimate
    axial_rate: Estimate


@pytest.fixture(scope="module")
def found(
    voronoi: Callable[..., npt.NDArray[np.int32]],
    one_strand: Callable[..., LabelledStructure],
) -> list[Found]:
    results = []
    for seed in SEEDS:
        labels = voronoi(seed, expected_grains=GRAINS, side=SIDE)
        picture = measure(one_strand(labels), pixel_size=PIXEL).picture
        assert picture is not None
        assert picture.intercepts.mean_intercept is not None
        assert picture.grains_per_area is not None
        assert picture.axial_crossings is not None
        results.append(
            Found(
                mean_intercept=picture.intercepts.mean_intercept,
                grains_per_area=picture.grains_per_area,
                axial_rate=picture.axial_crossings.rate,
            )
        )
    return results


def _covered(estimates: list[Estimate], truth: float) -> int:
    return sum(_covers(estimate, truth) for estimate in estimates)


def _covers(estimate: Estimate, truth: float) -> bool:
    interval = estimate.interval95
    assert interval is not None
    assert interval.lower is not None
    assert interval.upper is not None
    return interval.lower <= truth <= interval.upper


def _fewest_plausible(coverage: float) -> int:
    """Hits that a true coverage falls short of once in a thousand times."""
    return int(stats.binom.ppf(0.001, len(SEEDS), coverage))


def test_mean_intercept_is_recovered(found: list[Found]) -> None:
    values = [each.mean_intercept.quantity.value for each in found]
    # Sampling: 4 % over 100 pictures is 0.4 %; the pixel grid adds about 1 %.
    assert np.mean(values) == pytest.approx(MEAN_INTERCEPT_UM, rel=0.02, abs=0)


def test_grains_per_area_are_recovered(found: list[Found]) -> None:
    values = [each.grains_per_area.quantity.value for each in found]
    # Sampling: 8 % over 100 pictures is 0.8 %.
    assert np.mean(values) == pytest.approx(GRAINS_PER_MM2, rel=0.025, abs=0)


def test_the_intercept_interval_covers_as_often_as_it_says(
    found: list[Found],
) -> None:
    hits = _covered([each.mean_intercept for each in found], MEAN_INTERCEPT_UM)
    assert hits >= _fewest_plausible(0.95)
    # Nor is it a blanket: the median interval is about 8 % wide on each side.
    accuracy = [each.mean_intercept.relative_accuracy_percent for each in found]
    assert np.median(np.array(accuracy, dtype=np.float64)) < 12.0


def test_the_stated_uncertainty_is_the_scatter_between_pictures(
    found: list[Found],
) -> None:
    values = [each.mean_intercept.quantity.value for each in found]
    stated = [each.mean_intercept.quantity.standard_uncertainty for each in found]
    # 100 pictures fix a standard deviation within about 14 %, twice its own.
    root_mean_square = sqrt(np.mean(np.square(stated)))
    assert root_mean_square == pytest.approx(np.std(values, ddof=1), rel=0.2, abs=0)


def test_the_count_interval_covers_at_least_as_often_as_it_says(
    found: list[Found],
) -> None:
    hits = _covered([each.grains_per_area for each in found], GRAINS_PER_MM2)
    assert hits >= _fewest_plausible(0.95)


def test_the_axial_interval_covers_at_least_as_often_as_it_says(
    found: list[Found],
) -> None:
    hits = _covered([each.axial_rate for each in found], 1000 / MEAN_INTERCEPT_UM)
    assert hits >= _fewest_plausible(0.95)
