"""What boundaries and surface add: limits, order, refusals."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from strandproof.electrical.residual import (
    added_by_reflection_nohm_m,
    boundary_term,
    mayadas_shatzkes_factor,
    most_by_boundaries_nohm_m,
    surface_term,
)
from strandproof.errors import ParameterError


@given(st.floats(0.0, 1e5))
def test_factor_stays_between_none_and_all(strength: float) -> None:
    assert 0.0 < mayadas_shatzkes_factor(strength) <= 1.0


def test_closed_form_and_series_meet() -> None:
    below, above = mayadas_shatzkes_factor(100.0), mayadas_shatzkes_factor(100.0001)
    np.testing.assert_allclose(below, above, rtol=2e-6)
    np.testing.assert_allclose(1 / mayadas_shatzkes_factor(1e6) / 1e6, 4 / 3, rtol=1e-5)


@given(st.floats(0.5, 500.0), st.floats(0.01, 0.9))
def test_nearer_boundaries_add_more(micrometres: float, reflection: float) -> None:
    near, far = (
        added_by_reflection_nohm_m(one, interior_nohm_m=16.78, reflection=reflection)
        for one in (micrometres, 2 * micrometres)
    )
    assert near > far > 0


def test_no_reflection_adds_nothing() -> None:
    assert added_by_reflection_nohm_m(
        10.0, interior_nohm_m=16.78, reflection=0.0
    ) == pytest.approx(0.0, abs=1e-12)


def test_widest_model_is_widest() -> None:
    for micrometres in (1.0, 8.444, 50.0):
        widest = most_by_boundaries_nohm_m(micrometres)
        assert widest >= boundary_term(micrometres).upper
        assert widest >= boundary_term(micrometres, reading="per_area").upper
        for interior in (16.78, 0.1, 0.01):
            assert widest >= added_by_reflection_nohm_m(
                micrometres, interior_nohm_m=interior, reflection=0.5
            )


def test_terms_say_where_they_come_from() -> None:
    assert "per boundary crossed" in boundary_term(10.0).basis
    assert "per boundary area" in boundary_term(10.0, reading="per_area").basis
    assert "from memory" in surface_term(0.1).basis
    assert surface_term(0.1).lower == 0.0


def test_refusals() -> None:
    with pytest.raises(ParameterError, match="zero or above"):
        mayadas_shatzkes_factor(-0.1)
    with pytest.raises(ParameterError, match="0 to below 1"):
        added_by_reflection_nohm_m(10.0, interior_nohm_m=16.78, reflection=1.0)
    with pytest.raises(ParameterError, match="mean_intercept"):
        added_by_reflection_nohm_m(0.0, interior_nohm_m=16.78, reflection=0.3)
    with pytest.raises(ParameterError, match="interior_nohm_m"):
        added_by_reflection_nohm_m(1.0, interior_nohm_m=0.0, reflection=0.3)
    with pytest.raises(ParameterError, match="strand_mm"):
        surface_term(0.0)
    with pytest.raises(ParameterError, match="above zero"):
        boundary_term(-1.0)
