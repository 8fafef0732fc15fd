"""Strands described: place, size, axis, shape."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

import numpy as np
import numpy.typing as npt
from scipy import ndimage

from strandproof.micrograph.learned.verdicts import Verdict
from strandproof.records import Strand

Labels = npt.NDArray[np.int32]
Mask = npt.NDArray[np.bool_]
Floats = npt.NDArray[np.float64]
Shape = Literal["field", "long", "round", "piece"]

_FIELD_SHARE = 0.9
_LONG = 1.5
_LONGEST_SIDE_PX = 2048  # a reduced outline has the same direction
_EDGE_SMOOTHING_PX = 2.0
_MARGIN_PX = 8
_ROUND_RATIO, _ROUND_FILL = 1.25, 0.95
_DIAMETERS_DEG = np.arange(0, 180, 5)


def described_strands(
    strand_labels: Labels, verdicts: Mapping[int, Verdict]
) -> tuple[Strand, ...]:
    """Describe every strand.

    Parameters
    ----------
    strand_labels : ndarray of int32, shape (n_rows, n_cols)
        Strands.
    verdicts : mapping of int to Verdict
        By number.

    Returns
    -------
    tuple of Strand
        By number.
    """
    places = ndimage.find_objects(strand_labels)
    return tuple(
        _strand(number, place, strand_labels, verdicts[number])
        for number, place in enumerate(places, start=1)
        if place is not None
    )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Body:
    """Area, centre and spread of a strand, and the pixels of its outline.

    Sums along rows and columns, so that a large strand needs no list of its pixels.
    """

    area: int
    centre: tuple[float, float]
    covariance: Floats
    edge: Floats  # rows and columns of the outline, shape (2, n_pixels)


def _body(mask: Mask) -> _Body:
    per_row, per_col = mask.sum(axis=1), mask.sum(axis=0)
    area = int(per_row.sum())
    rows, cols = (np.arange(side, dtype=np.float64) for side in mask.shape)
    row, col = per_row @ rows / area, per_col @ cols / area
    col_sums = mask @ (cols - col)  # of each row
    mixed = (rows - row) @ col_sums / area
    spread = [
        [per_row @ (rows - row) ** 2 / area, mixed],
        [mixed, per_col @ (cols - col) ** 2 / area],
    ]
    edge = mask & ~ndimage.binary_erosion(mask)
    return _Body(
        area=area,
        centre=(float(row), float(col)),
        covariance=np.array(spread),
        edge=np.stack(np.nonzero(edge)).astype(np.float64),
    )


def _strand(
    number: int, place: tuple[slice, ...], strand_labels: Labels, verdict: Verdict
) -> Strand:
    mask = strand_labels[place] == number
    body = _body(mask)
    shape = _shape(place, body, strand_labels.shape)
    wide = strand_labels[_widened(place, strand_labels.shape)] == number
    axis, length, width = _axes(body, shape, wide)
    return Strand(
        number=number,
        area_px=float(body.area),
        centroid_px=(
            body.centre[0] + place[0].start,
            body.centre[1] + place[1].start,
        ),
        length_px=length,
        width_px=width,
        axis_deg=axis,
        shape=shape,
        verdict=verdict.word,
        verdict_reason=verdict.reason,
        ovality=_ovality(body) if shape == "round" else None,
    )


def _ovality(body: _Body) -> float:
    """Largest less smallest diameter, over their mean."""
    turns = np.deg2rad(_DIAMETERS_DEG)
    along = np.outer(body.edge[0], np.sin(turns)) + np.outer(
        body.edge[1], np.cos(turns)
    )
    diameters = np.ptp(along, axis=0) + 1.0
    largest, smallest = float(diameters.max()), float(diameters.min())
    return 2 * (largest - smallest) / (largest + smallest)


def _shape(place: tuple[slice, ...], body: _Body, size: tuple[int, ...]) -> Shape:
    touches = (
        place[0].start == 0,
        place[0].stop == size[0],
        place[1].start == 0,
        place[1].stop == size[1],
    )
    if all(touches) and body.area > _FIELD_SHARE * size[0] * size[1]:
        return "field"
    long, short = _spread(body)
    through = (touches[0] and touches[1]) or (touches[2] and touches[3])
    if through or long >= _LONG * _ROUND_RATIO * short:
        return "long"
    fill = body.area / max(4 * np.pi * long * short, 1.0)
    if not any(touches) and long <= _ROUND_RATIO * short and fill >= _ROUND_FILL:
        return "round"
    return "piece"


def _spread(body: _Body) -> tuple[float, float]:
    """Give the standard deviations along the long and the short axis [px]."""
    short, long = np.sqrt(np.maximum(np.linalg.eigvalsh(body.covariance), 0.08))
    return float(long), float(short)


def _axes(body: _Body, shape: Shape, mask: Mask) -> tuple[float | None, float, float]:
    """Axis [deg], length and width [px] of a strand."""
    height, breadth = mask.shape
    if shape == "field":
        return None, float(breadth), float(height)
    if shape == "round":
        diameter = float(2 * np.sqrt(body.area / np.pi))
        return None, diameter, diameter
    along = _along_edges(mask) if shape == "long" else _long_axis(body)
    direction = float(np.rad2deg(np.arctan2(-along[0], along[1])))
    direction = (direction + 90.0) % 180.0 - 90.0
    rows, cols = body.edge
    length = float(np.ptp(rows * along[0] + cols * along[1])) + 1.0
    width = float(np.ptp(rows * along[1] - cols * along[0])) + 1.0
    return direction, length, width


def _widened(place: tuple[slice, ...], size: tuple[int, ...]) -> tuple[slice, ...]:
    """Give the place with what lies around it, so that edges lie inside."""
    return tuple(
        slice(max(part.start - _MARGIN_PX, 0), min(part.stop + _MARGIN_PX, end))
        for part, end in zip(place, size, strict=True)
    )


def _long_axis(body: _Body) -> Floats:
    """Give the direction (row, column) of the largest spread."""
    _, vectors = np.linalg.eigh(body.covariance)
    along: Floats = vectors[:, 1]
    return along


def _along_edges(mask: Mask) -> npt.NDArray[np.float64]:
    """Give the direction (row, column) that the two edges run in.

    Structure tensor of the smoothed mask: its strongest direction is the edges'
    normal. The picture's frame is no edge, so the mask is continued beyond it.
    """
    step = -(-max(mask.shape) // _LONGEST_SIDE_PX)
    reduced = mask[::step, ::step].astype(np.float64)
    smooth = ndimage.gaussian_filter(reduced, _EDGE_SMOOTHING_PX)
    down, right = np.gradient(smooth)
    tensor = np.array(
        [[np.sum(down * down), np.sum(down * right)], [0.0, np.sum(right * right)]]
    )
    _, vectors = np.linalg.eigh(tensor, UPLO="U")
    along: npt.NDArray[np.float64] = vectors[:, 0]
    return along
