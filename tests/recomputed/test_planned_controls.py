"""Ceilings of planned controls, recomputed by other means.

Source: the product brief, section 3 fact 9, S8 and Appendix A "0 of n" (computed
there; its 0.95 is judgement and an input here). Status: computed; nothing published
was read. Recomputed with scipy's beta distribution (Clopper-Pearson) and the mean of
its posterior. Tolerance: half a unit of the last digit that the brief prints.
"""

import numpy as np
import pytest
from scipy import stats

from strandproof.weighing import planned_controls, planned_controls_ceiling


@pytest.mark.parametrize(
    ("controls", "ceiling", "expected"),
    [(4, 1.80, 5.7), (20, 6.83, 20.9), (24, 8.10, 24.7)],
)
def test_ceiling_by_reading_error(
    controls: int, ceiling: float, expected: float
) -> None:
    support = planned_controls_ceiling(
        planned_controls("single_crystal", controls, mounts=["m1"])
    ).support
    assert support is not None
    np.testing.assert_allclose(support.ratio, ceiling, atol=0.005)
    np.testing.assert_allclose(support.expected_ratio, expected, atol=0.05)
    upper = stats.beta(1, controls).ppf(0.95)
    np.testing.assert_allclose(support.ratio, 0.95 / upper, rtol=1e-9)
    mean = stats.beta(1, controls + 1).mean()
    np.testing.assert_allclose(support.expected_ratio, 0.95 / mean, rtol=1e-12)


def test_five_mounts_count_five_times() -> None:
    """S8: 24 controls in five mounts, ceiling 2.1 against faults of a mount."""
    mounts = ["m1", "m2", "m3", "m4", "m5"]
    support = planned_controls_ceiling(
        planned_controls("single_crystal", 24, mounts=mounts)
    ).support
    assert support is not None
    np.testing.assert_allclose(support.group_ratios["mount"], 2.1, atol=0.05)
    np.testing.assert_allclose(support.group_ratios["batch"], 1.0, atol=0.005)


@pytest.mark.parametrize(("controls", "ratio"), [(4, 0.42), (24, 1.91)])
def test_nothing_judged_with_two_soft_controls(controls: int, ratio: float) -> None:
    support = planned_controls_ceiling(
        (
            *planned_controls("single_crystal", controls, mounts=["m1"]),
            *planned_controls("polycrystal", 2, mounts=["m1"]),
        )
    ).support
    assert support is not None
    assert support.ratio_unjudged is not None
    np.testing.assert_allclose(support.ratio_unjudged, ratio, atol=0.005)
