import numpy as np
import pytest
from scipy import stats

from strandproof.composition import (
    OxideField,
    inclusion_oxygen,
    oxygen_of_oxide_fraction,
)
from strandproof.errors import MissingMeasurementError, ParameterError


def points(*hits: int) -> list[OxideField]:
    return [OxideField(oxide=each, whole=400) for each in hits]


def test_fraction_is_that_of_all_fields_together() -> None:
    fields = [OxideField(oxide=2, whole=400), OxideField(oxide=1, whole=200)]
    found = inclusion_oxygen(fields, counted="points")
    assert found.area_fraction == pytest.approx(3 / 600, rel=1e-12)
    assert found.oxygen_ppm == pytest.approx(oxygen_of_oxide_fraction(0.005), rel=1e-12)


def test_points_spread_as_chance_have_at_least_the_exact_poisson_interval() -> None:
    found = inclusion_oxygen(points(1, 2, 1, 2, 1, 2), counted="points")
    lower, upper = found.fraction_interval.lower, found.fraction_interval.upper
    # Garwood's interval of a count of 9, by another library.
    assert lower is not None
    assert upper is not None
    assert lower <= stats.chi2.ppf(0.025, 18) / 2 / 2400 * (1 + 1e-9)
    assert upper >= stats.chi2.ppf(0.975, 20) / 2 / 2400 * (1 - 1e-9)


def test_no_point_on_oxide_gives_the_exact_upper_end() -> None:
    found = inclusion_oxygen(points(0, 0, 0), counted="points")
    assert found.fraction_interval.lower == 0.0
    # Upper two-sided 95 % limit of a count of zero: 3.6889 (project check list).
    assert found.fraction_interval.upper == pytest.approx(3.6889 / 1200, rel=2e-5)


def test_no_area_of_oxide_has_an_upper_end_only_with_a_particle() -> None:
    fields = [OxideField(oxide=0, whole=40_000)] * 5
    assert inclusion_oxygen(fields, counted="areas").oxygen_interval.upper is None
    held = inclusion_oxygen(fields, counted="areas", largest_particle=3.0)
    upper = held.fraction_interval.upper
    assert upper == pytest.approx(3.6889 * 1.5 * 3 / 200_000, rel=2e-5)


def test_a_wider_scatter_of_fields_widens_the_interval() -> None:
    even = inclusion_oxygen(points(4, 4, 4, 4, 4), counted="points").oxygen_interval
    odd = inclusion_oxygen(points(0, 0, 20, 0, 0), counted="points").oxygen_interval
    assert (odd.lower or 0) < (even.lower or 0)
    assert (odd.upper or 0) > (even.upper or 0)


def test_equal_areas_still_have_an_interval() -> None:
    fields = [OxideField(oxide=3.0, whole=40_000)] * 4
    found = inclusion_oxygen(fields, counted="areas").fraction_interval
    assert (found.upper or 0) > 3.0 / 40_000


def test_coverage_on_random_spheres_at_small_size() -> None:
    # Regression of benchmarks/oxygen_coverage.py: spheres of one size, so that the
    # disc area is uniform up to pi r^2 (height uniform).
    chance = np.random.default_rng(8)
    truth, hits = 2e-3, 0
    mean_disc = 2 / 3 * np.pi
    for _ in range(300):
        fields = []
        for _ in range(8):
            count = chance.poisson(truth * 40_000 / mean_disc)
            area = np.pi * (1 - chance.uniform(0, 1, count) ** 2)
            fields.append(OxideField(oxide=float(area.sum()), whole=40_000))
        found = inclusion_oxygen(fields, counted="areas").fraction_interval
        hits += (found.lower or 0) <= truth <= (found.upper or 0)
    # At least 95 % asked; 276 lies 2.4 standard deviations below 285.
    assert hits >= 276


def test_what_cannot_be_judged_is_refused() -> None:
    with pytest.raises(MissingMeasurementError, match="second field"):
        inclusion_oxygen(points(3), counted="points")
    with pytest.raises(ParameterError, match="'points' or 'areas'"):
        inclusion_oxygen(points(3, 4), counted="guesses")
    halves = [OxideField(oxide=0.5, whole=400)] * 2
    with pytest.raises(ParameterError, match="whole numbers of points"):
        inclusion_oxygen(halves, counted="points")
    with pytest.raises(ParameterError, match="with areas only"):
        inclusion_oxygen(points(3, 4), counted="points", largest_particle=2.0)
    with pytest.raises(ParameterError, match="0 to 400"):
        OxideField(oxide=401, whole=400)
    with pytest.raises(ParameterError, match="above 0"):
        OxideField(oxide=0, whole=0)
    with pytest.raises(ParameterError, match="0 to 1"):
        oxygen_of_oxide_fraction(1.5)


def test_the_oxide_alone_is_all_oxide() -> None:
    # M(O) / M(Cu2O) = 15.999 / 143.091.
    assert oxygen_of_oxide_fraction(1.0) == pytest.approx(
        1e6 * 15.999 / (2 * 63.546 + 15.999), rel=1e-12
    )
