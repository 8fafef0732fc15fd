"""The three routes: budgets, options, flags, refusals, invariances."""

from dataclasses import replace
from math import inf
from typing import Any

import numpy as np
import pytest
from electrical_examples import (
    diameter,
    length,
    mass,
    resistance,
    strand,
    temperature,
)
from hypothesis import given, settings
from hypothesis import strategies as st

from strandproof.electrical import (
    conductivity_by_density,
    conductivity_by_diameter,
    conductivity_by_mass,
    converted_input,
    lay_error_percent,
    package_copper_standard,
)
from strandproof.errors import MissingMeasurementError, ParameterError, UnitError
from strandproof.quantity import (
    Correlation,
    Input,
    format_plus_minus,
    input_from_readings,
    normal_input,
)
from strandproof.records.electrical import (
    CoefficientRule,
    ConductivityResult,
    EvaluationRules,
    ResistanceMeasurement,
)

FACTORS = st.floats(min_value=0.01, max_value=100.0)
RULES: list[CoefficientRule] = ["fixed", "scaled"]


def names(result: ConductivityResult) -> list[str]:
    return [flag.name for flag in result.flags]


def test_the_length_enters_twice_as_one_input() -> None:
    line = next(
        one
        for one in conductivity_by_mass(strand()).percent_iacs.budget
        if one.name == "gauge length"
    )
    value = conductivity_by_mass(strand()).percent_iacs.value
    np.testing.assert_allclose(line.component / value, 2 * 0.0006, rtol=1e-9)


def test_two_lengths_of_b193_enter_once_each() -> None:
    longer = normal_input("specimen length", 0.7, 0.00042, unit="m")
    measurement = replace(strand(weighed=mass(22.28 * 1.4)), specimen_length=longer)
    result = conductivity_by_mass(measurement)
    parts = {
        line.name: line.component / result.percent_iacs.value
        for line in result.percent_iacs.budget
    }
    np.testing.assert_allclose(result.percent_iacs.value, 100.9259, rtol=0, atol=5e-5)
    np.testing.assert_allclose(parts["gauge length"], 0.0006, rtol=1e-9)
    np.testing.assert_allclose(parts["specimen length"], 0.0006, rtol=1e-9)


def test_two_lengths_by_one_ruler_can_be_correlated() -> None:
    same = normal_input("specimen length", 0.5, 0.0003, unit="m")
    rules = EvaluationRules(
        correlations=(Correlation("gauge_length", "specimen_length", 1.0),)
    )
    both = conductivity_by_mass(replace(strand(), specimen_length=same), rules=rules)
    one = conductivity_by_mass(strand())
    np.testing.assert_allclose(
        both.percent_iacs.standard_uncertainty,
        one.percent_iacs.standard_uncertainty,
        rtol=1e-9,
    )


def test_density_and_diameter_do_not_enter_the_mass_route() -> None:
    lines = conductivity_by_mass(strand()).percent_iacs.budget
    assert {line.name for line in lines} == {
        "mass of the strand",
        "gauge length",
        "temperature of the wire",
        "resistance",
        "temperature coefficient",
    }


def test_the_budget_keeps_the_units_that_were_read() -> None:
    lines = {
        line.name: line for line in conductivity_by_mass(strand()).resistivity.budget
    }
    assert lines["mass of the strand"].unit == "mg"
    assert lines["mass of the strand"].standard_uncertainty == 22.28 * 0.00128
    assert lines["gauge length"].unit == "m"


def test_a_few_readings_widen_the_coverage_factor() -> None:
    few = input_from_readings(
        "resistance", (1.7280, 1.7312, 1.7296), unit="ohm", symbol="anything"
    )
    result = conductivity_by_mass(strand(wire=few))
    known = conductivity_by_mass(strand())
    assert result.percent_iacs.degrees_of_freedom < inf
    assert result.coverage_factor > known.coverage_factor
    np.testing.assert_allclose(known.coverage_factor, 1.95996, rtol=0, atol=5e-6)


@pytest.mark.parametrize("rule", RULES)
def test_at_20_degrees_the_rule_of_the_coefficient_does_not_matter(
    rule: CoefficientRule,
) -> None:
    measurement = strand(warm=temperature(20.0))
    result = conductivity_by_mass(measurement, rules=EvaluationRules(coefficient=rule))
    np.testing.assert_allclose(
        result.resistance_at_20c.value, resistance().estimate, rtol=1e-15
    )


def test_the_scaled_coefficient_solves_its_own_equation() -> None:
    measurement = strand(wire=resistance(2.5), warm=temperature(60.0))
    result = conductivity_by_mass(
        measurement, rules=EvaluationRules(coefficient="scaled")
    )
    alpha = 0.00393 * result.percent_iacs.value / 100
    np.testing.assert_allclose(
        result.resistance_at_20c.value, 2.5 / (1 + alpha * 40), rtol=1e-12
    )


def test_text_of_the_results() -> None:
    by_mass, by_density = (
        conductivity_by_mass(strand()),
        conductivity_by_density(strand()),
    )
    assert by_mass.interval.half_width is not None
    assert (
        format_plus_minus(
            by_mass.percent_iacs.value, by_mass.interval.half_width, unit="% IACS"
        )
        == "100.9 ± 0.4 % IACS"
    )
    volume = by_density.resistivity
    shown = format_plus_minus(
        volume.value, 2 * volume.standard_uncertainty, unit=volume.unit
    )
    assert shown == "(1.708 ± 0.015) × 10⁻⁸ Ω m"


def test_a_careful_measurement_raises_no_flag() -> None:
    assert conductivity_by_mass(strand()).flags == ()


def test_an_input_without_uncertainty_is_flagged_by_name() -> None:
    result = conductivity_by_mass(strand(weighed=mass(u=0.0)))
    assert names(result) == ["incomplete_budget"]
    assert result.flags[0].detail == "mass of the strand"


def test_a_hot_wire_is_flagged() -> None:
    # 1.7296 ohm at 23.8 degC is this at 45 degC.
    warm = resistance(1.70415 * (1 + 0.00393 * 25))
    result = conductivity_by_mass(strand(wire=warm, warm=temperature(45.0)))
    assert names(result) == ["far_from_20_degrees"]
    assert result.flags[0].detail == "25.0 K away"


def test_a_coarse_balance_is_flagged_with_its_share() -> None:
    result = conductivity_by_mass(strand(weighed=mass(u=0.5)))
    assert "mass_dominates" in names(result)
    assert any("% of the variance" in flag.detail for flag in result.flags)


def test_a_light_metal_by_mass_reads_far_above_the_band() -> None:
    # 0.0955 mm2 of clad aluminium: 0.347 g/m and 281 mohm/m.
    result = conductivity_by_mass(
        ResistanceMeasurement(
            resistance=normal_input("resistance", 281, 0.1, unit="mohm"),
            temperature=temperature(20.0),
            gauge_length=normal_input("length", 1000, 0.5, unit="mm"),
            mass=normal_input("mass", 347, 0.2, unit="mg"),
        )
    )
    np.testing.assert_allclose(result.percent_iacs.value, 157.2, rtol=0, atol=0.05)
    assert names(result) == ["above_copper_ceiling"]


def test_no_temperature_is_refused() -> None:
    measurement = replace(strand(), temperature=None)
    for evaluate in (conductivity_by_mass, conductivity_by_density):
        with pytest.raises(MissingMeasurementError, match="temperature of the wire"):
            evaluate(measurement)
    with pytest.raises(MissingMeasurementError, match=r"0\.4 % with each degree"):
        conductivity_by_diameter(measurement, diameter=diameter())


def test_no_mass_is_refused_save_by_diameter() -> None:
    measurement = replace(strand(), mass=None)
    with pytest.raises(MissingMeasurementError, match="The mass of the strand"):
        conductivity_by_mass(measurement)
    found = conductivity_by_diameter(measurement, diameter=diameter())
    np.testing.assert_allclose(found.percent_iacs.value, 100.64, rtol=0, atol=0.005)


@pytest.mark.parametrize(
    ("field", "wrong"),
    [
        ("resistance", normal_input("R", 1.7, 0.1, unit="V")),
        ("temperature", normal_input("T", 293.0, 0.1, unit="K")),
        ("mass", normal_input("m", 22.0, 0.1, unit="lb")),
        ("gauge_length", normal_input("L", 500.0, 0.1, unit="inch")),
        ("specimen_length", normal_input("L2", 500.0, 0.1, unit="g")),
    ],
)
def test_units_that_do_not_fit_are_refused(field: str, wrong: Input) -> None:
    changed: dict[str, Any] = {field: wrong}
    with pytest.raises(UnitError, match="does not fit here; expected is"):
        conductivity_by_mass(replace(strand(), **changed))


@pytest.mark.parametrize("field", ["resistance", "mass", "gauge_length"])
@pytest.mark.parametrize("value", [0.0, -1.0])
def test_zero_and_negative_readings_are_refused(field: str, value: float) -> None:
    measurement = strand()
    wrong = replace(getattr(measurement, field), estimate=value)
    with pytest.raises(ParameterError, match="above zero"):
        conductivity_by_mass(replace(measurement, **{field: wrong}))


@pytest.mark.parametrize("value", [-60.0, 151.0])
def test_temperatures_far_out_are_refused(value: float) -> None:
    with pytest.raises(ParameterError, match="from -50 to 150 degC"):
        conductivity_by_mass(strand(warm=temperature(value)))


def test_zero_and_negative_temperatures_are_temperatures() -> None:
    cold = conductivity_by_mass(strand(warm=temperature(-5.0)))
    assert cold.resistance_at_20c.value > 1.7296


def test_strands_start_at_one() -> None:
    with pytest.raises(ParameterError, match="strands was given as 0"):
        conductivity_by_diameter(strand(), diameter=diameter(), strands=0)


def test_inputs_of_one_name_are_refused() -> None:
    twice = normal_input("resistance", 22.28, 0.1, unit="mg")
    with pytest.raises(ParameterError, match="a name of its own"):
        conductivity_by_mass(strand(weighed=twice))


def test_readings_without_a_conductivity_are_refused() -> None:
    # So little mass that the scaled line has no positive conductivity at 20 degC.
    absurd = strand(weighed=mass(2.0), warm=temperature(60.0))
    rules = EvaluationRules(coefficient="scaled")
    with pytest.raises(ParameterError, match="Check resistance, mass"):
        conductivity_by_mass(absurd, rules=rules)


def test_a_missing_input_is_a_value_error() -> None:
    with pytest.raises(ValueError, match="is missing"):
        conductivity_by_mass(replace(strand(), temperature=None))


def test_the_same_seed_gives_the_same_opinion() -> None:
    opinions = [
        conductivity_by_mass(
            strand(), generator=np.random.default_rng(5), draws=20_000
        ).second_opinion
        for _ in range(2)
    ]
    assert opinions[0] is not None
    assert opinions[0] == opinions[1]
    assert conductivity_by_mass(strand()).second_opinion is None


def test_second_opinions_of_the_volume_routes() -> None:
    by_density = conductivity_by_density(
        strand(), generator=np.random.default_rng(6), draws=300_000
    )
    by_diameter = conductivity_by_diameter(
        strand(), diameter=diameter(), generator=np.random.default_rng(7)
    )
    for result in (by_density, by_diameter):
        opinion = result.second_opinion
        assert opinion is not None
        spread = result.percent_iacs.standard_uncertainty
        assert max(opinion.lower_difference, opinion.upper_difference) < 0.06 * spread


def test_another_standard_can_be_given() -> None:
    other = replace(package_copper_standard(), mass_resistivity_ohm_g_per_m2=0.15292)
    result = conductivity_by_mass(strand(), standard=other)
    np.testing.assert_allclose(
        result.percent_iacs.value, 100.92586 * 0.15292 / 0.15328, rtol=1e-6
    )


@settings(max_examples=40, deadline=None)
@given(factor=FACTORS)
def test_a_longer_piece_has_the_same_conductivity(factor: float) -> None:
    longer = replace(
        strand(wire=resistance(1.7296 * factor), weighed=mass(22.28 * factor)),
        gauge_length=length(0.5 * factor),
    )
    np.testing.assert_allclose(
        conductivity_by_mass(longer).percent_iacs.value,
        conductivity_by_mass(strand()).percent_iacs.value,
        rtol=1e-12,
    )


@settings(max_examples=20, deadline=None)
@given(strands=st.integers(min_value=1, max_value=200))
def test_strands_in_parallel_have_the_conductivity_of_one(strands: int) -> None:
    bundle = strand(wire=resistance(1.7296 / strands), weighed=mass(22.28 * strands))
    one = conductivity_by_mass(strand()).percent_iacs.value
    np.testing.assert_allclose(
        conductivity_by_mass(bundle).percent_iacs.value, one, rtol=1e-12
    )
    by_diameter = conductivity_by_diameter(
        bundle, diameter=diameter(), strands=strands
    ).percent_iacs.value
    single = conductivity_by_diameter(strand(), diameter=diameter()).percent_iacs.value
    np.testing.assert_allclose(by_diameter, single, rtol=1e-12)


@pytest.mark.parametrize(
    ("field", "unit"),
    [
        ("resistance", "mohm"),
        ("resistance", "uohm"),
        ("mass", "g"),
        ("mass", "kg"),
        ("gauge_length", "mm"),
    ],
)
def test_the_unit_of_an_input_does_not_matter(field: str, unit: str) -> None:
    measurement = strand()
    changed: dict[str, Any] = {
        field: converted_input(getattr(measurement, field), unit=unit)
    }
    other = replace(measurement, **changed)
    one, two = conductivity_by_mass(measurement), conductivity_by_mass(other)
    np.testing.assert_allclose(
        two.percent_iacs.value, one.percent_iacs.value, rtol=1e-12
    )
    np.testing.assert_allclose(
        two.percent_iacs.standard_uncertainty,
        one.percent_iacs.standard_uncertainty,
        rtol=1e-12,
    )


@settings(max_examples=40, deadline=None)
@given(factor=st.floats(min_value=0.3, max_value=3.0))
def test_resistivity_times_conductivity_is_the_standard(factor: float) -> None:
    measurement = strand(wire=resistance(1.7296 * factor))
    by_mass = conductivity_by_mass(measurement)
    np.testing.assert_allclose(
        by_mass.resistivity.value * by_mass.percent_iacs.value, 15.328, rtol=1e-12
    )
    by_density = conductivity_by_density(measurement)
    # The two standards differ by the rounding of 0.15328.
    np.testing.assert_allclose(
        by_mass.percent_iacs.value / by_density.percent_iacs.value,
        0.15328 * 58 / 8.89,
        rtol=1e-12,
    )


@settings(max_examples=40, deadline=None)
@given(k=st.floats(min_value=1.0, max_value=1.3))
def test_a_cable_length_taken_for_a_strand_length(k: float) -> None:
    short = replace(strand(), gauge_length=length(0.5 / k))
    error = 100 * (
        conductivity_by_mass(short).resistivity.value
        / conductivity_by_mass(strand()).resistivity.value
        - 1
    )
    np.testing.assert_allclose(error, lay_error_percent(k), rtol=0, atol=1e-9)
    by_diameter = 100 * (
        conductivity_by_diameter(short, diameter=diameter()).resistivity.value
        / conductivity_by_diameter(strand(), diameter=diameter()).resistivity.value
        - 1
    )
    np.testing.assert_allclose(
        by_diameter, lay_error_percent(k, route="diameter"), rtol=0, atol=1e-9
    )
