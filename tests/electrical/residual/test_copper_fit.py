"""Resistivity against temperature and residual ratio: identities and refusals."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from strandproof.electrical.residual import (
    bloch_gruneisen_nohm_m,
    package_copper_fit,
    phonon_resistivity_nohm_m,
    ratio_over_residual,
    residual_of_ratio_nohm_m,
    resistivity_nohm_m,
)
from strandproof.errors import ParameterError
from strandproof.quantity import normal_input, propagate
from strandproof.tables import package_table, table_value


def test_parameters_come_from_the_table() -> None:
    table = package_table("copper_resistivity")
    assert package_copper_fit().p4 == table_value(table, "nist.p4") == 1.14
    assert package_copper_fit().residual_scale_nohm_m == 15.53


@given(st.floats(2.0, 300.0), st.floats(1.01, 1.5))
def test_rises_with_temperature(kelvin: float, factor: float) -> None:
    # Below 4 K the phonon part is lost in the digits of the residual one.
    lower = float(phonon_resistivity_nohm_m(kelvin))
    assert float(phonon_resistivity_nohm_m(kelvin * factor)) > lower


@given(st.floats(4.0, 400.0), st.floats(0.0, 2.0), st.floats(1e-3, 1.0))
def test_rises_with_the_residual_by_more_than_it(
    kelvin: float, residual: float, more: float
) -> None:
    lower = float(resistivity_nohm_m(kelvin, residual))
    assert float(resistivity_nohm_m(kelvin, residual + more)) >= lower + more - 1e-9


def test_arrays_and_uncertain_numbers_run_through_the_same_formula() -> None:
    kelvin = np.array([4.2, 77.35, 293.15])
    found = resistivity_nohm_m(kelvin, 0.1)
    alone = [float(resistivity_nohm_m(float(one), 0.1)) for one in kelvin]
    np.testing.assert_allclose(found, alone, rtol=1e-14)
    result = propagate(
        lambda kelvin: resistivity_nohm_m(kelvin, 0.0),
        (normal_input("kelvin", 77.35, 0.1, unit="K"),),
        unit="nohm m",
    )
    # 3.5 % for each kelvin, as the copper facts say.
    relative = result.standard_uncertainty / result.value
    np.testing.assert_allclose(relative, 0.0035, atol=0.00005)


def test_the_name_of_a_ratio_is_not_quite_the_ratio() -> None:
    # By the printed table of the fit: 16.11/0.518, 15.59/0.1553, 15.39/0.01553.
    for ratio, true in ((30.0, 31.1), (100.0, 100.4), (1000.0, 991.0)):
        back = ratio_over_residual(residual_of_ratio_nohm_m(ratio))
        assert back is not None
        np.testing.assert_allclose(back, true, rtol=1e-3)


def test_no_residual_has_no_ratio() -> None:
    assert ratio_over_residual(0.0) is None
    assert ratio_over_residual(-0.01) is None
    assert residual_of_ratio_nohm_m(float("inf")) == 0.0


def test_bloch_gruneisen_goes_with_the_fifth_power_when_cold() -> None:
    cold, colder = bloch_gruneisen_nohm_m(8.0), bloch_gruneisen_nohm_m(4.0)
    np.testing.assert_allclose(cold / colder, 32.0, rtol=1e-3)
    hot, hotter = bloch_gruneisen_nohm_m(450.0), bloch_gruneisen_nohm_m(500.0)
    np.testing.assert_allclose(hotter / hot, 500 / 450, rtol=0.01)


def test_bloch_gruneisen_adds_the_residual() -> None:
    plain = bloch_gruneisen_nohm_m(100.0)
    np.testing.assert_allclose(
        bloch_gruneisen_nohm_m(100.0, residual_nohm_m=0.3) - plain, 0.3, rtol=1e-9
    )


@pytest.mark.parametrize("kelvin", [0.0, -4.2, 501.0, float("nan")])
def test_temperature_out_of_range_is_refused(kelvin: float) -> None:
    with pytest.raises(ParameterError, match="1 to 500 K"):
        resistivity_nohm_m(kelvin, 0.1)
    with pytest.raises(ParameterError, match="1 to 500 K"):
        bloch_gruneisen_nohm_m(kelvin)


def test_impossible_ratio_and_residual_are_refused() -> None:
    with pytest.raises(ParameterError, match="above 1"):
        residual_of_ratio_nohm_m(1.0)
    with pytest.raises(ParameterError, match="zero or above"):
        resistivity_nohm_m(77.0, -0.1)
