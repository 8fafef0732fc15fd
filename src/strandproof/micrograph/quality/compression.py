"""Blocks of 8 x 8 px that lossy compression leaves, and how coarse it was."""

import numpy as np
import numpy.typing as npt
from scipy import fft

from strandproof.micrograph.quality.spectrum import Combs

FloatPlane = npt.NDArray[np.float32]

_BLOCKS_FROM = 6.0
_QUALITIES = range(5, 100, 5)
_ROUNDED_FROM = 0.6  # mean cosine of coefficients on multiples of the step
_FEWEST = 25
# Luminance steps of ITU-T T.81 (09/92), Annex K, table K.1, at places that vary
# most (from memory). Programs scale this table; cameras have tables of their own.
_STEPS = {(0, 1): 11, (1, 0): 12, (1, 1): 12, (0, 2): 10, (2, 0): 14, (1, 2): 14}


def shows_blocks(combs: Combs) -> bool:
    """Judge whether the picture went through lossy block compression.

    Parameters
    ----------
    combs : Combs
        Regular patterns.

    Returns
    -------
    bool
        True where a comb of 8 px stands out.
    """
    return combs.blocks > _BLOCKS_FROM


def compression_quality(tiles: FloatPlane) -> int | None:
    """Estimate the quality setting of an earlier compression.

    Parameters
    ----------
    tiles : ndarray of float32, shape (n_tiles, side, side)
        Grey levels; all tiles begin at a multiple of 8 px.

    Returns
    -------
    int or None
        Setting from 5 to 95 in steps of 5 by the common scale of settings; None
        where the coefficients lie on no such steps, as after another change of
        the picture.

    Notes
    -----
    The setting q scales the table by 50/q below 50, and by 2 - q/50 from there
    (from memory). The coarsest setting is taken whose steps divide the block
    coefficients: their cosine of 2 pi c/step is near 1, by chance near 0.
    """
    down, right = (_grid_offset(tiles, axis) for axis in (2, 1))
    n = (tiles.shape[1] - 8) // 8
    cut = tiles[:, down : down + 8 * n, right : right + 8 * n]
    blocks = cut.reshape(len(tiles), n, 8, n, 8)
    waves = fft.dctn(blocks, axes=(2, 4), norm="ortho")
    for quality in _QUALITIES:
        scale = 50 / quality if quality < 50 else 2 - quality / 50
        score = _roundness(waves, scale)
        if score is not None and score > _ROUNDED_FROM:
            return quality
    return None


def _grid_offset(tiles: FloatPlane, along: int) -> int:
    """Row or column, 0 to 7, at which blocks begin."""
    across = 3 - along
    steps = np.minimum(np.abs(np.diff(tiles, axis=across)), 8)
    profile = steps.mean(axis=(0, along), dtype=np.float64)
    folded = [profile[k::8].mean() for k in range(8)]
    return (int(np.argmax(folded)) + 1) % 8


def _roundness(waves: FloatPlane, scale: float) -> float | None:
    """Mean cosine of the coefficients on a table scaled so; None for too few."""
    scores = []
    for (down, right), entry in _STEPS.items():
        step = max(round(entry * scale), 1)
        values = waves[:, :, down, :, right].ravel()
        values = values[np.abs(values) > 0.6 * step]
        if step > 1 and values.size >= _FEWEST:
            scores.append(np.cos(2 * np.pi * values / step).mean())
    return float(np.mean(scores)) if len(scores) >= 3 else None
