"""Rows laid out like Table 4 of ASTM E112, computed again from the definition.

Source: the definition, 2^(G-1) grains per 645.16 mm2 at 100x (read), with 7.75
grains per mm2 and a mean intercept of 0.32 mm at G = 0 (the latter from memory).
Status of the rows: computed; the standard's own table was not read. This test
regenerates every row of the package's table ``grain_size_rows_e112`` and compares
to half a unit of the last printed digit.
"""

from collections.abc import Callable
from math import sqrt

import pytest

from strandproof.grainsize import (
    grains_per_mm2_of,
    grains_per_square_inch_of,
    mean_intercept_mm_of,
    package_relations,
)
from strandproof.tables import package_table

EXACT = package_relations("exact")
TABLE = package_table("grain_size_rows_e112")


def _grains_per_mm2(g: float) -> float:
    return grains_per_mm2_of(g, relations=EXACT)


def _mean_intercept_mm(g: float) -> float:
    return mean_intercept_mm_of(g, relations=EXACT)


COLUMNS: dict[str, Callable[[float], float]] = {
    "grains_per_square_inch": grains_per_square_inch_of,
    "grains_per_mm2": _grains_per_mm2,
    # One square inch at 100x is 64 516 um2 of metal.
    "grain_area": lambda g: 64_516 / grains_per_square_inch_of(g),
    "nominal_diameter": lambda g: 1e3 / sqrt(_grains_per_mm2(g)),
    "mean_lineal_intercept": lambda g: 1e3 * _mean_intercept_mm(g),
    "intercepts_per_mm": lambda g: 1 / _mean_intercept_mm(g),
}


def _g(key: str) -> float:
    name = key.partition(".")[0].removeprefix("g_")
    return -1.0 if name == "00" else float(name.replace("_", "."))


@pytest.mark.parametrize("key", TABLE)
def test_every_row_follows_from_the_definition(key: str) -> None:
    row = TABLE[key]
    assert row.status == "computed"
    value = COLUMNS[key.partition(".")[2]](_g(key))
    # 3.125 is printed as 3.12: an exact half may go either way.
    assert value == pytest.approx(row.value, rel=0, abs=1.001 * row.half_digit)


def test_the_table_has_every_column_of_every_row() -> None:
    numbers = {key.partition(".")[0] for key in TABLE}
    assert len(numbers) == 15
    assert set(TABLE) == {f"{number}.{name}" for number in numbers for name in COLUMNS}
