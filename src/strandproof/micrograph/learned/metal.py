"""Metal, strands and what cannot be read, from the network's planes."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from scipy import ndimage

from strandproof.micrograph.learned import planes
from strandproof.micrograph.learned.counting import areas_of, grown_into, renumbered

Bytes = npt.NDArray[np.uint8]
Mask = npt.NDArray[np.bool_]
Labels = npt.NDArray[np.int32]

_HALF = 128  # as likely as not, in bytes
_LEAST_SPECK_PX = 50
_LEAST_STRAND_SHARE = 0.001  # of all metal: smaller pieces are dirt in the mount
_LARGEST_PORE_SHARE = 0.002  # of all metal: larger holes are no pores
_LEAST_UNREADABLE_PX = 300  # smaller spots are taken into the grain around them


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class MetalMap:
    """Where metal is, in which strand, and where nothing can be read.

    Parameters
    ----------
    strand_labels : ndarray of int32, shape (n_rows, n_cols)
        0 outside of metal, else the number of the strand.
    unreadable : ndarray of bool, shape (n_rows, n_cols)
        Metal or not, nothing can be told here.
    """

    strand_labels: Labels
    unreadable: Mask


def metal_map(maps: Bytes, *, valid: Mask | None = None) -> MetalMap:
    """Find strands, each in its own number.

    Parameters
    ----------
    maps : ndarray of uint8, shape (n_planes, n_rows, n_cols)
        The network's planes.
    valid : ndarray of bool, shape (n_rows, n_cols), optional
        False where the picture shows nothing.

    Returns
    -------
    MetalMap
        Strands numbered by their first pixel.
    """
    metal = maps[planes.METAL] >= _HALF
    if valid is not None:
        metal &= valid
    metal = _without_pores(metal)
    apart = metal & (maps[planes.STRAND_CONTACT] < _HALF)
    seeds = _numbered(apart, _least_area(metal))
    if seeds.max() == 0:
        seeds = _numbered(metal, 1)
    strands = seeds
    if (metal & (seeds == 0)).any() and seeds.max() > 0:
        # Contacts and dirt beside a strand go to the strand that reaches them first.
        strands = grown_into(seeds, metal)
    return MetalMap(
        strand_labels=strands,
        unreadable=_large(maps[planes.UNREADABLE] >= _HALF, _LEAST_UNREADABLE_PX),
    )


def _least_area(metal: Mask) -> float:
    return max(_LEAST_SPECK_PX, _LEAST_STRAND_SHARE * int(np.count_nonzero(metal)))


def _without_pores(metal: Mask) -> Mask:
    """Fill small holes that do not reach the frame: pores, pits, dirt."""
    holes, n_holes = ndimage.label(~metal)
    if n_holes == 0:
        return metal
    area = areas_of(holes, n_holes)
    small = area <= _LARGEST_PORE_SHARE * int(np.count_nonzero(metal))
    frame = (holes[0], holes[-1], holes[:, 0], holes[:, -1])
    small[np.concatenate(frame)] = False
    small[0] = False
    filled: Mask = metal | small[holes]
    return filled


def _numbered(mask: Mask, least_area: float) -> Labels:
    """Pieces of a mask, the small ones left out."""
    pieces, n_pieces = ndimage.label(mask)
    large = areas_of(pieces, n_pieces) >= least_area
    large[0] = False
    return renumbered(pieces, np.where(large, np.cumsum(large), 0))


def _large(mask: Mask, least_area: float) -> Mask:
    return _numbered(mask, least_area) > 0 if mask.any() else mask
