"""Which crystal direction lies along the strand, whatever its twist."""

import numpy as np

from strandproof.errors import ParameterError
from strandproof.grainsize.orientations.match_chance import require_comparison
from strandproof.grainsize.orientations.rotations import (
    Floats,
    inverse,
    product,
    random_rotations,
)
from strandproof.grainsize.orientations.textures import (
    fibre_orientations,
    texture_in_words,
)
from strandproof.quantity import binomial_interval
from strandproof.records.orientation_results import FibreTexture, MatchChance

_Z = np.array([0.0, 0.0, 1.0])


def axis_directions(orientations: Floats, axis: Floats) -> Floats:
    """Give the crystal direction along the strand, reduced by cubic symmetry.

    Parameters
    ----------
    orientations : ndarray of float, shape (..., 4)
        Orientations.
    axis : ndarray of float, shape (3,)
        The strand's axis in the specimen's frame, of length 1.

    Returns
    -------
    ndarray of float, shape (..., 3)
        Direction [u, v, w] of length 1 with u >= v >= w >= 0; which end of the
        strand comes first is of no account.
    """
    pure = np.concatenate([[0.0], axis])
    turned = product(product(inverse(orientations), pure), orientations)
    return np.asarray(np.sort(np.abs(turned[..., 1:]), axis=-1)[..., ::-1])


def axis_departures_deg(first: Floats, second: Floats, axis: Floats) -> Floats:
    """Give how far two crystals differ in what lies along the strand.

    Parameters
    ----------
    first, second : ndarray of float, shapes (..., 4) that go together
        Orientations, each in a frame that holds the strand's axis; the twist
        about the axis may differ.
    axis : ndarray of float, shape (3,)
        The strand's axis, of length 1.

    Returns
    -------
    ndarray of float, shape (...)
        Angle [deg], 0 to 54.7; never above the disorientation.

    Notes
    -----
    Of the 48 images of a direction the one sorted alike is nearest: of all
    orders and signs, falling order gives the largest scalar product.
    """
    cosine = np.sum(
        axis_directions(first, axis) * axis_directions(second, axis), axis=-1
    )
    return np.asarray(np.rad2deg(np.arccos(np.clip(cosine, -1.0, 1.0))))


def axis_match_chance(
    texture: FibreTexture | None,
    tolerance_deg: float,
    *,
    generator: np.random.Generator,
    places: int = 2,
    draws: int = 200_000,
) -> MatchChance:
    """Simulate how often separate grains agree in what lies along the strand.

    Parameters
    ----------
    texture : FibreTexture or None
        Texture; None is random.
    tolerance_deg : float
        Largest angle that counts as a match [deg]; above 0, at most 20.
    generator : numpy.random.Generator
        Source of chance.
    places : int
        Places compared, all others with the first; 2 or more.
    draws : int
        How often a strand is drawn; 1000 to 5 million.

    Returns
    -------
    MatchChance
        With exact binomial limits of the simulation (95 %). All grains in one
        fibre without tilt match always.

    Raises
    ------
    ParameterError
        If the tolerance, places, draws or texture are outside of what is
        allowed.
    """
    require_comparison(tolerance_deg, places)
    if not 1000 <= draws <= 5_000_000:
        raise ParameterError("draws", draws, allowed="1000 to 5 million")
    first = _drawn(texture, draws, generator)
    matching = np.ones(draws, dtype=np.bool_)
    for _ in range(places - 1):
        other = _drawn(texture, draws, generator)
        matching &= axis_departures_deg(first, other, _Z) <= tolerance_deg
    hits = int(matching.sum())
    limits = binomial_interval(hits, draws)
    words = "random orientations"
    return MatchChance(
        texture=words if texture is None else texture_in_words(texture),
        tolerance_deg=tolerance_deg,
        places=places,
        chance=hits / draws,
        lower=limits.lower,
        upper=limits.upper,
        method=f"simulation, {draws} draws, direction along the strand only",
    )


def _drawn(
    texture: FibreTexture | None, count: int, generator: np.random.Generator
) -> Floats:
    if texture is None:
        return random_rotations(count, generator)
    return fibre_orientations(texture, count, generator)
