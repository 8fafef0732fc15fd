"""Coverage factors and expanded uncertainty."""

from math import inf, nan

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from strandproof.errors import ParameterError
from strandproof.quantity import (
    Quantity,
    confidence_for_factor,
    coverage_factor,
    degrees_of_freedom_from_doubt,
    expanded_interval,
    expanded_uncertainty,
)
from strandproof.quantity.coverage import whole_degrees_of_freedom


@given(st.floats(0.01, 0.999), st.one_of(st.integers(1, 200).map(float), st.just(inf)))
def test_factor_and_confidence_are_inverse(confidence: float, freedom: float) -> None:
    factor = coverage_factor(confidence, degrees_of_freedom=freedom)
    np.testing.assert_allclose(
        confidence_for_factor(factor, degrees_of_freedom=freedom),
        confidence,
        rtol=1e-9,
        atol=1e-12,
    )


def test_degrees_of_freedom_are_cut_and_never_raised() -> None:
    cut = coverage_factor(0.95, degrees_of_freedom=16.999)
    assert cut == coverage_factor(0.95, degrees_of_freedom=16.0)
    assert cut > coverage_factor(0.95, degrees_of_freedom=17.0)


def test_rounding_does_not_cost_a_degree_of_freedom() -> None:
    assert whole_degrees_of_freedom(3.9999999999999996) == 4.0
    assert whole_degrees_of_freedom(3.9999) == 3.0


def test_two_degrees_of_freedom_have_a_closed_form() -> None:
    # t_p(2) = (2p - 1) sqrt(2 / (1 - (2p - 1)^2)), with 2p - 1 = confidence
    for confidence in (0.5, 0.9, 0.95, 0.99):
        exact = confidence * np.sqrt(2.0 / (1.0 - confidence**2))
        np.testing.assert_allclose(
            coverage_factor(confidence, degrees_of_freedom=2), exact, rtol=1e-9, atol=0
        )


def test_expanded_interval_is_symmetric_and_names_its_method() -> None:
    quantity = Quantity(10.0, "um", 0.5, degrees_of_freedom=7.9)
    interval = expanded_interval(quantity, 0.99)
    half_width = expanded_uncertainty(quantity, confidence=0.99)
    assert interval.lower == 10.0 - half_width
    assert interval.upper == 10.0 + half_width
    assert interval.confidence == 0.99
    assert interval.unit == "um"
    assert "factor 3.499 (Student t, 7 degrees of freedom)" in interval.method


def test_infinite_degrees_of_freedom_are_normal() -> None:
    interval = expanded_interval(Quantity(0.0, "um", 1.0))
    assert interval.upper is not None
    np.testing.assert_allclose(interval.upper, 1.959964, rtol=0, atol=5e-7)
    assert "normal" in interval.method


@pytest.mark.parametrize("confidence", [0.0, 1.0, -0.5, 95.0, nan])
def test_confidence_lies_between_zero_and_one(confidence: float) -> None:
    with pytest.raises(ParameterError, match="confidence was given as"):
        coverage_factor(confidence)
    with pytest.raises(ParameterError, match="confidence was given as"):
        expanded_interval(Quantity(0.0, "um", 1.0), confidence)


@pytest.mark.parametrize("freedom", [0.0, 0.99, nan])
def test_degrees_of_freedom_start_at_one(freedom: float) -> None:
    with pytest.raises(ParameterError, match="degrees_of_freedom was given as"):
        coverage_factor(0.95, degrees_of_freedom=freedom)


@pytest.mark.parametrize("factor", [0.0, -2.0, inf, nan])
def test_a_factor_is_above_zero(factor: float) -> None:
    with pytest.raises(ParameterError, match="factor was given as"):
        confidence_for_factor(factor)


def test_doubt_becomes_degrees_of_freedom() -> None:
    # GUM G.4.2: a tenth of doubt is 50, a half is 2 degrees of freedom.
    np.testing.assert_allclose(
        [degrees_of_freedom_from_doubt(doubt) for doubt in (0.1, 0.5)],
        [50.0, 2.0],
        rtol=1e-12,
        atol=0,
    )


@pytest.mark.parametrize("doubt", [0.0, -0.1, 0.71, nan])
def test_doubt_out_of_range_is_refused(doubt: float) -> None:
    with pytest.raises(ParameterError, match="relative_doubt was given as"):
        degrees_of_freedom_from_doubt(doubt)
