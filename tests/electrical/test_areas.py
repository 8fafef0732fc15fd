import numpy as np
import pytest
from electrical_examples import diameter, length, mass
from hypothesis import given, settings
from hypothesis import strategies as st

from strandproof.electrical import (
    expected_core,
    metal,
    standard_density,
    strand_area,
    strand_area_by_mass,
)
from strandproof.errors import ParameterError, UnitError
from strandproof.quantity import Quantity, normal_input


@settings(max_examples=40, deadline=None)
@given(
    factor=st.floats(min_value=0.1, max_value=10),
    strands=st.integers(min_value=1, max_value=500),
)
def test_area_goes_with_the_square_and_the_count(factor: float, strands: int) -> None:
    one = strand_area(diameter()).value
    many = strand_area(diameter(0.080 * factor), strands=strands).value
    np.testing.assert_allclose(many, one * strands * factor**2, rtol=1e-12)


def test_a_common_error_does_not_average_out() -> None:
    one, many = strand_area(diameter()), strand_area(diameter(), strands=19)
    assert one.relative_uncertainty is not None
    np.testing.assert_allclose(one.relative_uncertainty, 2 * 0.5 / 80, rtol=1e-12)
    assert many.relative_uncertainty == pytest.approx(0.0125, rel=1e-12)


def test_area_by_mass_has_the_density_in_its_budget() -> None:
    area = strand_area_by_mass(mass(), length(), strands=19)
    assert area.budget[0].name == "density"
    assert area.relative_uncertainty is not None
    np.testing.assert_allclose(
        area.relative_uncertainty,
        np.sqrt(0.004**2 + 0.00128**2 + 0.0006**2),
        rtol=1e-9,
    )


def test_both_areas_agree_for_the_density_that_makes_them_agree() -> None:
    by_diameter = strand_area(diameter()).value
    density = 22.28e-3 / 500.0 / by_diameter * 1000.0  # g/cm3
    area = strand_area_by_mass(
        mass(), length(), density=normal_input("density", density, 0.01, unit="g/cm^3")
    )
    np.testing.assert_allclose(area.value, by_diameter, rtol=1e-12)


def test_standard_density_is_a_judged_input() -> None:
    density = standard_density()
    assert density.estimate == 8.89
    np.testing.assert_allclose(density.standard_uncertainty / 8.89, 0.004, rtol=1e-12)


def test_what_an_area_gives_per_metre_carries_its_uncertainty() -> None:
    core = expected_core(Quantity(0.0955, "mm^2", 0.00191, 9.0), metal("copper"))
    assert core.mass_per_metre.relative_uncertainty is not None
    np.testing.assert_allclose(
        core.mass_per_metre.relative_uncertainty, 0.02, rtol=1e-12
    )
    assert core.resistance_per_metre.unit == "mohm/m"
    assert core.resistance_per_metre.degrees_of_freedom == pytest.approx(9.0)


def test_a_light_metal_reads_high_by_mass_and_low_by_volume() -> None:
    clad = expected_core(Quantity(1.0, "mm^2"), metal("clad_aluminium_15"))
    np.testing.assert_allclose(clad.percent_iacs, 64.3, rtol=0, atol=0.05)
    np.testing.assert_allclose(clad.percent_iacs_by_mass, 157.6, rtol=0, atol=0.05)
    copper = expected_core(Quantity(1.0, "mm^2"), metal("copper"))
    np.testing.assert_allclose(copper.percent_iacs_by_mass, 100.0, rtol=3e-5)


def test_impossible_areas_are_refused() -> None:
    with pytest.raises(ParameterError, match="strands was given as 0"):
        strand_area(diameter(), strands=0)
    with pytest.raises(ParameterError, match="strands was given as -1"):
        strand_area_by_mass(mass(), length(), strands=-1)
    with pytest.raises(UnitError, match=r"\(area\)"):
        expected_core(Quantity(1.0, "mm"), metal("copper"))
