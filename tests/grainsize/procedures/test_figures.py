from math import pi

import numpy as np
import pytest

from strandproof.errors import ParameterError
from strandproof.grainsize.patch import MetalPatch, metal_patch
from strandproof.grainsize.procedures.figures import (
    corners_in_metal,
    figure_region,
    placed_circles,
    placed_rectangle,
    print_size_um,
    three_diameters_px,
)


def _field(rows: int = 120, cols: int = 200) -> MetalPatch:
    return metal_patch(np.ones((rows, cols), np.int32), np.ones((rows, cols), np.bool_))


def _strand() -> MetalPatch:
    metal = np.zeros((62, 300), np.bool_)
    metal[1:61] = True
    return metal_patch(metal.astype(np.int32), metal, corner_px=(100, 50))


def test_the_largest_circle_of_a_field_stands_in_its_middle() -> None:
    (circle,) = placed_circles(_field())
    assert circle.centre_px == pytest.approx((59.5, 99.5), rel=0, abs=1.0)
    assert circle.size_px[0] == pytest.approx(120.0, rel=0, abs=1.0)
    assert (circle.size_from, circle.clipped) == ("largest_that_fits", False)


def test_a_circle_on_a_strand_is_placed_in_the_picture() -> None:
    (circle,) = placed_circles(_strand())
    assert circle.centre_px == pytest.approx((130.5, 199.5), rel=0, abs=1.0)
    assert circle.size_px[0] == pytest.approx(60.0, rel=0, abs=1.0)
    (wide,) = placed_circles(_strand(), diameter_px=90.0)
    assert (wide.size_from, wide.clipped) == ("given", True)
    assert int(figure_region(wide, _strand()).sum()) < pi / 4 * 90**2


def test_the_largest_rectangle_keeps_its_shape_and_lies_in_metal() -> None:
    # Within a strand four fifths of what fits, clear of its edges.
    for patch, rows in ((_field(), 120), (_strand(), 48)):
        box = placed_rectangle(patch)
        assert box.size_px[0] == pytest.approx(rows, rel=0, abs=1.0)
        assert box.size_px[1] / box.size_px[0] == pytest.approx(4 / 3, rel=0.02, abs=0)
        assert not box.clipped
        assert corners_in_metal(box, patch) == 4
        assert figure_region(box, patch).sum() == box.size_px[0] * box.size_px[1]


def test_corners_off_the_metal_are_not_counted() -> None:
    box = placed_rectangle(_strand(), height_width_px=(80.0, 100.0))
    assert box.clipped
    assert corners_in_metal(box, _strand()) == 0
    assert figure_region(box, _strand()).sum() == 60 * 100


def test_a_figure_of_the_print_shrinks_with_the_magnification() -> None:
    assert print_size_um(79.8, 200.0) == 399.0
    assert sum(three_diameters_px(500.0)) * pi == pytest.approx(500.0, rel=1e-12)


def test_sizes_that_are_none_are_refused() -> None:
    with pytest.raises(ParameterError, match="2 px or more each"):
        placed_rectangle(_field(), height_width_px=(1.0, 30.0))
    with pytest.raises(ParameterError, match="a length above 0"):
        placed_circles(_field(), diameter_px=-1.0)
    with pytest.raises(ParameterError, match="a number above 0"):
        print_size_um(79.8, 0.0)


def test_several_circles_lie_side_by_side_in_metal() -> None:
    # A strand of 60 x 300 px: nine tenths of 60 px fit five times.
    circles = placed_circles(_strand(), most=9)
    assert len(circles) == 5
    assert not any(circle.clipped for circle in circles)
    places = np.array([circle.centre_px for circle in circles])
    apart = np.linalg.norm(places[:, None] - places[None, :], axis=2)
    assert apart[~np.eye(5, dtype=np.bool_)].min() >= circles[0].size_px[0]
    regions = [figure_region(circle, _strand()) for circle in circles]
    assert int(np.sum(regions, axis=0).max()) == 1
    assert len(placed_circles(_strand(), most=2)) == 2
