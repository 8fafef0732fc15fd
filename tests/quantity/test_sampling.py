"""Draws of single inputs against the moments and limits of their shapes."""

from math import inf, sqrt

import numpy as np
import numpy.typing as npt
import pytest
from scipy import stats

from strandproof.quantity import (
    Distribution,
    Input,
    arcsine_input,
    rectangular_input,
    triangular_input,
)
from strandproof.quantity.sampling import input_draws, square_root_of_matrix

SIZE = 100_000


def draws_of(entry: Input) -> npt.NDArray[np.float64]:
    generator = np.random.default_rng(11)
    return input_draws((entry,), np.eye(1), SIZE, generator)[entry.keyword]


@pytest.mark.parametrize(
    ("distribution", "reference"),
    [
        ("normal", stats.norm(5.0, 0.5)),
        ("student", stats.t(4.0, loc=5.0, scale=0.5)),
        ("rectangular", stats.uniform(5.0 - 0.5 * sqrt(3), sqrt(3))),
        ("triangular", stats.triang(0.5, 5.0 - 0.5 * sqrt(6), sqrt(6))),
        ("arcsine", stats.arcsine(5.0 - 0.5 * sqrt(2), sqrt(2))),
    ],
)
def test_draws_follow_their_distribution(
    distribution: Distribution, reference: stats.rv_continuous
) -> None:
    entry = Input(
        name="x",
        estimate=5.0,
        unit="1",
        standard_uncertainty=0.5,
        degrees_of_freedom=4.0 if distribution == "student" else inf,
        distribution=distribution,
    )
    distance = stats.kstest(draws_of(entry), reference.cdf).statistic
    # 1.95 / sqrt(n) is exceeded by chance once in a thousand.
    assert distance < 1.95 / sqrt(SIZE)


@pytest.mark.parametrize(
    "entry",
    [
        rectangular_input("x", 2.0, 0.5, unit="1"),
        triangular_input("x", 2.0, 0.5, unit="1"),
        arcsine_input("x", 2.0, 0.5, unit="1"),
    ],
)
def test_bounded_draws_stay_within_the_half_width(entry: Input) -> None:
    offsets = np.abs(draws_of(entry) - 2.0)
    assert offsets.max() <= 0.5 + 1e-12
    assert offsets.max() > 0.49


def test_doubtful_limits_widen_a_rectangle_as_the_supplement_says() -> None:
    # Variance of the curvilinear trapezoid: a^2 / 3 + d^2 / 9, here d = a / 2.
    entry = rectangular_input("x", 0.0, 1.0, unit="1", degrees_of_freedom=2.0)
    draws = draws_of(entry)
    variance = 1.0 / 3.0 + 0.25 / 9.0
    error = 4.0 * float(np.std(draws**2)) / sqrt(SIZE)
    np.testing.assert_allclose(draws.var(), variance, rtol=0, atol=error)
    assert 1.4 < np.abs(draws).max() <= 1.5


def test_certain_inputs_do_not_scatter() -> None:
    draws = draws_of(triangular_input("x", 2.0, 0.0, unit="1"))
    assert (draws.min(), draws.max()) == (2.0, 2.0)


@pytest.mark.parametrize("coefficient", [0.0, 0.3, -0.999, 1.0, -1.0])
def test_the_factor_gives_the_matrix_back(coefficient: float) -> None:
    matrix = np.array([[1.0, coefficient], [coefficient, 1.0]])
    root = square_root_of_matrix(matrix)
    np.testing.assert_allclose(root @ root.T, matrix, rtol=0, atol=1e-12)
