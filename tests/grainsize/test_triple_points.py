"""Triple points, and the interval of a count of grains that comes from them."""

from collections.abc import Callable
from math import sqrt

import numpy as np
import numpy.typing as npt
import pytest
from scipy import stats

from strandproof.grainsize.blocks import BlockGrid
from strandproof.grainsize.estimates import grains_per_area_estimate
from strandproof.grainsize.patch import metal_patch
from strandproof.grainsize.triple_points import (
    AreaTally,
    area_tally,
    joined_areas,
    meeting_points,
)

Labels = npt.NDArray[np.int32]


def whole(labels: npt.NDArray[np.integer], n_along: int = 1) -> AreaTally:
    grid = BlockGrid(
        axis_deg=0.0,
        along_px=(-0.5, labels.shape[1] - 0.5),
        across_px=(-labels.shape[0] + 0.5, 0.5),
        n_along=n_along,
        n_across=1,
    )
    return area_tally(metal_patch(labels, labels > 0), grid)


def test_a_corner_of_three_grains_is_one_point_and_of_four_two() -> None:
    three = np.array([[1, 1, 2, 2], [1, 1, 2, 2], [3, 3, 3, 3]])
    four = np.array([[1, 1, 2, 2], [3, 3, 4, 4]])
    assert whole(three).triple_points.tolist() == [1.0]
    assert whole(four).triple_points.tolist() == [2.0]


def test_no_point_lies_at_the_edge_of_the_metal() -> None:
    labels = np.array([[0, 0, 0, 0], [1, 1, 2, 2], [1, 1, 2, 2]])
    assert whole(labels).triple_points.tolist() == [0.0]


def test_parts_share_out_points_and_area() -> None:
    labels = np.array([[1, 2, 2, 2], [3, 3, 2, 2]])
    tally = whole(labels, n_along=2)
    assert tally.areas_px.tolist() == [4.0, 4.0]
    assert tally.triple_points.tolist() == [1.0, 0.0]
    both = joined_areas([tally, whole(labels)])
    assert both.areas_px.tolist() == [4.0, 4.0, 8.0]
    assert both.triple_points.tolist() == [1.0, 0.0, 1.0]


def test_a_patch_inside_the_picture_keeps_its_place() -> None:
    labels = np.array([[1, 2], [3, 3]])
    patch = metal_patch(labels, labels > 0, corner_px=(0, 10))
    grid = BlockGrid(
        axis_deg=0.0, along_px=(0.0, 20.0), across_px=(-2.0, 0.0), n_along=2, n_across=1
    )
    assert area_tally(patch, grid).triple_points.tolist() == [0.0, 1.0]


def test_a_network_has_two_triple_points_to_a_grain(
    hexagons: Callable[[float, tuple[int, int]], Labels],
) -> None:
    # Regular hexagons of edge a have the area 1.5 sqrt(3) a^2.
    labels = hexagons(20.0, (600, 600))
    patch = metal_patch(labels, np.ones(labels.shape, np.bool_))
    grid = BlockGrid(
        axis_deg=0.0,
        along_px=(-0.5, 599.5),
        across_px=(-599.5, 0.5),
        n_along=1,
        n_across=1,
    )
    grains = 600 * 600 / (1.5 * sqrt(3.0) * 20.0**2)
    # The frame cuts a strip of half an edge; points are whole numbers.
    assert area_tally(patch, grid).triple_points[0] == pytest.approx(
        2 * grains, rel=0.03, abs=0
    )


def test_equal_parts_give_the_t_interval_of_their_points() -> None:
    points = [18.0, 22.0, 20.0, 24.0, 16.0, 20.0]
    scatter = AreaTally(areas_px=np.full(6, 100.0), triple_points=np.array(points))
    found = grains_per_area_estimate(61.0, 600.0, scatter=scatter)
    u = 61 / 600 * np.std(points, ddof=1) / sqrt(6) / 20
    assert found.quantity.value == pytest.approx(61 / 600, rel=1e-12, abs=0)
    assert found.quantity.standard_uncertainty == pytest.approx(u, rel=1e-9, abs=0)
    assert found.quantity.degrees_of_freedom == 5
    assert found.interval95 is not None
    assert found.interval95.half_width == pytest.approx(
        stats.t.ppf(0.975, 5) * u, rel=1e-9, abs=0
    )
    assert "scatter of triple points" in found.interval95.method


@pytest.mark.parametrize("points", [[20.0, 22.0, 18.0], [0.0] * 5 + [60.0]])
def test_too_few_parts_with_points_fall_back_to_the_count(points: list[float]) -> None:
    scatter = AreaTally(
        areas_px=np.full(len(points), 100.0), triple_points=np.array(points)
    )
    plain = grains_per_area_estimate(30.0, 600.0)
    assert grains_per_area_estimate(30.0, 600.0, scatter=scatter) == plain


def test_parts_without_metal_do_not_count() -> None:
    points = [18.0, 22.0, 20.0, 24.0]
    full = AreaTally(areas_px=np.full(4, 100.0), triple_points=np.array(points))
    padded = AreaTally(
        areas_px=np.array([100.0] * 4 + [0.0]), triple_points=np.array([*points, 0.0])
    )
    assert grains_per_area_estimate(
        40.0, 400.0, scatter=padded
    ) == grains_per_area_estimate(40.0, 400.0, scatter=full)


def test_meeting_points_lie_between_pixels_within_the_metal() -> None:
    labels = np.array([[1, 1, 2, 2], [1, 1, 2, 2], [3, 3, 4, 4], [0, 3, 4, 4]])
    met = meeting_points(labels)
    assert met.places_px.tolist() == [[1.5, 1.5]]
    assert met.labels.tolist() == [[1, 2, 3, 4]]
    assert met.triple_points.tolist() == [2.0]


@pytest.mark.parametrize("shape", [(1, 1), (1, 5), (5, 1)])
def test_a_row_of_pixels_has_no_meeting_point(shape: tuple[int, int]) -> None:
    met = meeting_points(np.arange(1, 1 + shape[0] * shape[1]).reshape(shape))
    assert met.places_px.shape == (0, 2)
    assert met.triple_points.size == 0
