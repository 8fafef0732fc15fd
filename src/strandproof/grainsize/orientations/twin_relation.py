"""Twin-related pairs: 60 degrees about <111>, within Brandon's limit."""

from math import cos, pi, sin, sqrt

import numpy as np

from strandproof.errors import ParameterError
from strandproof.grainsize.orientations.cubic import smallest_cubic_angles
from strandproof.grainsize.orientations.rotations import Floats, inverse, product

BRANDON_ANGLE_DEG = 15.0
TWIN_SIGMA = 3

_SIGNS = np.array([(1, 1, 1), (-1, 1, 1), (1, -1, 1), (1, 1, -1)], dtype=np.float64)
_TWINS = np.column_stack(
    [np.full(4, cos(pi / 6.0)), _SIGNS * (sin(pi / 6.0) / sqrt(3.0))]
)


def brandon_limit_deg(sigma: int) -> float:
    """Give the largest departure that still counts as a coincidence relation.

    Parameters
    ----------
    sigma : int
        One lattice point in how many coincides; odd, 1 or more.

    Returns
    -------
    float
        15 / sqrt(sigma) [deg].

    Raises
    ------
    ParameterError
        If sigma is not odd and at least 1.

    References
    ----------
    D. G. Brandon, 1966, Acta Metallurgica 14, 1479-1484 (from memory, not read).

    Examples
    --------
    >>> round(brandon_limit_deg(3), 2)
    8.66
    """
    if sigma < 1 or sigma % 2 == 0:
        raise ParameterError("sigma", sigma, allowed="an odd whole number from 1 up")
    return BRANDON_ANGLE_DEG / sqrt(sigma)


def twin_departures_deg(relative: Floats) -> Floats:
    """Give the angle between relative rotations and the nearest twin relation.

    Parameters
    ----------
    relative : ndarray of float, shape (..., 4)
        Rotations from one cubic crystal to another.

    Returns
    -------
    ndarray of float, shape (...)
        Departure from 60 deg about a <111> axis [deg], the smallest over all
        equivalents.

    Notes
    -----
    Of the 576 products S T S' only four differ but for a rotation of the cube
    on the right, one for each <111> axis; so the smallest of four cubic angles
    is taken. Orientation alone: whether the boundary lies on the common {111}
    plane, as a straight annealing twin's does, is not looked at.
    """
    smallest = np.full(relative.shape[:-1], np.inf)
    for twin in inverse(_TWINS):
        angles = smallest_cubic_angles(product(twin, relative))
        np.minimum(smallest, angles, out=smallest)
    return np.asarray(np.rad2deg(smallest))


def twin_rotations() -> Floats:
    """Give the four rotations of 60 deg about a <111> axis.

    Returns
    -------
    ndarray of float, shape (4, 4)
        Unit quaternions, in crystal axes.
    """
    return _TWINS.copy()
