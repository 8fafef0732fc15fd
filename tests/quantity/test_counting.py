"""Counts are whole numbers of zero or above."""

import numpy as np
import pytest

from strandproof.errors import ParameterError
from strandproof.quantity.counting import whole_count


@pytest.mark.parametrize("given", [0, 7, np.int64(7), np.uint8(7)])
def test_whole_numbers_pass(given: int) -> None:
    counted = whole_count("count", given)
    assert counted == given
    assert type(counted) is int


@pytest.mark.parametrize("given", [2.5, 3.0, np.float64(3.0), "3", None])
def test_others_are_refused(given: object) -> None:
    with pytest.raises(ParameterError, match="allowed is a whole number"):
        whole_count("count", given)  # type: ignore[arg-type]  # a user's slip


def test_negative_counts_are_refused() -> None:
    with pytest.raises(ParameterError, match="count was given as -1"):
        whole_count("count", -1)
