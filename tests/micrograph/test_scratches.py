"""Scratches cross boundaries straight and without a step; boundaries do not."""

import numpy as np
import numpy.typing as npt
import pytest

from strandproof.micrograph.border_lines import border_lines
from strandproof.micrograph.borders import borders_of
from strandproof.micrograph.evidence import BoundaryEvidence
from strandproof.micrograph.regions import region_graph
from strandproof.micrograph.scratches import ends_at_edge, scratch_borders

Labels = npt.NDArray[np.int32]
Floats = npt.NDArray[np.float64]
Pairs = set[tuple[int, int]]
SHAPE = (120, 200)
ROWS, COLS = np.indices(SHAPE)


def scratched(labels: Labels, shade: Floats) -> Pairs:
    """Give the pairs of regions whose border is taken for a scratch."""
    plain = np.full(labels.shape, 0.9, np.float32)
    evidence = BoundaryEvidence(
        strength=plain,
        line_strength=plain,
        shade=shade[..., None].astype(np.float32),
        shade_weight=np.ones(labels.shape, np.float32),
        metal=np.ones(labels.shape, np.bool_),
        visible_line_depth=5.0,
        visible_step=5.0,
    )
    borders = borders_of(labels)
    graph = region_graph(labels, evidence, borders=borders)
    lines = border_lines(borders, labels.shape[1])
    chosen = scratch_borders(graph, lines, evidence.metal)
    pairs = zip(graph.first[chosen], graph.second[chosen], strict=True)
    return {(int(one), int(other)) for one, other in pairs}


def cut_columns(below: npt.NDArray[np.bool_]) -> Labels:
    """Five upright grains of 40 px, each cut into an odd and an even region."""
    return (1 + 2 * (COLS // 40) + below).astype(np.int32)


CUTS = {(1, 2), (3, 4), (5, 6), (7, 8), (9, 10)}
GRAIN_SHADES = (COLS // 40 * 3).astype(np.float64)


@pytest.mark.parametrize("angle", [-25.0, 0.0, 8.0, 25.0])
def test_straight_line_across_several_boundaries_is_a_scratch(angle: float) -> None:
    below = np.tan(np.deg2rad(angle)) * (COLS - 99.5) < ROWS - 59.5
    assert scratched(cut_columns(below), GRAIN_SHADES) == CUTS


@pytest.mark.parametrize(("step", "found"), [(0.4, CUTS), (0.6, set()), (2.0, set())])
def test_line_with_a_step_of_shade_is_a_boundary(step: float, found: Pairs) -> None:
    below = ROWS >= 60
    assert scratched(cut_columns(below), GRAIN_SHADES + step * below) == found


def test_one_piece_with_a_step_is_left_and_the_others_taken() -> None:
    """Left of it three pieces continue each other; right of it one is alone."""
    below = ROWS >= 60
    shade = GRAIN_SHADES + 2 * (below & (COLS // 40 == 3))
    found = scratched(cut_columns(below), shade)
    assert found == {(1, 2), (3, 4), (5, 6)}


def test_curved_chain_of_straight_pieces_is_a_boundary() -> None:
    """Each piece turns by 6 degrees: a boundary may bulge so, a scratch may not."""
    below = ROWS > 20 + (COLS - 99.5) ** 2 / (2 * 400)
    assert scratched(cut_columns(below), GRAIN_SHADES) == set()


@pytest.mark.parametrize("amplitude", [1.7, 5.0])
def test_wavy_line_is_a_boundary(amplitude: float) -> None:
    below = 60 + amplitude * np.sin(COLS / 4) < ROWS
    assert scratched(cut_columns(below), GRAIN_SHADES) == set()


@pytest.mark.parametrize(("turn", "is_scratch"), [(4, True), (12, False)])
def test_line_that_turns_at_a_boundary_is_a_boundary(
    turn: int, *, is_scratch: bool
) -> None:
    """Two arms of 25 px, each straight; both together are straight enough."""
    inside = (np.abs(ROWS - 59.5) < 20) & (np.abs(COLS - 99.5) < 25)
    slope = np.tan(np.deg2rad(turn / 2))
    below = 59.5 + slope * np.abs(COLS - 99.5) < ROWS
    labels = np.where(inside, 1 + (COLS >= 100) * 2 + below, 9).astype(np.int32)
    shade = np.where(inside, 3.0 * (COLS >= 100), 9.0)
    assert scratched(labels, shade) == ({(1, 2), (3, 4)} if is_scratch else set())


@pytest.mark.parametrize(("gap", "is_scratch"), [(6, True), (20, False)])
def test_pieces_far_apart_do_not_continue_each_other(
    gap: int, *, is_scratch: bool
) -> None:
    labels = 1 + (COLS >= 100) * 2 + (ROWS >= 60)
    labels = np.where(np.abs(COLS - 99.5) < gap / 2, 5, labels).astype(np.int32)
    found = scratched(labels, np.where(COLS >= 100, 3.0, 0.0).astype(np.float64))
    assert found == ({(1, 2), (3, 4)} if is_scratch else set())


def test_pieces_that_do_not_meet_are_boundaries() -> None:
    """Each grain's line ends 15 px above or below its neighbour's."""
    below = ROWS >= 50 + 15 * (COLS // 40 % 2)
    assert scratched(cut_columns(below), GRAIN_SHADES) == set()


def test_lines_that_meet_at_three_grains_are_boundaries() -> None:
    labels = np.where(ROWS < 60, 1, 2 + COLS // 40).astype(np.int32)
    assert scratched(labels, np.zeros(SHAPE)) == set()


@pytest.mark.parametrize(("length", "is_scratch"), [(30, False), (60, True)])
def test_scratch_is_at_least_40_px_long(length: int, *, is_scratch: bool) -> None:
    inside = (np.abs(ROWS - 59.5) < 15) & (np.abs(COLS - 99.5) < length / 2)
    labels = 1 + (COLS >= 100) * 2 + (ROWS >= 60)
    labels = np.where(inside, labels, 9).astype(np.int32)
    shade = np.where(inside, 3.0 * (COLS >= 100), 9.0)
    assert scratched(labels, shade) == ({(1, 2), (3, 4)} if is_scratch else set())


@pytest.mark.parametrize(
    ("width", "found"), [(80, set()), (110, set()), (140, {(1, 2), (3, 4)})]
)
def test_of_two_crossing_lines_only_a_clearly_longer_one_goes(
    width: int, found: Pairs
) -> None:
    """The upright line is 80 px long; neither reaches the edge of the metal."""
    inside = (np.abs(ROWS - 59.5) < 40) & (np.abs(COLS - 99.5) < width / 2)
    labels = 1 + (COLS >= 100) * 2 + (ROWS >= 60)
    labels = np.where(inside, labels, 9).astype(np.int32)
    assert scratched(labels, np.where(inside, 0.0, 9.0)) == found


def test_of_two_crossing_lines_those_from_edge_to_edge_go() -> None:
    labels = (1 + (COLS >= 100) * 2 + (ROWS >= 60)).astype(np.int32)
    every = {(1, 2), (3, 4), (1, 3), (2, 4)}
    assert scratched(labels, np.zeros(SHAPE)) == every


def test_turned_picture_has_the_same_scratch() -> None:
    below = 59.5 + 0.2 * (COLS - 99.5) < ROWS
    labels = cut_columns(below)
    for turns in (1, 2, 3):
        turned = np.rot90(labels, turns).copy()
        assert scratched(turned, np.rot90(GRAIN_SHADES, turns)) == CUTS


@pytest.mark.parametrize("n_regions", [1, 2])
def test_too_few_borders_for_a_crossing(n_regions: int) -> None:
    labels = np.ones(SHAPE, np.int32)
    labels[60:] = n_regions
    assert scratched(labels, np.zeros(SHAPE)) == set()


def test_points_within_4_px_of_the_picture_are_at_the_edge() -> None:
    metal = np.ones((30, 30), np.bool_)
    points = np.array([[3, 15], [4, 15], [15, 26], [15, 25], [0, 0], [29, 29]])
    found = ends_at_edge(points, metal)
    assert found.tolist() == [True, False, True, False, True, True]


def test_points_within_4_px_of_resin_are_at_the_edge() -> None:
    metal = np.ones((30, 30), np.bool_)
    metal[15, 15] = False
    points = np.array([[15, 15], [15, 19], [15, 20], [17, 17], [18, 17]])
    found = ends_at_edge(points, metal)
    assert found.tolist() == [True, True, False, True, False]
