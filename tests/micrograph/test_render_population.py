"""The requested population is met, counted over many seeds.

Every figure here is counted on exact labels; no picture is measured.
"""

from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt
import pytest

from strandproof.micrograph.render import (
    GrainPopulation,
    MeasuredIntercepts,
    StrandLayout,
    TwinHabit,
    measure_intercepts,
)
from strandproof.micrograph.render.grains import grain_labels
from strandproof.micrograph.render.noise import stream
from strandproof.micrograph.render.outline import strand_map

EQUIAXED = GrainPopulation(family="equiaxed", mean_intercept_um=12)
SCATTER_ALLOWED = 3.0  # standard errors


@dataclass(frozen=True)
class Estimate:
    value: float
    standard_error: float

    def differs_by(self, expected: float) -> float:
        """Difference from an expected value in standard errors."""
        return abs(self.value - expected) / self.standard_error


def fields(
    population: GrainPopulation,
    *,
    seeds: int,
    shape: tuple[int, int] = (256, 256),
    um_per_px: float = 0.5,
) -> list[MeasuredIntercepts]:
    metal = np.ones(shape, np.bool_)
    return [
        measure_intercepts(
            grain_labels(
                metal,
                population,
                um_per_px=um_per_px,
                generator=stream(seed, "grains"),
            ),
            metal.astype(np.int32),
            um_per_px=um_per_px,
            population=population,
        )
        for seed in range(seeds)
    ]


def ratio_estimate(
    lengths: npt.NDArray[np.float64], crossings: npt.NDArray[np.float64]
) -> Estimate:
    """Length over crossings with the standard error of a ratio of sums."""
    value = lengths.sum() / crossings.sum()
    scatter = np.std(lengths - value * crossings, ddof=1)
    error = scatter / np.sqrt(lengths.size) / crossings.mean()
    return Estimate(float(value), float(error))


def mean_of(found: list[MeasuredIntercepts]) -> Estimate:
    return ratio_estimate(
        np.array([one.length_um for one in found]),
        np.array([float(one.crossings) for one in found]),
    )


def harmonic_mean(values: list[float | None]) -> Estimate:
    """Mean of crossings per length, turned back to a length."""
    densities = np.array([0.0 if value is None else 1 / value for value in values])
    return ratio_estimate(np.ones(densities.size), densities)


def test_equiaxed_mean_intercept_is_met_over_200_seeds() -> None:
    found = mean_of(fields(EQUIAXED, seeds=200))
    assert found.standard_error < 0.006 * 12
    assert found.differs_by(12) < SCATTER_ALLOWED


@pytest.mark.parametrize(
    ("size_spread", "waviness", "mean_intercept_um"),
    [(0.05, 0.05, 10), (0.5, 0.12, 10), (0.3, 0.2, 16), (0.3, 0.12, 4)],
)
def test_other_equiaxed_populations_are_met(
    size_spread: float, waviness: float, mean_intercept_um: float
) -> None:
    population = GrainPopulation(
        family="equiaxed",
        mean_intercept_um=mean_intercept_um,
        size_spread=size_spread,
        waviness=waviness,
    )
    found = mean_of(fields(population, seeds=60))
    # The tabled factor itself is known to about 0.3 percent.
    allowed = np.hypot(found.standard_error, 0.003 * mean_intercept_um)
    assert abs(found.value - mean_intercept_um) < SCATTER_ALLOWED * allowed


def test_elongation_is_met_along_and_across() -> None:
    population = replace(EQUIAXED, elongation=2.0, direction_deg=30)
    found = fields(population, seeds=80)
    along = harmonic_mean([one.along_um for one in found])
    across = harmonic_mean([one.across_um for one in found])
    assert along.value / across.value == pytest.approx(2.0, rel=0.03, abs=0.0)
    assert along.value == pytest.approx(12 * 2**0.5, rel=0.02, abs=0.0)
    assert across.value == pytest.approx(12 / 2**0.5, rel=0.02, abs=0.0)


@pytest.mark.parametrize("direction_deg", [0.0, 40.0])
def test_drawn_grains_are_met_within_three_percent(direction_deg: float) -> None:
    population = GrainPopulation(
        family="drawn", mean_intercept_um=8, elongation=9, direction_deg=direction_deg
    )
    found = fields(population, seeds=25)
    along = harmonic_mean([one.along_um for one in found])
    across = harmonic_mean([one.across_um for one in found])
    mean = (along.value * across.value) ** 0.5
    assert mean == pytest.approx(8, rel=0.03, abs=0.0)
    assert along.value / across.value == pytest.approx(9, rel=0.05, abs=0.0)


def test_bamboo_is_met_along_the_strand() -> None:
    population = GrainPopulation(family="bamboo", mean_intercept_um=20)
    found = fields(population, seeds=120, shape=(64, 800))
    along = harmonic_mean([one.along_um for one in found])
    assert along.differs_by(20) < SCATTER_ALLOWED


def test_bimodal_is_met_within_five_percent() -> None:
    population = GrainPopulation(family="bimodal", mean_intercept_um=12)
    found = mean_of(fields(population, seeds=60))
    assert found.value == pytest.approx(12, rel=0.05, abs=0.0)


def test_half_the_pixel_size_doubles_the_intercept_in_pixels() -> None:
    coarse = mean_of(fields(EQUIAXED, seeds=40, um_per_px=0.8))
    fine = mean_of(fields(EQUIAXED, seeds=40, um_per_px=0.4, shape=(512, 512)))
    ratio = (fine.value / 0.4) / (coarse.value / 0.8)
    error = np.hypot(fine.standard_error, coarse.standard_error) / 12
    assert ratio == pytest.approx(2.0, rel=0.0, abs=2 * SCATTER_ALLOWED * error)


def test_grains_in_a_round_strand_have_the_same_mean_intercept() -> None:
    layout = StrandLayout(arrangement="round", width_um=120)
    found = []
    for seed in range(60):
        strands = strand_map(
            (256, 256), layout, um_per_px=0.5, generator=stream(seed, "strands")
        ).labels
        grains = grain_labels(
            strands > 0, EQUIAXED, um_per_px=0.5, generator=stream(seed, "grains")
        )
        found.append(
            measure_intercepts(grains, strands, um_per_px=0.5, population=EQUIAXED)
        )
    assert mean_of(found).differs_by(12) < SCATTER_ALLOWED


def test_twinned_copper_has_the_grains_of_equiaxed_copper() -> None:
    twinned = replace(EQUIAXED, family="twinned", twins=TwinHabit())
    metal = np.ones((128, 128), np.bool_)
    first, second = (
        grain_labels(metal, one, um_per_px=0.5, generator=stream(3, "grains"))
        for one in (EQUIAXED, twinned)
    )
    assert np.array_equal(first, second)


def test_areas_scatter_more_with_a_larger_size_spread() -> None:
    metal = np.ones((512, 512), np.bool_)
    scatters = []
    for size_spread in (0.05, 0.5):
        population = replace(EQUIAXED, size_spread=size_spread)
        areas = []
        for seed in range(4):
            labels = grain_labels(
                metal, population, um_per_px=0.5, generator=stream(seed, "grains")
            )
            areas += np.bincount(labels.ravel())[1:].tolist()
        scatters.append(np.std(areas) / np.mean(areas))
    assert scatters[1] > 1.3 * scatters[0]


@pytest.mark.parametrize("turned", [np.rot90, np.flipud, np.fliplr, np.transpose])
def test_turning_and_mirroring_labels_keeps_their_statistics(turned: object) -> None:
    assert callable(turned)
    metal = np.ones((200, 200), np.bool_)
    labels = grain_labels(metal, EQUIAXED, um_per_px=0.5, generator=stream(1, "grains"))
    plain, other = (
        measure_intercepts(
            plane, np.ones_like(plane), um_per_px=0.5, population=EQUIAXED
        )
        for plane in (labels, turned(labels))
    )
    assert plain.mean_um == other.mean_um
    assert plain.crossings == other.crossings
    first, second = (np.sort(np.bincount(p.ravel())) for p in (labels, turned(labels)))
    assert np.array_equal(first, second)


def test_no_direction_is_preferred() -> None:
    crossings = np.zeros(4)
    lengths = np.zeros(4)
    metal = np.ones((256, 256), np.bool_)
    for seed in range(60):
        labels = grain_labels(
            metal, EQUIAXED, um_per_px=0.5, generator=stream(seed, "grains")
        )
        pairs = (
            (labels[:, 1:], labels[:, :-1], 1.0),
            (labels[1:], labels[:-1], 1.0),
            (labels[1:, 1:], labels[:-1, :-1], 2**0.5),
            (labels[1:, :-1], labels[:-1, 1:], 2**0.5),
        )
        for k, (first, second, step) in enumerate(pairs):
            crossings[k] += np.count_nonzero(first != second)
            lengths[k] += first.size * step
    intercepts = lengths / crossings
    np.testing.assert_allclose(intercepts, intercepts.mean(), rtol=0.015, atol=0.0)
