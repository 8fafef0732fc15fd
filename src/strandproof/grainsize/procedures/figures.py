"""Where circles and rectangles are laid, and how large."""

from math import hypot, pi

import numpy as np
import numpy.typing as npt
from scipy import ndimage

from strandproof.errors import ParameterError
from strandproof.grainsize.patch import MetalPatch
from strandproof.records.procedures import FigureSize, TestFigure

_ASPECT = 4.0 / 3.0
# Sides that run along a strand's edge would cut a sliver off every grain there.
_WITHIN_STRAND = 0.8
_ROOM_FOR_SEVERAL = 0.9
Floats = npt.NDArray[np.float64]


def print_size_um(size_mm: float, magnification: float) -> float:
    """Size in the section of a figure drawn on a print.

    Parameters
    ----------
    size_mm : float
        Size on the print [mm]; above 0.
    magnification : float
        Magnification of the print; above 0.

    Returns
    -------
    float
        Size in the plane of the section [um].

    Raises
    ------
    ParameterError
        If one of the two is not above 0.

    Examples
    --------
    >>> print_size_um(79.8, 100.0)
    798.0
    """
    for name, given in (("size_mm", size_mm), ("magnification", magnification)):
        if not given > 0:
            raise ParameterError(name, given, allowed="a number above 0")
    return 1000.0 * size_mm / magnification


def placed_circles(
    patch: MetalPatch, *, diameter_px: float | None = None, most: int = 1
) -> tuple[TestFigure, ...]:
    """Lay equal circles side by side, the first where the metal is widest.

    The places go by the outline of the metal alone, not by what is seen in it.

    Parameters
    ----------
    patch : MetalPatch
        The piece of metal.
    diameter_px : float or None
        Diameter [px]; None takes the largest circle that fits, or nine tenths of
        it where several are wanted, which leaves them room.
    most : int
        Circles at most; only the first may lie in part off the metal.

    Returns
    -------
    tuple of TestFigure
        In the pixels of the picture, nearest to the middle first; no two overlap.

    Raises
    ------
    ParameterError
        If the diameter is not above 0.
    """
    depth = _depth(patch)
    largest = largest_circle_px(patch)
    size: FigureSize = "largest_that_fits" if diameter_px is None else "given"
    diameter = largest if diameter_px is None else diameter_px
    if diameter_px is None and most > 1:
        diameter = _ROOM_FOR_SEVERAL * largest
    if not diameter > 0:
        raise ParameterError("diameter_px", diameter, allowed="a length above 0")
    return tuple(
        TestFigure(
            kind="circle",
            centre_px=(row + patch.corner_px[0], col + patch.corner_px[1]),
            size_px=(diameter,),
            size_from=size,
            clipped=diameter > largest + 1e-9,
        )
        for row, col in _centres(patch, depth, diameter, most)
    )


def largest_circle_px(patch: MetalPatch) -> float:
    """Diameter of the largest circle that fits into a piece of metal.

    Parameters
    ----------
    patch : MetalPatch
        The piece of metal.

    Returns
    -------
    float
        Diameter [px].
    """
    return 2.0 * (float(_depth(patch).max()) - 0.5)


def placed_rectangle(
    patch: MetalPatch, *, height_width_px: tuple[float, float] | None = None
) -> TestFigure:
    """Lay an upright rectangle where the metal is widest.

    Parameters
    ----------
    patch : MetalPatch
        The piece of metal.
    height_width_px : tuple of float, optional
        Height and width [px]; None takes the largest of 3 to 4 that fits around
        the middle of the widest place, or four fifths of it within a strand, whose
        edge its sides would else run along.

    Returns
    -------
    TestFigure
        In the pixels of the picture; its borders run between pixels.

    Raises
    ------
    ParameterError
        If a side is shorter than two pixels.
    """
    depth = _depth(patch)
    (centre,) = _centres(patch, depth, 2.0 * float(depth.max()), 1)
    size: FigureSize = "largest_that_fits" if height_width_px is None else "given"
    sides = height_width_px or _largest_sides(patch, centre)
    if height_width_px is None and not patch.metal.all():
        sides = (_WITHIN_STRAND * sides[0], _WITHIN_STRAND * sides[1])
    if min(map(round, sides)) < 2:
        raise ParameterError("height_width_px", sides, allowed="2 px or more each")
    rows, cols = _box(centre, sides)
    height, width = rows[1] - rows[0], cols[1] - cols[0]
    return TestFigure(
        kind="rectangle",
        centre_px=(
            0.5 * (rows[0] + rows[1] - 1) + patch.corner_px[0],
            0.5 * (cols[0] + cols[1] - 1) + patch.corner_px[1],
        ),
        size_px=(float(height), float(width)),
        size_from=size,
        clipped=not _all_metal(patch, rows, cols),
    )


def figure_region(figure: TestFigure, patch: MetalPatch) -> npt.NDArray[np.bool_]:
    """Metal inside of a circle or rectangle.

    Parameters
    ----------
    figure : TestFigure
        The figure.
    patch : MetalPatch
        The piece of metal.

    Returns
    -------
    ndarray of bool, shape (n_rows, n_cols)
        True on metal inside.

    Raises
    ------
    ParameterError
        If the figure has no inside.
    """
    centre = (
        figure.centre_px[0] - patch.corner_px[0],
        figure.centre_px[1] - patch.corner_px[1],
    )
    if figure.kind == "circle":
        rows, cols = np.ogrid[: patch.metal.shape[0], : patch.metal.shape[1]]
        squared = (rows - centre[0]) ** 2 + (cols - centre[1]) ** 2
        inside: npt.NDArray[np.bool_] = squared <= (0.5 * figure.size_px[0]) ** 2
        return inside & patch.metal
    if figure.kind == "rectangle":
        rows_at, cols_at = _box(centre, (figure.size_px[0], figure.size_px[1]))
        region = np.zeros(patch.metal.shape, np.bool_)
        region[_slice(rows_at), _slice(cols_at)] = True
        return region & patch.metal
    if figure.kind == "whole_metal":
        return patch.metal
    raise ParameterError("figure", figure.kind, allowed="a circle or a rectangle")


def corners_in_metal(figure: TestFigure, patch: MetalPatch) -> int:
    """Count the corners of a rectangle that lie in metal.

    Parameters
    ----------
    figure : TestFigure
        A rectangle.
    patch : MetalPatch
        The piece of metal.

    Returns
    -------
    int
        0 to 4.
    """
    region = figure_region(figure, patch)
    centre = (
        figure.centre_px[0] - patch.corner_px[0],
        figure.centre_px[1] - patch.corner_px[1],
    )
    rows, cols = _box(centre, (figure.size_px[0], figure.size_px[1]))
    return sum(
        0 <= row < region.shape[0]
        and 0 <= col < region.shape[1]
        and bool(region[row, col])
        for row in (rows[0], rows[1] - 1)
        for col in (cols[0], cols[1] - 1)
    )


def three_diameters_px(total_length_px: float) -> tuple[float, float, float]:
    """Diameters of three concentric, equally spaced circles.

    Parameters
    ----------
    total_length_px : float
        Sum of the circumferences, in any unit of length.

    Returns
    -------
    tuple of float
        Outer, middle and inner diameter, as 3 : 2 : 1.

    Examples
    --------
    >>> [round(each, 2) for each in three_diameters_px(500.0)]
    [79.58, 53.05, 26.53]
    """
    unit = total_length_px / (6.0 * pi)
    return 3.0 * unit, 2.0 * unit, unit


def _depth(patch: MetalPatch) -> Floats:
    """Distance of each pixel from the nearest one off the metal or the picture."""
    padded = np.pad(patch.metal, 1)
    depth: Floats = ndimage.distance_transform_edt(padded)[1:-1, 1:-1]
    return depth


def _centres(
    patch: MetalPatch, depth: Floats, diameter: float, most: int
) -> list[tuple[float, float]]:
    """Places of circles, nearest to the middle of the metal first."""
    needed = min(0.5 * diameter + 0.5, float(depth.max()))
    rows, cols = (
        each.astype(np.float64) for each in np.nonzero(depth >= needed - 1e-6)
    )
    middle = [float(each.mean()) for each in np.nonzero(patch.metal)]
    # Many places are as wide in a long strand: take the one nearest to its middle.
    order = np.argsort(np.hypot(rows - middle[0], cols - middle[1]), kind="stable")
    rows, cols = rows[order], cols[order]
    found: list[tuple[float, float]] = []
    while rows.size and len(found) < most:
        found.append((float(rows[0]), float(cols[0])))
        apart = np.hypot(rows - rows[0], cols - cols[0]) >= diameter
        rows, cols = rows[apart], cols[apart]
    return found


def _largest_sides(
    patch: MetalPatch, centre: tuple[float, float]
) -> tuple[float, float]:
    height, best = 2, (2.0, 2.0)
    limit = int(hypot(*patch.metal.shape)) + 1
    step = max(1, limit // 64)
    while step:
        sides = (float(height + step), float(round((height + step) * _ASPECT)))
        if height + step <= limit and _all_metal(patch, *_box(centre, sides)):
            height, best = height + step, sides
        else:
            step //= 2
    return best


def _box(
    centre: tuple[float, float], sides: tuple[float, float]
) -> tuple[tuple[int, int], tuple[int, int]]:
    spans = []
    for place, side in zip(centre, sides, strict=True):
        start = round(place - 0.5 * side + 0.5)
        spans.append((start, start + round(side)))
    return spans[0], spans[1]


def _all_metal(patch: MetalPatch, rows: tuple[int, int], cols: tuple[int, int]) -> bool:
    n_rows, n_cols = patch.metal.shape
    if rows[0] < 0 or cols[0] < 0 or rows[1] > n_rows or cols[1] > n_cols:
        return False
    return bool(patch.metal[_slice(rows), _slice(cols)].all())


def _slice(span: tuple[int, int]) -> slice:
    return slice(max(0, span[0]), max(0, span[1]))
