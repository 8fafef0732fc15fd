import numpy as np
import pytest
from electrical_examples import resistance, temperature
from hypothesis import given, settings
from hypothesis import strategies as st

from strandproof.electrical import (
    heating_power,
    resistance_by_reversal,
    self_heating,
)
from strandproof.errors import ParameterError, UnitError
from strandproof.quantity import Correlation, Input, normal_input


def current(name: str, amperes: float) -> Input:
    return normal_input(name, amperes, 0.001 * amperes, unit="A")


def voltage(name: str, microvolts: float) -> Input:
    return normal_input(f"voltage {name}", microvolts, 0.05, unit="uV")


def wire(name: str, ohms: float, percent: float = 0.001) -> Input:
    return normal_input(name, ohms, ohms * percent / 100, unit="ohm")


@settings(max_examples=40, deadline=None)
@given(thermal=st.floats(min_value=-500, max_value=500))
def test_a_constant_thermal_voltage_cancels(thermal: float) -> None:
    reading = resistance_by_reversal(
        voltage("forward", 1000 + thermal),
        voltage("reversed", -1000 + thermal),
        current("current", 1.0),
    )
    np.testing.assert_allclose(reading.resistance.value, 1e-3, rtol=1e-9)
    np.testing.assert_allclose(
        reading.thermal_voltage.value, 1e-6 * thermal, rtol=0, atol=1e-15
    )


def test_a_reversed_voltage_without_its_sign_is_refused() -> None:
    with pytest.raises(ParameterError, match="Give the reversed voltage with its sign"):
        resistance_by_reversal(
            voltage("forward", 999.0), voltage("reversed", 1001.0), current("I", 1.0)
        )


def test_power_of_milliamperes() -> None:
    milli = normal_input("current", 100.0, 0.1, unit="mA")
    found = heating_power(milli, resistance())
    np.testing.assert_allclose(found.value, 0.017296, rtol=1e-12)
    assert found.unit == "W"
    with pytest.raises(UnitError, match=r"A, mA \(current\)"):
        heating_power(resistance(), resistance())


def test_two_currents_give_the_rise_that_made_them() -> None:
    # 0.5 K at 0.1 A, hence 2 K at 0.2 A; 20 degC without current.
    cold = 1.7
    found = self_heating(
        (current("current 1", 0.1), wire("R 1", cold * (1 + 0.00393 * 0.5))),
        (current("current 2", 0.2), wire("R 2", cold * (1 + 0.00393 * 2.0))),
        temperature=temperature(20.0, 0.2),
    )
    np.testing.assert_allclose(found.resistance_at_zero_current.value, cold, rtol=1e-9)
    np.testing.assert_allclose(found.rise_at_lower_current.value, 0.5, rtol=1e-6)
    np.testing.assert_allclose(found.power_at_lower_current.value, 0.017, rtol=2e-3)
    assert [flag.name for flag in found.flags] == ["self_heating"]
    assert found.flags[0].detail == "0.5 K at the lower current"


def test_the_coefficient_is_referred_to_the_temperature_of_the_wire() -> None:
    # 1.7 ohm at 60 degC without current; 0.3 K and 1.2 K of rise.
    slope = 0.00393 / (1 + 0.00393 * 40.0)
    found = self_heating(
        (current("current 1", 0.1), wire("R 1", 1.7 * (1 + slope * 0.3))),
        (current("current 2", 0.2), wire("R 2", 1.7 * (1 + slope * 1.2))),
        temperature=temperature(60.0, 0.2),
    )
    np.testing.assert_allclose(found.rise_at_lower_current.value, 0.3, rtol=1e-6)
    assert [flag.name for flag in found.flags] == ["self_heating"]


def test_a_small_rise_raises_no_flag() -> None:
    found = self_heating(
        (current("current 1", 0.01), wire("R 1", 1.7)),
        (current("current 2", 0.02), wire("R 2", 1.70001)),
        temperature=temperature(20.0, 0.2),
    )
    assert found.flags == ()
    assert 0 < found.rise_at_lower_current.value < 0.01


def test_what_two_readings_share_can_be_stated() -> None:
    lower = (current("current 1", 0.1), wire("R 1", 1.7030, 0.05))
    higher = (current("current 2", 0.2), wire("R 2", 1.7120, 0.05))
    apart = self_heating(lower, higher, temperature=temperature(20.0))
    shared = self_heating(
        lower,
        higher,
        temperature=temperature(20.0),
        correlations=(Correlation("lower_resistance", "higher_resistance", 1.0),),
    )
    assert (
        shared.rise_at_lower_current.standard_uncertainty
        < 0.2 * apart.rise_at_lower_current.standard_uncertainty
    )


def test_the_second_current_has_to_be_the_higher_one() -> None:
    lower = (current("current 1", 0.2), wire("R 1", 1.7))
    higher = (current("current 2", 0.2), wire("R 2", 1.7))
    with pytest.raises(ParameterError, match="a second current above the first"):
        self_heating(lower, higher, temperature=temperature(20.0))
