"""Hard wear: deep scratches, dense fine scratches, stringers and pits all over."""

from dataclasses import dataclass
from math import cos, hypot, radians, sin

import numpy as np
import numpy.typing as npt
from scipy import ndimage

from strandproof.micrograph.render.crystals import Crystals
from strandproof.micrograph.render.hardships import Dots, Wear
from strandproof.micrograph.render.noise import FloatPlane, smooth_noise, stream
from strandproof.micrograph.render.spots import Spots, round_hole
from strandproof.micrograph.render.streaks import Streak, draw_streaks

Mask = npt.NDArray[np.bool_]

_SEEN = 0.3  # a scratch is marked where it has this share of its own depth


@dataclass(frozen=True, slots=True, eq=False)
class Worn:
    """Light taken away by hard wear, and the pixels it covers.

    Parameters
    ----------
    factor : ndarray of float32, shape (n_rows, n_cols)
        Factor on brightness.
    scratch, defect : ndarray of bool, shape (n_rows, n_cols)
        Pixels on scratches, and on inclusions.
    """

    factor: FloatPlane
    scratch: Mask
    defect: Mask


def hard_wear(shape: tuple[int, int], wear: Wear, seed: int) -> Worn:
    """Draw the hard wear of a picture.

    Parameters
    ----------
    shape : tuple of int
        Rows and columns.
    wear : Wear
        What to draw.
    seed : int
        Seed of the section.

    Returns
    -------
    Worn
        Factors and masks.
    """
    factor, scratch = np.ones(shape, np.float32), np.zeros(shape, np.bool_)
    if wear.deep_scratches:
        streaks = deep_scratches(shape, wear, seed)
        planes = draw_streaks(shape, streaks, stream(seed, "deep scratch depth"))
        factor *= (1 - planes.dark) * (1 + planes.light)
        scratch |= planes.dark > _SEEN * 0.5 * wear.deep_scratch_depth
    if wear.fine_scratches:
        fine = _fine_scratches(shape, wear, seed)
        factor *= 1 - fine
        scratch |= fine > max(0.5 * wear.fine_scratches, 0.02)
    inclusions = _stringers(shape, wear, seed)
    return Worn(factor * inclusions.factor, scratch, inclusions.mask)


def deep_scratches(shape: tuple[int, int], wear: Wear, seed: int) -> list[Streak]:
    """Draw the places of deep scratches, most from side to side of the picture."""
    generator = stream(seed, "deep scratches")
    angles = generator.uniform(0, 180, wear.deep_scratch_directions)
    found = []
    for _ in range(generator.poisson(wear.deep_scratches)):
        angle = radians(generator.choice(angles) + 2.5 * generator.standard_normal())
        share = 1.3 if generator.uniform() < 0.7 else generator.uniform(0.15, 0.8)
        half = 0.5 * share * hypot(*shape)
        y, x = generator.uniform(0, shape[0]), generator.uniform(0, shape[1])
        dy, dx = half * sin(angle), half * cos(angle)
        bow = wear.deep_scratch_bow * generator.normal(0, 0.5)
        found.append(
            Streak(
                (y - dy, x - dx),
                (y + dy, x + dx),
                float(wear.deep_scratch_width_px * generator.uniform(0.5, 1.5)),
                float(wear.deep_scratch_depth * generator.uniform(0.5, 1.0)),
                bow_px=float(np.clip(bow, -0.1, 0.1) * 2 * half),
                flank=float(wear.deep_scratch_flank * generator.uniform(0.3, 1.0)),
            )
        )
    return found


def _fine_scratches(shape: tuple[int, int], wear: Wear, seed: int) -> FloatPlane:
    """Lines of one direction over the whole picture, uneven from place to place."""
    generator = stream(seed, "fine scratches")
    length = 4 * (sum(shape) + 8)
    pattern = np.zeros(length)
    count = int(length / 4 / wear.fine_scratch_spacing_px)
    at = generator.integers(0, length, count)
    pattern[at] = generator.uniform(0.3, 1.0, count) ** 2
    blur = generator.uniform(1.2, 3.5)  # quarters of a pixel
    pattern = ndimage.gaussian_filter1d(pattern, blur, mode="wrap")
    pattern = np.minimum(pattern * blur * np.sqrt(2 * np.pi), 1)
    angle = generator.uniform(0, np.pi)
    rows = np.arange(shape[0], dtype=np.float32)[:, None]
    columns = np.arange(shape[1], dtype=np.float32)[None, :]
    place = np.float32(4 * np.sin(angle)) * rows + np.float32(4 * np.cos(angle)) * (
        columns - (shape[1] if np.cos(angle) < 0 else 0)
    )
    place += 12 * smooth_noise(shape, 400.0, generator)
    lines: FloatPlane = pattern.astype(np.float32)[place.astype(np.intp) % length]
    # Each scratch is deep here and shallow there.
    lines *= np.clip(0.65 + 0.5 * smooth_noise(shape, 45.0, generator), 0, 1)
    lines *= np.float32(wear.fine_scratches)
    return lines


def _stringers(shape: tuple[int, int], wear: Wear, seed: int) -> Spots:
    """Rows of dark inclusions, all one way."""
    spots = Spots.none(shape)
    generator = stream(seed, "stringers")
    angle = generator.uniform(0, np.pi)
    area = shape[0] * shape[1] / 1e6
    for _ in range(generator.poisson(wear.stringers_per_mpx * area)):
        turn = angle + generator.normal(0, 0.03)
        y, x = generator.uniform(0, shape[0]), generator.uniform(0, shape[1])
        length = generator.uniform(15, 260)
        place = 0.0
        while place < length:
            radius = float(np.clip(generator.lognormal(0.5, 0.4), 0.8, 4))
            centre = (
                y + place * sin(turn) + generator.normal(0, 0.8),
                x + place * cos(turn) + generator.normal(0, 0.8),
            )
            round_hole(spots, centre, (radius, generator.uniform(0.4, 0.9)), turn)
            place += radius * generator.uniform(1.5, 6)
    return spots


def pits_all_over(crystals: Crystals, dots: Dots, seed: int) -> Spots:
    """Round pits, denser in some crystals and in clusters.

    Parameters
    ----------
    crystals : Crystals
        Where the crystals lie.
    dots : Dots
        What to draw.
    seed : int
        Seed of the section.

    Returns
    -------
    Spots
        Factor on brightness, and the pixels inside of pits.
    """
    shape = crystals.numbers.shape
    if dots.coverage == 0:
        return Spots.none(shape)
    generator = stream(seed, "dots")
    area = np.pi * dots.radius_px**2
    count = int(2.5 * dots.coverage * crystals.numbers.size / area)
    y, x = (generator.integers(0, side, count) for side in shape)
    liked = generator.uniform(0.15, 0.65, crystals.count)[crystals.numbers[y, x]]
    clusters = smooth_noise(shape, 14 * dots.radius_px, generator)[y, x]
    liked *= 1 + dots.clustering * (np.clip(2.2 * clusters, 0, 4) - 1)
    kept = generator.uniform(size=count) < liked
    seeds = np.zeros(shape, np.float32)
    seeds[y[kept], x[kept]] = generator.uniform(0.6, 2.2, int(kept.sum()))
    return _rounded(seeds, dots, generator.uniform(0.3, 0.85))


def _rounded(seeds: FloatPlane, dots: Dots, depth: float) -> Spots:
    """Turn points into round pits: blurred points, cut off at half height."""
    sigma = 0.85 * dots.radius_px
    height = _unit_blur(seeds, sigma)
    pits = np.clip((height - 0.5) * (0.6 + 0.9 * dots.radius_px) + 0.5, 0, 1)
    factor = 1 - np.float32(depth) * pits
    if dots.rim:
        around = np.clip(_unit_blur(seeds, 1.5 * sigma), 0, 1) * (1 - pits)
        factor += np.float32(0.35 * dots.rim) * around
    return Spots(np.maximum(factor, np.float32(0.1)), pits > 0.5)


def _unit_blur(points: FloatPlane, sigma: float) -> FloatPlane:
    blurred: FloatPlane = ndimage.gaussian_filter(points, sigma, truncate=3.0)
    blurred *= np.float32(2 * np.pi * sigma**2)
    return blurred
