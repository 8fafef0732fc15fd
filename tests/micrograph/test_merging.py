"""Borders, evidence and merging on label planes small enough to count by hand."""

from dataclasses import replace

import numpy as np
import numpy.typing as npt
import pytest

from strandproof.micrograph.border_lines import border_lines
from strandproof.micrograph.borders import borders_of
from strandproof.micrograph.evidence import BoundaryEvidence
from strandproof.micrograph.merging import merged_regions
from strandproof.micrograph.patches import patches_of
from strandproof.micrograph.pits import with_pits_taken_in
from strandproof.micrograph.regions import joined, region_graph
from strandproof.micrograph.scratches import scratch_borders

Plane = npt.NDArray[np.float32]
SHAPE = (60, 60)
ROWS, COLS = np.indices(SHAPE)
QUARTERS = (1 + (ROWS >= 30) * 2 + (COLS >= 30)).astype(np.int32)


def evidence(strength: Plane, shade: Plane | None = None) -> BoundaryEvidence:
    """Give evidence as a learned method would: strength, and no shade."""
    return BoundaryEvidence(
        strength=strength,
        line_strength=strength if shade is None else np.zeros_like(strength),
        shade=np.zeros((*SHAPE, 1), np.float32) if shade is None else shade,
        shade_weight=np.ones(SHAPE, np.float32),
        metal=np.ones(SHAPE, np.bool_),
        visible_line_depth=1.0,
        visible_step=1.0,
    )


def cross(upright: float, level: float) -> Plane:
    strength = np.zeros(SHAPE, np.float32)
    strength[29:31] = level
    strength[:, 29:31] = upright
    return strength


def test_borders_are_counted_in_pixel_pairs() -> None:
    borders = borders_of(QUARTERS)
    pairs = list(zip(borders.first.tolist(), borders.second.tolist(), strict=True))
    assert pairs == [(1, 2), (1, 3), (2, 4), (3, 4)]
    assert borders.lengths.tolist() == [30, 30, 30, 30]


def test_label_zero_has_no_borders() -> None:
    labels = np.where(COLS == 30, 0, QUARTERS).astype(np.int32)
    borders = borders_of(labels)
    assert list(zip(borders.first, borders.second, strict=True)) == [(1, 3), (2, 4)]


def test_joining_adds_areas_and_lengths() -> None:
    graph = region_graph(QUARTERS, evidence(cross(1, 1)))
    both = joined(graph, np.array([0, 1, 1, 3, 3]))
    assert both.area.tolist() == [0, 1800, 0, 1800, 0]
    assert both.length.tolist() == [60]
    assert both.strength_sum.sum() == pytest.approx(60, rel=1e-6)


def test_only_weak_borders_are_taken_away() -> None:
    graph = region_graph(QUARTERS, evidence(cross(upright=0.9, level=0.2)))
    _, chosen = merged_regions(graph)
    assert chosen[1] == chosen[3] != chosen[2] == chosen[4]


def test_a_line_without_closure_is_no_boundary() -> None:
    """A strong line over a third of the border: its mean stays below one half."""
    strength = np.zeros(SHAPE, np.float32)
    strength[:20, 29:31] = 1
    halves = (1 + (COLS >= 30)).astype(np.int32)
    _, chosen = merged_regions(region_graph(halves, evidence(strength)))
    assert chosen[1] == chosen[2]


def test_a_step_needs_both_its_pixels_and_the_shades_of_its_regions() -> None:
    strong = cross(upright=0.9, level=0)
    shade = np.where(COLS < 30, 0, 3)[..., None].astype(np.float32)
    halves = (1 + (COLS >= 30)).astype(np.int32)
    for seen, step, expected in (
        (strong, shade, 2),
        (strong, 0 * shade, 1),
        (0 * strong, shade, 1),
    ):
        graph, _ = merged_regions(region_graph(halves, evidence(seen, step)))
        assert np.count_nonzero(graph.area) == expected


def test_patches_follow_the_crests_and_cover_the_metal() -> None:
    found = evidence(cross(1, 1))
    metal = found.metal.copy()
    metal[:, :5] = False
    patches = patches_of(replace(found, metal=metal))
    assert np.array_equal(patches > 0, metal)
    assert len(set(patches[[10, 10, 50, 50], [15, 50, 15, 50]].tolist())) == 4


def test_a_scratch_that_runs_across_a_boundary_is_found() -> None:
    """The level line spans the metal; the boundary is bent, as boundaries are."""
    edge = 30 + np.rint(6 * np.sin(ROWS / 6)).astype(int)
    labels = (1 + (ROWS >= 30) * 2 + (edge <= COLS)).astype(np.int32)
    borders = borders_of(labels)
    found = evidence(np.ones(SHAPE, np.float32))
    graph = region_graph(labels, found, borders=borders)
    chosen = scratch_borders(graph, border_lines(borders, SHAPE[1]), found.metal)
    pairs = zip(graph.first[chosen], graph.second[chosen], strict=True)
    assert {(int(one), int(other)) for one, other in pairs} == {(1, 3), (2, 4)}


def test_a_straight_boundary_that_meets_three_grains_is_no_scratch() -> None:
    labels = np.where(ROWS < 30, 1, 2 + (COLS >= 30)).astype(np.int32)
    borders = borders_of(labels)
    found = evidence(np.ones(SHAPE, np.float32))
    graph = region_graph(labels, found, borders=borders)
    lines = border_lines(borders, SHAPE[1])
    assert not scratch_borders(graph, lines, found.metal).any()


@pytest.mark.parametrize(("side", "taken"), [(8, 1), (20, 0)])
def test_only_a_small_enclosed_region_is_a_pit(side: int, taken: int) -> None:
    labels = np.ones(SHAPE, np.int32)
    labels[20 : 20 + side, 20 : 20 + side] = 2
    found = evidence(np.zeros(SHAPE, np.float32))
    chosen, n_pits = with_pits_taken_in(
        region_graph(labels, found), labels, found.metal
    )
    assert n_pits == taken
    assert chosen[2] == (1 if taken else 2)


def test_a_small_grain_at_the_edge_is_no_pit() -> None:
    labels = np.ones(SHAPE, np.int32)
    labels[:8, :8] = 2
    found = evidence(np.zeros(SHAPE, np.float32))
    graph = region_graph(labels, found)
    assert with_pits_taken_in(graph, labels, found.metal)[1] == 0
