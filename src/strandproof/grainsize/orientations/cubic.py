"""Cubic crystals: their 24 rotations, and the smallest rotation between two."""

from functools import cache
from itertools import product as every_combination

import numpy as np
import numpy.typing as npt

from strandproof.errors import ParameterError
from strandproof.grainsize.orientations.rotations import (
    Floats,
    inverse,
    product,
    relative_rotations,
)

_ROUNDS = 4


@cache
def cubic_rotations() -> Floats:
    """Give the 24 rotations that bring a cube onto itself.

    Returns
    -------
    ndarray of float, shape (24, 4)
        Unit quaternions: the identity, 3 half turns and 6 quarter turns about
        <100>, 6 half turns about <110>, 8 third turns about <111>. Read-only.
    """
    parts = np.array(list(every_combination((-1.0, 0.0, 1.0), repeat=4)))
    length = np.linalg.norm(parts, axis=1)
    # One, two or four non-zero parts; three would be no rotation of the cube.
    whole = parts[np.isin(np.count_nonzero(parts, axis=1), (1, 2, 4))]
    unit = whole / length[np.isin(np.count_nonzero(parts, axis=1), (1, 2, 4))][:, None]
    leading = np.take_along_axis(unit, (unit != 0).argmax(axis=1)[:, None], axis=1)
    rotations = unit[leading[:, 0] > 0]
    rotations.setflags(write=False)
    return np.asarray(rotations)


def smallest_cubic_angles(relative: Floats) -> Floats:
    """Give the smallest angle among the equivalents of relative rotations.

    Parameters
    ----------
    relative : ndarray of float, shape (..., 4)
        Rotations from one cubic crystal to another.

    Returns
    -------
    ndarray of float, shape (...)
        Angle [rad], 0 to 62.8 deg; NaN where a rotation is NaN.

    Notes
    -----
    With the absolute parts in falling order a >= b >= c >= d, the products with
    the 24 rotations have the scalar parts a, (a + b)/sqrt 2, (a + b + c + d)/2
    and smaller ones, so cos(angle/2) is the largest of these three. A test
    compares this with all 24 products.
    """
    falling = np.sort(np.abs(relative), axis=-1)
    largest, next_largest = falling[..., 3], falling[..., 2]
    two = (largest + next_largest) * np.sqrt(0.5)
    four = 0.5 * falling.sum(axis=-1)
    cosine = np.maximum(np.maximum(largest, two), four)
    return np.asarray(2.0 * np.arccos(np.minimum(cosine, 1.0)))


def disorientations_deg(first: Floats, second: Floats) -> Floats:
    """Give the disorientation of pairs of cubic crystals.

    Parameters
    ----------
    first, second : ndarray of float, shapes (..., 4) that go together
        Orientations.

    Returns
    -------
    ndarray of float, shape (...)
        Smallest angle that brings one crystal onto the other [deg].

    Examples
    --------
    >>> none = np.array([1.0, 0.0, 0.0, 0.0])
    >>> turned = np.array([np.cos(np.pi / 6), 0.0, 0.0, np.sin(np.pi / 6)])
    >>> round(float(disorientations_deg(none, turned)), 6)  # 60 about <100>
    30.0
    """
    return np.asarray(
        np.rad2deg(smallest_cubic_angles(relative_rotations(first, second)))
    )


def nearest_equivalents(rotations: Floats, reference: Floats) -> Floats:
    """Choose of each orientation the equivalent nearest to a reference.

    Parameters
    ----------
    rotations : ndarray of float, shape (n, 4)
        Orientations.
    reference : ndarray of float, shape (4,)
        The reference.

    Returns
    -------
    ndarray of float, shape (n, 4)
        Equivalent orientations, with the sign that makes their product with the
        reference positive.
    """
    # (q s) . r = q . (r s*): one matrix product finds the best of 24.
    targets = product(reference, inverse(cubic_rotations()))
    likeness = rotations @ targets.T
    best = np.abs(likeness).argmax(axis=1)
    sign = np.sign(np.take_along_axis(likeness, best[:, None], axis=1))
    return sign * product(rotations, cubic_rotations()[best])


def mean_orientation(rotations: Floats, start: Floats | None = None) -> Floats:
    """Average orientations that lie within some degrees of each other.

    Means little for orientations that do not: of two separate groups it is
    neither.

    Parameters
    ----------
    rotations : ndarray of float, shape (n, 4)
        Orientations; at least one.
    start : ndarray of float, shape (4,), optional
        Where to begin; None takes the first orientation.

    Returns
    -------
    ndarray of float, shape (4,)
        Mean: nearest equivalents are added up and normalised, a few times over.

    Raises
    ------
    ParameterError
        If there is no orientation.
    """
    if len(rotations) == 0:
        raise ParameterError(
            "rotations", len(rotations), allowed="at least one orientation"
        )
    mean = rotations[0] if start is None else start
    for _ in range(_ROUNDS):
        summed = nearest_equivalents(rotations, mean).sum(axis=0)
        mean = summed / np.linalg.norm(summed)
    return np.asarray(mean)


def is_finite_orientation(rotations: Floats) -> npt.NDArray[np.bool_]:
    """Tell which points carry an orientation.

    Parameters
    ----------
    rotations : ndarray of float, shape (..., 4)
        Orientations, NaN where none was found.

    Returns
    -------
    ndarray of bool, shape (...)
        True where there is one.
    """
    return np.asarray(np.isfinite(rotations[..., 0]))
