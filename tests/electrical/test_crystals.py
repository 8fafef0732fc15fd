import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from strandproof.electrical import boundary_share, what_this_can_decide
from strandproof.errors import ParameterError, UnitError
from strandproof.quantity import Quantity
from strandproof.records.electrical import BoundaryReading

SHARE = boundary_share(Quantity(8.444, "um", 0.18))


@pytest.mark.parametrize(
    ("u", "shown"),
    [
        (0.397, "0.4"),
        (0.891, "0.9"),
        (9.07, "9"),
        (14.6, "15"),
        (0.15, "0.15"),
        (2.96, "3.0"),
    ],
)
def test_uncertainties_in_the_sentence(u: float, shown: str) -> None:
    said = what_this_can_decide(SHARE, expanded_uncertainty_percent=u)
    assert said.sentence.endswith(f"expected 0.1-0.3 %, your uncertainty {shown} %")


def test_a_smaller_uncertainty_still_does_not_decide() -> None:
    said = what_this_can_decide(SHARE, expanded_uncertainty_percent=0.05)
    assert said.resolves_effect
    assert said.sentence.startswith("cannot tell crystals: expected 0.1-0.3 %, ")
    assert "cold work (1-3 %)" in said.sentence


def test_coarse_grains_are_at_most_something() -> None:
    coarse = boundary_share(Quantity(36.0, "mm"))
    said = what_this_can_decide(coarse, expanded_uncertainty_percent=0.4)
    assert "expected 0.00002-0.00006 %" in said.sentence


def test_a_range_that_would_begin_with_zero_is_an_upper_bound() -> None:
    share = boundary_share(Quantity(8.444, "um"), coefficients_ohm_m2=(1e-17, 4e-16))
    said = what_this_can_decide(share, expanded_uncertainty_percent=0.4)
    assert "expected at most 0.3 %" in said.sentence


def test_millimetres_and_micrometres_are_one() -> None:
    other = boundary_share(Quantity(0.008444, "mm"))
    np.testing.assert_allclose(other.upper_percent, SHARE.upper_percent, rtol=1e-12)
    np.testing.assert_allclose(other.mean_intercept_um, 8.444, rtol=1e-12)


@settings(max_examples=40, deadline=None)
@given(
    distance=st.floats(min_value=0.1, max_value=1e5),
    factor=st.floats(min_value=1.1, max_value=100),
    reading=st.sampled_from(["per_boundary", "per_area"]),
)
def test_the_share_goes_with_the_number_of_boundaries(
    distance: float, factor: float, reading: BoundaryReading
) -> None:
    near = boundary_share(Quantity(distance, "um"), reading=reading)
    far = boundary_share(Quantity(distance * factor, "um"), reading=reading)
    np.testing.assert_allclose(
        near.lower_percent / far.lower_percent, factor, rtol=1e-9
    )
    np.testing.assert_allclose(
        far.upper_resistance_ratio_cap / near.upper_resistance_ratio_cap,
        factor,
        rtol=1e-9,
    )


def test_the_other_reading_moves_it_by_two_to_three() -> None:
    area = boundary_share(Quantity(8.444, "um"), reading="per_area")
    np.testing.assert_allclose(area.upper_percent / SHARE.upper_percent, 2, rtol=1e-9)
    np.testing.assert_allclose(area.lower_percent / SHARE.lower_percent, 3, rtol=1e-9)


def test_impossible_inputs_are_refused() -> None:
    with pytest.raises(UnitError, match="um or mm"):
        boundary_share(Quantity(10.0, "px"))
    with pytest.raises(ParameterError, match="a length above zero"):
        boundary_share(Quantity(0.0, "um"))
    with pytest.raises(ParameterError, match="coefficients_ohm_m2"):
        boundary_share(Quantity(1.0, "um"), coefficients_ohm_m2=(4e-16, 2e-16))
    with pytest.raises(ParameterError, match="expanded_uncertainty_percent"):
        what_this_can_decide(SHARE, expanded_uncertainty_percent=0.0)
