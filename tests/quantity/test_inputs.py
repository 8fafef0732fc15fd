"""Inputs and their Type B constructors."""

from collections.abc import Callable
from math import inf, nan, sqrt

import numpy as np
import pytest

from strandproof.errors import ParameterError
from strandproof.quantity import (
    Distribution,
    Input,
    arcsine_input,
    normal_input,
    rectangular_input,
    triangular_input,
)


@pytest.mark.parametrize(
    ("constructor", "divisor"),
    [(rectangular_input, 3.0), (triangular_input, 6.0), (arcsine_input, 2.0)],
)
def test_half_width_becomes_the_standard_deviation_of_the_shape(
    constructor: Callable[..., Input], divisor: float
) -> None:
    entry = constructor("limit", 1.0, 0.6, unit="mm")
    np.testing.assert_allclose(
        entry.standard_uncertainty, 0.6 / sqrt(divisor), rtol=1e-15, atol=0
    )


@pytest.mark.parametrize(
    "constructor", [rectangular_input, triangular_input, arcsine_input]
)
@pytest.mark.parametrize("half_width", [-0.1, nan, inf])
def test_half_width_out_of_range_is_refused(
    constructor: Callable[..., Input], half_width: float
) -> None:
    with pytest.raises(ParameterError, match="half_width was given as"):
        constructor("limit", 1.0, half_width, unit="mm")


def test_keyword_comes_from_the_name() -> None:
    entry = normal_input("Mass of the strand, dry", 1.0, 0.1, unit="mg")
    assert entry.keyword == "mass_of_the_strand_dry"


def test_symbol_goes_before_the_name() -> None:
    assert normal_input("mass", 1.0, 0.1, unit="mg", symbol="m").keyword == "m"


@pytest.mark.parametrize("symbol", ["lambda", "2d", "a b", "x-y"])
def test_symbols_that_python_refuses_are_refused(symbol: str) -> None:
    with pytest.raises(ParameterError, match="symbol was given as"):
        normal_input("mass", 1.0, 0.1, unit="mg", symbol=symbol)


def test_a_name_without_letters_needs_a_symbol() -> None:
    with pytest.raises(ParameterError, match="Give a symbol"):
        normal_input("%", 1.0, 0.1, unit="mg")


@pytest.mark.parametrize(
    ("estimate", "u", "freedom", "fault"),
    [
        (nan, 0.1, inf, "estimate was given as nan"),
        (1.0, -0.1, inf, "standard_uncertainty was given as -0.1"),
        (1.0, nan, inf, "standard_uncertainty was given as nan"),
        (1.0, 0.1, 0.9, "degrees_of_freedom was given as 0.9"),
        (1.0, 0.1, nan, "degrees_of_freedom was given as nan"),
    ],
)
def test_numbers_out_of_range_are_refused(
    estimate: float, u: float, freedom: float, fault: str
) -> None:
    with pytest.raises(ParameterError, match=fault):
        Input(
            name="x",
            estimate=estimate,
            unit="1",
            standard_uncertainty=u,
            degrees_of_freedom=freedom,
        )


def test_a_student_input_needs_finite_degrees_of_freedom() -> None:
    with pytest.raises(ParameterError, match="finite number for a student input"):
        Input(
            name="x",
            estimate=0.0,
            unit="1",
            standard_uncertainty=1.0,
            distribution="student",
        )


def test_an_unknown_distribution_is_refused() -> None:
    unknown: Distribution = "gauss"  # type: ignore[assignment]  # a user's slip
    with pytest.raises(ParameterError, match="distribution was given as 'gauss'"):
        Input(
            name="x",
            estimate=0.0,
            unit="1",
            standard_uncertainty=1.0,
            distribution=unknown,
        )
