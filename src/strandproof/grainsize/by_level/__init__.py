"""Intervals by level: cable, strand, section, field, and what joins them.

- `NestedValues`, `unit_means`: fields in sections in strands in cables;
- `intervals_by_level`: the mean with the interval of each level;
- `variance_components`, `expected_gains`, `more_units_for`: where the scatter sits,
  and what more units would bring;
- `KnownPiece`, `DetectionRates`: boundaries missed and falsely reported;
- `joined_estimate` and its parts: sampling, detection, calibration, rule;
- `events_along_axis`, `event_rate`: events along a strand with exact limits.

Imports only `grainsize`, `records`, `quantity` and `errors`.
"""

from strandproof.grainsize.by_level.budget import (
    Part,
    calibration_part,
    detection_part,
    joined_estimate,
    rule_part,
)
from strandproof.grainsize.by_level.detection import (
    DetectionCorrection,
    DetectionRates,
    KnownPiece,
    matched_crossings,
    rates_by_family,
)
from strandproof.grainsize.by_level.events import (
    BoundaryCrossing,
    BoundaryEvent,
    EventRate,
    event_rate,
    events_along_axis,
)
from strandproof.grainsize.by_level.level_intervals import (
    LevelInterval,
    intervals_by_level,
)
from strandproof.grainsize.by_level.nested_values import (
    NestedValues,
    unit_means,
    unit_weights,
)
from strandproof.grainsize.by_level.planning import (
    Gain,
    expected_gains,
    gain_in_words,
    more_units_for,
)
from strandproof.grainsize.by_level.variance_components import (
    Component,
    VarianceComponents,
    variance_components,
)

__all__ = [
    "BoundaryCrossing",
    "BoundaryEvent",
    "Component",
    "DetectionCorrection",
    "DetectionRates",
    "EventRate",
    "Gain",
    "KnownPiece",
    "LevelInterval",
    "NestedValues",
    "Part",
    "VarianceComponents",
    "calibration_part",
    "detection_part",
    "event_rate",
    "events_along_axis",
    "expected_gains",
    "gain_in_words",
    "intervals_by_level",
    "joined_estimate",
    "matched_crossings",
    "more_units_for",
    "rates_by_family",
    "rule_part",
    "unit_means",
    "unit_weights",
    "variance_components",
]
