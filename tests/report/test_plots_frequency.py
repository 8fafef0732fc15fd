"""The drawing over frequency: curves told apart without colour, words, refusals."""

from itertools import pairwise

import pytest
from svg_reading import described, numbers, parsed, shapes, written

from strandproof.errors import ParameterError
from strandproof.report.plots import RiseCurve, frequency_svg, rise_in_words
from strandproof.report.plots.canvas import WIDTH

DECADES = (20.0, 200.0, 2e3, 2e4, 2e5, 1e6)


def curve(name: str, share: float) -> RiseCurve:
    ratios = tuple(1 + share * (f / 20e3) ** 2 for f in DECADES)
    return RiseCurve(
        name=name, frequencies_hz=DECADES, ratios=ratios, at_20_khz=1 + share
    )


CURVES = (curve("a", 1e-4), curve("b", 4e-4), curve("c", 0.3), curve("d", 1e-6))


def test_every_curve_has_dashes_of_its_own_and_a_key() -> None:
    svg = parsed(frequency_svg(CURVES, title="four"))
    lines = shapes(svg, "polyline")
    assert len({each.get("stroke-dasharray") for each in lines}) == 4
    assert {each.get("stroke") for each in lines} == {"#1d2226"}
    assert "b: 0.040 % at 20 kHz" in written(svg)


def test_a_curve_begins_at_the_floor_and_never_falls() -> None:
    svg = parsed(frequency_svg(CURVES[:1], title="one"))
    text = shapes(svg, "polyline")[0].get("points")
    assert text is not None
    places = [tuple(map(float, word.split(","))) for word in text.split()]
    axis = max(float(str(each.get("y1"))) for each in shapes(svg, "line")[:9])
    assert abs(places[0][1] - axis) < 0.11
    assert all(a[0] < b[0] and a[1] > b[1] for a, b in pairwise(places))


def test_everything_lies_on_the_drawing() -> None:
    svg = parsed(frequency_svg(CURVES, title="four"))
    assert min(numbers(svg, "x", "x1", "x2", "y", "y1", "y2")) >= 0
    assert max(numbers(svg, "x", "x1", "x2")) <= WIDTH


def test_description_says_the_numbers_and_what_it_is_not_about() -> None:
    title, told = described(parsed(frequency_svg(CURVES, title="four")))
    assert title == "four"
    assert "c: 30 % at 20 kHz." in told
    assert "could be heard is another question" in told


def test_a_conductor_without_any_rise_is_still_told() -> None:
    flat = RiseCurve(
        name="flat", frequencies_hz=DECADES, ratios=(1.0,) * 6, at_20_khz=1.0
    )
    svg = parsed(frequency_svg([flat], title="flat"))
    assert not shapes(svg, "polyline")
    assert "flat: less than 0.0001 % at 20 kHz" in written(svg)


def test_long_names_stand_below_their_sample() -> None:
    svg = parsed(frequency_svg([curve("n" * 60 + " " + "m" * 30, 0.1)], title="long"))
    assert max(numbers(svg, "x")) <= WIDTH


@pytest.mark.parametrize(
    ("ratio", "words"),
    [(1.33, "33 %"), (1.0001, "0.010 %"), (8.0, "700 %"), (1.0000001, "less than")],
)
def test_rise_in_words(ratio: float, words: str) -> None:
    assert rise_in_words(ratio).startswith(words)


def test_refusals() -> None:
    with pytest.raises(ParameterError, match="from 1 to 4 curves"):
        frequency_svg([], title="none")
    short = RiseCurve(name="s", frequencies_hz=(1.0,), ratios=(1.0, 2.0), at_20_khz=1.0)
    with pytest.raises(ParameterError, match="one for each frequency"):
        frequency_svg([short], title="short")
    negative = RiseCurve(
        name="s", frequencies_hz=(-1.0, 2.0), ratios=(1.0, 2.0), at_20_khz=1.0
    )
    with pytest.raises(ParameterError, match="above zero"):
        frequency_svg([negative], title="negative")
