"""How sure each boundary is, after edits."""

import numpy as np
import numpy.typing as npt

from strandproof.micrograph.borders import Borders, borders_of
from strandproof.micrograph.edits.canvas import filled
from strandproof.records import BoundarySegments

Labels = npt.NDArray[np.int32]
Mask = npt.NDArray[np.bool_]
Floats = npt.NDArray[np.float64]
Integers = npt.NDArray[np.int64]

# Pixel pairs across a border of every direction, on average: 4 / pi per px of length.
_LENGTH_PER_PAIR = np.pi / 4


def segments_after(
    segments: BoundarySegments,
    *,
    before: tuple[Labels, Labels],
    after: tuple[Labels, Labels],
    drawn: Mask,
) -> BoundarySegments:
    """Give every boundary after edits its length and probability.

    Parameters
    ----------
    segments : BoundarySegments
        Those that the method found.
    before, after : tuple of two ndarray of int32, shape (n_rows, n_cols)
        Grain and strand labels before and after the edits.
    drawn : ndarray of bool, shape (n_rows, n_cols)
        Lines that a person drew.

    Returns
    -------
    BoundarySegments
        Boundaries that no edit touched keep length and probability. One that a person
        drew for more than half of its length has 1. Others have the mean over their
        length, with 0 where grains were continued into an area that the method could
        not read.
    """
    borders = _of_one_strand(borders_of(filled(*after)), after[1])
    old_full = filled(*before)
    row = _old_row(borders, old_full, segments)
    probability = _mean_probability(borders, row, old_full, segments)
    probability[_share(borders, drawn.ravel()) > 0.5] = 1.0
    length = borders.lengths * _LENGTH_PER_PAIR
    lowest, highest = _row_range(borders, row)
    old_borders = _of_one_strand(borders_of(old_full), before[1])
    old_row = _old_row(old_borders, old_full, segments)
    old_pairs = np.bincount(old_row[old_row >= 0], minlength=segments.first.size)
    kept = lowest == highest
    kept[kept] = old_pairs[lowest[kept]] == borders.lengths[kept]
    length[kept] = segments.length_px[lowest[kept]]
    return BoundarySegments(
        first=borders.first.astype(np.int32),
        second=borders.second.astype(np.int32),
        length_px=length.astype(np.float32),
        probability=probability.astype(np.float32),
    )


def _mean_probability(
    borders: Borders, row: Integers, old_full: Labels, segments: BoundarySegments
) -> Floats:
    """Mean over the pixel pairs of which something is known; 1 without any."""
    flat = old_full.ravel()
    blank = (flat[borders.pixel] == 0) | (flat[borders.neighbour] == 0)
    found = row >= 0
    each = np.zeros(row.size)
    each[found] = segments.probability[row[found]]
    known = borders.sums((found | blank).astype(np.float64))
    mean = borders.sums(each) / np.maximum(known, 1)
    return np.where(known > 0, mean, 1.0)


def _share(borders: Borders, flat: Mask) -> Floats:
    """Share of each border's pixel pairs that lie on a mask."""
    on = flat[borders.pixel] | flat[borders.neighbour]
    return borders.sums(on.astype(np.float64)) / borders.lengths


def _of_one_strand(borders: Borders, strands: Labels) -> Borders:
    """Borders between grains of one strand."""
    flat = strands.ravel()
    same = flat[borders.pixel] == flat[borders.neighbour]
    used, index = np.unique(borders.border_of_pair[same], return_inverse=True)
    return Borders(
        first=borders.first[used],
        second=borders.second[used],
        border_of_pair=index.astype(np.int64),
        pixel=borders.pixel[same],
        neighbour=borders.neighbour[same],
    )


def _old_row(borders: Borders, full: Labels, segments: BoundarySegments) -> Integers:
    """Row in `segments` of each pixel pair; -1 where the method has no boundary."""
    flat = full.ravel()
    one, other = flat[borders.pixel], flat[borders.neighbour]
    base = np.int64(full.max(initial=0)) + 1
    asked = np.minimum(one, other).astype(np.int64) * base + np.maximum(one, other)
    keys = segments.first.astype(np.int64) * base + segments.second
    if keys.size == 0:
        return np.full(asked.size, -1)
    order = np.argsort(keys)
    place = np.minimum(np.searchsorted(keys[order], asked), keys.size - 1)
    return np.where(keys[order][place] == asked, order[place], -1)


def _row_range(borders: Borders, row: Integers) -> tuple[Integers, Integers]:
    """Lowest and highest row of each border's pairs that have one."""
    found = row >= 0
    lowest = np.full(borders.first.size, np.iinfo(np.int64).max)
    highest = np.full(borders.first.size, -1)
    np.minimum.at(lowest, borders.border_of_pair[found], row[found])
    np.maximum.at(highest, borders.border_of_pair[found], row[found])
    return lowest, highest
