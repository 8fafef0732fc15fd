"""Etched lines at boundaries, and the relief between grains."""

import numpy as np
import numpy.typing as npt
from scipy import ndimage

from strandproof.micrograph.render.appearance import Etch, Groove
from strandproof.micrograph.render.crystals import SETS, Crystals, twinned_table
from strandproof.micrograph.render.noise import (
    FloatPlane,
    hashed_uniform,
    smooth_noise,
    stream,
)


def groove_plane(crystals: Crystals, groove: Groove, seed: int) -> FloatPlane:
    """Darkness of the etched lines, 0 (none) to 1 (black)."""
    shape = crystals.numbers.shape
    if groove.depth == 0:
        return np.zeros(shape, np.float32)
    narrow, wide = _line_strengths(crystals, groove, seed)
    sigma = max(groove.width_px / 2.355, 0.42)
    lines = _profile(narrow, sigma, groove.width_px)
    if groove.spread > 0:
        broad = _profile(wide, 1.5 * sigma, 1.5 * groove.width_px)
        lines = np.maximum(lines, broad)
    if groove.hollow:
        core = _profile(narrow, max(0.38 * sigma, 0.42), 0.4 * groove.width_px)
        lines *= 1 - np.float32(groove.hollow) * core
    if groove.one_sided:
        lines *= _one_side(lines, groove, stream(seed, "groove side"))
    return lines * np.float32(groove.depth)


def _one_side(
    lines: FloatPlane, groove: Groove, generator: np.random.Generator
) -> FloatPlane:
    """Factor on a line's darkness: more on one side, light on the other."""
    angle = generator.uniform(0, 2 * np.pi)
    slope = np.float32(np.cos(angle)) * _difference(lines, 1)
    slope += np.float32(np.sin(angle)) * _difference(lines, 0)
    slope *= np.float32(0.5 * groove.width_px)
    lit: FloatPlane = np.clip(0.5 + 1.6 * slope, -0.2, 1.8)
    return 1 - np.float32(groove.one_sided) * lit


def _continuity(
    shape: tuple[int, int], groove: Groove, generator: np.random.Generator
) -> FloatPlane:
    """Share of a line left from place to place: uneven, nothing in the gaps."""
    noise = smooth_noise(shape, 14.0 + 3 * groove.width_px, generator)
    noise += 0.7 * smooth_noise(shape, 2.0, generator)  # ragged on close view
    uneven: FloatPlane = np.clip(0.85 + 0.3 * groove.spread * noise, 0.3, 1.3)
    if groove.gap_fraction > 0:
        gaps = smooth_noise(shape, 9.0 + 3 * groove.width_px, generator)
        level = np.float32(np.quantile(gaps[::8, ::8], groove.gap_fraction))
        uneven *= np.clip((gaps - level) * 4 + 0.5, 0, 1)
    return uneven


def _beads(
    shape: tuple[int, int], groove: Groove, generator: np.random.Generator
) -> FloatPlane:
    """Share of a line left where it is a row of pits."""
    beads = smooth_noise(shape, 1.2 + 0.5 * groove.width_px, generator)
    left: FloatPlane = np.clip(1.6 * beads + 0.3, 0, 1)
    return 1 - np.float32(groove.beaded) * (1 - left)


def _moved(
    place: tuple[npt.NDArray[np.intp], npt.NDArray[np.intp]],
    pairs: npt.NDArray[np.int64],
    groove: Groove,
    shape: tuple[int, ...],
    salt: int,
) -> tuple[npt.NDArray[np.intp], npt.NDArray[np.intp]]:
    """Move each pair's line as a whole by at most `offset_px`, to whole pixels."""
    y, x = (
        np.clip(
            along
            + np.rint(
                groove.offset_px * (2 * hashed_uniform(pairs, salt + 4 + axis) - 1)
            ).astype(np.intp),
            0,
            side - 1,
        )
        for axis, (along, side) in enumerate(zip(place, shape, strict=True))
    )
    return y, x


def _line_strengths(
    crystals: Crystals, groove: Groove, seed: int
) -> tuple[FloatPlane, FloatPlane]:
    """Strength of narrow and of wide line at each boundary pixel.

    The weights of edge sum and pixel mask make a line of any direction equally
    dark (within 8 percent).
    """
    shape = crystals.numbers.shape
    generator = stream(seed, "groove")
    salt = int(generator.integers(2**31))
    continuity = _continuity(shape, groove, generator)
    if groove.beaded:
        continuity *= _beads(shape, groove, stream(seed, "groove beads"))
    sums = [np.zeros(shape, np.float32) for _ in range(2)]
    peaks = [np.zeros(shape, np.float32) for _ in range(2)]
    for down, right in ((0, 1), (1, 0)):
        y, x, pairs = _edges(crystals, (down, right))
        places = [(y, x), (y + down, x + right)]
        if groove.offset_px:
            places = [_moved(at, pairs, groove, shape, salt) for at in places]
        left = continuity[_own_place(pairs, (y, x), shape, salt)]
        for k, values in enumerate(_pair_strengths(crystals, pairs, groove, salt)):
            for place in places:
                sums[k][place] += np.float32(0.415) * values * left
                peaks[k][place] = np.maximum(peaks[k][place], values * left)
    narrow, wide = (
        total + np.float32(0.29) * peak for total, peak in zip(sums, peaks, strict=True)
    )
    return narrow, wide


def _edges(
    crystals: Crystals, step: tuple[int, int]
) -> tuple[npt.NDArray[np.intp], npt.NDArray[np.intp], npt.NDArray[np.int64]]:
    """Places of neighbouring pixels in two crystals of one strand, and the pair."""
    down, right = step
    numbers, strands = crystals.numbers, crystals.strands
    ends = numbers.shape[0] - down, numbers.shape[1] - right
    first, second = numbers[: ends[0], : ends[1]], numbers[down:, right:]
    one_strand = strands[: ends[0], : ends[1]] == strands[down:, right:]
    y, x = np.nonzero((first != second) & one_strand)
    low = np.minimum(first[y, x], second[y, x]).astype(np.int64)
    high = np.maximum(first[y, x], second[y, x]).astype(np.int64)
    return y, x, low * crystals.count + high


def _own_place(
    pairs: npt.NDArray[np.int64],
    place: tuple[npt.NDArray[np.intp], npt.NDArray[np.intp]],
    shape: tuple[int, ...],
    salt: int,
) -> tuple[npt.NDArray[np.intp], npt.NDArray[np.intp]]:
    """Shift places by an amount of each pair's own, so that gaps do not cluster."""
    y, x = (
        (along + (hashed_uniform(pairs, salt + 2 + axis) * side).astype(np.intp)) % side
        for axis, (along, side) in enumerate(zip(place, shape, strict=True))
    )
    return y, x


def _pair_strengths(
    crystals: Crystals, pairs: npt.NDArray[np.int64], groove: Groove, salt: int
) -> tuple[FloatPlane, FloatPlane]:
    """Strength of each pair's narrow and of its wide line."""
    first, second = np.divmod(pairs, crystals.count)
    twin = first // SETS == second // SETS
    chance = hashed_uniform(pairs, salt)
    visible = hashed_uniform(pairs, salt + 1) >= groove.faint_fraction
    strength = 1 - np.float32(0.75 * groove.spread) * chance
    strength *= np.where(visible, np.float32(1), np.float32(0.08))
    strength *= np.where(twin, np.float32(groove.twin_share), np.float32(1))
    # The strongest boundaries also etch wider; twins stay narrow.
    broad = np.clip((0.3 - chance) * 3, 0, 1) * np.float32(groove.spread)
    return strength, np.where(twin, 0, broad * strength).astype(np.float32)


def _profile(lines: FloatPlane, sigma: float, width: float) -> FloatPlane:
    """Blur lines to a groove; wide grooves get a flat bottom."""
    blurred: FloatPlane = ndimage.gaussian_filter(lines, sigma, truncate=3.0)
    blurred *= np.float32(sigma * np.sqrt(2 * np.pi))
    flatness = np.float32(min(2.6, 0.35 + 0.25 * width))
    depth: FloatPlane = (1 - np.exp(-flatness * blurred)) / (1 - np.exp(-flatness))
    return np.minimum(depth, 1, out=depth)


def relief_plane(
    crystals: Crystals, grooves: FloatPlane, etch: Etch, seed: int
) -> FloatPlane:
    """Light and dark sides of steps between grains (added to brightness)."""
    if etch.relief == 0:
        return np.zeros(grooves.shape, np.float32)
    generator = stream(seed, "relief")
    heights = generator.normal(0, 1, crystals.count)
    surface = crystals.spread(twinned_table(heights, 0.7))
    surface -= 1.5 * grooves
    sharp = 0.5 + 0.3 * etch.groove.width_px
    surface = ndimage.gaussian_filter(surface, sharp + etch.relief_softness_px)
    angle = generator.uniform(0, 2 * np.pi)
    # A step spread over a wider slope keeps much of its darkness.
    gain = 0.22 * etch.relief * (1 + etch.relief_softness_px / sharp)
    slope = np.float32(gain * np.cos(angle)) * _difference(surface, 1)
    slope += np.float32(gain * np.sin(angle)) * _difference(surface, 0)
    return np.clip(slope, -0.35, 0.3, out=slope)


def _difference(plane: FloatPlane, axis: int) -> FloatPlane:
    result = np.zeros_like(plane)
    inner = [slice(None), slice(None)]
    inner[axis] = slice(1, -1)
    ahead = np.roll(plane, -1, axis)[tuple(inner)]
    result[tuple(inner)] = ahead - np.roll(plane, 1, axis)[tuple(inner)]
    return result
