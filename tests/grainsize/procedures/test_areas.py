from collections.abc import Callable
from math import pi, sqrt

import numpy as np
import numpy.typing as npt
import pytest
from scipy import ndimage

from strandproof.grainsize.patch import MetalPatch, metal_patch
from strandproof.grainsize.procedures.areas import (
    jeffries_circle,
    saltykov_rectangle,
    triple_point_count,
    whole_area,
)
from strandproof.grainsize.procedures.figures import figure_region
from strandproof.grainsize.procedures.settings import procedure_settings
from strandproof.grainsize.rules import counting_rules
from strandproof.quantity import Quantity
from strandproof.records.measurement import FrameRule

Labels = npt.NDArray[np.int32]
AsPatch = Callable[[npt.NDArray[np.integer]], MetalPatch]
PIXELS = procedure_settings(None)


def test_a_rectangle_on_squares_is_exact_wherever_it_lies(
    squares: Callable[[int, int], Labels], as_patch: AsPatch
) -> None:
    # Squares of 20 px, cut in half by the frame: corners of a rectangle of whole
    # squares lie in four different ones.
    patch = as_patch(squares(20, 12))
    for sides in ((80.0, 120.0), (120.0, 160.0)):
        count = saltykov_rectangle(patch, PIXELS, height_width_px=sides)
        assert count.corners == 4
        assert count.equivalent == sides[0] * sides[1] / 400.0
        (by_halves,) = count.effects
        assert by_halves.count == count.equivalent + 1.0
        assert by_halves.status == "read"


def test_a_circle_on_fine_squares_counts_its_area(
    squares: Callable[[int, int], Labels], as_patch: AsPatch
) -> None:
    count = jeffries_circle(as_patch(squares(10, 40)), PIXELS)
    assert count.equivalent == count.inside + 0.5 * count.cut
    assert count.area.value == pytest.approx(pi / 4 * 400**2, rel=0.01, abs=0)
    # The boundary layer is one grain wide, so the scatter is a few of 1257.
    assert count.equivalent == pytest.approx(pi / 4 * 40**2, rel=0.01, abs=0)


def test_a_circle_of_the_print_is_79_8_mm_wide(
    voronoi: Callable[..., Labels], as_patch: AsPatch
) -> None:
    patch = as_patch(voronoi(1, expected_grains=150, side=400))
    settings = procedure_settings(Quantity(0.5, "um", 0.001), magnification=500.0)
    count = jeffries_circle(patch, settings)
    assert count.figures[0].size_px[0] == pytest.approx(79.8e3 / 500 / 0.5, rel=1e-12)
    assert count.figures[0].size_from == "print_size"
    assert count.g is not None


def test_a_grain_that_ends_at_the_strands_edge_is_whole() -> None:
    metal = np.zeros((42, 200), np.bool_)
    metal[1:41] = True
    labels = np.where(metal, 1 + np.arange(200)[None, :] // 20, 0).astype(np.int32)
    patch = metal_patch(labels, metal)
    count = saltykov_rectangle(patch, PIXELS, height_width_px=(60.0, 120.0))
    # Six grains: four whole, two cut by the sides; no corner lies in metal.
    assert (count.inside + 0.5 * count.cut, count.corners) == (count.equivalent, 0)
    assert count.equivalent == 6.0 or (count.inside, count.cut) == (5, 2)
    assert count.effects == ()


def test_triple_points_of_hexagons_are_two_for_each(
    hexagons: Callable[[float, tuple[int, int]], Labels], as_patch: AsPatch
) -> None:
    patch = as_patch(hexagons(20.0, (480, 640)))
    count = triple_point_count(patch, PIXELS)
    area = 1.5 * sqrt(3.0) * 20.0**2
    expected = count.area.value / area
    # A row of points may lie on either side of a border: one edge length in all.
    assert count.equivalent == pytest.approx(expected, rel=0.04, abs=0)


def test_triple_points_and_cut_grains_count_the_same(
    voronoi: Callable[..., Labels], as_patch: AsPatch
) -> None:
    # Euler: with cut grains a half, N = P/2 + 1 exactly. A grain whose pixels fall
    # apart is several pieces to the points and one to the grains.
    for seed in range(6):
        patch = as_patch(voronoi(seed, expected_grains=150, side=400))
        rules: tuple[FrameRule, FrameRule] = ("half", "half_and_quarter_corners")
        for rule in rules:
            settings = procedure_settings(None, rules=counting_rules(frame_rule=rule))
            points = triple_point_count(patch, settings)
            grains = saltykov_rectangle(patch, settings)
            counted = grains.inside + 0.5 * grains.cut
            counted -= 0.0 if rule == "half" else 1.0
            assert points.equivalent == pytest.approx(counted, rel=0, abs=2.0)


def test_triple_points_of_fine_grains_are_not_run_together(
    voronoi: Callable[..., Labels], as_patch: AsPatch
) -> None:
    # Cells of 8 px: points lie so close that joining neighbours would lose a sixth.
    settings = procedure_settings(None, rules=counting_rules(frame_rule="half"))
    patch = as_patch(voronoi(7, expected_grains=1600, side=320))
    points = triple_point_count(patch, settings).equivalent
    grains = saltykov_rectangle(patch, settings)
    counted = grains.inside + 0.5 * grains.cut
    assert points == pytest.approx(counted, rel=0.02, abs=0)


def test_triple_points_of_bricks_are_exact(as_patch: AsPatch) -> None:
    # Bricks of 10 x 20 px, every row shifted by half: two points to a brick. Sides
    # run through the middles of bricks, so no point lies on them.
    rows, cols = np.indices((200, 400))
    layer = rows // 10
    labels = 1 + layer * 100 + (cols + 10 * (layer % 2)) // 20
    settings = procedure_settings(None, rules=counting_rules(frame_rule="half"))
    count = triple_point_count(as_patch(labels), settings, height_width_px=(90, 130))
    inside = saltykov_rectangle(as_patch(labels), settings, height_width_px=(90, 130))
    assert count.equivalent == inside.inside + 0.5 * inside.cut
    assert count.inside > 50


def test_all_of_the_metal_is_counted_as_the_measurement_counts_it(
    voronoi: Callable[..., Labels], as_patch: AsPatch
) -> None:
    count = whole_area(as_patch(voronoi(4, expected_grains=60, side=300)), PIXELS)
    assert count.equivalent == count.inside + 0.5 * count.cut - 1.0
    assert count.area.value == 300.0**2


def test_one_grain_has_no_grain_size(as_patch: AsPatch) -> None:
    patch = as_patch(np.ones((60, 60), np.int32))
    settings = procedure_settings(Quantity(0.5, "um", 0.001))
    for procedure in (jeffries_circle, saltykov_rectangle, whole_area):
        assert procedure(patch, settings).g is None


def test_several_circles_are_added(
    voronoi: Callable[..., Labels], as_patch: AsPatch
) -> None:
    patch = as_patch(np.hstack([voronoi(1, expected_grains=60, side=250)] * 3))
    count = jeffries_circle(patch, procedure_settings(None, placements=3))
    assert len(count.figures) == 3
    assert count.equivalent == count.inside + 0.5 * count.cut
    diameter = count.figures[0].size_px[0]
    assert count.area.value == pytest.approx(3 * pi / 4 * diameter**2, rel=0.01, abs=0)


def test_a_circle_counts_one_grain_too_many_and_says_so(as_patch: AsPatch) -> None:
    # Over all places of a tiling of squares, the grains met are the circle grown by
    # a square and those inside the circle shrunk by it, over the area of a square;
    # half of both is one more than area over area (Steiner), less on few pixels.
    side, size = 8, 200
    # 180 px wide: a circle that touched the frame would have grains cut by that.
    settings = procedure_settings(
        Quantity(1.0, "um", 0.001), magnification=79.8e3 / 180.0
    )
    counts = []
    for row in range(side):
        for col in range(side):
            places = [(np.arange(size) + shift) // side for shift in (row, col)]
            labels = places[0][:, None] * 100 + places[1][None, :] + 1
            count = jeffries_circle(as_patch(labels), settings)
            (less_one,) = count.effects
            assert (less_one.count, less_one.status) == (
                count.equivalent - 1.0,
                "computed",
            )
            counts.append(count.equivalent)
    circle = np.pad(figure_region(count.figures[0], as_patch(labels)), side)
    square = np.ones((side, side), np.bool_)
    met = ndimage.binary_dilation(circle, square).sum()
    inside = ndimage.binary_erosion(circle, square).sum()
    expected = 0.5 * (met + inside) / side**2
    assert float(np.mean(counts)) == pytest.approx(expected, rel=1e-12, abs=0)
    surplus = expected - circle.sum() / side**2
    assert 0.5 < surplus < 1.0
