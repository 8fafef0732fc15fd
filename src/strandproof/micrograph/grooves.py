"""Response to thin dark or bright lines, silent at steps and spots."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from scipy import ndimage

FloatPlane = npt.NDArray[np.float32]

# A Gaussian groove (depth 1) seen at the scale of its own width gives a second
# derivative, times scale squared, of 1 / sqrt(8).
RESPONSE_PER_DEPTH = 8**-0.5

N_DIRECTIONS = 8
# Along a line, 6 px to both sides are averaged: longer than noise and spots, shorter
# than a grain's side.
_REACH_PX = 6
_ROWS_AT_ONCE = 64  # keeps the work in the processor's cache
# At a plain step the second derivative is at most about equal to the first; 1.5
# times the first silences it (see docs/segmentation.md).
_STEP_SILENCING = 1.5


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LineResponse:
    """How much each pixel lies on a line or a spot [L*], 0 or above.

    Parameters
    ----------
    dark, bright : ndarray of float32, shape (n_rows, n_cols)
        Lines darker, lines brighter than both sides; about 0.35 times the depth
        of a groove of fitting width.
    spot : ndarray of float32, shape (n_rows, n_cols)
        Round spots darker or brighter than all around.
    """

    dark: FloatPlane
    bright: FloatPlane
    spot: FloatPlane


def line_response(lightness: FloatPlane, *, scale_px: float) -> LineResponse:
    """Find lines about two to three times as wide as a scale.

    A line answers where the curvature across, averaged along 11 px, is larger than
    the curvature along (not a spot) and than the slope (not a step).

    Parameters
    ----------
    lightness : ndarray of float32, shape (n_rows, n_cols)
        L*.
    scale_px : float
        Standard deviation of the Gaussian it is smoothed with [px], above 0.

    Returns
    -------
    LineResponse
        Responses.

    Notes
    -----
    For each of eight directions, with a, b the second derivatives across and along
    and g the slope across, all of the Gaussian-smoothed lightness and averaged
    along the direction: s^2 a - s^2 |b| - 1.5 s |g| for dark lines, the same with
    -a for bright ones; the largest over the directions, 0 if negative. Spots:
    s^2 k2 (dark), -s^2 k1 (bright) with the eigenvalues k1 >= k2 of the Hessian.
    Lines from second derivatives in scale space: Lindeberg 1998; even minus odd
    response: Kovesi 1997; averaging along: Freeman and Adelson 1991 (all from
    memory).
    """
    smooth = ndimage.gaussian_filter(lightness, scale_px, mode="nearest")
    padded = np.pad(smooth, _REACH_PX + 1, mode="edge")
    found = [np.empty_like(lightness) for _ in range(3)]
    for start in range(0, lightness.shape[0], _ROWS_AT_ONCE):
        rows = slice(start, start + _ROWS_AT_ONCE)
        around = padded[start : start + _ROWS_AT_ONCE + 2 * (_REACH_PX + 1)]
        for plane, strip in zip(found, _strip_response(around, scale_px), strict=True):
            plane[rows] = strip
    return LineResponse(dark=found[0], bright=found[1], spot=found[2])


def _strip_response(around: FloatPlane, scale_px: float) -> tuple[FloatPlane, ...]:
    """Responses of a strip of rows, given with the rows and columns around it."""
    second, first = _derivatives(around, scale_px)
    spots = _spots(*second)[_REACH_PX:-_REACH_PX, _REACH_PX:-_REACH_PX]
    dark, bright = np.zeros_like(spots), np.zeros_like(spots)
    for angle in np.arange(N_DIRECTIONS) * np.pi / N_DIRECTIONS:
        as_dark, as_bright = _along_direction(second, first, angle)
        np.maximum(dark, as_dark, out=dark)
        np.maximum(bright, as_bright, out=bright)
    return dark, bright, spots


def _derivatives(
    around: FloatPlane, scale_px: float
) -> tuple[tuple[FloatPlane, ...], tuple[FloatPlane, ...]]:
    """Second (columns, rows, mixed) and first derivatives, times powers of the scale.

    The first ones are already weighed for the silencing of steps.
    """
    square, once = np.float32(scale_px**2), np.float32(_STEP_SILENCING * scale_px / 2)
    centre = around[1:-1, 1:-1]
    rows = around[2:, 1:-1] - 2 * centre + around[:-2, 1:-1]
    cols = around[1:-1, 2:] - 2 * centre + around[1:-1, :-2]
    mixed = around[2:, 2:] - around[2:, :-2] - around[:-2, 2:] + around[:-2, :-2]
    down = around[2:, 1:-1] - around[:-2, 1:-1]
    right = around[1:-1, 2:] - around[1:-1, :-2]
    second = (_plane(square * cols), _plane(square * rows), _plane(square * mixed / 4))
    return second, (_plane(once * right), _plane(once * down))


def _plane(values: npt.NDArray[np.floating]) -> FloatPlane:
    return values.astype(np.float32, copy=False)


def _along_direction(
    second: tuple[FloatPlane, ...], first: tuple[FloatPlane, ...], angle: float
) -> tuple[FloatPlane, FloatPlane]:
    """Answers to dark and to bright lines in one direction."""
    x, y = np.float32(-np.sin(angle)), np.float32(np.cos(angle))
    cols, rows, mixed = second
    curvature = _plane(x * x * cols + y * y * rows + 2 * x * y * mixed)
    other = cols + rows - curvature
    slope = _plane(x * first[0] + y * first[1])
    silencing = np.abs(_mean_along(slope, angle)) + np.abs(_mean_along(other, angle))
    back, middle, ahead = _parts_along(curvature, angle)
    mean = (back + middle + ahead) / 3
    dark = np.minimum(mean, np.maximum(back, ahead)) - silencing
    bright = np.minimum(-mean, np.maximum(-back, -ahead)) - silencing
    return dark, bright


def _mean_along(values: FloatPlane, angle: float) -> FloatPlane:
    back, middle, ahead = _parts_along(values, angle)
    return _plane((back + middle + ahead) / 3)


def _parts_along(values: FloatPlane, angle: float) -> tuple[FloatPlane, ...]:
    """Means over three equal parts of a short line through each pixel.

    The direction goes from the columns' axis towards the rows' axis [rad].
    """
    cosine, sine = np.cos(angle), np.sin(angle)
    stride = max(abs(cosine), abs(sine))
    reach = round(_REACH_PX * stride)
    n_rows, n_cols = (size - 2 * _REACH_PX for size in values.shape)
    parts: list[FloatPlane] = []
    for steps in np.array_split(np.arange(-reach, reach + 1), 3):
        total = np.zeros((n_rows, n_cols), np.float32)
        for step in steps:
            row = _REACH_PX + round(step * sine / stride)
            col = _REACH_PX + round(step * cosine / stride)
            total += values[row : row + n_rows, col : col + n_cols]
        parts.append(_plane(total / np.float32(steps.size)))
    return tuple(parts)


def _spots(cols: FloatPlane, rows: FloatPlane, mixed: FloatPlane) -> FloatPlane:
    middle, half = (rows + cols) / 2, np.hypot((rows - cols) / 2, mixed)
    spots: FloatPlane = np.maximum(np.abs(middle) - half, 0)
    return spots
