"""Take in pits and inclusions: small spots that lie wholly inside one grain."""

import numpy as np
import numpy.typing as npt

from strandproof.micrograph.regions import RegionGraph

Labels = npt.NDArray[np.int32]
Integers = npt.NDArray[np.int64]
Mask = npt.NDArray[np.bool_]

_LARGEST_PIT_PX = 200.0  # area; about 16 px across
_LARGEST_SHARE = 0.05  # of the grain around it


def with_pits_taken_in(
    graph: RegionGraph, labels: Labels, metal: Mask
) -> tuple[Integers, int]:
    """Join small regions with a single neighbour to it.

    In a plane section a real grain enclosed by one other is rare, a pit, an
    inclusion or a speck of dirt is not. Size alone tells them apart here: an
    enclosed grain below 200 px^2 is taken for a pit.

    Parameters
    ----------
    graph : RegionGraph
        Regions and borders.
    labels : ndarray of int32, shape (n_rows, n_cols)
        The regions.
    metal : ndarray of bool, shape (n_rows, n_cols)
        True on metal.

    Returns
    -------
    representative : ndarray of int64, shape (n_regions + 1,)
        For each region the number that it carries from now on.
    n_pits : int
        How many were taken in.
    """
    representative = np.arange(graph.area.size)
    regions = np.concatenate([graph.first, graph.second])
    others = np.concatenate([graph.second, graph.first])
    count = np.bincount(regions, minlength=graph.area.size)
    host = np.zeros(graph.area.size, np.int64)
    host[regions] = others
    enclosed = (count == 1) & ~_at_edge(labels, metal, graph.area.size)
    largest = np.minimum(_LARGEST_PIT_PX, _LARGEST_SHARE * graph.area[host])
    pits = np.flatnonzero(enclosed & (graph.area <= largest))
    representative[pits] = host[pits]
    return representative, int(pits.size)


def _at_edge(labels: Labels, metal: Mask, n_labels: int) -> Mask:
    """Regions with a pixel at the edge of the picture or beside no metal."""
    edge = np.ones(metal.shape, np.bool_)
    edge[1:-1, 1:-1] = ~(
        metal[:-2, 1:-1] & metal[2:, 1:-1] & metal[1:-1, :-2] & metal[1:-1, 2:]
    )
    touching = np.zeros(n_labels, np.bool_)
    touching[labels[edge]] = True
    return touching
