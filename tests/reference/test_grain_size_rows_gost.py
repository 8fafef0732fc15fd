"""Rows of the metric grain scale for non-ferrous metals.

Source: GOST 21073.1-75, Appendix 4, as posted in public; status: read. The table
``grain_size_rows_gost`` of the package holds the rows as printed; tolerances are
half a unit of the last printed digit. Numbers only.

Entries of the posted text that do not follow from the count, each kept in the table
with a remark: the area of no. 3 (0.0516 for 0.0156, a misprint); the diameters of
no. -2 (0.710 for 0.707) and 0 (0.353 for 0.3536); the lineal sizes of no. 8 (0.0198
for 0.0196) and 10 (0.0099 for 0.0098); the grains per mm3 of no. -2 and 12.
"""

from math import pi, sqrt

import pytest

from strandproof.grainsize import metric_index
from strandproof.tables import TableRow, package_table

NUMBERS = (-3, -2, -1, 0, 1, 2, 3, 4, 5, 6, 8, 10, 12, 14)


def _row(number: int, column: str) -> TableRow:
    name = str(number).replace("-", "minus_")
    return package_table("grain_size_rows_gost")[f"no_{name}.{column}"]


@pytest.mark.parametrize("number", NUMBERS)
def test_metric_index_of_the_printed_count(number: int) -> None:
    row = _row(number, "grains_per_mm2")
    assert row.status == "read"
    # The printed counts are whole powers of two, exactly.
    assert metric_index(row.value) == number


@pytest.mark.parametrize("number", [n for n in NUMBERS if n != 3])
def test_area_is_one_by_the_count(number: int) -> None:
    row = _row(number, "mean_area")
    count = _row(number, "grains_per_mm2").value
    assert row.value == pytest.approx(1 / count, rel=0, abs=1.001 * row.half_digit)


def test_the_printed_area_of_number_3_is_a_misprint() -> None:
    printed, right = _row(3, "mean_area"), _row(3, "mean_area.corrected")
    assert right.value == pytest.approx(1 / 64, rel=0, abs=right.half_digit)
    assert abs(printed.value - 1 / 64) > 100 * printed.half_digit
    assert "misprint" in printed.conditions


@pytest.mark.parametrize("number", [n for n in NUMBERS if n not in {-2, 0}])
def test_diameter_is_the_root_of_the_area(number: int) -> None:
    row = _row(number, "mean_diameter")
    exact = 1 / sqrt(_row(number, "grains_per_mm2").value)
    assert row.value == pytest.approx(exact, rel=0, abs=1.001 * row.half_digit)


@pytest.mark.parametrize("number", [n for n in NUMBERS if n not in {8, 10}])
def test_lineal_size_is_that_of_circles(number: int) -> None:
    row = _row(number, "mean_lineal_size")
    exact = sqrt(pi / 4) / sqrt(_row(number, "grains_per_mm2").value)
    assert row.value == pytest.approx(exact, rel=0, abs=1.001 * row.half_digit)


@pytest.mark.parametrize("number", [n for n in NUMBERS if n not in {-2, 12}])
def test_grains_per_volume_are_the_count_to_the_power_of_three_halves(
    number: int,
) -> None:
    row = _row(number, "grains_per_mm3")
    exact = _row(number, "grains_per_mm2").value ** 1.5
    assert row.value == pytest.approx(exact, rel=0, abs=1.001 * row.half_digit)


@pytest.mark.parametrize(
    ("number", "column"),
    [
        (-2, "mean_diameter"),
        (0, "mean_diameter"),
        (8, "mean_lineal_size"),
        (10, "mean_lineal_size"),
        (-2, "grains_per_mm3"),
        (12, "grains_per_mm3"),
    ],
)
def test_entries_that_do_not_follow_carry_a_remark(number: int, column: str) -> None:
    assert "by computation" in _row(number, column).conditions
