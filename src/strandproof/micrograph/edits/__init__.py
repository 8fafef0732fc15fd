"""A person's edits of a segmentation: kept as records, applied on top, they win.

Knows `records` and `errors` and the borders of label planes; nothing about how the
labels were found.
"""

from strandproof.micrograph.edits.applying import verdict_after_edits, with_edits
from strandproof.micrograph.edits.kinds import (
    AddBoundary,
    Edit,
    EraseBoundary,
    ExcludeArea,
    MarkTwin,
    TakeInArea,
    edits_as_plain_data,
    edits_from_plain_data,
)

__all__ = [
    "AddBoundary",
    "Edit",
    "EraseBoundary",
    "ExcludeArea",
    "MarkTwin",
    "TakeInArea",
    "edits_as_plain_data",
    "edits_from_plain_data",
    "verdict_after_edits",
    "with_edits",
]
