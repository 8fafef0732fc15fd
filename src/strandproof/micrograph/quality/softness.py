"""How soft the sharpest edges of a picture are."""

import numpy as np
import numpy.typing as npt
from scipy import ndimage

FloatPlane = npt.NDArray[np.float32]

_NARROW, _WIDE = 1.0, 2.5  # px, standard deviations of the two smoothings
_STRONGEST = 0.9  # quantile of the slope from which an edge is looked at
_SHARPEST = 0.25  # quantile of the softness that speaks for the picture
_FEWEST_EDGES = 30


def edge_softness(tiles: FloatPlane) -> float | None:
    """Estimate the blur of the sharper edges.

    Parameters
    ----------
    tiles : ndarray of float32, shape (n_tiles, side, side)
        Grey levels.

    Returns
    -------
    float or None
        Standard deviation of the blur of a step that would be as soft as the
        sharpest quarter of the strong edges [px]; None with too few edges.

    Notes
    -----
    A step blurred by s and smoothed by a has a largest slope proportional to
    1 / sqrt(s^2 + a^2), so two smoothings give s (Zhuo and Sim 2011, Defocus map
    estimation from a single image, Pattern Recognition 44; from memory). A groove
    is no step: two slopes close together look sharper than they are, so that a
    blur below about 1.5 px gives 0.
    """
    found = [_softness(tile) for tile in tiles]
    every = np.concatenate(found) if found else np.empty(0)
    if every.size < _FEWEST_EDGES:
        return None
    return float(np.quantile(every, _SHARPEST))


def _softness(tile: FloatPlane) -> FloatPlane:
    fine = ndimage.gaussian_filter(tile, _NARROW, truncate=3)
    more = np.sqrt(_WIDE**2 - _NARROW**2)
    slope = _slope(fine)
    smooth = _slope(ndimage.gaussian_filter(fine, more, truncate=3))
    # Edges that last when smoothed; noise does not.
    crest = (smooth >= ndimage.maximum_filter(smooth, 3)) & (smooth > 0)
    crest &= smooth > np.quantile(smooth[::2, ::2], _STRONGEST)
    ratio = slope[crest] / np.maximum(smooth[crest], 1e-6)
    ratio = np.clip(ratio, 1.01, _WIDE / _NARROW)
    squared = (_WIDE**2 - ratio**2 * _NARROW**2) / (ratio**2 - 1)
    softness: FloatPlane = np.sqrt(np.maximum(squared, 0))
    return softness


def _slope(plane: FloatPlane) -> FloatPlane:
    slope = np.zeros_like(plane)
    right = plane[1:-1, 2:] - plane[1:-1, :-2]
    down = plane[2:, 1:-1] - plane[:-2, 1:-1]
    slope[1:-1, 1:-1] = np.hypot(right, down)
    return slope
