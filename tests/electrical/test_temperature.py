import numpy as np
import pytest
from electrical_examples import resistance, temperature

from strandproof.electrical import (
    factor_to_20c,
    fixed_coefficient,
    resistance_at_20c,
    scaled_coefficient,
    wire_temperature,
)
from strandproof.errors import MissingMeasurementError, ParameterError, UnitError
from strandproof.quantity import normal_input


def test_resistance_at_20_degrees_with_its_budget() -> None:
    found = resistance_at_20c(resistance(), temperature())
    np.testing.assert_allclose(found.value, 1.704150, rtol=0, atol=5e-7)
    assert found.unit == "ohm"
    assert [line.name for line in found.budget] == [
        "temperature of the wire",
        "resistance",
        "temperature coefficient",
    ]


def test_a_scaled_coefficient_lowers_it_for_better_copper() -> None:
    fixed = resistance_at_20c(resistance(), temperature())
    scaled = resistance_at_20c(
        resistance(), temperature(), coefficient=scaled_coefficient(100.93)
    )
    np.testing.assert_allclose(
        scaled.value / fixed.value, 1 - 1.37e-4, rtol=0, atol=1e-6
    )


def test_millohms_come_out_in_ohms() -> None:
    milli = normal_input("resistance", 1729.6, 0.9, unit="mohm")
    found = resistance_at_20c(milli, temperature())
    np.testing.assert_allclose(found.value, 1.704150, rtol=0, atol=5e-7)


def test_the_coefficient_does_nothing_at_20_degrees() -> None:
    found = resistance_at_20c(resistance(), temperature(20.0))
    lines = {line.name: line.component for line in found.budget}
    assert found.value == resistance().estimate
    assert lines["temperature coefficient"] == 0.0


def test_no_temperature_no_resistance() -> None:
    with pytest.raises(MissingMeasurementError, match="Measure the wire's temperature"):
        resistance_at_20c(resistance(), None)


def test_a_coefficient_in_other_units_is_refused() -> None:
    wrong = normal_input("coefficient", 0.393, 0.003, unit="%/K")
    with pytest.raises(UnitError, match=r"1/K \(coefficient\)"):
        resistance_at_20c(resistance(), temperature(), coefficient=wrong)


def test_scaling_keeps_the_relative_uncertainty() -> None:
    fixed, scaled = fixed_coefficient(), scaled_coefficient(97.0)
    np.testing.assert_allclose(
        scaled.standard_uncertainty / scaled.estimate,
        fixed.standard_uncertainty / fixed.estimate,
        rtol=1e-12,
    )
    with pytest.raises(ParameterError, match="above 0"):
        scaled_coefficient(0.0)


def test_the_factor_has_an_end() -> None:
    assert factor_to_20c(20.0) == 1.0
    with pytest.raises(ParameterError, match="near room temperature"):
        factor_to_20c(-240.0)


def test_sensor_gradient_and_contact_are_in_the_temperature_of_the_wire() -> None:
    read = normal_input("temperature of the wire", 23.8, 0.1, unit="degC")
    found = wire_temperature(read, gradient_k=0.3, contact_k=0.2)
    expected = (0.1**2 + 0.3**2 / 3 + 0.2**2 / 3) ** 0.5
    assert found.name == "temperature of the wire"
    np.testing.assert_allclose(found.standard_uncertainty, expected, rtol=1e-9)
    plain = wire_temperature(read)
    np.testing.assert_allclose(plain.standard_uncertainty, 0.1, rtol=1e-12)
