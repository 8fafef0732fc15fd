"""Histogram: every value in one bar, the mean where the scale says."""

from xml.etree import ElementTree as ET

import pytest
from hypothesis import given
from hypothesis import strategies as st
from svg_reading import described, numbers, parsed, shapes, written

from strandproof.errors import ParameterError
from strandproof.report.plots import MeanWithInterval, histogram_svg
from strandproof.report.plots.histogram import _bins

MEAN = MeanWithInterval(value=8.444, lower=7.661, upper=9.227)


def drawn(values: list[float], mean: MeanWithInterval = MEAN) -> ET.Element:
    return parsed(
        histogram_svg(
            values, mean=mean, quantity="lineal intercept", unit="um", title="E1 & E2"
        )
    )


@given(st.lists(st.floats(-1e100, 1e100), min_size=1, max_size=60))
def test_every_value_is_counted_once(values: list[float]) -> None:
    assert sum(_bins(values).counts) == len(values)


@given(st.lists(st.floats(0.01, 1e4), min_size=1, max_size=60))
def test_value_lies_in_the_bin_that_counts_it(values: list[float]) -> None:
    bins = _bins(values)
    slack = 1e-9 * max(values)
    for k, count in enumerate(bins.counts):
        low, high = bins.edge(k) - slack, bins.edge(k + 1) + slack
        assert sum(low <= value <= high for value in values) >= count


@given(
    st.lists(st.floats(0, 1e6), min_size=1, max_size=40),
    st.floats(-1e6, 1e6),
    st.floats(0, 1e6),
)
def test_nothing_is_drawn_outside(
    values: list[float], middle: float, half: float
) -> None:
    mean = MeanWithInterval(value=middle, lower=middle - half, upper=middle + half)
    for x in numbers(drawn(values, mean), "x1", "x2", "cx"):
        assert 0 <= x <= 390


def test_heights_are_the_counts() -> None:
    svg = drawn([7.1, 7.2, 7.3, 9.4])
    heights = [float(bar.get("height", "")) for bar in shapes(svg, "rect")]
    assert sorted(heights) == pytest.approx([50, 150], rel=0, abs=0.1)


def test_bins_are_round_and_start_at_a_multiple() -> None:
    bins = _bins([7.1, 8.3, 12.9])
    assert (bins.start, bins.width, bins.counts) == (6.0, 2.0, (1, 1, 0, 1))


def test_description_tells_the_same_numbers() -> None:
    title, told = described(drawn([7.1, 7.2, 7.3, 9.4]))
    assert title == "E1 & E2"
    assert "from 7.1 to 9.4 µm" in told
    assert "holds 3" in told
    assert "4 values. Circle: mean 8.4 ± 0.8 µm (95 %)." in told
    assert "not the spread of the values" in told


def test_axis_names_quantity_and_unit() -> None:
    assert "lineal intercept, µm" in written(drawn([1, 2, 3]))


def test_same_numbers_give_the_same_bytes() -> None:
    assert ET.tostring(drawn([3, 1, 2])) == ET.tostring(drawn([3, 1, 2]))


@pytest.mark.parametrize("values", [[], [1.0, float("nan")], [float("inf")]])
def test_values_that_cannot_be_drawn_are_refused(values: list[float]) -> None:
    with pytest.raises(ParameterError, match="values was given as"):
        drawn(values)
