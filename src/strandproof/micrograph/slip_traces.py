"""Fine straight dark lines on a picture: how many per mm, and in which directions."""

from collections.abc import Iterator
from dataclasses import dataclass
from math import degrees

import numpy as np
import numpy.typing as npt
from scipy import ndimage

from strandproof.errors import ParameterError, PictureTooSmallError
from strandproof.records.physical import SlipTraceField

Plane = npt.NDArray[np.float64]
Mask = npt.NDArray[np.bool_]

_BACKGROUND_PX = 12.0  # standard deviation of what is taken for shade, not line
_LINE_PX = 1.3  # scale of the second derivative: lines about 2 to 4 px wide
_SLOPE_PX = 1.3  # scale of the slopes that directions come from
_WINDOW_PX = 3.0  # window over which a direction has to hold
_NOISE_FACTOR = 4.0  # contrast above the noise that a line needs
_WEAKER = 0.5  # share of it that continues a line
_COHERENCE = 0.35  # 0 without a direction, 1 for parallel edges
_SHORTEST_PX = 15.0  # shorter lines are left out
_CLASSES = 18
_LEAST_SIDE = 64
_TILE_PX, _HALO_PX = 768, 64

_Part = tuple[slice, slice]


@dataclass(frozen=True, slots=True, eq=False)
class _Lines:
    """Centre lines, one pixel wide, and the direction at each pixel."""

    centre: Mask
    direction: Plane  # radians, from +x towards +y upwards


def slip_trace_field(
    picture: npt.NDArray[np.floating],
    *,
    pixel_size_um: float,
    name: str = "",
    valid: Mask | None = None,
) -> SlipTraceField:
    """Measure fine straight dark lines, as slip steps make them, on one picture.

    Directions come from the structure tensor, lines from the curvature of the
    brightness across them. Scratches and twin edges are lines too, and a boundary is
    one where it runs straight: the number serves for comparing pictures of one surface
    before and after handling, taken alike, and names no line. It fails on blurred
    pictures and where lines lie closer than about 6 pixels.

    Parameters
    ----------
    picture : ndarray of float, shape (n_rows, n_cols) or (n_rows, n_cols, 3)
        Grey or colour, any scale; 64 pixels or more each way.
    pixel_size_um : float
        Pixel size [um]; above zero.
    name : str
        Name of the picture.
    valid : ndarray of bool, shape (n_rows, n_cols), or None
        Pixels of metal; None takes all.

    Returns
    -------
    SlipTraceField
        Lines per mm, by direction.

    Raises
    ------
    ParameterError
        If the pixel size is not above zero.
    PictureTooSmallError
        If a side is shorter than 64 pixels.

    Notes
    -----
    Line length per area L_A equals, for parallel lines, the number crossed per length
    at right angles. A pixel counts where the slope of the brightness changes its sign
    within it, taken along the line's normal from edge to edge; a line at angle d has
    1/max(|cos d|, |sin d|) of them for each pixel of its length. A line is kept where
    its contrast is four times the noise; the noise is that of the curvature *along*
    the lines, where a straight line has none.

    References
    ----------
    J. Bigun and G. H. Granlund, 1987, Optimal orientation detection of linear symmetry,
    for the structure tensor; C. Steger, 1998, An unbiased detector of curvilinear
    structures, for the place of a line (both from memory).
    """
    if not pixel_size_um > 0:
        raise ParameterError("pixel_size_um", pixel_size_um, allowed="above zero")
    if min(picture.shape[:2]) < _LEAST_SIDE:
        raise PictureTooSmallError(
            name or "the picture",
            n_rows=picture.shape[0],
            n_columns=picture.shape[1],
            smallest=_LEAST_SIDE,
        )
    metal = np.ones(picture.shape[:2], np.bool_) if valid is None else valid
    angles = [_angles_in_tile(picture, metal, tile) for tile in _tiles(metal.shape)]
    return _field(np.concatenate(angles), metal, pixel_size_um, name)


def _tiles(shape: tuple[int, ...]) -> Iterator[tuple[_Part, _Part]]:
    """Parts of a picture: with a halo, and the core within it."""
    for top in range(0, shape[0], _TILE_PX):
        for left in range(0, shape[1], _TILE_PX):
            starts = (top, left)
            outer = tuple(
                slice(max(0, start - _HALO_PX), min(size, start + _TILE_PX + _HALO_PX))
                for start, size in zip(starts, shape, strict=True)
            )
            inner = tuple(
                slice(start - whole.start, start - whole.start + _TILE_PX)
                for start, whole in zip(starts, outer, strict=True)
            )
            yield (outer[0], outer[1]), (inner[0], inner[1])


def _angles_in_tile(
    picture: npt.NDArray[np.floating], metal: Mask, tile: tuple[_Part, _Part]
) -> Plane:
    """Direction at each pixel of a line; in tiles, so that memory stays small."""
    whole, core = tile
    part = metal[whole]
    if not part[core].any():
        return np.empty(0)
    lines = _found_lines(_flat_grey(picture[whole], part), part)
    return lines.direction[core][lines.centre[core]]


def _flat_grey(picture: npt.NDArray[np.floating], metal: Mask) -> Plane:
    """Brightness relative to the shade around."""
    grey = picture.astype(np.float64)
    if grey.ndim == 3:
        grey = grey.mean(axis=2)
    grey = np.where(metal, grey, grey[metal].mean() if metal.any() else 0.0)
    shade = ndimage.gaussian_filter(grey, _BACKGROUND_PX)
    return grey / np.maximum(shade, 1e-6 + 0.05 * float(grey.max())) - 1.0


def _found_lines(flat: Plane, metal: Mask) -> _Lines:
    normal, coherence = _normals(flat)
    across, along = _curvatures(flat, normal)
    inner = ndimage.binary_erosion(metal, iterations=4, border_value=0)
    threshold = _NOISE_FACTOR * _noise(along[inner])
    crest = _crest(flat, normal) & inner
    strong = crest & (across > threshold) & (coherence > _COHERENCE)
    weak = crest & (across > _WEAKER * threshold)
    centre = _joined(strong, weak)
    return _Lines(_long_enough(centre), _direction(normal))


def _normals(flat: Plane) -> tuple[Plane, Plane]:
    """Angle of the steepest direction (rows down, columns right), and coherence."""
    # Derivatives of a Gaussian: differences of pixels turn oblique lines by a degree.
    down = ndimage.gaussian_filter(flat, _SLOPE_PX, order=(1, 0))
    right = ndimage.gaussian_filter(flat, _SLOPE_PX, order=(0, 1))
    rows, mixed, columns = (
        ndimage.gaussian_filter(product, _WINDOW_PX)
        for product in (down * down, down * right, right * right)
    )
    difference, total = rows - columns, rows + columns
    strength = np.hypot(difference, 2.0 * mixed)
    angle = 0.5 * np.arctan2(2.0 * mixed, -difference)
    return angle, strength / np.maximum(total, 1e-30)


def _curvatures(flat: Plane, normal: Plane) -> tuple[Plane, Plane]:
    """Second derivative across and along the local line."""
    rows, mixed, columns = (
        ndimage.gaussian_filter(flat, _LINE_PX, order=order)
        for order in ((2, 0), (1, 1), (0, 2))
    )
    x, y = np.cos(normal), np.sin(normal)
    across = y * y * rows + 2.0 * x * y * mixed + x * x * columns
    along = x * x * rows - 2.0 * x * y * mixed + y * y * columns
    return across, along


def _noise(values: Plane) -> float:
    if values.size == 0:
        return 0.0
    return 1.4826 * float(np.median(np.abs(values - np.median(values))))


def _crest(flat: Plane, normal: Plane) -> Mask:
    """Pixels that a darkest line passes through: darker before, lighter after."""
    slopes = [
        ndimage.gaussian_filter(flat, _LINE_PX, order=order)
        for order in ((1, 0), (0, 1))
    ]
    x, y = np.cos(normal), np.sin(normal)
    half = 0.5 / np.maximum(np.abs(x), np.abs(y))  # to the pixel's edge
    rows, columns = np.indices(flat.shape, dtype=np.float64)
    before, after = (
        _slope_at(slopes, (rows + side * half * y, columns + side * half * x), (y, x))
        for side in (-1.0, 1.0)
    )
    crest: Mask = (before <= 0) & (after > 0)
    return crest


def _slope_at(
    slopes: list[Plane], places: tuple[Plane, Plane], across: tuple[Plane, Plane]
) -> Plane:
    down, right = (
        ndimage.map_coordinates(plane, places, order=1, mode="nearest")
        for plane in slopes
    )
    slope: Plane = across[0] * down + across[1] * right
    return slope


def _joined(strong: Mask, weak: Mask) -> Mask:
    """Weak pixels that hang together with a strong one."""
    labels, count = ndimage.label(weak, structure=np.ones((3, 3)))
    kept = np.zeros(count + 1, np.bool_)
    kept[np.unique(labels[strong])] = True
    kept[0] = False
    return kept[labels]


def _long_enough(centre: Mask) -> Mask:
    labels, count = ndimage.label(centre, structure=np.ones((3, 3)))
    sizes = np.bincount(labels.ravel(), minlength=count + 1)
    sizes[0] = 0
    kept: Mask = (sizes >= _SHORTEST_PX)[labels]
    return kept


def _direction(normal: Plane) -> Plane:
    """Direction of the line, from +x towards +y upwards, 0 up to pi."""
    return np.mod(0.5 * np.pi - normal, np.pi)


def _field(
    angles: Plane, metal: Mask, pixel_size_um: float, name: str
) -> SlipTraceField:
    mm_per_px = 1e-3 * pixel_size_um
    inner = ndimage.binary_erosion(metal, iterations=4, border_value=0)
    area_mm2 = float(inner.sum()) * mm_per_px**2
    lengths = mm_per_px * np.maximum(np.abs(np.cos(angles)), np.abs(np.sin(angles)))
    edges = np.linspace(0.0, np.pi, _CLASSES + 1)
    by_class, _ = np.histogram(angles, bins=edges, weights=lengths)
    mean = np.sum(lengths * np.exp(2j * angles)) / max(float(lengths.sum()), 1e-30)
    return SlipTraceField(
        name=name,
        lines_per_mm=_per_area(float(lengths.sum()), area_mm2),
        directions_deg=tuple(np.rad2deg(0.5 * (edges[1:] + edges[:-1])).tolist()),
        lines_per_mm_by_direction=tuple(
            _per_area(length, area_mm2) for length in by_class.tolist()
        ),
        main_direction_deg=_main(mean) if angles.size else None,
        alignment=float(abs(mean)),
        area_mm2=area_mm2,
    )


def _per_area(length_mm: float, area_mm2: float) -> float:
    return length_mm / area_mm2 if area_mm2 else 0.0


def _main(mean: complex) -> float:
    # A tiny negative angle would come out as 180.
    direction = degrees(0.5 * float(np.angle(mean))) % 180.0
    return direction if direction < 180.0 else 0.0
