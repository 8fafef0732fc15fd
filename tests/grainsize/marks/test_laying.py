"""Places of test lines: inside the picture, repeatable, spread evenly."""

from collections.abc import Sequence
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats

from strandproof.errors import ParameterError
from strandproof.grainsize.marks import (
    CircularTestLine,
    StraightTestLine,
    lay_test_lines,
)

PLACES_OF_2031 = (
    StraightTestLine(number=1, start_px=(-0.5, 371.4), end_px=(799.5, 371.4)),
    StraightTestLine(number=2, start_px=(-0.5, 451.0), end_px=(451.0, -0.5)),
    CircularTestLine(number=3, centre_px=(542.0, 358.9), radius_px=140.0),
)


@settings(max_examples=50)
@given(
    width=st.integers(16, 3000),
    height=st.integers(16, 3000),
    seed=st.integers(0, 2**48),
    direction=st.floats(0, 180),
)
def test_lines_and_circles_lie_in_the_picture(
    width: int, height: int, seed: int, direction: float
) -> None:
    laid = lay_test_lines(
        width,
        height,
        lines=3,
        circles=2,
        directions_deg=(direction, 0.0),
        chance=Random(seed),  # noqa: S311 - places, no secret
    )
    assert [line.number for line in laid] == [1, 2, 3, 4, 5]
    for line in laid:
        for share in (0.0, 0.3, 0.6, 1.0):
            column, row = line.position_px(share * line.length_px)
            assert -0.6 <= column <= width - 0.4
            assert -0.6 <= row <= height - 0.4
        assert line.length_px >= 0.45 * min(width, height)


def test_same_seed_same_places_and_another_seed_others() -> None:
    def laid(seed: int) -> object:
        return lay_test_lines(800, 560, lines=4, chance=Random(seed))  # noqa: S311

    assert laid(7) == laid(7)
    assert laid(7) != laid(8)


def test_places_of_a_seed_stay_what_they_are() -> None:
    """Regression: a seed recorded today must give the same lines in ten years."""
    chance = Random(2031)  # noqa: S311
    laid = lay_test_lines(800, 560, lines=2, circles=1, chance=chance)
    assert laid == PLACES_OF_2031


def test_directions_are_taken_in_turn() -> None:
    laid = lay_test_lines(800, 560, lines=6, chance=Random(3))  # noqa: S311
    straight = [line for line in laid if isinstance(line, StraightTestLine)]
    found = [line.direction_deg for line in straight]
    assert found == pytest.approx([0, 45, 90, 135, 0, 45], abs=0.05)


def test_places_across_are_uniform() -> None:
    """Kolmogorov-Smirnov at a fixed seed: 400 horizontal lines over the height."""
    laid = lay_test_lines(
        500,
        200,
        lines=400,
        directions_deg=(0.0,),
        chance=Random(11),  # noqa: S311
    )
    rows = [line.position_px(0.0)[1] for line in laid]
    assert stats.kstest(rows, stats.uniform(-0.5, 200).cdf).pvalue > 0.01


def test_circles_touch_no_side() -> None:
    (circle,) = lay_test_lines(300, 200, lines=0, circles=1, chance=Random(5))  # noqa: S311
    assert isinstance(circle, CircularTestLine)
    assert circle.radius_px == 50.0


@pytest.mark.parametrize(
    ("size", "lines", "directions"),
    [((800, 560), 0, (0.0,)), ((8, 560), 1, (0.0,)), ((800, 560), 1, ())],
)
def test_nothing_to_lay_is_refused(
    size: tuple[int, int], lines: int, directions: Sequence[float]
) -> None:
    with pytest.raises(ParameterError, match="allowed is"):
        lay_test_lines(*size, lines=lines, directions_deg=directions, chance=Random(1))  # noqa: S311
