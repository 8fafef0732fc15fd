"""Boundaries added and taken away on the label planes."""

from dataclasses import replace

import numpy as np
import numpy.typing as npt
from scipy import ndimage
from scipy.sparse import coo_array
from scipy.sparse.csgraph import connected_components

from strandproof.errors import ParameterError
from strandproof.micrograph.borders import Borders, borders_of
from strandproof.micrograph.edits.canvas import (
    Canvas,
    filled,
    in_single_pieces,
    piece_count,
)
from strandproof.micrograph.edits.kinds import (
    REACH_PX,
    AddBoundary,
    EraseBoundary,
    MarkTwin,
)
from strandproof.micrograph.edits.strokes import (
    Stroke,
    borders_along,
    led_on,
)

Labels = npt.NDArray[np.int32]
Mask = npt.NDArray[np.bool_]
Integers = npt.NDArray[np.int64]


def with_boundary(canvas: Canvas, stroke: Stroke, edit: AddBoundary) -> Canvas:
    """Part grains along a line.

    Parameters
    ----------
    canvas : Canvas
        The labels so far.
    stroke : Stroke
        The line as it was drawn.
    edit : AddBoundary
        Where it comes from, for the message.

    Returns
    -------
    Canvas
        Labels with the line; stubs that part nothing are left out.

    Raises
    ------
    ParameterError
        If the line parts no grain.
    """
    seen = canvas.seen_grains
    cut = _mask(led_on(stroke, seen), seen.shape) & (seen > 0)
    cut &= ~_swallowed(seen, cut)[seen]
    touched = _numbers(seen[cut])
    grains = in_single_pieces(np.where(cut, 0, canvas.grains), touched)
    lost = (canvas.grains > 0) & (grains == 0)
    full = filled(grains, canvas.strands)
    back = _parting_nothing(lost, canvas.strands, (grains, full))
    grains = np.where(back, full, grains).astype(np.int32)
    grains = in_single_pieces(grains, _numbers(grains[_widened(lost)]))
    parted = np.where(canvas.hidden | (lost & ~back), 0, canvas.grains)
    if piece_count(parted, touched) <= piece_count(seen, touched):
        raise ParameterError(
            edit.named("points_px"),
            edit.points_px,
            allowed="a line that parts a grain",
            remedy="Draw it as one line from boundary to boundary, or as a ring.",
        )
    line = lost & ~back
    return replace(
        canvas, grains=grains, twins=canvas.twins & ~line, drawn=canvas.drawn | line
    )


def without_boundary(
    canvas: Canvas, stroke: Stroke, edit: EraseBoundary | MarkTwin
) -> tuple[Canvas, Mask]:
    """Join the grains at both sides of what a stroke runs along.

    Parameters
    ----------
    canvas : Canvas
        The labels so far.
    stroke : Stroke
        The line as it was drawn.
    edit : EraseBoundary or MarkTwin
        Where it comes from, for the message.

    Returns
    -------
    canvas : Canvas
        Labels with the grains joined.
    line : ndarray of bool, shape (n_rows, n_cols)
        Where the line was.

    Raises
    ------
    ParameterError
        If no boundary is in reach.
    """
    seen, strands = canvas.seen_grains, canvas.seen_strands
    full = filled(seen, strands)
    borders = _within_strands(borders_of(full), strands)
    along = borders_along(stroke, borders, seen.shape[1])
    first, second = borders.first[along], borders.second[along]
    joined = _joined_numbers(int(canvas.grains.max(initial=0)), first, second)
    after = joined[full].astype(np.int32)
    boundary = (seen == 0) & (strands > 0)
    boundary &= ~_inside_of_one(full, strands, 5) | _near(stroke, seen.shape)
    freed = _parting_nothing(boundary, strands, (joined[seen].astype(np.int32), after))
    grains = np.where(freed, after, joined[canvas.grains]).astype(np.int32)
    checked = {*joined[first].tolist(), *_numbers(grains[_widened(freed)])}
    grains = in_single_pieces(grains, sorted(checked))
    members = np.isin(canvas.grains, np.concatenate([first, second]))
    n_members = np.unique(canvas.grains[members]).size
    n_left = len(_numbers(grains[members]))
    if not freed.any() and n_left >= n_members:
        raise ParameterError(
            edit.named("points_px"),
            edit.points_px,
            allowed="a stroke along a grain boundary, at most 3 px off",
            remedy="Contacts of strands and edges of metal are no grain boundaries.",
        )
    line = freed | _touching(borders, along, seen)
    twins, drawn = canvas.twins & ~line, canvas.drawn & ~line
    return replace(canvas, grains=grains, twins=twins, drawn=drawn), line


def _touching(borders: Borders, along: Mask, seen: Labels) -> Mask:
    """One pixel of each pair in which two joined grains touch without a line."""
    flat = seen.ravel()
    chosen = along[borders.border_of_pair]
    chosen &= (flat[borders.pixel] > 0) & (flat[borders.neighbour] > 0)
    touching = np.zeros(seen.shape, np.bool_)
    touching.ravel()[borders.pixel[chosen]] = True
    return touching


def _swallowed(seen: Labels, cut: Mask) -> Mask:
    """Grains that lie under the line whole; they stay as they are."""
    n_grains = int(seen.max(initial=0)) + 1
    whole: Mask = np.bincount(seen.ravel(), minlength=n_grains) == np.bincount(
        seen[cut], minlength=n_grains
    )
    return whole


def _within_strands(borders: Borders, strands: Labels) -> Borders:
    """Borders without the pixel pairs that lie in two strands."""
    flat = strands.ravel()
    same = flat[borders.pixel] == flat[borders.neighbour]
    return replace(
        borders,
        border_of_pair=borders.border_of_pair[same],
        pixel=borders.pixel[same],
        neighbour=borders.neighbour[same],
    )


def _joined_numbers(highest: int, first: Integers, second: Integers) -> Integers:
    """For each number the lowest of those that it is joined with."""
    links = coo_array((np.ones(first.size), (first, second)), (highest + 1,) * 2)
    n_groups, group = connected_components(links, directed=False)
    lowest = np.full(n_groups, highest + 1)
    np.minimum.at(lowest, group, np.arange(highest + 1))
    numbers: Integers = lowest[group].astype(np.int64)
    return numbers


def _parting_nothing(
    line: Mask, strands: Labels, labels: tuple[Labels, Labels]
) -> Mask:
    """Pixels of a line that can be given to a grain with no two grains in touch.

    The labels are those with lines, and those with lines filled.
    """
    grains, full = labels
    free = line & (_inside_of_one(full, strands) | _inside_of_one(grains, strands))
    free &= _inside_of_one(np.where(free, full, grains), strands)
    return free


def _inside_of_one(labels: Labels, strands: Labels, width: int = 3) -> Mask:
    """Pixels around which only one grain of their own strand lies."""
    inside = np.zeros(labels.shape, np.bool_)
    for number in _numbers(strands):
        own = strands == number
        grain = own & (labels > 0)
        least = np.where(grain, labels, np.iinfo(np.int32).max)
        most = np.where(grain, labels, 0)
        inside |= own & (
            ndimage.minimum_filter(least, width, mode="nearest")
            == ndimage.maximum_filter(most, width, mode="nearest")
        )
    return inside


def _mask(stroke: Stroke, shape: tuple[int, ...]) -> Mask:
    drawn = np.zeros(shape, np.bool_)
    drawn[stroke.rows, stroke.cols] = True
    return drawn


def _near(stroke: Stroke, shape: tuple[int, ...]) -> Mask:
    reach = int(REACH_PX)
    down, right = np.indices((2 * reach + 1,) * 2) - reach
    disc = np.hypot(down, right) <= REACH_PX
    near: Mask = ndimage.binary_dilation(_mask(stroke, shape), disc)
    return near


def _widened(mask: Mask) -> Mask:
    widened: Mask = ndimage.binary_dilation(mask, np.ones((3, 3), np.bool_))
    return widened


def _numbers(labels: Labels) -> list[int]:
    found: list[int] = np.unique(labels[labels > 0]).tolist()
    return found
