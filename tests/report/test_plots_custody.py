"""Custody on a time axis: lanes, hatching, names, refusals."""

from datetime import UTC, datetime, timedelta

import numpy as np
import pytest
from svg_reading import described, numbers, parsed, shapes, written

from strandproof.errors import ParameterError
from strandproof.report.plots import CustodyPanel, GapSpan, HeldSpan, custody_svg
from strandproof.report.plots.canvas import WIDTH
from strandproof.report.plots.custody import merged

START = datetime(2031, 4, 2, tzinfo=UTC)


def day(number: float) -> datetime:
    return START + timedelta(days=number)


def held(holder: str, start: float, end: float) -> HeldSpan:
    return HeldSpan(holder=holder, start=day(start), end=day(end))


def gap(
    name: str, start: float, end: float, last: str = "R", after: str = "A1"
) -> GapSpan:
    return GapSpan(
        name=name, start=day(start), end=day(end), last_holder=last, next_holder=after
    )


PANEL = CustodyPanel(
    things="specimen s1",
    held=(held("R", 0, 10), held("A1", 20, 40)),
    gaps=(gap("G1", 10, 20),),
)


def boxes(panel: CustodyPanel) -> list[tuple[float, float]]:
    svg = parsed(custody_svg([panel], title="t"))
    return [
        (float(str(box.get("x"))), float(str(box.get("width"))))
        for box in shapes(svg, "rect")
    ]


def test_bars_go_by_time_and_the_gap_lies_between() -> None:
    (first, wide_1), (second, wide_2), (hatched, wide_gap) = boxes(PANEL)
    np.testing.assert_allclose(wide_2, 2 * wide_1, atol=0.15)
    np.testing.assert_allclose(hatched, first + wide_1, atol=0.15)
    np.testing.assert_allclose(hatched + wide_gap, second, atol=0.15)


def test_gap_is_told_by_hatching_not_by_colour_alone() -> None:
    svg = parsed(custody_svg([PANEL], title="t"))
    bar, _, edge = shapes(svg, "rect")
    assert bar.get("fill") != edge.get("fill") == "#fff"
    slanted = [
        one
        for one in shapes(svg, "line")
        if one.get("x1") != one.get("x2") and one.get("y1") != one.get("y2")
    ]
    assert len(slanted) > 10
    left, width = boxes(PANEL)[2]
    for one in slanted:
        for end in ("x1", "x2"):
            assert left - 0.1 <= float(str(one.get(end))) <= left + width + 0.1


def test_a_short_gap_can_still_be_seen() -> None:
    short = CustodyPanel(
        things="x", held=(held("R", 0, 40),), gaps=(gap("G1", 9, 9.01),)
    )
    assert boxes(short)[1][1] >= 5.0
    last = CustodyPanel(things="x", held=(held("R", 0, 40),), gaps=(gap("G1", 40, 40),))
    svg = parsed(custody_svg([last], title="t"))
    assert max(numbers(svg, "x", "x1", "x2")) <= WIDTH


def test_names_too_close_share_a_place() -> None:
    crowded = CustodyPanel(
        things="x",
        held=(held("R", 0, 40),),
        gaps=(gap("G1", 10, 11), gap("G2", 12, 13), gap("G3", 35, 36)),
    )
    lines = written(parsed(custody_svg([crowded], title="t")))
    assert "G1, G2" in lines
    assert "G3" in lines


def test_every_holder_has_a_lane_with_a_name() -> None:
    lines = written(parsed(custody_svg([PANEL], title="t")))
    assert lines.count("R") == 1
    assert lines.count("A1") == 1
    assert "specimen s1" in lines


def test_description_holds_the_times() -> None:
    title, told = described(parsed(custody_svg([PANEL], title="Custody")))
    assert title == "Custody"
    assert "R 2031-04-02 00:00 to 2031-04-12 00:00; gap G1 2031-04-12 00:00 to " in told


def test_long_cases_get_months_and_both_years() -> None:
    panel = CustodyPanel(things="x", held=(held("R", 0, 900),), gaps=())
    lines = written(parsed(custody_svg([panel], title="t")))
    assert "2031-04" in lines
    assert "date, UTC, 2031 to 2033" in lines
    moment = CustodyPanel(things="x", held=(held("R", 0.4, 0.4),), gaps=())
    assert "04-02" in written(parsed(custody_svg([moment], title="t")))


def test_everything_lies_on_the_drawing() -> None:
    svg = parsed(custody_svg([PANEL, PANEL], title="t"))
    assert min(numbers(svg, "x", "x1", "x2", "y", "y1", "y2")) >= 0
    assert max(numbers(svg, "x", "x1", "x2")) <= WIDTH
    height = float(str(svg.get("viewBox")).split()[3])
    assert max(numbers(svg, "y", "y1", "y2")) <= height


def test_user_words_are_no_markup() -> None:
    odd = CustodyPanel(things="<b>x</b>", held=(held("<i>", 0, 1),), gaps=())
    svg = custody_svg([odd], title="<t>")
    assert "<b>" not in svg
    assert "&lt;i&gt;" in svg


def test_refusals() -> None:
    with pytest.raises(ParameterError, match="none empty"):
        custody_svg([], title="t")
    with pytest.raises(ParameterError, match="none empty"):
        custody_svg([CustodyPanel(things="x", held=(), gaps=())], title="t")


def test_spans_of_one_holder_join() -> None:
    spans = [held("R", 0, 1), held("R", 1, 3), held("A1", 3, 4), held("R", 5, 6)]
    assert merged(spans) == (held("R", 0, 3), held("A1", 3, 4), held("R", 5, 6))
    assert merged([]) == ()
