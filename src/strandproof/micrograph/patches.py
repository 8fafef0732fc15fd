"""Cut the metal along every crest of the evidence: many small patches."""

import numpy as np
import numpy.typing as npt
from scipy import ndimage
from skimage.morphology import local_minima
from skimage.segmentation import watershed

from strandproof.micrograph.evidence import BoundaryEvidence

Labels = npt.NDArray[np.int32]

_RELIEF_SMOOTHING_PX = 1.0  # joins minima closer than about 3 px
_OUTSIDE = 2.0  # higher than any evidence


def patches_of(evidence: BoundaryEvidence) -> Labels:
    """Flood the evidence from all its minima; each basin is one patch.

    Every place that could be a boundary is a border between two patches, so what
    follows only needs to remove borders, never to find new ones.

    Parameters
    ----------
    evidence : BoundaryEvidence
        Evidence; its strength is the height of the relief.

    Returns
    -------
    ndarray of int32, shape (n_rows, n_cols)
        1..N on metal (each patch in one piece, by sides), 0 elsewhere.

    Notes
    -----
    Marker-controlled watershed: Beucher and Lantuejoul 1979, Meyer 1994 (both
    from memory), as implemented in scikit-image.
    """
    metal = evidence.metal
    relief = ndimage.gaussian_filter(
        evidence.strength, _RELIEF_SMOOTHING_PX, mode="nearest"
    )
    relief[~metal] = _OUTSIDE
    seeds, n_seeds = ndimage.label(_minima(relief) & metal)
    seeds = _seed_every_piece(seeds.astype(np.int32), n_seeds, evidence)
    if seeds.max() == 0:
        return seeds
    flooded: Labels = watershed(relief, seeds, mask=metal).astype(np.int32)
    return flooded


def _minima(relief: npt.NDArray[np.float32]) -> npt.NDArray[np.bool_]:
    """Flat areas lower than all around; the surrounding frame counts as high."""
    framed = np.pad(relief, 1, constant_values=_OUTSIDE)
    minima: npt.NDArray[np.bool_] = local_minima(framed)[1:-1, 1:-1]
    return minima


def _seed_every_piece(
    seeds: Labels, n_seeds: int, evidence: BoundaryEvidence
) -> Labels:
    """Seed a piece of metal without a minimum of its own at its first pixel."""
    pieces, n_pieces = ndimage.label(evidence.metal)
    seeded = np.zeros(n_pieces + 1, np.bool_)
    seeded[pieces[seeds > 0]] = True
    numbers, places = np.unique(pieces, return_index=True)
    bare = (numbers > 0) & ~seeded[numbers]
    seeds.flat[places[bare]] = n_seeds + 1 + np.arange(np.count_nonzero(bare))
    return seeds
