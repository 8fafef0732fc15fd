"""The mark SYNTHETIC and the scale bar."""

import numpy as np
import pytest

from strandproof.errors import ParameterError
from strandproof.micrograph.render import (
    BAR_CORNERS,
    BarCorner,
    ScaleBar,
    burn_scale_bar,
    mark_synthetic,
)
from strandproof.micrograph.render.lettering import bar_length_um, letter_mask

GREY = np.full((400, 600, 3), 0.5, np.float32)


@pytest.mark.parametrize("corner", BAR_CORNERS)
def test_the_mark_stands_in_its_corner_on_a_black_box(corner: BarCorner) -> None:
    marked = mark_synthetic(GREY, corner=corner)
    row = 0 if corner.startswith("top") else -1
    column = 0 if corner.endswith("left") else -1
    assert marked.region[row, column]
    assert marked.region.mean() < 0.05
    assert set(np.unique(marked.picture[marked.region])) == {0.0, 1.0}
    assert np.array_equal(marked.picture[~marked.region], GREY[~marked.region])
    assert np.all(GREY == 0.5)


def test_the_mark_spells_synthetic() -> None:
    marked = mark_synthetic(GREY)
    rows, columns = np.nonzero(marked.region)
    box = marked.picture[: rows.max() + 1, : columns.max() + 1, 0] > 0.5
    drawn = box[4:-4, 4:-4]
    assert np.array_equal(drawn, letter_mask("SYNTHETIC", 1))
    # Nine letters of five columns with eight gaps between them.
    assert drawn.shape == (7, 9 * 5 + 8)


def test_letters_differ_from_each_other() -> None:
    letters = "0123456789CEHINSTYmu."
    drawings = {letter_mask(letter, 1).tobytes() for letter in letters}
    assert len(drawings) == len(letters)


def test_the_letters_grow_with_the_picture() -> None:
    large = mark_synthetic(np.zeros((2000, 2000, 3), np.float32))
    small = mark_synthetic(np.zeros((400, 400, 3), np.float32))
    assert large.region.sum() > 20 * small.region.sum()


def test_an_unknown_letter_is_refused() -> None:
    with pytest.raises(ParameterError, match="text was given as 'Q'"):
        letter_mask("Q", 1)


def test_a_picture_too_small_for_letters_is_refused() -> None:
    with pytest.raises(ParameterError, match="rows and"):
        mark_synthetic(np.zeros((10, 10, 3), np.float32))


def test_an_unknown_corner_is_refused() -> None:
    with pytest.raises(ParameterError, match="corner"):
        mark_synthetic(GREY, corner="middle")  # type: ignore[arg-type]  # the point


@pytest.mark.parametrize(
    ("longest", "expected"),
    [(44.2, 20), (50, 50), (0.9, 0.5), (1.99, 1), (230, 200), (999, 500)],
)
def test_bars_have_round_lengths(longest: float, expected: float) -> None:
    assert bar_length_um(longest) == pytest.approx(expected, rel=1e-12, abs=0.0)


def test_the_bar_is_as_long_as_it_says() -> None:
    burned = burn_scale_bar(GREY, um_per_px=0.25, bar=ScaleBar(with_text=False))
    white = (burned.picture[..., 0] > 0.9) & burned.region
    columns = np.nonzero(white.any(axis=0))[0]
    # A quarter of 600 px is 37.5 um, so the bar is 20 um: 80 px.
    assert columns.size == 80
    assert np.ptp(columns) == 79


def test_text_makes_the_box_higher() -> None:
    bare, lettered = (
        burn_scale_bar(GREY, um_per_px=0.25, bar=ScaleBar(with_text=text)).region
        for text in (False, True)
    )
    assert lettered.any(axis=1).sum() > bare.any(axis=1).sum()


def test_a_white_box_is_covered_to_its_corners_and_holds_black_letters() -> None:
    bar = ScaleBar(box="white", padding=3, inset_px=20)
    burned = burn_scale_bar(GREY, um_per_px=0.25, bar=bar)
    rows, columns = np.nonzero(burned.region)
    box = burned.picture[rows.min() : rows.max() + 1, columns.min() : columns.max() + 1]
    assert burned.region.sum() == box.shape[0] * box.shape[1]
    assert set(np.unique(box).tolist()) == {0.0, 1.0}
    assert (box[[0, 0, -1, -1], [0, -1, 0, -1]] == 1).all()
    # It stands 20 px from the bottom and the right.
    assert rows.max() == GREY.shape[0] - 1 - 20
    assert columns.max() == GREY.shape[1] - 1 - 20


def test_black_and_white_boxes_are_each_others_negative() -> None:
    black, white = (
        burn_scale_bar(GREY, um_per_px=0.25, bar=ScaleBar(box=box))
        for box in ("black", "white")
    )
    assert np.array_equal(black.region, white.region)
    inside = black.region
    assert np.array_equal(black.picture[inside], 1 - white.picture[inside])


def test_a_box_too_wide_for_the_picture_is_moved_and_narrowed() -> None:
    small = np.full((64, 70, 3), 0.5, np.float32)
    bar = ScaleBar(padding=8, inset_px=200)
    burned = burn_scale_bar(small, um_per_px=1.0, bar=bar)
    assert burned.region.any()
    assert burned.picture.shape == small.shape
