"""Pixels to labelled structure: metal, boundaries, twins, strands, quality flags.

Imports `records`, `tables`, `quantity` and `errors`, and array libraries; reads no
file but the trained network that lies in the package. `segment` finds strands and
grains, `overlay` draws them on the picture. `strandproof.micrograph.learned` holds the
network at work, `quality` what a picture cannot show, `edits` a person's changes,
`calibration` the pixel size; `render` draws synthetic sections with exact labels.
"""

from strandproof.micrograph.agreement import BoundaryAgreement, boundary_agreement
from strandproof.micrograph.drawing import overlay
from strandproof.micrograph.segmentation import segment

__all__ = [
    "BoundaryAgreement",
    "boundary_agreement",
    "overlay",
    "segment",
]
