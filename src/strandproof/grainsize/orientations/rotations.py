"""Rotations as unit quaternions, and Bunge angles turned into them.

A quaternion (w, x, y, z) stands for the rotation that carries the specimen's axes
onto the crystal's axes; it and its negative are the same rotation.
"""

from typing import assert_never

import numpy as np
import numpy.typing as npt

from strandproof.records.orientation import AngleMeaning

Floats = npt.NDArray[np.float64]


def quaternions_of_bunge_angles(angles_rad: Floats, *, meaning: AngleMeaning) -> Floats:
    """Turn Bunge angles into quaternions.

    Parameters
    ----------
    angles_rad : ndarray of float, shape (..., 3)
        phi1, Phi, phi2 [rad]; NaN stays NaN.
    meaning : {"passive", "active"}
        ``"passive"``: turning the specimen's axes by phi1 about z, then by Phi
        about the new x, then by phi2 about the new z makes them the crystal's
        axes; the matrix of these angles turns specimen coordinates into crystal
        coordinates. ``"active"``: the same angles describe the opposite
        rotation, from the crystal's axes to the specimen's.

    Returns
    -------
    ndarray of float, shape (..., 4)
        Unit quaternions.

    Notes
    -----
    Passive: w = cos(Phi/2) cos((phi1 + phi2)/2), x = sin(Phi/2) cos((phi1 -
    phi2)/2), y = sin(Phi/2) sin((phi1 - phi2)/2), z = cos(Phi/2) sin((phi1 +
    phi2)/2): the product of the three turns. Taking one meaning for the other
    changes every disorientation but those from the axes themselves.

    References
    ----------
    H.-J. Bunge, Texture Analysis in Materials Science, 1982 (convention, from
    memory).

    Examples
    --------
    >>> quarter = np.array([np.pi / 2, 0.0, 0.0])
    >>> quaternions_of_bunge_angles(quarter, meaning="passive").round(3).tolist()
    [0.707, 0.0, 0.0, 0.707]
    """
    half = 0.5 * np.asarray(angles_rad, dtype=np.float64)
    first, tilt, second = half[..., 0], half[..., 1], half[..., 2]
    turned = np.stack(
        [
            np.cos(tilt) * np.cos(first + second),
            np.sin(tilt) * np.cos(first - second),
            np.sin(tilt) * np.sin(first - second),
            np.cos(tilt) * np.sin(first + second),
        ],
        axis=-1,
    )
    match meaning:
        case "passive":
            return turned
        case "active":
            return inverse(turned)
        case _:
            assert_never(meaning)


def inverse(rotations: Floats) -> Floats:
    """Give the opposite rotations.

    Parameters
    ----------
    rotations : ndarray of float, shape (..., 4)
        Unit quaternions.

    Returns
    -------
    ndarray of float, shape (..., 4)
        Conjugate quaternions.
    """
    return np.asarray(rotations * np.array([1.0, -1.0, -1.0, -1.0]))


def product(first: Floats, second: Floats) -> Floats:
    """Multiply rotations: in the result `second` acts before `first`.

    Parameters
    ----------
    first, second : ndarray of float, shapes (..., 4) that go together
        Unit quaternions.

    Returns
    -------
    ndarray of float, shape (..., 4)
        Their products, by Hamilton's rule.
    """
    a, b, c, d = (first[..., part] for part in range(4))
    w, x, y, z = (second[..., part] for part in range(4))
    shape = (*np.broadcast_shapes(a.shape, w.shape), 4)
    result = np.empty(shape, dtype=np.float64)
    result[..., 0] = a * w - b * x - c * y - d * z
    result[..., 1] = a * x + b * w + c * z - d * y
    result[..., 2] = a * y - b * z + c * w + d * x
    result[..., 3] = a * z + b * y - c * x + d * w
    return result


def relative_rotations(first: Floats, second: Floats) -> Floats:
    """Give the rotations that lead from one crystal to another.

    Parameters
    ----------
    first, second : ndarray of float, shapes (..., 4) that go together
        Orientations.

    Returns
    -------
    ndarray of float, shape (..., 4)
        Rotations in the axes of the first crystal.
    """
    return product(inverse(first), second)


def about_axis(axis: Floats, angle_rad: Floats) -> Floats:
    """Give rotations about an axis.

    Parameters
    ----------
    axis : ndarray of float, shape (..., 3)
        Directions of length 1.
    angle_rad : ndarray of float, shape (...)
        Angles [rad].

    Returns
    -------
    ndarray of float, shape (..., 4)
        Unit quaternions.
    """
    half = 0.5 * np.asarray(angle_rad, dtype=np.float64)[..., np.newaxis]
    return np.concatenate(
        [np.cos(half) * np.ones_like(axis[..., :1]), np.sin(half) * axis], axis=-1
    )


def random_rotations(count: int, generator: np.random.Generator) -> Floats:
    """Draw rotations with every orientation equally probable.

    Parameters
    ----------
    count : int
        How many.
    generator : numpy.random.Generator
        Source of chance.

    Returns
    -------
    ndarray of float, shape (count, 4)
        Unit quaternions: normalised vectors of four normal deviates.
    """
    drawn = generator.standard_normal((count, 4))
    return np.asarray(drawn / np.linalg.norm(drawn, axis=1, keepdims=True))
