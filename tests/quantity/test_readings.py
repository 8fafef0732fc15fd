"""Repeated readings, Type A inputs, and the t interval of a mean."""

from math import inf, nan, sqrt

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from strandproof.errors import ParameterError
from strandproof.quantity import (
    Readings,
    input_from_readings,
    mean_with_interval,
    relative_accuracy_percent,
)

FINITE = st.floats(-1e6, 1e6)


@given(st.lists(FINITE, min_size=2, max_size=20))
def test_type_a_input_is_mean_and_standard_deviation_of_the_mean(
    values: list[float],
) -> None:
    entry = input_from_readings("x", values, unit="V")
    spread = np.std(values, ddof=1) / sqrt(len(values))
    np.testing.assert_allclose(entry.estimate, np.mean(values), rtol=1e-12, atol=1e-9)
    np.testing.assert_allclose(entry.standard_uncertainty, spread, rtol=1e-9, atol=1e-9)
    assert entry.degrees_of_freedom == len(values) - 1
    assert entry.distribution == "student"


@pytest.mark.parametrize("values", [(), (1.0,)])
def test_fewer_than_two_values_are_refused(values: tuple[float, ...]) -> None:
    with pytest.raises(ParameterError, match="two readings or more"):
        input_from_readings("x", values, unit="V")
    with pytest.raises(ParameterError, match="two readings or more"):
        mean_with_interval(values, unit="V", method="readings")


@pytest.mark.parametrize("value", [nan, inf])
def test_readings_that_are_no_numbers_are_refused(value: float) -> None:
    with pytest.raises(ParameterError, match="allowed is finite numbers"):
        Readings(name="x", values=(1.0, value), unit="V")


def test_equal_readings_leave_no_scatter() -> None:
    mean, interval = mean_with_interval((2.5, 2.5, 2.5), unit="V", method="readings")
    assert mean.standard_uncertainty == 0.0
    assert (interval.lower, interval.upper) == (2.5, 2.5)


def test_the_interval_says_how_it_was_made() -> None:
    _, interval = mean_with_interval(
        (8.333, 8.800, 8.200), unit="um", method="means of three leads"
    )
    assert interval.method == (
        "means of three leads: mean of 3 values, Student t with 2 degrees of freedom"
    )
    assert interval.confidence == 0.95
    assert interval.unit == "um"


@pytest.mark.parametrize("n_values", [2, 3, 10])
def test_the_interval_covers_as_often_as_it_says(n_values: int) -> None:
    generator = np.random.default_rng(20311)
    n_trials = 4000
    covered = 0
    for values in generator.normal(10.0, 2.0, (n_trials, n_values)).tolist():
        _, interval = mean_with_interval(values, unit="um", method="made up")
        assert interval.lower is not None
        assert interval.upper is not None
        covered += interval.lower <= 10.0 <= interval.upper
    # Four binomial standard deviations of a share near 0.95.
    np.testing.assert_allclose(
        covered / n_trials, 0.95, rtol=0, atol=4 * sqrt(0.95 * 0.05 / n_trials)
    )


def test_relative_accuracy_is_a_percentage_of_the_mean() -> None:
    assert relative_accuracy_percent(50.0, 5.0) == 10.0


@pytest.mark.parametrize("mean", [0.0, -1.0, nan, inf])
def test_relative_accuracy_needs_a_mean_above_zero(mean: float) -> None:
    with pytest.raises(ParameterError, match="mean was given as"):
        relative_accuracy_percent(mean, 1.0)


@pytest.mark.parametrize("half_width", [-0.1, nan, inf])
def test_relative_accuracy_refuses_a_bad_half_width(half_width: float) -> None:
    with pytest.raises(ParameterError, match="half_width was given as"):
        relative_accuracy_percent(1.0, half_width)
