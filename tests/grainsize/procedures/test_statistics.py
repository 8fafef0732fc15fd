from collections.abc import Callable
from math import pi, sqrt

import numpy as np
import numpy.typing as npt
import pytest
from hypothesis import given
from hypothesis import strategies as st

from strandproof.grainsize.intercepts import walk_patch
from strandproof.grainsize.patch import MetalPatch, metal_patch
from strandproof.grainsize.procedures.statistics import (
    boundary_contrast,
    spread_of,
    weighted_moments,
    weighted_percentile,
    whole_grains,
    whole_picture_statistics,
)
from strandproof.grainsize.rules import counting_rules
from strandproof.quantity import Quantity

Labels = npt.NDArray[np.int32]
AsPatch = Callable[[npt.NDArray[np.integer]], MetalPatch]


def test_weights_undo_that_small_grains_are_cut_less_often(
    voronoi: Callable[..., Labels], as_patch: AsPatch
) -> None:
    sums = []
    for seed in range(25):
        found = whole_grains(as_patch(voronoi(seed, expected_grains=60, side=240)))
        weighted = float(np.average(found.areas_px, weights=found.weights))
        assert weighted > float(found.areas_px.mean())
        sums.append((found.areas_px @ found.weights, found.weights.sum()))
    # Sums are divided, not averaged: a quotient of one small picture is biased.
    areas, grains = np.array(sums).T
    pooled = areas.sum() / grains.sum()
    scatter = float(np.std(areas - pooled * grains)) * sqrt(25.0) / grains.sum()
    assert abs(pooled - 240**2 / 60) < 3.0 * scatter


def test_a_disc_has_its_area_and_outline(disc: MetalPatch) -> None:
    found = whole_grains(disc)
    assert found.labels.tolist() == [2]
    assert found.left_out == 1
    assert found.areas_px[0] == pytest.approx(pi * 40**2, rel=0.01, abs=0)
    # Crofton's formula with four directions on a digital disc: read to be within
    # 0.3 % at a radius of 100 px (check values, section 0).
    assert found.perimeters_px[0] == pytest.approx(2 * pi * 40, rel=0.02, abs=0)
    assert found.centres_px[0] == pytest.approx((100.0, 100.0), rel=0, abs=1e-9)


def test_a_strands_own_edge_cuts_no_grain() -> None:
    metal = np.zeros((42, 100), np.bool_)
    metal[1:41, 10:90] = True
    labels = np.where(metal, 1 + np.arange(100)[None, :] // 20, 0).astype(np.int32)
    found = whole_grains(metal_patch(labels, metal))
    assert found.left_out == 0
    assert found.labels.tolist() == [1, 2, 3, 4, 5]
    assert found.weights.tolist() == [1.0] * 5


def test_both_spreads_are_scaled_and_count_what_they_leave_out(
    voronoi: Callable[..., Labels], as_patch: AsPatch
) -> None:
    patch = as_patch(voronoi(5, expected_grains=60, side=300))
    walked = walk_patch(patch, axis_deg=0.0, has_axis=False, rules=counting_rules())
    lines = [line for each in walked.lines for line in each]
    grains = whole_grains(patch)
    pixels = whole_picture_statistics(grains, lines, pixel_size=None)
    scaled = whole_picture_statistics(
        grains, lines, pixel_size=Quantity(0.5, "um", 0.001)
    )
    assert (pixels.areas.unit, scaled.areas.unit) == ("px^2", "um^2")
    assert (pixels.intercepts.unit, scaled.intercepts.unit) == ("px", "um")
    assert pixels.areas.mean is not None
    assert scaled.areas.mean == pytest.approx(0.25 * pixels.areas.mean, rel=1e-12)
    assert pixels.areas.n + pixels.areas.left_out == patch.grains
    assert pixels.intercepts.mean is not None
    # All pieces together are the length of line: whole ones lie around the mean.
    crossings = sum(line.traverse.crossings for line in lines)
    assert pixels.intercepts.n == crossings - len(
        [line for line in lines if line.traverse.crossings]
    )


def test_too_few_pieces_have_no_spread() -> None:
    for sizes in (np.empty(0), np.array([3.0])):
        spread = spread_of(
            sizes, np.ones(sizes.size), unit="px", left_out=2, weighting="none"
        )
        assert (spread.n, spread.mean, spread.percentiles) == (sizes.size, None, ())


@given(
    sizes=st.lists(st.floats(0.1, 1e4), min_size=2, max_size=30),
    factor=st.floats(0.5, 20.0),
)
def test_equal_weights_are_no_weights(sizes: list[float], factor: float) -> None:
    each = np.array(sizes)
    mean, deviation = weighted_moments(each, np.full(each.size, factor))
    assert mean == pytest.approx(float(each.mean()), rel=1e-9, abs=0)
    assert deviation == pytest.approx(float(each.std(ddof=1)), rel=1e-6, abs=1e-9)
    middle = weighted_percentile(each, np.full(each.size, factor), 50.0)
    assert middle == pytest.approx(float(np.median(each)), rel=1e-9, abs=0)


def test_a_ring_of_others_borders_all_of_an_outline(disc: MetalPatch) -> None:
    coarse = np.array([False, False, True])
    assert boundary_contrast(disc, coarse)[2] == 1.0
    assert boundary_contrast(disc, np.array([False, True, True]))[2] == 0.0
