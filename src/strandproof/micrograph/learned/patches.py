"""Cut the metal along every crest of the boundary plane: many small patches."""

import os
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor

import numpy as np
import numpy.typing as npt
from scipy import ndimage
from scipy.sparse import coo_array
from scipy.sparse.csgraph import connected_components
from skimage.segmentation import watershed

Bytes = npt.NDArray[np.uint8]
Mask = npt.NDArray[np.bool_]
Labels = npt.NDArray[np.int32]
Floats = npt.NDArray[np.float32]
Integers = npt.NDArray[np.int64]

_TILE_PX = 512  # bounds the memory; patches are joined again across the seams
_NO_CREST_BELOW = 51  # mean along a seam [bytes]: nothing speaks for a boundary there
_LEAST_APART_PX = 5  # between lowest places of metal far from any core
_FAR_PX = 8.0  # from the next core: wider than any groove, so grains hardly resolved
_MOST_THREADS = 4  # the arrays of each tile are worked on without the interpreter
_CORE_BELOW = 64  # a quarter likely, in bytes: certainly inside of a grain
# A core is cut wherever it narrows: its parts deeper than each of these [px] are told
# apart. A gap in a boundary is such a narrow place.
_DEPTHS_PX = (2.0, 4.0, 8.0, 16.0, 32.0)


def patches_of(boundary: Bytes, strands: Labels) -> Labels:
    """Flood the boundary plane from the cores of the grains, tile by tile.

    Every place that could be a boundary is a border between two patches, so what
    follows only needs to remove borders, never to find new ones. A core is also
    cut at its narrow places, so that a boundary with a gap is found whole. Patches that
    only the seam of two tiles parts are joined again.

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
    return _joined_at_seams(patches, boundary, strands)


def _tiles(shape: tuple[int, ...]) -> Iterator[tuple[slice, slice]]:
    for top in range(0, shape[0], _TILE_PX):
        for left in range(0, shape[1], _TILE_PX):
            yield slice(top, top + _TILE_PX), slice(left, left + _TILE_PX)


def _joined_at_seams(patches: Labels, boundary: Bytes, strands: Labels) -> Labels:
    """Join patches of one strand that face each other with no crest on the seam."""
    seams = [
        (slice(None), slice(at - 1, at + 1))
        for at in range(_TILE_PX, patches.shape[1], _TILE_PX)
    ]
    across = [_facing(patches[seam], boundary[seam], strands[seam]) for seam in seams]
    seams = [
        (slice(at - 1, at + 1), slice(None))
        for at in range(_TILE_PX, patches.shape[0], _TILE_PX)
    ]
    across += [
        _facing(patches[seam].T, boundary[seam].T, strands[seam].T) for seam in seams
    ]
    if not across:
        return patches
    first, second = np.concatenate(across, axis=1)
    n_numbers = int(patches.max(initial=0)) + 1
    links = coo_array((np.ones(first.size), (first, second)), (n_numbers, n_numbers))
    _, groups = connected_components(links, directed=False)
    # Group 0 holds number 0 alone: nothing outside of metal is ever linked.
    joined: Labels = groups.astype(np.int32)[patches]
    return joined


def _facing(patches: Labels, boundary: Bytes, strands: Labels) -> Integers:
    """Pairs of patches on the two sides of a seam, where its mean is no crest."""
    one, other = patches.astype(np.int64).T
    touching = (strands[:, 0] == strands[:, 1]) & (strands[:, 0] > 0)
    one, other = one[touching], other[touching]
    base = np.int64(max(other.max(initial=0), 0) + 1)
    pairs, index = np.unique(one * base + other, return_inverse=True)
    crest = boundary[touching].max(axis=1).astype(np.float64)
    mean = np.bincount(index, crest, pairs.size) / np.bincount(index, None, pairs.size)
    plain = pairs[mean < _NO_CREST_BELOW]
    return np.stack([plain // base, plain % base])


def _flooded(boundary: Bytes, strands: Labels) -> Labels:
    """Patches of one tile, numbered from 1."""
    metal = strands > 0
    if not metal.any():
        return np.zeros(strands.shape, np.int32)
    core = metal & (boundary < _CORE_BELOW)
    depth = _depth(core, metal)
    seeds = _with_bare_metal(_seeds(core, depth), metal, boundary)
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


def _with_bare_metal(seeds: Labels, metal: Mask, boundary: Bytes) -> Labels:
    """Seed metal far from any core at its lowest places, and what is left whole."""
    far = metal & (boundary >= _CORE_BELOW)
    if seeds.any():
        far &= ndimage.distance_transform_edt(seeds == 0) > _FAR_PX
    if far.any():
        lowest = boundary == ndimage.minimum_filter(boundary, _LEAST_APART_PX)
        pits, _ = ndimage.label(far & lowest)
        seeds = np.where(pits > 0, pits + seeds.max(), seeds).astype(np.int32)
    metals, n_metals = ndimage.label(metal)
    bare = np.ones(n_metals + 1, np.bool_)
    bare[metals[seeds > 0]] = False
    bare[0] = False
    if bare.any():
        place = bare[metals]
        seeds[place] = seeds.max() + metals[place].astype(np.int32)
    return seeds
