"""The frozen records of `quantity._types`."""

from dataclasses import FrozenInstanceError
from math import inf, nan

import pytest

from strandproof.errors import ParameterError
from strandproof.quantity import Interval, Quantity


def test_a_quantity_cannot_be_changed() -> None:
    quantity = Quantity(1.0, "um", 0.1)
    with pytest.raises(FrozenInstanceError):
        quantity.value = 2.0  # type: ignore[misc]  # the point of the test


@pytest.mark.parametrize(
    ("value", "u", "freedom", "fault"),
    [
        (nan, 0.1, inf, "value was given as nan"),
        (inf, 0.1, inf, "value was given as inf"),
        (1.0, -0.1, inf, "standard_uncertainty was given as -0.1"),
        (1.0, inf, inf, "standard_uncertainty was given as inf"),
        (1.0, 0.1, 0.5, "degrees_of_freedom was given as 0.5"),
        (1.0, 0.1, nan, "degrees_of_freedom was given as nan"),
    ],
)
def test_a_quantity_refuses_numbers_out_of_range(
    value: float, u: float, freedom: float, fault: str
) -> None:
    with pytest.raises(ParameterError, match=fault):
        Quantity(value, "um", u, freedom)


def test_relative_uncertainty_uses_the_absolute_value() -> None:
    assert Quantity(-4.0, "V", 0.1).relative_uncertainty == 0.025


def test_relative_uncertainty_of_zero_is_unknown() -> None:
    assert Quantity(0.0, "V", 0.1).relative_uncertainty is None


def test_half_width_needs_both_limits() -> None:
    closed = Interval(lower=1.0, upper=4.0, unit="um", confidence=0.95, method="t")
    opened = Interval(lower=None, upper=4.0, unit="um", confidence=0.95, method="t")
    assert closed.half_width == 1.5
    assert opened.half_width is None
