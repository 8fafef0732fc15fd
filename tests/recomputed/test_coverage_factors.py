"""Coverage factors of Student's t, as in GUM table G.2.

Status: computed (scipy, and by integrating the density here); they equal the
remembered table G.2, which nobody on the project has read. Tolerance: half a unit
of the last digit given.

The second part counts the product brief's running case (Appendix A, computed there).
"""

from math import inf

import numpy as np
import pytest
from scipy import integrate, special

from strandproof.quantity import (
    coverage_factor,
    mean_with_interval,
    relative_accuracy_percent,
)

TABLE: dict[float, dict[float, float]] = {
    0.95: {
        1: 12.71,
        2: 4.30,
        3: 3.18,
        4: 2.78,
        5: 2.57,
        10: 2.23,
        16: 2.12,
        20: 2.09,
        30: 2.04,
        inf: 1.960,
    },
    0.9545: {1: 13.97, 2: 4.53, 3: 3.31, 4: 2.87, 5: 2.65, 10: 2.28, 20: 2.13},
    0.99: {
        1: 63.66,
        2: 9.92,
        3: 5.84,
        4: 4.60,
        5: 4.03,
        10: 3.17,
        16: 2.92,
        inf: 2.576,
    },
}
ROWS = [
    (confidence, freedom, factor)
    for confidence, column in TABLE.items()
    for freedom, factor in column.items()
]


@pytest.mark.parametrize(("confidence", "freedom", "factor"), ROWS)
def test_factors_of_the_table(confidence: float, freedom: float, factor: float) -> None:
    digit = 0.001 if freedom == inf else 0.01
    np.testing.assert_allclose(
        coverage_factor(confidence, degrees_of_freedom=freedom),
        factor,
        rtol=0,
        atol=digit / 2,
    )


@pytest.mark.parametrize(
    ("n_values", "factor"),
    [
        (5, 2.776),
        (6, 2.571),
        (7, 2.447),
        (8, 2.365),
        (9, 2.306),
        (10, 2.262),
        (15, 2.145),
        (20, 2.093),
    ],
)
def test_factors_for_fields(n_values: int, factor: float) -> None:
    found = coverage_factor(0.95, degrees_of_freedom=n_values - 1)
    np.testing.assert_allclose(found, factor, rtol=0, atol=0.0005)


@pytest.mark.parametrize("freedom", [1, 2, 5, 16, 50])
def test_the_density_between_the_factors_holds_the_confidence(freedom: int) -> None:
    factor = coverage_factor(0.95, degrees_of_freedom=freedom)
    scale = special.gamma((freedom + 1) / 2) / special.gamma(freedom / 2)
    scale /= np.sqrt(freedom * np.pi)

    def density(t: float) -> float:
        return float(scale * (1.0 + t * t / freedom) ** (-(freedom + 1) / 2))

    covered, _ = integrate.quad(density, -factor, factor, epsabs=1e-12, limit=200)
    np.testing.assert_allclose(covered, 0.95, rtol=0, atol=1e-9)


# Product brief, Appendix A: strand means of three leads, um.
STRANDS = ((8.1, 8.6, 8.3), (8.9, 8.5, 9.0), (8.0, 8.2, 8.4))
LEADS = tuple(sum(lead) / 3 for lead in STRANDS)


def test_interval_by_lead() -> None:
    mean, interval = mean_with_interval(LEADS, unit="um", method="means of leads")
    half_width = interval.half_width
    assert half_width is not None
    np.testing.assert_allclose(mean.value, 8.444, rtol=0, atol=0.0005)
    np.testing.assert_allclose(half_width, 0.783, rtol=0, atol=0.0005)
    np.testing.assert_allclose(
        relative_accuracy_percent(mean.value, half_width), 9.27, rtol=0, atol=0.005
    )


def test_interval_by_strand() -> None:
    strands = [strand for lead in STRANDS for strand in lead]
    _, interval = mean_with_interval(strands, unit="um", method="means of strands")
    assert interval.half_width is not None
    np.testing.assert_allclose(interval.half_width, 0.264, rtol=0, atol=0.0005)


def test_interval_of_two_leads() -> None:
    mean, interval = mean_with_interval(LEADS[:2], unit="um", method="means of leads")
    assert interval.half_width is not None
    np.testing.assert_allclose(mean.value, 8.567, rtol=0, atol=0.0005)
    np.testing.assert_allclose(interval.half_width, 2.965, rtol=0, atol=0.0005)


def test_five_field_counts() -> None:
    # Check values 1.6: mean 50.8, CI 3.766, RA 7.41 % (computed).
    mean, interval = mean_with_interval(
        (52, 47, 55, 49, 51), unit="1", method="counts of fields"
    )
    assert interval.half_width is not None
    np.testing.assert_allclose(interval.half_width, 3.766, rtol=0, atol=0.0005)
    np.testing.assert_allclose(
        relative_accuracy_percent(mean.value, interval.half_width),
        7.41,
        rtol=0,
        atol=0.005,
    )
