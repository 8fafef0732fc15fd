"""Tell scratches from grain boundaries by how they cross them.

Where boundaries meet, three grains meet. A line that runs straight across a
boundary, so that four regions meet in one point, lies on the metal and not in it.
"""

import numpy as np
import numpy.typing as npt
from scipy import ndimage
from scipy.sparse import coo_array
from scipy.sparse.csgraph import connected_components
from scipy.spatial import KDTree

from strandproof.micrograph.border_lines import BorderLines, Moments
from strandproof.micrograph.regions import RegionGraph

Integers = npt.NDArray[np.int64]
Floats = npt.NDArray[np.float64]
Mask = npt.NDArray[np.bool_]

_LARGEST_STEP = 0.5  # of a clear step: a scratch has the same shade at both sides
_ROUGHNESS_PX = 1.0  # of one piece
_CHAIN_ROUGHNESS_PX = 1.5  # of all pieces together
_LEAST_PIECE_PX = 8.0
_LEAST_LENGTH_PX = 40.0
_CROSSING_PX = 10.0  # how far apart two pieces may end at a crossing
_LARGEST_TURN_DEG = 8.0
_LONGER_THAN_RIVAL = 1.5  # where two straight lines cross, the longer one goes


def scratch_borders(graph: RegionGraph, lines: BorderLines, metal: Mask) -> Mask:
    """Find borders that belong to scratches.

    A scratch is a chain of straight pieces, no two of which share a region,
    that continue each other across crossings without a step in shade. Where two
    such chains cross, one must be 1.5 times as long as the other, or run from
    edge to edge of the metal, to count.

    Parameters
    ----------
    graph : RegionGraph
        Regions and borders.
    lines : BorderLines
        Lines of the same borders.
    metal : ndarray of bool, shape (n_rows, n_cols)
        True on metal.

    Returns
    -------
    ndarray of bool, shape (n_borders,)
        True for borders to be taken away.

    Notes
    -----
    A rule of this project. A scratch that crosses no boundary, or follows one,
    is not recognised; nor is a curved one.
    """
    fits = (
        (graph.shade_difference() < _LARGEST_STEP)
        & (lines.roughness <= _ROUGHNESS_PX)
        & (lines.extent >= _LEAST_PIECE_PX)
    )
    first, second, places = _continuations(graph, lines, np.flatnonzero(fits))
    if first.size == 0:
        return np.zeros(fits.size, np.bool_)
    links = coo_array((np.ones(first.size), (first, second)), shape=(fits.size,) * 2)
    n_chains, chain = connected_components(links, directed=False)
    length, straight = _chain_lines(lines, chain, n_chains)
    long_enough = straight & (length >= _LEAST_LENGTH_PX)
    wins = _beats_rivals(length, chain[first], places)
    wins |= _from_edge_to_edge(lines, chain, n_chains, metal)
    linked = np.zeros(fits.size, np.bool_)
    linked[first], linked[second] = True, True
    return linked & (long_enough & wins)[chain]


def _continuations(
    graph: RegionGraph, lines: BorderLines, candidates: Integers
) -> tuple[Integers, Integers, Floats]:
    """Pairs of borders that continue each other, and where they meet."""
    empty = np.zeros(0, np.int64)
    if candidates.size < 2:
        return empty, empty, np.zeros((0, 2))
    ends = lines.ends[candidates].reshape(-1, 2)
    pairs = KDTree(ends).query_pairs(_CROSSING_PX, output_type="ndarray")
    first, second = candidates[pairs[:, 0] // 2], candidates[pairs[:, 1] // 2]
    places = (ends[pairs[:, 0]] + ends[pairs[:, 1]]) / 2
    kept = _share_no_region(graph, first, second)
    kept &= _in_one_line(lines, first, second)
    centres = lines.moments.centres()
    apart = (centres[first] - places) * (centres[second] - places)
    kept &= apart.sum(axis=1) < 0
    return first[kept], second[kept], places[kept]


def _share_no_region(graph: RegionGraph, first: Integers, second: Integers) -> Mask:
    apart = np.ones(first.size, np.bool_)
    for one in (graph.first, graph.second):
        for other in (graph.first, graph.second):
            apart &= one[first] != other[second]
    return apart


def _in_one_line(lines: BorderLines, first: Integers, second: Integers) -> Mask:
    cosine = (lines.direction[first] * lines.direction[second]).sum(axis=1)
    together = Moments(sums=lines.moments.sums[first] + lines.moments.sums[second])
    _, across, _ = together.spreads()
    in_line: Mask = np.abs(cosine) >= np.cos(np.radians(_LARGEST_TURN_DEG))
    return in_line & (across <= _CHAIN_ROUGHNESS_PX**2)


def _chain_lines(
    lines: BorderLines, chain: npt.NDArray[np.int32], n_chains: int
) -> tuple[Floats, Mask]:
    """Length of each chain, and whether it is straight as a whole."""
    sums = np.zeros((n_chains, 6))
    np.add.at(sums, chain, lines.moments.sums)
    along, across, _ = Moments(sums=sums).spreads()
    return np.sqrt(12 * along), across <= _CHAIN_ROUGHNESS_PX**2


def _beats_rivals(
    length: Floats, chain_of_link: npt.NDArray[np.int32], places: Floats
) -> Mask:
    """Chains clearly longer than any other chain they cross."""
    wins = np.ones(length.size, np.bool_)
    pairs = KDTree(places).query_pairs(_CROSSING_PX, output_type="ndarray")
    for one, other in (pairs.T, pairs.T[::-1]):
        mine, rival = chain_of_link[one], chain_of_link[other]
        loses = (mine != rival) & (length[mine] < _LONGER_THAN_RIVAL * length[rival])
        wins[mine[loses]] = False
    return wins


def _from_edge_to_edge(
    lines: BorderLines, chain: npt.NDArray[np.int32], n_chains: int, metal: Mask
) -> Mask:
    """Chains of which two ends lie at the edge of the metal."""
    ends = np.rint(lines.ends.reshape(-1, 2)).astype(np.int64)
    ends = np.clip(ends, 0, np.array(metal.shape) - 1)
    at_edge = ends_at_edge(ends, metal)
    count = np.bincount(np.repeat(chain, 2), weights=at_edge, minlength=n_chains)
    spans: Mask = count >= 2
    return spans


def ends_at_edge(ends: Integers, metal: Mask) -> Mask:
    """Tell which points lie within 4 px of the edge of metal or picture.

    Parameters
    ----------
    ends : ndarray of int64, shape (n_points, 2)
        Row and column, within the picture [px].
    metal : ndarray of bool, shape (n_rows, n_cols)
        True on metal.

    Returns
    -------
    ndarray of bool, shape (n_points,)
        True near the edge.
    """
    inside = ndimage.binary_erosion(metal, iterations=4)
    near: Mask = ~inside[ends[:, 0], ends[:, 1]]
    return near
