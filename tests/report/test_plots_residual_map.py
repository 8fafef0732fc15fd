"""The map of the residual ratio: lines told apart in grey, the band, refusals."""

from math import log10

import pytest
from svg_reading import described, numbers, parsed, shapes, written

from strandproof.errors import ParameterError
from strandproof.report.plots import PurityCurve, residual_map_svg
from strandproof.report.plots.canvas import WIDTH

CONTENTS = (0.1, 1.0, 10.0, 100.0, 1000.0)


def curve(name: str, harm: float) -> PurityCurve:
    return PurityCurve(
        name=name,
        ppm=CONTENTS,
        ratios=tuple(1 / (1 / 400 + harm * ppm) for ppm in CONTENTS),
        bare_ratios=tuple(1 / (1 / 50_000 + harm * ppm) for ppm in CONTENTS),
    )


CURVES = (curve("silver", 5e-6), curve("nickel", 8e-5), curve("phosphorus", 9e-4))


def drawn(band: tuple[float, float | None] | None) -> str:
    return residual_map_svg(
        CURVES, band=band, piece="boundaries every 8 µm", title="map"
    )


def test_each_impurity_has_a_strong_and_a_thin_line_of_its_own_dashes() -> None:
    lines = shapes(parsed(drawn(None)), "polyline")
    assert len(lines) == 6
    looks = {(one.get("stroke-dasharray"), one.get("stroke-width")) for one in lines}
    assert len(looks) == 6
    assert len({one.get("stroke") for one in lines}) == 1


def test_band_lies_where_the_reading_is_and_in_the_key() -> None:
    svg = parsed(drawn((160.0, 180.0)))
    band, key = shapes(svg, "rect")
    assert float(str(band.get("height"))) < 0.1 * 280
    assert "this reading: 160 to 180" in written(svg)
    assert band.get("fill") == key.get("fill")
    # 180 lies 5 - log10(180) decades below the top of the scale.
    labels = {
        str(one.text): float(str(one.get("y"))) - 4.5 for one in shapes(svg, "text")
    }
    decade = labels["10 000"] - labels["100 000"]
    expected = labels["100 000"] + decade * (5 - log10(180.0))
    assert float(str(band.get("y"))) == pytest.approx(expected, abs=0.2)


def test_open_band_reaches_the_top() -> None:
    svg = parsed(drawn((300.0, None)))
    assert "this reading: 300 or more" in written(svg)
    band = shapes(svg, "rect")[0]
    assert float(str(band.get("height"))) > 0.5 * 280


def test_no_band_before_anything_is_measured() -> None:
    svg = parsed(drawn(None))
    assert not shapes(svg, "rect")
    assert "grey band" not in described(svg)[1]


def test_everything_lies_on_the_drawing() -> None:
    svg = parsed(drawn((20.0, 90_000.0)))
    assert min(numbers(svg, "x", "x1", "x2", "y", "y1", "y2")) >= 0
    assert max(numbers(svg, "x", "x1", "x2")) <= WIDTH


def test_description_holds_the_numbers() -> None:
    told = described(parsed(drawn((160.0, 180.0))))[1]
    assert "silver: 400 at 0.1 ppm" in told
    assert "This reading: 160 to 180" in told


def test_refusals() -> None:
    with pytest.raises(ParameterError, match="from 1 to 3 curves"):
        residual_map_svg([], band=None, piece="", title="map")
    wrong = PurityCurve(name="x", ppm=(0.0,), ratios=(1.0,), bare_ratios=(1.0,))
    with pytest.raises(ParameterError, match="above zero"):
        residual_map_svg([wrong], band=None, piece="", title="map")
