"""From measures to flags of the registry."""

from collections.abc import Iterator
from math import isfinite
from typing import Any

import numpy as np
import numpy.typing as npt

from strandproof.micrograph.evidence import BoundaryEvidence
from strandproof.micrograph.lab import LabPicture
from strandproof.micrograph.quality.compression import compression_quality, shows_blocks
from strandproof.micrograph.quality.crossings import LineCrossings, line_crossings
from strandproof.micrograph.quality.etching import boundary_closure, groove_look
from strandproof.micrograph.quality.fineness import (
    grains_across_strands,
    structure_scale,
)
from strandproof.micrograph.quality.light import clipped_shares, light_ratio
from strandproof.micrograph.quality.resizing import resizing_traces
from strandproof.micrograph.quality.sharpening import seam_height
from strandproof.micrograph.quality.softness import edge_softness
from strandproof.micrograph.quality.spectrum import flat_power, regular_combs
from strandproof.micrograph.quality.tiles import sampled_tiles
from strandproof.records import Flag

FloatPlane = npt.NDArray[np.float32]
Mask = npt.NDArray[np.bool_]
Labels = npt.NDArray[np.integer[Any]]
_Ways = tuple[LineCrossings, LineCrossings]

# Set from pictures drawn by this project's renderer and looked at on real ones;
# docs/segmentation.md gives the rates. The last three are common practice.
_LOW_CONTRAST_FROM = 12.0  # L*
_BLURRED_FROM = 1.6  # px of edge softness
_BLURRED_AGAINST_GRAINS = 0.12  # of the mean intercept across the grains
_SATURATED_FROM, _GLARE_FROM = 0.02, 0.01  # of the metal
_SEAM_FROM = 0.05  # of a line's depth
_UNEVEN_FROM = 2.0
_GROOVES_FROM = 0.4  # of the area
_UNSEEN_FROM = 0.25  # of the crossings
_UNSUPPORTED_FROM, _LEFT_OVER_FROM = 0.35, 0.65
_FAINT_BELOW = 0.9  # times noise and texture
_FEWEST_PIXELS = 10.0
_FEWEST_ACROSS = 10.0


def picture_flags(picture: LabPicture, evidence: BoundaryEvidence) -> tuple[Flag, ...]:
    """Raise the flags that need the picture alone.

    Parameters
    ----------
    picture : LabPicture
        The picture.
    evidence : BoundaryEvidence
        What it could have shown.

    Returns
    -------
    tuple of Flag
        ``low_contrast``, ``blurred``, ``sharpened``, ``resized``,
        ``lossy_compression``, ``saturated``, ``uneven_light``; none without metal.
    """
    metal = evidence.metal
    if not metal.any():
        return ()
    tiles = sampled_tiles(picture, metal)
    flags = [*_contrast(evidence.visible_line_depth)]
    if len(tiles):
        flags += [*_edges(tiles), *_file_history(tiles)]
    flags += _light(picture, metal)
    return tuple(flags)


def structure_flags(
    picture: LabPicture,
    *,
    grain_labels: Labels,
    strand_labels: Labels,
    probability: FloatPlane | None = None,
) -> tuple[Flag, ...]:
    """Raise the flags that need the grains found in a picture.

    Parameters
    ----------
    picture : LabPicture
        The picture.
    grain_labels : ndarray of int, shape (n_rows, n_cols)
        Grains; 0 outside of metal or on a boundary.
    strand_labels : ndarray of int, shape (n_rows, n_cols)
        Strands; 0 outside of metal.
    probability : ndarray of float32, shape (n_rows, n_cols), optional
        Probability of a boundary, 0 to 1, from which the grains were closed.

    Returns
    -------
    tuple of Flag
        ``few_pixels_per_grain``, ``few_grains_across`` by strand, ``blurred``
        (against the smallest grains), ``over_etched``, ``under_etched``,
        ``low_contrast``. Fewer than 40 crossings raise none but
        ``few_grains_across``.
    """
    ways = line_crossings(grain_labels, strand_labels)
    flags = [*_scale(picture, strand_labels, ways)]
    flags += _grooves(picture, ways)
    if probability is not None:
        flags += _closure(grain_labels, strand_labels, probability)
    flags += _across(strand_labels, ways)
    kept: dict[tuple[str, int | None], Flag] = {}
    for flag in flags:
        kept.setdefault((flag.name, flag.strand), flag)
    return tuple(kept.values())


def _contrast(visible_line_depth: float) -> Iterator[Flag]:
    if isfinite(visible_line_depth) and visible_line_depth > _LOW_CONTRAST_FROM:
        detail = f"grooves show from {visible_line_depth:.0f} L* depth"
        yield Flag("low_contrast", detail)


def _edges(tiles: FloatPlane) -> Iterator[Flag]:
    softness = edge_softness(tiles)
    if softness is not None and softness > _BLURRED_FROM:
        yield Flag("blurred", f"the sharper edges are blurred by {softness:.1f} px")
    seam = seam_height(tiles)
    if seam is not None and seam > _SEAM_FROM:
        detail = f"light seams of {100 * seam:.0f} % of a line's depth beside lines"
        yield Flag("sharpened", detail)


def _file_history(tiles: FloatPlane) -> Iterator[Flag]:
    combs, power = regular_combs(tiles), flat_power(tiles)
    if power is not None:
        found = resizing_traces(power, combs)
        if found.factors:
            either = " or ".join(f"{factor:.1f}" for factor in found.factors)
            yield Flag("resized", f"pattern as of enlarging {either} times")
        elif found.comb:
            yield Flag("resized", "regular pattern as of enlarging")
        elif found.empty_band:
            yield Flag("resized", "the finest detail is missing")
    if shows_blocks(combs):
        quality = compression_quality(tiles)
        guess = "" if quality is None else f", setting about {quality} of 100"
        yield Flag("lossy_compression", f"blocks of 8 px in the picture{guess}")


def _light(picture: LabPicture, metal: Mask) -> Iterator[Flag]:
    shares = clipped_shares(picture, metal)
    clipped = shares.white + shares.black
    if clipped > _SATURATED_FROM or shares.largest_white > _GLARE_FROM:
        detail = (
            f"{100 * shares.white:.0f} % of the metal white, "
            f"{100 * shares.black:.0f} % black"
        )
        yield Flag("saturated", detail)
    ratio = light_ratio(picture, metal)
    if ratio is not None and ratio > _UNEVEN_FROM:
        yield Flag("uneven_light", f"brightest over darkest place {ratio:.1f}")


def _scale(picture: LabPicture, strand_labels: Labels, ways: _Ways) -> Iterator[Flag]:
    scale = structure_scale(ways)
    if scale is None:
        return
    if scale.mean_intercept_px < _FEWEST_PIXELS:
        detail = f"mean intercept {scale.mean_intercept_px:.1f} px"
        yield Flag("few_pixels_per_grain", detail)
    softness = edge_softness(sampled_tiles(picture, strand_labels > 0)[::2])
    if softness and softness > _BLURRED_AGAINST_GRAINS * scale.thin_intercept_px:
        detail = (
            f"the sharper edges are blurred by {softness:.1f} px, "
            f"grains are {scale.thin_intercept_px:.1f} px across"
        )
        yield Flag("blurred", detail)


def _grooves(picture: LabPicture, ways: _Ways) -> Iterator[Flag]:
    look, scale = groove_look(picture.lab, ways), structure_scale(ways)
    if look is None or scale is None:
        return
    share = (look.width_px or 0.0) / scale.mean_intercept_px
    if share > _GROOVES_FROM:
        yield Flag(
            "over_etched", f"grooves cover about {100 * share:.0f} % of the area"
        )
    if look.unseen_share is not None and look.unseen_share > _UNSEEN_FROM:
        detail = f"{100 * look.unseen_share:.0f} % of the boundaries hardly show"
        yield Flag("under_etched", detail)
    if look.contrast is not None and look.contrast < _FAINT_BELOW:
        detail = f"boundaries show {look.contrast:.1f} times as much as noise does"
        yield Flag("low_contrast", detail)


def _closure(
    grain_labels: Labels, strand_labels: Labels, probability: FloatPlane
) -> Iterator[Flag]:
    closure = boundary_closure(grain_labels, strand_labels, probability)
    if closure is None:
        return
    if closure.unsupported > _UNSUPPORTED_FROM:
        detail = f"{100 * closure.unsupported:.0f} % of the boundaries are guesses"
        yield Flag("under_etched", detail)
    elif closure.left_over > _LEFT_OVER_FROM:
        yield Flag("under_etched", "many lines end inside of grains")


def _across(strand_labels: Labels, ways: _Ways) -> Iterator[Flag]:
    for number, across in grains_across_strands(strand_labels, ways).items():
        if across < _FEWEST_ACROSS:
            detail = (
                f"about {across:.1f} grains across"
                if across
                else ("no boundary crossed")
            )
            yield Flag("few_grains_across", detail, number)
