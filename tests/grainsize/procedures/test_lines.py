"""Line procedures on tilings whose intercepts have closed forms."""

from collections.abc import Callable
from math import pi, sqrt

import numpy as np
import numpy.typing as npt
import pytest

from strandproof.errors import ParameterError
from strandproof.grainsize.patch import MetalPatch, metal_patch
from strandproof.grainsize.procedures.lines import (
    heyn_lines,
    single_circle,
    three_circles,
)
from strandproof.grainsize.procedures.scoring import scoring_rules
from strandproof.grainsize.procedures.settings import procedure_settings
from strandproof.quantity import Quantity
from strandproof.records.procedures import LineCount

Labels = npt.NDArray[np.int32]
AsPatch = Callable[[npt.NDArray[np.integer]], MetalPatch]
PIXELS = procedure_settings(None)


def _mean_px(count: LineCount) -> float:
    assert count.mean_intercept is not None
    return count.mean_intercept.quantity.value


def test_stripes_give_the_crossings_that_geometry_says(as_patch: AsPatch) -> None:
    # Upright stripes of w: P_L = 1/w at 0 deg, 0 at 90, 1/(w sqrt 2) at 45 and 135.
    numbers = np.repeat(np.arange(1, 21), 20)
    count = heyn_lines(as_patch(np.tile(numbers, (400, 1))), PIXELS)
    assert count.events.tangents == count.events.triple_points == 0
    # The length differs by direction; only crossings per length of each are fixed.
    share = (1.0 + 2.0 / sqrt(2.0)) / 4.0
    assert count.intersections / count.length.value == pytest.approx(
        share / 20.0, rel=0.05, abs=0
    )


def test_one_circle_crosses_each_stripe_boundary_inside_twice(
    as_patch: AsPatch,
) -> None:
    numbers = np.repeat(np.arange(1, 16), 20)
    count = single_circle(as_patch(np.tile(numbers, (300, 1))), PIXELS)
    # 300 px wide: boundaries at 20, 40, ..., 280, each met on both sides.
    assert count.intersections == 28.0
    assert count.length.value == pytest.approx(pi * 300.0, rel=0.005, abs=0)


def test_circles_on_squares_give_a_quarter_of_pi_times_the_side(
    squares: Callable[[int, int], Labels], as_patch: AsPatch
) -> None:
    # P_L = (|cos| + |sin|)/s, whose mean over all directions is 4/(pi s).
    count = three_circles(as_patch(squares(30, 20)), PIXELS)
    assert _mean_px(count) == pytest.approx(30.0 * pi / 4.0, rel=0.03, abs=0)


def test_circles_on_hexagons_give_area_over_outline_times_pi(
    hexagons: Callable[[float, tuple[int, int]], Labels], as_patch: AsPatch
) -> None:
    # l = pi A / P = pi sqrt(3)/4 of the edge.
    count = three_circles(as_patch(hexagons(20.0, (600, 600))), PIXELS)
    assert _mean_px(count) == pytest.approx(20.0 * pi * sqrt(3) / 4, rel=0.03, abs=0)


def test_heyn_lines_are_right_on_random_cells(
    voronoi: Callable[..., Labels], as_patch: AsPatch
) -> None:
    # l = pi / (4 sqrt(density)), Meijering 1953 and Miles 1970, from memory.
    means = [
        _mean_px(
            heyn_lines(as_patch(voronoi(seed, expected_grains=150, side=400)), PIXELS)
        )
        for seed in range(12)
    ]
    expected = pi / (4.0 * sqrt(150 / 400**2))
    scatter = float(np.std(means)) / sqrt(len(means))
    assert abs(float(np.mean(means)) - expected) < 3.0 * scatter


def test_figures_of_the_print_have_its_length(
    voronoi: Callable[..., Labels], as_patch: AsPatch
) -> None:
    patch = as_patch(voronoi(1, expected_grains=150, side=400))
    settings = procedure_settings(Quantity(0.5, "um", 0.001), magnification=500.0)
    three, one = three_circles(patch, settings), single_circle(patch, settings)
    assert three.length.value == pytest.approx(500 / 500, rel=1e-3, abs=0)
    assert one.length.value == pytest.approx(250 / 500, rel=1e-3, abs=0)
    assert {figure.size_from for figure in three.figures} == {"print_size"}
    with pytest.raises(ParameterError, match="together with a pixel size"):
        single_circle(patch, procedure_settings(None, magnification=500.0))


def test_half_the_pixel_size_raises_g_by_two(
    voronoi: Callable[..., Labels], as_patch: AsPatch
) -> None:
    patch = as_patch(voronoi(2, expected_grains=150, side=400))
    large, small = (
        heyn_lines(patch, procedure_settings(Quantity(size, "um", 0.001)))
        for size in (1.0, 0.5)
    )
    assert large.g is not None
    assert small.g is not None
    # The printed slope -6.643856 stands for -2/log10(2) to seven digits.
    assert small.g.quantity.value - large.g.quantity.value == pytest.approx(
        2.0, rel=0, abs=1e-6
    )


def test_every_other_choice_stands_beside_the_result(
    voronoi: Callable[..., Labels], as_patch: AsPatch
) -> None:
    patch = as_patch(voronoi(3, expected_grains=150, side=400))
    count = heyn_lines(patch, procedure_settings(Quantity(0.5, "um", 0.001)))
    effects = {effect.rule: effect for effect in count.effects}
    assert set(effects) == {"tangent", "triple_point", "line_ends"}
    triple = effects["triple_point"]
    assert triple.option == "two"
    assert triple.status == "from memory"
    assert triple.count == count.intercepts + 0.5 * count.events.triple_points
    assert triple.g is not None
    assert count.g is not None
    assert triple.g > count.g.quantity.value
    e112 = heyn_lines(
        patch,
        procedure_settings(
            Quantity(0.5, "um", 0.001), scoring=scoring_rules(triple_point="two")
        ),
    )
    assert e112.g is not None
    assert e112.g.quantity.value == pytest.approx(triple.g, rel=1e-12, abs=0)


def test_without_a_boundary_there_is_no_mean_and_no_g(as_patch: AsPatch) -> None:
    patch = as_patch(np.ones((60, 60), np.int32))
    settings = procedure_settings(Quantity(0.5, "um", 0.001))
    for procedure in (heyn_lines, single_circle, three_circles):
        count = procedure(patch, settings)
        assert count.mean_intercept is None
        assert count.g is None
        assert all(effect.g is None for effect in count.effects)


def test_whole_ends_at_strand_edges_add_one_intercept_a_line() -> None:
    metal = np.zeros((62, 400), np.bool_)
    metal[1:61] = True
    labels = np.where(metal, 1 + np.arange(400)[None, :] // 25, 0).astype(np.int32)
    patch = metal_patch(labels, metal)
    half = heyn_lines(patch, PIXELS)
    whole = heyn_lines(
        patch,
        procedure_settings(
            None, scoring=scoring_rules(line_ends="whole_at_strand_edge")
        ),
    )
    assert half.intercepts == half.intersections
    added = whole.intercepts - whole.intersections
    assert added == 0.5 * whole.events.strand_edge_ends_inside > 0


def test_circles_at_several_places_are_added(
    voronoi: Callable[..., Labels], as_patch: AsPatch
) -> None:
    patch = as_patch(np.hstack([voronoi(1, expected_grains=60, side=250)] * 3))
    settings = procedure_settings(None, placements=3)
    one, three = single_circle(patch, settings), three_circles(patch, settings)
    assert (len(one.figures), len(three.figures)) == (3, 9)
    # Three concentric circles are twice as long as the outer one.
    assert three.length.value == pytest.approx(2 * one.length.value, rel=1e-3, abs=0)


def test_circles_that_leave_a_strand_become_arcs_and_say_so() -> None:
    metal = np.zeros((62, 400), np.bool_)
    metal[1:61] = True
    labels = np.where(metal, 1 + np.arange(400)[None, :] // 25, 0).astype(np.int32)
    patch = metal_patch(labels, metal)
    # 500 mm at 1000x are 500 um in all: circles of 159, 106 and 53 px on 60 px.
    settings = procedure_settings(Quantity(0.5, "um", 0.001), magnification=1000.0)
    count = three_circles(patch, settings)
    assert [figure.clipped for figure in count.figures] == [True, True, False]
    assert count.length.value < 0.5
    # Two arcs each of the outer circles, two ends each.
    met = count.events
    assert met.ends_inside + met.ends_on_boundary == 8
