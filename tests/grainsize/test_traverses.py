from math import sqrt

import numpy as np
import pytest

from strandproof.grainsize.patch import MetalPatch, metal_patch
from strandproof.grainsize.traverses import WalkedLine, parallel_lines, walk_line

STEP = 0.25


def _striped(width: int, stripes: int, height: int) -> MetalPatch:
    labels = np.repeat(np.arange(1, stripes + 1), width)
    return metal_patch(
        np.tile(labels, (height, 1)).astype(np.int32),
        np.ones((height, width * stripes), np.bool_),
    )


def _only(patch: MetalPatch, row: float, direction_deg: float = 0.0) -> WalkedLine:
    middle = (patch.metal.shape[1] - 1) / 2
    (line,) = walk_line(patch, (row, middle), direction_deg, step_px=STEP)
    return line


def test_a_line_from_frame_to_frame_has_the_length_of_the_picture() -> None:
    line = _only(_striped(10, 4, 8), row=3.0)
    assert line.traverse.length_px == pytest.approx(40.0, rel=1e-12, abs=0)
    assert line.traverse.frame_ends == 2
    assert line.traverse.strand_edge_ends == 0
    assert line.traverse.start_px == pytest.approx((3.0, -0.5), rel=0, abs=1e-9)
    assert line.traverse.end_px == pytest.approx((3.0, 39.5), rel=0, abs=1e-9)


def test_crossings_lie_where_the_grain_changes() -> None:
    line = _only(_striped(10, 4, 8), row=3.0)
    assert line.traverse.crossings == 3
    assert line.crossings_px == pytest.approx([10.0, 20.0, 30.0], rel=0, abs=STEP)
    rows, cols = line.positions_px(line.crossings_px)
    assert rows == pytest.approx([3.0, 3.0, 3.0], rel=0, abs=1e-9)
    assert cols == pytest.approx([9.5, 19.5, 29.5], rel=0, abs=STEP)


def test_a_slanting_line_is_measured_along_itself() -> None:
    line = _only(_striped(10, 4, 40), row=19.5, direction_deg=45.0)
    assert line.traverse.length_px == pytest.approx(40.0 * sqrt(2), rel=1e-9, abs=0)
    assert line.traverse.crossings == 3
    # The y axis points up: the line ends at the top right.
    assert line.traverse.end_px == pytest.approx((-0.5, 39.5), rel=0, abs=1e-6)


def test_a_line_along_a_boundary_crosses_nothing() -> None:
    labels = np.ones((9, 30), np.int32)
    labels[4] = 0
    labels[5:] = 2
    patch = metal_patch(labels, np.ones(labels.shape, np.bool_))
    assert _only(patch, row=4.0).traverse.crossings == 0


def test_a_line_that_grazes_a_staircase_crosses_at_most_once() -> None:
    rows, cols = np.indices((60, 120))
    patch = metal_patch(
        np.where(2 * rows > cols, 1, 2).astype(np.int32), np.ones((60, 120), np.bool_)
    )
    # Slope 1/2 downwards, exactly along the boundary and shifted by parts of a pixel.
    for shift in np.linspace(-1.0, 1.0, 9):
        (line,) = walk_line(
            patch, (29.75 + shift, 59.5), -np.degrees(np.arctan(0.5)), step_px=STEP
        )
        assert line.traverse.crossings <= 1


def test_a_thin_grain_between_two_others_is_crossed_twice() -> None:
    labels = np.repeat([1, 2, 3], [10, 1, 10]).astype(np.int32)[None, :]
    patch = metal_patch(labels, np.ones((1, 21), np.bool_))
    assert _only(patch, row=0.0).traverse.crossings == 2


@pytest.mark.parametrize(("thickness", "crossings"), [(1, 0), (3, 2)])
def test_a_lamella_in_one_grain_counts_from_two_pixels_on(
    thickness: int, crossings: int
) -> None:
    labels = np.repeat([1, 2, 1], [10, thickness, 10]).astype(np.int32)[None, :]
    patch = metal_patch(labels, np.ones(labels.shape, np.bool_))
    assert _only(patch, row=0.0).traverse.crossings == crossings


def test_resin_cuts_the_line_and_is_no_boundary() -> None:
    labels = np.repeat([1, 0, 2], [10, 5, 10]).astype(np.int32)[None, :]
    patch = metal_patch(labels, labels > 0)
    first, second = walk_line(patch, (0.0, 12.0), 0.0, step_px=STEP)
    assert first.traverse.length_px == pytest.approx(10.0, rel=0, abs=STEP)
    assert (first.traverse.frame_ends, first.traverse.strand_edge_ends) == (1, 1)
    assert (second.traverse.frame_ends, second.traverse.strand_edge_ends) == (1, 1)
    assert first.traverse.crossings == second.traverse.crossings == 0


@pytest.mark.parametrize("direction_deg", [90.0, -90.0, 270.0])
def test_an_upright_line_between_two_columns_stays_on_one_side(
    direction_deg: float,
) -> None:
    patch = _striped(10, 2, 200)
    (line,) = walk_line(patch, (99.5, 9.5), direction_deg, step_px=STEP)
    assert line.traverse.crossings == 0


def test_a_line_beside_the_patch_has_no_run() -> None:
    patch = _striped(10, 2, 5)
    assert list(walk_line(patch, (50.0, 3.0), 0.0, step_px=STEP)) == []
    assert list(walk_line(patch, (50.0, 3.0), 10.0, step_px=STEP)) == []


@pytest.mark.parametrize("direction_deg", [0.0, 30.0, 45.0, 90.0, 135.0])
def test_parallel_lines_cover_the_area_evenly(direction_deg: float) -> None:
    patch = _striped(10, 12, 90)
    lines = parallel_lines(
        patch, direction_deg=direction_deg, spacing_px=2.0, step_px=STEP
    )
    covered = 2.0 * sum(line.traverse.length_px for line in lines)
    # Rounding the number of lines moves the spacing by less than one in forty.
    assert covered == pytest.approx(120.0 * 90.0, rel=0.025, abs=0)


def test_places_are_those_of_the_picture() -> None:
    patch = metal_patch(
        np.ones((4, 6), np.int32), np.ones((4, 6), np.bool_), corner_px=(100, 200)
    )
    assert _only(patch, row=2.0).traverse.start_px == pytest.approx(
        (102.0, 199.5), rel=0, abs=1e-9
    )
