"""Too much light, too little, and light that falls unevenly."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from scipy import ndimage

from strandproof.micrograph.lab import LabPicture

FloatPlane = npt.NDArray[np.float32]
Mask = npt.NDArray[np.bool_]
Array = npt.NDArray[np.float64]

_SAMPLES_A_SIDE = 128
_FEWEST_SAMPLES = 400
_ROUNDS = 4
_RIM = 8  # samples at the rim of the metal, rounded and dark, are left out
_STANDS_OUT = 1.2  # times the scatter of single samples
_MIDDLE_GREY = 50.0  # L*, parts clipped pixels into black and white


@dataclass(frozen=True, slots=True, kw_only=True)
class ClippedShares:
    """Shares of the metal that are fully white or fully black.

    Parameters
    ----------
    white, black : float
        Share of the metal, 0 to 1.
    largest_white : float
        Share of the metal in the largest white patch.
    """

    white: float
    black: float
    largest_white: float


def clipped_shares(picture: LabPicture, metal: Mask) -> ClippedShares:
    """Count fully white and fully black pixels on metal.

    Parameters
    ----------
    picture : LabPicture
        The picture.
    metal : ndarray of bool, shape (n_rows, n_cols)
        True on metal, not empty.

    Returns
    -------
    ClippedShares
        The shares, from a regular sample in pictures above 1 megapixel.
    """
    step = max(1, round(np.sqrt(metal.size / 1e6)))
    grid = (slice(None, None, step), slice(None, None, step))
    on_metal = metal[grid]
    clipped = picture.clipped[grid] & on_metal
    if not clipped.any():
        return ClippedShares(white=0.0, black=0.0, largest_white=0.0)
    total = max(int(np.count_nonzero(on_metal)), 1)
    white = clipped & (picture.lightness[grid] > _MIDDLE_GREY)
    n_white = int(np.count_nonzero(white))
    pieces, _ = ndimage.label(white)
    largest = int(np.bincount(pieces.ravel())[1:].max(initial=0))
    black = int(np.count_nonzero(clipped)) - n_white
    return ClippedShares(
        white=n_white / total, black=black / total, largest_white=largest / total
    )


def light_ratio(picture: LabPicture, metal: Mask) -> float | None:
    """Compare the light at its brightest with its darkest place on metal.

    Parameters
    ----------
    picture : LabPicture
        The picture.
    metal : ndarray of bool, shape (n_rows, n_cols)
        True on metal.

    Returns
    -------
    float or None
        Ratio of a smooth surface through the brightness of the metal, between its
        97.5 and 2.5 % quantiles, 1 or more; 1 where it does not stand out from
        the scatter between grains; None with too little metal.

    Notes
    -----
    Quadratic surface through log Y (CIE 1976) by least squares, repeated with less
    weight on what lies far from it: grooves, pits, bright grains. A few large
    grains of different shade cannot be told from uneven light.
    """
    step = max(1, min(metal.shape) // _SAMPLES_A_SIDE)
    grid = (slice(step // 2, None, step), slice(step // 2, None, step))
    inside = ndimage.binary_erosion(metal[grid], iterations=_RIM, border_value=1)
    seen = inside & ~picture.clipped[grid]
    rows, cols = np.nonzero(seen)
    if rows.size < _FEWEST_SAMPLES:
        return None
    root = (picture.lightness[grid][seen].astype(np.float64) + 16) / 116
    value = 3 * np.log(np.maximum(root, 0.2))
    y, x = (2 * place / max(place.max(), 1) - 1 for place in (rows, cols))
    terms = np.stack([np.ones_like(x), x, y, x * x, x * y, y * y], axis=1)
    surface = _robust_surface(terms, value)
    low, high = np.quantile(surface, [0.025, 0.975])
    spread = 1.4826 * float(np.median(np.abs(value - surface)))
    return float(np.exp(high - low)) if high - low > _STANDS_OUT * spread else 1.0


def _robust_surface(terms: Array, value: Array) -> Array:
    weight = np.ones_like(value)
    surface = value
    for _ in range(_ROUNDS):
        weighted = terms * weight[:, None]
        factors = np.linalg.lstsq(weighted.T @ terms, weighted.T @ value, rcond=None)[0]
        surface = terms @ factors
        off = np.abs(value - surface)
        spread = 1.4826 * float(np.median(off)) + 1e-6
        weight = 1 / (1 + (off / (2 * spread)) ** 2)
    return surface
