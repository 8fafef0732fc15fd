"""Regions, their borders, and what the network says along each border."""

from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from strandproof.micrograph.borders import Borders, borders_of
from strandproof.micrograph.learned.counting import areas_of

Bytes = npt.NDArray[np.uint8]
Labels = npt.NDArray[np.int32]
Integers = npt.NDArray[np.int64]
Floats = npt.NDArray[np.float64]

# A crest below the first is none, one above the second is certain: so the few high
# values where a cut meets a wall do not speak for the whole cut.
_NO_CREST, _FULL_CREST = 0.2, 0.7


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class RegionGraph:
    """Regions and borders with sums, so that both can be joined exactly.

    Parameters
    ----------
    first, second : ndarray of int64, shape (n_borders,)
        The two regions of each border, `first` < `second`.
    length : ndarray of float64, shape (n_borders,)
        Pixel pairs of each border [px].
    boundary_sum, twin_sum : ndarray of float64, shape (n_borders,)
        Strength of a grain boundary and of a twin's side, 0 to 1, summed over the
        border's pairs.
    area : ndarray of float64, shape (n_regions + 1,)
        Pixels of each region; index 0 is no region.
    """

    first: Integers
    second: Integers
    length: Floats
    boundary_sum: Floats
    twin_sum: Floats
    area: Floats

    def boundary_strength(self) -> Floats:
        """Mean strength of a grain boundary along each border.

        Returns
        -------
        ndarray of float64, shape (n_borders,)
            0 to 1.
        """
        return self.boundary_sum / self.length

    def twin_strength(self) -> Floats:
        """Mean strength of a twin's side along each border.

        Returns
        -------
        ndarray of float64, shape (n_borders,)
            0 to 1.
        """
        return self.twin_sum / self.length


def region_graph(
    labels: Labels, boundary: Bytes, twin: Bytes, *, borders: Borders | None = None
) -> RegionGraph:
    """Sum the planes over the borders of a label plane.

    Parameters
    ----------
    labels : ndarray of int32, shape (n_rows, n_cols)
        Regions; 0 is no region.
    boundary, twin : ndarray of uint8, shape (n_rows, n_cols)
        Probability of a grain boundary and of a twin's side, 255 for 1.
    borders : Borders, optional
        Borders of `labels`, if already at hand.

    Returns
    -------
    RegionGraph
        Borders in the order of `borders_of`.
    """
    edges = borders_of(labels) if borders is None else borders
    return RegionGraph(
        first=edges.first,
        second=edges.second,
        length=edges.lengths,
        boundary_sum=_crest_sum(edges, boundary),
        twin_sum=_crest_sum(edges, twin),
        area=areas_of(labels, int(labels.max(initial=0))).astype(np.float64),
    )


def inside_strands(graph: RegionGraph, strand_of: Integers) -> RegionGraph:
    """Leave out borders between two strands.

    Parameters
    ----------
    graph : RegionGraph
        Regions and borders.
    strand_of : ndarray of int64, shape (n_regions + 1,)
        Strand of each region.

    Returns
    -------
    RegionGraph
        The same regions, borders within strands alone.
    """
    kept = strand_of[graph.first] == strand_of[graph.second]
    return replace(
        graph,
        first=graph.first[kept],
        second=graph.second[kept],
        length=graph.length[kept],
        boundary_sum=graph.boundary_sum[kept],
        twin_sum=graph.twin_sum[kept],
    )


def joined(graph: RegionGraph, representative: Integers) -> RegionGraph:
    """Join regions, and the borders that then lie between the same two.

    Parameters
    ----------
    graph : RegionGraph
        The graph before.
    representative : ndarray of int64, shape (n_regions + 1,)
        For each region the number that it carries from now on.

    Returns
    -------
    RegionGraph
        The graph after; numbers that are gone have area 0.
    """
    one, other = representative[graph.first], representative[graph.second]
    kept = one != other
    low, high = np.minimum(one, other)[kept], np.maximum(one, other)[kept]
    base = np.int64(graph.area.size)
    unique, index = np.unique(low * base + high, return_inverse=True)

    def per_border(values: Floats) -> Floats:
        sums = np.bincount(index, weights=values[kept], minlength=unique.size)
        return sums.astype(np.float64, copy=False)

    area = np.bincount(representative, weights=graph.area, minlength=int(base))
    return replace(
        graph,
        first=unique // base,
        second=unique % base,
        length=per_border(graph.length),
        boundary_sum=per_border(graph.boundary_sum),
        twin_sum=per_border(graph.twin_sum),
        area=area.astype(np.float64, copy=False),
    )


def _crest_sum(borders: Borders, plane: Bytes) -> Floats:
    """Sum of the larger value of each pair: the crest lies on one of the two."""
    flat = plane.ravel()
    crest = np.maximum(flat[borders.pixel], flat[borders.neighbour]) / 255.0
    return borders.sums(
        np.clip((crest - _NO_CREST) / (_FULL_CREST - _NO_CREST), 0.0, 1.0)
    )
