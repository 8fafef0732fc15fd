"""Cut the metal along every crest of the boundary plane: many small patches."""

import os
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor

import numpy as np
import numpy.typing as npt
from scipy import ndimage
from skimage.segmentation import watershed

Bytes = npt.NDArray[np.uint8]
Mask = npt.NDArray[np.bool_]
Labels = npt.NDArray[np.int32]
Floats = npt.NDArray[np.float32]

_TILE_PX = 512  # bounds the memory; a seam is a border like any other
_MOST_THREADS = 4  # the arrays of each tile are worked on without the interpreter
_CORE_BELOW = 64  # a quarter likely, in bytes: certainly inside of a grain
# A core is cut wherever it narrows: its parts deeper than each of these [px] are told
# apart. A gap in a boundary is such a narrow place.
_DEPTHS_PX = (2.0, 4.0, 8.0, 16.0, 32.0)


def patches_of(boundary: Bytes, strands: Labels) -> Labels:
    """Flood the boundary plane from the cores of the grains, tile by tile.

    Every place that could be a boundary is a border between two patches, so what
    follows only needs to remove borders, never to find new ones. A core is also
    cut at its narrow places, so that a boundary with a gap is found whole; seams of
    tiles are borders too, without any strength.

    Parameters
    ----------
    boundary : ndarray of uint8, shape (n_rows, n_cols)
        Probability of a grain boundary, 255 for 1.
    strands : ndarray of int32, shape (n_rows, n_cols)
        Strands; 0 outside of metal.

    Returns
    -------
    ndarray of int32, shape (n_rows, n_cols)
        1..N on metal, 0 elsewhere; no patch lies in two strands.

    Notes
    -----
    Marker-controlled watershed: Beucher and Lantuejoul 1979, Meyer 1994 (both
    from memory), as implemented in scikit-image.
    """
    patches = np.zeros(strands.shape, np.int32)
    tiles = list(_tiles(strands.shape))

    def fill(tile: tuple[slice, slice]) -> int:
        found = _flooded(boundary[tile], strands[tile])
        patches[tile] = found
        return int(found.max(initial=0))

    with ThreadPoolExecutor(min(os.cpu_count() or 1, _MOST_THREADS)) as pool:
        counts = list(pool.map(fill, tiles))
    before = np.cumsum([0, *counts])
    for tile, shift in zip(tiles, before, strict=False):
        part = patches[tile]
        part[part > 0] += np.int32(shift)
    return patches


def _tiles(shape: tuple[int, ...]) -> Iterator[tuple[slice, slice]]:
    for top in range(0, shape[0], _TILE_PX):
        for left in range(0, shape[1], _TILE_PX):
            yield slice(top, top + _TILE_PX), slice(left, left + _TILE_PX)


def _flooded(boundary: Bytes, strands: Labels) -> Labels:
    """Patches of one tile, numbered from 1."""
    metal = strands > 0
    if not metal.any():
        return np.zeros(strands.shape, np.int32)
    core = metal & (boundary < _CORE_BELOW)
    depth = _depth(core, metal)
    seeds = _with_bare_metal(_seeds(core, depth), metal)
    # Only what has no seed yet, and its rim, need be flooded.
    rim = ndimage.maximum_filter(metal & (seeds == 0), 3) & metal
    relief = np.where(core, _CORE_BELOW - np.minimum(depth, _CORE_BELOW), boundary)
    flooded = watershed(relief.astype(np.uint8), np.where(rim, seeds, 0), mask=rim)
    whole = np.where(rim, flooded, seeds).astype(np.int32)
    return _compact(whole, strands)


def _compact(patches: Labels, strands: Labels) -> Labels:
    """Give the patches numbers 1..N, each strand's apart; 0 stays 0."""
    n_patches = int(patches.max()) + 1
    both = strands.astype(np.int64) * n_patches + patches
    both[patches == 0] = 0
    held = np.bincount(both.ravel()) > 0
    held[0] = False
    numbers = np.where(held, np.cumsum(held), 0).astype(np.int32)
    compact: Labels = numbers[both]
    return compact


def _depth(core: Mask, metal: Mask) -> Floats:
    """Distance of each pixel of a core to the next boundary; mount is no boundary."""
    walls = metal & ~core
    if not walls.any():
        return np.where(core, np.float32(_CORE_BELOW), np.float32(0))
    depth: Floats = ndimage.distance_transform_edt(~walls).astype(np.float32)
    depth[~core] = 0
    return depth


def _seeds(core: Mask, depth: Floats) -> Labels:
    """Cores, and instead of each core that narrows its deeper parts."""
    cores, n_seeds = ndimage.label(core)
    seeds: Labels = cores.astype(np.int32)
    for least in _DEPTHS_PX:
        deep = depth > least
        pieces, n_pieces = ndimage.label(deep)
        owner = np.zeros(n_pieces + 1, np.int64)  # a piece lies in one seed
        owner[pieces[deep]] = seeds[deep]
        narrows = np.bincount(owner[1:], minlength=n_seeds + 1) > 1
        narrows[0] = False
        if not narrows.any():
            continue
        cut = narrows[seeds]
        seeds[cut] = np.where(deep[cut], pieces[cut] + n_seeds, 0)
        n_seeds += n_pieces
    return seeds


def _with_bare_metal(seeds: Labels, metal: Mask) -> Labels:
    """Seed metal without any core whole."""
    metals, n_metals = ndimage.label(metal)
    bare = np.ones(n_metals + 1, np.bool_)
    bare[metals[seeds > 0]] = False
    bare[0] = False
    if bare.any():
        place = bare[metals]
        seeds[place] = seeds.max() + metals[place].astype(np.int32)
    return seeds
