"""Flags of pictures as a whole, raised from plain drawings with one defect each."""

import numpy as np
import numpy.typing as npt
import pytest
from quality_pictures import (
    Plane,
    cell_labels,
    eight_bits,
    grooved,
    label_edges,
    noise_plane,
)
from scipy import ndimage

from strandproof.micrograph.lab import lab_picture
from strandproof.micrograph.quality import (
    picture_flags,
    quality_flags,
    structure_flags,
)
from strandproof.records import FLAGS, Flag

ROWS, COLS = np.indices((384, 384)) / 384


def flags(picture: Plane) -> tuple[Flag, ...]:
    metal = np.ones(picture.shape[:2], np.bool_)
    return picture_flags(lab_picture(picture), metal)


def names(picture: Plane) -> set[str]:
    return {flag.name for flag in flags(picture)}


def cells(noise: float = 0.015) -> Plane:
    return grooved(cell_labels(), noise=noise)


def test_sharp_picture_raises_nothing() -> None:
    assert names(cells()) == set()


def test_picture_without_noise_has_lost_nothing() -> None:
    assert "resized" not in names(cells(0.0))


def test_blurred_picture_is_flagged_with_its_blur() -> None:
    soft = ndimage.gaussian_filter(cells(0.0), 4) + noise_plane((384, 384), 0.015)
    (flag,) = flags(eight_bits(soft))
    assert flag.name == "blurred"
    assert flag.detail.endswith(" px")


def test_enlarged_picture_is_flagged() -> None:
    big = ndimage.zoom(cells(), 1.5, order=3, grid_mode=True, mode="nearest")
    found = {flag.name: flag.detail for flag in flags(eight_bits(big))}
    assert found["resized"] == "pattern as of enlarging 1.5 or 3.0 times"


def test_sharpened_picture_is_flagged() -> None:
    picture = cells(0.005)
    sharper = picture + 2 * (picture - ndimage.gaussian_filter(picture, 1.5))
    assert "sharpened" in names(eight_bits(sharper))


def test_white_areas_are_flagged_with_their_share() -> None:
    picture = cells()
    picture[:77] = 1.0
    (flag,) = (one for one in flags(picture) if one.name == "saturated")
    assert flag.detail == "20 % of the metal white, 0 % black"


def test_black_areas_are_flagged() -> None:
    picture = cells()
    picture[:, :77] = 0.0
    assert "0 % of the metal white, 20 % black" in {
        one.detail for one in flags(picture)
    }


def test_one_patch_of_glare_is_flagged_below_two_per_cent() -> None:
    picture = cells()
    picture[100:150, 100:142] = 1.0  # 1.4 % of the picture
    assert "saturated" in names(picture)


def test_light_from_one_side_is_flagged() -> None:
    lit = cells() * (1 - 0.6 * COLS)
    assert names(eight_bits(lit)) == {"uneven_light"}


def test_no_metal_no_flags() -> None:
    colours = lab_picture(cells())
    assert picture_flags(colours, np.zeros((384, 384), np.bool_)) == ()


def test_light_is_judged_from_the_overview() -> None:
    metal = np.ones((384, 384), np.bool_)
    even = lab_picture(cells())
    uneven = lab_picture(eight_bits(cells() * (1 - 0.6 * COLS)))
    (flag,) = picture_flags(even, metal, overview=(uneven, metal))
    assert flag.name == "uneven_light"
    assert picture_flags(uneven, metal, overview=(even, metal)) == ()


@pytest.mark.parametrize("side", [1, 17, 63, 64, 65])
def test_small_pictures_are_judged_without_fault(side: int) -> None:
    picture = np.full((side, side), 0.5, np.float32)
    assert names(picture) == set()
    colours, labels = lab_picture(picture), np.ones((side, side), np.int32)
    found = structure_flags(colours, grain_labels=labels, strand_labels=labels)
    assert found == ()


def structure_names(picture: Plane, grains: npt.NDArray[np.int32]) -> set[str]:
    found = structure_flags(
        lab_picture(picture),
        grain_labels=grains,
        strand_labels=np.ones(grains.shape, np.int32),
    )
    return {flag.name for flag in found}


def test_well_etched_grains_raise_nothing() -> None:
    grains = cell_labels()
    assert structure_names(grooved(grains), grains) == set()


def test_grains_of_few_pixels_are_flagged() -> None:
    grains = cell_labels(384, 4000)
    picture = grooved(grains, width=1.0)
    assert "few_pixels_per_grain" in structure_names(picture, grains)


def test_blur_is_held_against_the_grains() -> None:
    """The same blur spoils small grains and leaves large ones readable."""
    small, large = cell_labels(384, 900), cell_labels(384, 60)
    for grains, expected in ((small, True), (large, False)):
        soft = ndimage.gaussian_filter(grooved(grains, noise=0.0), 2.2)
        picture = eight_bits(soft + noise_plane(soft.shape, 0.01))
        assert ("blurred" in structure_names(picture, grains)) is expected


def test_wide_grooves_are_over_etched() -> None:
    grains = cell_labels(384, 250)
    assert "over_etched" in structure_names(grooved(grains, width=11), grains)


def test_boundaries_that_do_not_show_are_under_etched() -> None:
    """Two of three boundaries divide the metal and left no groove."""
    grains = cell_labels()
    shown = (grains % 3 == 0).astype(np.int32) * grains
    found = structure_names(grooved(shown), grains)
    assert "under_etched" in found


def test_grooves_as_weak_as_the_noise_have_low_contrast() -> None:
    grains = cell_labels()
    found = structure_names(grooved(grains, depth=0.02, noise=0.1), grains)
    assert {"low_contrast", "under_etched"} <= found


def test_guessed_boundaries_are_under_etched() -> None:
    grains = cell_labels()
    found = structure_flags(
        lab_picture(grooved(grains)),
        grain_labels=grains,
        strand_labels=np.ones(grains.shape, np.int32),
        probability=np.full(grains.shape, 80, np.uint8),
    )
    assert Flag("under_etched", "100 % of the boundaries are guesses") in found


@pytest.mark.parametrize(("rows", "expected"), [(12, False), (40, True)])
def test_one_boundary_in_twenty_may_be_a_guess(rows: int, *, expected: bool) -> None:
    """No probability in the first 12 or 40 of 384 rows, 3 or 10 % of the picture."""
    grains = cell_labels()
    plane = np.full(grains.shape, 255, np.uint8)
    plane[:rows] = 0
    found = structure_flags(
        lab_picture(grooved(grains)),
        grain_labels=grains,
        strand_labels=np.ones(grains.shape, np.int32),
        probability=np.where(label_edges(grains), plane, 0).astype(np.uint8),
    )
    assert ("under_etched" in {flag.name for flag in found}) is expected


@pytest.mark.parametrize(("length", "expected"), [(90, False), (140, True)])
def test_one_short_guess_among_few_boundaries_decides_nothing(
    length: int, *, expected: bool
) -> None:
    """Two grains; the boundary is a guess along some of its 384 px."""
    grains = np.ones((384, 384), np.int32)
    grains[:, 200:] = 2
    plane = (255 * label_edges(grains)).astype(np.uint8)
    plane[:length] = 0
    found = structure_flags(
        lab_picture(grooved(grains)),
        grain_labels=grains,
        strand_labels=np.ones(grains.shape, np.int32),
        probability=plane,
    )
    assert ("under_etched" in {flag.name for flag in found}) is expected


def test_sure_lines_without_a_boundary_are_under_etched() -> None:
    """The grains are half as many as the sure lines say."""
    grains = cell_labels()
    found = structure_flags(
        lab_picture(grooved(grains)),
        grain_labels=np.where(grains > 75, 76, grains),
        strand_labels=np.ones(grains.shape, np.int32),
        probability=(255 * label_edges(grains)).astype(np.uint8),
    )
    assert Flag("under_etched", "clear lines end inside of grains") in found


def test_grains_are_looked_at_in_the_window_and_counted_everywhere() -> None:
    """Grooves show in the window only; the strand is wider than the window."""
    grains = cell_labels()
    picture = lab_picture(grooved(grains)[:192, :208])
    found = structure_flags(
        picture,
        grain_labels=grains,
        strand_labels=np.ones(grains.shape, np.int32),
        window=(slice(0, 192), slice(0, 208)),
    )
    assert found == ()


def test_few_grains_across_name_the_strand() -> None:
    strands = np.zeros((384, 384), np.int32)
    strands[20:80], strands[100:340] = 1, 2
    grains = cell_labels(384, 800) * (strands > 0)
    found = structure_flags(
        lab_picture(grooved(grains)), grain_labels=grains, strand_labels=strands
    )
    across = [flag.strand for flag in found if flag.name == "few_grains_across"]
    assert across == [1]


def as_bytes(picture: Plane) -> npt.NDArray[np.uint8]:
    levels = np.rint(picture * 255).astype(np.uint8)
    return np.repeat(levels[..., None], 3, axis=2)


def test_one_call_raises_both_kinds_once() -> None:
    grains = cell_labels(384, 900)
    soft = ndimage.gaussian_filter(grooved(grains, noise=0.0), 3)
    picture = eight_bits((soft + noise_plane(soft.shape, 0.01)) * (1 - 0.6 * COLS))
    strands = np.ones(grains.shape, np.int32)
    found = quality_flags(as_bytes(picture), grain_labels=grains, strand_labels=strands)
    apart = picture_flags(lab_picture(picture), strands > 0)
    both = apart + structure_flags(
        lab_picture(picture), grain_labels=grains, strand_labels=strands
    )
    assert {flag.name for flag in found} == {flag.name for flag in both}
    assert len(found) == len({flag.name for flag in found}) < len(both)


def test_one_call_hears_the_probability() -> None:
    grains = cell_labels()
    found = quality_flags(
        as_bytes(grooved(grains)),
        grain_labels=grains,
        strand_labels=np.ones(grains.shape, np.int32),
        probability=np.zeros(grains.shape, np.uint8),
    )
    assert found == (Flag("under_etched", "100 % of the boundaries are guesses"),)


def test_one_call_without_metal_raises_nothing() -> None:
    nothing = np.zeros((384, 384), np.int32)
    picture = as_bytes(cells())
    assert quality_flags(picture, grain_labels=nothing, strand_labels=nothing) == ()


@pytest.mark.parametrize("lit", [False, True])
def test_large_picture_is_judged_whole(*, lit: bool) -> None:
    """Light from one side falls over 2800 px; the window shows 2048 of them."""
    tile = grooved(cell_labels(400, 150))
    picture = np.tile(tile, (4, 7))
    if lit:
        picture *= np.linspace(1, 0.5, picture.shape[1], dtype=np.float32)
    grains = np.tile(cell_labels(400, 150), (4, 7))
    found = quality_flags(
        as_bytes(eight_bits(picture)),
        grain_labels=grains,
        strand_labels=np.ones(grains.shape, np.int32),
    )
    assert {flag.name for flag in found} == ({"uneven_light"} if lit else set())


def test_every_new_flag_says_what_to_do() -> None:
    for name in ("resized", "sharpened", "over_etched", "under_etched", "uneven_light"):
        assert FLAGS[name].meaning.endswith(".")
        assert FLAGS[name].remedy.endswith(".")
