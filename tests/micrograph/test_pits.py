"""Pits are taken into the grain around them; grains are not."""

import numpy as np
import numpy.typing as npt
import pytest

from strandproof.micrograph.evidence import BoundaryEvidence
from strandproof.micrograph.pits import with_pits_taken_in
from strandproof.micrograph.regions import region_graph

Labels = npt.NDArray[np.int32]
Mask = npt.NDArray[np.bool_]
SHAPE = (100, 100)


def taken_in(labels: Labels, metal: Mask | None = None) -> dict[int, int]:
    """Give the regions that were taken for pits, each with its grain."""
    shown = np.ones(labels.shape, np.bool_) if metal is None else metal
    plain = np.full(labels.shape, 0.6, np.float32)
    evidence = BoundaryEvidence(
        strength=plain,
        line_strength=plain,
        shade=np.zeros((*labels.shape, 1), np.float32),
        shade_weight=np.ones(labels.shape, np.float32),
        metal=shown,
        visible_line_depth=5.0,
        visible_step=5.0,
    )
    graph = region_graph(labels, evidence)
    representative, n_pits = with_pits_taken_in(graph, labels, shown)
    assert representative.shape == graph.area.shape
    changed = np.flatnonzero(representative != np.arange(representative.size))
    assert n_pits == changed.size
    return {int(pit): int(representative[pit]) for pit in changed}


def two_grains() -> Labels:
    labels = np.ones(SHAPE, np.int32)
    labels[:, 60:] = 2
    return labels


def test_pit_wholly_inside_one_grain_is_taken_in() -> None:
    labels = two_grains()
    labels[40:50, 20:30] = 3
    assert taken_in(labels) == {3: 1}


def test_each_pit_goes_to_its_own_grain() -> None:
    labels = two_grains()
    labels[10:18, 20:28], labels[40:48, 80:88], labels[70:75, 30:35] = 3, 4, 5
    assert taken_in(labels) == {3: 1, 4: 2, 5: 1}


def test_small_region_between_two_grains_stays() -> None:
    labels = two_grains()
    labels[40:50, 55:65] = 3
    assert taken_in(labels) == {}


@pytest.mark.parametrize(("width", "is_pit"), [(20, True), (21, False)])
def test_largest_pit_has_200_px(width: int, *, is_pit: bool) -> None:
    labels = two_grains()
    labels[40:50, 20 : 20 + width] = 3
    assert taken_in(labels) == ({3: 1} if is_pit else {})


@pytest.mark.parametrize(("n_rows", "is_pit"), [(4, True), (5, False)])
def test_a_pit_is_at_most_a_twentieth_of_its_grain(
    n_rows: int, *, is_pit: bool
) -> None:
    labels = np.full((50, 50), 9, np.int32)
    labels[10:40, 10:40] = 1
    labels[20 : 20 + n_rows, 20:30] = 2
    area = 10 * n_rows
    assert (area <= 0.05 * (900 - area)) == is_pit
    assert taken_in(labels) == ({2: 1} if is_pit else {})


@pytest.mark.parametrize("corner", [(0, 20), (92, 20), (30, 0)])
def test_small_region_at_the_edge_of_the_picture_stays(
    corner: tuple[int, int],
) -> None:
    row, col = corner
    labels = two_grains()
    labels[row : row + 8, col : col + 8] = 3
    assert taken_in(labels) == {}


@pytest.mark.parametrize(("first_row", "is_pit"), [(20, False), (21, True)])
def test_small_region_at_the_edge_of_the_metal_stays(
    first_row: int, *, is_pit: bool
) -> None:
    """One row of the grain between pit and resin is enough to enclose it."""
    metal = np.ones(SHAPE, np.bool_)
    metal[:20] = False
    labels = two_grains()
    labels[first_row : first_row + 8, 30:38] = 3
    labels[~metal] = 0
    assert taken_in(labels, metal) == ({3: 1} if is_pit else {})


def test_small_region_beside_a_hole_in_the_metal_stays() -> None:
    metal = np.ones(SHAPE, np.bool_)
    metal[40:45, 30] = False
    labels = two_grains()
    labels[40:48, 31:38] = 3
    labels[~metal] = 0
    assert taken_in(labels, metal) == {}


def test_grain_cut_in_two_by_a_boundary_is_no_pit() -> None:
    labels = two_grains()
    labels[40:50, 20:25], labels[40:50, 25:30] = 3, 4
    assert taken_in(labels) == {}


@pytest.mark.parametrize("shape", [(1, 1), (1, 9), (9, 1), (2, 2)])
def test_narrow_pictures_have_no_inside(shape: tuple[int, int]) -> None:
    labels = np.ones(shape, np.int32)
    labels.flat[-1] = 2
    assert taken_in(labels) == {}
