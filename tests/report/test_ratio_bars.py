"""Ratios as bars: what is drawn says the same as the numbers, and no more."""

from math import log10
from xml.etree import ElementTree as ET

import pytest
from hypothesis import given
from hypothesis import strategies as st

from strandproof.records.entries import WeighingPair
from strandproof.report.ratio_bars import RatioBar, ratio_bar, ratio_bars_svg

SVG = "{http://www.w3.org/2000/svg}"
GREY = "#9aa5ab"


def drawn(*bars: RatioBar) -> ET.Element:
    # Our own drawing, made two lines above.
    return ET.fromstring(str(ratio_bars_svg(bars)))  # noqa: S314


def ranges(svg: ET.Element) -> list[ET.Element]:
    return [line for line in svg.iter(f"{SVG}line") if line.get("stroke") == GREY]


def arrows(svg: ET.Element) -> list[str]:
    paths = [path for path in svg.iter(f"{SVG}path") if path.get("fill") == GREY]
    steps = [str(path.get("d")).split()[2] for path in paths]
    return ["left" if step == "l-10" else "right" for step in steps]


def words(svg: ET.Element) -> list[str]:
    return [str(text.text) for text in svg.iter(f"{SVG}text")]


def place(ratio: float) -> float:
    """Where a ratio stands: 118 to 588 is 0.1 to 1000."""
    return 118 + 470 * (log10(ratio) + 1) / 4


def test_best_estimate_range_and_controls_stand_where_the_scale_says() -> None:
    svg = drawn(RatioBar("X3 over X1", 190, 7.5, 400, 8.1))
    circle = next(svg.iter(f"{SVG}circle"))
    assert float(circle.get("cx", "")) == pytest.approx(place(190), rel=0, abs=0.06)
    line = ranges(svg)[0]
    assert float(line.get("x1", "")) == pytest.approx(place(7.5), rel=0, abs=0.06)
    assert float(line.get("x2", "")) == pytest.approx(place(400), rel=0, abs=0.06)
    diamond = next(p for p in svg.iter(f"{SVG}path") if p.get("stroke") == "#000")
    start = float(str(diamond.get("d")).split()[0].removeprefix("M"))
    assert start == pytest.approx(place(8.1), rel=0, abs=0.06)
    assert arrows(svg) == []
    assert "best 190; controls 8.1" in words(svg)


def test_open_upper_end_has_an_arrow() -> None:
    assert arrows(drawn(RatioBar("a over b", 190, 7.5, None, None))) == ["right"]
    assert arrows(drawn(RatioBar("a over b", 190, 7.5, 5000, None))) == ["right"]


@pytest.mark.parametrize("lower", [0.0, 0.02])
def test_lower_end_below_the_scale_has_an_arrow(lower: float) -> None:
    svg = drawn(RatioBar("a over b", 3, lower, 20, None))
    assert arrows(svg) == ["left"]
    assert float(ranges(svg)[0].get("x1", "")) == pytest.approx(118, rel=0, abs=0.06)


def test_no_ratio_draws_no_circle_and_no_range() -> None:
    svg = drawn(RatioBar("a over b", None, None, None, None))
    assert not list(svg.iter(f"{SVG}circle"))
    assert ranges(svg) == []
    assert "best not stated; no controls" in words(svg)


def test_no_best_estimate_keeps_its_range() -> None:
    svg = drawn(RatioBar("a over b", None, 0.0, None, None))
    assert not list(svg.iter(f"{SVG}circle"))
    assert arrows(svg) == ["left", "right"]


@pytest.mark.parametrize(("best", "edge"), [(0.0, 118.0), (1e9, 588.0)])
def test_ratio_outside_of_the_scale_stands_at_its_edge(
    best: float, edge: float
) -> None:
    svg = drawn(RatioBar("a over b", best, 0.0, None, None))
    circle = next(svg.iter(f"{SVG}circle"))
    assert float(circle.get("cx", "")) == pytest.approx(edge, rel=0, abs=0.06)


def test_about_one_is_as_loud_as_a_large_number() -> None:
    assert "ABOUT 1: NO HELP" in words(drawn(RatioBar("a over b", 1.2, 0.9, 1.1, 5)))
    assert "ABOUT 1: NO HELP" not in words(drawn(RatioBar("a over b", 2, 1, 3, None)))


def test_every_pair_has_a_row_and_stands_in_the_description() -> None:
    svg = drawn(
        RatioBar("X3 over X1", 190, 7.5, None, 8.1),
        RatioBar("X3 over X4", 1, 0.9, 1.1, None),
    )
    label = str(svg.get("aria-label"))
    assert "X3 over X1: best estimate 190, controls alone 8.1" in label
    assert "X3 over X4: best estimate 1.0, controls alone not stated" in label
    assert svg.get("role") == "img"
    assert len(ranges(svg)) == 2


def test_names_are_escaped_and_long_ones_written_smaller() -> None:
    svg = drawn(
        RatioBar('<script>&"', 3, 1, 9, None), RatioBar("n" * 100, 3, 1, 9, None)
    )
    assert not list(svg.iter(f"{SVG}script"))
    assert '<script>&"' in words(svg)
    sizes = {text.text: text.get("font-size") for text in svg.iter(f"{SVG}text")}
    assert float(sizes["n" * 100] or 0) * 0.56 * 100 <= 118.5


def test_bar_takes_the_numbers_of_its_pair() -> None:
    pair = WeighingPair(
        first="X4",
        second="X1",
        best_ratio=190,
        lower_ratio=7.5,
        upper_ratio=None,
        controls_ratio=1.8,
        words="moderately strong",
    )
    assert ratio_bar(pair) == RatioBar("X4 over X1", 190, 7.5, None, 1.8)


RATIO = st.none() | st.floats(0, 1e300)


@given(RATIO, RATIO, RATIO, RATIO)
def test_any_ratio_can_be_drawn_within_the_scale(
    best: float | None, lower: float | None, upper: float | None, controls: float | None
) -> None:
    svg = drawn(RatioBar("a over b", best, lower, upper, controls))
    for line in ranges(svg):
        assert 118 <= float(line.get("x1", "")) <= 588
        assert 118 <= float(line.get("x2", "")) <= 588
    assert len(list(svg.iter(f"{SVG}circle"))) == (best is not None)
