"""From a labelled structure to counts, intercepts, G, intervals and bounds.

Works on label arrays and numbers alone; knows nothing of how the labels were
made. Imports `records`, `tables`, `quantity` and `errors`.

- `measure`: everything about one labelled picture; `measurement_as_plain_data`
  turns it into JSON-ready data;
- `planimetric_g`, `intercept_g`, `metric_index`, `macro_g` and kin: the relations;
- `count_grains`, `grains_per_area`: grains in a region;
- `mean_over_level`, `intercept_g_estimate`: intervals by lead, strand or field;
- `reader_agreement`, and the package `strandproof.grainsize.marks`: people's marks.
"""

from strandproof.grainsize.agreement import (
    ReaderAgreement,
    ReaderDifference,
    reader_agreement,
)
from strandproof.grainsize.grain_size_numbers import (
    intercept_g_estimate,
    planimetric_g_estimate,
)
from strandproof.grainsize.levels import mean_over_level
from strandproof.grainsize.measurement import measure
from strandproof.grainsize.measurement_json import (
    SCHEMA_NAME,
    SCHEMA_VERSION,
    measurement_as_plain_data,
)
from strandproof.grainsize.nested import FieldCount, NestedMeans, nested_means
from strandproof.grainsize.planimetric import count_grains, grains_per_area
from strandproof.grainsize.relations import (
    GrainSizeRelations,
    grains_per_mm2_of,
    intercept_g,
    mean_intercept_mm_of,
    package_relations,
    planimetric_g,
    relations_from_table,
)
from strandproof.grainsize.rules import counting_rules
from strandproof.grainsize.scales import (
    g_of_grains_per_square_inch,
    grains_per_square_inch_of,
    macro_g,
    magnification_shift,
    metric_index,
)

__all__ = [
    "SCHEMA_NAME",
    "SCHEMA_VERSION",
    "FieldCount",
    "GrainSizeRelations",
    "NestedMeans",
    "ReaderAgreement",
    "ReaderDifference",
    "count_grains",
    "counting_rules",
    "g_of_grains_per_square_inch",
    "grains_per_area",
    "grains_per_mm2_of",
    "grains_per_square_inch_of",
    "intercept_g",
    "intercept_g_estimate",
    "macro_g",
    "magnification_shift",
    "mean_intercept_mm_of",
    "mean_over_level",
    "measure",
    "measurement_as_plain_data",
    "metric_index",
    "nested_means",
    "package_relations",
    "planimetric_g",
    "planimetric_g_estimate",
    "reader_agreement",
    "relations_from_table",
]
