"""Annealing twins: lamellae with straight, parallel sides, merged into their grain."""

from collections.abc import Iterator

import numpy as np
import numpy.typing as npt

from strandproof.micrograph.border_lines import BorderLines
from strandproof.micrograph.regions import RegionGraph

Mask = npt.NDArray[np.bool_]

# A twin's side is straight to about half a pixel, beyond what the grid alone does.
_STRAIGHT_PX = 0.6
_LEAST_SIDE_PX = 8.0
_PARALLEL = np.cos(np.deg2rad(6.0))
# Across a lamella the grain goes on with the same shade (in clear steps).
_SAME_SHADE = 0.5


def twin_borders(graph: RegionGraph, lines: BorderLines) -> Mask:
    """Find the borders of lamellae.

    A region is a lamella when its two longest borders are straight and parallel
    and make up most of its outline. Both sides then belong to its grain when they
    border one region, or two of the same shade; a single straight side is no
    sign.

    Parameters
    ----------
    graph : RegionGraph
        Regions and their borders.
    lines : BorderLines
        Straight lines through the same borders.

    Returns
    -------
    ndarray of bool, shape (n_borders,)
        True on borders to be taken away.
    """
    straight = (lines.roughness <= _STRAIGHT_PX) & (lines.extent >= _LEAST_SIDE_PX)
    means = graph.shade_sum / np.maximum(graph.shade_weight, 1e-9)[:, None]
    chosen = np.zeros(graph.length.size, np.bool_)
    for region, sides in _sides_by_region(graph):
        pair = _parallel_sides(sides, straight, graph, lines)
        if pair is not None and _grain_goes_on(region, pair, graph, means):
            chosen[pair] = True
    return chosen


def _sides_by_region(
    graph: RegionGraph,
) -> Iterator[tuple[int, npt.NDArray[np.intp]]]:
    """Give each region with the numbers of its borders."""
    if graph.length.size == 0:
        return
    owner = np.concatenate([graph.first, graph.second])
    border = np.tile(np.arange(graph.length.size), 2)
    order = np.argsort(owner, kind="stable")
    regions, starts = np.unique(owner[order], return_index=True)
    for region, sides in zip(regions, np.split(border[order], starts[1:]), strict=True):
        yield int(region), sides


def _parallel_sides(
    sides: npt.NDArray[np.intp],
    straight: Mask,
    graph: RegionGraph,
    lines: BorderLines,
) -> npt.NDArray[np.intp] | None:
    if sides.size < 2:
        return None
    longest = sides[np.argsort(graph.length[sides])[-2:]]
    outline = graph.length[sides].sum()
    if not straight[longest].all() or graph.length[longest].sum() < 0.6 * outline:
        return None
    one, other = lines.direction[longest]
    return longest if abs(float(one @ other)) >= _PARALLEL else None


def _grain_goes_on(
    region: int,
    pair: npt.NDArray[np.intp],
    graph: RegionGraph,
    means: npt.NDArray[np.float64],
) -> bool:
    beyond = [
        int(graph.second[k] if graph.first[k] == region else graph.first[k])
        for k in pair
    ]
    difference = means[beyond[0]] - means[beyond[1]]
    return bool(np.sqrt((difference**2).sum()) <= _SAME_SHADE)
