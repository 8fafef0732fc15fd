"""A picture with what was found drawn on it, for people to look at."""

import numpy as np
import numpy.typing as npt
from scipy import ndimage

from strandproof.micrograph.borders import borders_of
from strandproof.micrograph.edits.canvas import filled
from strandproof.records import BoundarySegments, LabelledStructure

FloatPlane = npt.NDArray[np.float32]
Colours = npt.NDArray[np.uint8]
Labels = npt.NDArray[np.int32]
Integers = npt.NDArray[np.int64]
Mask = npt.NDArray[np.bool_]

_BOUNDARY = np.array([230, 30, 30], np.uint8)
_EDGE_LIGHT = np.array([255, 230, 0], np.uint8)
_EDGE_DARK = np.array([0, 60, 200], np.uint8)
_TWIN_DARK = np.array([45, 0, 90], np.uint8)
_TWIN_LIGHT = np.array([235, 215, 255], np.uint8)
_HATCH_DARK = np.array([40, 40, 40], np.uint8)
_HATCH_LIGHT = np.array([235, 235, 235], np.uint8)
_DASH_PX = 12
_DOT_PX = 3
_HATCH_PX = 12
_SURE = 0.8  # a boundary below is dotted


def overlay(picture: FloatPlane, structure: LabelledStructure) -> Colours:
    """Draw what was found on a picture, each kind of line in a way of its own.

    All kinds stay apart without colour: solid, dotted, dark beside light, dashed,
    hatched.

    Parameters
    ----------
    picture : ndarray of float, shape (n_rows, n_cols) or (n_rows, n_cols, 3)
        Grey or sRGB in [0, 1].
    structure : LabelledStructure
        What was found in it.

    Returns
    -------
    ndarray of uint8, shape (n_rows, n_cols, 3)
        Boundaries red: solid, or dotted where their probability is below 0.8. Sides
        of twins as a dark line beside a light one. Outlines of strands in two
        colours, dashed. Hatched crosswise where nothing can be told.
    """
    grey = np.asarray(picture, np.float32)
    colour = np.repeat(grey[..., None], 3, axis=2) if grey.ndim == 2 else grey
    drawn = np.rint(np.clip(colour, 0, 1) * 255).astype(np.uint8)
    boundary = (structure.strand_labels > 0) & (structure.grain_labels == 0)
    _draw_twins(drawn, structure, boundary)
    drawn[boundary & ~_gaps(structure, boundary)] = _BOUNDARY
    outline = _outline(structure.strand_labels, structure.unreadable)
    light = _stripes_across_edges(structure.strand_labels)
    drawn[outline & light] = _EDGE_LIGHT
    drawn[outline & ~light] = _EDGE_DARK
    _draw_hatching(drawn, structure.unreadable)
    return drawn


def _draw_twins(drawn: Colours, structure: LabelledStructure, boundary: Mask) -> None:
    if structure.twin_boundary is None:
        return
    dark = structure.twin_boundary & ~boundary
    light = np.zeros(dark.shape, np.bool_)
    light[1:] |= dark[:-1]
    light[:, 1:] |= dark[:, :-1]
    drawn[light & ~dark & (structure.grain_labels > 0)] = _TWIN_LIGHT
    drawn[dark] = _TWIN_DARK


def _draw_hatching(drawn: Colours, unreadable: Mask | None) -> None:
    if unreadable is None:
        return
    rows, cols = np.nonzero(unreadable)
    for shift, colour in enumerate((_HATCH_DARK, _HATCH_LIGHT)):
        up, down = (rows + cols - shift) % _HATCH_PX, (rows - cols - shift) % _HATCH_PX
        line = (up == 0) | (down == 0)
        drawn[rows[line], cols[line]] = colour


def _gaps(structure: LabelledStructure, boundary: Mask) -> Mask:
    """Pixels left free between the dots of boundaries that are not sure."""
    gaps = np.zeros(boundary.shape, np.bool_)
    if structure.segments is None or not (structure.segments.probability < _SURE).any():
        return gaps
    segment = _segment_of_pixel(structure, structure.segments)
    segment[~boundary.ravel()] = -1
    place = np.flatnonzero(segment >= 0)
    probability = structure.segments.probability[segment[place]]
    place = place[probability < _SURE]
    along = _along_axis(np.divmod(place, boundary.shape[1]), segment[place])
    gaps.ravel()[place] = along // _DOT_PX % 2 == 1
    return gaps


def _segment_of_pixel(
    structure: LabelledStructure, segments: BoundarySegments
) -> Integers:
    """Row in `segments` of each pixel beside a border, the surest first; else -1."""
    full = filled(structure.grain_labels, structure.strand_labels)
    borders = borders_of(full)
    base = np.int64(full.max(initial=0)) + 1
    keys = segments.first.astype(np.int64) * base + segments.second
    order = np.argsort(keys)
    asked = borders.first * base + borders.second
    found = np.minimum(np.searchsorted(keys[order], asked), keys.size - 1)
    by_probability = np.argsort(segments.probability, kind="stable")
    rank_of = np.argsort(by_probability)
    rank = np.where(keys[order][found] == asked, rank_of[order[found]], -1)
    ranks = np.full(full.size, -1)
    for end in (borders.pixel, borders.neighbour):
        np.maximum.at(ranks, end, rank[borders.border_of_pair])
    # A line drawn wider than a pixel has pixels that no border runs along.
    wider = ndimage.maximum_filter(ranks.reshape(full.shape), 3).ravel()
    ranks = np.where(ranks < 0, wider, ranks)
    return np.where(ranks < 0, -1, by_probability[ranks])


def _along_axis(
    place: tuple[Integers, Integers], group: Integers
) -> npt.NDArray[np.float64]:
    """Position of each pixel along the main direction of its group [px]."""
    rows, cols = (each.astype(np.float64) for each in place)
    count = np.maximum(np.bincount(group), 1)
    down = rows - (np.bincount(group, rows) / count)[group]
    right = cols - (np.bincount(group, cols) / count)[group]
    square, mixed = (
        np.bincount(group, right**2 - down**2),
        np.bincount(group, down * right),
    )
    turn = (0.5 * np.arctan2(2 * mixed, square))[group]
    position: npt.NDArray[np.float64] = right * np.cos(turn) + down * np.sin(turn)
    return position


def _stripes_across_edges(strand_labels: Labels) -> Mask:
    """Diagonal stripes; they turn where they would run along an edge."""
    plane = strand_labels.astype(np.float32)
    down, right = (
        ndimage.gaussian_filter(plane, _DASH_PX / 4, order=order, mode="nearest")
        for order in ((1, 0), (0, 1))
    )
    rises = 4 * down * right > down**2 + right**2  # edge at 15 to 75 degrees
    rows, cols = np.indices(plane.shape)
    stripes: Mask = np.where(rises, rows - cols, rows + cols) // _DASH_PX % 2 == 0
    return stripes


def _outline(strand_labels: Labels, unreadable: Mask | None) -> Mask:
    """Pixels of strands whose neighbour within the picture is no part of them.

    Where nothing can be told there is no edge of a strand either.
    """
    dark = np.zeros(strand_labels.shape, np.bool_) if unreadable is None else unreadable
    low = np.where(dark, np.iinfo(np.int32).max, strand_labels)
    high = np.where(dark, -1, strand_labels)
    least = ndimage.minimum_filter(np.pad(low, 1, mode="edge"), 3)[1:-1, 1:-1]
    most = ndimage.maximum_filter(np.pad(high, 1, mode="edge"), 3)[1:-1, 1:-1]
    edge: Mask = (strand_labels > 0) & (
        (least != strand_labels) | (most != strand_labels)
    )
    return edge
