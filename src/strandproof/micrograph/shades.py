"""Lightness and colour without the grooves, and the steps between them."""

import numpy as np
import numpy.typing as npt
from scipy import ndimage

FloatPlane = npt.NDArray[np.float32]

# Reach into a groove from its sides: near pixels count most, far ones where a
# wide groove leaves nothing else.
_FILL_PX = (1.0, 4.0, 12.0)
_FARTHER_COUNTS = 0.01  # as much as the reach before
_STEP_PX = 2.0  # width over which a step is felt; texture is finer
_LEAST_WEIGHT = 1e-6  # keeps the quotient finite amid a wide groove


def weight_outside(mark_ratio: FloatPlane) -> FloatPlane:
    """How much a pixel lies outside of marks (grooves, spots).

    Parameters
    ----------
    mark_ratio : ndarray of float32, shape (n_rows, n_cols)
        Response to marks over its threshold.

    Returns
    -------
    ndarray of float32, shape (n_rows, n_cols)
        About 0 in a mark to 1 far from any: exp(-(2 r)^2) with the ratio r.
    """
    weight: FloatPlane = np.exp(-((2 * mark_ratio) ** 2)) + np.float32(_LEAST_WEIGHT)
    return weight


def shade_outside_lines(lab: FloatPlane, weight: FloatPlane) -> FloatPlane:
    """Fill grooves from their surroundings, so that only steps are left.

    Parameters
    ----------
    lab : ndarray of float32, shape (n_rows, n_cols, n_channels)
        Lightness and colour.
    weight : ndarray of float32, shape (n_rows, n_cols)
        About 0 in a groove, 1 outside, above 0 everywhere.

    Returns
    -------
    ndarray of float32, shape (n_rows, n_cols, n_channels)
        Smoothed lightness and colour, grooves left out.

    Notes
    -----
    Normalised convolution (Knutsson and Westin 1993, from memory): sum of weight
    times value over sum of weights, in three Gaussian windows, each of which
    counts 1 % of the one before.
    """
    total = _windows(weight)
    shade = np.empty_like(lab)
    for channel in range(lab.shape[2]):
        shade[..., channel] = _windows(lab[..., channel] * weight) / total
    return shade


def _windows(values: FloatPlane) -> FloatPlane:
    total = np.zeros_like(values)
    for power, scale in enumerate(_FILL_PX):
        smooth = ndimage.gaussian_filter(values, scale, mode="nearest", truncate=3.0)
        total += np.float32(_FARTHER_COUNTS**power) * smooth
    return total


def step_height(shade: FloatPlane) -> FloatPlane:
    """Height of the step at each pixel, in the units of the shade.

    Parameters
    ----------
    shade : ndarray of float32, shape (n_rows, n_cols, n_channels)
        Lightness and colour without grooves.

    Returns
    -------
    ndarray of float32, shape (n_rows, n_cols)
        At the middle of a sharp straight step: its height as a distance over
        all channels. Elsewhere less.

    Notes
    -----
    Gradient of the Gaussian-smoothed shade times sqrt(2 pi) s, s = 2 px: the
    slope of a smoothed unit step is 1 / (sqrt(2 pi) s).
    """
    square = np.zeros(shade.shape[:2], np.float32)
    for channel in range(shade.shape[2]):
        smooth = ndimage.gaussian_filter(shade[..., channel], _STEP_PX, mode="nearest")
        around = np.pad(smooth, 1, mode="edge")
        square += (around[2:, 1:-1] - around[:-2, 1:-1]) ** 2
        square += (around[1:-1, 2:] - around[1:-1, :-2]) ** 2
    height: FloatPlane = np.sqrt(square)
    height *= np.float32(_STEP_PX * np.sqrt(2 * np.pi) / 2)
    return height
