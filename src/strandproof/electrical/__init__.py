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
- `require_one_conductor_type`, `layer_effect`: conductors in parallel, tinned;
- `conductivity_needed`, `check_conductivity_claim`, `compare_with_gauge`,
  `decide_conformity`, `screen_core`: claims and limits;
- `gauge_diameter_mm` and kin, `strand_area`, `expected_core`, `lay_factor`.
"""

from strandproof.electrical.areas import (
    expected_core,
    strand_area,
    strand_area_by_mass,
)
from strandproof.electrical.band import band_flags, judge_band
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
from strandproof.electrical.lay import (
    conductor_length,
    lay_error_percent,
    lay_factor,
)
from strandproof.electrical.layers import layer_effect
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
)
from strandproof.electrical.screening import screen_core
from strandproof.electrical.temperature import (
    factor_to_20c,
    fixed_coefficient,
    resistance_at_20c,
    scaled_coefficient,
)

__all__ = [
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
]
