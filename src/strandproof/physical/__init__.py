"""A strand as a body: hardness, density, which metal it is, what handling changed.

Imports `records`, `tables`, `quantity` and `errors` only. Each function takes readings
with their uncertainties and gives a frozen record of `strandproof.records.physical`.
"""

from strandproof.physical.deformation import compare_deformation
from strandproof.physical.density import density_by_buoyancy, density_by_geometry
from strandproof.physical.hand_readings import section_from_readings
from strandproof.physical.hardness import (
    copper_state,
    diagonal_error,
    vickers_result,
)
from strandproof.physical.indentations import (
    expected_diagonal_um,
    largest_force_newton,
    smallest_wire_um,
    vickers_hardness,
)
from strandproof.physical.metals import (
    PROPERTY_UNITS,
    PropertyRange,
    answers_of,
    metal_in_words,
    metal_names,
    probability_of_answer,
    property_range,
)
from strandproof.physical.mixtures import mixture, per_metre, skin_volume_share
from strandproof.physical.permutation import permutation_probability
from strandproof.physical.plating import layer_thickness
from strandproof.physical.section_geometry import section_from_labels
from strandproof.physical.tapes import tape_section
from strandproof.physical.water import air_density, surface_pull_mg, water_density
from strandproof.physical.which_metal import rank_metals

__all__ = [
    "PROPERTY_UNITS",
    "PropertyRange",
    "air_density",
    "answers_of",
    "compare_deformation",
    "copper_state",
    "density_by_buoyancy",
    "density_by_geometry",
    "diagonal_error",
    "expected_diagonal_um",
    "largest_force_newton",
    "layer_thickness",
    "metal_in_words",
    "metal_names",
    "mixture",
    "per_metre",
    "permutation_probability",
    "probability_of_answer",
    "property_range",
    "rank_metals",
    "section_from_labels",
    "section_from_readings",
    "skin_volume_share",
    "smallest_wire_um",
    "surface_pull_mg",
    "tape_section",
    "vickers_hardness",
    "vickers_result",
    "water_density",
]
