from math import inf, nan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from strandproof.errors import ParameterError
from strandproof.grainsize.orientations import (
    random_disorientation_density,
    random_share_below,
)


@given(st.floats(0.0, 70.0), st.floats(0.0, 70.0))
def test_share_grows_with_the_angle(one: float, other: float) -> None:
    lower, upper = sorted((one, other))
    assert random_share_below(lower) <= random_share_below(upper) + 1e-12
    assert 0.0 <= random_share_below(lower) <= 1.0


def test_share_of_tiny_angles_does_not_cancel() -> None:
    # 24 a^3 / (6 pi) for small a: a thousandth of a degree.
    assert random_share_below(0.001) == pytest.approx(6.769e-15, rel=1e-3)


def test_everything_lies_below_the_largest_angle() -> None:
    assert random_share_below(90.0) == pytest.approx(1.0, rel=0, abs=1e-10)
    assert random_disorientation_density(-1.0) == 0.0


@pytest.mark.parametrize("angle", [nan, inf, -1.0])
def test_no_angle_is_refused(angle: float) -> None:
    with pytest.raises(ParameterError, match="angle_deg"):
        random_share_below(angle)
