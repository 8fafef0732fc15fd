"""What more units bring."""

from dataclasses import replace
from math import inf, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from strandproof.errors import ParameterError
from strandproof.grainsize.by_level import (
    Component,
    VarianceComponents,
    expected_gains,
    gain_in_words,
    more_units_for,
)
from strandproof.quantity import Quantity


def found(cable: float, field: float, cables: int = 3) -> VarianceComponents:
    """Five fields in each cable, mean 10 um."""
    blank = Component(
        level="cable",
        variance=cable,
        anova_variance=cable,
        units=cables,
        degrees_of_freedom=cables - 1,
        squared_weights=1 / cables,
    )
    fields = replace(
        blank,
        level="field",
        variance=field,
        units=5 * cables,
        degrees_of_freedom=4 * cables,
        squared_weights=1 / (5 * cables),
    )
    return VarianceComponents(
        components=(blank, fields), mean=Quantity(10.0, "um", 0.1, 2.0)
    )


def test_gains_by_hand() -> None:
    gains = {
        (gain.level, gain.more): gain
        for gain in expected_gains(found(0.09, 1.0), more=(2,))
    }
    now = gains["cable", 0]
    assert now.standard_uncertainty == pytest.approx(
        sqrt(0.09 / 3 + 1 / 15), rel=1e-12, abs=0
    )
    assert now.relative_accuracy_percent == pytest.approx(
        10 * stats.t.ppf(0.975, 2) * now.standard_uncertainty, rel=1e-9, abs=0
    )
    cables = gains["cable", 2]
    assert cables.degrees_of_freedom == 4
    assert cables.standard_uncertainty == pytest.approx(
        sqrt(0.09 / 5 + 1 / 25), rel=1e-12, abs=0
    )
    fields = gains["field", 2]
    assert fields.units_each == pytest.approx((3.0, 7.0), rel=1e-12, abs=0)
    assert fields.degrees_of_freedom == 2
    assert fields.standard_uncertainty == pytest.approx(
        sqrt(0.09 / 3 + 1 / 21), rel=1e-12, abs=0
    )


def test_no_number_of_fields_makes_up_for_few_cables() -> None:
    components = found(0.09, 1.0)
    # Cables alone: t(2) sqrt(0.09/3) = 0.745, 7.5 % of 10.
    assert more_units_for(components, "field", relative_accuracy_percent=7.0) is None
    more = more_units_for(components, "cable", relative_accuracy_percent=7.0)
    assert more is not None
    gains = {
        gain.more: gain.relative_accuracy_percent
        for gain in expected_gains(components, more=(more - 1, more))
        if gain.level == "cable"
    }
    assert gains[more] <= 7.0 < gains[more - 1]


def test_a_design_that_does_needs_no_more() -> None:
    components = found(0.09, 1.0)
    assert more_units_for(components, "cable", relative_accuracy_percent=50.0) == 0


@given(st.floats(0.0, 4.0), st.floats(0.01, 4.0), st.integers(2, 9), st.integers(1, 40))
def test_more_units_never_widen(
    cable: float, field: float, cables: int, extra: int
) -> None:
    gains = expected_gains(found(cable, field, cables), more=(extra, extra + 1))
    now = gains[0].relative_accuracy_percent
    for first, second in ((gains[1], gains[2]), (gains[3], gains[4])):
        assert first.level == second.level
        assert second.relative_accuracy_percent <= first.relative_accuracy_percent
        assert first.relative_accuracy_percent <= now * (1 + 1e-12)


def test_gains_in_words() -> None:
    said = [gain_in_words(gain) for gain in expected_gains(found(0.0, 1.0), more=(1,))]
    # t(2) sqrt(1/15) = 1.111; t(3) sqrt(1/20) = 0.712; t(2) sqrt(1/18) = 1.014.
    assert said == [
        "as it is: about 11 %",
        "1 more cable: about 7.1 %",
        "1 more field in each cable: about 10 %",
    ]


def test_wrong_questions_are_refused() -> None:
    components = found(0.09, 1.0)
    with pytest.raises(ParameterError, match="numbers of 1 or more"):
        expected_gains(components, more=(0,))
    with pytest.raises(ParameterError, match="one of cable, field"):
        more_units_for(components, "reel", relative_accuracy_percent=5.0)
    with pytest.raises(ParameterError, match="above 0"):
        more_units_for(components, "field", relative_accuracy_percent=0.0)
    with pytest.raises(ParameterError, match="confidence"):
        expected_gains(components, confidence=inf)
