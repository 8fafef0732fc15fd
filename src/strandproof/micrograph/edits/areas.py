"""Areas taken out of a measurement, and taken back in."""

from dataclasses import replace

import numpy as np
import numpy.typing as npt
from scipy import ndimage

from strandproof.errors import ParameterError
from strandproof.micrograph.edits.canvas import Canvas, filled, in_single_pieces
from strandproof.micrograph.edits.kinds import ExcludeArea, Point, TakeInArea
from strandproof.micrograph.edits.strokes import area_within

Labels = npt.NDArray[np.int32]
Mask = npt.NDArray[np.bool_]


def without_area(canvas: Canvas, points: tuple[Point, ...]) -> Canvas:
    """Hide a polygon.

    Parameters
    ----------
    canvas : Canvas
        The labels so far.
    points : tuple of tuple of float
        Rows and columns of the corners [px].

    Returns
    -------
    Canvas
        The labels are kept under what is hidden.

    Raises
    ------
    ParameterError
        If a corner lies outside of the picture, or no metal lies within.
    """
    area = area_within(points, canvas.grains.shape)
    if not (area & (canvas.seen_strands > 0)).any():
        raise ParameterError(
            ExcludeArea.named("points_px"),
            points,
            allowed="a polygon with metal in it that is measured so far",
        )
    return replace(canvas, hidden=canvas.hidden | area)


def with_area(canvas: Canvas, points: tuple[Point, ...]) -> Canvas:
    """Show a polygon again.

    Parameters
    ----------
    canvas : Canvas
        The labels so far.
    points : tuple of tuple of float
        Rows and columns of the corners [px].

    Returns
    -------
    Canvas
        What an edit hid is back; what the method could not read is filled from the
        grains around.

    Raises
    ------
    ParameterError
        If a corner lies outside of the picture, nothing unreadable lies within, or
        there is no metal to continue.
    """
    back = area_within(points, canvas.grains.shape) & canvas.hidden
    if not back.any():
        raise ParameterError(
            TakeInArea.named("points_px"),
            points,
            allowed="a polygon with an area in it that is not measured so far",
        )
    shown = replace(canvas, hidden=canvas.hidden & ~back)
    bare = back & canvas.unseen
    if not bare.any():
        return shown
    if not (canvas.grains > 0).any():
        raise ParameterError(
            TakeInArea.named("points_px"),
            points,
            allowed="an area beside grains that were found",
            remedy="Nothing was found on this picture that could be continued.",
        )
    return _continued(shown, bare)


def _continued(canvas: Canvas, bare: Mask) -> Canvas:
    """Continue strands and grains into bare pixels, with lines where grains meet."""
    nearest = ndimage.distance_transform_edt(
        canvas.strands == 0, return_distances=False, return_indices=True
    )
    strands = np.where(bare, canvas.strands[tuple(nearest)], canvas.strands)
    strands = strands.astype(np.int32)
    full = filled(canvas.grains, strands)
    grains = np.where(bare & ~_meeting(full, strands, bare), full, canvas.grains)
    which = np.unique(full[bare & (full > 0)]).tolist()
    return replace(
        canvas,
        grains=in_single_pieces(grains.astype(np.int32), which),
        strands=strands,
        unseen=canvas.unseen & ~bare,
    )


def _meeting(full: Labels, strands: Labels, bare: Mask) -> Mask:
    """One bare pixel of each pair of neighbours in two grains of one strand."""
    line = np.zeros(full.shape, np.bool_)
    every = slice(None)
    for here, there in (
        ((slice(None, -1), every), (slice(1, None), every)),
        ((every, slice(None, -1)), (every, slice(1, None))),
    ):
        differ = (full[here] != full[there]) & (strands[here] == strands[there])
        differ &= (full[here] > 0) & (full[there] > 0)
        line[here] |= differ & bare[here]
        line[there] |= differ & bare[there] & ~bare[here]
    return line
