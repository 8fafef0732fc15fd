from dataclasses import replace
from math import sqrt

import numpy as np
import pytest

from strandproof.grainsize import counting_rules
from strandproof.grainsize.blocks import BlockTally
from strandproof.grainsize.estimates import (
    grains_per_area_estimate,
    mean_intercept_estimate,
)
from strandproof.quantity import mean_with_interval, poisson_interval
from strandproof.records import Estimate

RULES = counting_rules()


def _tally(lengths: list[float], intercepts: list[float]) -> BlockTally:
    return BlockTally(
        lengths_px=np.array(lengths),
        intercepts=np.array(intercepts),
        crossings=round(sum(intercepts)),
    )


def _mean(tally: BlockTally, directions: int = 4) -> Estimate:
    estimate = mean_intercept_estimate(tally, directions=directions, rules=RULES)
    assert estimate is not None
    return estimate


def test_the_mean_is_all_length_by_all_intercepts() -> None:
    estimate = _mean(_tally([100, 300, 100, 100, 100, 100], [5, 15, 4, 6, 5, 5]))
    assert estimate.quantity.value == pytest.approx(800 / 40, rel=1e-12, abs=0)
    assert estimate.quantity.unit == "px"


def test_equal_parts_give_the_t_interval_of_their_counts() -> None:
    # With equal lengths the scatter is that of the counts: u(l)/l = u(N)/N.
    counts = [9.0, 11.0, 10.0, 12.0, 8.0, 10.0]
    estimate = _mean(_tally([100.0] * 6, counts))
    mean, interval = mean_with_interval(counts, unit="1", method="counts")
    assert interval.upper is not None
    u = estimate.quantity.value * mean.standard_uncertainty / mean.value
    assert estimate.quantity.standard_uncertainty == pytest.approx(u, rel=1e-9, abs=0)
    assert estimate.quantity.degrees_of_freedom == 5
    half = estimate.quantity.value * (interval.upper - mean.value) / mean.value
    assert estimate.interval95 is not None
    assert estimate.interval95.upper == pytest.approx(10 + half, rel=1e-9, abs=0)
    assert estimate.interval95.lower == pytest.approx(10 - half, rel=1e-9, abs=0)
    assert estimate.relative_accuracy_percent == pytest.approx(
        10 * half, rel=1e-9, abs=0
    )
    assert "within this picture" in estimate.interval95.method


def test_parts_without_metal_do_not_count() -> None:
    full = _mean(_tally([100.0] * 6, [9, 11, 10, 12, 8, 10]))
    padded = _mean(_tally([100.0] * 6 + [0.0], [9, 11, 10, 12, 8, 10, 0]))
    assert padded == full


def test_a_wild_scatter_never_gives_a_negative_length() -> None:
    estimate = _mean(_tally([100.0] * 6, [0, 0, 0, 0, 0, 6]))
    assert estimate.interval95 is not None
    assert estimate.interval95.lower == 0.0


def test_few_parts_fall_back_to_one_directions_share_of_the_count() -> None:
    estimate = _mean(_tally([500.0], [43]))
    limits = poisson_interval(10, exposure=1.0, unit="1")
    assert limits.lower is not None
    assert limits.upper is not None
    mean = 500 / 43
    assert estimate.interval95 is not None
    assert estimate.interval95.lower == pytest.approx(
        mean * 10 / limits.upper, rel=1e-12, abs=0
    )
    assert estimate.interval95.upper == pytest.approx(
        mean * 10 / limits.lower, rel=1e-12, abs=0
    )
    assert estimate.quantity.standard_uncertainty == pytest.approx(
        mean / sqrt(10), rel=1e-12, abs=0
    )


def test_closer_lines_do_not_narrow_the_fallback() -> None:
    wide = mean_intercept_estimate(_tally([500.0], [40]), directions=4, rules=RULES)
    close = mean_intercept_estimate(
        _tally([1000.0], [80]), directions=4, rules=replace(RULES, line_spacing=0.5)
    )
    assert close == wide


def test_too_few_crossings_for_an_interval_give_none() -> None:
    estimate = _mean(_tally([500.0], [3]))
    assert estimate.interval95 is None
    assert estimate.relative_accuracy_percent is None


def test_no_crossing_gives_no_mean() -> None:
    tally = _tally([500.0], [0])
    assert mean_intercept_estimate(tally, directions=4, rules=RULES) is None
    # Whole ends at the strand's edge are no boundary either.
    ends = replace(tally, intercepts=np.array([12.0]))
    assert mean_intercept_estimate(ends, directions=4, rules=RULES) is None


def test_grains_per_area_take_the_next_whole_numbers() -> None:
    estimate = grains_per_area_estimate(88.5, 1000.0)
    below = poisson_interval(88, exposure=1000.0, unit="1/px^2")
    above = poisson_interval(89, exposure=1000.0, unit="1/px^2")
    assert estimate.quantity.value == pytest.approx(0.0885, rel=1e-12, abs=0)
    assert estimate.quantity.standard_uncertainty == pytest.approx(
        sqrt(88.5) / 1000, rel=1e-12, abs=0
    )
    assert estimate.interval95 is not None
    assert estimate.interval95.lower == below.lower
    assert estimate.interval95.upper == above.upper
    assert "within this picture" in estimate.interval95.method
