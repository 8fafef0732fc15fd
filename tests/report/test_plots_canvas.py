"""Scales, ticks and the frame: round values, escaped words, steady bytes."""

import re
from itertools import pairwise
from math import isclose

import pytest
from hypothesis import given
from hypothesis import strategies as st
from svg_reading import described, parsed, written

from strandproof.errors import ParameterError
from strandproof.report.plots.canvas import (
    ACCENT,
    FILL,
    INK,
    QUIET,
    RANGE,
    WIDTH,
    Scale,
    heading,
    number,
    paragraph,
    require_finite,
    round_step,
    round_ticks,
    shortened,
    span_of,
    svg_plot,
)

SIZE = st.floats(1e-9, 1e9)


def grey(colour: str) -> float:
    """Brightness of a colour, 0 to 1 (weights of ITU-R BT.709, from memory)."""
    red, green, blue = (int(colour[k : k + 2], 16) / 255 for k in (1, 3, 5))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


@given(SIZE, st.integers(1, 20))
def test_step_is_round_and_needs_no_more_steps_than_asked(
    span: float, most: int
) -> None:
    step = round_step(span, most)
    digits = float(f"{step:e}".split("e")[0])
    assert any(isclose(digits, each, rel_tol=1e-6) for each in (1, 2, 5))
    assert span / step <= most * (1 + 1e-6)
    assert span / step > most / 2.6


@given(st.floats(-1e6, 1e6), SIZE)
def test_ticks_lie_within_and_rise(low: float, span: float) -> None:
    high = low + span
    if high - low < 1e-6 * max(abs(low), abs(high)):
        return
    ticks = round_ticks(low, high, 6)
    slack = 1e-6 * (high - low)
    assert list(ticks) == sorted(ticks)
    assert len(ticks) >= 2
    assert low - slack <= ticks[0]
    assert ticks[-1] <= high + slack


def test_scale_holds_what_lies_outside_at_its_ends() -> None:
    scale = Scale(2, 6, 100, 300)
    assert scale.place(4) == 200
    assert (scale.place(-1e9), scale.place(1e9)) == (100, 300)


@pytest.mark.parametrize("value", [float("nan"), float("inf"), 1e200])
def test_what_no_scale_can_hold_is_refused(value: float) -> None:
    with pytest.raises(ParameterError, match="finite numbers"):
        require_finite("values", [1.0, value])


def test_alike_values_have_the_span_of_their_size() -> None:
    assert span_of(8, 8) == 8
    assert span_of(-3, -3) == 3
    assert span_of(0, 0) == 1
    assert span_of(1, 1 + 1e-12) == pytest.approx(1, rel=1e-9, abs=0)


def test_no_negative_zero_is_written() -> None:
    assert number(-0.04) == "0.0"
    assert number(-0.06) == "-0.1"


def test_words_are_escaped_and_the_description_is_referred_to() -> None:
    svg = parsed(svg_plot(title="a <b>", description='c & "d"', body="", height=10.2))
    assert described(svg) == ("a <b>", 'c & "d"')
    assert svg.get("role") == "img"
    assert svg.get("viewBox") == f"0 0 {WIDTH} 11"


def test_same_plot_has_the_same_bytes_and_another_one_other_names() -> None:
    one = svg_plot(title="t", description="d", body="", height=1)
    other = svg_plot(title="t", description="e", body="", height=1)
    assert one == svg_plot(title="t", description="d", body="", height=1)
    names = [re.findall(r' id="([^"]+)"', svg) for svg in (one, other)]
    assert len(set(names[0] + names[1])) == 4


def test_long_text_is_broken_and_keeps_all_words() -> None:
    text = "A rather long sentence about intercepts. " * 6
    drawn, bottom = paragraph(text, 100)
    rows = written(parsed(f'<svg xmlns="http://www.w3.org/2000/svg">{drawn}</svg>'))
    assert " ".join(rows) == text.strip()
    assert len(rows) > 2
    assert bottom == 100 + 18 * len(rows)
    assert heading(text)[1] > heading("Short")[1]


def test_long_name_is_cut_visibly() -> None:
    assert shortened("E1", 40) == "E1"
    cut = shortened("a very long name of a cable", 40)
    assert cut.endswith("…")
    assert len(cut) * 0.56 * 13 <= 40


def test_inks_can_be_told_apart_in_grey() -> None:
    """Inks that meet differ by a tenth of full brightness or more."""
    shades = [grey(each) for each in (INK, RANGE, FILL)] + [1.0]
    assert grey(RANGE) - grey(ACCENT) > 0.15
    assert grey(FILL) - grey(ACCENT) > 0.15
    assert 1 - grey(QUIET) > 0.5
    assert all(b - a > 0.1 for a, b in pairwise(shades))
