"""Texture inside of crystals: mottling, fine pits, slip traces, bands."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from scipy import ndimage

from strandproof.micrograph.render.appearance import Etch
from strandproof.micrograph.render.crystals import Crystals
from strandproof.micrograph.render.noise import (
    FloatPlane,
    octave_noise,
    smooth_noise,
    stream,
)
from strandproof.micrograph.render.parameters import SectionParameters


def interior_plane(crystals: Crystals, etch: Etch, seed: int) -> FloatPlane:
    """Texture inside of grains, as a factor on brightness around 1."""
    generator = stream(seed, "interior")
    shape = crystals.numbers.shape
    strength = np.float32(etch.interior_strength)
    plane: FloatPlane = 1 + 0.015 * octave_noise(shape, 24.0, generator)
    if etch.interior == "mottled":
        plane += strength * _mottle(crystals, generator)
    elif etch.interior == "pitted":
        plane -= strength * _fine_pits(crystals, etch.interior_strength, generator)
    return np.maximum(plane, 0.1, out=plane)


def _mottle(crystals: Crystals, generator: np.random.Generator) -> FloatPlane:
    """Cloudy, grainy texture; in some crystals striations of their own direction."""
    shape = crystals.numbers.shape
    clouds = 0.07 * octave_noise(shape, 14.0, generator, octaves=4)
    grainy = 0.05 * smooth_noise(shape, 1.6, generator)
    grainy *= crystals.spread(generator.uniform(0.2, 1.6, crystals.count))
    angles = generator.uniform(0, np.pi, crystals.count)
    phase = phase_plane(crystals, 2 * np.pi / generator.uniform(4, 10), angles)
    phase += 1.6 * octave_noise(shape, 30.0, generator)
    amount = np.clip(generator.normal(-0.04, 0.07, crystals.count), 0, 0.12)
    fade = np.clip(0.5 + 0.6 * smooth_noise(shape, 18.0, generator), 0, 1)
    mottle: FloatPlane = (
        clouds + grainy + crystals.spread(amount) * np.sin(phase) * fade
    )
    return mottle


def phase_plane(
    crystals: Crystals, frequency: float, angles: npt.NDArray[np.float64]
) -> FloatPlane:
    """Position along each crystal's angle [rad, clockwise], times `frequency`."""
    n_rows, n_cols = crystals.numbers.shape
    rows = np.arange(n_rows, dtype=np.float32)[:, None]
    columns = np.arange(n_cols, dtype=np.float32)[None, :]
    across: FloatPlane = crystals.spread(frequency * np.sin(angles))
    across *= rows
    across += crystals.spread(frequency * np.cos(angles)) * columns
    return across


def _fine_pits(
    crystals: Crystals, strength: float, generator: np.random.Generator
) -> FloatPlane:
    """Tiny dark dots, dense in some crystals and rare in others."""
    shape = crystals.numbers.shape
    share = generator.uniform(0, 1, crystals.count) ** 2
    count = int(shape[0] * shape[1] * (0.004 + 0.02 * strength))
    y, x = (
        generator.integers(0, shape[0], count),
        generator.integers(0, shape[1], count),
    )
    kept = generator.uniform(size=count) < 0.1 + share[crystals.numbers[y, x]]
    dots = np.zeros(shape, np.float32)
    dots[y[kept], x[kept]] = generator.uniform(0.5, 3.0, int(kept.sum()))
    pits: FloatPlane = ndimage.gaussian_filter(dots, 0.7, truncate=3.0)
    pits *= np.float32(1.6)
    return np.minimum(pits, 0.9, out=pits)


@dataclass(frozen=True, slots=True, eq=False)
class SlipTraces:
    """Darkness of slip lines, 0 to 1, and the pixels they cover."""

    darkness: FloatPlane
    mask: npt.NDArray[np.bool_]


def slip_traces(crystals: Crystals, etch: Etch, seed: int) -> SlipTraces:
    """Straight parallel lines in one or two directions of each crystal."""
    strength, manner = etch.slip_traces, etch.deformation
    shape = crystals.numbers.shape
    darkness = np.zeros(shape, np.float32)
    if strength == 0:
        return SlipTraces(darkness, np.zeros(shape, np.bool_))
    generator = stream(seed, "slip")
    profile = _line_profile(manner.slip_crowding, generator)
    for amount in (1.0, 0.7):
        angles = generator.uniform(0, np.pi, crystals.count)
        place = phase_plane(crystals, 2.0, angles)  # half pixels
        offset = generator.integers(0, profile.size, crystals.count)
        place += crystals.spread(offset.astype(np.float32))
        lines = profile[place.astype(np.int64) % profile.size]
        shown = generator.uniform(size=crystals.count) < amount
        lines *= crystals.spread((amount * shown).astype(np.float32))
        fade = smooth_noise(shape, 55.0, generator)
        lines *= np.clip(0.6 + 0.7 * fade, manner.slip_persistence, 1)
        np.maximum(darkness, lines, out=darkness)
    darkness *= np.float32(strength)
    return SlipTraces(darkness, darkness > max(0.25 * strength, 0.03))


def _line_profile(crowding: float, generator: np.random.Generator) -> FloatPlane:
    """One-dimensional pattern of lines in bunches, half a pixel to a sample."""
    length = 8192
    profile = np.zeros(length)
    bunch = np.repeat(generator.uniform(0, 1, 64) ** 2, length // 64)
    position = 0.0
    while position < length - 8:
        position += (generator.exponential(18.0) + 7.0) / crowding
        if generator.uniform() < 0.25 + bunch[min(int(position), length - 1)]:
            start = int(position) % length
            profile[start : start + 3] += generator.uniform(0.35, 1.0)
    smooth = ndimage.gaussian_filter1d(profile, 0.9, mode="wrap")
    return np.minimum(smooth, 1).astype(np.float32)


def band_plane(
    crystals: Crystals, parameters: SectionParameters, seed: int
) -> FloatPlane:
    """Bands of deformation, as a factor on brightness around 1.

    Broad and soft, in a direction of each crystal's own; in drawn metal they are
    fibres along the direction of drawing.
    """
    shape, strength = crystals.numbers.shape, parameters.etch.deformation_bands
    generator = stream(seed, "bands")
    angles = generator.uniform(0, np.pi, crystals.count)
    cells, contrast = (26.0, 7.0), 0.1
    if parameters.population.family == "drawn":
        across = np.deg2rad(90 - parameters.population.direction_deg)
        angles = across + generator.normal(0, 0.03, crystals.count)
        cells, contrast = (6.0, 1.5), 0.15
    place = phase_plane(crystals, 1.0, angles)
    place += 6 * octave_noise(shape, 220.0, generator)
    wide, fine = (smooth_noise((1, 4096), (1.0, cell), generator)[0] for cell in cells)
    half = np.tanh(1.2 * wide) + 0.3 * fine
    pattern = np.concatenate((half, half[::-1]))  # closes without a jump
    bands = pattern[place.astype(np.int64) % pattern.size]
    bands *= 0.7 + 0.5 * smooth_noise(shape, 70.0, generator)
    return np.clip(1 + contrast * strength * bands, 0.3, 1.6).astype(np.float32)
