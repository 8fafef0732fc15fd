"""Sizes of effects before anything is measured."""

import numpy as np
import pytest

from strandproof.electrical.residual import (
    effect_sizes,
    reachable_conductivity_percent,
)
from strandproof.errors import ParameterError
from strandproof.quantity import normal_input
from strandproof.records.electrical import EffectSize, EffectSizes, MetalState

STRAND = MetalState(mean_intercept_um=8.444, strand_mm=0.08)


def named(found: EffectSizes, part: str) -> EffectSize:
    return next(one for one in found.effects if part in one.name)


def test_brief_appendix_a() -> None:
    found = effect_sizes(STRAND)
    crossed = named(found, "per boundary crossed")
    np.testing.assert_allclose(crossed.room_percent, (0.09, 0.27), atol=0.005)
    np.testing.assert_allclose(crossed.ratio_cap[0], 326, atol=0.5)
    np.testing.assert_allclose(crossed.ratio_cap[1] or 0, 977, atol=0.5)
    area = named(found, "per area")
    np.testing.assert_allclose(area.room_percent, (0.27, 0.55), atol=0.005)


def test_two_models_of_boundaries_overlap() -> None:
    found = effect_sizes(STRAND)
    crossed = named(found, "per boundary crossed").room_percent
    reflected = named(found, "Mayadas-Shatzkes").room_percent
    assert crossed[0] < reflected[1]
    assert reflected[0] < crossed[1]


def test_every_effect_grows_as_it_gets_cold() -> None:
    for one in effect_sizes(STRAND).effects:
        assert one.room_percent[1] < one.nitrogen_percent[1] < one.helium_percent[1]
        assert one.basis


def test_six_nines_hide_below_boundaries_and_cold_work_at_room_temperature() -> None:
    found = effect_sizes(STRAND)
    six = named(found, "six nines").room_percent
    assert six[1] < named(found, "per boundary crossed").room_percent[0]
    assert six[1] < named(found, "measured").room_percent[0]


def test_without_intercept_or_diameter_their_effects_are_left_out() -> None:
    subjects = {one.subject for one in effect_sizes(MetalState()).effects}
    assert subjects == {"purity", "cold work"}


def test_reachable_uncertainty_is_that_of_the_brief() -> None:
    """M18: 0.40 % at k = 2, which is 0.39 % at 95 %."""
    reached = reachable_conductivity_percent(
        mass=normal_input("mass", 22.28, 0.0285, unit="mg"),
        gauge_length=normal_input("length", 0.5, 0.0003, unit="m"),
        temperature=normal_input("temperature", 23.8, 0.2, unit="degC"),
        resistance_uncertainty_percent=0.05,
    )
    np.testing.assert_allclose(reached, 1.96 * 0.1985, rtol=0.01)


def test_interior_ratio_rules_the_cold_end() -> None:
    pure = named(effect_sizes(STRAND, interior_ratio=5000.0), "per area")
    plain = named(effect_sizes(STRAND, interior_ratio=100.0), "per area")
    assert pure.helium_percent[0] > 10 * plain.helium_percent[0]
    np.testing.assert_allclose(pure.room_percent, plain.room_percent, rtol=1e-12)


@pytest.mark.parametrize("name", ["room_reachable_percent", "ratio_percent"])
def test_uncertainty_of_zero_is_refused(name: str) -> None:
    wrong: dict[str, float] = {name: 0.0}
    with pytest.raises(ParameterError, match=name):
        effect_sizes(STRAND, **wrong)
