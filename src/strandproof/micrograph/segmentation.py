"""From a picture to strands and grains, with every step behind one call."""

from collections.abc import Callable

import numpy as np
import numpy.typing as npt
from scipy import ndimage
from scipy.sparse import coo_array
from scipy.sparse.csgraph import connected_components
from skimage.measure import label

from strandproof.micrograph.border_lines import border_lines
from strandproof.micrograph.borders import borders_of
from strandproof.micrograph.classical import classical_evidence
from strandproof.micrograph.evidence import BoundaryEvidence
from strandproof.micrograph.lab import lab_picture
from strandproof.micrograph.merging import merged_regions
from strandproof.micrograph.metal import metal_mask
from strandproof.micrograph.patches import patches_of
from strandproof.micrograph.pieces import separated_metal
from strandproof.micrograph.pits import with_pits_taken_in
from strandproof.micrograph.quality import picture_flags
from strandproof.micrograph.regions import RegionGraph, region_graph
from strandproof.micrograph.scratches import scratch_borders
from strandproof.micrograph.strands import described_strands
from strandproof.micrograph.twins import twin_borders
from strandproof.records import Flag, LabelledStructure

FloatPlane = npt.NDArray[np.float32]
Mask = npt.NDArray[np.bool_]
Labels = npt.NDArray[np.int32]
Progress = Callable[[float, str], None]

_SLIVER_PX = 6.0  # depth below the metal's edge; rounding of the edge reaches so far

METHOD = "general image processing"
METHOD_VERSION = "1"


def segment(
    picture: FloatPlane, *, valid: Mask | None = None, progress: Progress | None = None
) -> LabelledStructure:
    """Find strands and grains in a picture of an etched section.

    Parameters
    ----------
    picture : ndarray of float, shape (n_rows, n_cols) or (n_rows, n_cols, 3)
        Grey or sRGB in [0, 1].
    valid : ndarray of bool, shape (n_rows, n_cols), optional
        False where the picture shows nothing.
    progress : callable, optional
        Called with a fraction and words; raising from it cancels.

    Returns
    -------
    LabelledStructure
        Labels, strands, flags.
    """
    report = progress or _silent
    report(0.0, "reading colours")
    colours = lab_picture(picture, valid=valid)
    report(0.05, "finding metal")
    metal, strand_labels = separated_metal(metal_mask(colours))
    report(0.1, "finding grooves and steps")
    evidence = classical_evidence(colours.lab, metal)
    report(0.6, "closing boundaries")
    regions = grains_from_evidence(evidence, strand_labels)
    report(0.9, "describing strands")
    grains = _with_boundary_lines(regions, strand_labels)
    strands = described_strands(regions, strand_labels, evidence)
    flags = (*picture_flags(colours, evidence), *_structure_flags(grains, metal))
    report(1.0, "segmented")
    return LabelledStructure(
        grain_labels=grains,
        strand_labels=strand_labels,
        strands=strands,
        flags=flags,
        method=METHOD,
        method_version=METHOD_VERSION,
    )


def grains_from_evidence(evidence: BoundaryEvidence, strand_labels: Labels) -> Labels:
    """Close the boundaries: patches, merging, scratches, pits, twins.

    Independent of how the evidence was made.

    Parameters
    ----------
    evidence : BoundaryEvidence
        Evidence for boundaries.
    strand_labels : ndarray of int32, shape (n_rows, n_cols)
        Strands; no grain lies in two.

    Returns
    -------
    ndarray of int32, shape (n_rows, n_cols)
        Grains without boundary lines; 0 outside of metal.
    """
    patches = patches_of(evidence)
    _, representative = merged_regions(region_graph(patches, evidence))
    regions = representative[patches].astype(np.int32)
    regions = _without_scratches(regions, evidence)
    graph = region_graph(regions, evidence)
    taken, _ = with_pits_taken_in(graph, regions, evidence.metal)
    regions = taken[regions].astype(np.int32)
    regions = _without_edge_slivers(regions, evidence)
    regions = _with_twins_merged(regions, evidence)
    return _numbered(regions, strand_labels)


def _without_scratches(regions: Labels, evidence: BoundaryEvidence) -> Labels:
    borders = borders_of(regions)
    graph = region_graph(regions, evidence, borders=borders)
    lines = border_lines(borders, regions.shape[1])
    return _joined_over(regions, graph, scratch_borders(graph, lines, evidence.metal))


def _without_edge_slivers(regions: Labels, evidence: BoundaryEvidence) -> Labels:
    """Join thin strips along the metal's edge: rounding of the edge, not grains."""
    graph = region_graph(regions, evidence)
    depth = ndimage.distance_transform_edt(evidence.metal)
    every = np.arange(graph.area.size)
    reach = np.asarray(ndimage.maximum(depth, regions, every))
    sliver = (graph.area > 0) & (reach < _SLIVER_PX)
    thin = sliver[graph.first] != sliver[graph.second]
    longest = np.zeros(graph.area.size)
    owner = np.where(sliver[graph.first], graph.first, graph.second)
    np.maximum.at(longest, owner[thin], graph.length[thin])
    return _joined_over(regions, graph, thin & (graph.length == longest[owner]))


def _with_twins_merged(regions: Labels, evidence: BoundaryEvidence) -> Labels:
    borders = borders_of(regions)
    graph = region_graph(regions, evidence, borders=borders)
    lines = border_lines(borders, regions.shape[1])
    return _joined_over(regions, graph, twin_borders(graph, lines))


def _joined_over(regions: Labels, graph: RegionGraph, chosen: Mask) -> Labels:
    """Join the regions at both sides of the chosen borders."""
    n_regions = graph.area.size
    pairs = (graph.first[chosen], graph.second[chosen])
    links = coo_array((np.ones(pairs[0].size), pairs), shape=(n_regions, n_regions))
    n_groups, group = connected_components(links, directed=False)
    lowest = np.full(n_groups, n_regions)
    np.minimum.at(lowest, group, np.arange(n_regions))
    joined: Labels = lowest[group][regions].astype(np.int32)
    return joined


def _numbered(regions: Labels, strand_labels: Labels) -> Labels:
    """Give the grains numbers 1..N, each in one piece and in one strand."""
    n_regions = int(regions.max(initial=0)) + 1
    both = strand_labels.astype(np.int64) * n_regions + regions
    both[(regions == 0) | (strand_labels == 0)] = 0
    found = label(both, background=0, connectivity=1)
    pieces: Labels = found.astype(np.int32)
    return pieces


def _with_boundary_lines(grains: Labels, strand_labels: Labels) -> Labels:
    """Draw lines of one pixel between grains of one strand."""
    drawn = grains.copy()
    for axis in (0, 1):
        here = [slice(None), slice(None)]
        there = [slice(None), slice(None)]
        here[axis], there[axis] = slice(None, -1), slice(1, None)
        a, b = grains[tuple(here)], grains[tuple(there)]
        same = strand_labels[tuple(here)] == strand_labels[tuple(there)]
        drawn[tuple(here)][(a != b) & (a > 0) & (b > 0) & same] = 0
    return _kept_alive(drawn, grains)


def _kept_alive(drawn: Labels, grains: Labels) -> Labels:
    """Give grains that lines swallowed whole their pixels back."""
    n_grains = int(grains.max(initial=0)) + 1
    lost = np.bincount(drawn.ravel(), minlength=n_grains) == 0
    lost[0] = False
    alive: Labels = np.where(lost[grains], grains, drawn).astype(np.int32)
    return alive


def _structure_flags(grains: Labels, metal: Mask) -> tuple[Flag, ...]:
    flags = []
    if not metal.any():
        flags.append(Flag("no_metal"))
    elif grains.max() <= 1:
        flags.append(Flag("no_boundary_found"))
    if grains.max() > 1:
        flags.append(Flag("twins_not_tested_on_real_copper"))
    return tuple(flags)


def _silent(_fraction: float, _words: str) -> None:
    return None
