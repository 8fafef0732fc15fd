"""Sums over regions and borders, their joining, and the evidence formed of them."""

import numpy as np
import numpy.typing as npt
import pytest

from strandproof.micrograph.borders import borders_of
from strandproof.micrograph.evidence import BoundaryEvidence
from strandproof.micrograph.regions import (
    HALF_TRUST_AREA_PX,
    HALF_TRUST_SHADE_PX,
    RegionGraph,
    joined,
    region_graph,
)

Labels = npt.NDArray[np.int32]
SHAPE = (40, 40)
COLS = np.indices(SHAPE)[1]


def plain(
    line: float, step: float = 0.0, *, strength: float | None = None, weight: float = 1
) -> BoundaryEvidence:
    """Even evidence everywhere; the shade has a step at column 20."""
    return BoundaryEvidence(
        strength=np.full(SHAPE, line if strength is None else strength, np.float32),
        line_strength=np.full(SHAPE, line, np.float32),
        shade=np.where(COLS < 20, 0, step)[..., None].astype(np.float32),
        shade_weight=np.full(SHAPE, weight, np.float32),
        metal=np.ones(SHAPE, np.bool_),
        visible_line_depth=1.0,
        visible_step=1.0,
    )


def by_chance() -> tuple[Labels, BoundaryEvidence]:
    chance = np.random.default_rng(8)
    planes = chance.random((3, *SHAPE)).astype(np.float32)
    evidence = BoundaryEvidence(
        strength=planes[0],
        line_strength=planes[1],
        shade=chance.normal(0, 1, (*SHAPE, 3)).astype(np.float32),
        shade_weight=planes[2],
        metal=np.ones(SHAPE, np.bool_),
        visible_line_depth=1.0,
        visible_step=1.0,
    )
    return chance.integers(0, 12, SHAPE).astype(np.int32), evidence


def halves(first_columns: int = 20) -> Labels:
    labels: Labels = 1 + (first_columns <= COLS).astype(np.int32)
    return labels


def assert_same(one: RegionGraph, other: RegionGraph) -> None:
    assert np.array_equal(one.first, other.first)
    assert np.array_equal(one.second, other.second)
    for name in ("length", "line_sum", "strength_sum"):
        assert np.allclose(getattr(one, name), getattr(other, name), 1e-9, 1e-9), name
    size = min(one.area.size, other.area.size)
    for name in ("area", "shade_weight", "shade_sum"):
        mine, its = getattr(one, name), getattr(other, name)
        assert np.allclose(mine[:size], its[:size], 1e-9, 1e-9), name
        assert not mine[size:].any(), name
        assert not its[size:].any(), name


@pytest.mark.parametrize("seed", range(4))
def test_joined_graph_is_the_graph_of_the_joined_labels(seed: int) -> None:
    labels, evidence = by_chance()
    chance = np.random.default_rng(seed)
    representative = np.concatenate([[0], chance.integers(1, 12, 11)])
    at_once = region_graph(representative[labels].astype(np.int32), evidence)
    assert_same(joined(region_graph(labels, evidence), representative), at_once)


def test_joining_nothing_changes_nothing() -> None:
    graph = region_graph(*by_chance())
    assert_same(joined(graph, np.arange(graph.area.size)), graph)


def test_joining_everything_leaves_one_region_without_borders() -> None:
    labels, evidence = by_chance()
    graph = region_graph(labels, evidence)
    whole = joined(graph, np.minimum(np.arange(graph.area.size), 1))
    assert whole.first.size == 0
    assert whole.area[1] == np.count_nonzero(labels)
    assert whole.border_evidence().size == 0


def test_areas_and_shades_add_up_to_the_picture() -> None:
    labels, evidence = by_chance()
    graph = region_graph(labels, evidence)
    assert graph.area.sum() == labels.size
    assert graph.shade_weight.sum() == pytest.approx(
        evidence.shade_weight.sum(dtype=float), rel=1e-9
    )
    weighed = (evidence.shade * evidence.shade_weight[..., None]).astype(np.float64)
    assert np.allclose(graph.shade_sum.sum(axis=0), weighed.sum((0, 1)), 1e-6, 1e-6)


def test_borders_at_hand_give_the_same_graph() -> None:
    labels, evidence = by_chance()
    given = region_graph(labels, evidence, borders=borders_of(labels))
    assert_same(given, region_graph(labels, evidence))


def test_crest_on_either_side_of_a_border_counts_in_full() -> None:
    for column in (19, 20):
        evidence = plain(0.0)
        evidence.line_strength[:, column] = 0.8
        graph = region_graph(halves(), evidence)
        assert graph.line_sum[0] == pytest.approx(40 * 0.8, rel=1e-6)


def test_shade_difference_is_the_distance_of_the_means() -> None:
    evidence = plain(0.0)
    shade = np.where(COLS[..., None] < 20, [1.0, 5.0], [4.0, 9.0])
    two_channels = BoundaryEvidence(
        strength=evidence.strength,
        line_strength=evidence.line_strength,
        shade=shade.astype(np.float32),
        shade_weight=np.full(SHAPE, 0.5, np.float32),
        metal=evidence.metal,
        visible_line_depth=1.0,
        visible_step=1.0,
    )
    graph = region_graph(halves(), two_channels)
    assert graph.shade_difference() == pytest.approx(5.0, rel=1e-9)


def test_pixels_in_grooves_do_not_count_for_the_shade() -> None:
    evidence = plain(0.0, step=2.0)
    evidence.shade[:, 18:22] = 100
    evidence.shade_weight[:, 18:22] = 0
    graph = region_graph(halves(), evidence)
    assert graph.shade_difference() == pytest.approx(2.0, rel=1e-9)
    assert graph.area.tolist() == [0, 800, 800]


@pytest.mark.parametrize("line", [0.2, 0.6, 1.0])
def test_a_line_counts_by_its_mean_and_the_smaller_area(line: float) -> None:
    graph = region_graph(halves(3), plain(line))
    trust = 120 / (120 + HALF_TRUST_AREA_PX)
    assert graph.border_evidence() == pytest.approx(line * trust, rel=1e-6)


@pytest.mark.parametrize("step", [0.5, 1.0, 3.0])
def test_a_step_counts_by_its_height_and_the_smaller_body(step: float) -> None:
    graph = region_graph(halves(), plain(0.0, step, strength=1.0, weight=0.5))
    seen = step * 400 / (400 + HALF_TRUST_SHADE_PX)
    expected = seen**2 / (1 + seen**2) * 800 / (800 + HALF_TRUST_AREA_PX)
    assert graph.border_evidence() == pytest.approx(expected, rel=1e-6)


def test_a_step_counts_no_more_than_its_strength() -> None:
    graph = region_graph(halves(), plain(0.0, 5.0, strength=0.3))
    trust = 800 / (800 + HALF_TRUST_AREA_PX)
    assert graph.border_evidence() == pytest.approx(0.3 * trust, rel=1e-6)


def test_evidence_stays_between_0_and_1() -> None:
    found = region_graph(*by_chance()).border_evidence()
    assert found.size > 0
    assert ((found >= 0) & (found <= 1)).all()
