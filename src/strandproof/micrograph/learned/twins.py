"""Borders left over that are a twin's side and no grain boundary."""

import numpy as np
import numpy.typing as npt

from strandproof.micrograph.border_lines import BorderLines
from strandproof.micrograph.learned.regions import RegionGraph

Mask = npt.NDArray[np.bool_]

_STRAIGHT_PX = 0.6  # a twin's side is as straight as this, the pixel grid included
_LEAST_SIDE_PX = 6.0


def twin_borders(graph: RegionGraph, lines: BorderLines) -> Mask:
    """Find borders that the network takes rather for a twin's side.

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
    likelier = graph.twin_strength() > graph.boundary_strength()
    chosen: Mask = straight & likelier
    return chosen
