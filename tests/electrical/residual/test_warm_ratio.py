"""Conductivity from a ratio near room temperature."""

from dataclasses import replace

import numpy as np
import pytest

from strandproof.electrical.residual import (
    conductivity_from_warm_ratio,
    warm_ratio_of,
)
from strandproof.errors import ParameterError, UnitError
from strandproof.quantity import Input, normal_input
from strandproof.records.electrical import WarmRatioReading, WarmReference


def ratio(value: float, u: float = 0.0002, name: str = "ratio") -> Input:
    return normal_input(name, value, u, unit="1")


def celsius(name: str, value: float, u: float = 0.05) -> Input:
    return normal_input(name, value, u, unit="degC")


def reading(
    value: float, *, lower: float = 20.0, upper: float = 100.0
) -> WarmRatioReading:
    return WarmRatioReading(
        ratio=ratio(value),
        lower_temperature=celsius("lower", lower),
        upper_temperature=celsius("upper", upper),
    )


def reference(percent_iacs: float, value: float) -> WarmReference:
    return WarmReference(
        ratio=ratio(value, name="ratio of the reference"),
        percent_iacs=normal_input("reference", percent_iacs, 0.15, unit="% IACS"),
    )


@pytest.mark.parametrize("iacs", [97.0, 100.0, 102.3])
@pytest.mark.parametrize("ends", [(20.0, 100.0), (0.0, 60.0), (23.5, 80.0)])
def test_ratio_made_from_a_conductivity_gives_it_back(
    iacs: float, ends: tuple[float, float]
) -> None:
    made = warm_ratio_of(iacs, lower_c=ends[0], upper_c=ends[1])
    found = conductivity_from_warm_ratio(reading(made, lower=ends[0], upper=ends[1]))
    np.testing.assert_allclose(found.percent_iacs.value, iacs, rtol=1e-12)


def test_coefficient_at_constant_mass_is_that_of_the_standard() -> None:
    # IEC 60028's 0.00393 at 100 % IACS; the slope here is 0.0681, of three digits.
    found = conductivity_from_warm_ratio(reading(warm_ratio_of(100.0)))
    np.testing.assert_allclose(found.temperature_coefficient.value, 0.00393, rtol=0.002)
    higher = conductivity_from_warm_ratio(reading(warm_ratio_of(102.0)))
    assert higher.temperature_coefficient.value > found.temperature_coefficient.value


def test_slope_rules_the_budget_and_a_reference_takes_it_out() -> None:
    alone = conductivity_from_warm_ratio(reading(warm_ratio_of(101.0)))
    assert alone.percent_iacs.budget[0].name == "slope of copper's resistivity"
    assert [flag.name for flag in alone.flags] == ["no_reference_wire"]
    beside = conductivity_from_warm_ratio(
        replace(
            reading(warm_ratio_of(101.0)),
            reference=reference(100.0, warm_ratio_of(100.0)),
        )
    )
    np.testing.assert_allclose(beside.percent_iacs.value, 101.0, rtol=1e-12)
    assert not beside.flags
    by_name = {line.name: line.component for line in beside.percent_iacs.budget}
    assert by_name["lower"] < 0.002
    assert by_name["upper"] < 0.002
    assert (
        beside.percent_iacs.standard_uncertainty
        < 0.5 * alone.percent_iacs.standard_uncertainty
    )


def test_one_percent_iacs_moves_the_ratio_by_a_quarter_percent() -> None:
    found = conductivity_from_warm_ratio(reading(warm_ratio_of(100.0)))
    np.testing.assert_allclose(found.ratio_percent_per_percent_iacs, 0.24, atol=0.005)
    assert "This is weak" in found.sentence
    assert "0.24 %" in found.sentence


def test_second_opinion_agrees() -> None:
    found = conductivity_from_warm_ratio(
        reading(warm_ratio_of(100.0)), generator=np.random.default_rng(3)
    )
    assert found.second_opinion is not None
    assert found.second_opinion.agrees
    assert conductivity_from_warm_ratio(reading(1.3142)).second_opinion is None


def test_more_than_copper_can_have_is_flagged() -> None:
    found = conductivity_from_warm_ratio(reading(warm_ratio_of(106.0)))
    assert "above_copper_ceiling" in [flag.name for flag in found.flags]


def test_small_step_and_small_rise_are_refused() -> None:
    with pytest.raises(ParameterError, match="20 K or more above the lower one"):
        conductivity_from_warm_ratio(reading(1.05, upper=32.0))
    with pytest.raises(ParameterError, match="copper rises about 0.4 %"):
        conductivity_from_warm_ratio(reading(0.76))
    with pytest.raises(ParameterError, match="above 0"):
        warm_ratio_of(0.0)


def test_reference_of_another_unit_is_refused() -> None:
    wrong = WarmReference(
        ratio=ratio(1.31, name="reference ratio"),
        percent_iacs=normal_input("reference", 58.0, 0.1, unit="MS/m"),
    )
    with pytest.raises(UnitError, match="IACS"):
        conductivity_from_warm_ratio(replace(reading(1.3142), reference=wrong))
