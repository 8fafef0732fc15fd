"""Matching two readers' marks along a line."""

from itertools import combinations, permutations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from strandproof.errors import ParameterError
from strandproof.grainsize.marks import (
    CircularTestLine,
    LineMark,
    MarkedLine,
    PlacedLine,
    StraightTestLine,
    compare_marks,
)

LINE = StraightTestLine(number=1, start_px=(0.0, 0.0), end_px=(600.0, 0.0))
CIRCLE = CircularTestLine(number=1, centre_px=(50.0, 50.0), radius_px=20.0)
PLACES = st.lists(st.integers(0, 60).map(float), max_size=5, unique=True)


def on(line: PlacedLine, *places: float) -> MarkedLine:
    marks = tuple(LineMark(along_px=place, feature="boundary") for place in places)
    return MarkedLine(line=line, marks=marks)


def test_pairs_lone_marks_and_classes() -> None:
    first = MarkedLine(
        line=LINE,
        marks=(
            LineMark(along_px=100, feature="boundary"),
            LineMark(along_px=200, feature="boundary"),
            LineMark(along_px=300, feature="twin"),
        ),
    )
    second = MarkedLine(
        line=LINE,
        marks=(
            LineMark(along_px=302, feature="twin"),
            LineMark(along_px=103, feature="boundary"),
            LineMark(along_px=198, feature="scratch"),
            LineMark(along_px=500, feature="boundary"),
        ),
    )
    found = compare_marks([first], [second], tolerance_px=4.0)
    assert [pair.along_px for pair in found.pairs] == [100, 200, 300, 500]
    assert [pair.same for pair in found.pairs] == [True, False, True, False]
    assert len(found.matched) == 3
    assert [pair.along_px for pair in found.differences] == [200, 500]
    assert found.classes is not None
    assert (found.classes.same, found.classes.pieces) == (2, 3)


@settings(max_examples=60)
@given(first=PLACES, second=PLACES, tolerance=st.sampled_from([1.0, 3.0, 10.0]))
def test_as_many_as_possible_are_paired(
    first: list[float], second: list[float], tolerance: float
) -> None:
    """Against trying every way to pair, for few marks."""
    found = compare_marks(
        [on(LINE, *first)], [on(LINE, *second)], tolerance_px=tolerance
    )
    fewer, more = sorted((first, second), key=len)
    most = 0
    for size in range(1, len(fewer) + 1):
        if any(
            all(abs(a - b) <= tolerance for a, b in zip(some, others, strict=True))
            for some in combinations(fewer, size)
            for others in permutations(more, size)
        ):
            most = size
    assert len(found.matched) == most
    assert len(found.pairs) == len(first) + len(second) - most


@given(first=PLACES, second=PLACES)
def test_pairs_never_cross_over(first: list[float], second: list[float]) -> None:
    found = compare_marks([on(LINE, *first)], [on(LINE, *second)], tolerance_px=9.0)
    ends = [
        (pair.first.along_px, pair.second.along_px)
        for pair in found.pairs
        if pair.first and pair.second
    ]
    assert [b for _, b in sorted(ends)] == sorted(b for _, b in ends)


@given(first=PLACES, second=PLACES)
def test_order_of_the_readers_does_not_matter(
    first: list[float], second: list[float]
) -> None:
    one = compare_marks([on(LINE, *first)], [on(LINE, *second)], tolerance_px=5.0)
    other = compare_marks([on(LINE, *second)], [on(LINE, *first)], tolerance_px=5.0)
    assert len(one.matched) == len(other.matched)
    assert len(one.differences) == len(other.differences)


def test_circle_matches_across_its_start() -> None:
    end = CIRCLE.length_px - 1.0
    found = compare_marks([on(CIRCLE, 1.0)], [on(CIRCLE, end)], tolerance_px=3.0)
    assert len(found.matched) == 1


def test_chance_pairs_are_counted_for_a_wide_tolerance() -> None:
    """10 marks of each on 600 px, 6 px apart at most: 10 (1 - exp(-0.2)) = 1.81."""
    places = [30.0 + 60.0 * k for k in range(10)]
    found = compare_marks([on(LINE, *places)], [on(LINE, *places)], tolerance_px=6.0)
    assert found.matched_by_chance == pytest.approx(1.8127, abs=1e-4)


def test_nobody_marked_anything() -> None:
    found = compare_marks([on(LINE)], [on(LINE)], tolerance_px=4.0)
    assert (found.pairs, found.classes, found.matched_by_chance) == ((), None, 0.0)


def test_other_lines_are_refused() -> None:
    other = StraightTestLine(number=1, start_px=(0.0, 1.0), end_px=(600.0, 1.0))
    with pytest.raises(ParameterError, match="same test lines"):
        compare_marks([on(LINE)], [on(other)], tolerance_px=4.0)


def test_tolerance_of_nothing_is_refused() -> None:
    with pytest.raises(ParameterError, match="tolerance_px"):
        compare_marks([on(LINE)], [on(LINE)], tolerance_px=0.0)
