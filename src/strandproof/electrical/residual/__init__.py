"""Ratios of resistances: no length, mass or diameter enters.

Formulas with their sources stand in ``docs/residual-ratio.md``.

- `resistivity_nohm_m`, `bloch_gruneisen_nohm_m`: copper against temperature and
  residual ratio, by two models;
- `conductivity_from_warm_ratio`: two temperatures near room temperature;
- `residual_from_cold_ratio`: liquid nitrogen or helium;
- `predicted_residual`: what a hypothesis predicts;
- `purity_from_residual`: what a reading allows, and when it cannot tell;
- `effect_sizes`, `reachable_conductivity_percent`: before anything is measured.
"""

from strandproof.electrical.residual.boundaries import (
    added_by_reflection_nohm_m,
    boundary_term,
    mayadas_shatzkes_factor,
    most_by_boundaries_nohm_m,
    surface_term,
)
from strandproof.electrical.residual.cold_ratio import (
    bath_temperature,
    residual_from_cold_ratio,
)
from strandproof.electrical.residual.copper_fit import (
    CopperFit,
    bloch_gruneisen_nohm_m,
    package_copper_fit,
    phonon_resistivity_nohm_m,
    ratio_over_residual,
    residual_of_ratio_nohm_m,
    resistivity_nohm_m,
)
from strandproof.electrical.residual.effect_sizes import (
    effect_sizes,
    reachable_conductivity_percent,
)
from strandproof.electrical.residual.prediction import (
    Solution,
    impurity_terms,
    predicted_residual,
    state_terms,
    work_term,
)
from strandproof.electrical.residual.purity import purity_from_residual
from strandproof.electrical.residual.warm_ratio import (
    conductivity_from_warm_ratio,
    warm_ratio_of,
)

__all__ = [
    "CopperFit",
    "Solution",
    "added_by_reflection_nohm_m",
    "bath_temperature",
    "bloch_gruneisen_nohm_m",
    "boundary_term",
    "conductivity_from_warm_ratio",
    "effect_sizes",
    "impurity_terms",
    "mayadas_shatzkes_factor",
    "most_by_boundaries_nohm_m",
    "package_copper_fit",
    "phonon_resistivity_nohm_m",
    "predicted_residual",
    "purity_from_residual",
    "ratio_over_residual",
    "reachable_conductivity_percent",
    "residual_from_cold_ratio",
    "residual_of_ratio_nohm_m",
    "resistivity_nohm_m",
    "state_terms",
    "surface_term",
    "warm_ratio_of",
    "work_term",
]
