"""Named counting procedures with their rules recorded, and the standing of a mean.

- `count_structure`: every procedure on a labelled picture;
- `heyn_lines`, `single_circle`, `three_circles`: intercepts;
- `jeffries_circle`, `saltykov_rectangle`, `triple_point_count`, `whole_area`: grains
  per area;
- `scoring_rules`: scores of tangents, triple points, line ends, by name and source;
- `method_difference`: why planimetric and intercept G differ, as measured;
- `mean_standing`: when a mean grain size is not legitimate.
"""

from strandproof.grainsize.procedures.areas import (
    jeffries_circle,
    saltykov_rectangle,
    triple_point_count,
    whole_area,
)
from strandproof.grainsize.procedures.counting import PROCEDURES, count_structure
from strandproof.grainsize.procedures.densities import (
    boundary_density,
    twin_density,
    twin_density_of,
)
from strandproof.grainsize.procedures.difference import (
    method_difference,
    outline_stretch,
)
from strandproof.grainsize.procedures.duplex import duplex_kinds
from strandproof.grainsize.procedures.given_labels import (
    share_outside,
    with_given_labels,
    with_twins_apart,
)
from strandproof.grainsize.procedures.largest import (
    caliper_area,
    caliper_widths,
    largest_grain,
    one_grain_g,
)
from strandproof.grainsize.procedures.lines import (
    heyn_lines,
    single_circle,
    three_circles,
)
from strandproof.grainsize.procedures.planes import (
    anisotropy_index,
    three_plane_grains_per_mm2,
    three_planes,
)
from strandproof.grainsize.procedures.scoring import (
    intercepts_of,
    intersections_of,
    scoring_rules,
)
from strandproof.grainsize.procedures.settings import (
    ProcedureSettings,
    procedure_settings,
)
from strandproof.grainsize.procedures.standing import (
    SeenStructure,
    grains_across_of,
    mean_standing,
)
from strandproof.grainsize.procedures.statistics import (
    whole_grains,
    whole_picture_statistics,
)

__all__ = [
    "PROCEDURES",
    "ProcedureSettings",
    "SeenStructure",
    "anisotropy_index",
    "boundary_density",
    "caliper_area",
    "caliper_widths",
    "count_structure",
    "duplex_kinds",
    "grains_across_of",
    "heyn_lines",
    "intercepts_of",
    "intersections_of",
    "jeffries_circle",
    "largest_grain",
    "mean_standing",
    "method_difference",
    "one_grain_g",
    "outline_stretch",
    "procedure_settings",
    "saltykov_rectangle",
    "scoring_rules",
    "share_outside",
    "single_circle",
    "three_circles",
    "three_plane_grains_per_mm2",
    "three_planes",
    "triple_point_count",
    "twin_density",
    "twin_density_of",
    "whole_area",
    "whole_grains",
    "whole_picture_statistics",
    "with_given_labels",
    "with_twins_apart",
]
