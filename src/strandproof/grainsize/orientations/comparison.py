"""How places are compared, and how often separate grains would match."""

from dataclasses import dataclass

import numpy as np

from strandproof.grainsize.orientations.axis_direction import axis_match_chance
from strandproof.grainsize.orientations.match_chance import (
    fibre_match_chance,
    random_match_chance,
    sharp_fibre_match_chance,
)
from strandproof.records.orientation import Axis, FrameKnowledge
from strandproof.records.orientation_results import FibreTexture, MatchChance


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaceComparison:
    """How places are to be compared.

    Parameters
    ----------
    tolerance_deg : float
        Largest angle that counts as a match [deg]; above 0, at most 20.
    frame : {"shared", "axis"}
        ``"shared"``: all places were measured in one specimen frame, so whole
        orientations are compared. ``"axis"``: a strand taken out and mounted
        again keeps its axis but not its twist, so only what lies along the
        strand is compared.
    axis : {"x", "y"}
        Direction of the strand's axis in the specimen frame.
    texture : FibreTexture or None
        A texture known for such strands, for the chance of a match.
    """

    tolerance_deg: float = 5.0
    frame: FrameKnowledge = "shared"
    axis: Axis = "x"
    texture: FibreTexture | None = None


def place_chances(
    comparison: PlaceComparison, *, places: int, generator: np.random.Generator
) -> tuple[MatchChance, ...]:
    """Give the chances that separate grains would match at that many places.

    Parameters
    ----------
    comparison : PlaceComparison
        How places are compared.
    places : int
        Places compared; 2 or more.
    generator : numpy.random.Generator
        Source of chance.

    Returns
    -------
    tuple of MatchChance
        Random grains; with a shared frame all grains in the <111> fibre and all
        in the <100> fibre, both without tilt, which are the largest chances;
        then the given texture, simulated with its tilt.

    Raises
    ------
    ParameterError
        If the tolerance, places or texture are outside of what is allowed.
    """
    tolerance, texture = comparison.tolerance_deg, comparison.texture
    if comparison.frame == "axis":
        textures = (None,) if texture is None else (None, texture)
        return tuple(
            axis_match_chance(one, tolerance, generator=generator, places=places)
            for one in textures
        )
    chances = [random_match_chance(tolerance, places=places)]
    for share_111 in (1.0, 0.0):
        pure = FibreTexture(share_111=share_111, share_100=1.0 - share_111)
        chances.append(sharp_fibre_match_chance(pure, tolerance, places=places))
    if texture is not None:
        simulated = fibre_match_chance(
            texture, tolerance, generator=generator, places=places
        )
        chances.append(simulated)
    return tuple(chances)
