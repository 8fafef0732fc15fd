"""What was found, drawn on the picture: each kind of line in a way of its own."""

from dataclasses import replace

import numpy as np
import numpy.typing as npt
import pytest
from scipy import ndimage

from strandproof.micrograph import overlay, segment
from strandproof.micrograph.render import (
    Etch,
    GrainPopulation,
    Groove,
    Preparation,
    SectionParameters,
    StrandLayout,
    render_section,
)
from strandproof.records import BoundarySegments, LabelledStructure

Labels = npt.NDArray[np.int32]
Mask = npt.NDArray[np.bool_]
Colours = npt.NDArray[np.uint8]
SIDE = 120
ROWS, COLS = np.indices((SIDE, SIDE))
RED, YELLOW, BLUE = (230, 30, 30), (255, 230, 0), (0, 60, 200)
TWIN_DARK, TWIN_LIGHT = (45, 0, 90), (235, 215, 255)
HATCH_DARK, HATCH_LIGHT = (40, 40, 40), (235, 235, 235)
GREY = np.full((SIDE, SIDE), 0.6, np.float32)


def structure(strands: Labels, grains: Labels | None = None) -> LabelledStructure:
    return LabelledStructure(
        grain_labels=strands if grains is None else grains,
        strand_labels=strands,
        strands=(),
        flags=(),
        method="drawn by hand",
        method_version="1",
    )


def drawn_as(shown: Colours, colour: tuple[int, int, int]) -> Mask:
    found: Mask = (shown == np.array(colour, np.uint8)).all(axis=2)
    return found


def disc() -> Labels:
    inside: Labels = (np.hypot(ROWS - 60, COLS - 60) <= 40).astype(np.int32)
    return inside


def test_overlay_draws_boundaries_and_outline_apart() -> None:
    section = render_section(
        SectionParameters(
            population=GrainPopulation(family="equiaxed", mean_intercept_um=7.0),
            layout=StrandLayout(arrangement="round", width_um=60),
            etch=Etch(groove=Groove(width_px=2.5, depth=0.65, gap_fraction=0.02)),
            preparation=Preparation(scratches_per_mpx=1, pits_per_mpx=5),
            um_per_px=0.2,
            shape=(384, 384),
        ),
        seed=2,
    )
    found = segment(section.picture)
    shown = overlay(section.picture, found)
    assert shown.shape == (384, 384, 3)
    assert shown.dtype == np.uint8
    boundary = (found.grain_labels == 0) & (found.strand_labels > 0)
    red = drawn_as(shown, RED)
    assert red.any()
    assert not (red & ~boundary).any()
    outside = found.strand_labels == 0
    untouched = np.rint(section.picture * 255).astype(np.uint8)
    assert np.array_equal(shown[outside], untouched[outside])


def test_grey_picture_is_drawn_on_in_colour() -> None:
    picture = np.full((32, 32), 0.6, np.float32)
    assert overlay(picture, segment(picture)).shape == (32, 32, 3)


def test_boundary_is_red_from_end_to_end() -> None:
    """A field has no outline, so every boundary pixel shows."""
    field = np.ones((SIDE, SIDE), np.int32)
    grains = field + (COLS > 50)
    grains[:, 50] = 0
    shown = overlay(GREY, structure(field, grains.astype(np.int32)))
    assert np.array_equal(drawn_as(shown, RED), COLS == 50)
    assert (shown[COLS != 50] == 153).all()


def test_outline_is_the_outermost_pixels_of_the_strand() -> None:
    strands = disc()
    shown = overlay(GREY, structure(strands))
    inner = ndimage.binary_erosion(strands, np.ones((3, 3), np.bool_))
    outline = drawn_as(shown, YELLOW) | drawn_as(shown, BLUE)
    assert np.array_equal(outline, (strands > 0) & ~inner)
    assert not drawn_as(shown, RED).any()


def test_each_of_two_touching_strands_has_an_outline() -> None:
    strands = (1 + (COLS >= 60)).astype(np.int32)
    shown = overlay(GREY, structure(strands))
    outline = drawn_as(shown, YELLOW) | drawn_as(shown, BLUE)
    assert np.array_equal(outline, (COLS == 59) | (COLS == 60))


@pytest.mark.parametrize("angle", range(0, 180, 15))
def test_outline_is_dashed_in_every_direction(angle: int) -> None:
    """No colour goes on for longer than two dashes of at most 17 px."""
    turn = np.deg2rad(angle)
    across = (ROWS - 60) * np.cos(turn) + (COLS - 60) * np.sin(turn)
    shown = overlay(GREY, structure((np.abs(across) <= 15).astype(np.int32)))
    light, dark = drawn_as(shown, YELLOW), drawn_as(shown, BLUE)
    assert light.sum() == pytest.approx(dark.sum(), rel=0.4)
    for colour in (light, dark):
        dashes, n_dashes = ndimage.label(colour, np.ones((3, 3)))
        assert n_dashes >= 6
        assert np.bincount(dashes.ravel())[1:].max() <= 34


def test_no_metal_leaves_the_picture_as_it_is() -> None:
    colour = np.random.default_rng(1).random((9, 7, 3)).astype(np.float32)
    shown = overlay(colour, structure(np.zeros((9, 7), np.int32)))
    assert np.array_equal(shown, np.rint(colour * 255).astype(np.uint8))


def test_values_out_of_range_are_clipped() -> None:
    picture = np.array([[-0.5, 0.0], [1.0, 7.0]], np.float32)
    shown = overlay(picture, structure(np.zeros((2, 2), np.int32)))
    assert shown[..., 0].tolist() == [[0, 0], [255, 255]]


@pytest.mark.parametrize("channels", [1, 3])
def test_picture_and_labels_are_not_changed(channels: int) -> None:
    picture = GREY.copy() if channels == 1 else np.dstack([GREY] * 3)
    found = structure(disc(), disc() * (COLS != 60))
    before = picture.copy(), found.strand_labels.copy(), found.grain_labels.copy()
    overlay(picture, found)
    assert np.array_equal(picture, before[0])
    assert np.array_equal(found.strand_labels, before[1])
    assert np.array_equal(found.grain_labels, before[2])


def three_grains(probabilities: tuple[float, float]) -> LabelledStructure:
    """A field with boundaries at columns 30 and 80."""
    grains = (1 + (COLS > 30) + (COLS > 80)).astype(np.int32)
    grains[:, [30, 80]] = 0
    return replace(
        structure(np.ones((SIDE, SIDE), np.int32), grains),
        segments=BoundarySegments(
            first=np.array([1, 2], np.int32),
            second=np.array([2, 3], np.int32),
            length_px=np.full(2, SIDE, np.float32),
            probability=np.array(probabilities, np.float32),
        ),
    )


def test_boundary_that_is_not_sure_is_dotted() -> None:
    red = drawn_as(overlay(GREY, three_grains((0.79, 0.81))), RED)
    assert red[:, 80].all()
    dots, n_dots = ndimage.label(red[:, 30])
    assert n_dots == SIDE // 6
    assert np.bincount(dots)[1:].max() == 3
    assert not red[:, [29, 31]].any()


def test_sure_boundaries_are_solid() -> None:
    red = drawn_as(overlay(GREY, three_grains((0.8, 1.0))), RED)
    assert np.array_equal(red, (COLS == 30) | (COLS == 80))


@pytest.mark.parametrize("angle", range(0, 180, 15))
def test_dots_show_in_every_direction(angle: int) -> None:
    turn = np.deg2rad(angle)
    side = (ROWS - 60) * np.cos(turn) + (COLS - 60) * np.sin(turn)
    grains = np.where(np.abs(side) < 0.8, 0, 1 + (side > 0)).astype(np.int32)
    found = replace(
        structure(np.ones((SIDE, SIDE), np.int32), grains),
        segments=BoundarySegments(
            first=np.array([1], np.int32),
            second=np.array([2], np.int32),
            length_px=np.full(1, SIDE, np.float32),
            probability=np.full(1, 0.5, np.float32),
        ),
    )
    red = drawn_as(overlay(GREY, found), RED)
    assert red.sum() == pytest.approx((grains == 0).sum() / 2, rel=0.25)
    assert ndimage.label(red, np.ones((3, 3)))[1] >= 15


def test_twin_is_a_dark_line_beside_a_light_one() -> None:
    found = three_grains((1.0, 1.0))
    twin = (COLS == 50) & (ROWS > 20)
    shown = overlay(GREY, replace(found, twin_boundary=twin))
    assert np.array_equal(drawn_as(shown, TWIN_DARK), twin)
    light = drawn_as(shown, TWIN_LIGHT)
    assert np.array_equal(light, (COLS == 51) & (ROWS > 20))
    # They differ in lightness, so a grey print shows both: sRGB luma.
    luma = np.array([0.2126, 0.7152, 0.0722])
    assert luma @ TWIN_LIGHT - luma @ TWIN_DARK > 150


def test_grain_boundary_hides_the_light_line_of_a_twin() -> None:
    found = three_grains((1.0, 1.0))
    shown = overlay(GREY, replace(found, twin_boundary=(COLS == 29) | (COLS == 80)))
    assert drawn_as(shown, RED)[:, [30, 80]].all()
    assert not drawn_as(shown, TWIN_LIGHT)[:, 30].any()
    assert not drawn_as(shown, TWIN_DARK)[:, 80].any()


def test_unreadable_is_hatched_and_has_no_outline() -> None:
    dark = (ROWS > 40) & (ROWS < 80) & (COLS > 40) & (COLS < 80)
    strands = np.where(dark, 0, 1).astype(np.int32)
    shown = overlay(GREY, replace(structure(strands), unreadable=dark))
    hatched = drawn_as(shown, HATCH_DARK) | drawn_as(shown, HATCH_LIGHT)
    assert not (hatched & ~dark).any()
    assert 0.2 < hatched[dark].mean() < 0.5
    assert (shown[~dark] == 153).all()
    both = ndimage.maximum_filter(hatched, 12)
    assert both[dark].all()


def test_edge_of_a_strand_beside_an_unreadable_area_keeps_its_outline() -> None:
    dark = COLS < 20
    strands = ((COLS >= 20) & (ROWS < 60)).astype(np.int32)
    shown = overlay(GREY, replace(structure(strands), unreadable=dark))
    outline = drawn_as(shown, YELLOW) | drawn_as(shown, BLUE)
    assert np.array_equal(outline, (ROWS == 59) & (COLS >= 20))
