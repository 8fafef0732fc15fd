"""Quality of a picture before anything is counted: blur, saturation, contrast."""

import numpy as np
import numpy.typing as npt
from scipy import ndimage

from strandproof.micrograph.evidence import BoundaryEvidence
from strandproof.micrograph.lab import LabPicture
from strandproof.records import Flag

FloatPlane = npt.NDArray[np.float32]
Mask = npt.NDArray[np.bool_]

_SATURATED_FROM = 0.02
_LOW_CONTRAST_FROM = 12.0
# Energy of the finest detail over that of the next coarser one. Sharp pictures looked
# at have 0.6 to 2.7; smoothed with 2 px they have 0.15 to 0.17, and no smooth picture
# has less than 0.11.
_BLURRED_BELOW = 0.2


def picture_flags(picture: LabPicture, evidence: BoundaryEvidence) -> tuple[Flag, ...]:
    """Raise the flags that concern the whole picture.

    Parameters
    ----------
    picture : LabPicture
        The picture.
    evidence : BoundaryEvidence
        What it could have shown.

    Returns
    -------
    tuple of Flag
        In the order of the registry.
    """
    metal = evidence.metal
    if not metal.any():
        return ()
    flags = []
    depth = evidence.visible_line_depth
    if depth > _LOW_CONTRAST_FROM:
        flags.append(Flag("low_contrast", f"grooves show from {depth:.0f} L* depth"))
    ratio = _fine_detail(picture.lightness, metal)
    if ratio < _BLURRED_BELOW:
        flags.append(Flag("blurred", f"fine over coarse detail {ratio:.2f}"))
    clipped = float((picture.clipped & metal).sum() / metal.sum())
    if clipped > _SATURATED_FROM:
        flags.append(Flag("saturated", f"{100 * clipped:.0f} % of the metal"))
    return tuple(flags)


def _fine_detail(lightness: FloatPlane, metal: Mask) -> float:
    """Energy of detail of about 1 px over that of about 2 px, inside metal."""
    one = ndimage.gaussian_filter(lightness, 0.7)
    two = ndimage.gaussian_filter(lightness, 1.4)
    inside = ndimage.binary_erosion(metal, iterations=4)
    if not inside.any():
        return 1.0
    fine = float(np.mean((lightness - one)[inside] ** 2))
    coarse = float(np.mean((one - two)[inside] ** 2))
    return fine / coarse if coarse > 0 else 1.0
