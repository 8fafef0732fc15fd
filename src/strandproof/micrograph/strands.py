"""Strands described: place, size, axis, shape, and whether one crystal was seen."""

from typing import Literal

import numpy as np
import numpy.typing as npt
from scipy import ndimage

from strandproof.micrograph.evidence import BoundaryEvidence
from strandproof.records import Strand, StrandVerdict

Labels = npt.NDArray[np.int32]
Mask = npt.NDArray[np.bool_]
Shape = Literal["field", "long", "round", "piece"]

# Grains smaller than this share of the strand, or than this many pixels, do not
# decide whether the strand is more than one crystal: pits and dirt look like them.
_LEAST_SHARE = 0.01
_LEAST_GRAIN_PX = 60
# So many grains of some size make a polycrystal; between, nothing is decided.
_POLY_FROM = 3
# A groove this shallow [L*], or a step this small, must still have been visible.
_GOOD_LINE_DEPTH = 12.0
_LONG = 1.5
_EDGE_SMOOTHING_PX = 2.0
_ROUND_RATIO, _ROUND_FILL = 1.25, 0.95


def described_strands(
    grain_labels: Labels, strand_labels: Labels, evidence: BoundaryEvidence
) -> tuple[Strand, ...]:
    """Describe every strand.

    Parameters
    ----------
    grain_labels : ndarray of int32, shape (n_rows, n_cols)
        Grains; 0 on boundaries and outside of metal.
    strand_labels : ndarray of int32, shape (n_rows, n_cols)
        Strands.
    evidence : BoundaryEvidence
        What the picture could have shown.

    Returns
    -------
    tuple of Strand
        By number.
    """
    places = ndimage.find_objects(strand_labels)
    return tuple(
        _strand(number, place, grain_labels, strand_labels, evidence)
        for number, place in enumerate(places, start=1)
        if place is not None
    )


def _strand(
    number: int,
    place: tuple[slice, ...],
    grain_labels: Labels,
    strand_labels: Labels,
    evidence: BoundaryEvidence,
) -> Strand:
    mask = strand_labels[place] == number
    rows, cols = np.nonzero(mask)
    area = float(rows.size)
    offset = (place[0].start, place[1].start)
    centroid = (float(rows.mean() + offset[0]), float(cols.mean() + offset[1]))
    shape = _shape(place, mask, strand_labels.shape)
    axis, length, width = _axes(rows, cols, shape, mask)
    verdict, reason = _verdict(grain_labels[place][mask], area, evidence)
    return Strand(
        number=number,
        area_px=area,
        centroid_px=centroid,
        length_px=length,
        width_px=width,
        axis_deg=axis,
        shape=shape,
        verdict=verdict,
        verdict_reason=reason,
    )


def _shape(place: tuple[slice, ...], mask: Mask, size: tuple[int, ...]) -> Shape:
    touches = (
        place[0].start == 0,
        place[0].stop == size[0],
        place[1].start == 0,
        place[1].stop == size[1],
    )
    if all(touches) and mask.mean() > 0.9:
        return "field"
    rows, cols = np.nonzero(mask)
    long, short = _spread(rows, cols)
    through = (touches[0] and touches[1]) or (touches[2] and touches[3])
    if through or long >= _LONG * _ROUND_RATIO * short:
        return "long"
    fill = rows.size / max(4 * np.pi * long * short, 1.0)
    if not any(touches) and long <= _ROUND_RATIO * short and fill >= _ROUND_FILL:
        return "round"
    return "piece"


def _spread(
    rows: npt.NDArray[np.intp], cols: npt.NDArray[np.intp]
) -> tuple[float, float]:
    """Give the standard deviations along the long and the short axis [px]."""
    if rows.size < 2:
        return 0.5, 0.5
    values = np.linalg.eigvalsh(np.cov(np.stack([rows, cols])))
    short, long = np.sqrt(np.maximum(values, 0.08))
    return float(long), float(short)


def _axes(
    rows: npt.NDArray[np.intp],
    cols: npt.NDArray[np.intp],
    shape: Shape,
    mask: Mask,
) -> tuple[float | None, float, float]:
    """Axis [deg], length and width [px] of a strand."""
    height, breadth = mask.shape
    if shape == "field":
        return None, float(breadth), float(height)
    if shape == "round":
        diameter = float(2 * np.sqrt(rows.size / np.pi))
        return None, diameter, diameter
    along = _along_edges(mask) if shape == "long" else _long_axis(rows, cols)
    direction = float(np.rad2deg(np.arctan2(-along[0], along[1])))
    direction = (direction + 90.0) % 180.0 - 90.0
    length = float(np.ptp(rows * along[0] + cols * along[1])) + 1.0
    width = float(np.ptp(rows * along[1] - cols * along[0])) + 1.0
    return direction, length, width


def _long_axis(
    rows: npt.NDArray[np.intp], cols: npt.NDArray[np.intp]
) -> npt.NDArray[np.float64]:
    """Give the direction (row, column) of the largest spread."""
    if rows.size < 2:
        return np.array([0.0, 1.0])
    _, vectors = np.linalg.eigh(np.cov(np.stack([rows, cols])))
    along: npt.NDArray[np.float64] = vectors[:, 1]
    return along


def _along_edges(mask: Mask) -> npt.NDArray[np.float64]:
    """Give the direction (row, column) that the two edges run in.

    Structure tensor of the smoothed mask: its strongest direction is the edges'
    normal. The picture's frame is no edge, so the mask is continued beyond it.
    """
    smooth = ndimage.gaussian_filter(mask.astype(float), _EDGE_SMOOTHING_PX)
    down, right = np.gradient(smooth)
    tensor = np.array(
        [[np.sum(down * down), np.sum(down * right)], [0.0, np.sum(right * right)]]
    )
    _, vectors = np.linalg.eigh(tensor, UPLO="U")
    along: npt.NDArray[np.float64] = vectors[:, 0]
    return along


def _verdict(
    grains: Labels, area: float, evidence: BoundaryEvidence
) -> tuple[StrandVerdict, str]:
    sizes = np.bincount(grains)[1:]
    counted = int((sizes >= max(_LEAST_GRAIN_PX, _LEAST_SHARE * area)).sum())
    small = int(((sizes > 0) & (sizes >= _LEAST_GRAIN_PX)).sum())
    if counted >= _POLY_FROM or small >= 3 * _POLY_FROM:
        return "poly", f"{max(counted, small)} grains of some size were told apart."
    if counted == 2:
        return "undecided", "Two regions were told apart, which is too few to decide."
    depth = evidence.visible_line_depth
    if depth > _GOOD_LINE_DEPTH:
        reason = f"A groove had to be {depth:.0f} L* deep to be seen, which is a lot."
        return "undecided", reason
    return (
        "single",
        f"No closed boundary resolved; a groove {depth:.0f} L* deep would have shown.",
    )
