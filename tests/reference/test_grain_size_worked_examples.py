"""Worked examples of grain size whose results were read.

Sources and status, by test:

- Callister, Materials Science and Engineering, solutions of problems on grain
  size (4.46 to 4.48 in the copies read): read.
- Textbook solution, 33 grains per square inch at 270x; magnifications at which
  G 7 shows 500 and 20 grains per square inch: read (secondary).
- Public pages with single rows of ASTM E112: 992 grains per mm2 is G 7, G 12 has
  a diameter of 0.0056 mm: read; "00" is 0.25 grains per square inch: read
  (secondary).
- GB 6394-86 (modified from ASTM E112-81), equations (2) and (8): read.

Numbers only; no text is copied. Tolerances are half a unit of the last printed
digit.
"""

from math import log2, sqrt

import pytest

from strandproof.grainsize import (
    g_of_grains_per_square_inch,
    grains_per_mm2_of,
    grains_per_square_inch_of,
    package_relations,
    planimetric_g,
)
from strandproof.tables import package_table


def test_25_grains_at_75x() -> None:
    g = g_of_grains_per_square_inch(25.0, magnification=75.0)
    assert g == pytest.approx(4.81, rel=0, abs=0.005)


def test_33_grains_at_270x() -> None:
    g = g_of_grains_per_square_inch(33.0, magnification=270.0)
    assert g == pytest.approx(8.91, rel=0, abs=0.005)


def test_g_6_without_magnification() -> None:
    count = grains_per_square_inch_of(6.0, magnification=1.0)
    assert count == pytest.approx(320_000, rel=0, abs=0.5)


@pytest.mark.parametrize(
    ("grains", "printed", "half_digit"), [(500.0, 36.0, 0.5), (20.0, 178.9, 0.05)]
)
def test_magnification_at_which_g_7_shows_so_many_grains(
    grains: float, printed: float, half_digit: float
) -> None:
    # More magnification shows fewer grains: the printed one must straddle the count.
    most = grains_per_square_inch_of(7.0, magnification=printed - half_digit)
    fewest = grains_per_square_inch_of(7.0, magnification=printed + half_digit)
    assert fewest <= grains <= most


def test_992_grains_per_mm2_is_g_7() -> None:
    assert planimetric_g(992.0) == pytest.approx(7.0, rel=0, abs=0.05)
    assert grains_per_mm2_of(7.0) == pytest.approx(992, rel=0, abs=0.5)


def test_diameter_of_g_12() -> None:
    diameter_mm = 1 / sqrt(grains_per_mm2_of(12.0))
    assert diameter_mm == pytest.approx(0.0056, rel=0, abs=0.00005)


def test_00_is_a_quarter_grain_per_square_inch() -> None:
    assert grains_per_square_inch_of(-1.0) == 0.25


def test_constants_of_gb_6394_are_those_of_the_definition() -> None:
    table = package_table("grain_size_relations")
    exact = package_relations("exact")
    for key, value in (
        ("planimetric.gb.slope", exact.planimetric_slope),
        ("planimetric.gb.offset", exact.planimetric_offset),
        ("magnification.slope", -exact.intercept_slope),
    ):
        row = table[key]
        assert row.status == "read"
        assert value == pytest.approx(row.value, rel=0, abs=row.half_digit)


def test_constants_of_e112_are_those_of_the_definition() -> None:
    table = package_table("grain_size_relations")
    for key in ("planimetric.{}.slope", "planimetric.{}.offset"):
        row = table[key.format("e112")]
        assert row.status == "read (secondary)"
        assert table[key.format("exact")].value == pytest.approx(
            row.value, rel=0, abs=row.half_digit
        )
    # The intercept offset is printed as -3.288, 2 log2(0.32) is -3.2877.
    row = table["intercept.e112.offset"]
    assert 2 * log2(0.32) == pytest.approx(row.value, rel=0, abs=row.half_digit)
