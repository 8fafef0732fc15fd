"""Correlation coefficients and where they come from."""

from math import nan

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from strandproof.errors import ParameterError
from strandproof.quantity import (
    Correlation,
    Input,
    Readings,
    input_from_readings,
    inputs_from_paired_readings,
    normal_input,
)
from strandproof.quantity.correlation import correlation_matrix


def unit_inputs(*symbols: str) -> tuple[Input, ...]:
    return tuple(normal_input(symbol, 0.0, 1.0, unit="1") for symbol in symbols)


def test_an_input_is_not_correlated_with_itself_by_hand() -> None:
    with pytest.raises(ParameterError, match="always fully correlated with itself"):
        Correlation("x", "x", 0.5)


@pytest.mark.parametrize("coefficient", [1.01, -1.01, nan])
def test_coefficients_lie_between_minus_one_and_one(coefficient: float) -> None:
    with pytest.raises(ParameterError, match="coefficient was given as"):
        Correlation("x", "y", coefficient)


def test_the_matrix_is_symmetric_in_the_order_of_the_inputs() -> None:
    matrix = correlation_matrix(
        unit_inputs("x", "y", "z"), (Correlation("z", "x", 0.5),)
    )
    assert matrix.tolist() == [[1.0, 0.0, 0.5], [0.0, 1.0, 0.0], [0.5, 0.0, 1.0]]


def test_a_symbol_given_twice_is_refused() -> None:
    with pytest.raises(ParameterError, match="enters the model twice is given once"):
        correlation_matrix(unit_inputs("x", "x"), ())


def test_an_unknown_symbol_is_refused() -> None:
    with pytest.raises(ParameterError, match="symbols of the inputs: x, y"):
        correlation_matrix(unit_inputs("x", "y"), (Correlation("x", "w", 0.1),))


def test_a_pair_given_twice_is_refused() -> None:
    twice = (Correlation("x", "y", 0.1), Correlation("y", "x", 0.1))
    with pytest.raises(ParameterError, match="each pair once"):
        correlation_matrix(unit_inputs("x", "y"), twice)


def test_coefficients_that_contradict_each_other_are_refused() -> None:
    impossible = (
        Correlation("x", "y", 0.9),
        Correlation("y", "z", 0.9),
        Correlation("x", "z", -0.9),
    )
    with pytest.raises(ParameterError, match="no negative eigenvalue"):
        correlation_matrix(unit_inputs("x", "y", "z"), impossible)


def test_full_correlation_of_three_inputs_is_possible() -> None:
    pairs = (("x", "y"), ("y", "z"), ("x", "z"))
    matrix = correlation_matrix(
        unit_inputs("x", "y", "z"), [Correlation(*pair, 1.0) for pair in pairs]
    )
    assert matrix.tolist() == np.ones((3, 3)).tolist()


def test_finite_degrees_of_freedom_need_an_ensemble() -> None:
    inputs = (
        input_from_readings("x", (1.0, 2.0, 3.0), unit="1"),
        normal_input("y", 0.0, 1.0, unit="1"),
    )
    with pytest.raises(ParameterError, match="Welch-Satterthwaite"):
        correlation_matrix(inputs, (Correlation("x", "y", 0.1),))
    assert correlation_matrix(inputs, (Correlation("x", "y", 0.0),)).shape == (2, 2)


@given(st.lists(st.tuples(st.floats(-9, 9), st.floats(-9, 9)), min_size=3, max_size=12))
def test_paired_readings_give_their_correlation(
    rounds: list[tuple[float, float]],
) -> None:
    first, second = zip(*rounds, strict=True)
    inputs, correlations = inputs_from_paired_readings(
        (
            Readings(name="x", values=first, unit="V"),
            Readings(name="y", values=second, unit="A"),
        ),
        ensemble="rounds",
    )
    covariance = np.cov(first, second)[0, 1] / len(rounds)
    u = [entry.standard_uncertainty for entry in inputs]
    expected = correlations[0].coefficient * u[0] * u[1] if correlations else 0.0
    np.testing.assert_allclose(expected, covariance, rtol=1e-6, atol=1e-9)


def test_a_quantity_that_never_changed_has_no_correlation() -> None:
    _, correlations = inputs_from_paired_readings(
        (
            Readings(name="x", values=(1.0, 2.0), unit="V"),
            Readings(name="y", values=(3.0, 3.0), unit="A"),
        ),
        ensemble="rounds",
    )
    assert correlations == ()


def test_sets_of_different_length_are_refused() -> None:
    sets = (
        Readings(name="x", values=(1.0, 2.0), unit="V"),
        Readings(name="y", values=(3.0, 4.0, 5.0), unit="A"),
    )
    with pytest.raises(ParameterError, match="all of the same number"):
        inputs_from_paired_readings(sets, ensemble="rounds")


def test_one_set_is_no_pair() -> None:
    alone = (Readings(name="x", values=(1.0, 2.0), unit="V"),)
    with pytest.raises(ParameterError, match="two sets or more"):
        inputs_from_paired_readings(alone, ensemble="rounds")


def test_an_ensemble_needs_a_name() -> None:
    sets = (
        Readings(name="x", values=(1.0, 2.0), unit="V"),
        Readings(name="y", values=(3.0, 4.0), unit="A"),
    )
    with pytest.raises(ParameterError, match="ensemble was given as ''"):
        inputs_from_paired_readings(sets, ensemble="")
