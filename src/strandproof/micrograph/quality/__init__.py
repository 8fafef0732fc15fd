"""Not readable, said early: what a picture cannot show, before anything is counted.

`quality_flags` is the one call for both: `picture_flags` judges the picture alone,
`structure_flags` what was found in it. One module for each kind of defect; all work
on samples, and on a window of large pictures, so that a picture of 24 megapixels
costs hardly more than one of four. May import `records` and `errors`.
"""

from strandproof.micrograph.quality.raising import (
    picture_flags,
    quality_flags,
    structure_flags,
)

__all__ = ["picture_flags", "quality_flags", "structure_flags"]
