"""Crystals of a section and the shade and hue that the etch gives each of them."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from strandproof.micrograph.render.appearance import Etch
from strandproof.micrograph.render.noise import FloatPlane, octave_noise, stream

IntPlane = npt.NDArray[np.int32]

SETS = 3  # crystals in a grain: the parent and two sets of twins

# Tints of film thickness as tint etches and polarised light give them, and of
# plain copper in bright field; judged by eye, mean luminance near 1.
_COPPER_TINT = np.array([1.25, 0.945, 0.745])
_COPPER_PINK = np.array([0.016, -0.005, 0.010])
_FILM_TINTS = np.array(  # a ring: straw, gold, brown, mauve, lavender, blue, cream
    [
        [1.12, 1.08, 0.55],
        [1.22, 0.92, 0.50],
        [1.15, 0.88, 0.68],
        [1.02, 0.90, 1.02],
        [0.90, 0.95, 1.35],
        [0.72, 0.98, 1.42],
        [1.02, 1.05, 0.92],
    ]
)
_FILM_STEPS = 128  # table entries from one of these tints to the next


@dataclass(frozen=True, slots=True, eq=False)
class Crystals:
    """Which crystal each pixel belongs to: grain number times three plus twin set.

    Parameters
    ----------
    numbers : ndarray of int32, shape (n_rows, n_cols)
        Crystal number; 0 to 2 outside of metal.
    count : int
        Length of a table indexed by crystal number.
    strands : ndarray of int32, shape (n_rows, n_cols)
        Strand number; 0 outside of metal.
    """

    numbers: IntPlane
    count: int
    strands: IntPlane

    @classmethod
    def of(
        cls, grains: IntPlane, twins: IntPlane, sets: IntPlane, strands: IntPlane
    ) -> "Crystals":
        """Combine grain labels and lamellae (with the set of each lamella)."""
        numbers = grains * np.int32(SETS) + sets[twins]
        return cls(numbers, SETS * (int(grains.max()) + 1), strands)

    def spread(self, table: npt.NDArray[np.floating]) -> FloatPlane:
        """Look up one value a crystal for every pixel."""
        return np.take(table.astype(np.float32), self.numbers)


def twinned_table(
    values: npt.NDArray[np.float64], twin_share: float
) -> npt.NDArray[np.float64]:
    """Let twins differ from their parent by a share of the drawn difference."""
    by_grain = values.reshape(-1, SETS)
    parent = by_grain[:, :1]
    result: npt.NDArray[np.float64] = parent + twin_share * (by_grain - parent)
    return result.ravel()


def _shade_table(crystals: Crystals, etch: Etch, seed: int) -> FloatPlane:
    """Brightness of each crystal: most light, some dark, as facets reflect."""
    generator = stream(seed, "shade")
    deviates = 2 * generator.beta(2.2, 1.5, crystals.count) - 1.2
    by_grain = deviates.reshape(-1, SETS)
    # A twin that happens to match its parent would be invisible: push them apart.
    apart = by_grain[:, 1:] - by_grain[:, :1]
    by_grain[:, 1:] += np.where(np.abs(apart) < 0.5, np.copysign(0.5, apart), 0)
    table = 1 + etch.grey_contrast * twinned_table(deviates, etch.twin_contrast)
    return np.clip(table, 0.15, 1.6).astype(np.float32)


def shade_plane(crystals: Crystals, etch: Etch, seed: int) -> FloatPlane:
    """Relative brightness of the metal by crystal."""
    return crystals.spread(_shade_table(crystals, etch, seed))


def tint_planes(crystals: Crystals, etch: Etch, seed: int) -> list[FloatPlane]:
    """Red, green and blue tint of every pixel, mean luminance near 1."""
    generator = stream(seed, "tint")
    # Copper grains differ along one line, from pink to brown, not in all hues;
    # what is darker is also browner.
    warmth = generator.normal(0, 1, (2, crystals.count))
    warmth[0] += 5 * (1 - _shade_table(crystals, etch, seed))
    planes = []
    for copper, pink in zip(_COPPER_TINT, _COPPER_PINK, strict=True):
        table = copper ** (1 + 0.07 * warmth[0]) * (1 + pink * warmth[1])
        planes.append(crystals.spread(table))
    if etch.hue_contrast == 0:
        return planes
    share = np.float32(etch.hue_contrast)
    film = _film_numbers(crystals, etch, generator)
    return [
        plane + share * (np.take(table, film) - plane)
        for plane, table in zip(planes, _film_tables(), strict=True)
    ]


def _film_numbers(
    crystals: Crystals, etch: Etch, generator: np.random.Generator
) -> npt.NDArray[np.intp]:
    """Entry of the film tables for each pixel, uneven within a crystal."""
    ring = len(_FILM_TINTS)
    phase = ring * etch.hue_spread * (generator.beta(1.4, 1.4, crystals.count) - 0.5)
    phase = generator.uniform(0, ring) + twinned_table(phase, etch.twin_contrast)
    place = octave_noise(crystals.numbers.shape, 11.0, generator, octaves=4)
    place *= np.float32(etch.film_unevenness)
    place += crystals.spread(phase)
    place *= np.float32(_FILM_STEPS)
    numbers: npt.NDArray[np.intp] = place.astype(np.intp) % (ring * _FILM_STEPS)
    return numbers


def _film_tables() -> list[FloatPlane]:
    ring = len(_FILM_TINTS)
    closed = np.vstack((_FILM_TINTS, _FILM_TINTS[:1]))
    places = np.arange(ring * _FILM_STEPS) / _FILM_STEPS
    return [
        np.interp(places, np.arange(ring + 1), tints).astype(np.float32)
        for tints in closed.T
    ]
