"""A picture with what was found drawn on it, for people to look at."""

import numpy as np
import numpy.typing as npt
from scipy import ndimage

from strandproof.records import LabelledStructure

FloatPlane = npt.NDArray[np.float32]
Mask = npt.NDArray[np.bool_]

_BOUNDARY = np.array([230, 30, 30], np.uint8)
_EDGE_LIGHT = np.array([255, 230, 0], np.uint8)
_EDGE_DARK = np.array([0, 60, 200], np.uint8)
_DASH_PX = 12


def overlay(picture: FloatPlane, structure: LabelledStructure) -> npt.NDArray[np.uint8]:
    """Draw boundaries solid and strand outlines dashed on a picture.

    Parameters
    ----------
    picture : ndarray of float, shape (n_rows, n_cols) or (n_rows, n_cols, 3)
        Grey or sRGB in [0, 1].
    structure : LabelledStructure
        What was found in it.

    Returns
    -------
    ndarray of uint8, shape (n_rows, n_cols, 3)
        Boundaries red and solid; outlines of strands in two colours, dashed.
    """
    grey = np.asarray(picture, np.float32)
    colour = np.repeat(grey[..., None], 3, axis=2) if grey.ndim == 2 else grey
    drawn = np.rint(np.clip(colour, 0, 1) * 255).astype(np.uint8)
    metal = structure.strand_labels > 0
    drawn[metal & (structure.grain_labels == 0)] = _BOUNDARY
    outline = _outline(structure.strand_labels)
    light = _stripes_across_edges(structure.strand_labels)
    drawn[outline & light] = _EDGE_LIGHT
    drawn[outline & ~light] = _EDGE_DARK
    return drawn


def _stripes_across_edges(strand_labels: npt.NDArray[np.int32]) -> Mask:
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


def _outline(strand_labels: npt.NDArray[np.int32]) -> Mask:
    """Pixels of strands whose neighbour within the picture is no part of them."""
    padded = np.pad(strand_labels, 1, mode="edge")
    least = ndimage.minimum_filter(padded, 3)[1:-1, 1:-1]
    most = ndimage.maximum_filter(padded, 3)[1:-1, 1:-1]
    edge: Mask = (strand_labels > 0) & (
        (least != strand_labels) | (most != strand_labels)
    )
    return edge
