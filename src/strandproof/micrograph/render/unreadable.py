"""Patches in which nobody could tell a boundary: smears, defocus and glare."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from scipy import ndimage

from strandproof.micrograph.render.appearance import Camera
from strandproof.micrograph.render.hardships import Unreadable
from strandproof.micrograph.render.noise import (
    FloatPlane,
    octave_noise,
    smooth_noise,
    stream,
)

Mask = npt.NDArray[np.bool_]

_HIDDEN = 0.9  # a patch is unreadable where this share of the light is its own
_GLARE = 2.5  # light of full glare as the camera shows it, in full scales


@dataclass(frozen=True, slots=True, eq=False)
class Obscured:
    """Light with its unreadable patches.

    Parameters
    ----------
    light : list of ndarray of float32, shape (n_rows, n_cols)
        Red, green and blue.
    mask : ndarray of bool, shape (n_rows, n_cols)
        Pixels whose own structure cannot be seen.
    """

    light: list[FloatPlane]
    mask: Mask


def obscured(
    light: list[FloatPlane], patches: Unreadable, camera: Camera, seed: int
) -> Obscured:
    """Lay smears, defocus and glare over the light of a section.

    Parameters
    ----------
    light : list of ndarray of float32, shape (n_rows, n_cols)
        Red, green and blue light before the camera.
    patches : Unreadable
        What to draw.
    camera : Camera
        Its exposure and uneven light tell where glare saturates.
    seed : int
        Seed of the section.

    Returns
    -------
    Obscured
        New light and the mask of what is hidden.
    """
    shape = light[0].shape
    size = (shape[0], shape[1])
    mask = np.zeros(size, np.bool_)
    if patches.smear_fraction:
        light, cover = _smeared(light, patches.smear_fraction, stream(seed, "smears"))
        mask |= cover > _HIDDEN
    if patches.defocus_fraction:
        cover = _patches(size, patches.defocus_fraction, 0.35, stream(seed, "defocus"))
        light = [
            plane
            + cover
            * (
                ndimage.gaussian_filter(plane, patches.defocus_blur_px, truncate=2.5)
                - plane
            )
            for plane in light
        ]
        mask |= cover > _HIDDEN
    if patches.glare_fraction:
        cover = _patches(size, patches.glare_fraction, 0.5, stream(seed, "glare"))
        full = np.float32(_GLARE / camera.exposure)
        light = [plane + cover * (full - plane) for plane in light]
        mask |= cover > _saturating_cover(camera)
    return Obscured(light, mask)


def _saturating_cover(camera: Camera) -> float:
    """Share of glare that drives even the darkest corner to full scale."""
    corner = (1 - camera.light_gradient / 2) * max(0.0, 1 - 1.56 * camera.vignetting)
    return _HIDDEN if corner == 0 else min(_HIDDEN, max(0.5, 1 / (_GLARE * corner)))


def _patches(
    shape: tuple[int, int],
    fraction: float,
    softness: float,
    generator: np.random.Generator,
) -> FloatPlane:
    """Cover from 0 to 1: blobs over a share of the area, with soft edges.

    `softness` is the width of the edge in standard deviations of the field.
    """
    cell = min(shape) * generator.uniform(0.08, 0.28)
    field = smooth_noise(shape, cell, generator)
    field += 0.15 * octave_noise(shape, cell / 3, generator, octaves=2)
    level = np.float32(np.quantile(field[::8, ::8], 1 - fraction))
    cover: FloatPlane = np.clip((field - level) / np.float32(softness), 0, 1)
    return cover * cover * (3 - 2 * cover)


def _smeared(
    light: list[FloatPlane], fraction: float, generator: np.random.Generator
) -> tuple[list[FloatPlane], FloatPlane]:
    """Opaque films: dark, brown, grey or pale, with a soft texture of their own."""
    size = (light[0].shape[0], light[0].shape[1])
    cover = _patches(size, fraction, generator.uniform(0.05, 0.3), generator)
    tones = np.array(((0.12, 0.1, 0.08), (0.4, 0.28, 0.16), (0.5, 0.5, 0.5), (1, 1, 1)))
    tone = tones[generator.integers(len(tones))] * generator.uniform(0.7, 1.2)
    texture = 1 + np.float32(generator.uniform(0.02, 0.2)) * octave_noise(
        size, generator.uniform(8, 40), generator
    )
    laid = [
        plane + cover * (np.float32(own) * texture - plane)
        for plane, own in zip(light, tone, strict=True)
    ]
    return laid, cover
