"""What of a large picture is looked at, so that memory and time stay bounded."""

from dataclasses import dataclass
from math import ceil, sqrt
from typing import Any

import numpy as np
import numpy.typing as npt

from strandproof.micrograph.lab import LabPicture, lab_of_bytes

Bytes = npt.NDArray[np.uint8]
Labels = npt.NDArray[np.integer[Any]]
Mask = npt.NDArray[np.bool_]
Window = tuple[slice, slice]

_WHOLE_UP_TO_PX = 4_000_000
_SIDE_PX = 2048
_GRID_PX = 16  # whole blocks of 8 px, so that traces of compression stay in step
_OVERVIEW_PX = 2_000_000


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class SeenParts:
    """One window in full detail, and the whole picture thinned out.

    Parameters
    ----------
    window : tuple of slice
        Rows and columns of the window; all of a small picture.
    detail : LabPicture
        The picture in the window.
    metal : ndarray of bool, shape of the window
        True on metal.
    overview : tuple of LabPicture and ndarray of bool, or None
        Every k-th row and column of a large picture, and its metal; None where
        the window is the whole picture.
    """

    window: Window
    detail: LabPicture
    metal: Mask
    overview: tuple[LabPicture, Mask] | None


def seen_parts(
    pixels: Bytes, strand_labels: Labels, *, valid: Mask | None = None
) -> SeenParts:
    """Choose what the flags of a picture are judged from.

    Parameters
    ----------
    pixels : ndarray of uint8, shape (n_rows, n_cols, 3)
        sRGB.
    strand_labels : ndarray of int, shape (n_rows, n_cols)
        Strands; 0 outside of metal.
    valid : ndarray of bool, shape (n_rows, n_cols), optional
        False where the picture shows nothing.

    Returns
    -------
    SeenParts
        Up to 4 megapixels the whole picture; above, the window of at most
        2048 x 2048 px with most metal, and at most about 2 megapixels of all.
    """
    whole = slice(None), slice(None)
    n_pixels = strand_labels.size
    if n_pixels <= _WHOLE_UP_TO_PX:
        detail, metal = _part(pixels, strand_labels, valid, whole)
        return SeenParts(window=whole, detail=detail, metal=metal, overview=None)
    window = fullest_window(strand_labels)
    detail, metal = _part(pixels, strand_labels, valid, window)
    thinned = (slice(None, None, ceil(sqrt(n_pixels / _OVERVIEW_PX))),) * 2
    return SeenParts(
        window=window,
        detail=detail,
        metal=metal,
        overview=_part(pixels, strand_labels, valid, thinned),
    )


def fullest_window(strand_labels: Labels, *, side_px: int = _SIDE_PX) -> Window:
    """Find the window with most metal; of equal ones, the one nearest the middle.

    Parameters
    ----------
    strand_labels : ndarray of int, shape (n_rows, n_cols)
        Strands; 0 outside of metal.
    side_px : int
        Longest side of the window [px], a multiple of 16.

    Returns
    -------
    tuple of slice
        Rows and columns; both begin at multiples of 16 px.
    """
    sampled = strand_labels[::_GRID_PX, ::_GRID_PX] > 0
    sums = np.zeros((sampled.shape[0] + 1, sampled.shape[1] + 1))
    sums[1:, 1:] = sampled.cumsum(axis=0).cumsum(axis=1)
    rows, cols = (_starts(size, side_px) for size in strand_labels.shape)
    low, left = rows + _cells(strand_labels.shape[0], side_px), cols
    right = cols + _cells(strand_labels.shape[1], side_px)
    metal = sums[np.ix_(low, right)] - sums[np.ix_(low, left)]
    metal -= sums[np.ix_(rows, right)] - sums[np.ix_(rows, left)]
    off = [np.abs(place - place.mean()) / (place.size + 1) for place in (rows, cols)]
    # Distances stay below one sample of metal: they decide between equals only.
    best = np.argmax(metal - (off[0][:, None] + off[1]) / 2)
    row, col = np.unravel_index(best, metal.shape)
    first_row, first_col = int(rows[row]) * _GRID_PX, int(cols[col]) * _GRID_PX
    return (
        slice(first_row, min(first_row + side_px, strand_labels.shape[0])),
        slice(first_col, min(first_col + side_px, strand_labels.shape[1])),
    )


def _starts(size: int, side_px: int) -> npt.NDArray[np.intp]:
    """First grid cells of windows that lie inside of the picture."""
    return np.arange(max(0, size - side_px) // _GRID_PX + 1)


def _cells(size: int, side_px: int) -> int:
    return ceil(min(size, side_px) / _GRID_PX)


def _part(
    pixels: Bytes, strand_labels: Labels, valid: Mask | None, where: Window
) -> tuple[LabPicture, Mask]:
    picture = lab_of_bytes(pixels[where], valid=None if valid is None else valid[where])
    return picture, (strand_labels[where] > 0) & picture.valid
