from math import nextafter

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from strandproof.errors import ParameterError
from strandproof.weighing import (
    control_bound,
    error_prior,
    expected_error,
    right_bound,
)


def test_without_controls_nothing_is_known() -> None:
    assert control_bound(0) == 1.0
    assert right_bound(0) == 0.0
    assert expected_error(0) == 0.5


@given(trials=st.integers(1, 500), data=st.data())
def test_right_and_wrong_bounds_mirror_each_other(
    trials: int, data: st.DataObject
) -> None:
    wrong = data.draw(st.integers(0, trials))
    np.testing.assert_allclose(
        right_bound(trials, wrong=wrong),
        1 - control_bound(trials, wrong=wrong),
        rtol=0,
        atol=1e-12,
    )


@given(trials=st.integers(1, 500), data=st.data())
def test_the_bound_lies_above_what_was_seen_and_above_the_expected_value(
    trials: int, data: st.DataObject
) -> None:
    wrong = data.draw(st.integers(0, trials))
    upper = control_bound(trials, wrong=wrong)
    assert upper >= wrong / trials
    assert upper >= nextafter(expected_error(trials, wrong=wrong), 0)


def test_another_prior_gives_another_expected_value() -> None:
    jeffreys = error_prior("jeffreys")
    np.testing.assert_allclose(
        expected_error(24, prior=jeffreys), 0.5 / 25, rtol=1e-14, atol=0
    )


@pytest.mark.parametrize(("trials", "wrong"), [(4, 5), (4, -1), (0, 1)])
def test_impossible_counts_are_refused(trials: int, wrong: int) -> None:
    for function in (control_bound, right_bound, expected_error):
        with pytest.raises(ParameterError, match="was given as"):
            function(trials, wrong=wrong)


def test_an_impossible_confidence_is_refused() -> None:
    with pytest.raises(ParameterError, match="confidence"):
        control_bound(4, confidence=1.0)
