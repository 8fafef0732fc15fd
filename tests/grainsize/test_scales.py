from math import inf, nan

import pytest

from strandproof.errors import ParameterError
from strandproof.grainsize import (
    g_of_grains_per_square_inch,
    grains_per_square_inch_of,
    intercept_g,
    macro_g,
    magnification_shift,
    metric_index,
    planimetric_g,
)

NO_NUMBER = [0.0, -2.0, nan, inf]


@pytest.mark.parametrize("g", [-1.0, 0.0, 4.5, 9.0])
def test_square_inch_forms_undo_each_other(g: float) -> None:
    count = grains_per_square_inch_of(g, magnification=75.0)
    again = g_of_grains_per_square_inch(count, magnification=75.0)
    assert again == pytest.approx(g, rel=0, abs=1e-12)


def test_square_inch_form_agrees_with_grains_per_mm2() -> None:
    per_square_inch = grains_per_square_inch_of(7.0)
    per_mm2 = per_square_inch * 100.0**2 / 645.16
    assert planimetric_g(per_mm2) == pytest.approx(7.0, rel=0, abs=0.0003)


@pytest.mark.parametrize(
    ("magnification", "basis", "shift"),
    [(100.0, None, 0.0), (200.0, None, 2.0), (400.0, 200.0, 2.0), (25.0, None, -4.0)],
)
def test_magnification_shift_is_two_for_each_doubling(
    magnification: float, basis: float | None, shift: float
) -> None:
    assert magnification_shift(magnification, basis=basis) == pytest.approx(
        shift, rel=0, abs=1e-12
    )


@pytest.mark.parametrize("given", NO_NUMBER)
def test_no_scale_takes_what_is_no_magnification(given: float) -> None:
    with pytest.raises(ParameterError, match="magnification was given as"):
        magnification_shift(given)
    with pytest.raises(ParameterError, match="basis was given as"):
        magnification_shift(100.0, basis=given)
    with pytest.raises(ParameterError, match="magnification was given as"):
        grains_per_square_inch_of(5.0, magnification=given)


@pytest.mark.parametrize("given", NO_NUMBER)
def test_no_scale_takes_what_is_no_count(given: float) -> None:
    with pytest.raises(ParameterError, match="grains_per_mm2 was given as"):
        metric_index(given)
    with pytest.raises(ParameterError, match="grains_per_square_inch was given as"):
        g_of_grains_per_square_inch(given)


def test_macro_number_is_the_same_law_at_1x() -> None:
    # 645.16 mm^2 at 1x with one grain is G_M = 1.
    assert macro_g(planimetric_g(1 / 645.16)) == pytest.approx(1.0, rel=0, abs=0.0003)
    assert macro_g(intercept_g(32.0)) == pytest.approx(0.0, rel=0, abs=0.0004)


@pytest.mark.parametrize("given", [nan, inf, 1e9])
def test_macro_number_needs_a_grain_size(given: float) -> None:
    with pytest.raises(ParameterError, match="g was given as"):
        macro_g(given)
