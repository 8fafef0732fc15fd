"""Marks of people on test lines: places, counts, directions, comparison of readers.

Knows nothing of cases, files or locks. Positions are (column, row) in pixels, as in
`strandproof.records.entries.ReadingMark`; directions run from right towards up.

- `lay_test_lines`: lines and circles at places that a seed fixes;
- `count_marks`: counts by class, mean intercept with and without the doubtful;
- `direction_rose`, `shared_directions`: do more marks share a direction than chance
  explains?
- `compare_marks`: which marks of two readers are the same;
- `program_marks`: what the labels of a picture show along the same lines.
"""

from strandproof.grainsize.marks.counting import (
    FEATURES,
    MarkCount,
    MarkScores,
    count_marks,
)
from strandproof.grainsize.marks.directions import (
    DirectionCluster,
    DirectionRose,
    direction_rose,
    doubted_directions,
    greatest_cluster,
    shared_directions,
)
from strandproof.grainsize.marks.laying import lay_test_lines
from strandproof.grainsize.marks.lines import (
    CircularTestLine,
    PlacedLine,
    StraightTestLine,
)
from strandproof.grainsize.marks.marked import LineMark, MarkedLine, placed_mark
from strandproof.grainsize.marks.matching import (
    NOT_MARKED,
    MarkComparison,
    MarkPair,
    compare_marks,
)
from strandproof.grainsize.marks.program_marks import program_marks

__all__ = [
    "FEATURES",
    "NOT_MARKED",
    "CircularTestLine",
    "DirectionCluster",
    "DirectionRose",
    "LineMark",
    "MarkComparison",
    "MarkCount",
    "MarkPair",
    "MarkScores",
    "MarkedLine",
    "PlacedLine",
    "StraightTestLine",
    "compare_marks",
    "count_marks",
    "direction_rose",
    "doubted_directions",
    "greatest_cluster",
    "lay_test_lines",
    "placed_mark",
    "program_marks",
    "shared_directions",
]
