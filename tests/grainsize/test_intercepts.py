from collections.abc import Callable
from dataclasses import replace
from math import cos, pi, radians, sin, sqrt

import numpy as np
import numpy.typing as npt
import pytest

from strandproof.grainsize import counting_rules
from strandproof.grainsize.intercepts import (
    DIRECTIONS_DEG,
    PatchLines,
    intercept_count,
    walk_patch,
)
from strandproof.grainsize.patch import MetalPatch, metal_patch
from strandproof.records import InterceptCount, LineEndRule

Labels = npt.NDArray[np.int32]
Squares = Callable[[int, int], Labels]
Hexagons = Callable[[float, tuple[int, int]], Labels]


def _patch(labels: Labels) -> MetalPatch:
    return metal_patch(labels, np.ones(labels.shape, np.bool_))


def _walk(
    patch: MetalPatch,
    *,
    axis_deg: float = 0.0,
    has_axis: bool = True,
    line_ends: LineEndRule = "half",
) -> PatchLines:
    rules = counting_rules(line_ends=line_ends)
    return walk_patch(patch, axis_deg=axis_deg, has_axis=has_axis, rules=rules)


def _count(patch: MetalPatch, *, axis_deg: float = 0.0) -> InterceptCount:
    return intercept_count([_walk(patch, axis_deg=axis_deg)], rules=counting_rules())


def _by_direction(count: InterceptCount) -> dict[float, float]:
    return {
        each.direction_deg: each.mean_intercept.quantity.value
        for each in count.directions
        if each.mean_intercept is not None
    }


def test_squares_have_their_side_as_mean_intercept(squares: Squares) -> None:
    means = _by_direction(_count(_patch(squares(20, 12))))
    assert means[0.0] == pytest.approx(20.0, rel=1e-9, abs=0)
    assert means[90.0] == pytest.approx(20.0, rel=1e-9, abs=0)


def test_squares_are_crossed_more_often_on_the_slant(squares: Squares) -> None:
    # Close lines, because few lines beat against a regular pattern.
    rules = replace(counting_rules(), line_spacing=0.15)
    axis_deg = 17.0
    lines = walk_patch(
        _patch(squares(30, 20)), axis_deg=axis_deg, has_axis=True, rules=rules
    )
    for direction, mean in _by_direction(intercept_count([lines], rules=rules)).items():
        angle = radians(axis_deg + direction)
        crossed = abs(cos(angle)) + abs(sin(angle))
        assert mean == pytest.approx(30 / crossed, rel=0.005, abs=0)


@pytest.mark.parametrize("axis_deg", [0.0, 20.0])
def test_hexagons_have_the_closed_form_of_every_direction(
    hexagons: Hexagons, axis_deg: float
) -> None:
    edge = 20.0
    count = _count(_patch(hexagons(edge, (900, 900))), axis_deg=axis_deg)
    length_per_area = 2 / (sqrt(3) * edge)
    for direction, mean in _by_direction(count).items():
        # A third of the boundary at each of 30, 90 and 150 deg.
        share = sum(
            abs(sin(radians(at - axis_deg - direction))) for at in (30, 90, 150)
        )
        assert mean == pytest.approx(3 / (length_per_area * share), rel=0.02, abs=0)


def test_hexagons_overall_give_the_mean_over_directions(hexagons: Hexagons) -> None:
    edge = 20.0
    count = _count(_patch(hexagons(edge, (900, 900))))
    assert count.mean_intercept is not None
    # P_L = (2/pi) L_A over all directions; four of them come within 2 %.
    assert count.mean_intercept.quantity.value == pytest.approx(
        pi * sqrt(3) * edge / 4, rel=0.02, abs=0
    )
    assert count.elongation == pytest.approx(sqrt(3) / 2, rel=0.02, abs=0)


def test_stripes_are_crossed_along_and_not_across() -> None:
    labels = np.tile(np.repeat(np.arange(1, 13), 20), (240, 1)).astype(np.int32)
    count = _count(_patch(labels))
    means = _by_direction(count)
    # 11 boundaries in 240 pixels.
    assert means[0.0] == pytest.approx(240 / 11, rel=1e-9, abs=0)
    assert means[45.0] == pytest.approx(240 / 11 * sqrt(2), rel=0.03, abs=0)
    assert 90.0 not in means
    assert count.elongation is None


def test_lines_stand_about_one_mean_intercept_apart(squares: Squares) -> None:
    lines = _walk(_patch(squares(20, 12)))
    # 240 pixels, mean intercept about 17 over the four directions.
    assert 11 <= len(lines.lines[0]) <= 15
    assert len(lines.lines) == len(DIRECTIONS_DEG)


def test_elongated_grains_get_lines_from_a_second_pass() -> None:
    rows, cols = np.indices((200, 400))
    labels = (rows // 5 * 4 + cols // 100 + 1).astype(np.int32)
    lines = _walk(_patch(labels))
    count = intercept_count([lines], rules=counting_rules())
    assert count.mean_intercept is not None
    apart = 200 / len(lines.lines[0])
    assert apart == pytest.approx(count.mean_intercept.quantity.value, rel=0.3, abs=0)
    assert count.elongation == pytest.approx(400 / 3 / (200 / 39), rel=1e-9, abs=0)


def test_both_line_end_rules_on_two_layers() -> None:
    labels = np.ones((50, 400), np.int32)
    labels[25:] = 2
    metal = np.zeros((50, 400), np.bool_)
    metal[5:45] = True
    patch = metal_patch(labels, metal)
    means = {
        ends: _by_direction(
            intercept_count(
                [_walk(patch, line_ends=ends)], rules=counting_rules(line_ends=ends)
            )
        )[90.0]
        for ends in ("half", "whole_at_strand_edge")
    }
    # One boundary in 40 pixels from edge to edge, or two whole grains in them.
    assert means["half"] == pytest.approx(40.0, rel=0.01, abs=0)
    assert means["whole_at_strand_edge"] == pytest.approx(20.0, rel=0.01, abs=0)


def test_one_grain_has_no_mean_intercept() -> None:
    count = _count(_patch(np.ones((60, 200), np.int32)))
    assert count.mean_intercept is None
    assert count.elongation is None
    assert count.intercepts == 0
    assert count.length.value > 0


def test_pooled_pieces_add_up(squares: Squares) -> None:
    one, other = _walk(_patch(squares(20, 12))), _walk(_patch(squares(10, 12)))
    pooled = intercept_count([one, other], rules=counting_rules())
    singles = [intercept_count([part], rules=counting_rules()) for part in (one, other)]
    assert pooled.intercepts == sum(single.intercepts for single in singles)
    assert pooled.blocks == sum(single.blocks for single in singles)
    assert len(pooled.traverses) == sum(len(single.traverses) for single in singles)
    assert pooled.mean_intercept is not None
    assert pooled.mean_intercept.quantity.value == pytest.approx(
        sum(single.length.value for single in singles) / pooled.intercepts,
        rel=1e-12,
        abs=0,
    )


def test_a_round_face_has_directions_but_no_elongation(squares: Squares) -> None:
    lines = _walk(_patch(squares(20, 12)), has_axis=False)
    count = intercept_count([lines], rules=counting_rules())
    assert count.elongation is None
    assert len(_by_direction(count)) == 4


def test_one_pixel_of_metal_that_all_lines_miss_has_no_mean_intercept() -> None:
    labels = np.zeros((3, 3), np.int32)
    labels[1, 1] = 1
    lines = _walk(metal_patch(labels, labels > 0))
    assert not any(lines.lines)
    count = intercept_count([lines], rules=counting_rules())
    assert (count.mean_intercept, count.intercepts, count.blocks) == (None, 0, 0)
    assert count.length.value == 0
