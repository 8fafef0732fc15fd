"""A scale bar burned into a picture: found and offered, never trusted alone."""

from collections.abc import Iterator
from dataclasses import dataclass
from math import isfinite
from typing import Literal

import numpy as np
import numpy.typing as npt
from scipy import ndimage

from strandproof.errors import ParameterError
from strandproof.micrograph.calibration.scale import (
    FloatArray,
    PixelCalibration,
    grey_plane,
)
from strandproof.quantity import (
    ModelNumber,
    Quantity,
    propagate,
    rectangular_input,
    triangular_input,
)
from strandproof.records import Flag

SHORTEST_SHARE = 1 / 30
_LONGEST_SHARE = 0.9
_THICKEST_SHARE = 0.05
_NEAR_EXTREME = 0.15
_CLEAR_STEP = 0.25
_SAME_RUN = 0.97
_BAR_ONLY = 0.95

Mask = npt.NDArray[np.bool_]
Colour = Literal["white", "black"]


@dataclass(frozen=True, slots=True, kw_only=True)
class BurnedInBar:
    """A level bar of one colour found in a picture.

    Parameters
    ----------
    length_px : Quantity
        Length from end to end [px], with the doubt about its ends.
    left_px, right_px : float
        Columns of its outer ends, counted from the left edge of the picture [px].
    top_px, bottom_px : int
        First row of the bar and the one after its last [px].
    colour : {"white", "black"}
        Colour of the bar.
    tick_px : float
        Width of the ticks at its ends [px]; 0 for a plain bar.
    width_px, height_px : int
        Size of the picture [px].
    """

    length_px: Quantity
    left_px: float
    right_px: float
    top_px: int
    bottom_px: int
    colour: Colour
    tick_px: float
    width_px: int
    height_px: int


def find_scale_bar(picture: npt.NDArray[np.floating]) -> BurnedInBar | None:
    """Look for a burned-in scale bar; letters beside it are not read.

    A plain level bar of the whitest or blackest shade, with or without ticks at its
    ends, clear of its surroundings above and below. Of several the longest is given.
    A bar that touches metal of its own shade, or one that is not level, is not found.

    Parameters
    ----------
    picture : ndarray of shape (n_rows, n_cols) or (n_rows, n_cols, n_channels)
        Grey or colour values.

    Returns
    -------
    BurnedInBar or None
        None where there is none.

    Notes
    -----
    Each end lies where the mean profile of the bar crosses half of its height. The
    drawing program rounded it to whole pixels: rectangular, half a pixel each, so
    triangular together. With ticks the length meant is between outer and inner edge.
    """
    plane = grey_plane(picture)
    low, high = float(plane.min()), float(plane.max())
    if high <= low:
        return None
    levels = (plane - low) / (high - low)
    bars = [
        bar
        for colour, shade in _shades(levels)
        for bar in _bars_of_one_colour(shade, colour)
    ]
    return max(bars, key=lambda bar: bar.length_px.value, default=None)


def calibration_from_bar(bar: BurnedInBar, *, length_um: float) -> PixelCalibration:
    """Turn a found bar and the length that a person read beside it into a pixel size.

    The result carries the flag ``burned_in_bar``: the picture may have been resized
    before or after the bar was drawn, and nobody can see how it was calibrated.

    Parameters
    ----------
    bar : BurnedInBar
        The bar.
    length_um : float
        Length written beside it [um]; above 0.

    Returns
    -------
    PixelCalibration
        Pixel size, flagged.

    Raises
    ------
    ParameterError
        If the length is not above zero.

    Notes
    -----
    Pixel size = length / (bar + ends), first order (GUM 5.1.2).
    """
    if not (isfinite(length_um) and length_um > 0):
        raise ParameterError("length_um", length_um, allowed="a length above 0 um")
    size = Quantity(
        length_um / bar.length_px.value,
        "um",
        length_um * bar.length_px.standard_uncertainty / bar.length_px.value**2,
    )
    return PixelCalibration(
        pixel_size=size,
        readings_um=(size.value,),
        method=(
            f"burned-in bar of {bar.length_px.value:.1f} px, found by program; its "
            f"length of {length_um:g} um typed as written beside it"
        ),
        width_px=bar.width_px,
        height_px=bar.height_px,
        flags=(Flag("burned_in_bar", f"{bar.length_px.value:.1f} px"),),
    )


def _shades(levels: FloatArray) -> Iterator[tuple[Colour, FloatArray]]:
    yield "white", levels
    yield "black", 1.0 - levels


def _bars_of_one_colour(shade: FloatArray, colour: Colour) -> Iterator[BurnedInBar]:
    """Give the bars whose shade is near 1."""
    labels, _count = ndimage.label(shade >= 1 - _NEAR_EXTREME)
    n_rows, n_cols = shade.shape
    for number, window in enumerate(ndimage.find_objects(labels), start=1):
        rows, columns = window
        width = columns.stop - columns.start
        if not SHORTEST_SHARE * n_cols <= width <= _LONGEST_SHARE * n_cols:
            continue
        found = _bar_rows(labels[window] == number)
        if found is None:
            continue
        top, bottom = rows.start + found[0], rows.start + found[1]
        thin = bottom - top <= _THICKEST_SHARE * n_rows
        if thin and _stands_clear(shade, top, bottom, columns):
            yield _bar(shade, (top, bottom), columns, colour, tick_px=found[2])


def _bar_rows(piece: Mask) -> tuple[int, int, float] | None:
    """First and last row of a bar in a connected piece, and the width of its ticks."""
    filled = piece.mean(axis=1) >= _SAME_RUN
    rows = np.flatnonzero(filled)
    if not len(rows) or rows[-1] - rows[0] + 1 != len(rows):
        return None
    top, bottom, width = int(rows[0]), int(rows[-1]) + 1, piece.shape[1]
    if width < 5 * (bottom - top):
        return None
    others = np.delete(piece, slice(top, bottom), axis=0)
    if not others.any():
        return top, bottom, 0.0
    # What is left of a bar with ticks lies at its two ends.
    counts = others.sum(axis=0)
    left = int(np.argmax(counts == 0))
    right = int(np.argmax(counts[::-1] == 0))
    at_ends = counts[:left].sum() + counts[width - right :].sum()
    is_tick = 0 < left <= width / 8 and 0 < right <= width / 8
    if not is_tick or at_ends < _BAR_ONLY * counts.sum():
        return None
    return top, bottom, (left + right) / 2


def _stands_clear(shade: FloatArray, top: int, bottom: int, columns: slice) -> bool:
    """Tell whether the rows above and below differ from the bar nearly everywhere."""
    margin = (columns.stop - columns.start) // 8
    inner = slice(columns.start + margin, columns.stop - margin)
    inside = shade[top:bottom, inner].mean()
    for row in (top - 2, bottom + 1):
        if not 0 <= row < shade.shape[0]:
            return False
        if float((inside - shade[row, inner] >= _CLEAR_STEP).mean()) < _LONGEST_SHARE:
            return False
    return True


def _bar(
    shade: FloatArray,
    rows: tuple[int, int],
    columns: slice,
    colour: Colour,
    *,
    tick_px: float,
) -> BurnedInBar:
    profile = shade[rows[0] : rows[1]].mean(axis=0)
    left = _end(profile[::-1], len(profile) - columns.start)
    left, right = len(profile) - left, _end(profile, columns.stop)

    def model(ends: ModelNumber, ticks: ModelNumber) -> ModelNumber:
        return right - left + ends - ticks

    length = propagate(
        model,
        (
            triangular_input(
                "rounding of both ends", 0.0, 1.0, unit="px", symbol="ends"
            ),
            rectangular_input(
                "width of the ticks",
                tick_px / 2,
                tick_px / 2,
                unit="px",
                symbol="ticks",
            ),
        ),
        unit="px",
    )
    return BurnedInBar(
        length_px=length,
        left_px=left,
        right_px=right,
        top_px=rows[0],
        bottom_px=rows[1],
        colour=colour,
        tick_px=tick_px,
        width_px=shade.shape[1],
        height_px=shade.shape[0],
    )


def _end(profile: FloatArray, stop: int) -> float:
    """Where a profile falls through half of its height behind its last bar pixel."""
    inside = float(profile[stop - 1])
    beyond = profile[stop + 1 : stop + 4]
    outside = float(beyond.mean()) if len(beyond) else 0.0
    half = (inside + outside) / 2
    if stop >= len(profile):
        return float(len(profile))
    # Pixel k covers k to k + 1; a half-covered pixel moves the end by one half.
    covered = (float(profile[stop]) - outside) / max(inside - outside, 1e-9)
    return stop + float(np.clip(covered, 0, 1)) if half > outside else float(stop)
