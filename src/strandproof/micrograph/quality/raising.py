"""From measures to flags of the registry."""

from collections.abc import Iterable, Iterator
from typing import Any

import numpy as np
import numpy.typing as npt

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
from strandproof.micrograph.quality.windows import Window, seen_parts
from strandproof.records import Flag

Bytes = npt.NDArray[np.uint8]
FloatPlane = npt.NDArray[np.float32]
Mask = npt.NDArray[np.bool_]
Labels = npt.NDArray[np.integer[Any]]
_Ways = tuple[LineCrossings, LineCrossings]

# Set from pictures drawn by this project's renderer and looked at on real ones;
# docs/pictures.md gives the rates. The last three are common practice.
_BLURRED_FROM = 1.6  # px of edge softness
_BLURRED_AGAINST_GRAINS = 0.12  # of the mean intercept across the grains
_SATURATED_FROM, _GLARE_FROM = 0.02, 0.01  # of the metal
_SEAM_FROM = 0.05  # of a line's depth
_UNEVEN_FROM = 2.0
_GROOVES_FROM = 0.4  # of the area
_UNSEEN_FROM = 0.25  # of the crossings
_UNSUPPORTED_FROM, _LEFT_OVER_FROM = 0.05, 0.05  # of the drawn boundary
# Added to both limits, so that no single boundary decides where few were drawn:
# its length, and its area at about 3 px of width.
_ONE_BOUNDARY_PX, _ONE_BOUNDARY_AREA_PX = 100, 300
_FAINT_BELOW = 0.9  # times noise and texture
_FEWEST_PIXELS = 10.0
_FEWEST_ACROSS = 10.0


def quality_flags(
    pixels: Bytes,
    *,
    valid: Mask | None = None,
    grain_labels: Labels,
    strand_labels: Labels,
    probability: Bytes | None = None,
) -> tuple[Flag, ...]:
    """Raise all flags of a picture and of what was found in it.

    Parameters
    ----------
    pixels : ndarray of uint8, shape (n_rows, n_cols, 3)
        sRGB; three equal channels are grey.
    valid : ndarray of bool, shape (n_rows, n_cols), optional
        False where the picture shows nothing.
    grain_labels, strand_labels : ndarray of int, shape (n_rows, n_cols)
        As of `structure_flags`.
    probability : ndarray of uint8, shape (n_rows, n_cols), optional
        As of `structure_flags`.

    Returns
    -------
    tuple of Flag
        As of `picture_flags` and `structure_flags`, each name once a strand; none
        without metal.

    Notes
    -----
    Above 4 megapixels, fine detail is judged in the window of 2048 x 2048 px that
    holds most metal, light on about 2 megapixels of the whole.
    """
    seen = seen_parts(pixels, strand_labels, valid=valid)
    if not seen.metal.any():
        return ()
    tiles = sampled_tiles(seen.detail, seen.metal)
    softness = edge_softness(tiles)  # once for both: a tenth of the time
    flags = [
        *_detail(tiles, softness),
        *_light(*(seen.overview or (seen.detail, seen.metal))),
        *_structure(seen.detail, softness, grain_labels, strand_labels, seen.window),
    ]
    if probability is not None:
        flags += _closure(grain_labels, strand_labels, probability)
    return _first_of_each(flags)


def picture_flags(
    picture: LabPicture,
    metal: Mask,
    *,
    overview: tuple[LabPicture, Mask] | None = None,
) -> tuple[Flag, ...]:
    """Raise the flags that need the picture alone.

    Parameters
    ----------
    picture : LabPicture
        The picture, or a part of it in full detail: edges and the file's history
        are judged from it.
    metal : ndarray of bool, shape (n_rows, n_cols)
        True on metal.
    overview : tuple of LabPicture and ndarray of bool, optional
        The whole picture thinned out, and its metal: light is judged from it;
        from `picture` if left out.

    Returns
    -------
    tuple of Flag
        ``blurred``, ``sharpened``, ``resized``, ``lossy_compression``,
        ``saturated``, ``uneven_light``; none without metal.
    """
    tiles = sampled_tiles(picture, metal)
    light = _light(*(overview or (picture, metal)))
    return (*_detail(tiles, edge_softness(tiles)), *light)


def structure_flags(
    picture: LabPicture,
    *,
    grain_labels: Labels,
    strand_labels: Labels,
    probability: Bytes | None = None,
    window: Window = (slice(None), slice(None)),
) -> tuple[Flag, ...]:
    """Raise the flags that need the grains found in a picture.

    Parameters
    ----------
    picture : LabPicture
        The picture, or the part of it in `window`.
    grain_labels : ndarray of int, shape (n_rows, n_cols)
        Grains of the whole picture; 0 outside of metal or on a boundary.
    strand_labels : ndarray of int, shape (n_rows, n_cols)
        Strands of the whole picture; 0 outside of metal.
    probability : ndarray of uint8, shape (n_rows, n_cols), optional
        Probability of a boundary, 255 for 1, from which the grains were closed.
    window : tuple of slice
        Rows and columns that `picture` shows; all if left out.

    Returns
    -------
    tuple of Flag
        ``few_pixels_per_grain``, ``few_grains_across`` by strand, ``blurred``
        (against the smallest grains), ``over_etched``, ``under_etched``,
        ``low_contrast``. Fewer than 40 crossings raise none but
        ``few_grains_across``.
    """
    tiles = sampled_tiles(picture, strand_labels[window] > 0)
    softness = edge_softness(tiles)
    flags = [*_structure(picture, softness, grain_labels, strand_labels, window)]
    if probability is not None:
        flags += _closure(grain_labels, strand_labels, probability)
    return _first_of_each(flags)


def _structure(
    picture: LabPicture,
    softness: float | None,
    grain_labels: Labels,
    strand_labels: Labels,
    window: Window,
) -> Iterator[Flag]:
    ways = line_crossings(grain_labels, strand_labels)
    strands = strand_labels[window]
    seen = ways
    if strands.shape != strand_labels.shape:
        seen = line_crossings(grain_labels[window], strands)
    yield from _grain_size(ways)
    yield from _blur_against_grains(softness, seen)
    yield from _grooves(picture, seen)
    yield from _across(strand_labels, ways)


def _first_of_each(flags: Iterable[Flag]) -> tuple[Flag, ...]:
    kept: dict[tuple[str, int | None], Flag] = {}
    for flag in flags:
        kept.setdefault((flag.name, flag.strand), flag)
    return tuple(kept.values())


def _detail(tiles: FloatPlane, softness: float | None) -> Iterator[Flag]:
    if len(tiles):
        yield from _edges(tiles, softness)
        yield from _file_history(tiles)


def _edges(tiles: FloatPlane, softness: float | None) -> Iterator[Flag]:
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
    if not metal.any():
        return
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


def _grain_size(ways: _Ways) -> Iterator[Flag]:
    scale = structure_scale(ways)
    if scale is not None and scale.mean_intercept_px < _FEWEST_PIXELS:
        detail = f"mean intercept {scale.mean_intercept_px:.1f} px"
        yield Flag("few_pixels_per_grain", detail)


def _blur_against_grains(softness: float | None, ways: _Ways) -> Iterator[Flag]:
    scale = structure_scale(ways)
    if scale is None:
        return
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
    grain_labels: Labels, strand_labels: Labels, probability: Bytes
) -> Iterator[Flag]:
    closure = boundary_closure(grain_labels, strand_labels, probability)
    guessed = _UNSUPPORTED_FROM * closure.drawn_px + _ONE_BOUNDARY_PX
    left_over = _LEFT_OVER_FROM * closure.drawn_px + _ONE_BOUNDARY_AREA_PX
    if closure.unsupported_px > guessed:
        share = 100 * closure.unsupported()
        yield Flag("under_etched", f"{share:.0f} % of the boundaries are guesses")
    elif closure.left_over_px > left_over:
        yield Flag("under_etched", "clear lines end inside of grains")


def _across(strand_labels: Labels, ways: _Ways) -> Iterator[Flag]:
    for number, across in grains_across_strands(strand_labels, ways).items():
        if across < _FEWEST_ACROSS:
            detail = (
                f"about {across:.1f} grains across"
                if across
                else ("no boundary crossed")
            )
            yield Flag("few_grains_across", detail, number)
