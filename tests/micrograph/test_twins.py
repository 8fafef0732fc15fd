"""Lamellae are merged into their grain; grains with one straight side are not."""

import numpy as np
import numpy.typing as npt
import pytest

from strandproof.micrograph.border_lines import border_lines
from strandproof.micrograph.borders import borders_of
from strandproof.micrograph.evidence import BoundaryEvidence
from strandproof.micrograph.regions import region_graph
from strandproof.micrograph.twins import twin_borders

SHAPE = (80, 80)


def joined_pairs(
    labels: npt.NDArray[np.int32], shades: dict[int, float]
) -> set[tuple[int, int]]:
    """Give the pairs of regions that are merged, for regions of given shades."""
    shade = np.vectorize(shades.__getitem__)(labels).astype(np.float32)[..., None]
    plain = np.full(SHAPE, 0.6, np.float32)
    evidence = BoundaryEvidence(
        strength=plain,
        line_strength=plain,
        shade=shade,
        shade_weight=np.ones(SHAPE, np.float32),
        metal=np.ones(SHAPE, np.bool_),
        visible_line_depth=5.0,
        visible_step=5.0,
    )
    borders = borders_of(labels)
    graph = region_graph(labels, evidence, borders=borders)
    chosen = twin_borders(graph, border_lines(borders, SHAPE[1]))
    pairs = zip(graph.first[chosen], graph.second[chosen], strict=True)
    return {(int(one), int(other)) for one, other in pairs}


def three_bands() -> npt.NDArray[np.int32]:
    labels = np.ones(SHAPE, np.int32)
    labels[:, 35:45] = 2
    labels[:, 45:] = 3
    return labels


def test_lamella_between_two_parts_of_one_shade_is_merged() -> None:
    assert joined_pairs(three_bands(), {1: 0.0, 2: 2.0, 3: 0.0}) == {(1, 2), (2, 3)}


def test_band_between_two_different_grains_stays() -> None:
    assert joined_pairs(three_bands(), {1: 0.0, 2: 2.0, 3: 4.0}) == set()


def test_band_with_a_ragged_side_is_no_lamella() -> None:
    labels = three_bands()
    chance = np.random.default_rng(4)
    for row in range(SHAPE[0]):
        labels[row, 45 : 45 + chance.integers(0, 9)] = 2
    assert joined_pairs(labels, {1: 0.0, 2: 2.0, 3: 0.0}) == set()


def test_wedge_is_no_lamella() -> None:
    labels = three_bands()
    for row in range(SHAPE[0]):
        labels[row, 45 : 45 + row // 3] = 2
    assert joined_pairs(labels, {1: 0.0, 2: 2.0, 3: 0.0}) == set()


@pytest.mark.parametrize("regions", [1, 2])
def test_few_regions_have_no_twins(regions: int) -> None:
    labels = np.ones(SHAPE, np.int32)
    labels[:, 40:] = regions
    assert joined_pairs(labels, {1: 0.0, 2: 0.0}) == set()
