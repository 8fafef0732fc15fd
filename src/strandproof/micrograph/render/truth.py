"""Exact answers read off label planes: boundary masks and mean intercepts."""

from dataclasses import dataclass
from itertools import product
from math import cos, gcd, hypot, inf, radians, sin, sqrt

import numpy as np
import numpy.typing as npt

from strandproof.micrograph.render.population import GrainPopulation

LabelPlane = npt.NDArray[np.int32]
Mask = npt.NDArray[np.bool_]

_LONGEST = 9  # pixels along an axis in a lattice step
_FEW_CROSSINGS = 0.15  # expected crossings of a step that may be used


def label_changes(labels: LabelPlane, within: LabelPlane) -> Mask:
    """Pixels with a 4-neighbour of another label inside the same piece.

    Parameters
    ----------
    labels : ndarray of int32, shape (n_rows, n_cols)
        Labels whose changes are wanted.
    within : ndarray of int32, shape (n_rows, n_cols)
        Pieces; pairs of pixels across two pieces, or in piece 0, do not count.

    Returns
    -------
    ndarray of bool, shape (n_rows, n_cols)
        True on both pixels of each such pair.
    """
    found = np.zeros(labels.shape, np.bool_)
    for first, second in _neighbour_slices():
        differ = labels[first] != labels[second]
        differ &= (within[first] == within[second]) & (within[first] > 0)
        found[first] |= differ
        found[second] |= differ
    return found


def _neighbour_slices() -> tuple[tuple[tuple[slice, slice], ...], ...]:
    every = slice(None)
    return (
        ((every, slice(None, -1)), (every, slice(1, None))),
        ((slice(None, -1), every), (slice(1, None), every)),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuredIntercepts:
    """Mean lineal intercepts of a label plane, twins not counted.

    Every row and every column of pixels is a test line; pairs of neighbouring
    pixels of one strand are its length, label changes between them its
    crossings. A direction without a crossing has no mean: None.

    Parameters
    ----------
    mean_um : float or None
        All rows and columns together: length over crossings [um].
    along_um, across_um : float or None
        Along and across the direction of the population [um]. Exact for 0
        and 90 deg; else from steps between pixels in several directions, good
        to a few percent up to an elongation of about 10.
    crossings : int
        Number of crossings behind `mean_um`.
    length_um : float
        Length of test line behind `mean_um` [um].
    """

    mean_um: float | None
    along_um: float | None
    across_um: float | None
    crossings: int
    length_um: float


def measure_intercepts(
    grains: LabelPlane,
    strands: LabelPlane,
    *,
    um_per_px: float,
    population: GrainPopulation,
) -> MeasuredIntercepts:
    """Measure the mean lineal intercepts of a plane of exact labels.

    Parameters
    ----------
    grains, strands : ndarray of int32, shape (n_rows, n_cols)
        Labels; 0 outside of metal.
    um_per_px : float
        Pixel size [um].
    population : GrainPopulation
        Gives the direction and how far grains are stretched.

    Returns
    -------
    MeasuredIntercepts
        The mean intercepts.

    Notes
    -----
    Mean intercept = length of test line / number of crossings. Counting pairs of
    pixels inside of one strand leaves out the pieces of line at strand edges and
    picture borders evenly from both numbers.
    """
    rows, columns = (_pairs(grains, strands, step) for step in ((1, 0), (0, 1)))
    crossings, pairs = rows[0] + columns[0], rows[1] + columns[1]
    along, across = _directed(grains, strands, population, um_per_px)
    return MeasuredIntercepts(
        mean_um=pairs / crossings * um_per_px if crossings else None,
        along_um=_scaled(along, um_per_px),
        across_um=_scaled(across, um_per_px),
        crossings=crossings,
        length_um=pairs * um_per_px,
    )


def _scaled(intercept_px: float | None, um_per_px: float) -> float | None:
    return None if intercept_px is None else intercept_px * um_per_px


def _pairs(
    grains: LabelPlane, strands: LabelPlane, step: tuple[int, int]
) -> tuple[int, int]:
    """Count pairs of pixels (right, up) apart: in two grains, and in all."""
    right, up = step
    n_rows, n_cols = grains.shape
    first = (slice(up, None), slice(0, n_cols - right))
    second = (slice(0, n_rows - up), slice(right, None))
    if right < 0:
        first, second = (
            (slice(up, None), slice(-right, None)),
            (slice(0, n_rows - up), slice(0, n_cols + right)),
        )
    same = (strands[first] == strands[second]) & (strands[first] > 0)
    differ = same & (grains[first] != grains[second])
    return int(np.count_nonzero(differ)), int(np.count_nonzero(same))


def _directed(
    grains: LabelPlane,
    strands: LabelPlane,
    population: GrainPopulation,
    um_per_px: float,
) -> tuple[float | None, float | None]:
    """Mean intercepts [px] along and across the direction of the population."""
    direction = population.direction_deg
    if direction % 90 == 0:
        along, across = ((1, 0), (0, 1)) if direction % 180 == 0 else ((0, 1), (1, 0))
        return (
            _exact(_pairs(grains, strands, along)),
            _exact(_pairs(grains, strands, across)),
        )
    counted = []
    for step in _steps(population, um_per_px):
        differ, pairs = _pairs(grains, strands, step)
        if differ:
            counted.append((*step, differ / pairs))
    if len(counted) < 3:
        return None, None
    form = _quadratic_form(np.array(counted))
    return _from_form(form, direction), _from_form(form, direction + 90)


def _exact(count: tuple[int, int]) -> float | None:
    differ, pairs = count
    return pairs / differ if differ else None


def _steps(population: GrainPopulation, um_per_px: float) -> list[tuple[int, int]]:
    """Lattice steps (right, up): the four shortest and some near the direction.

    Steps along the direction sharpen the answer for long grains; they stay so
    short that hardly any crosses two boundaries.
    """
    base = [(1, 0), (0, 1), (1, 1), (-1, 1)]
    turn = radians(population.direction_deg)
    length = (population.mean_intercept_um or 1.0) / um_per_px
    stretch = sqrt(population.elongation)
    near = []
    for right, up in product(range(-_LONGEST, _LONGEST + 1), range(1, _LONGEST + 1)):
        along = right * cos(turn) + up * sin(turn)
        across = -right * sin(turn) + up * cos(turn)
        crossings = hypot(along / stretch, across * stretch) / length
        if gcd(right, up) == 1 and crossings < _FEW_CROSSINGS:
            near.append((abs(across / along) if along else inf, (right, up)))
    return base + [step for _, step in sorted(near)[:6] if step not in base]


def _quadratic_form(counted: npt.NDArray[np.float64]) -> npt.NDArray[np.float64]:
    """Fit crossings(h)^2 = a x^2 + b x y + c y^2 with even relative weight.

    The relation is exact for parallel boundaries and for a structure without a
    preferred direction that was then stretched.
    """
    x, y, crossings = counted.T
    terms = np.column_stack((x**2, x * y, y**2)) / crossings[:, None] ** 2
    form: npt.NDArray[np.float64] = np.linalg.lstsq(
        terms, np.ones(len(terms)), rcond=None
    )[0]
    return form


def _from_form(form: npt.NDArray[np.float64], direction_deg: float) -> float | None:
    x, y = cos(radians(direction_deg)), sin(radians(direction_deg))
    squared = float(form @ (x * x, x * y, y * y))
    return 1 / sqrt(squared) if squared > 0 else None
