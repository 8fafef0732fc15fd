"""Strands described: place, size, axis, shape, and whether one crystal was seen."""

from dataclasses import dataclass
from typing import Literal

import numpy as np
import numpy.typing as npt
from scipy import ndimage

from strandproof.micrograph.border_lines import border_lines
from strandproof.micrograph.borders import borders_of
from strandproof.micrograph.evidence import BoundaryEvidence
from strandproof.micrograph.regions import region_graph
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
# Boundaries between crystals show a step of shade, or bend; scratches and slip traces
# do neither. Mean step in clear steps, mean distance from a straight line [px].
_CRYSTAL_STEP = 0.9
_CRYSTAL_ROUGHNESS_PX = 0.9
# A groove this shallow [L*], or a step this small, must still have been visible.
_GOOD_LINE_DEPTH = 12.0
_LONG = 1.5
_EDGE_SMOOTHING_PX = 2.0
_MARGIN_PX = 8
_ROUND_RATIO, _ROUND_FILL = 1.25, 0.95


@dataclass(frozen=True, slots=True, kw_only=True)
class _BoundaryLook:
    """What the lines between the regions of a strand look like, on average.

    `step` is the difference of shade at both sides [clear steps], `roughness_px`
    the distance from a straight line, `visible_depth` the least depth of a groove
    that would have shown [L*].
    """

    step: float
    roughness_px: float
    visible_depth: float


def described_strands(
    grain_labels: Labels, strand_labels: Labels, evidence: BoundaryEvidence
) -> tuple[Strand, ...]:
    """Describe every strand.

    Parameters
    ----------
    grain_labels : ndarray of int32, shape (n_rows, n_cols)
        Grains without boundary lines; 0 outside of metal.
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
    looks = _boundary_looks(grain_labels, strand_labels, evidence)
    return tuple(
        _strand(number, place, (grain_labels, strand_labels), looks[number])
        for number, place in enumerate(places, start=1)
        if place is not None
    )


def _strand(
    number: int,
    place: tuple[slice, ...],
    labels: tuple[Labels, Labels],
    look: _BoundaryLook,
) -> Strand:
    grain_labels, strand_labels = labels
    mask = strand_labels[place] == number
    rows, cols = np.nonzero(mask)
    area = float(rows.size)
    offset = (place[0].start, place[1].start)
    centroid = (float(rows.mean() + offset[0]), float(cols.mean() + offset[1]))
    shape = _shape(place, mask, strand_labels.shape)
    wide = strand_labels[_widened(place, strand_labels.shape)] == number
    axis, length, width = _axes(rows, cols, shape, wide)
    verdict, reason = _verdict(grain_labels[place][mask], area, look)
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


def _widened(place: tuple[slice, ...], size: tuple[int, ...]) -> tuple[slice, ...]:
    """Give the place with what lies around it, so that edges lie inside."""
    return tuple(
        slice(max(part.start - _MARGIN_PX, 0), min(part.stop + _MARGIN_PX, end))
        for part, end in zip(place, size, strict=True)
    )


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


def _boundary_looks(
    grain_labels: Labels, strand_labels: Labels, evidence: BoundaryEvidence
) -> dict[int, _BoundaryLook]:
    """Say for each strand what the lines between its regions look like."""
    borders = borders_of(grain_labels)
    graph = region_graph(grain_labels, evidence, borders=borders)
    lines = border_lines(borders, grain_labels.shape[1])
    owner = np.zeros(graph.area.size, np.int64)
    owner[grain_labels.ravel()] = strand_labels.ravel()
    step, strand_of = graph.shade_difference(), owner[graph.first]
    looks = {}
    for number in range(1, int(strand_labels.max(initial=0)) + 1):
        own = strand_of == number
        weight = graph.length[own]
        looks[number] = _BoundaryLook(
            step=float(np.average(step[own], weights=weight)) if own.any() else 0.0,
            roughness_px=(
                float(np.average(lines.roughness[own], weights=weight))
                if own.any()
                else 0.0
            ),
            visible_depth=evidence.visible_line_depth,
        )
    return looks


def _verdict(
    grains: Labels, area: float, look: _BoundaryLook
) -> tuple[StrandVerdict, str]:
    sizes = np.bincount(grains)[1:]
    counted = int((sizes >= max(_LEAST_GRAIN_PX, _LEAST_SHARE * area)).sum())
    small = int((sizes >= _LEAST_GRAIN_PX).sum())
    if counted < _POLY_FROM and small < 3 * _POLY_FROM:
        return _few_regions(counted, look)
    regions = f"{max(counted, small)} regions were told apart"
    if look.step < _CRYSTAL_STEP and look.roughness_px < _CRYSTAL_ROUGHNESS_PX:
        return "undecided", (
            f"{regions}, but the lines between them are straight and the shades at "
            "both sides alike, as scratches and slip traces are."
        )
    return "poly", f"{regions} by their boundaries."


def _few_regions(counted: int, look: _BoundaryLook) -> tuple[StrandVerdict, str]:
    depth = look.visible_depth
    if counted >= 2:
        return "undecided", "Two regions were told apart, which is too few to decide."
    if depth > _GOOD_LINE_DEPTH:
        reason = f"A groove had to be {depth:.0f} L* deep to be seen, which is a lot."
        return "undecided", reason
    return (
        "single",
        f"No closed boundary resolved; a groove {depth:.0f} L* deep would have shown.",
    )
