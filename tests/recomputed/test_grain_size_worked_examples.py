"""Worked examples of grain size whose results were computed, not read.

Source: the project's list of check values, section 1.6 (and 1.1 for the shift by
magnification); counts and laws as named there. Status: computed, unless a test
says that its input counts were read. Tolerances are half a unit of the last digit
of the list.
"""

from math import sqrt

import pytest

from strandproof.grainsize import (
    g_of_grains_per_square_inch,
    intercept_g,
    magnification_shift,
    planimetric_g,
)
from strandproof.quantity import mean_with_interval, relative_accuracy_percent
from strandproof.tables import package_table, table_value


@pytest.mark.parametrize(
    ("grains", "magnification", "g"), [(20.0, 50.0, 3.32), (30.0, 250.0, 8.55)]
)
def test_grains_per_square_inch(grains: float, magnification: float, g: float) -> None:
    found = g_of_grains_per_square_inch(grains, magnification=magnification)
    assert found == pytest.approx(g, rel=0, abs=0.005)


@pytest.mark.parametrize(
    ("magnification", "shift"),
    [
        (50.0, -2.000),
        (75.0, -0.830),
        (200.0, 2.000),
        (400.0, 4.000),
        (500.0, 4.644),
        (1000.0, 6.644),
    ],
)
def test_shift_by_magnification(magnification: float, shift: float) -> None:
    assert magnification_shift(magnification) == pytest.approx(shift, rel=0, abs=0.0005)


def test_231_intercepts_in_10_mm() -> None:
    # Counts and length were read in a textbook's worked example.
    mean_mm = 10 / 231
    assert 1000 * mean_mm == pytest.approx(43.29, rel=0, abs=0.005)
    assert intercept_g(mean_mm) == pytest.approx(5.77, rel=0, abs=0.005)


@pytest.mark.parametrize(
    ("magnification", "density", "g"), [(100.0, 177.0, 4.514), (200.0, 708.0, 6.514)]
)
def test_planimetric_circle_with_68_inside_and_41_cut(
    magnification: float, density: float, g: float
) -> None:
    score = table_value(package_table("grain_size_rules"), "count.frame_grain_score")
    equivalent = 68 + score * 41
    grains_per_mm2 = equivalent * magnification**2 / 5000
    assert equivalent == 88.5
    assert grains_per_mm2 == pytest.approx(density, rel=0, abs=0.5)
    assert planimetric_g(grains_per_mm2) == pytest.approx(g, rel=0, abs=0.0005)


@pytest.mark.parametrize(
    ("count", "mean_um", "g"), [(75, 66.67, 4.526), (100, 50.00, 5.356)]
)
def test_500_mm_of_circles_at_100x(count: int, mean_um: float, g: float) -> None:
    mean_mm = 500 / 100 / count
    assert 1000 * mean_mm == pytest.approx(mean_um, rel=0, abs=0.005)
    assert intercept_g(mean_mm) == pytest.approx(g, rel=0, abs=0.0005)


def test_rectangle_with_45_inside_and_28_at_the_edge() -> None:
    # Four corner grains at a quarter each are the one grain added.
    equivalent = 45 + 28 / 2 + 1
    grains_per_mm2 = equivalent * 200**2 / (80 * 60)
    assert (equivalent, grains_per_mm2) == (60, 500)
    assert planimetric_g(grains_per_mm2) == pytest.approx(6.012, rel=0, abs=0.0005)


def test_five_fields_and_two_ways_to_average() -> None:
    counts = (52.0, 47.0, 55.0, 49.0, 51.0)
    mean, interval = mean_with_interval(counts, unit="1", method="counts of fields")
    assert interval.upper is not None
    half_width = interval.upper - mean.value
    assert mean.value == pytest.approx(50.8, rel=0, abs=0.05)
    assert sqrt(5) * mean.standard_uncertainty == pytest.approx(
        3.033, rel=0, abs=0.0005
    )
    assert half_width == pytest.approx(3.766, rel=0, abs=0.0005)
    assert relative_accuracy_percent(mean.value, half_width) == pytest.approx(
        7.41, rel=0, abs=0.005
    )
    line_mm = 500 / 200
    of_mean_count = intercept_g(line_mm / mean.value)
    of_mean_length = intercept_g(sum(line_mm / count for count in counts) / 5)
    # The mean of quotients is not the quotient of means: sum counts, not lengths.
    assert of_mean_count == pytest.approx(5.402, rel=0, abs=0.0005)
    assert of_mean_length == pytest.approx(5.393, rel=0, abs=0.0005)


def test_three_directions_of_an_elongated_structure() -> None:
    crossings_per_mm = (12 * 30 * 20) ** (1 / 3)
    assert crossings_per_mm == pytest.approx(19.31, rel=0, abs=0.005)
    assert 1000 / crossings_per_mm == pytest.approx(51.79, rel=0, abs=0.005)
    assert intercept_g(1 / crossings_per_mm) == pytest.approx(
        5.2545, rel=0, abs=0.00005
    )


def test_elliptic_grains_larger_than_the_rest() -> None:
    # Areas of ellipses of 2.0 x 1.0 mm and 0.5 x 0.4 mm.
    assert planimetric_g(1 / 1.571) == pytest.approx(-3.61, rel=0, abs=0.005)
    assert planimetric_g(1 / 0.157) == pytest.approx(-0.28, rel=0, abs=0.005)
