"""Regions, their borders, and the evidence that a border is a boundary."""

from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from strandproof.micrograph.borders import Borders, borders_of
from strandproof.micrograph.evidence import BoundaryEvidence

Labels = npt.NDArray[np.int32]
Integers = npt.NDArray[np.int64]
Floats = npt.NDArray[np.float64]

# Area of region, and weight of shade, at which evidence counts half: a few pixels
# between two noisy crests are no grain.
HALF_TRUST_AREA_PX = 15.0
HALF_TRUST_SHADE_PX = 8.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class RegionGraph:
    """Regions with sums over their pixels, borders with sums over their pairs.

    Sums, not means, so that regions and borders can be joined exactly.

    Parameters
    ----------
    first, second : ndarray of int64, shape (n_borders,)
        The two regions of each border, `first` < `second`.
    length : ndarray of float64, shape (n_borders,)
        Pixel pairs of each border [px].
    line_sum, strength_sum : ndarray of float64, shape (n_borders,)
        Line strength and strength, summed over the border's pairs.
    area : ndarray of float64, shape (n_regions + 1,)
        Pixels of each region; index 0 is no region.
    shade_weight : ndarray of float64, shape (n_regions + 1,)
        Pixels outside of grooves.
    shade_sum : ndarray of float64, shape (n_regions + 1, n_channels)
        Shade summed over the pixels outside of grooves.
    """

    first: Integers
    second: Integers
    length: Floats
    line_sum: Floats
    strength_sum: Floats
    area: Floats
    shade_weight: Floats
    shade_sum: Floats

    def shade_difference(self) -> Floats:
        """Distance of the mean shades at both sides [clear steps].

        Returns
        -------
        ndarray of float64, shape (n_borders,)
            The distances.
        """
        mean = self.shade_sum / np.maximum(self.shade_weight, 1e-9)[:, None]
        difference = mean[self.first] - mean[self.second]
        distance: Floats = np.sqrt((difference**2).sum(axis=1))
        return distance

    def border_evidence(self) -> Floats:
        """Evidence that each border is a grain boundary, 0 to 1.

        A border counts by its mean line strength, or by a step: then both its
        mean strength and the difference of the mean shades of the regions must
        be there, so that neither texture nor a slow change of light makes one.
        Small regions count less.

        Returns
        -------
        ndarray of float64, shape (n_borders,)
            0.5 where a boundary is as likely as not.
        """
        line = self.line_sum / self.length
        body = np.minimum(self.shade_weight[self.first], self.shade_weight[self.second])
        step = self.shade_difference() * body / (body + HALF_TRUST_SHADE_PX)
        step = step**2 / (1 + step**2)
        evidence = np.maximum(line, np.minimum(self.strength_sum / self.length, step))
        area = np.minimum(self.area[self.first], self.area[self.second])
        trusted: Floats = evidence * area / (area + HALF_TRUST_AREA_PX)
        return trusted


def region_graph(
    labels: Labels, evidence: BoundaryEvidence, *, borders: Borders | None = None
) -> RegionGraph:
    """Sum the evidence over the regions and borders of a label plane.

    Parameters
    ----------
    labels : ndarray of int32, shape (n_rows, n_cols)
        Regions; 0 is no region.
    evidence : BoundaryEvidence
        Evidence of the same shape.
    borders : Borders, optional
        Borders of `labels`, if already at hand.

    Returns
    -------
    RegionGraph
        Borders in the order of `borders_of`.
    """
    edges = borders_of(labels) if borders is None else borders
    flat = labels.ravel()
    n_labels = int(labels.max(initial=0)) + 1
    weight = evidence.shade_weight.ravel()

    def per_region(values: npt.NDArray[np.float32] | None) -> Floats:
        sums = np.bincount(flat, weights=values, minlength=n_labels)
        return sums.astype(np.float64, copy=False)

    channels = range(evidence.shade.shape[2])
    shade = [per_region(evidence.shade[..., k].ravel() * weight) for k in channels]
    return RegionGraph(
        first=edges.first,
        second=edges.second,
        length=edges.lengths,
        line_sum=_crest_sum(edges, evidence.line_strength),
        strength_sum=_crest_sum(edges, evidence.strength),
        area=per_region(None),
        shade_weight=per_region(weight),
        shade_sum=np.stack(shade, axis=1),
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

    def per_region(values: Floats) -> Floats:
        sums = np.bincount(representative, weights=values, minlength=int(base))
        return sums.astype(np.float64, copy=False)

    channels = range(graph.shade_sum.shape[1])
    return replace(
        graph,
        first=unique // base,
        second=unique % base,
        length=per_border(graph.length),
        line_sum=per_border(graph.line_sum),
        strength_sum=per_border(graph.strength_sum),
        area=per_region(graph.area),
        shade_weight=per_region(graph.shade_weight),
        shade_sum=np.stack([per_region(graph.shade_sum[:, k]) for k in channels], 1),
    )


def _crest_sum(borders: Borders, plane: npt.NDArray[np.float32]) -> Floats:
    """Sum of the larger value of each pair: the crest lies on one of the two."""
    flat = plane.ravel()
    crest = np.maximum(flat[borders.pixel], flat[borders.neighbour])
    return borders.sums(crest.astype(np.float64))
