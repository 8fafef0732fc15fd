"""The public face of the package: a change of it is a change for users."""

import strandproof.electrical
import strandproof.records.electrical

PUBLIC = {
    "CopperStandard",
    "Metal",
    "band_flags",
    "boundary_share",
    "check_conductivity_claim",
    "compare_volume_routes",
    "compare_with_gauge",
    "conductivity_by_density",
    "conductivity_by_diameter",
    "conductivity_by_mass",
    "conductivity_ms_per_m",
    "conductivity_needed",
    "conductor_length",
    "conformance_probability",
    "converted_input",
    "copper_standard_from_table",
    "decide_conformity",
    "effective_gauge",
    "equivalent_diameter_mm",
    "expected_core",
    "factor_to_20c",
    "fixed_coefficient",
    "gauge_area_mm2",
    "gauge_diameter_mm",
    "gauge_number",
    "heating_power",
    "input_of_quantity",
    "judge_band",
    "larger_specimen",
    "lay_error_percent",
    "lay_factor",
    "layer_effect",
    "mass_resistivity_ohm_g_per_m2",
    "metal",
    "mixed_sentence",
    "package_copper_standard",
    "percent_iacs_of_mass_resistivity",
    "percent_iacs_of_volume_resistivity",
    "planned_measurement",
    "require_one_conductor_type",
    "resistance_at_20c",
    "resistance_by_reversal",
    "scaled_coefficient",
    "screen_core",
    "self_heating",
    "standard_density",
    "strand_area",
    "strand_area_by_mass",
    "volume_resistivity_ohm_m",
    "what_this_can_decide",
}

RECORDS = {
    "BandJudgement",
    "BoundaryReading",
    "BoundaryShare",
    "CoefficientRule",
    "ConductivityClaimCheck",
    "ConductivityResult",
    "ConformityDecision",
    "CoreReading",
    "DecisionPower",
    "DecisionRule",
    "EvaluationRules",
    "ExpectedCore",
    "GaugeComparison",
    "GaugeRounding",
    "LargerSpecimen",
    "LayerEffect",
    "LimitSide",
    "NeededConductivity",
    "ParallelConductor",
    "ResistanceMeasurement",
    "ResistivityRoute",
    "ReversalReading",
    "RouteComparison",
    "ScreeningLimits",
    "ScreeningResult",
    "SelfHeating",
}


def test_public_names_are_pinned() -> None:
    assert set(strandproof.electrical.__all__) == PUBLIC
    assert set(strandproof.records.electrical.__all__) == RECORDS


def test_every_public_name_exists() -> None:
    for package, names in (
        (strandproof.electrical, PUBLIC),
        (strandproof.records.electrical, RECORDS),
    ):
        assert [name for name in names if not hasattr(package, name)] == []
