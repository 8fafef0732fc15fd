"""Smooth random fields and repeatable per-crystal random numbers."""

from collections.abc import Sequence

import numpy as np
import numpy.typing as npt
from scipy import ndimage, sparse

FloatPlane = npt.NDArray[np.float32]

# Mean over a cell of the sum of squared cubic B-spline weights (151/315): a sum of
# unit white coefficients has this variance along each of the two directions.
_SPLINE_VARIANCE = 151.0 / 315.0


def stream(seed: int, purpose: str) -> np.random.Generator:
    """Return the generator of one purpose, independent of all other purposes.

    Every step draws from a stream of its own, so that switching one artefact on
    leaves the grains and all other artefacts where they were.
    """
    key = tuple(purpose.encode())
    return np.random.default_rng(np.random.SeedSequence(seed, spawn_key=key))


def spline_rows(positions: npt.NDArray[np.float64], n_knots: int) -> sparse.csr_array:
    """Weights of a uniform cubic B-spline at `positions` (in knot spacings)."""
    base = np.clip(np.floor(positions), 1, n_knots - 3).astype(np.int64)
    t = positions - base
    weights = np.stack(
        (
            (1 - t) ** 3,
            3 * t**3 - 6 * t**2 + 4,
            -3 * t**3 + 3 * t**2 + 3 * t + 1,
            t**3,
        ),
        axis=1,
    )
    columns = base[:, None] + np.arange(-1, 3)
    starts = np.arange(positions.size + 1) * 4
    data = (weights / 6).astype(np.float32).ravel()
    shape = (positions.size, n_knots)
    return sparse.csr_array((data, columns.ravel(), starts), shape=shape)


def spread_knots(
    knots: FloatPlane, rows: sparse.csr_array, columns: sparse.csr_array
) -> FloatPlane:
    """Evaluate a tensor-product spline; sparse sums keep the result repeatable."""
    tall = rows @ knots
    return np.ascontiguousarray((columns @ tall.T).T)


def smooth_noise(
    shape: tuple[int, int],
    cell_px: float | tuple[float, float],
    generator: np.random.Generator,
) -> FloatPlane:
    """Gaussian field with zero mean, unit variance and features about 2 cells wide.

    Parameters
    ----------
    shape : tuple of int
        Rows and columns.
    cell_px : float or tuple of float
        Distance between knots [px], for rows and columns alike or each.
    generator : numpy.random.Generator
        Source of the random knots.

    Returns
    -------
    ndarray of float32, shape (n_rows, n_cols)
        The field.
    """
    cells = (cell_px, cell_px) if isinstance(cell_px, (int, float)) else cell_px
    sides = [
        _side(n, max(cell, 1.0), generator)
        for n, cell in zip(shape, cells, strict=True)
    ]
    knots = generator.standard_normal(
        (sides[0].shape[1], sides[1].shape[1]), dtype=np.float32
    )
    field = spread_knots(knots, *sides)
    return field * np.float32(1 / _SPLINE_VARIANCE)


def _side(n: int, cell: float, generator: np.random.Generator) -> sparse.csr_array:
    positions = np.arange(n) / cell + 1 + generator.uniform()
    return spline_rows(positions, int(positions[-1]) + 3)


def noise_at(
    points: Sequence[npt.NDArray[np.float64]],
    cell: float,
    generator: np.random.Generator,
) -> FloatPlane:
    """Smooth unit noise at scattered points (two coordinate arrays of one shape)."""
    first, second = points
    origin = (first.min(), second.min())
    fine = cell / 4  # linear interpolation between quarter cells is smooth enough
    shape = (
        int((first.max() - origin[0]) / fine) + 3,
        int((second.max() - origin[1]) / fine) + 3,
    )
    table = smooth_noise(shape, 4.0, generator)
    where = np.stack([(first - origin[0]) / fine, (second - origin[1]) / fine])
    return ndimage.map_coordinates(table, where, order=1).astype(np.float32)


def octave_noise(
    shape: tuple[int, int],
    cell_px: float,
    generator: np.random.Generator,
    *,
    octaves: int = 3,
) -> FloatPlane:
    """Sum of smooth fields of halving size and amplitude, unit variance."""
    total = np.zeros(shape, np.float32)
    power = 0.0
    for octave in range(octaves):
        weight = 0.6**octave
        total += np.float32(weight) * smooth_noise(
            shape, cell_px / 2**octave, generator
        )
        power += weight**2
    return total / np.float32(np.sqrt(power))


def hashed_uniform(numbers: npt.NDArray[np.int64], salt: int) -> FloatPlane:
    """Map integers to repeatable uniform numbers in [0, 1); same in, same out.

    The mixing steps are those of a splitmix64 generator [1]_.

    References
    ----------
    .. [1] G. L. Steele, D. Lea, C. H. Flood, "Fast splittable pseudorandom number
       generators", OOPSLA 2014, doi:10.1145/2660193.2660195 (constants from
       memory; only their mixing quality matters here).
    """
    start = np.uint64(salt * 0x9E3779B97F4A7C15 % 2**64)
    mixed = numbers.astype(np.uint64) + start
    mixed = (mixed ^ (mixed >> np.uint64(30))) * np.uint64(0xBF58476D1CE4E5B9)
    mixed = (mixed ^ (mixed >> np.uint64(27))) * np.uint64(0x94D049BB133111EB)
    mixed ^= mixed >> np.uint64(31)
    return ((mixed >> np.uint64(40)).astype(np.float32)) * np.float32(2.0**-24)
