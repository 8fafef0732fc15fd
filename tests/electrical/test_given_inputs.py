import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from strandproof.electrical import converted_input, input_of_quantity
from strandproof.electrical.given_inputs import given_inputs
from strandproof.errors import ParameterError, UnitError
from strandproof.quantity import Quantity, normal_input


@pytest.mark.parametrize(
    ("value", "unit", "other", "expected"),
    [
        (1729.6, "mohm", "ohm", 1.7296),
        (1.7296, "ohm", "mohm", 1729.6),
        (22.28, "mg", "g", 0.02228),
        (500.0, "mm", "m", 0.5),
        (80.0, "um", "mm", 0.08),
        (8890.0, "kg/m^3", "g/cm^3", 8.89),
        (250.0, "mA", "A", 0.25),
    ],
)
def test_explicit_conversions(
    value: float, unit: str, other: str, expected: float
) -> None:
    one = converted_input(normal_input("x", value, 0.01 * value, unit=unit), unit=other)
    assert one.unit == other
    np.testing.assert_allclose(one.estimate, expected, rtol=1e-12)
    np.testing.assert_allclose(one.standard_uncertainty, 0.01 * expected, rtol=1e-12)


def test_conversions_across_kinds_are_refused() -> None:
    with pytest.raises(UnitError, match="'m' does not fit here"):
        converted_input(normal_input("x", 1.0, 0.1, unit="ohm"), unit="m")
    with pytest.raises(UnitError, match="'furlong' does not fit here"):
        converted_input(normal_input("x", 1.0, 0.1, unit="furlong"), unit="m")


@settings(max_examples=40, deadline=None)
@given(value=st.floats(min_value=1e-6, max_value=1e6))
def test_there_and_back(value: float) -> None:
    one = normal_input("x", value, 0.1 * value, unit="mm")
    back = converted_input(converted_input(one, unit="m"), unit="mm")
    np.testing.assert_allclose(back.estimate, value, rtol=1e-12)


def test_symbols_are_given_and_names_kept() -> None:
    found = given_inputs(length=("length", normal_input("L of rod", 5, 0, unit="mm")))
    assert found.inputs[0].symbol == "length"
    assert found.inputs[0].name == "L of rod"
    assert found.estimates() == {"length": 0.005}


def test_only_voltages_and_temperatures_may_be_negative() -> None:
    given_inputs(
        voltage=("voltage", normal_input("v", -1.0, 0.1, unit="mV")),
        temperature=("temperature", normal_input("t", -5.0, 0.1, unit="degC")),
    )
    with pytest.raises(ParameterError, match="a number of A above zero"):
        given_inputs(current=("current", normal_input("i", -1.0, 0.1, unit="A")))


def test_a_result_becomes_an_input() -> None:
    one = input_of_quantity(Quantity(0.0955, "mm^2", 0.0012, 7.0), name="copper area")
    assert (one.estimate, one.standard_uncertainty) == (0.0955, 0.0012)
    assert one.degrees_of_freedom == 7.0
    assert one.keyword == "copper_area"
