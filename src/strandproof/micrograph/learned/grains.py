"""From the network's planes to grains with closed boundaries."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from scipy import ndimage
from scipy.sparse import coo_array
from scipy.sparse.csgraph import connected_components

from strandproof.micrograph.border_lines import border_lines
from strandproof.micrograph.borders import borders_of
from strandproof.micrograph.learned.counting import (
    areas_of,
    owners_of,
    renumbered,
)
from strandproof.micrograph.learned.merging import merged_regions
from strandproof.micrograph.learned.patches import patches_of
from strandproof.micrograph.learned.regions import (
    RegionGraph,
    inside_strands,
    region_graph,
)
from strandproof.micrograph.learned.twins import twin_borders

Bytes = npt.NDArray[np.uint8]
Labels = npt.NDArray[np.int32]
Mask = npt.NDArray[np.bool_]

_SLIVER_PX = 4  # depth below the metal's edge; rounding of the edge reaches so far


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Grains:
    """Grains without boundary pixels, and the graph of their borders.

    Parameters
    ----------
    labels : ndarray of int32, shape (n_rows, n_cols)
        1..N on metal, 0 elsewhere.
    graph : RegionGraph
        Borders between the grains, with their probabilities.
    """

    labels: Labels
    graph: RegionGraph


def grains_of(boundary: Bytes, twin: Bytes, strand_labels: Labels) -> Grains:
    """Close the boundaries: patches, merging, slivers, twins.

    Parameters
    ----------
    boundary, twin : ndarray of uint8, shape (n_rows, n_cols)
        The network's planes of grain boundaries and of twin boundaries.
    strand_labels : ndarray of int32, shape (n_rows, n_cols)
        Strands; no grain lies in two.

    Returns
    -------
    Grains
        Grains, twins merged.
    """
    regions = patches_of(boundary, strand_labels)
    owner = owners_of(regions, strand_labels, int(regions.max(initial=0)))
    graph = inside_strands(region_graph(regions, boundary, twin), owner)
    _, representative = merged_regions(graph)
    regions = renumbered(regions, representative)
    regions = _without_edge_slivers(regions, strand_labels)
    regions = _without_twins(regions, strand_labels, (boundary, twin))
    labels = _numbered(regions)
    owner = owners_of(labels, strand_labels, int(labels.max(initial=0)))
    graph = inside_strands(region_graph(labels, boundary, twin), owner)
    return Grains(labels=labels, graph=graph)


def _without_edge_slivers(regions: Labels, strands: Labels) -> Labels:
    """Join thin strips along the metal's edge: rounding of the edge, not grains."""
    metal = strands > 0
    if metal.all() or not metal.any():
        return regions
    n_regions = int(regions.max(initial=0))
    rim = metal & ~ndimage.binary_erosion(metal, border_value=1)
    deep = ndimage.binary_erosion(metal, iterations=_SLIVER_PX, border_value=1)
    sliver = np.zeros(n_regions + 1, np.bool_)
    sliver[regions[rim]] = True
    sliver[regions[deep]] = False
    if not sliver.any():
        return regions
    borders = borders_of(regions)
    owner = owners_of(regions, strands, n_regions)
    thin = sliver[borders.first] != sliver[borders.second]
    thin &= owner[borders.first] == owner[borders.second]
    strip = np.where(sliver[borders.first], borders.first, borders.second)
    longest = np.zeros(n_regions + 1)
    np.maximum.at(longest, strip[thin], borders.lengths[thin])
    chosen = thin & (borders.lengths == longest[strip])
    return _joined(regions, borders.first[chosen], borders.second[chosen])


def _without_twins(
    regions: Labels, strands: Labels, planes_seen: tuple[Bytes, Bytes]
) -> Labels:
    borders = borders_of(regions)
    owner = owners_of(regions, strands, int(regions.max(initial=0)))
    graph = region_graph(regions, *planes_seen, borders=borders)
    chosen = twin_borders(graph, border_lines(borders, regions.shape[1]))
    chosen &= owner[graph.first] == owner[graph.second]
    return _joined(regions, graph.first[chosen], graph.second[chosen])


def _joined(
    regions: Labels, first: npt.NDArray[np.int64], second: npt.NDArray[np.int64]
) -> Labels:
    """Join pairs of regions."""
    if first.size == 0:
        return regions
    n_regions = int(regions.max(initial=0)) + 1
    links = coo_array((np.ones(first.size), (first, second)), (n_regions, n_regions))
    _, group = connected_components(links, directed=False)
    group = group + 1
    group[0] = 0
    return renumbered(regions, group)


def _numbered(regions: Labels) -> Labels:
    """Give the grains numbers 1..N."""
    held = areas_of(regions, int(regions.max(initial=0))) > 0
    held[0] = False
    return renumbered(regions, np.where(held, np.cumsum(held), 0))
