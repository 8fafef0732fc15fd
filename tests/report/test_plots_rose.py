"""Rose: lines without heads, area for number, a range pointed at."""

from math import hypot
from xml.etree import ElementTree as ET

import pytest
from hypothesis import given
from hypothesis import strategies as st
from svg_reading import described, parsed, shapes

from strandproof.errors import ParameterError
from strandproof.report.plots import direction_rose_svg
from strandproof.report.plots.rose import _counts


def sectors(svg: ET.Element) -> list[list[float]]:
    """Give middle and first corner of every sector."""
    paths = [str(p.get("d")) for p in shapes(svg, "path") if p.get("fill") != "none"]
    split = [p.replace("M", "").replace("L", "").split() for p in paths]
    return [[float(each) for each in words[:4]] for words in split]


@given(st.lists(st.floats(-1e4, 1e4), min_size=1), st.sampled_from([1, 5, 10, 45, 60]))
def test_every_direction_is_counted_once(directions: list[float], sector: int) -> None:
    assert sum(_counts(directions, sector)) == len(directions)


@given(st.lists(st.integers(-400, 400), min_size=1))
def test_turning_a_line_by_half_a_turn_changes_nothing(directions: list[int]) -> None:
    turned = [each + 180 for each in directions]
    assert _counts(turned, 10) == _counts(directions, 10)


def test_directions_about_the_rows_are_not_split() -> None:
    assert _counts([-4, 0, 4, 176.5, 184], 10)[0] == 5


def test_every_sector_has_its_opposite_and_area_tells_the_number() -> None:
    svg = parsed(direction_rose_svg([0, 0, 0, 0, 90], title="t"))
    found = sectors(svg)
    reach = sorted(hypot(x - cx, y - cy) for cx, cy, x, y in found)
    assert reach == pytest.approx([64, 64, 128, 128], rel=0, abs=0.2)
    first, opposite = (each for each in found if abs(each[2] - 195) > 100)
    assert first[2] + opposite[2] == pytest.approx(390, rel=0, abs=0.2)


def test_range_pointed_at_counts_over_the_seam() -> None:
    svg = direction_rose_svg(
        [89, 90, -89, 0], title="t", what="lines", pointed_at_deg=(88, 92)
    )
    _, told = described(parsed(svg))
    assert "3 of 4 lines lie within 4°, from 88° to −88°" in told


def test_description_tells_the_fullest_sector() -> None:
    _, told = described(parsed(direction_rose_svg([-31, -29, 80], title="t")))
    assert "the fullest is centred on −30° and holds 2" in told


@pytest.mark.parametrize(
    ("directions", "sector", "pointed_at"),
    [
        ([], 10, None),
        ([float("nan")], 10, None),
        ([1.0], 7, None),
        ([1.0], 90, None),
        ([1.0], 10, (5.0, 4.0)),
        ([1.0], 10, (0.0, 181.0)),
    ],
)
def test_what_is_no_rose_is_refused(
    directions: list[float], sector: int, pointed_at: tuple[float, float] | None
) -> None:
    with pytest.raises(ParameterError, match="allowed is"):
        direction_rose_svg(
            directions, title="t", sector_deg=sector, pointed_at_deg=pointed_at
        )
