"""A mean and its interval: said and drawn alike, open ends too."""

import pytest
from svg_reading import parsed, shapes

from strandproof.errors import ParameterError
from strandproof.report.plots import MeanWithInterval
from strandproof.report.plots.canvas import RANGE, Scale
from strandproof.report.plots.means import mean_sign

SCALE = Scale(0, 10, 0, 100)
H7 = MeanWithInterval(value=8.444, lower=7.661, upper=9.227)


def drawn(mean: MeanWithInterval, *, holds: bool = True) -> tuple[list[str], int]:
    sign = mean_sign(mean, SCALE, 20, holds=holds)
    svg = parsed(f'<svg xmlns="http://www.w3.org/2000/svg">{sign}</svg>')
    bars = [each for each in shapes(svg, "line") if each.get("stroke") == RANGE]
    ends = [str(each.get(name)) for each in bars for name in ("x1", "x2")]
    return ends, len(shapes(svg, "path"))


def test_interval_is_said_with_the_digits_it_deserves() -> None:
    assert H7.in_words("um") == "8.4 ± 0.8 µm (95 %)"


def test_no_interval_is_said() -> None:
    assert MeanWithInterval(value=8.2).in_words("um") == "8.2 µm, no interval stated"


def test_one_sided_interval_keeps_the_mean() -> None:
    words = MeanWithInterval(value=8.2, lower=7.3).in_words("um")
    assert words == "8.2 µm, interval at least 7.3 µm (95 %, one-sided)"


def test_bar_stands_where_the_interval_is() -> None:
    assert drawn(H7) == (["76.6", "92.3"], 0)


def test_open_end_goes_to_the_edge_with_an_arrow() -> None:
    assert drawn(MeanWithInterval(value=8.2, lower=7.3)) == (["73.0", "100.0"], 1)
    assert drawn(MeanWithInterval(value=8.2, upper=9.0)) == (["0.0", "90.0"], 1)
    assert drawn(MeanWithInterval(value=8.2)) == ([], 0)


def test_interval_that_does_not_hold_is_no_bar() -> None:
    assert drawn(H7, holds=False) == ([], 0)
    assert "stroke-dasharray" in mean_sign(H7, SCALE, 20, holds=False)


@pytest.mark.parametrize(
    ("lower", "value", "upper"), [(9, 8, 10), (1, 8, 7), (None, float("nan"), 9)]
)
def test_mean_outside_of_its_interval_is_refused(
    lower: float | None, value: float, upper: float
) -> None:
    with pytest.raises(ParameterError, match="mean and interval"):
        MeanWithInterval(value=value, lower=lower, upper=upper)
