"""Grains with <111> or <100> along the strand, drawn and put in words."""

from math import acos, sqrt

import numpy as np

from strandproof.errors import ParameterError
from strandproof.grainsize.orientations.rotations import (
    Floats,
    about_axis,
    product,
    random_rotations,
)
from strandproof.records.orientation_results import FibreTexture

# Carry z, taken as the strand's axis, onto <111> or leave it on <100>.
_ALONG_Z = {
    "111": about_axis(
        np.array([-1.0, 1.0, 0.0]) / sqrt(2.0), np.array(acos(1.0 / sqrt(3.0)))
    ),
    "100": np.array([1.0, 0.0, 0.0, 0.0]),
}


def fibre_orientations(
    texture: FibreTexture, count: int, generator: np.random.Generator
) -> Floats:
    """Draw orientations of a fibre texture; the strand's axis is z.

    Parameters
    ----------
    texture : FibreTexture
        Shares of the fibres and their tilt.
    count : int
        How many.
    generator : numpy.random.Generator
        Source of chance.

    Returns
    -------
    ndarray of float, shape (count, 4)
        Orientations.

    Raises
    ------
    ParameterError
        If a share or the tilt is outside of what is allowed.

    Notes
    -----
    A random twist about z, then a tilt whose two parts, about x and y, are
    normal deviates. Which of the equivalent <111> or <100> lies along z is of
    no account for a cubic crystal.
    """
    shares = texture_shares(texture)
    kind = generator.choice(3, size=count, p=list(shares.values()))
    drawn = random_rotations(count, generator)
    z = np.tile([0.0, 0.0, 1.0], (count, 1))
    twist = about_axis(z, generator.uniform(0.0, 2.0 * np.pi, count))
    tilt = _tilts(np.radians(texture.tilt_deg), count, generator)
    for number, name in enumerate(_ALONG_Z):
        rows = kind == number
        turned = product(tilt[rows], twist[rows])
        drawn[rows] = product(turned, _ALONG_Z[name])
    return drawn


def texture_in_words(texture: FibreTexture) -> str:
    """Say what the grains were taken to be.

    Parameters
    ----------
    texture : FibreTexture
        The texture.

    Returns
    -------
    str
        Shares and tilt.

    Raises
    ------
    ParameterError
        If a share or the tilt is outside of what is allowed.

    Examples
    --------
    >>> texture_in_words(FibreTexture(share_111=0.7, share_100=0.3, tilt_deg=8.0))
    '70 % <111> fibre and 30 % <100> fibre, 8° tilt'
    """
    shares = texture_shares(texture)
    parts = [
        f"{100.0 * shares[name]:.3g} % <{name}> fibre"
        for name in _ALONG_Z
        if shares[name] > 0.0
    ]
    if shares["random"] > 0.0:
        parts.append(f"{100.0 * shares['random']:.3g} % random")
    tilt = f"{texture.tilt_deg:g}° tilt" if texture.tilt_deg > 0.0 else "no tilt"
    return f"{' and '.join(parts)}, {tilt}"


def texture_shares(texture: FibreTexture) -> dict[str, float]:
    """Give the share of each kind of grain.

    Parameters
    ----------
    texture : FibreTexture
        The texture.

    Returns
    -------
    dict from str to float
        Under ``"111"``, ``"100"`` and ``"random"``; together 1.

    Raises
    ------
    ParameterError
        If a share or the tilt is outside of what is allowed.
    """
    named = {"111": texture.share_111, "100": texture.share_100}
    for name, share in named.items():
        if not 0.0 <= share <= 1.0:
            parameter = f"share_{name}"
            raise ParameterError(parameter, share, allowed="0 to 1")
    left = 1.0 - sum(named.values())
    if left < -1e-9:
        raise ParameterError(
            "share_111 + share_100", sum(named.values()), allowed="at most 1 together"
        )
    if not 0.0 <= texture.tilt_deg <= 45.0:
        raise ParameterError("tilt_deg", texture.tilt_deg, allowed="0 to 45 deg")
    return {**named, "random": left if left > 1e-9 else 0.0}


def _tilts(deviation_rad: float, count: int, generator: np.random.Generator) -> Floats:
    across = generator.normal(0.0, deviation_rad, (count, 2))
    angle = np.hypot(across[:, 0], across[:, 1])
    axis = np.zeros((count, 3))
    axis[:, 0] = 1.0
    tilted = angle > 0
    axis[tilted, :2] = across[tilted] / angle[tilted, np.newaxis]
    return about_axis(axis, angle)
