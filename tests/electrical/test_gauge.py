import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from strandproof.electrical import (
    effective_gauge,
    equivalent_diameter_mm,
    gauge_area_mm2,
    gauge_diameter_mm,
    gauge_number,
)
from strandproof.errors import ParameterError, UnitError
from strandproof.quantity import Quantity


@pytest.mark.parametrize(
    ("text", "number"),
    [
        ("26", 26),
        ("26 AWG", 26),
        ("AWG 26", 26),
        ("awg26", 26),
        ("0", 0),
        ("00", -1),
        ("0000", -3),
        ("1/0", 0),
        ("4/0", -3),
        ("6/0 AWG", -5),
        ("56", 56),
    ],
)
def test_ways_to_write_a_gauge(text: str, number: int) -> None:
    assert gauge_number(text) == number


@pytest.mark.parametrize(
    "text", ["", "AWG", "26.5", "-2", "four", "4/1", "7/0", "57", "a/0", "0/0"]
)
def test_other_words_are_refused(text: str) -> None:
    with pytest.raises(ParameterError, match="gauge was given as"):
        gauge_number(text)


@pytest.mark.parametrize("gauge", [-6, 57, float("nan"), float("inf")])
def test_gauges_out_of_range_are_refused(gauge: float) -> None:
    with pytest.raises(ParameterError, match=r"from -5 \(6/0\) to 56"):
        gauge_diameter_mm(gauge)
    with pytest.raises(ParameterError, match="gauge was given as"):
        gauge_area_mm2(gauge)


@settings(max_examples=60, deadline=None)
@given(gauge=st.floats(min_value=-5, max_value=56))
def test_number_to_area_and_back(gauge: float) -> None:
    area = Quantity(gauge_area_mm2(gauge), "mm^2")
    np.testing.assert_allclose(effective_gauge(area).value, gauge, rtol=0, atol=1e-9)
    np.testing.assert_allclose(
        equivalent_diameter_mm(area), gauge_diameter_mm(gauge), rtol=1e-12
    )


@settings(max_examples=40, deadline=None)
@given(gauge=st.floats(min_value=-5, max_value=55))
def test_a_larger_number_is_less_metal(gauge: float) -> None:
    assert gauge_area_mm2(gauge + 1) < gauge_area_mm2(gauge)


@settings(max_examples=40, deadline=None)
@given(gauge=st.integers(min_value=-5, max_value=30))
def test_rounding_moves_a_diameter_by_half_a_tenth_of_a_mil(gauge: int) -> None:
    shift = gauge_diameter_mm(gauge, rounding="tenth_mil") - gauge_diameter_mm(gauge)
    assert abs(shift) <= 0.00127 * (1 + 1e-9)


def test_area_in_square_metres() -> None:
    one, other = Quantity(0.0955, "mm^2", 0.0012), Quantity(9.55e-8, "m^2", 1.2e-9)
    np.testing.assert_allclose(
        effective_gauge(one).value, effective_gauge(other).value, rtol=1e-12
    )


def test_what_is_no_area_is_refused() -> None:
    with pytest.raises(UnitError, match=r"\(area\)"):
        effective_gauge(Quantity(0.3, "mm", 0.1))
    with pytest.raises(ParameterError, match="above zero"):
        effective_gauge(Quantity(-0.1, "mm^2", 0.1))
