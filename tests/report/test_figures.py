"""Micrographs in a report: the bar comes from the calibration or there is none."""

import base64
from math import inf, log10, nan
from xml.etree import ElementTree as ET

import pytest
from hypothesis import given
from hypothesis import strategies as st
from report_examples import JPEG, like, picture, state_of

from strandproof.errors import ParameterError
from strandproof.records.entries import Calibration, Micrograph, Section
from strandproof.report import scale_bar_um
from strandproof.report.figures import Figure, micrograph_figures, micrograph_svg

SVG = "{http://www.w3.org/2000/svg}"


def drawn(svg: str) -> ET.Element:
    return ET.fromstring(svg)  # noqa: S314 - our own drawing


def words(svg: ET.Element) -> list[str]:
    return [str(text.text) for text in svg.iter(f"{SVG}text")]


def black_bars(svg: ET.Element) -> list[ET.Element]:
    return [rect for rect in svg.iter(f"{SVG}rect") if rect.get("fill") == "#000"]


def figure(**changes: object) -> Figure:
    section = like(Section, blind_code=str(changes.pop("blind_code", "")))
    micrograph = like(Micrograph, **changes)
    state = state_of(section, like(Calibration), micrograph)
    return micrograph_figures(state, {"f1": picture()})[0]


@given(st.floats(1e-3, 1e9))
def test_bar_is_of_the_series_and_fits_the_picture(width_um: float) -> None:
    length = scale_bar_um(width_um)
    # Rounding of the decade may carry a bar past its share by a millionth.
    assert 0.124 * (1 - 1e-6) <= length / width_um <= 0.31 * (1 + 2e-6)
    lead = length / 10 ** round(log10(length) - 0.2)
    assert min(abs(lead - step) for step in (1, 2, 5)) < 1e-6


@pytest.mark.parametrize("width_um", [0.0, -5.0, nan, inf])
def test_bar_needs_a_width(width_um: float) -> None:
    with pytest.raises(ParameterError, match="a finite length above zero"):
        scale_bar_um(width_um)


def test_without_calibration_it_says_so_and_shows_no_bar() -> None:
    shown = figure(calibration=None)
    svg = drawn(str(shown.svg))
    assert "no scale" in words(svg)
    assert black_bars(svg) == []
    assert "no calibration: shown, not measured" in shown.caption


def test_with_calibration_there_is_one_bar_inside_of_the_picture() -> None:
    svg = drawn(str(figure().svg))
    bar = black_bars(svg)[0]
    assert len(black_bars(svg)) == 1
    assert "no scale" not in words(svg)
    left, length = float(bar.get("x", "")), float(bar.get("width", ""))
    assert left >= 0
    assert left + length <= 1800
    assert float(bar.get("y", "")) <= 1200


@pytest.mark.parametrize(
    ("pixel_size_um", "said"), [(0.0003, "0.1 µm"), (0.1726, "50 µm"), (2.5, "1 mm")]
)
def test_bar_says_its_length(pixel_size_um: float, said: str) -> None:
    svg = micrograph_svg(picture(), pixel_size_um=pixel_size_um, alt="x", mark="")
    assert words(drawn(str(svg))) == [said]


def test_picture_is_inside_and_described() -> None:
    svg = drawn(str(figure(blind_code="DQV-835").svg))
    assert svg.get("role") == "img"
    assert svg.get("aria-label") == (
        "Micrograph of a longitudinal section, code DQV-835, 1 of 5"
    )
    image = next(svg.iter(f"{SVG}image"))
    data = str(image.get("href")).removeprefix("data:image/jpeg;base64,")
    assert base64.b64decode(data) == JPEG
    assert (image.get("width"), image.get("height")) == ("1800", "1200")


def test_reader_sees_the_blind_code_or_the_section() -> None:
    assert "DQV-835" in words(drawn(str(figure(blind_code="DQV-835").svg)))
    assert "E1-s1-L" in words(drawn(str(figure().svg)))


def test_synthetic_picture_says_so_three_times() -> None:
    shown = figure(blind_code="DQV-835", synthetic=True)
    assert "DQV-835 synthetic" in words(drawn(str(shown.svg)))
    assert shown.alt.startswith("Synthetic picture")
    assert shown.caption.startswith("Synthetic picture f1")


def test_caption_names_place_light_scale_and_original() -> None:
    shown = figure(light="bright field", etch_step="etch step 2")
    for part in ("f1", "1 of 5", "bright field", "etch step 2", "0.17260 µm"):
        assert part in shown.caption
    assert "u = 0.00040 µm" in shown.caption
    assert shown.micrograph.file_sha256[:12] in shown.caption


def test_words_of_a_user_are_text_and_nothing_else() -> None:
    nasty = "<script>alert(1)</script>&\"'"
    svg = drawn(str(figure(blind_code=nasty).svg))
    assert not list(svg.iter("script"))
    assert not list(svg.iter(f"{SVG}script"))
    assert nasty in words(svg)
    assert nasty in str(svg.get("aria-label"))


def test_only_micrographs_at_hand_are_shown_in_order_of_entry() -> None:
    bodies = [like(Micrograph, id=name) for name in ("f3", "f1", "f2")]
    state = state_of(like(Section), like(Calibration), *bodies)
    shown = micrograph_figures(state, {"f1": picture(), "f3": picture()})
    assert [each.micrograph.id for each in shown] == ["f3", "f1"]
