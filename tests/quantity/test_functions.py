"""One function for numbers, arrays and uncertain numbers."""

import math
from collections.abc import Callable

import GTC
import numpy as np
import pytest

from strandproof.errors import ParameterError
from strandproof.quantity import (
    ModelNumber,
    absolute,
    acos,
    asin,
    atan,
    cos,
    exp,
    log,
    log10,
    sin,
    sqrt,
    tan,
)

Function = Callable[[ModelNumber], ModelNumber]

# Function, its name in `math`, and its derivative.
CASES: list[tuple[Function, Callable[[float], float], Callable[[float], float]]] = [
    (sqrt, math.sqrt, lambda x: 0.5 / math.sqrt(x)),
    (exp, math.exp, math.exp),
    (log, math.log, lambda x: 1.0 / x),
    (log10, math.log10, lambda x: 1.0 / (x * math.log(10.0))),
    (sin, math.sin, math.cos),
    (cos, math.cos, lambda x: -math.sin(x)),
    (tan, math.tan, lambda x: 1.0 / math.cos(x) ** 2),
    (asin, math.asin, lambda x: 1.0 / math.sqrt(1.0 - x * x)),
    (acos, math.acos, lambda x: -1.0 / math.sqrt(1.0 - x * x)),
    (atan, math.atan, lambda x: 1.0 / (1.0 + x * x)),
]


@pytest.mark.parametrize(("function", "plain", "slope"), CASES)
@pytest.mark.parametrize("x", [0.2, 0.7])
def test_the_three_kinds_agree(
    function: Function,
    plain: Callable[[float], float],
    slope: Callable[[float], float],
    x: float,
) -> None:
    uncertain = function(GTC.ureal(x, 0.01))
    assert function(x) == plain(x)
    np.testing.assert_allclose(function(np.array([x])), [plain(x)], rtol=1e-14, atol=0)
    np.testing.assert_allclose(uncertain.x, plain(x), rtol=1e-14, atol=0)
    np.testing.assert_allclose(uncertain.u, 0.01 * abs(slope(x)), rtol=1e-12, atol=0)


def test_an_array_keeps_its_shape() -> None:
    assert exp(np.zeros((2, 3))).shape == (2, 3)


@pytest.mark.parametrize("value", [4, np.float64(4.0), np.float32(4.0)])
def test_whole_numbers_and_numpy_scalars_are_numbers(value: ModelNumber) -> None:
    assert sqrt(value) == 2.0


def test_absolute_keeps_the_uncertainty_that_abs_drops() -> None:
    uncertain = absolute(GTC.ureal(-2.5, 0.1))
    assert (uncertain.x, uncertain.u) == (2.5, 0.1)
    assert absolute(np.array([-1.0, 2.0])).tolist() == [1.0, 2.0]
    assert absolute(-3.0) == 3.0


@pytest.mark.parametrize("function", [sqrt, absolute])
def test_other_kinds_are_refused(function: Function) -> None:
    with pytest.raises(ParameterError, match="value was given as 'four'"):
        function("four")
