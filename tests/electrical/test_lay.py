import numpy as np
import pytest
from electrical_examples import length
from hypothesis import given, settings
from hypothesis import strategies as st

from strandproof.electrical import conductor_length, lay_error_percent, lay_factor
from strandproof.errors import ParameterError, UnitError
from strandproof.quantity import Quantity, normal_input


@settings(max_examples=40, deadline=None)
@given(
    pitch=st.floats(min_value=1, max_value=100),
    ratio=st.floats(min_value=0.001, max_value=0.5),
)
def test_length_of_a_helix(pitch: float, ratio: float) -> None:
    found = lay_factor(
        normal_input("lay length", pitch, 0.01, unit="mm"),
        normal_input("helix diameter", ratio * pitch, 0.01, unit="mm"),
    )
    # Arc length of (r cos t, r sin t, p t/2 pi) over one turn, counted in steps.
    t = np.linspace(0, 2 * np.pi, 20_001)
    points = np.array(
        [
            ratio * pitch / 2 * np.cos(t),
            ratio * pitch / 2 * np.sin(t),
            pitch * t / (2 * np.pi),
        ]
    )
    arc = np.linalg.norm(np.diff(points, axis=1), axis=0).sum()
    np.testing.assert_allclose(found.value, arc / pitch, rtol=1e-7)


def test_length_along_the_strand_carries_both_uncertainties() -> None:
    cable = normal_input("cable length", 490.0, 0.3, unit="mm")
    along = conductor_length(cable, Quantity(1.02, "1", 0.002))
    assert along.unit == "mm"
    np.testing.assert_allclose(along.estimate, 499.8, rtol=1e-12)
    np.testing.assert_allclose(
        along.standard_uncertainty,
        np.hypot(1.02 * 0.3, 490.0 * 0.002),
        rtol=1e-9,
    )


def test_errors_by_route() -> None:
    by_mass = lay_error_percent(1.05)
    by_density = lay_error_percent(1.05, route="density")
    np.testing.assert_allclose([by_mass, by_density], 10.25, rtol=1e-9)
    np.testing.assert_allclose(
        lay_error_percent(1.05, route="diameter"), 5.0, rtol=1e-9
    )
    assert lay_error_percent(1.0) == 0.0


def test_factors_below_one_are_refused() -> None:
    with pytest.raises(ParameterError, match="a lay factor of 1 or more"):
        lay_error_percent(0.99)
    with pytest.raises(ParameterError, match="a lay factor of 1 or more"):
        conductor_length(length(), Quantity(0.98, "1", 0.01))
    with pytest.raises(UnitError, match="1 for a lay factor"):
        conductor_length(length(), Quantity(1.02, "mm", 0.01))
