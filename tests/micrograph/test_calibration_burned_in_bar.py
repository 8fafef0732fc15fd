"""Scale bars burned into synthetic pictures."""

from functools import cache

import numpy as np
import numpy.typing as npt
import pytest

from strandproof.errors import ParameterError
from strandproof.micrograph.calibration import (
    BurnedInBar,
    calibration_from_bar,
    find_scale_bar,
)
from strandproof.micrograph.render import BAR_CORNERS, ScaleBar, burn_scale_bar
from strandproof.micrograph.render.appearance import BarCorner
from strandproof.micrograph.render.lettering import bar_length_um

UM_PER_PX = 0.1726


@cache
def field(
    seed: int = 4, shape: tuple[int, int] = (400, 600)
) -> npt.NDArray[np.float32]:
    """Draw cells of many shades with white and black ones among them."""
    chance = np.random.default_rng(seed)
    places = chance.uniform((0, 0), shape, (30, 2))
    rows, columns = np.indices(shape)
    nearest = np.hypot(
        rows[..., None] - places[:, 0], columns[..., None] - places[:, 1]
    ).argmin(axis=2)
    grey = chance.uniform(0, 1, 30)[nearest] + chance.normal(0, 0.03, shape)
    return np.repeat(np.clip(grey, 0, 1)[..., None], 3, axis=2).astype(np.float32)


@pytest.mark.parametrize("corner", BAR_CORNERS)
@pytest.mark.parametrize("with_text", [True, False])
def test_the_renderers_bar_is_found_in_every_corner(
    corner: BarCorner, *, with_text: bool
) -> None:
    bar = ScaleBar(corner=corner, with_text=with_text)
    picture = burn_scale_bar(field(), um_per_px=UM_PER_PX, bar=bar).picture
    found = find_scale_bar(picture)
    assert found is not None
    length_um = bar_length_um(0.25 * 600 * UM_PER_PX)
    assert found.length_px.value == pytest.approx(
        round(length_um / UM_PER_PX), rel=0, abs=0.01
    )
    assert found.colour == "white"
    assert found.tick_px == 0


def with_bar(
    columns: slice, rows: slice = slice(370, 374), *, tick: int = 0
) -> npt.NDArray[np.float32]:
    picture = 0.3 + 0.3 * field()
    picture[355:395, 300:590] = 1.0
    picture[rows, columns] = 0.0
    if tick:
        for start in (columns.start, columns.stop - tick):
            picture[rows.start - 6 : rows.stop + 6, start : start + tick] = 0.0
    return picture


def test_a_black_bar_on_a_white_field_is_found() -> None:
    found = find_scale_bar(with_bar(slice(320, 540)))
    assert found is not None
    assert (found.colour, found.top_px, found.bottom_px) == ("black", 370, 374)
    assert found.left_px == pytest.approx(320, rel=0, abs=0.01)
    assert found.right_px == pytest.approx(540, rel=0, abs=0.01)


def test_ticks_widen_the_doubt() -> None:
    plain, ticked = (
        find_scale_bar(with_bar(slice(320, 540), tick=tick)) for tick in (0, 4)
    )
    assert plain is not None
    assert ticked is not None
    assert ticked.tick_px == 4
    # Between outer edges, 220 px, and inner edges, 212 px, on average.
    assert ticked.length_px.value == pytest.approx(218, rel=0, abs=0.01)
    assert ticked.length_px.standard_uncertainty > plain.length_px.standard_uncertainty


def test_a_half_covered_end_counts_one_half() -> None:
    picture = with_bar(slice(320, 540))
    picture[370:374, 540] = 0.5
    found = find_scale_bar(picture)
    assert found is not None
    assert found.right_px == pytest.approx(540.5, rel=0, abs=0.02)


@pytest.mark.parametrize("seed", range(4))
def test_no_bar_is_made_up(seed: int) -> None:
    assert find_scale_bar(field(seed)) is None


def test_an_even_picture_has_none() -> None:
    assert find_scale_bar(np.full((100, 100), 0.5)) is None


def test_a_frame_around_the_picture_is_no_bar() -> None:
    picture = 0.3 + 0.3 * field()
    picture[:4], picture[-4:], picture[:, :4], picture[:, -4:] = 1, 1, 1, 1
    assert find_scale_bar(picture) is None


@pytest.fixture
def bar() -> BurnedInBar:
    picture = burn_scale_bar(field(), um_per_px=UM_PER_PX, bar=ScaleBar()).picture
    found = find_scale_bar(picture)
    assert found is not None
    return found


def test_a_bar_is_never_trusted_alone(bar: BurnedInBar) -> None:
    found = calibration_from_bar(bar, length_um=20.0)
    assert [flag.name for flag in found.flags] == ["burned_in_bar"]
    u = found.pixel_size.standard_uncertainty
    assert abs(found.pixel_size.value - UM_PER_PX) < 2 * u
    assert (found.width_px, found.height_px) == (600, 400)


@pytest.mark.parametrize("length", [0.0, -20.0, float("inf")])
def test_a_length_has_to_be_above_zero(bar: BurnedInBar, length: float) -> None:
    with pytest.raises(ParameterError, match="length_um"):
        calibration_from_bar(bar, length_um=length)
