"""Put metal, marks, mount and camera together to one picture."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from scipy import ndimage

from strandproof.micrograph.render.bands import sharp_bands
from strandproof.micrograph.render.camera import photograph
from strandproof.micrograph.render.crystals import (
    Crystals,
    shade_plane,
    tint_planes,
)
from strandproof.micrograph.render.grooves import groove_plane, relief_plane
from strandproof.micrograph.render.hardships import Wear
from strandproof.micrograph.render.mount import beside_mount
from strandproof.micrograph.render.noise import FloatPlane, stream
from strandproof.micrograph.render.outline import StrandMap
from strandproof.micrograph.render.parameters import SectionParameters
from strandproof.micrograph.render.spots import dark_spots, etch_pits, stains
from strandproof.micrograph.render.streaks import (
    comet_tails,
    draw_streaks,
    scratches,
)
from strandproof.micrograph.render.textures import (
    band_plane,
    interior_plane,
    slip_traces,
)
from strandproof.micrograph.render.unreadable import obscured
from strandproof.micrograph.render.wear import hard_wear, pits_all_over

Mask = npt.NDArray[np.bool_]

_SEEN = 0.3  # a scratch is marked where it has this share of the typical depth


@dataclass(frozen=True, slots=True, eq=False)
class Painting:
    """A picture and the masks of what was painted over the grains.

    Parameters
    ----------
    picture : ndarray of float32, shape (n_rows, n_cols, 3)
        The picture, 0 to 1.
    scratch, slip_trace, defect, unreadable : ndarray of bool, (n_rows, n_cols)
        Pixels of scratches; of slip lines; of pits, pores, comet tails, etch
        pits and stains; of patches that hide all structure. All lie within metal.
    """

    picture: npt.NDArray[np.float32]
    scratch: Mask
    slip_trace: Mask
    defect: Mask
    unreadable: Mask


@dataclass(frozen=True, slots=True, eq=False)
class _Damage:
    """Factors on brightness, and masks, of preparation traces."""

    factor: FloatPlane
    scratch: Mask
    defect: Mask


def paint(
    crystals: Crystals, strands: StrandMap, parameters: SectionParameters, seed: int
) -> Painting:
    """Paint the picture of a section whose geometry is known."""
    etch, preparation = parameters.etch, parameters.preparation
    metal = strands.labels > 0
    slip = slip_traces(crystals, etch, seed)
    damage = _damage(parameters, seed)
    pits = etch_pits(crystals, etch, seed).with_more(
        pits_all_over(crystals, etch.dots, seed)
    )
    brightness = _etched_metal(crystals, parameters, seed)
    brightness *= 1 - np.float32(etch.deformation.slip_darkness) * slip.darkness
    brightness *= damage.factor * pits.factor
    light, film = _tinted(brightness, crystals, parameters, seed)
    if strands.depth_px is not None:
        light = beside_mount(light, strands.depth_px, damage.factor, preparation, seed)
    hidden = obscured(light, preparation.unreadable, parameters.camera, seed)
    return Painting(
        photograph(hidden.light, parameters.camera, seed),
        damage.scratch & metal,
        slip.mask & metal,
        (damage.defect | pits.mask | film) & metal,
        hidden.mask & metal,
    )


def _etched_metal(
    crystals: Crystals, parameters: SectionParameters, seed: int
) -> FloatPlane:
    etch = parameters.etch
    grooves = groove_plane(crystals, etch.groove, seed)
    brightness = shade_plane(crystals, etch, seed)
    if etch.soft_transition_px:
        sigma = etch.soft_transition_px / 2.355
        brightness = ndimage.gaussian_filter(brightness, sigma)
    brightness *= interior_plane(crystals, etch, seed)
    if etch.deformation_bands:
        brightness *= band_plane(crystals, parameters, seed)
    brightness += relief_plane(crystals, grooves, etch, seed)
    brightness *= 1 - grooves
    return brightness


def _damage(parameters: SectionParameters, seed: int) -> _Damage:
    shape, preparation = parameters.shape, parameters.preparation
    lines = scratches(shape, preparation, seed)
    tails = comet_tails(shape, preparation, seed)
    scratched = draw_streaks(shape, lines, stream(seed, "scratch depth"))
    smeared = draw_streaks(shape, tails, stream(seed, "comet depth"))
    spots = dark_spots(shape, preparation, tails, seed)
    factor = spots.factor
    for streaks in (scratched, smeared):
        factor *= (1 - streaks.dark) * (1 + streaks.light)
    seen = max(_SEEN * preparation.scratch_depth, 0.02)
    damage = _Damage(factor, scratched.dark > seen, spots.mask | (smeared.dark > 0.15))
    if preparation.wear == Wear():
        return damage
    hard = hard_wear(shape, preparation.wear, seed)
    return _Damage(
        factor * hard.factor, damage.scratch | hard.scratch, damage.defect | hard.defect
    )


def _tinted(
    brightness: FloatPlane,
    crystals: Crystals,
    parameters: SectionParameters,
    seed: int,
) -> tuple[list[FloatPlane], Mask]:
    """Colour the metal and lay stains over it."""
    preparation = parameters.preparation
    tints = tint_planes(crystals, parameters.etch, seed)
    if parameters.etch.soft_transition_px:
        sigma = parameters.etch.soft_transition_px / 2.355
        tints = [ndimage.gaussian_filter(tint, sigma) for tint in tints]
    light = [brightness * tint for tint in tints]
    if parameters.etch.deformation.draws_bands():
        light = sharp_bands(crystals, parameters.etch.deformation, seed).tinted(light)
    if preparation.stain_fraction == 0:
        return light, np.zeros(brightness.shape, np.bool_)
    film = stains(parameters.shape, preparation.stain_fraction, seed)
    stained = [
        plane * (1 - film.amount * np.float32(1 - share))
        for plane, share in zip(light, film.tint, strict=True)
    ]
    return stained, film.mask
