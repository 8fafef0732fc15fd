"""Counting rules on drawn figures with known answers."""

from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from strandproof.grainsize.patch import MetalPatch, metal_patch
from strandproof.grainsize.procedures.contacts import contact_map, run_events
from strandproof.grainsize.procedures.curves import (
    Curve,
    circle_curve,
    metal_runs,
    straight_curve,
)
from strandproof.grainsize.procedures.scoring import intersections_of, scoring_rules
from strandproof.records.procedures import LineEvents

AsPatch = Callable[[np.ndarray[tuple[int, int], np.dtype[np.integer]]], MetalPatch]


def _met(patch: MetalPatch, curve: Curve) -> LineEvents:
    (run,) = metal_runs(curve, patch)
    return run_events(contact_map(patch, contact_px=1.0), run)


def _line(start: tuple[float, float], end: tuple[float, float]) -> Curve:
    return straight_curve(start, end, step_px=0.25)


def test_a_line_over_ten_stripes_crosses_nine_boundaries(stripes: MetalPatch) -> None:
    met = _met(stripes, _line((60.0, -0.5), (60.0, 199.5)))
    assert met == LineEvents(crossings=9, ends_inside=2)


def test_a_line_along_a_stripe_meets_nothing(stripes: MetalPatch) -> None:
    met = _met(stripes, _line((-0.5, 30.0), (119.5, 30.0)))
    assert met == LineEvents(ends_inside=2)


def test_a_line_that_ends_on_a_boundary_says_so(stripes: MetalPatch) -> None:
    # Boundaries lie at 19.5, 39.5, ...; this line crosses one and ends on the next.
    met = _met(stripes, _line((60.0, 10.0), (60.0, 39.5)))
    assert met == LineEvents(crossings=1, ends_inside=1, ends_on_boundary=1)
    assert intersections_of(met, scoring_rules()) == 1.5


@pytest.mark.parametrize(
    ("height", "expected"),
    [
        (30.0, LineEvents(crossings=2, ends_inside=2)),
        (40.5, LineEvents(tangents=1, ends_inside=2)),
        (45.0, LineEvents(ends_inside=2)),
    ],
)
def test_a_line_cuts_touches_or_misses_a_round_grain(
    disc: MetalPatch, height: float, expected: LineEvents
) -> None:
    row = 100.0 - height
    assert _met(disc, _line((row, -0.5), (row, 200.5))) == expected


@pytest.mark.parametrize(
    ("standard", "score"), [("textbook", 0.5), ("e112", 1.0), ("e112_circles", 1.0)]
)
def test_a_tangent_scores_by_the_named_rule(
    disc: MetalPatch, standard: str, score: float
) -> None:
    met = _met(disc, _line((59.5, -0.5), (59.5, 200.5)))
    rules = scoring_rules(standard)  # type: ignore[arg-type]
    assert intersections_of(met, rules) == score


# Boundaries lie at 17, 137 and 257 deg; no line runs along one.
@pytest.mark.parametrize("direction_deg", [0, 30, 45, 60, 90, 105, 120, 150, 165])
def test_a_line_through_a_triple_point_meets_just_that(
    three_sectors: MetalPatch, direction_deg: int
) -> None:
    angle = np.radians(direction_deg)
    row, col = 80.0 * np.sin(angle), 80.0 * np.cos(angle)
    met = _met(three_sectors, _line((100.0 + row, 100.0 - col), (100 - row, 100 + col)))
    assert met == LineEvents(triple_points=1, ends_inside=2)
    assert intersections_of(met, scoring_rules()) == 1.5
    assert intersections_of(met, scoring_rules("e112_circles")) == 2.0


@pytest.mark.parametrize("direction_deg", [37, 47, 57, 97, 107, 117, 157, 167])
def test_lines_to_either_side_of_a_triple_point_cross_three_boundaries_together(
    three_sectors: MetalPatch, direction_deg: int
) -> None:
    """Why 1 1/2 is the score without bias."""
    angle = np.radians(direction_deg)
    along = np.array([-np.sin(angle), np.cos(angle)])
    normal = np.array([along[1], -along[0]])
    counts = []
    for side in (-12.0, 12.0):
        middle = np.array([100.0, 100.0]) + side * normal
        ends = [tuple(middle + 80.0 * sign * along) for sign in (-1.0, 1.0)]
        counts.append(_met(three_sectors, _line(ends[0], ends[1])))
    assert sorted(met.crossings for met in counts) == [1, 2]
    assert all(met.triple_points == 0 for met in counts)


def test_a_circle_around_a_triple_point_crosses_three_boundaries(
    three_sectors: MetalPatch,
) -> None:
    met = _met(three_sectors, circle_curve((100.0, 100.0), 100.0, step_px=0.25))
    assert met == LineEvents(crossings=3)


def test_a_diagonal_through_the_corners_of_squares_meets_points_of_four(
    as_patch: AsPatch,
) -> None:
    places = np.arange(120) // 20
    patch = as_patch(places[:, None] * 6 + places[None, :] + 1)
    met = _met(patch, _line((-0.5, -0.5), (119.5, 119.5)))
    assert met.higher_junctions == (4,) * 5
    assert met.crossings == met.tangents == 0
    # Two boundaries for each square passed, as for any line beside the corners.
    assert intersections_of(met, scoring_rules()) == 10.0


def test_the_edge_of_a_strand_is_no_boundary_and_makes_no_junction() -> None:
    metal = np.zeros((80, 120), np.bool_)
    metal[20:60] = True
    labels = np.where(metal, 1 + np.arange(120)[None, :] // 40, 0)
    patch = metal_patch(labels, metal)
    assert contact_map(patch, contact_px=1.0).junction_grains.size == 0
    met = _met(patch, _line((20.2, -0.5), (20.2, 119.5)))
    assert met == LineEvents(crossings=2, ends_inside=2)
    across = _met(patch, _line((-0.5, 60.0), (79.5, 60.0)))
    assert across == LineEvents(ends_inside=2, strand_edge_ends_inside=2)


def test_one_grain_has_no_boundary_to_meet(as_patch: AsPatch) -> None:
    patch = as_patch(np.ones((40, 40), np.int32))
    assert _met(patch, circle_curve((20.0, 20.0), 20.0, step_px=0.25)) == LineEvents()


@settings(max_examples=40, deadline=None)
@given(
    row=st.floats(15.0, 105.0),
    start=st.floats(2.0, 60.0),
    length=st.floats(30.0, 120.0),
)
def test_a_line_met_backwards_meets_the_same(
    stripes: MetalPatch, row: float, start: float, length: float
) -> None:
    ends = ((row, start), (120.0 - row, start + length))
    assert _met(stripes, _line(*ends)) == _met(stripes, _line(*reversed(ends)))
