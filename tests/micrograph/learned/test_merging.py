"""Merging on label planes small enough to count by hand."""

import numpy as np
import numpy.typing as npt

from strandproof.micrograph.learned.merging import merged_regions
from strandproof.micrograph.learned.regions import RegionGraph, region_graph

SHAPE = (60, 60)
ROWS, COLS = np.indices(SHAPE)
QUARTERS = (1 + (ROWS >= 30) * 2 + (COLS >= 30)).astype(np.int32)
HALVES = (1 + (COLS >= 30)).astype(np.int32)


def graph_of(
    labels: npt.NDArray[np.int32], plane: npt.NDArray[np.uint8]
) -> RegionGraph:
    return region_graph(labels, plane, np.zeros(SHAPE, np.uint8))


def test_only_weak_borders_are_taken_away() -> None:
    plane = np.zeros(SHAPE, np.uint8)
    plane[29:31] = 60
    plane[:, 29:31] = 230
    _, chosen = merged_regions(graph_of(QUARTERS, plane))
    assert chosen[1] == chosen[3] != chosen[2] == chosen[4]


def test_a_line_over_a_third_of_a_border_is_no_boundary() -> None:
    plane = np.zeros(SHAPE, np.uint8)
    plane[:20, 29:31] = 255
    _, chosen = merged_regions(graph_of(HALVES, plane))
    assert chosen[1] == chosen[2]


def test_a_gap_over_a_third_of_a_border_is_closed() -> None:
    plane = np.zeros(SHAPE, np.uint8)
    plane[:40, 29:31] = 255
    _, chosen = merged_regions(graph_of(HALVES, plane))
    assert chosen[1] != chosen[2]


def test_the_limit_can_be_set() -> None:
    plane = np.zeros(SHAPE, np.uint8)
    plane[:20, 29:31] = 255
    _, chosen = merged_regions(graph_of(HALVES, plane), boundary_from=0.3)
    assert chosen[1] != chosen[2]
    _, chosen = merged_regions(graph_of(HALVES, plane + 255), boundary_from=1.1)
    assert chosen[1] == chosen[2]


def test_a_region_of_a_few_pixels_is_no_grain() -> None:
    labels = np.ones(SHAPE, np.int32)
    labels[30, 30:32] = 2
    _, chosen = merged_regions(graph_of(labels, np.full(SHAPE, 255, np.uint8)))
    assert chosen[2] == 1


def test_many_regions_of_a_flat_plane_become_one() -> None:
    labels = (1 + ROWS * 60 + COLS).astype(np.int32)
    left, chosen = merged_regions(graph_of(labels, np.zeros(SHAPE, np.uint8)))
    assert np.unique(chosen[1:]).size == 1
    assert left.first.size == 0
