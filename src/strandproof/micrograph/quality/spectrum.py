"""What the finest scales of a picture hold: noise by frequency, and regular combs."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from scipy import fft, ndimage

from strandproof.micrograph.quality.tiles import BLOCK_PX

FloatPlane = npt.NDArray[np.float32]
Array = npt.NDArray[np.float64]

_FLATTEST = 0.2  # share of the blocks, those with the least coarse structure
_FEWEST_BLOCKS = 8
_LOWEST_PEAK = 0.11  # cycles/px; slower waves are the structure's
_BACKGROUND_BINS = 41


@dataclass(frozen=True, slots=True, kw_only=True)
class FlatPower:
    """Power of the flattest blocks in two bands [level^2 a pixel].

    White noise of standard deviation s has the power s^2 in both; rounding
    to whole levels leaves 1/12 in every picture of 8 bits.

    Parameters
    ----------
    coarse : float
        From 0.12 to 0.2 cycles/px.
    finest : float
        Above 0.45 cycles/px along a row or a column.
    """

    coarse: float
    finest: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Combs:
    """Regular patterns in the roughness of rows and columns.

    Each strength is a power over that of neighbouring frequencies; chance alone
    seldom exceeds 5.

    Parameters
    ----------
    blocks : float
        Strength of the weaker of 1/8 and 3/8 cycles/px, as blocks of 8 px have.
    halves : float
        Strength of the stronger of 1/4 and 1/2 cycles/px.
    other : float
        Strength of the strongest frequency that is no multiple of 1/8.
    other_frequency : float
        That frequency [cycles/px].
    """

    blocks: float
    halves: float
    other: float
    other_frequency: float


def flat_power(tiles: FloatPlane) -> FlatPower | None:
    """Measure the power spectrum where the picture shows least.

    Parameters
    ----------
    tiles : ndarray of float32, shape (n_tiles, side, side)
        Grey levels; the side is a multiple of 16.

    Returns
    -------
    FlatPower or None
        None where there are too few blocks.

    Notes
    -----
    Blocks of 16 x 16 px under a Hann window; the fifth with the least power below
    0.2 cycles/px is averaged, without the very flattest (clipped) ones.
    """
    blocks = _blocks(tiles)
    if len(blocks) < _FEWEST_BLOCKS:
        return None
    blocks = blocks - blocks.mean(axis=(1, 2), keepdims=True)
    wave = np.hanning(BLOCK_PX + 2)[1:-1].astype(np.float32)
    window = np.outer(wave, wave)
    spectra = fft.rfft2(blocks * window, axes=(1, 2))
    power = (spectra.real**2 + spectra.imag**2) / (window**2).sum()
    down, right = np.abs(fft.fftfreq(BLOCK_PX))[:, None], fft.rfftfreq(BLOCK_PX)
    frequency = np.hypot(down, right)
    structure = power[:, (frequency > 0) & (frequency < 0.2)].mean(axis=1)
    order = np.argsort(structure)
    first = int(0.02 * len(order))
    flat = order[first : max(first + _FEWEST_BLOCKS, int(_FLATTEST * len(order)))]
    mean = power[flat].mean(axis=0)
    return FlatPower(
        coarse=float(mean[(frequency >= 0.12) & (frequency < 0.2)].mean()),
        finest=float(mean[np.maximum(down, right) > 0.45].mean()),
    )


def _blocks(tiles: FloatPlane) -> FloatPlane:
    n_tiles, side, _ = tiles.shape
    n = side // BLOCK_PX
    cut = tiles.reshape(n_tiles, n, BLOCK_PX, n, BLOCK_PX).swapaxes(2, 3)
    return cut.reshape(-1, BLOCK_PX, BLOCK_PX)


def regular_combs(tiles: FloatPlane) -> Combs:
    """Find regular patterns that computing leaves and no specimen has.

    Parameters
    ----------
    tiles : ndarray of float32, shape (n_tiles, side, side)
        Grey levels, at least one tile.

    Returns
    -------
    Combs
        Strengths by frequency.

    Notes
    -----
    Interpolation makes the size of second differences periodic along rows and
    columns: by 1/f for an enlargement f (Gallagher 2005, Detection of linear and
    cubic interpolation in JPEG compressed images, 2nd Canadian Conference on
    Computer and Robot Vision; from memory). Blocks of 8 px do so with 8 px.
    """
    strength, frequency = _comb_spectrum(tiles)
    eighths = 8 * frequency
    to_eighth = np.abs(eighths - np.rint(eighths))
    free = (frequency > _LOWEST_PEAK) & (to_eighth > 0.1)
    peak = int(np.argmax(np.where(free, strength, 0)))

    def at(eighth: int) -> float:
        return float(strength[int(np.argmin(np.abs(eighths - eighth)))])

    return Combs(
        blocks=min(at(1), at(3)),
        halves=max(at(2), at(4)),
        other=float(strength[peak]),
        other_frequency=float(frequency[peak]),
    )


def _comb_spectrum(tiles: FloatPlane) -> tuple[Array, Array]:
    """Power of the roughness profiles over its background, and the frequencies."""
    length = (tiles.shape[1] - 2) // 8 * 8  # so that eighths fall on one bin
    power = np.zeros(length // 2 + 1)
    for plane in (tiles, tiles.swapaxes(1, 2)):
        bend = np.abs(2 * plane[:, :, 1:-1] - plane[:, :, :-2] - plane[:, :, 2:])
        # Grooves bend a hundred times more than noise; they must not drown it.
        bend = np.minimum(bend, 3 * np.median(bend[:, ::4, ::4]) + 1)
        profile = bend.mean(axis=1, dtype=np.float64)[:, :length]
        profile -= ndimage.uniform_filter1d(profile, 15, axis=1)
        spectra = fft.rfft(profile * np.hanning(length), axis=1)
        power += (np.abs(spectra) ** 2).mean(axis=0)
    background = ndimage.median_filter(power, _BACKGROUND_BINS)
    # The second term keeps pictures without any roughness from dividing by nothing.
    return power / (background + 1e-6 * length), fft.rfftfreq(length)
