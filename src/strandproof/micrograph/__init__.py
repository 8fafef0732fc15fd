"""Pixels to labelled structure: metal, boundaries, twins, strands, quality flags.

Imports `records`, `tables`, `quantity` and `errors`, and array libraries; reads no
file. `segment` finds strands and grains, `overlay` draws them on the picture;
`BoundaryEvidence` is the seam at which a learned method replaces general image
processing. `strandproof.micrograph.render` draws synthetic sections with exact labels.
"""

from strandproof.micrograph.agreement import BoundaryAgreement, boundary_agreement
from strandproof.micrograph.drawing import overlay
from strandproof.micrograph.evidence import BoundaryEvidence
from strandproof.micrograph.segmentation import segment

__all__ = [
    "BoundaryAgreement",
    "BoundaryEvidence",
    "boundary_agreement",
    "overlay",
    "segment",
]
