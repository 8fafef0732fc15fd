"""Thickness along the width of a flat tape."""

import numpy as np
import numpy.typing as npt

from strandproof.errors import ParameterError
from strandproof.physical.outlines import outline_of
from strandproof.physical.section_edges import (
    edge_flags,
    in_mm2,
    metal_area,
    metal_length,
    require_resolved,
)
from strandproof.records.physical import EdgeKnowledge, TapeSection

Mask = npt.NDArray[np.bool_]
Floats = npt.NDArray[np.float64]

_SLICE_PX = 4.0  # a slice holds enough pixels that their steps even out
_ENDS = 0.1  # of the width at each end: rounded, so no thickness
_LEAST_RATIO = 2.0


def tape_section(mask: Mask, *, edge: EdgeKnowledge) -> TapeSection:
    """Measure the thickness of a flat tape across its width.

    The tape lies in any direction. Slices of four pixels across it are measured by
    their area, so that a tilted tape reads as a level one does; a tenth of the width
    at each end is left out of the thickness, not of the area.

    Parameters
    ----------
    mask : ndarray of bool, shape (n_rows, n_cols)
        True on the tape; it must not touch the frame.
    edge : EdgeKnowledge
        Pixel size and resolution.

    Returns
    -------
    TapeSection
        Thickness, width, area, and the range of the thickness.

    Raises
    ------
    ParameterError
        If the mask is empty, touches the frame, or is less than twice as wide as thick.
    NotResolvedError
        If the tape is too thin for the picture.

    Examples
    --------
    >>> from strandproof.quantity import Quantity
    >>> mask = np.zeros((80, 320), dtype=bool)
    >>> mask[20:60, 10:310] = True
    >>> edge = EdgeKnowledge(pixel_size=Quantity(0.5, "um", 0.001), resolution_um=1.0)
    >>> found = tape_section(mask, edge=edge)
    >>> round(found.thickness.value, 6), round(found.width.value, 6)
    (20.0, 150.0)
    """
    _require_inside(mask)
    outline = outline_of(mask)
    angle, along = _along(mask)
    width_px = float(outline.extents_px(np.array([angle]))[0])
    thicknesses = _thicknesses(along, width_px)
    if not len(thicknesses) or width_px < _LEAST_RATIO * float(np.mean(thicknesses)):
        raise ParameterError(
            "mask",
            f"{width_px:.0f} px wide",
            allowed="a tape at least twice as wide as thick",
            remedy="Measure a round or nearly square strand as a face.",
        )
    require_resolved(float(thicknesses.min()), edge)
    size = edge.pixel_size.value
    return TapeSection(
        thickness=metal_length(float(thicknesses.mean()), edge),
        smallest_um=size * float(thicknesses.min()),
        largest_um=size * float(thicknesses.max()),
        places=len(thicknesses),
        width=metal_length(width_px, edge),
        area=in_mm2(metal_area(outline.area_px, outline.girth_px, edge)),
        flags=edge_flags(edge),
    )


def _along(mask: Mask) -> tuple[float, Floats]:
    """Direction of the tape [rad], and place of every pixel along it, from its end."""
    points = np.stack(np.nonzero(mask)).astype(np.float64)
    points -= points.mean(axis=1, keepdims=True)
    _, vectors = np.linalg.eigh(points @ points.T / points.shape[1])
    down, right = vectors[:, 1]
    along = vectors[:, 1] @ points
    # A pixel is a square: its shadow adds half of it at the end.
    start = float(along.min()) - 0.5 * (abs(down) + abs(right))
    return float(np.arctan2(down, right)), np.asarray(along - start)


def _thicknesses(along: Floats, width_px: float) -> Floats:
    first = int(np.ceil(_ENDS * width_px / _SLICE_PX))
    last = int(np.floor((1.0 - _ENDS) * width_px / _SLICE_PX))
    counts = np.bincount((along / _SLICE_PX).astype(int), minlength=last + 1)
    return np.asarray(counts[first:last] / _SLICE_PX, dtype=np.float64)


def _require_inside(mask: Mask) -> None:
    frame = (mask[0], mask[-1], mask[:, 0], mask[:, -1])
    if not mask.any() or any(side.any() for side in frame):
        raise ParameterError(
            "mask",
            int(mask.sum()),
            allowed="a tape that lies in the picture with both ends",
            remedy="Take a picture that shows the whole section.",
        )
