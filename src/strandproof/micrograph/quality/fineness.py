"""Too few pixels for a grain, and too few grains for a strand."""

from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt
from scipy import ndimage

from strandproof.micrograph.quality.crossings import LineCrossings

Labels = npt.NDArray[np.integer[Any]]

_FEWEST_CROSSINGS = 40
_WIDTH_SAMPLES = 256
_ROUGH = 0.1  # of the depth; towards a cut side it grows by more (1/7)


@dataclass(frozen=True, slots=True, kw_only=True)
class StructureScale:
    """Lengths of the found structure.

    Parameters
    ----------
    mean_intercept_px : float
        Length of test line over crossings [px].
    thin_intercept_px : float
        The same for rows or for columns alone, whichever is shorter [px].
    """

    mean_intercept_px: float
    thin_intercept_px: float


def structure_scale(
    ways: tuple[LineCrossings, LineCrossings],
) -> StructureScale | None:
    """Measure mean intercepts.

    Parameters
    ----------
    ways : tuple of LineCrossings
        Crossings along rows and columns.

    Returns
    -------
    StructureScale or None
        None with fewer than 40 crossings.

    Notes
    -----
    Mean intercept = length of test line / number of crossings.
    """
    crossings = [way.place.size for way in ways]
    if sum(crossings) < _FEWEST_CROSSINGS:
        return None
    lengths = [float(way.length_px[1:].sum()) for way in ways]
    return StructureScale(
        mean_intercept_px=sum(lengths) / sum(crossings),
        thin_intercept_px=min(
            length / max(count, 1)
            for length, count in zip(lengths, crossings, strict=True)
        ),
    )


def grains_across_strands(
    strand_labels: Labels, ways: tuple[LineCrossings, LineCrossings]
) -> dict[int, float]:
    """Estimate how many grains lie across each strand.

    Parameters
    ----------
    strand_labels : ndarray of int, shape (n_rows, n_cols)
        Strands.
    ways : tuple of LineCrossings
        Crossings along rows and columns.

    Returns
    -------
    dict of int to float
        Width over mean intercept by the number of the strand; 0 where no boundary
        was crossed. A strand whose width the picture does not show is left out.

    Notes
    -----
    Width: diameter of the largest circle inside. Intercept: of rows or columns,
    whichever cross the strand more steeply. Exact for strands along the picture's
    sides; for grains stretched along a strand that lies at 45 degrees the number
    is up to 1.4 times too low.
    """
    step = max(1, -(-max(strand_labels.shape) // _WIDTH_SAMPLES))
    small = strand_labels[::step, ::step]
    across = {}
    for number, place in enumerate(ndimage.find_objects(small), start=1):
        width = None if place is None else _width(small, number, place)
        if width is not None:
            crossings = _steep_crossings(number, ways)
            across[number] = width * step * crossings
    return across


def _width(small: Labels, number: int, place: tuple[slice, ...]) -> float | None:
    """Diameter of the largest circle; None where it grows towards the frame."""
    inside = small[place] == number
    ends = tuple(
        (int(part.start > 0), int(part.stop < side))
        for part, side in zip(place, small.shape, strict=True)
    )
    padded = np.pad(inside, ends)
    if padded.all():
        return None
    depth = ndimage.distance_transform_edt(padded)
    # At the frame the strand is cut, and a cut corner looks deeper than it is.
    near, far = (_deepest_away_from_frame(depth, ends, share) for share in (8, 4))
    return 2 * near - 1 if near - far < max(1.0, _ROUGH * near) else None


def _deepest_away_from_frame(
    depth: npt.NDArray[np.float64], ends: tuple[tuple[int, int], ...], share: int
) -> float:
    """Greatest depth, without a strip at the sides where the strand meets the frame."""
    inner = []
    for (low, high), side in zip(ends, depth.shape, strict=True):
        margin = max(1, side // share)
        inner.append(slice(0 if low else margin, side if high else side - margin))
    return float(depth[tuple(inner)].max(initial=0.0))


def _steep_crossings(number: int, ways: tuple[LineCrossings, LineCrossings]) -> float:
    """Crossings a pixel on the lines that cross a strand on the shorter way."""
    counts = [int(np.count_nonzero(way.strand == number)) for way in ways]
    lengths = [float(way.length_px[number]) for way in ways]
    densities = [
        count / length if length else 0.0
        for count, length in zip(counts, lengths, strict=True)
    ]
    return max(densities)
