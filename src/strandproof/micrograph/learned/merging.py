"""Take away borders, weakest first, until every border left is a boundary."""

import numpy as np
import numpy.typing as npt

from strandproof.micrograph.learned.regions import RegionGraph, joined

Integers = npt.NDArray[np.int64]
Floats = npt.NDArray[np.float64]

BOUNDARY_FROM = 0.45  # where missed and invented boundaries balance on drawn sections
_HALF_TRUST_AREA_PX = 4.0  # a few pixels between two crests are no grain


def merged_regions(
    graph: RegionGraph, *, boundary_from: float = BOUNDARY_FROM
) -> tuple[RegionGraph, Integers]:
    """Join neighbours in pairs whose common border is the weakest of both.

    After each round the probability of every border is formed anew from the
    joined borders, so a gap in a groove is judged together with the whole groove.

    Parameters
    ----------
    graph : RegionGraph
        Regions and borders.
    boundary_from : float
        Borders weaker than this are taken away; 0 to 1.

    Returns
    -------
    graph : RegionGraph
        What is left.
    representative : ndarray of int64, shape (n_regions + 1,)
        For each region of the graph given, the region it is now part of.

    Notes
    -----
    Average linkage of borders by reciprocal nearest neighbours (Murtagh 1983,
    from memory) instead of one pair at a time: the same hierarchy where joining
    never brings two regions closer than both parts were, and a few dozen rounds
    of array operations instead of millions of single steps.
    """
    every = np.arange(graph.area.size)
    representative = every.copy()
    while True:
        first, second = _weakest_pairs(graph, boundary_from)
        if first.size == 0:
            return graph, representative
        step = every.copy()
        step[second] = first
        graph = joined(graph, step)
        representative = step[representative]


def border_evidence(graph: RegionGraph) -> Floats:
    """Evidence that each border is a grain boundary and no twin's side.

    Parameters
    ----------
    graph : RegionGraph
        Regions and borders.

    Returns
    -------
    ndarray of float64, shape (n_borders,)
        0 to 1; 0.5 where a boundary is as likely as not.
    """
    smaller = np.minimum(graph.area[graph.first], graph.area[graph.second])
    trust = smaller / (smaller + _HALF_TRUST_AREA_PX)
    found: Floats = graph.boundary_strength() * trust
    return found


def _weakest_pairs(
    graph: RegionGraph, boundary_from: float
) -> tuple[Integers, Integers]:
    """Borders that are the weakest one of both their regions."""
    evidence = border_evidence(graph)
    rank = np.empty(evidence.size, np.int64)
    rank[np.lexsort((_scrambled(evidence.size), evidence))] = np.arange(evidence.size)
    lowest = np.full(graph.area.size, evidence.size, np.int64)
    np.minimum.at(lowest, graph.first, rank)
    np.minimum.at(lowest, graph.second, rank)
    chosen = (lowest[graph.first] == rank) & (lowest[graph.second] == rank)
    chosen &= evidence < boundary_from
    return graph.first[chosen], graph.second[chosen]


def _scrambled(size: int) -> npt.NDArray[np.uint32]:
    """Break ties without order: in a flat picture, order would join one by one."""
    return np.arange(size, dtype=np.uint32) * np.uint32(2654435761)
