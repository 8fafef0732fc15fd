"""Pits, pores, etch pits and stains."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from strandproof.micrograph.render.appearance import Etch, Preparation
from strandproof.micrograph.render.crystals import Crystals
from strandproof.micrograph.render.noise import (
    FloatPlane,
    octave_noise,
    smooth_noise,
    stream,
)
from strandproof.micrograph.render.streaks import Streak

Mask = npt.NDArray[np.bool_]
Window = tuple[slice, slice]


@dataclass(frozen=True, slots=True, eq=False)
class Spots:
    """Light taken away and put back by spots, and the pixels they cover.

    Parameters
    ----------
    factor : ndarray of float32, shape (n_rows, n_cols)
        Factor on brightness.
    mask : ndarray of bool, shape (n_rows, n_cols)
        Pixels where the spot hides the metal.
    """

    factor: FloatPlane
    mask: Mask

    @classmethod
    def none(cls, shape: tuple[int, int]) -> "Spots":
        """Return a picture without spots."""
        return cls(np.ones(shape, np.float32), np.zeros(shape, np.bool_))

    def with_more(self, others: "Spots") -> "Spots":
        """Return these spots and others together."""
        return Spots(self.factor * others.factor, self.mask | others.mask)


def _window(
    shape: tuple[int, int], centre: tuple[float, float], reach: float
) -> tuple[Window, FloatPlane, FloatPlane]:
    """Window around a place and the offsets of its pixels from the place."""
    sides = [
        slice(max(0, int(c - reach)), max(0, min(n, int(c + reach) + 2)))
        for c, n in zip(centre, shape, strict=True)
    ]
    y = np.arange(sides[0].start, sides[0].stop, dtype=np.float32) - centre[0]
    x = np.arange(sides[1].start, sides[1].stop, dtype=np.float32) - centre[1]
    return (
        (sides[0], sides[1]),
        y[:, None].astype(np.float32),
        x[None, :].astype(np.float32),
    )


def dark_spots(
    shape: tuple[int, int], preparation: Preparation, tails: list[Streak], seed: int
) -> Spots:
    """Pits, the heads of comet tails, and pores with a rim."""
    generator = stream(seed, "spots")
    spots = Spots.none(shape)
    area = shape[0] * shape[1] / 1e6
    for _ in range(generator.poisson(preparation.pits_per_mpx * area)):
        radius = float(np.clip(generator.lognormal(0.45, 0.45), 0.8, 5))
        depth = generator.uniform(0.35, 0.9)
        _disc(spots, _anywhere(shape, generator), (radius, depth, 0.0), generator)
    for tail in tails:
        _disc(spots, tail.start, (0.6 * tail.width_px, 0.8, 0.0), generator)
    for _ in range(generator.poisson(preparation.pores_per_mpx * area)):
        radius = float(np.clip(generator.lognormal(1.7, 0.4), 3, 14))
        rim = generator.uniform(0.05, 0.3) * preparation.pore_rim
        _disc(spots, _anywhere(shape, generator), (radius, 0.92, rim), generator)
    return spots


def _anywhere(
    shape: tuple[int, int], generator: np.random.Generator
) -> tuple[float, float]:
    return generator.uniform(0, shape[0]), generator.uniform(0, shape[1])


def _disc(
    spots: Spots,
    centre: tuple[float, float],
    form: tuple[float, float, float],
    generator: np.random.Generator,
) -> None:
    """One rounded hole: `form` is radius [px], depth and lightness of its rim."""
    radius, depth, rim = form
    window, y, x = _window(spots.mask.shape, centre, 1.8 * radius + 4)
    turn = generator.uniform(0, np.pi)
    squeeze = generator.uniform(0.75, 1.0)
    u = (x * np.cos(turn) + y * np.sin(turn)).astype(np.float32)
    v = ((-x * np.sin(turn) + y * np.cos(turn)) / squeeze).astype(np.float32)
    lobes = 1 + 0.12 * np.sin(3 * np.arctan2(v, u) + generator.uniform(0, 6))
    beyond = np.hypot(u, v) / lobes - radius
    hole = np.clip(0.5 - beyond / 1.4, 0, 1)
    halo = np.exp(-0.5 * ((beyond - 1.8) / 1.2) ** 2)
    glint = 0.25 * (rim > 0) * np.exp(-((u / radius) ** 2) - (v / radius) ** 2)
    factor = 1 - depth * hole + rim * halo * (1 - hole) + glint * hole
    spots.factor[window] *= factor.astype(np.float32)
    spots.mask[window] |= beyond < 0.5


def round_hole(
    spots: Spots,
    centre: tuple[float, float],
    form: tuple[float, float],
    turn: float,
) -> None:
    """Add one oval dark hole: `form` is its half length along `turn` [px] and depth."""
    radius, depth = form
    window, y, x = _window(spots.mask.shape, centre, 1.5 * radius + 2)
    u = x * np.float32(np.cos(turn)) + y * np.float32(np.sin(turn))
    v = (y * np.float32(np.cos(turn)) - x * np.float32(np.sin(turn))) / np.float32(0.7)
    beyond = np.hypot(u, v) - np.float32(radius)
    spots.factor[window] *= 1 - np.float32(depth) * np.clip(0.5 - beyond / 1.2, 0, 1)
    spots.mask[window] |= beyond < 0.5


def etch_pits(crystals: Crystals, etch: Etch, seed: int) -> Spots:
    """Small facetted pits, three- or four-sided, turned alike in each crystal."""
    shape = crystals.numbers.shape
    spots = Spots.none(shape)
    generator = stream(seed, "etch pits")
    sides = generator.integers(3, 5, crystals.count)
    turns = generator.uniform(0, 2 * np.pi, crystals.count)
    liked = generator.uniform(0.15, 1, crystals.count)
    size = generator.uniform(2.0, 5.5)
    area = shape[0] * shape[1] / 1e6
    for _ in range(generator.poisson(etch.etch_pits_per_mpx * area)):
        centre = _anywhere(shape, generator)
        number = crystals.numbers[int(centre[0]), int(centre[1])]
        radius = size * generator.lognormal(0, 0.3)
        if generator.uniform() < liked[number]:
            _facetted(spots, centre, radius, (int(sides[number]), turns[number]))
    return spots


def _facetted(
    spots: Spots,
    centre: tuple[float, float],
    radius: float,
    form: tuple[int, float],
) -> None:
    window, y, x = _window(spots.mask.shape, centre, 2.2 * radius + 2)
    n_sides, turn = form
    angles = turn + 2 * np.pi * np.arange(n_sides) / n_sides
    facets = np.stack([x * np.cos(a) + y * np.sin(a) for a in angles])
    beyond = facets.max(axis=0) - radius
    # Facets reflect by the way they face: one light, the others dark.
    tones = (0.55 + 0.45 * np.cos(angles - 0.8))[facets.argmax(axis=0)]
    cover = np.clip(0.5 - beyond, 0, 1)
    spots.factor[window] *= (1 - cover * (0.85 - 0.75 * tones)).astype(np.float32)
    spots.mask[window] |= beyond < 0


@dataclass(frozen=True, slots=True, eq=False)
class Stains:
    """Thin films and drying marks.

    Parameters
    ----------
    amount : ndarray of float32, shape (n_rows, n_cols)
        How much film lies on the metal, 0 to 1.
    tint : tuple of float
        Factor on red, green and blue under a full film.
    mask : ndarray of bool, shape (n_rows, n_cols)
        Pixels with at least half of a full film.
    """

    amount: FloatPlane
    tint: tuple[float, float, float]
    mask: Mask


def stains(shape: tuple[int, int], fraction: float, seed: int) -> Stains:
    """Draw stains with soft inside and darker rims over a share of the area."""
    generator = stream(seed, "stains")
    # Most films darken towards brown, some towards blue.
    depth, blueness = generator.uniform(0.1, 0.35), generator.normal(-0.25, 0.5)
    red, blue = depth * (1 + 0.5 * blueness), depth * (1 - blueness)
    tint = (1 - red, 1 - depth, float(np.clip(1 - blue, 0.4, 1)))
    if fraction == 0:
        return Stains(np.zeros(shape, np.float32), tint, np.zeros(shape, np.bool_))
    cell = min(shape) * generator.uniform(0.12, 0.3)
    film = smooth_noise(shape, cell, generator)
    film += 0.25 * octave_noise(shape, cell / 4, generator)
    level = np.float32(np.quantile(film[::8, ::8], 1 - fraction))
    height = (film - level) / np.float32(generator.uniform(0.2, 0.8))
    rim = np.exp(-((height - 0.6) ** 2) / 0.18)
    amount = np.clip(height, 0, 1) * np.float32(generator.uniform(0.4, 0.75))
    amount = np.minimum(amount + 0.45 * rim, 1).astype(np.float32)
    return Stains(amount, tint, height > 0.5)
