from collections.abc import Callable
from math import cos, log2, pi, radians, sin, sqrt
from statistics import fmean

import numpy as np
import numpy.typing as npt
import pytest
from scipy import integrate

from strandproof.errors import ParameterError
from strandproof.grainsize.intercepts import intercept_count, walk_patch
from strandproof.grainsize.patch import MetalPatch
from strandproof.grainsize.planimetric import count_grains, grains_per_area
from strandproof.grainsize.procedures.difference import (
    method_difference,
    outline_stretch,
)
from strandproof.grainsize.procedures.statistics import whole_grains
from strandproof.grainsize.rules import counting_rules
from strandproof.quantity import Quantity
from strandproof.records.measurement import Estimate
from strandproof.records.structure_findings import MethodDifference

Labels = npt.NDArray[np.int32]
AsPatch = Callable[[npt.NDArray[np.integer]], MetalPatch]


def _difference(
    patch: MetalPatch, *, axis_deg: float = 0.0, has_axis: bool = False
) -> MethodDifference:
    rules = counting_rules()
    density = grains_per_area(
        count_grains(patch.labels, patch.metal, frame_rule="half_and_quarter_corners")
    )
    lines = walk_patch(patch, axis_deg=axis_deg, has_axis=has_axis, rules=rules)
    count = intercept_count([lines], rules=rules)
    assert density is not None
    assert count.mean_intercept is not None
    found = method_difference(
        density, count.mean_intercept, whole_grains(patch), elongation=count.elongation
    )
    assert found is not None
    return found


def _amounts(found: MethodDifference) -> dict[str, float]:
    return {reason.name: reason.amount_g for reason in found.reasons}


def test_reasons_make_up_the_difference(
    voronoi: Callable[..., Labels], as_patch: AsPatch
) -> None:
    for seed in range(3):
        found = _difference(as_patch(voronoi(seed, expected_grains=150, side=400)))
        assert sum(_amounts(found).values()) == pytest.approx(
            found.difference.value, rel=0, abs=1e-9
        )


def test_random_cells_differ_by_what_theory_says(
    voronoi: Callable[..., Labels], as_patch: AsPatch
) -> None:
    # l sqrt(N_A) = pi/4 (Meijering 1953, Miles 1970, from memory) where the two
    # numbers are equal at 0.8908: 2 log2 of the quotient is -0.363.
    found = [
        _difference(as_patch(voronoi(seed, expected_grains=200, side=450)))
        for seed in range(12)
    ]
    values = np.array([each.difference.value for each in found])
    expected = 2.0 * log2(pi / 4.0) + 0.334
    assert abs(values.mean() - expected) < 3.0 * values.std() / sqrt(12.0)
    # Outline and spread explain it; what is left to counting is small.
    left = np.array([_amounts(each)["counting"] for each in found])
    assert abs(left.mean()) < 0.03
    assert all(_amounts(each)["outline"] < -0.3 for each in found)
    assert all(_amounts(each)["size_spread"] > 0.0 for each in found)


def test_equal_hexagons_have_no_spread_and_their_own_outline(
    hexagons: Callable[[float, tuple[int, int]], Labels], as_patch: AsPatch
) -> None:
    # Tilted, so that the rows of hexagons do not keep step with the lines.
    found = _difference(as_patch(hexagons(20.0, (480, 640))), axis_deg=10.0)
    amounts = _amounts(found)
    assert amounts["size_spread"] == pytest.approx(0.0, rel=0, abs=0.005)
    # l sqrt(N_A) = pi sqrt(3)/4 a over sqrt(3 sqrt(3)/2) a for lines of all
    # directions. Both the lines and Crofton's formula here have four, which see
    # edges at 90, 30 and -30 deg at this share of their length:
    seen = fmean(
        pi / 8.0 * sum(abs(sin(radians(edge - line))) for line in (0, 45, 90, 135))
        for edge in (90, 30, -30)
    )
    level = pi * sqrt(3.0) / 4.0 / sqrt(1.5 * sqrt(3.0))
    expected = 2.0 * log2(level / seen) + 0.334
    # Digital outlines by Crofton's formula are good to about a percent: 0.03 in G.
    assert amounts["outline"] == pytest.approx(expected, rel=0, abs=0.03)
    assert found.difference.value == pytest.approx(expected, rel=0, abs=0.1)


def test_elongation_is_measured_as_a_reason(
    voronoi: Callable[..., Labels], as_patch: AsPatch
) -> None:
    labels = voronoi(3, expected_grains=200, side=400).repeat(3, axis=1)
    found = _difference(as_patch(labels), has_axis=True)
    amounts = _amounts(found)
    (reason,) = (each for each in found.reasons if each.name == "elongation")
    assert reason.measured == pytest.approx(3.0, rel=0.15, abs=0)
    assert amounts["elongation"] == pytest.approx(
        -2.0 * log2(outline_stretch(reason.measured)), rel=1e-12, abs=0
    )
    assert amounts["elongation"] < -0.4
    assert not found.agree
    assert "elongation" in found.sentence


def test_few_grains_agree_within_their_wide_interval(
    voronoi: Callable[..., Labels], as_patch: AsPatch
) -> None:
    found = _difference(as_patch(voronoi(1, expected_grains=14, side=150)))
    assert found.agree
    assert "the two agree" in found.sentence


def test_an_outline_by_numerical_integration() -> None:
    for ratio in (1.0, 1.7, 3.0, 10.0):
        a, b = sqrt(ratio), 1.0 / sqrt(ratio)

        def speed(t: float, a: float = a, b: float = b) -> float:
            return sqrt((a * sin(t)) ** 2 + (b * cos(t)) ** 2)

        outline, _ = integrate.quad(speed, 0.0, 2.0 * pi)
        assert outline_stretch(ratio) == pytest.approx(
            outline / (2.0 * pi), rel=1e-9, abs=0
        )
        assert outline_stretch(1.0 / ratio) == pytest.approx(
            outline_stretch(ratio), rel=1e-12, abs=0
        )


def test_scaled_estimates_are_refused(disc: MetalPatch) -> None:
    scaled = Estimate(
        quantity=Quantity(8.0, "um", 0.4),
        interval95=None,
        relative_accuracy_percent=None,
    )
    with pytest.raises(ParameterError, match="estimates in 1/px\\^2 and px"):
        method_difference(scaled, scaled, whole_grains(disc), elongation=None)
