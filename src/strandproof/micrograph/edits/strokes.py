"""Points of an edit on the pixel grid, and the borders that a stroke runs along."""

from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import numpy.typing as npt
from scipy.spatial import KDTree
from skimage.draw import line, polygon

from strandproof.errors import ParameterError
from strandproof.micrograph.borders import Borders
from strandproof.micrograph.edits.kinds import REACH_PX, Point

Labels = npt.NDArray[np.int32]
Mask = npt.NDArray[np.bool_]
Integers = npt.NDArray[np.int64]
Pixel = tuple[int, int]

_SNAP_PX = 4
_LEAST_RUN = 3  # places on a border; a stroke across it has one or two


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Stroke:
    """A line of pixels, joined by sides or corners.

    Parameters
    ----------
    rows, cols : ndarray of int64, shape (n_pixels,)
        The pixels, in order.
    """

    rows: Integers
    cols: Integers


def stroke_through(points: tuple[Point, ...], shape: tuple[int, ...]) -> Stroke:
    """Draw a line of one pixel through points.

    Parameters
    ----------
    points : tuple of tuple of float
        Rows and columns [px].
    shape : tuple of int
        Rows and columns of the picture.

    Returns
    -------
    Stroke
        Its pixels.

    Raises
    ------
    ParameterError
        If a point lies outside of the picture, or all lie on one pixel.
    """
    pixels = _pixels(points, shape)
    if len(set(pixels)) < 2:
        raise ParameterError(
            "points_px", points, allowed="points on two pixels or more"
        )
    return _joined(pixels)


def led_on(stroke: Stroke, grains: Labels) -> Stroke:
    """Lead the open ends of a stroke on to a boundary or edge close by.

    Parameters
    ----------
    stroke : Stroke
        The line.
    grains : ndarray of int32, shape (n_rows, n_cols)
        Grains; 0 on boundaries and off the metal.

    Returns
    -------
    Stroke
        The same line, longer where another grain, boundary, edge or the picture's
        frame lies up to 4 px from an end.
    """
    pixels = list(zip(stroke.rows.tolist(), stroke.cols.tolist(), strict=True))
    if pixels[0] == pixels[-1]:
        return stroke
    start, end = (_next_wall(pixels[index], grains) for index in (0, -1))
    return _joined([start, *pixels, end])


def area_within(points: tuple[Point, ...], shape: tuple[int, ...]) -> Mask:
    """Fill a polygon.

    Parameters
    ----------
    points : tuple of tuple of float
        Rows and columns of the corners [px].
    shape : tuple of int
        Rows and columns of the picture.

    Returns
    -------
    ndarray of bool, shape (n_rows, n_cols)
        True on pixels whose centre lies within, or on the outline.

    Raises
    ------
    ParameterError
        If a corner lies outside of the picture.
    """
    _pixels(points, shape)
    corners = np.array(points)
    within = np.zeros(shape, np.bool_)
    within[polygon(corners[:, 0], corners[:, 1], shape)] = True
    return within


def borders_along(stroke: Stroke, borders: Borders, n_cols: int) -> Mask:
    """Find the borders that a stroke runs along.

    Parameters
    ----------
    stroke : Stroke
        Drawn by hand, up to 3 px off.
    borders : Borders
        Borders between regions.
    n_cols : int
        Columns of the picture.

    Returns
    -------
    ndarray of bool, shape (n_borders,)
        True where the places of a border that lie nearest to the stroke are more
        than a crossing would have (7 or more, or from 3 on half of the border); else
        for the one border with the most such places. All False with no border in reach.
    """
    along = np.zeros(borders.first.size, np.bool_)
    middle = np.stack(
        [
            (borders.pixel // n_cols + borders.neighbour // n_cols) / 2,
            (borders.pixel % n_cols + borders.neighbour % n_cols) / 2,
        ],
        axis=1,
    )
    drawn = np.stack([stroke.rows, stroke.cols], axis=1)
    low, high = drawn.min(axis=0) - REACH_PX, drawn.max(axis=0) + REACH_PX
    close = np.flatnonzero(((middle >= low) & (middle <= high)).all(axis=1))
    if close.size == 0:
        return along
    distance, nearest = map(np.asarray, KDTree(middle[close]).query(drawn))
    places = np.unique(close[nearest[distance <= REACH_PX]])
    run = np.bincount(borders.border_of_pair[places], minlength=along.size)
    along = (run > 2 * REACH_PX) | (run >= np.maximum(borders.lengths / 2, _LEAST_RUN))
    if not along.any() and run.any():
        along[np.argmax(run)] = True
    return along


def _pixels(points: tuple[Point, ...], shape: tuple[int, ...]) -> list[Pixel]:
    highest = (shape[0] - 0.5, shape[1] - 0.5)
    for point in points:
        if not all(-0.5 <= at < top for at, top in zip(point, highest, strict=True)):
            raise ParameterError(
                "point",
                point,
                allowed=f"a row from 0 to {shape[0] - 1} and a column from 0 to "
                f"{shape[1] - 1}, inside of the picture",
            )
    return [(int(np.floor(row + 0.5)), int(np.floor(col + 0.5))) for row, col in points]


def _joined(pixels: list[Pixel]) -> Stroke:
    legs = [np.stack(line(*start, *end)) for start, end in pairwise(pixels)]
    rows, cols = np.concatenate(legs, axis=1).astype(np.int64)
    return Stroke(rows=rows, cols=cols)


def _next_wall(pixel: Pixel, grains: Labels) -> Pixel:
    """Nearest pixel of another label up to 4 px away; the frame is such a place."""
    row, col = pixel
    if grains[row, col] == 0:
        return pixel
    steps = np.arange(-_SNAP_PX, _SNAP_PX + 1)
    down, right = (each.ravel() for each in np.meshgrid(steps, steps, indexing="ij"))
    rows = np.clip(row + down, 0, grains.shape[0] - 1)
    cols = np.clip(col + right, 0, grains.shape[1] - 1)
    outside = (rows != row + down) | (cols != col + right)
    wall = outside | (grains[rows, cols] != grains[row, col])
    away = np.where(wall, np.hypot(down, right), np.inf)
    nearest = int(np.argmin(away))
    if away[nearest] > _SNAP_PX:
        return pixel
    return int(rows[nearest]), int(cols[nearest])
