"""Two readers' marks: one sign a kind, what one alone marked, what is joined."""

from collections.abc import Sequence

import pytest
from svg_reading import described, numbers, parsed, shapes, written

from strandproof.errors import ParameterError
from strandproof.records.entries.laboratory import MarkFeature
from strandproof.report.plots import (
    FEATURES,
    DrawnMark,
    ReaderMarks,
    reader_marks_svg,
)
from strandproof.report.plots.marks import _sign

LENGTH = 103.6


def reader(name: str, *marks: tuple[float, MarkFeature]) -> ReaderMarks:
    return ReaderMarks(name, tuple(DrawnMark(*mark) for mark in marks))


A1 = reader("A1", (10, "boundary"), (30, "twin"), (80, "scratch"))
A2 = reader("A2", (11, "boundary"), (31, "boundary"))


def drawn(
    first: ReaderMarks = A1,
    second: ReaderMarks = A2,
    same: Sequence[tuple[int, int]] | None = ((0, 0), (1, 1)),
    length: float = LENGTH,
) -> str:
    return reader_marks_svg(
        first, second, length=length, unit="um", title="line 2", same=same
    )


def test_every_kind_has_a_sign_of_its_own() -> None:
    assert len({_sign(feature, 50, 0) for feature in FEATURES}) == 6


def test_agreement_disagreement_and_lone_marks_are_told() -> None:
    _, told = described(parsed(drawn()))
    assert "A1: boundary 1, twin 1, scratch 1. A2: boundary 2." in told
    assert "2 places marked by both, 1 as the same thing" in told
    assert "1 as different things" in told
    assert "marked by one only, A1 1, A2 0" in told


def test_lone_mark_has_a_circle_where_it_stands() -> None:
    (circle,) = shapes(parsed(drawn()), "circle")
    place = 12 + (390 - 24) * 80 / LENGTH
    assert float(circle.get("cx", "")) == pytest.approx(place, rel=0, abs=0.06)


def test_without_a_judgement_nothing_is_joined() -> None:
    svg = parsed(drawn(same=None))
    assert not shapes(svg, "circle")
    assert "Which marks belong together was not judged." in described(svg)[1]


def test_key_lists_only_what_was_marked() -> None:
    lines = written(parsed(drawn()))
    assert {"boundary", "twin", "scratch"} <= set(lines)
    assert "slip trace" not in lines


def test_no_mark_at_all_can_be_drawn() -> None:
    _, told = described(parsed(drawn(reader("A1"), reader("A2"), ())))
    assert "A1: no mark. A2: no mark." in told


def test_marks_at_the_ends_stay_within() -> None:
    ends = reader("A1", (0, "slip_trace"), (LENGTH, "slip_trace"))
    for x in numbers(parsed(drawn(ends, A2, ())), "x1", "x2"):
        assert 0 <= x <= 390


@pytest.mark.parametrize("same", [[(0, 0), (0, 1)], [(3, 0)], [(-1, 0)], [(0, 2)]])
def test_pairs_that_do_not_fit_are_refused(same: list[tuple[int, int]]) -> None:
    with pytest.raises(ParameterError, match="at most once"):
        drawn(same=same)


@pytest.mark.parametrize("position", [-0.1, 103.7, float("nan")])
def test_mark_outside_of_the_line_is_refused(position: float) -> None:
    with pytest.raises(ParameterError, match="places from 0 to 103.6"):
        drawn(reader("A1", (position, "boundary")), A2, ())


@pytest.mark.parametrize("length", [0, -1, float("inf")])
def test_line_without_length_is_refused(length: float) -> None:
    with pytest.raises(ParameterError, match="length was given"):
        drawn(reader("A1"), reader("A2"), (), length)


def test_unknown_feature_is_refused() -> None:
    odd = ReaderMarks("A1", (DrawnMark(1.0, "crack"),))  # type: ignore[arg-type]
    with pytest.raises(ParameterError, match="boundary, twin"):
        drawn(odd, A2, ())
