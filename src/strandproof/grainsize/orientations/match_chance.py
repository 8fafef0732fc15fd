"""How often separate grains have matching orientations by chance."""

from dataclasses import replace

import numpy as np

from strandproof.errors import ParameterError
from strandproof.grainsize.orientations.cubic import (
    disorientations_deg,
)
from strandproof.grainsize.orientations.random_pairs import random_share_below
from strandproof.grainsize.orientations.textures import (
    fibre_orientations,
    texture_in_words,
    texture_shares,
)
from strandproof.quantity import binomial_interval
from strandproof.records.orientation_results import FibreTexture, MatchChance

LARGEST_TOLERANCE_DEG = 20.0

_HALF_PERIOD_DEG = {"111": 60.0, "100": 45.0}


def random_match_chance(tolerance_deg: float, *, places: int = 2) -> MatchChance:
    """Give the chance that separate grains of random orientation match.

    Parameters
    ----------
    tolerance_deg : float
        Largest disorientation that counts as a match [deg]; above 0, at most 20.
    places : int
        Places compared, all others with the first; 2 or more.

    Returns
    -------
    MatchChance
        In closed form.

    Raises
    ------
    ParameterError
        If tolerance or places are outside of what is allowed.

    Notes
    -----
    (24 (a - sin a) / pi) ** (places - 1): against one fixed grain the others
    are independent.

    Examples
    --------
    >>> round(random_match_chance(5.0).chance, 5)
    0.00085
    """
    require_comparison(tolerance_deg, places)
    return MatchChance(
        texture="random orientations",
        tolerance_deg=tolerance_deg,
        places=places,
        chance=random_share_below(tolerance_deg) ** (places - 1),
        lower=None,
        upper=None,
        method="closed form",
    )


def sharp_fibre_match_chance(
    texture: FibreTexture, tolerance_deg: float, *, places: int = 2
) -> MatchChance:
    """Give the chance of a match where grains of a fibre differ by a twist only.

    Parameters
    ----------
    texture : FibreTexture
        Shares of the fibres; its tilt is taken as 0.
    tolerance_deg : float
        Largest disorientation that counts as a match [deg]; above 0, at most 20.
    places : int
        Places compared, all others with the first; 2 or more.

    Returns
    -------
    MatchChance
        In closed form.

    Raises
    ------
    ParameterError
        If a share, the tolerance or the places are outside of what is allowed.

    Notes
    -----
    Two grains of one fibre differ by a twist about the axis, which the crystal
    repeats every 120 deg (<111>) or 90 deg (<100>): a / 60 and a / 45. Grains of
    different fibres are at least 54.7 deg apart. A grain of the random part
    matches any other with 24 (a - sin a) / pi.

    Examples
    --------
    >>> only_111 = FibreTexture(share_111=1.0, share_100=0.0)
    >>> round(sharp_fibre_match_chance(only_111, 5.0).chance, 4)
    0.0833
    """
    require_comparison(tolerance_deg, places)
    shares = texture_shares(texture)
    by_chance = random_share_below(tolerance_deg)
    chance = shares["random"] * by_chance ** (places - 1)
    for fibre, half_period in _HALF_PERIOD_DEG.items():
        same = shares[fibre] * tolerance_deg / half_period
        chance += shares[fibre] * (same + shares["random"] * by_chance) ** (places - 1)
    return MatchChance(
        texture=texture_in_words(replace(texture, tilt_deg=0.0)),
        tolerance_deg=tolerance_deg,
        places=places,
        chance=chance,
        lower=None,
        upper=None,
        method="closed form",
    )


def fibre_match_chance(
    texture: FibreTexture,
    tolerance_deg: float,
    *,
    generator: np.random.Generator,
    places: int = 2,
    draws: int = 200_000,
) -> MatchChance:
    """Simulate the chance of a match in a fibre texture with tilt.

    Parameters
    ----------
    texture : FibreTexture
        Shares of the fibres and their tilt.
    tolerance_deg : float
        Largest disorientation that counts as a match [deg]; above 0, at most 20.
    generator : numpy.random.Generator
        Source of chance.
    places : int
        Places compared, all others with the first; 2 or more.
    draws : int
        How often a strand is drawn; 1000 to 5 million.

    Returns
    -------
    MatchChance
        With exact binomial limits of the simulation (95 %).

    Raises
    ------
    ParameterError
        If a share, the tolerance, the places or the draws are outside of what
        is allowed.
    """
    require_comparison(tolerance_deg, places)
    if not 1000 <= draws <= 5_000_000:
        raise ParameterError("draws", draws, allowed="1000 to 5 million")
    first = fibre_orientations(texture, draws, generator)
    matching = np.ones(draws, dtype=np.bool_)
    for _ in range(places - 1):
        other = fibre_orientations(texture, draws, generator)
        matching &= disorientations_deg(first, other) <= tolerance_deg
    hits = int(matching.sum())
    limits = binomial_interval(hits, draws)
    return MatchChance(
        texture=texture_in_words(texture),
        tolerance_deg=tolerance_deg,
        places=places,
        chance=hits / draws,
        lower=limits.lower,
        upper=limits.upper,
        method=f"simulation, {draws} draws",
    )


def require_comparison(tolerance_deg: float, places: int) -> None:
    """Refuse a tolerance or a number of places that nothing can be said for.

    Parameters
    ----------
    tolerance_deg : float
        Largest angle that counts as a match [deg]; above 0, at most 20.
    places : int
        Places compared; 2 or more.

    Raises
    ------
    ParameterError
        If one of the two is outside of that.
    """
    if not 0.0 < tolerance_deg <= LARGEST_TOLERANCE_DEG:
        raise ParameterError(
            "tolerance_deg",
            tolerance_deg,
            allowed=f"above 0, at most {LARGEST_TOLERANCE_DEG:g} [deg]",
        )
    if places < 2:
        raise ParameterError("places", places, allowed="2 or more")
