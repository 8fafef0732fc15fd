"""Boundary evidence by general image processing: grooves and steps in shade."""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from scipy import ndimage

from strandproof.micrograph.evidence import BoundaryEvidence
from strandproof.micrograph.grooves import (
    RESPONSE_PER_DEPTH,
    LineResponse,
    line_response,
)
from strandproof.micrograph.shades import (
    shade_outside_lines,
    step_height,
    weight_outside,
)

FloatPlane = npt.NDArray[np.float32]
Mask = npt.NDArray[np.bool_]

# Grooves of about 2 to 7 px width; the third scale, for grooves of up to about 14 px,
# is used only where it sees grooves better: it also sees narrow grains as lines.
LINE_SCALES_PX = (1.2, 2.4, 4.8)
WIDE_IS_STRONGER = 1.3
# A line counts from this many times the typical response to noise ...
LINE_OVER_NOISE = 4.0
# ... if the strongest lines (1 % of the metal) stand out as clearly as this; otherwise
# there may be no grooves at all, and each line must stand out as clearly itself.
CREDIBLE_OVER_NOISE = 8.0
# And from this share of the strongest lines: grooves of one etch are alike within
# about this factor, scratches are often fainter.
LINE_OVER_STRONGEST = 0.35
# From scale to scale the response to texture grows at most by this factor; where it
# seems to grow more, the lines themselves are so dense that they pass for noise.
NOISE_GROWTH = 1.8
# Typical response to noise is never taken below this [L*]: even in a picture
# without noise a groove must be about 1 L* deep.
LEAST_LINE_NOISE = 0.1
# Quintile of positive responses over their median, in noise (measured on drawn
# noise, white and smoothed): the quintile is moved less by the lines themselves.
_QUINTILE_OF_MEDIAN = 0.36
# A step counts from this many times the lower quartile of all local steps ...
STEP_OVER_NOISE = 1.65
# ... and from this distance in L*a*b*, several times what the eye just notices.
LEAST_STEP = 6.0

_EDGE_PX = 2  # pixels at the metal's edge mix metal and resin
_SAMPLES = 1_000_000  # enough for a median


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Lines:
    """Line and spot responses over their threshold, largest over the scales.

    `spread` reaches over the flanks too; `visible_depth` is the least depth of a
    groove that counts at the finest scale [L*].
    """

    ratio: FloatPlane
    spread: FloatPlane
    spots: FloatPlane
    visible_depth: float


def classical_evidence(lab: FloatPlane, metal: Mask) -> BoundaryEvidence:
    """Find grooves and steps in shade, each against the picture's own noise.

    Assumes that most of the metal is grain interior, so that the typical response
    is noise or texture; where boundaries fill half of the picture, thresholds
    rise and boundaries are missed.

    Parameters
    ----------
    lab : ndarray of float32, shape (n_rows, n_cols, n_channels)
        Lightness, or lightness and colour.
    metal : ndarray of bool, shape (n_rows, n_cols)
        True on metal.

    Returns
    -------
    BoundaryEvidence
        Evidence; zero where there is no metal.

    Notes
    -----
    A ratio q of response to threshold becomes a strength q^2 / (1 + q^2): 0.5 at
    the threshold. The strength of a pixel is the larger one of line and step.
    """
    if not metal.any():
        return _nothing(lab, metal)
    inside = extended_from_metal(lab, metal)
    lines = _lines(inside[..., 0], metal)
    shade = shade_outside_lines(inside, weight_outside(lines.spread))
    steps = step_height(shade)
    step = max(LEAST_STEP, STEP_OVER_NOISE * _quantile(steps, metal, 0.25))
    shade /= np.float32(step)
    steps /= np.float32(step)
    line_strength = saturating(lines.ratio) * metal
    return BoundaryEvidence(
        strength=np.maximum(line_strength, saturating(steps) * metal),
        line_strength=line_strength,
        shade=shade,
        shade_weight=weight_outside(np.maximum(lines.spread, lines.spots)),
        metal=metal,
        visible_line_depth=lines.visible_depth,
        visible_step=step,
    )


def saturating(ratio: FloatPlane) -> FloatPlane:
    """Turn a ratio to the threshold into a strength from 0 to 1.

    Parameters
    ----------
    ratio : ndarray of float32
        Response over threshold, 0 or above.

    Returns
    -------
    ndarray of float32
        q^2 / (1 + q^2).
    """
    square = ratio * ratio
    strength: FloatPlane = square / (1 + square)
    return strength


def extended_from_metal(values: FloatPlane, metal: Mask) -> FloatPlane:
    """Continue the metal's values beyond its edge, so that the edge leaves no step.

    Parameters
    ----------
    values : ndarray of float32, shape (n_rows, n_cols, n_channels)
        Any values.
    metal : ndarray of bool, shape (n_rows, n_cols)
        True on metal, at least once.

    Returns
    -------
    ndarray of float32, shape (n_rows, n_cols, n_channels)
        Each pixel outside of the metal, or closer than 2 px to its edge, holds
        the value of the nearest pixel inside.
    """
    if metal.all():
        return values
    core = ndimage.binary_erosion(metal, iterations=_EDGE_PX, border_value=1)
    source = core if core.any() else metal
    nearest = ndimage.distance_transform_edt(
        ~source, return_distances=False, return_indices=True
    )
    extended: FloatPlane = values[tuple(nearest)]
    return extended


def _lines(lightness: FloatPlane, metal: Mask) -> _Lines:
    ratio, spread, spots = (np.zeros(lightness.shape, np.float32) for _ in range(3))
    depths = []
    for scale, response, least in _responses(lightness, metal):
        depths.append(least / RESPONSE_PER_DEPTH)
        line = np.maximum(response.dark, response.bright) / np.float32(least)
        np.maximum(ratio, line, out=ratio)
        flanks = 2 * round(scale) + 1
        np.maximum(spread, ndimage.maximum_filter(line, flanks), out=spread)
        spot = ndimage.maximum_filter(response.spot, flanks) / np.float32(least)
        np.maximum(spots, spot, out=spots)
    ratio *= metal
    return _Lines(ratio=ratio, spread=spread, spots=spots, visible_depth=min(depths))


def _responses(
    lightness: FloatPlane, metal: Mask
) -> Iterator[tuple[float, LineResponse, float]]:
    """Scale, response, and the response from which a line counts."""
    finer, finer_is_credible, largest_noise = np.inf, False, np.inf
    for scale in LINE_SCALES_PX:
        response = line_response(lightness, scale_px=scale)
        noise, strongest = _noise_and_strongest(response, metal)
        noise = min(noise, largest_noise)
        is_credible = strongest >= CREDIBLE_OVER_NOISE * noise
        is_wide = scale == LINE_SCALES_PX[-1]
        sees_better = strongest >= WIDE_IS_STRONGER * finer
        if is_wide and not (sees_better and (is_credible or finer_is_credible)):
            return
        factor = LINE_OVER_NOISE if is_credible else CREDIBLE_OVER_NOISE
        yield scale, response, max(factor * noise, LINE_OVER_STRONGEST * strongest)
        finer, finer_is_credible = strongest, is_credible
        largest_noise = NOISE_GROWTH * noise


def _noise_and_strongest(response: LineResponse, metal: Mask) -> tuple[float, float]:
    """Typical response to noise, and response of the strongest 1 % of the metal.

    Noise answers alike as dark and as bright lines, grooves as one of them, so
    the weaker one is taken for noise.
    """
    both = (response.dark, response.bright)
    typical = min(_quantile(side, metal & (side > 0), 0.2) for side in both)
    strongest = max(_quantile(side, metal, 0.99) for side in both)
    return max(typical / _QUINTILE_OF_MEDIAN, LEAST_LINE_NOISE), strongest


def _quantile(values: FloatPlane, mask: Mask, share: float) -> float:
    picked = values[mask]
    if picked.size == 0:
        return 0.0
    stride = max(1, picked.size // _SAMPLES)
    return float(np.quantile(picked[::stride], share))


def _nothing(lab: FloatPlane, metal: Mask) -> BoundaryEvidence:
    empty = np.zeros(metal.shape, np.float32)
    return BoundaryEvidence(
        strength=empty,
        line_strength=empty,
        shade=np.zeros_like(lab),
        shade_weight=empty,
        metal=metal,
        visible_line_depth=np.inf,
        visible_step=np.inf,
    )
