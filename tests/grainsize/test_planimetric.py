from collections.abc import Callable
from math import pi

import numpy as np
import numpy.typing as npt
import pytest

from strandproof.errors import ParameterError
from strandproof.grainsize import count_grains, grains_per_area
from strandproof.quantity import Quantity
from strandproof.records import FrameRule, GrainCount

Labels = npt.NDArray[np.int32]
Squares = Callable[[int, int], Labels]
Hexagons = Callable[[float, tuple[int, int]], Labels]


def test_squares_cut_by_the_frame_count_as_half(squares: Squares) -> None:
    labels = squares(20, 10)
    count = count_grains(labels, np.ones(labels.shape, np.bool_))
    # 9 x 9 whole squares, 36 cut at the sides, 4 at the corners.
    assert (count.inside, count.cut, count.equivalent) == (81, 40, 101.0)
    assert count.grains == 121
    assert count.area == Quantity(200.0 * 200.0, "px^2")


def test_quarter_corners_are_exact_for_squares(squares: Squares) -> None:
    labels = squares(20, 10)
    region = np.ones(labels.shape, np.bool_)
    count = count_grains(labels, region, frame_rule="half_and_quarter_corners")
    assert count.equivalent == 100.0


def test_grains_at_the_strand_edge_are_whole() -> None:
    labels = np.zeros((30, 40), np.int32)
    labels[5:25, :20], labels[5:25, 20:] = 1, 2
    labels[5:25, 20] = 0
    metal = np.zeros((30, 40), np.bool_)
    metal[5:25] = True
    count = count_grains(labels, metal)
    # Both end at the strand's edges above and below and are cut at the frame.
    assert (count.inside, count.cut) == (0, 2)
    inner = np.zeros((30, 60), np.int32)
    inner[:, 10:50] = labels
    region = np.zeros((30, 60), np.bool_)
    region[5:25, 10:50] = True
    assert count_grains(inner, region).inside == 2


def test_the_area_includes_the_boundary_lines() -> None:
    labels = np.repeat([[1, 0, 2]], 3, axis=0).repeat(5, axis=1).astype(np.int32)
    count = count_grains(labels, np.ones(labels.shape, np.bool_))
    assert count.area.value == 45.0


def test_a_circle_cuts_what_goes_on_outside(squares: Squares) -> None:
    labels = squares(10, 40)
    rows, cols = np.indices(labels.shape)
    region = np.hypot(rows - 199.5, cols - 199.5) < 150
    count = count_grains(labels, region)
    assert count.cut > 0
    # The circle holds pi 150^2 / 100 squares; n1 + n2/2 comes within 2 %.
    assert count.equivalent == pytest.approx(pi * 150**2 / 100, rel=0.02, abs=0)


def test_hexagons_per_area_follow_from_their_edge(hexagons: Hexagons) -> None:
    edge = 14.0
    labels = hexagons(edge, (400, 420))
    region = np.ones(labels.shape, np.bool_)
    density = grains_per_area(count_grains(labels, region))
    assert density is not None
    exact = 2 / (3 * 3**0.5 * edge**2)
    # About one grain in 330 too many at the corners.
    assert density.quantity.value == pytest.approx(exact, rel=0.01, abs=0)


@pytest.mark.parametrize(("inside", "cut"), [(1, 0), (0, 1), (0, 0)])
def test_one_grain_has_no_grain_size(inside: int, cut: int) -> None:
    count = GrainCount(
        inside=inside,
        cut=cut,
        equivalent=inside + cut / 2,
        area=Quantity(100.0, "px^2"),
    )
    assert grains_per_area(count) is None


def test_a_region_must_hold_metal() -> None:
    with pytest.raises(ParameterError, match="a region with metal"):
        count_grains(np.ones((3, 3), np.int32), np.zeros((3, 3), np.bool_))


def test_region_and_labels_must_fit() -> None:
    with pytest.raises(ParameterError, match="two arrays of one shape"):
        count_grains(np.ones((3, 3), np.int32), np.ones((3, 4), np.bool_))


def test_an_unknown_rule_is_refused() -> None:
    rule: FrameRule = "whole"  # type: ignore[assignment]  # the point of the test
    with pytest.raises(ParameterError, match="frame_rule was given as 'whole'"):
        count_grains(
            np.ones((3, 3), np.int32), np.ones((3, 3), np.bool_), frame_rule=rule
        )
