"""Separate the metal into strands: pieces, and round faces that touch."""

import numpy as np
import numpy.typing as npt
from scipy import ndimage
from skimage.morphology import local_maxima, reconstruction
from skimage.segmentation import watershed

Labels = npt.NDArray[np.int32]
Mask = npt.NDArray[np.bool_]
FloatPlane = npt.NDArray[np.float32]

_LEAST_SHARE = 0.005  # of the largest piece: anything smaller is dirt or lettering
_LEAST_AREA_PX = 16
_NECK_RATIO = 0.7  # a neck narrower than this share of both strands parts them
_SEARCH_SIDE_PX = 512


def separated_metal(metal: Mask) -> tuple[Mask, Labels]:
    """Give the strands numbers: dirt is left out, touching faces are parted.

    Two strands that touch are parted by a line one pixel wide where the metal
    between them is narrower than both; long sections without a neck stay whole.

    Parameters
    ----------
    metal : ndarray of bool, shape (n_rows, n_cols)
        True on metal.

    Returns
    -------
    metal : ndarray of bool, shape (n_rows, n_cols)
        Metal without dirt, parting lines and single loose pixels.
    strand_labels : ndarray of int32, shape (n_rows, n_cols)
        1..N on metal in the order of reading, 0 elsewhere.

    Notes
    -----
    Necks: watershed of the distance to the edge from its maxima. A maximum counts
    if the way to any higher one goes below 0.7 of its height (morphological
    reconstruction, Vincent 1993, from memory).
    """
    if not metal.any() or metal.all():
        return metal, metal.astype(np.int32)
    labels = _large_pieces(metal & ~_necks(metal))
    return labels > 0, labels


def _large_pieces(metal: Mask) -> Labels:
    pieces, n_pieces = ndimage.label(metal)
    if n_pieces == 0:
        return pieces.astype(np.int32)
    areas = np.bincount(pieces.ravel())[1:]
    kept = areas >= max(_LEAST_AREA_PX, _LEAST_SHARE * areas.max())
    kept |= areas == areas.max()
    numbers = np.concatenate([[0], np.cumsum(kept) * kept])
    labels: Labels = numbers[pieces].astype(np.int32)
    return labels


def _necks(metal: Mask) -> Mask:
    """Lines one pixel wide across the necks of the metal."""
    step = -(-max(metal.shape) // _SEARCH_SIDE_PX)
    small = metal[::step, ::step]
    # Beyond the picture's edge the metal goes on.
    framed = np.pad(small, 1, mode="edge")
    depth = ndimage.distance_transform_edt(framed)[1:-1, 1:-1].astype(np.float32)
    flooded = reconstruction(_NECK_RATIO * depth, depth)
    seeds, n_seeds = ndimage.label(local_maxima(flooded), np.ones((3, 3)))
    if n_seeds < 2:
        return np.zeros_like(metal)
    parts = watershed(-depth, seeds, mask=small)
    n_rows, n_cols = metal.shape
    large = parts.repeat(step, 0).repeat(step, 1)[:n_rows, :n_cols]
    large = np.where(metal & (large == 0), _nearest_part(large), large) * metal
    return _thin(large)


def _nearest_part(parts: Labels) -> Labels:
    nearest = ndimage.distance_transform_edt(
        parts == 0, return_distances=False, return_indices=True
    )
    filled: Labels = parts[tuple(nearest)]
    return filled


def _thin(parts: Labels) -> Mask:
    """Pixels whose right or lower neighbour lies in another part."""
    line = np.zeros(parts.shape, np.bool_)
    both = (parts[:, 1:] > 0) & (parts[:, :-1] > 0)
    line[:, :-1] = both & (parts[:, 1:] != parts[:, :-1])
    both = (parts[1:] > 0) & (parts[:-1] > 0)
    line[:-1] |= both & (parts[1:] != parts[:-1])
    return line
