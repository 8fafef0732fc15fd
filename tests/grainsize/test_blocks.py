from dataclasses import replace

import numpy as np
import pytest

from strandproof.grainsize import counting_rules
from strandproof.grainsize.blocks import (
    BlockGrid,
    block_grid,
    block_tally,
    joined_tally,
    summed_tally,
)
from strandproof.grainsize.patch import MetalPatch, metal_patch
from strandproof.grainsize.traverses import parallel_lines

RULES = counting_rules()


def _squares_patch(side: int, rows: int, cols: int) -> MetalPatch:
    row, col = np.indices((side * rows, side * cols)) // side
    labels = (row * cols + col + 1).astype(np.int32)
    return metal_patch(labels, np.ones(labels.shape, np.bool_))


def _grid(patch: MetalPatch, *, mean_px: float, axis_deg: float = 0.0) -> BlockGrid:
    lines = parallel_lines(patch, direction_deg=0.0, spacing_px=5.0, step_px=0.25)
    return block_grid(lines, axis_deg=axis_deg, mean_intercept_px=mean_px, rules=RULES)


def test_a_square_picture_of_many_grains_is_cut_three_by_three() -> None:
    grid = _grid(_squares_patch(10, 20, 20), mean_px=10.0)
    assert (grid.n_along, grid.n_across) == (3, 3)


def test_a_long_strand_is_cut_along_only() -> None:
    grid = _grid(_squares_patch(10, 4, 80), mean_px=10.0)
    assert grid.n_across == 1
    assert 6 <= grid.n_along <= RULES.maximum_blocks


def test_few_grains_stay_in_one_part() -> None:
    assert _grid(_squares_patch(30, 3, 3), mean_px=30.0).size == 1


def test_parts_follow_the_strand_axis() -> None:
    patch = _squares_patch(10, 80, 4)
    assert _grid(patch, mean_px=10.0, axis_deg=90.0).n_across == 1
    assert _grid(patch, mean_px=10.0, axis_deg=0.0).n_along == 1


def test_numbers_are_clipped_to_the_grid() -> None:
    grid = BlockGrid(
        axis_deg=0.0, along_px=(0.0, 10.0), across_px=(0.0, 10.0), n_along=2, n_across=2
    )
    rows = np.array([1.0, 9.0, 1.0, 9.0, 99.0])
    cols = np.array([1.0, 1.0, 9.0, 9.0, 99.0])
    assert grid.numbers(rows, cols).tolist() == [0, 1, 2, 3, 3]


def test_tallies_keep_every_length_and_crossing() -> None:
    patch = _squares_patch(10, 20, 20)
    lines = parallel_lines(patch, direction_deg=30.0, spacing_px=10.0, step_px=0.25)
    tally = block_tally(lines, _grid(patch, mean_px=10.0), line_ends="half")
    assert tally.lengths_px.sum() == pytest.approx(
        sum(line.traverse.length_px for line in lines), rel=1e-12, abs=0
    )
    assert tally.intercepts.sum() == tally.crossings
    assert tally.crossings == sum(line.traverse.crossings for line in lines)


def test_whole_ends_at_the_strand_edge_add_half_an_intercept_each() -> None:
    labels = np.zeros((30, 60), np.int32)
    labels[5:25] = 1
    patch = metal_patch(labels, labels > 0)
    lines = parallel_lines(patch, direction_deg=90.0, spacing_px=10.0, step_px=0.25)
    grid = _grid(patch, mean_px=20.0)
    half = block_tally(lines, grid, line_ends="half")
    whole = block_tally(lines, grid, line_ends="whole_at_strand_edge")
    # Six lines across one grain: no boundary, but one whole intercept each.
    assert half.intercepts.sum() == 0
    assert whole.intercepts.sum() == pytest.approx(6.0, rel=1e-12, abs=0)


def test_joined_parts_stand_side_by_side_and_summed_ones_add() -> None:
    patch = _squares_patch(10, 20, 20)
    lines = parallel_lines(patch, direction_deg=0.0, spacing_px=10.0, step_px=0.25)
    tally = block_tally(lines, _grid(patch, mean_px=10.0), line_ends="half")
    joined, summed = joined_tally([tally, tally]), summed_tally([tally, tally])
    assert joined.lengths_px.size == 2 * tally.lengths_px.size
    assert summed.lengths_px.tolist() == (2 * tally.lengths_px).tolist()
    assert joined.crossings == summed.crossings == 2 * tally.crossings


def test_the_least_side_is_a_rule() -> None:
    lines = parallel_lines(
        _squares_patch(10, 20, 20), direction_deg=0.0, spacing_px=5.0, step_px=0.25
    )
    rules = replace(RULES, minimum_block_side=10.0)
    grid = block_grid(lines, axis_deg=0.0, mean_intercept_px=10.0, rules=rules)
    assert (grid.n_along, grid.n_across) == (2, 1) or grid.size < 9
    assert grid.size < _grid(_squares_patch(10, 20, 20), mean_px=10.0).size
