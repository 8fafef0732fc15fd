from math import inf, log2, nan

import pytest

from strandproof.errors import ParameterError, UnknownTableError
from strandproof.grainsize import (
    grains_per_mm2_of,
    intercept_g,
    mean_intercept_mm_of,
    package_relations,
    planimetric_g,
    relations_from_table,
)
from strandproof.tables import package_table

NO_SIZE = [0.0, -1.0, nan, inf]


@pytest.mark.parametrize("given", NO_SIZE)
def test_planimetric_g_refuses_what_is_no_count(given: float) -> None:
    with pytest.raises(ParameterError, match="grains_per_mm2 was given as"):
        planimetric_g(given)


@pytest.mark.parametrize("given", NO_SIZE)
def test_intercept_g_refuses_what_is_no_length(given: float) -> None:
    with pytest.raises(ParameterError, match="mean_intercept_mm was given as"):
        intercept_g(given)


@pytest.mark.parametrize("given", [nan, inf, -inf, 301.0])
def test_inverses_refuse_what_is_no_grain_size(given: float) -> None:
    with pytest.raises(ParameterError, match="between -300 and 300"):
        grains_per_mm2_of(given)
    with pytest.raises(ParameterError, match="between -300 and 300"):
        mean_intercept_mm_of(given)


@pytest.mark.parametrize("g", [-3.0, 0.0, 4.814, 10.5, 14.0])
def test_inverses_undo_the_relations(g: float) -> None:
    assert planimetric_g(grains_per_mm2_of(g)) == pytest.approx(g, rel=0, abs=1e-12)
    assert intercept_g(mean_intercept_mm_of(g)) == pytest.approx(g, rel=0, abs=1e-12)


def test_four_times_the_grains_or_half_the_length_is_two_more() -> None:
    exact = package_relations("exact")
    # The printed slopes are rounded in the seventh digit.
    assert planimetric_g(4 * 124.0) - planimetric_g(124.0) == pytest.approx(
        2.0, rel=0, abs=1e-6
    )
    assert intercept_g(0.02) - intercept_g(0.04) == pytest.approx(2.0, rel=0, abs=1e-6)
    shift = intercept_g(0.02, relations=exact) - intercept_g(0.04, relations=exact)
    assert shift == pytest.approx(2.0, rel=0, abs=1e-12)


def test_exact_form_follows_from_the_definition() -> None:
    exact = package_relations("exact")
    # One square inch at 100x is 0.064516 mm^2 of metal; G = 1 has one grain there.
    assert planimetric_g(1 / 0.064516, relations=exact) == pytest.approx(
        1.0, rel=0, abs=1e-5
    )
    assert exact.planimetric_offset == pytest.approx(-log2(7.75), rel=0, abs=1e-12)
    assert exact.intercept_offset == pytest.approx(2 * log2(0.32), rel=0, abs=1e-12)


def test_printed_and_exact_form_differ_by_the_stated_amounts() -> None:
    exact = package_relations("exact")
    planimetric = planimetric_g(1000.0) - planimetric_g(1000.0, relations=exact)
    intercept = intercept_g(0.01) - intercept_g(0.01, relations=exact)
    assert planimetric == pytest.approx(0.0002, rel=0, abs=0.00001)
    assert intercept == pytest.approx(-0.0003, rel=0, abs=0.00002)


def test_constants_can_be_passed_in() -> None:
    table = package_table("grain_size_relations")
    assert relations_from_table(table, form="exact") == package_relations("exact")
    assert package_relations().form == "e112"


def test_a_table_without_a_constant_is_refused() -> None:
    table = dict(package_table("grain_size_relations"))
    del table["intercept.e112.slope"]
    with pytest.raises(UnknownTableError, match=r"intercept\.e112\.slope"):
        relations_from_table(table)
