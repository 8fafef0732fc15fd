"""Sampling, detection, calibration and rule in one interval."""

from dataclasses import replace
from math import sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from strandproof.errors import ParameterError
from strandproof.grainsize import mean_over_level
from strandproof.grainsize.by_level import (
    DetectionCorrection,
    Part,
    calibration_part,
    detection_part,
    joined_estimate,
    rule_part,
)
from strandproof.quantity import Quantity

LEADS = mean_over_level((8.333, 8.800, 8.200), level="lead")
SCALE = calibration_part(Quantity(0.1726, "um", 0.0004))
KNOWN = detection_part(
    DetectionCorrection(
        factor=0.9,
        relative_standard_uncertainty=0.02,
        degrees_of_freedom=5,
        family="annealed",
        pieces=6,
    )
)


def test_half_widths_add_in_squares_each_with_its_own_factor() -> None:
    rule = rule_part("uncertain marks in or out", relative_half_width=-0.03)
    found = joined_estimate(LEADS, (SCALE, KNOWN, rule))
    own = (LEADS.relative_accuracy_percent or 0.0) / 100
    scale = stats.norm.ppf(0.975) * 0.0004 / 0.1726
    detected = stats.t.ppf(0.975, 5) * 0.02
    by_rule = stats.norm.ppf(0.975) * 0.03 / sqrt(3)
    whole = sqrt(own**2 + scale**2 + detected**2 + by_rule**2)
    assert found.relative_accuracy_percent == pytest.approx(
        100 * whole, rel=1e-9, abs=0
    )
    value = 0.9 * LEADS.quantity.value
    assert found.quantity.value == pytest.approx(value, rel=1e-12, abs=0)
    assert found.interval95 is not None
    assert found.interval95.lower == pytest.approx(value * (1 - whole), rel=1e-9, abs=0)
    assert [line.name for line in found.quantity.budget] == [
        "sampling",
        "detection (6 known pieces: annealed)",
        "counting rule (uncertain marks in or out)",
        "calibration (pixel size)",
    ]
    assert "calibration (pixel size)" in found.interval95.method


def test_alone_the_sampling_interval_stays_as_it_is() -> None:
    found = joined_estimate(LEADS, ())
    assert found.interval95 is not None
    assert LEADS.interval95 is not None
    assert found.interval95.lower == pytest.approx(
        LEADS.interval95.lower, rel=1e-12, abs=0
    )
    assert found.quantity.degrees_of_freedom == 2


@given(st.floats(0, 0.3), st.floats(0, 0.3))
def test_a_further_source_never_narrows(first: float, second: float) -> None:
    one = Part(name="one", relative_standard_uncertainty=first)
    other = Part(name="other", relative_standard_uncertainty=second)
    fewer = joined_estimate(LEADS, (one,)).interval95
    more = joined_estimate(LEADS, (one, other)).interval95
    assert fewer is not None
    assert more is not None
    assert (more.lower or 0.0) <= (fewer.lower or 0.0) + 1e-12
    assert (more.upper or 0.0) >= (fewer.upper or 0.0) - 1e-12


def test_a_length_is_never_below_zero() -> None:
    wide = Part(name="wide", relative_standard_uncertainty=0.9)
    interval = joined_estimate(LEADS, (wide,)).interval95
    assert interval is not None
    assert interval.lower == 0.0


def test_without_a_sampling_interval_there_is_no_joined_one() -> None:
    bare = replace(LEADS, interval95=None, relative_accuracy_percent=None)
    found = joined_estimate(bare, (SCALE,))
    assert found.interval95 is None
    assert found.quantity.value == LEADS.quantity.value


def test_wrong_parts_are_refused() -> None:
    with pytest.raises(ParameterError, match="zero or above"):
        Part(name="x", relative_standard_uncertainty=-0.1)
    with pytest.raises(ParameterError, match="factor"):
        Part(name="x", relative_standard_uncertainty=0.1, factor=0.0)
    nothing = replace(LEADS, quantity=Quantity(0.0, "um", 0.1))
    with pytest.raises(ParameterError, match="a value above 0"):
        joined_estimate(nothing, ())
