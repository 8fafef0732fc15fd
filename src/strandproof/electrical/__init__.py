"""From a four-wire resistance to resistivity, conductivity and the claims on them.

Pure functions over inputs with uncertainty. Imports `records`, `tables`,
`quantity` and `errors`; the formulas with their sources stand in
``docs/resistance.md``.

- `conductivity_by_mass` (the route to state), `conductivity_by_density`,
  `conductivity_by_diameter`, `compare_volume_routes`: per cent IACS with budget,
  interval, band and flags;
- `resistance_at_20c` and the temperature coefficient; `resistance_by_reversal`,
  `heating_power`, `self_heating`: at the bench;
- `boundary_share`, `what_this_can_decide`, `planned_measurement`: before it;
- `evaluate_series`, `check_leads`, `meter_uncertainty`, `wire_temperature`: raw
  four-wire readings, meters, leads;
- `require_one_conductor_type`, `layer_effect`: conductors in parallel, tinned;
- `conductivity_needed`, `check_conductivity_claim`, `compare_with_gauge`,
  `decide_conformity`, `check_class`, `check_area`, `screen_lot`: claims and limits;
- `frequency_response`, `internal_impedance_ohm_per_m`, `skin_depth_mm`: from 20 Hz to
  1 MHz, see ``docs/frequency.md``;
- `gauge_diameter_mm` and kin, `strand_area`, `expected_core`, `lay_factor`.
"""

from strandproof.electrical.areas import (
    expected_core,
    strand_area,
    strand_area_by_mass,
)
from strandproof.electrical.band import (
    band_flags,
    judge_band,
    require_possible_diameter,
)
from strandproof.electrical.bench import (
    heating_power,
    resistance_by_reversal,
    self_heating,
)
from strandproof.electrical.claim_checks import (
    check_conductivity_claim,
    compare_with_gauge,
    conductivity_needed,
)
from strandproof.electrical.conductor_classes import (
    check_area,
    check_class,
    class_limit_ohm_per_km,
    metric_gauge_area_mm2,
    resistance_per_length,
)
from strandproof.electrical.conformity import (
    conformance_probability,
    decide_conformity,
)
from strandproof.electrical.copper_standard import (
    CopperStandard,
    Metal,
    copper_standard_from_table,
    metal,
    package_copper_standard,
)
from strandproof.electrical.crystals import boundary_share, what_this_can_decide
from strandproof.electrical.frequency import (
    conductor_at,
    frequency_response,
    usual_frequencies_hz,
)
from strandproof.electrical.gauge import (
    effective_gauge,
    equivalent_diameter_mm,
    gauge_area_mm2,
    gauge_diameter_mm,
    gauge_number,
)
from strandproof.electrical.given_inputs import converted_input, input_of_quantity
from strandproof.electrical.iacs import (
    conductivity_ms_per_m,
    mass_resistivity_ohm_g_per_m2,
    percent_iacs_of_mass_resistivity,
    percent_iacs_of_volume_resistivity,
    volume_resistivity_ohm_m,
)
from strandproof.electrical.internal_impedance import (
    dc_resistance_ohm_per_m,
    internal_impedance_ohm_per_m,
    skin_depth_mm,
)
from strandproof.electrical.lay import (
    conductor_length,
    lay_error_percent,
    lay_factor,
)
from strandproof.electrical.lay_stated import (
    lay_flags,
    require_lay,
)
from strandproof.electrical.layers import layer_effect
from strandproof.electrical.lead_checks import (
    check_leads,
)
from strandproof.electrical.meters import (
    meter_uncertainty,
)
from strandproof.electrical.parallel import (
    mixed_sentence,
    require_one_conductor_type,
)
from strandproof.electrical.planning import larger_specimen, planned_measurement
from strandproof.electrical.route_comparison import compare_volume_routes
from strandproof.electrical.route_models import standard_density
from strandproof.electrical.routes import (
    conductivity_by_density,
    conductivity_by_diameter,
    conductivity_by_mass,
    stated_interval,
)
from strandproof.electrical.screening import screen_core, screen_lot
from strandproof.electrical.series import (
    evaluate_series,
)
from strandproof.electrical.temperature import (
    factor_to_20c,
    fixed_coefficient,
    resistance_at_20c,
    scaled_coefficient,
    wire_temperature,
)

__all__ = [
    "CopperStandard",
    "Metal",
    "band_flags",
    "boundary_share",
    "check_area",
    "check_class",
    "check_conductivity_claim",
    "check_leads",
    "class_limit_ohm_per_km",
    "compare_volume_routes",
    "compare_with_gauge",
    "conductivity_by_density",
    "conductivity_by_diameter",
    "conductivity_by_mass",
    "conductivity_ms_per_m",
    "conductivity_needed",
    "conductor_at",
    "conductor_length",
    "conformance_probability",
    "converted_input",
    "copper_standard_from_table",
    "dc_resistance_ohm_per_m",
    "decide_conformity",
    "effective_gauge",
    "equivalent_diameter_mm",
    "evaluate_series",
    "expected_core",
    "factor_to_20c",
    "fixed_coefficient",
    "frequency_response",
    "gauge_area_mm2",
    "gauge_diameter_mm",
    "gauge_number",
    "heating_power",
    "input_of_quantity",
    "internal_impedance_ohm_per_m",
    "judge_band",
    "larger_specimen",
    "lay_error_percent",
    "lay_factor",
    "lay_flags",
    "layer_effect",
    "mass_resistivity_ohm_g_per_m2",
    "metal",
    "meter_uncertainty",
    "metric_gauge_area_mm2",
    "mixed_sentence",
    "package_copper_standard",
    "percent_iacs_of_mass_resistivity",
    "percent_iacs_of_volume_resistivity",
    "planned_measurement",
    "require_lay",
    "require_one_conductor_type",
    "require_possible_diameter",
    "resistance_at_20c",
    "resistance_by_reversal",
    "resistance_per_length",
    "scaled_coefficient",
    "screen_core",
    "screen_lot",
    "self_heating",
    "skin_depth_mm",
    "standard_density",
    "stated_interval",
    "strand_area",
    "strand_area_by_mass",
    "usual_frequencies_hz",
    "volume_resistivity_ohm_m",
    "what_this_can_decide",
    "wire_temperature",
]
