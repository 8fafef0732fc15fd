"""How orientations depart from one reference along a strand."""

import numpy as np

from strandproof.grainsize.orientations.cubic import disorientations_deg
from strandproof.grainsize.orientations.regions import TrustedPoints
from strandproof.grainsize.orientations.rotations import Floats
from strandproof.records.orientation import OrientationRules, OrientationTable
from strandproof.records.orientation_results import OrientationSpread, SpreadStretch

_STRETCHES = 20
_WITHIN_DEG = (2.0, 5.0, 15.0)
_BLOCK = 400_000
_NEARLY_ALL = 99.0  # per cent: the very largest would be a single bad point


def orientation_spread(
    table: OrientationTable,
    points: TrustedPoints,
    reference: Floats,
    *,
    rules: OrientationRules,
) -> OrientationSpread:
    """Compare the measured points of a map with one orientation.

    Parameters
    ----------
    table : OrientationTable
        Places of the points.
    points : TrustedPoints
        Their orientations; bridged points are left out.
    reference : ndarray of float, shape (4,)
        Orientation to compare with.
    rules : OrientationRules
        Direction of the axis.

    Returns
    -------
    OrientationSpread
        Over twenty stretches of equal length, and over all.
    """
    place = table.x_um if rules.axis == "x" else table.y_um
    kept = points.measured
    angles = _angles(points.orientations[kept], reference)
    edges = np.linspace(place.min(), place.max(), _STRETCHES + 1)
    stretch = np.clip(
        np.searchsorted(edges, place[kept], side="right") - 1, 0, _STRETCHES - 1
    )
    return OrientationSpread(
        stretches=tuple(
            _stretch(angles[stretch == number], edges[number], edges[number + 1])
            for number in range(_STRETCHES)
        ),
        within_deg=_WITHIN_DEG,
        share_within=tuple(float((angles <= limit).mean()) for limit in _WITHIN_DEG),
    )


def _angles(orientations: Floats, reference: Floats) -> Floats:
    parts = [
        disorientations_deg(reference, orientations[start : start + _BLOCK])
        for start in range(0, len(orientations), _BLOCK)
    ]
    return np.concatenate(parts)


def _stretch(angles: Floats, start: float, end: float) -> SpreadStretch:
    if len(angles) == 0:
        return SpreadStretch(
            from_um=float(start),
            to_um=float(end),
            points=0,
            median_deg=None,
            largest_deg=None,
        )
    return SpreadStretch(
        from_um=float(start),
        to_um=float(end),
        points=len(angles),
        median_deg=float(np.median(angles)),
        largest_deg=float(np.percentile(angles, _NEARLY_ALL)),
    )
