"""Places on straight and circular test lines."""

from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from strandproof.errors import ParameterError
from strandproof.grainsize.marks import CircularTestLine, StraightTestLine

DIAGONAL = StraightTestLine(number=1, start_px=(10.0, 50.0), end_px=(40.0, 10.0))
CIRCLE = CircularTestLine(number=2, centre_px=(100.0, 80.0), radius_px=30.0)


def test_straight_line_of_three_four_five() -> None:
    assert DIAGONAL.length_px == 50.0
    assert DIAGONAL.direction_deg == pytest.approx(53.130102, abs=1e-6)
    assert DIAGONAL.position_px(25.0) == (25.0, 30.0)


@pytest.mark.parametrize(
    ("end", "direction"),
    [((9.0, 0.0), 0.0), ((0.0, -9.0), 90.0), ((0.0, 9.0), 90.0), ((-9.0, 0.0), 0.0)],
)
def test_direction_does_not_depend_on_the_end_begun_at(
    end: tuple[float, float], direction: float
) -> None:
    line = StraightTestLine(number=1, start_px=(0.0, 0.0), end_px=end)
    assert line.direction_deg == direction


def test_circle_begins_at_the_right_and_goes_up() -> None:
    quarter = CIRCLE.length_px / 4
    assert CIRCLE.length_px == pytest.approx(2 * pi * 30)
    assert CIRCLE.position_px(0.0) == (130.0, 80.0)
    assert CIRCLE.position_px(quarter) == pytest.approx((100.0, 50.0))
    assert CIRCLE.nearest_px((100.0, 20.0)) == pytest.approx(quarter)


@given(share=st.floats(0.0, 0.999))
def test_place_and_distance_are_each_others_inverse(share: float) -> None:
    for line in (DIAGONAL, CIRCLE):
        along = share * line.length_px
        there = line.nearest_px(line.position_px(along))
        # On a circle the end is the beginning again.
        apart = abs(there - along)
        assert min(apart, line.length_px - apart) == pytest.approx(0.0, abs=1e-9)


def test_point_past_an_end_belongs_to_the_end() -> None:
    assert DIAGONAL.nearest_px((5.0, 60.0)) == 0.0
    assert DIAGONAL.nearest_px((60.0, 0.0)) == 50.0


def test_line_without_length_is_refused() -> None:
    with pytest.raises(ParameterError, match="two ends at different places"):
        StraightTestLine(number=1, start_px=(3.0, 3.0), end_px=(3.0, 3.0))


def test_circle_without_radius_is_refused() -> None:
    with pytest.raises(ParameterError, match="radius of test circle 4"):
        CircularTestLine(number=4, centre_px=(3.0, 3.0), radius_px=0.0)
