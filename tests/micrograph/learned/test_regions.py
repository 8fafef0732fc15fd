"""Sums over regions and borders, and their joining."""

import numpy as np
import numpy.typing as npt
import pytest

from strandproof.micrograph.borders import borders_of
from strandproof.micrograph.learned.regions import RegionGraph, joined, region_graph

Labels = npt.NDArray[np.int32]
Bytes = npt.NDArray[np.uint8]
SHAPE = (40, 40)
COLS = np.indices(SHAPE)[1]


def by_chance() -> tuple[Labels, Bytes, Bytes]:
    chance = np.random.default_rng(8)
    planes = chance.integers(0, 256, (2, *SHAPE), np.uint8)
    return chance.integers(0, 12, SHAPE).astype(np.int32), planes[0], planes[1]


def assert_same(one: RegionGraph, other: RegionGraph) -> None:
    assert np.array_equal(one.first, other.first)
    assert np.array_equal(one.second, other.second)
    for name in ("length", "boundary_sum", "twin_sum"):
        assert np.allclose(getattr(one, name), getattr(other, name), 1e-9, 1e-9), name
    size = min(one.area.size, other.area.size)
    assert np.array_equal(one.area[:size], other.area[:size])


@pytest.mark.parametrize("seed", range(4))
def test_joined_graph_is_the_graph_of_the_joined_labels(seed: int) -> None:
    labels, *planes = by_chance()
    chance = np.random.default_rng(seed)
    representative = np.concatenate([[0], chance.integers(1, 12, 11)])
    at_once = region_graph(representative[labels].astype(np.int32), *planes)
    assert_same(joined(region_graph(labels, *planes), representative), at_once)


def test_joining_everything_leaves_one_region_without_borders() -> None:
    graph = region_graph(*by_chance())
    whole = joined(graph, np.minimum(np.arange(graph.area.size), 1))
    assert whole.first.size == 0
    assert whole.area[1] == graph.area[1:].sum()


def test_borders_at_hand_give_the_same_graph() -> None:
    labels, *planes = by_chance()
    given = region_graph(labels, *planes, borders=borders_of(labels))
    assert_same(given, region_graph(labels, *planes))


@pytest.mark.parametrize("column", [19, 20])
def test_crest_on_either_side_of_a_border_counts_in_full(column: int) -> None:
    boundary = np.zeros(SHAPE, np.uint8)
    boundary[:, column] = 255
    labels = 1 + (COLS >= 20).astype(np.int32)
    graph = region_graph(labels, boundary, np.zeros_like(boundary))
    assert graph.boundary_strength() == pytest.approx(1.0)
    assert graph.twin_strength() == pytest.approx(0.0)


@pytest.mark.parametrize(("value", "strength"), [(51, 0.0), (115, 0.502), (179, 1.0)])
def test_strength_rises_between_its_two_limits(value: int, strength: float) -> None:
    labels = 1 + (COLS >= 20).astype(np.int32)
    plane = np.full(SHAPE, value, np.uint8)
    graph = region_graph(labels, plane, plane)
    assert graph.boundary_strength() == pytest.approx(strength, abs=0.003)
