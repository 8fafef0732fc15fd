"""Which part of a marked line lies in metal, and which marks are refused."""

from collections.abc import Sequence

import pytest

from strandproof.errors import ParameterError
from strandproof.grainsize.marks import (
    CircularTestLine,
    LineMark,
    MarkedLine,
    StraightTestLine,
    placed_mark,
)
from strandproof.grainsize.marks.marked import Medium

LINE = StraightTestLine(number=1, start_px=(0.0, 20.0), end_px=(100.0, 20.0))
CIRCLE = CircularTestLine(number=1, centre_px=(50.0, 50.0), radius_px=20.0)


def edges(*places: float) -> list[LineMark]:
    return [LineMark(along_px=place, feature="strand_edge") for place in places]


def boundaries(*places: float) -> list[LineMark]:
    return [LineMark(along_px=place, feature="boundary") for place in places]


@pytest.mark.parametrize(
    ("marks", "starts_in", "metal_px"),
    [
        pytest.param([], None, 100.0, id="no edge"),
        pytest.param(boundaries(3, 90), None, 100.0, id="boundaries alone"),
        pytest.param(edges(20, 70), None, 50.0, id="strand crossed side to side"),
        pytest.param(edges(70, 20) + boundaries(40), None, 50.0, id="any order"),
        pytest.param(edges(20, 60) + boundaries(10), None, 60.0, id="gap between"),
        pytest.param(edges(30) + boundaries(10), None, 30.0, id="metal first"),
        pytest.param(edges(30) + boundaries(60), None, 70.0, id="resin first"),
        pytest.param(edges(30), "metal", 30.0, id="said to start in metal"),
        pytest.param(edges(30), "resin", 70.0, id="said to start in resin"),
        pytest.param([], "resin", 0.0, id="all in resin"),
        pytest.param(edges(10, 30, 60, 90), None, 50.0, id="two strands"),
    ],
)
def test_length_in_metal(
    marks: Sequence[LineMark], starts_in: Medium | None, metal_px: float
) -> None:
    marked = MarkedLine(line=LINE, marks=tuple(marks), starts_in=starts_in)
    assert marked.metal_px == pytest.approx(metal_px)


def test_circle_across_a_strand() -> None:
    marked = MarkedLine(line=CIRCLE, marks=(*edges(10, 30), *boundaries(20)))
    assert marked.metal_px == pytest.approx(20.0)
    outside = MarkedLine(line=CIRCLE, marks=(*edges(10, 30), *boundaries(5, 40)))
    assert outside.metal_px == pytest.approx(CIRCLE.length_px - 20.0)


@pytest.mark.parametrize(
    ("marks", "match"),
    [
        pytest.param(
            edges(20, 70) + boundaries(10, 40), "A mark lies in the resin", id="both"
        ),
        pytest.param(edges(30), "Say what the line starts in", id="one bare edge"),
        pytest.param(boundaries(101), "a place from 0 to 100.0 px", id="past the end"),
        pytest.param(boundaries(-1), "a place from 0 to 100.0 px", id="before it"),
        pytest.param(
            boundaries(float("nan")), "a place from 0 to 100.0 px", id="no number"
        ),
    ],
)
def test_marks_that_cannot_be(marks: Sequence[LineMark], match: str) -> None:
    with pytest.raises(ParameterError, match=match):
        MarkedLine(line=LINE, marks=tuple(marks))


def test_mark_in_metal_that_starts_in_resin_is_refused() -> None:
    with pytest.raises(ParameterError, match="A mark lies in the resin"):
        MarkedLine(line=LINE, marks=tuple(boundaries(50)), starts_in="resin")


@pytest.mark.parametrize(
    ("places", "match"),
    [((10,), "an even number"), ((10, 30), "Say what the line starts in")],
)
def test_bare_edges_on_a_circle_are_refused(
    places: tuple[float, ...], match: str
) -> None:
    with pytest.raises(ParameterError, match=match):
        MarkedLine(line=CIRCLE, marks=tuple(edges(*places)))


def test_mark_by_hand_is_put_onto_the_line() -> None:
    mark = placed_mark(LINE, (40.2, 22.0), "twin", direction_deg=30.0, meets="tangent")
    assert mark == LineMark(
        along_px=40.2, feature="twin", direction_deg=30.0, meets="tangent"
    )


def test_mark_far_from_the_line_is_refused() -> None:
    with pytest.raises(ParameterError, match=r"It lies 4\.0 px away"):
        placed_mark(LINE, (40.0, 24.0), "boundary")
