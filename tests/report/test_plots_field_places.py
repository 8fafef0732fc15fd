"""The drawing of fields: every one is there, those not used are crossed out."""

import pytest

from strandproof.errors import ParameterError
from strandproof.report.plots import FieldStrip, field_places_svg

STRIPS = [FieldStrip("E1-s1-L", (0.5, 3.0, 9.0), (True, False, True))]
FACES = [("E1-s1-T", True), ("E2-s3-T", False)]
SIZES = {"length_mm": 10.0, "width_mm": 0.31}


def test_every_field_is_drawn_and_unused_ones_are_crossed() -> None:
    svg = str(field_places_svg(STRIPS, FACES, title="5 fields", **SIZES))
    assert svg.count("<rect") == 3
    assert svg.count("<circle") == 2
    assert svg.count('stroke-width="2"') == 4  # two lines for each of two crosses
    assert "E1-s1-L: 2 of 3 fields used" in svg
    assert "E2-s3-T: face not used" in svg


def test_places_go_by_their_scale() -> None:
    svg = str(field_places_svg(STRIPS, [], title="x", **SIZES))
    places = [float(part.partition('"')[0]) for part in svg.split('<rect x="')[1:]]
    start, end = 92.0, 378.0
    expected = [start + (end - start) * mm / 10 for mm in (0.5, 3.0, 9.0)]
    assert places == pytest.approx(expected, abs=0.05)


def test_nothing_to_draw_is_refused() -> None:
    with pytest.raises(ParameterError, match="one planned field or more"):
        field_places_svg([], [], title="x", **SIZES)
    with pytest.raises(ParameterError, match="above zero"):
        field_places_svg(STRIPS, [], title="x", length_mm=0, width_mm=1)
