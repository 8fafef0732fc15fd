"""Deformation bands and kinks: contrast inside of a crystal with clear edges."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from strandproof.micrograph.render.crystals import Crystals
from strandproof.micrograph.render.hardships import Deformation
from strandproof.micrograph.render.noise import FloatPlane, octave_noise, stream
from strandproof.micrograph.render.textures import phase_plane

_LENGTH = 8192  # px of pattern before it repeats
_STRONGEST_STEP = 0.2  # of the brightness; weak contrast between grains
_HUE = np.array([0.22, 0.03, -0.28])  # towards red and from blue, or back


@dataclass(frozen=True, slots=True, eq=False)
class Bands:
    """Factors on brightness and on the three colours.

    Parameters
    ----------
    factor : ndarray of float32, shape (n_rows, n_cols)
        Factor on brightness, 1 where there is no band.
    tint : ndarray of float32, shape (n_rows, n_cols)
        How far the hue is shifted, about -0.2 to 0.2.
    """

    factor: FloatPlane
    tint: FloatPlane

    def tinted(self, light: list[FloatPlane]) -> list[FloatPlane]:
        """Return red, green and blue light with the bands in it."""
        return [
            plane * (self.factor * (1 + np.float32(share) * self.tint))
            for plane, share in zip(light, _HUE, strict=True)
        ]


@dataclass(frozen=True, slots=True, eq=False)
class _Pattern:
    """One row an entry: bands along a line across them [px].

    `cell` gives the entry of each pixel of the line.
    """

    cell: npt.NDArray[np.intp]
    centre: npt.NDArray[np.float64]
    half: npt.NDArray[np.float64]
    edge: npt.NDArray[np.float64]
    step: npt.NDArray[np.float64]
    line: npt.NDArray[np.float64]
    shift: npt.NDArray[np.float64]  # moves the ends of a band along itself
    length: npt.NDArray[np.float64]  # half the length of a band
    bluntness: float  # how fast a band reaches its width from its ends


def sharp_bands(crystals: Crystals, deformation: Deformation, seed: int) -> Bands:
    """Draw bands and kinks; neither changes a label.

    Parameters
    ----------
    crystals : Crystals
        Where the crystals lie.
    deformation : Deformation
        What to draw.
    seed : int
        Seed of the section.

    Returns
    -------
    Bands
        Factors on the light.
    """
    shape = crystals.numbers.shape
    factor, tint = np.ones(shape, np.float32), np.zeros(shape, np.float32)
    if deformation.bands:
        generator = stream(seed, "sharp bands")
        pattern = _wide_pattern(deformation, generator)
        wave = float(generator.uniform(2, 0.25 * deformation.band_spacing_px + 3))
        amount, _ = _drawn(crystals, pattern, (wave, deformation), generator)
        factor += np.float32(_STRONGEST_STEP * deformation.bands) * amount
        turned = generator.choice((-1.0, 1.0)) * deformation.band_hue
        tint += np.float32(turned * deformation.bands) * amount
    if deformation.kinks:
        generator = stream(seed, "kinks")
        pattern = _kink_pattern(deformation, generator)
        amount, lines = _drawn(crystals, pattern, (0.6, deformation), generator)
        factor += np.float32(0.5 * _STRONGEST_STEP * deformation.kinks) * amount
        factor *= 1 - np.float32(0.6 * deformation.kinks) * lines
    return Bands(np.clip(factor, 0.3, 1.6, out=factor), tint)


def _wide_pattern(deformation: Deformation, generator: np.random.Generator) -> _Pattern:
    spacing = deformation.band_spacing_px
    gaps = spacing * generator.uniform(0.5, 1.8, int(2.2 * _LENGTH / spacing) + 8)
    widths = gaps * generator.uniform(0.15, 0.75, gaps.size)
    sharpest = min(1.5, deformation.band_edge_px)
    low, high = np.log(sharpest), np.log(deformation.band_edge_px)
    edges = np.exp(generator.uniform(low, high, gaps.size))
    steps = generator.choice((-1.0, 1.0), gaps.size, p=(0.65, 0.35))
    steps *= generator.uniform(0.35, 1.0, gaps.size)
    reach = spacing * np.exp(generator.uniform(0.5, 2.4, gaps.size))
    return _pattern(
        (gaps, widths, edges, steps), np.zeros(gaps.size), (reach, 2.0), generator
    )


def _kink_pattern(deformation: Deformation, generator: np.random.Generator) -> _Pattern:
    spacing = 0.8 * deformation.band_spacing_px
    gaps = spacing * generator.uniform(0.4, 2.2, int(2.4 * _LENGTH / spacing) + 8)
    widths = np.minimum(generator.uniform(3, 16, gaps.size), 0.5 * gaps)
    edges = np.full(gaps.size, 1.2)
    steps = generator.normal(0, 0.7, gaps.size)
    lines = generator.uniform(0.2, 1.0, gaps.size)
    reach = spacing * np.exp(generator.uniform(0.3, 2.5, gaps.size))
    return _pattern((gaps, widths, edges, steps), lines, (reach, 12.0), generator)


def _pattern(
    sides: tuple[npt.NDArray[np.float64], ...],
    lines: npt.NDArray[np.float64],
    ends_at: tuple[npt.NDArray[np.float64], float],
    generator: np.random.Generator,
) -> _Pattern:
    gaps, widths, edges, steps = sides
    reach, bluntness = ends_at
    ends = np.cumsum(gaps)
    used = int(np.searchsorted(ends, _LENGTH))
    cell = np.searchsorted(ends, np.arange(_LENGTH), side="right")
    # The last cell ends with the pattern, so that it repeats without a cut.
    ends, gaps = ends.copy(), gaps.copy()
    ends[used], gaps[used] = _LENGTH, gaps[used] - (ends[used] - _LENGTH)
    half = np.minimum(0.5 * widths, 0.4 * gaps)
    shift = generator.uniform(0, 1e4, gaps.size)
    return _Pattern(
        cell, ends - 0.5 * gaps, half, edges, steps, lines, shift, reach, bluntness
    )


def _drawn(
    crystals: Crystals,
    pattern: _Pattern,
    manner: tuple[float, Deformation],
    generator: np.random.Generator,
) -> tuple[FloatPlane, FloatPlane]:
    """Signed strength of the bands, and of the lines along their edges."""
    wave, deformation = manner
    shape = crystals.numbers.shape
    angles = generator.uniform(0, np.pi, crystals.count)
    across = phase_plane(crystals, 1.0, angles)
    across += crystals.spread(generator.uniform(0, _LENGTH, crystals.count))
    across += np.float32(wave) * octave_noise(shape, 80.0, generator, octaves=2)
    across %= np.float32(_LENGTH)
    cell = pattern.cell[np.minimum(across.astype(np.intp), _LENGTH - 1)]
    along = phase_plane(crystals, 1.0, angles + np.pi / 2)
    half = _narrowed(pattern, cell, along)
    beyond = np.abs(across - _looked_up(pattern.centre, cell)) - half
    shown = generator.uniform(size=crystals.count) < deformation.banded_fraction
    present = crystals.spread(shown.astype(np.float32))
    present *= np.clip(half / 1.5, 0, 1)  # nothing beyond a band's end
    place = np.clip(0.5 - beyond / _looked_up(pattern.edge, cell), 0, 1)
    amount = place * place * (3 - 2 * place)
    amount *= _looked_up(pattern.step, cell) * present
    lines = np.exp(-((beyond / np.float32(1.1)) ** 2))
    lines *= _looked_up(pattern.line, cell) * present
    return amount, lines


def _looked_up(
    table: npt.NDArray[np.float64], cell: npt.NDArray[np.intp]
) -> FloatPlane:
    return np.take(table.astype(np.float32), cell)


def _narrowed(
    pattern: _Pattern, cell: npt.NDArray[np.intp], along: FloatPlane
) -> FloatPlane:
    """Half width of the band at each pixel: it tapers to nothing at both ends.

    Along its line a band comes again after four half lengths.
    """
    length = _looked_up(pattern.length, cell)
    turn = (along + _looked_up(pattern.shift, cell)) / (4 * length)
    turn -= np.floor(turn)
    left = np.clip(
        (1 - 4 * np.abs(turn - np.float32(0.5))) * np.float32(pattern.bluntness), 0, 1
    )
    half: FloatPlane = left * (2 - left) * _looked_up(pattern.half, cell)
    return half
