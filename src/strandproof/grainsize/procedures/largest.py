"""The largest grain of a picture, by calipers and by its pixels."""

from math import pi

import numpy as np
import numpy.typing as npt
from scipy.spatial import ConvexHull
from scipy.spatial.distance import pdist, squareform

from strandproof.grainsize.patch import MetalPatch
from strandproof.grainsize.procedures.digits import three_digits
from strandproof.grainsize.procedures.settings import ProcedureSettings
from strandproof.grainsize.relations import (
    GrainSizeRelations,
    planimetric_g,
    require_positive,
)
from strandproof.quantity import Quantity
from strandproof.records.structure_findings import LargestGrain

Floats = npt.NDArray[np.float64]


def caliper_area(longest: float, across: float) -> float:
    """Area of the ellipse with two caliper widths for axes.

    Parameters
    ----------
    longest, across : float
        Greatest caliper width and the one at a right angle to it; above 0.

    Returns
    -------
    float
        Area, in the square of the unit given.

    Raises
    ------
    ParameterError
        If a width is not a finite number above 0.

    Notes
    -----
    A = (pi/4) D_max D_perp, ASTM E930, from memory.

    Examples
    --------
    >>> round(caliper_area(2.0, 1.0), 3)
    1.571
    """
    require_positive("longest", longest)
    require_positive("across", across)
    return 0.25 * pi * longest * across


def one_grain_g(
    area_mm2: float, *, relations: GrainSizeRelations | None = None
) -> float:
    """ASTM grain size number of a single grain of known area.

    Parameters
    ----------
    area_mm2 : float
        Area on the section [mm^2]; above 0.
    relations : GrainSizeRelations, optional
        Constants; None takes the package's ``"e112"`` form.

    Returns
    -------
    float
        G of grains of that area; the number of one grain, not of a structure.

    Raises
    ------
    ParameterError
        If the area is not a finite number above 0.

    Notes
    -----
    G = -3.3219 log10(A) - 2.954, ASTM E930, from memory.

    Examples
    --------
    >>> round(one_grain_g(1.571), 2)
    -3.61
    """
    require_positive("area_mm2", area_mm2)
    return planimetric_g(1.0 / area_mm2, relations=relations)


def largest_grain(
    patch: MetalPatch, settings: ProcedureSettings
) -> LargestGrain | None:
    """Find the grain with the most pixels and measure it.

    Parameters
    ----------
    patch : MetalPatch
        The piece of metal.
    settings : ProcedureSettings
        Scale and constants.

    Returns
    -------
    LargestGrain or None
        None without any grain. A grain cut by the frame may be it: then its
        size is a lower bound.
    """
    areas = np.bincount(patch.labels.ravel()).astype(np.float64)
    if areas.size < 2:
        return None
    areas[0] = 0.0
    label = int(areas.argmax())
    longest, across = caliper_widths(patch.labels == label)
    mean = float(np.count_nonzero(patch.labels)) / patch.grains
    cut = any(
        bool((side == label).any())
        for side in (
            patch.labels[0],
            patch.labels[-1],
            patch.labels[:, 0],
            patch.labels[:, -1],
        )
    )
    return _scaled_grain(
        label, (longest, across, float(areas[label])), mean, settings, cut=cut
    )


def caliper_widths(mask: npt.NDArray[np.bool_]) -> tuple[float, float]:
    """Greatest caliper width of a region, and that at a right angle to it.

    Parameters
    ----------
    mask : ndarray of bool, shape (n_rows, n_cols)
        The region; at least one pixel.

    Returns
    -------
    longest, across : float
        Widths over the corners of its pixels [px].
    """
    corners = _hull(_pixel_corners(mask))
    distances = squareform(pdist(corners))
    first, second = divmod(int(distances.argmax()), distances.shape[0])
    direction = corners[second] - corners[first]
    longest = float(np.hypot(*direction))
    normal = np.array([-direction[1], direction[0]]) / longest
    return longest, float(np.ptp(corners @ normal))


def _scaled_grain(
    label: int,
    sizes_px: tuple[float, float, float],
    mean_area_px: float,
    settings: ProcedureSettings,
    *,
    cut: bool,
) -> LargestGrain:
    pixel, relations = settings.pixel_size, settings.relations
    size, unit = (1.0, "px") if pixel is None else (pixel.value, "um")
    relative = 0.0 if pixel is None else pixel.standard_uncertainty / pixel.value
    longest, across, counted = sizes_px
    areas = (caliper_area(longest, across) * size**2, counted * size**2)
    g_caliper = g_counted = None
    if pixel is not None:
        g_caliper, g_counted = (
            one_grain_g(area * 1e-6, relations=relations) for area in areas
        )
    times = counted / mean_area_px
    words = (
        f"Largest grain {three_digits(longest * size)} x "
        f"{three_digits(across * size)} {unit}"
    )
    number = "" if g_counted is None else f", G {g_counted:.1f} of that one grain"
    bound = " The frame cuts it, so that it is larger than seen." if cut else ""
    return LargestGrain(
        label=label,
        longest=Quantity(longest * size, unit, longest * size * relative),
        across_longest=Quantity(across * size, unit, across * size * relative),
        caliper_area=Quantity(areas[0], f"{unit}^2", 2 * areas[0] * relative),
        counted_area=Quantity(areas[1], f"{unit}^2", 2 * areas[1] * relative),
        g_caliper=g_caliper,
        g_counted=g_counted,
        times_mean_area=times,
        cut=cut,
        sentence=f"{words}, {times:.1f} times the area per grain{number}.{bound}",
    )


def _pixel_corners(mask: npt.NDArray[np.bool_]) -> Floats:
    rows, cols = np.nonzero(mask)
    # Only the first and last pixel of each row can lie on the hull.
    order = np.lexsort((cols, rows))
    rows, cols = rows[order], cols[order]
    last = np.append(np.flatnonzero(np.diff(rows)), rows.size - 1)
    first = np.append(0, last[:-1] + 1)
    left = np.column_stack((rows[first], cols[first] - 0.5))
    right = np.column_stack((rows[last], cols[last] + 0.5))
    sides = np.vstack((left, right)).astype(np.float64)
    half_row = np.array([0.5, 0.0])
    return np.vstack((sides + half_row, sides - half_row))


def _hull(points: Floats) -> Floats:
    hull: Floats = points[ConvexHull(points).vertices]
    return hull
