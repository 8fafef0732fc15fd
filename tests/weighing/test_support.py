from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from strandproof.errors import ParameterError
from strandproof.records.entries import Control
from strandproof.weighing import (
    ControlReading,
    ControlSeries,
    ControlsSupport,
    control_bound,
    controls_support,
    group_error_rate,
    group_sentence,
    item_error_rate,
    level_sentence,
    pooled_support,
    right_bound,
    support_sentence,
    weighing_rules,
)

MakeControls = Callable[..., tuple[ControlReading, ...]]
MOUNTS = ("m1", "m2", "m3", "m4", "m5")


def grains_support(readings: tuple[ControlReading, ...]) -> ControlsSupport:
    support = controls_support(
        readings,
        first="polycrystal",
        second="single_crystal",
        outcome="boundaries",
        numerator=0.95,
    )
    assert support is not None
    return support


def test_the_words_of_m21(
    single_crystals: MakeControls, oxygen_free: MakeControls
) -> None:
    support = grains_support(single_crystals(24, mounts=MOUNTS) + oxygen_free(2))
    assert support_sentence(support, numerator_status="judgement") == (
        "Controls alone: 8.1, weak, with the 0.95 judged; 1.9, no support, if the two "
        "oxygen-free controls must carry the numerator too (0.22); expected value 24.7 "
        "(uniform prior), moderate."
    )


def test_the_words_with_the_first_bench_only(
    single_crystals: MakeControls, oxygen_free: MakeControls
) -> None:
    support = grains_support(single_crystals(4) + oxygen_free(2))
    assert support_sentence(support, numerator_status="judgement") == (
        "Controls alone: 1.8, no support, with the 0.95 judged; 0.42, no support, if "
        "the two oxygen-free controls must carry the numerator too (0.22); expected "
        "value 5.7 (uniform prior), weak."
    )


def test_the_words_of_s8_at_the_level_of_mounts(single_crystals: MakeControls) -> None:
    rate = group_error_rate(
        single_crystals(24, mounts=MOUNTS), error="false_boundary", level="mount"
    )
    assert level_sentence(rate, numerator=0.95) == (
        "Same-laboratory controls raise the ceiling for reading errors. Mix-ups and "
        "whole-batch faults are another level: controls in one mount count once for "
        "that. Your 24 stand in five mounts: there n = 5, ceiling 2.1 "
        "(numerator 0.95)."
    )


def test_group_levels_are_named_recorded_or_not(single_crystals: MakeControls) -> None:
    support = grains_support(single_crystals(24, mounts=MOUNTS))
    assert group_sentence(support) == (
        "Against group blunders: mount n = 5, 2.1, weak; batch and custody trail not "
        "recorded, n = 1, 1.0, no support."
    )
    assert dict(support.group_ratios) == {
        "mount": 0.95 / control_bound(5),
        "batch": 0.95 / control_bound(1),
        "custody_trail": 0.95 / control_bound(1),
    }


def test_words_about_levels_with_gaps_errors_and_unread_controls(
    single_crystals: MakeControls,
) -> None:
    spoilt = single_crystals(2, wrong=1, mounts=("", "m1"))
    rate = group_error_rate(spoilt, error="false_boundary", level="mount")
    assert "two mounts; those without one count as one: there n = 2, one spoilt" in (
        level_sentence(rate, numerator=0.95)
    )
    nowhere = group_error_rate(spoilt, error="false_boundary", level="batch")
    assert level_sentence(nowhere, numerator=0.95).startswith(
        "No batch is recorded for any of the controls (2), so they count as one: n = 1,"
    )
    unread = ControlReading(
        control=Control(
            id="u", specimen="U", kind="single_crystal", known_by="diffraction"
        ),
        verdict="not_readable",
        blind=True,
    )
    item = item_error_rate(
        (*single_crystals(1), unread), error="false_boundary", rules=weighing_rules()
    )
    assert level_sentence(item, numerator=0.95) == (
        "One blind single-crystal control, none wrong; one more not readable, not "
        "counted (boundaries seen where there are none): at most 95 of 100 (95 % "
        "bound), expected 33.3 of 100 (uniform prior), ceiling 1.0 (numerator 0.95). "
        "Assumes one error rate for controls and specimens."
    )


def test_without_controls_that_is_said() -> None:
    assert support_sentence(None, numerator_status="judgement") == (
        "Controls alone: no control informs this ratio."
    )


def test_no_opposite_control_means_no_unjudged_ratio(
    single_crystals: MakeControls,
) -> None:
    support = grains_support(single_crystals(4))
    assert support.ratio_unjudged is None
    assert "no control carries the numerator" in support_sentence(
        support, numerator_status="data"
    )


def test_one_opposite_control_is_said_in_the_singular(
    single_crystals: MakeControls, oxygen_free: MakeControls
) -> None:
    support = grains_support(single_crystals(4) + oxygen_free(1))
    assert "if the one oxygen-free control must carry" in support_sentence(
        support, numerator_status="literature"
    )


def test_nothing_resolved_is_informed_by_the_polycrystals(
    single_crystals: MakeControls, oxygen_free: MakeControls
) -> None:
    # H0: one crystal supported, one soft-copper control showed its boundaries.
    support = controls_support(
        single_crystals(3) + oxygen_free(1),
        first="single_crystal",
        second="polycrystal",
        outcome="none_resolved",
        numerator=0.95,
    )
    assert support is not None
    assert support.denominator.error == "missed_boundary"
    np.testing.assert_allclose(support.ratio, 1.0, rtol=1e-12, atol=0)
    np.testing.assert_allclose(
        support.ratio_unjudged or 0, right_bound(3) / 0.95, rtol=1e-12, atol=0
    )


@pytest.mark.parametrize(
    ("first", "second", "outcome"),
    [
        # Two polycrystals: nothing that controls could tell.
        ("polycrystal", "polycrystal", "boundaries"),
        ("polycrystal", "polycrystal", "none_resolved"),
        # Seeing boundaries in a polycrystal is no error.
        ("single_crystal", "polycrystal", "boundaries"),
        ("polycrystal", "single_crystal", "none_resolved"),
        ("polycrystal", None, "boundaries"),
    ],
)
def test_pairs_that_no_control_informs(
    single_crystals: MakeControls,
    oxygen_free: MakeControls,
    first: str,
    second: str,
    outcome: str,
) -> None:
    support = controls_support(
        single_crystals(4) + oxygen_free(2),
        first=first,  # type: ignore[arg-type] # parametrised words
        second=second,  # type: ignore[arg-type]
        outcome=outcome,  # type: ignore[arg-type]
        numerator=0.95,
    )
    assert support is None


def test_a_first_hypothesis_without_controls_keeps_the_judged_ratio(
    single_crystals: MakeControls,
) -> None:
    support = controls_support(
        single_crystals(4),
        first=None,
        second="single_crystal",
        outcome="boundaries",
        numerator=0.95,
    )
    assert support is not None
    assert support.opposite is None
    assert support.ratio_unjudged is None


def test_controls_of_the_wrong_sort_leave_no_support(oxygen_free: MakeControls) -> None:
    support = controls_support(
        oxygen_free(20),
        first="polycrystal",
        second="single_crystal",
        outcome="boundaries",
        numerator=0.95,
    )
    assert support is None


def test_a_numerator_that_is_no_probability_is_refused() -> None:
    with pytest.raises(ParameterError, match="0 to 1"):
        controls_support(
            (),
            first="polycrystal",
            second="single_crystal",
            outcome="boundaries",
            numerator=95,
        )


@given(right=st.integers(1, 60), wrong=st.integers(0, 10))
def test_a_right_control_never_lowers_the_ceiling_and_a_wrong_one_never_lifts_it(
    single_crystals: MakeControls, right: int, wrong: int
) -> None:
    base = grains_support(single_crystals(right + wrong, wrong=wrong))
    more = grains_support(single_crystals(right + wrong + 1, wrong=wrong))
    worse = grains_support(single_crystals(right + wrong + 1, wrong=wrong + 1))
    for before, after in ((base, more), (worse, base)):
        assert before.ratio <= after.ratio
        assert before.expected_ratio <= after.expected_ratio


@given(count=st.integers(1, 100))
def test_the_expected_ratio_lies_above_the_ratio_at_the_bound(
    single_crystals: MakeControls, count: int
) -> None:
    support = grains_support(single_crystals(count))
    assert support.expected_ratio > support.ratio


def test_series_pooled_and_apart() -> None:
    pooled = pooled_support(
        [
            ControlSeries(name="first bench", trials=4),
            ControlSeries(name="twenty more", trials=20, wrong=1),
        ],
        numerator=0.95,
    )
    np.testing.assert_allclose(
        [pooled.together, *pooled.apart],
        [
            0.95 / control_bound(24, wrong=1),
            0.95 / control_bound(4),
            0.95 / control_bound(20, wrong=1),
        ],
        rtol=1e-14,
        atol=0,
    )
    assert "assuming one shared error rate of first bench and twenty more" in (
        pooled.words
    )


def test_one_series_cannot_be_pooled() -> None:
    with pytest.raises(ParameterError, match="two series or more"):
        pooled_support([ControlSeries(name="a", trials=4)], numerator=0.95)
