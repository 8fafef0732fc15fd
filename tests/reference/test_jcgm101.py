"""Worked example 9.5 of JCGM 101:2008, the end gauge by Monte Carlo.

Source: the manual of the R package propagate, which prints the two standard
uncertainties of the example, 32 nm by the first order and 36 nm by Monte Carlo
(status: read (secondary); the supplement itself was not read). Inputs as read
there and in the documentation of GTC 1.5.1 for GUM H.1. Tolerance: half a unit
of the last printed digit.

All other figures of the supplement are from memory and stand in
tests/recomputed/test_jcgm101.py.
"""

import numpy as np

from strandproof.quantity import (
    Input,
    ModelNumber,
    arcsine_input,
    monte_carlo,
    normal_input,
    propagate,
    rectangular_input,
)


def type_a(symbol: str, estimate: float, u: float, freedom: float) -> Input:
    return Input(
        name=symbol,
        estimate=estimate,
        unit="nm",
        standard_uncertainty=u,
        degrees_of_freedom=freedom,
        distribution="student",
    )


INPUTS = (
    type_a("standard", 50_000_623.0, 25.0, 18.0),
    type_a("repeated", 215.0, 5.8, 24.0),
    type_a("random", 0.0, 3.9, 5.0),
    type_a("systematic", 0.0, 6.7, 8.0),
    rectangular_input("expansion", 11.5e-6, 2e-6, unit="1/K"),
    rectangular_input("d_expansion", 0.0, 1e-6, unit="1/K", degrees_of_freedom=50),
    rectangular_input("d_temperature", 0.0, 0.05, unit="K", degrees_of_freedom=2),
    normal_input("mean_temperature", -0.1, 0.2, unit="K"),
    arcsine_input("swing", 0.0, 0.5, unit="K"),
)


def gauge_length(**values: ModelNumber) -> ModelNumber:
    """Equation H.3 of the GUM, used again in JCGM 101 9.5."""
    temperature = values["mean_temperature"] + values["swing"]
    difference = values["repeated"] + values["random"] + values["systematic"]
    thermal = (
        values["d_expansion"] * temperature
        + values["expansion"] * values["d_temperature"]
    )
    return values["standard"] * (1.0 - thermal) + difference


def test_first_order_uncertainty() -> None:
    result = propagate(gauge_length, INPUTS, unit="nm")
    np.testing.assert_allclose(result.standard_uncertainty, 32.0, rtol=0, atol=0.5)


def test_monte_carlo_uncertainty() -> None:
    result = monte_carlo(
        gauge_length,
        INPUTS,
        unit="nm",
        draws=500_000,
        generator=np.random.default_rng(950),
    )
    np.testing.assert_allclose(result.standard_deviation, 36.0, rtol=0, atol=0.5)
