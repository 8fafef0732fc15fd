"""Disorientations of pairs of random cubic orientations, in closed form."""

from itertools import pairwise
from math import acos, atan, cos, degrees, isfinite, pi, radians, sin, sqrt, tan

from scipy import integrate

from strandproof.errors import ParameterError

LARGEST_DISORIENTATION_DEG = degrees(2.0 * acos((2.0 + sqrt(2.0)) / 4.0))
"""No two cubic crystals are farther apart [deg]: 62.80."""

_ROOT = sqrt(2.0) - 1.0
_LIMITS = (
    radians(45.0),
    radians(60.0),
    2.0 * atan(sqrt(2.0) * _ROOT),  # 60.72 deg
    radians(LARGEST_DISORIENTATION_DEG),
)


def random_disorientation_density(angle_deg: float) -> float:
    """Give the probability density of the disorientation of a random pair.

    Parameters
    ----------
    angle_deg : float
        Disorientation [deg].

    Returns
    -------
    float
        Density [1/deg]; 0 outside of 0 to 62.80 deg.

    Raises
    ------
    ParameterError
        If the angle is no finite number.

    Notes
    -----
    Up to 45 deg 2/15 (1 - cos) per degree; then the parts of the sphere that lie
    outside of the cube's fundamental zone are taken off. Four pieces, joined at
    45, 60 and 60.72 deg. Tests hold them against simulation, against their
    integral of 1, and against the closed form up to 45 deg.

    References
    ----------
    J. K. Mackenzie, 1958, Biometrika 45, 229-240 (from memory, not read).
    D. C. Handscomb, 1958, Canadian Journal of Mathematics 10, 85-88 (the same).

    Examples
    --------
    >>> round(random_disorientation_density(45.0), 4)
    0.0391
    """
    _require_finite(angle_deg)
    angle = radians(angle_deg)
    if not 0.0 <= angle <= _LIMITS[3]:
        return 0.0
    versine, sine = 1.0 - cos(angle), sin(angle)
    if angle <= _LIMITS[0]:
        inside = versine
    elif angle <= _LIMITS[1]:
        inside = 3.0 * _ROOT * sine - 2.0 * versine
    else:
        inside = (3.0 * _ROOT + 4.0 / sqrt(3.0)) * sine - 6.0 * versine
    if angle > _LIMITS[2]:
        inside += _corner_overlap(angle) * 12.0 / pi
    return max(0.0, 2.0 / 15.0 * inside)


def random_share_below(angle_deg: float) -> float:
    """Give the share of random pairs whose disorientation is at most an angle.

    Parameters
    ----------
    angle_deg : float
        Angle [deg]; 0 or more.

    Returns
    -------
    float
        Share, 0 to 1.

    Raises
    ------
    ParameterError
        If the angle is not a finite number of at least 0.

    Notes
    -----
    24 (a - sin a) / pi up to 45 deg, the volume of a ball of rotations over one
    24th of all; beyond, the integral of `random_disorientation_density`.

    Examples
    --------
    >>> round(random_share_below(15.0), 4)
    0.0228
    >>> round(random_share_below(5.0), 5)
    0.00085
    """
    _require_finite(angle_deg)
    if angle_deg < 0:
        raise ParameterError("angle_deg", angle_deg, allowed="0 or more [deg]")
    angle = min(radians(angle_deg), _LIMITS[3])
    share = 24.0 * _minus_sine(min(angle, _LIMITS[0])) / pi
    for lower, upper in pairwise(_LIMITS):
        if angle > lower:
            piece, _ = integrate.quad(
                random_disorientation_density,
                degrees(lower),
                degrees(min(angle, upper)),
                epsabs=1e-12,
            )
            share += piece
    return min(1.0, share)


def _minus_sine(angle: float) -> float:
    # a - sin a cancels for small angles; its series does not.
    return angle - sin(angle) if angle > 1e-3 else angle**3 / 6.0


def _corner_overlap(angle: float) -> float:
    cotangent = 1.0 / tan(0.5 * angle)
    first = _ROOT / sqrt(1.0 - (_ROOT * cotangent) ** 2)
    second = _ROOT**2 / sqrt(3.0 - cotangent**2)
    taken = 2.0 * _ROOT * _acos(first * cotangent)
    taken += _acos(second * cotangent) / sqrt(3.0)
    added = 2.0 * _acos((sqrt(2.0) + 1.0) * first / sqrt(2.0))
    added += _acos((sqrt(2.0) + 1.0) * second / sqrt(2.0))
    return added * (1.0 - cos(angle)) - taken * sin(angle)


def _acos(cosine: float) -> float:
    # Rounding carries the ends of a piece a little past 1.
    return acos(min(1.0, max(-1.0, cosine)))


def _require_finite(angle_deg: float) -> None:
    if not isfinite(angle_deg):
        raise ParameterError("angle_deg", angle_deg, allowed="a finite number [deg]")
