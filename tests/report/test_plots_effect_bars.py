"""Bars of effects: places by powers of ten, greys told apart, refusals."""

import numpy as np
import pytest
from svg_reading import described, numbers, parsed, shapes, written

from strandproof.errors import ParameterError
from strandproof.report.plots import EffectRow, effect_bars_svg
from strandproof.report.plots.canvas import WIDTH

ROW = EffectRow(name="boundaries", percents=((0.1, 1.0), (1.0, 10.0), (10.0, 1000.0)))
NOTHING = EffectRow(name="surface", percents=((0.0, 0.05), (0.0, 0.4), (0.0, 23.0)))


def test_bars_go_by_powers_of_ten_and_differ_in_grey() -> None:
    bars = shapes(
        parsed(effect_bars_svg([ROW], reachable_percent=None, title="t")), "rect"
    )
    widths = [float(str(bar.get("width"))) for bar in bars]
    np.testing.assert_allclose(widths, np.multiply(widths[0], (1, 1, 2)), atol=0.15)
    starts = [float(str(bar.get("x"))) for bar in bars]
    np.testing.assert_allclose(np.diff(starts), widths[0], atol=0.15)
    assert len({bar.get("fill") for bar in bars}) == 3


def test_effect_that_may_be_nothing_goes_on_to_the_left() -> None:
    svg = parsed(effect_bars_svg([NOTHING], reachable_percent=None, title="t"))
    assert len(shapes(svg, "path")) == 3
    assert not shapes(
        parsed(effect_bars_svg([ROW], reachable_percent=None, title="t")), "path"
    )


def test_own_uncertainty_is_a_tick_across_the_bar_at_room_temperature() -> None:
    svg = parsed(effect_bars_svg([ROW, NOTHING], reachable_percent=0.4, title="t"))
    assert "your uncertainty at 293 K: 0.4 %" in written(svg)
    ticks = [one for one in shapes(svg, "line") if one.get("stroke-width") == "2.4"]
    assert len(ticks) == 3  # two rows and the key
    first = shapes(svg, "rect")[0]
    start, width = (float(str(first.get(name))) for name in ("x", "width"))
    share = (float(str(ticks[0].get("x1"))) - start) / width
    np.testing.assert_allclose(share, np.log10(4.0), atol=0.01)


def test_everything_lies_on_the_drawing() -> None:
    svg = parsed(effect_bars_svg([ROW, NOTHING], reachable_percent=0.4, title="t"))
    assert min(numbers(svg, "x", "x1", "x2", "y", "y1", "y2")) >= 0
    assert max(numbers(svg, "x", "x1", "x2")) <= WIDTH


def test_description_holds_the_numbers() -> None:
    told = described(parsed(effect_bars_svg([ROW], reachable_percent=0.4, title="t")))[
        1
    ]
    assert "boundaries: 0.1 to 1 % at 293 K" in told
    assert "Your uncertainty at 293 K: 0.4 %" in told


def test_refusals() -> None:
    with pytest.raises(ParameterError, match="one or more"):
        effect_bars_svg([], reachable_percent=None, title="t")
    wrong = EffectRow(name="x", percents=((-1.0, 1.0), (0.0, 1.0), (0.0, 1.0)))
    with pytest.raises(ParameterError, match="zero or above"):
        effect_bars_svg([wrong], reachable_percent=None, title="t")
