"""The mount beside the metal, and the rounded edge between them."""

import numpy as np
from scipy import ndimage

from strandproof.micrograph.render.appearance import Preparation
from strandproof.micrograph.render.noise import (
    FloatPlane,
    octave_noise,
    smooth_noise,
    stream,
)


def beside_mount(
    light: list[FloatPlane],
    depth_px: FloatPlane,
    wear: FloatPlane,
    preparation: Preparation,
    seed: int,
) -> list[FloatPlane]:
    """Put resin beside the metal, and round the metal's edge.

    Parameters
    ----------
    light : list of ndarray of float32, shape (n_rows, n_cols)
        Red, green and blue light of the metal, as if it filled the picture.
    depth_px : ndarray of float32, shape (n_rows, n_cols)
        Distance to the strand's edge, positive in metal [px].
    wear : ndarray of float32, shape (n_rows, n_cols)
        Factor on brightness by scratches and holes; the mount shows half of it.
    preparation : Preparation
        Edge rounding and brightness of the mount.
    seed : int
        Seed of the section.

    Returns
    -------
    list of ndarray of float32, shape (n_rows, n_cols)
        Light of metal and mount.
    """
    generator = stream(seed, "mount")
    rounding = np.float32(preparation.edge_rounding_px)
    outside = np.maximum(-depth_px, 0)
    resin = _resin(depth_px.shape, preparation.resin_brightness, generator)
    resin *= 0.5 + 0.5 * wear
    # Light scattered from the metal, and the shrinkage gap at its edge.
    glow = np.float32(generator.uniform(0.01, 0.08))
    resin += glow * np.exp(-outside / (2 * rounding + 4))
    gap = np.float32(generator.uniform(0.1, 0.9))
    resin *= 1 - gap * np.exp(-((outside / 2.5) ** 2))
    inside = np.maximum(depth_px, 0)
    shoulder = np.float32(generator.uniform(0.5, 0.9))
    rim = 1 - shoulder * np.exp(-((inside / rounding) ** 1.5))
    metal = np.clip(depth_px + 0.5, 0, 1)
    resin *= 1 - metal
    metal *= rim
    tints = generator.normal((1.02, 1.0, 0.98), 0.04).astype(np.float32)
    return [
        metal * plane + resin * tint for plane, tint in zip(light, tints, strict=True)
    ]


def _resin(
    shape: tuple[int, ...], brightness: float, generator: np.random.Generator
) -> FloatPlane:
    """Cloudy, slightly grainy resin with grains of a filler."""
    size = (shape[0], shape[1])
    resin = 1 + 0.11 * octave_noise(size, 36.0, generator)
    resin += 0.12 * smooth_noise(size, 1.5, generator)
    count = int(size[0] * size[1] * generator.uniform(0, 0.003))
    fillers = np.zeros(size, np.float32)
    y, x = (generator.integers(0, side, count) for side in size)
    fillers[y, x] = generator.normal(0, 6, count)
    blur = generator.uniform(0.8, 1.8)
    resin += ndimage.gaussian_filter(fillers, blur, truncate=3.0)
    lit: FloatPlane = np.maximum(resin, 0.2) * np.float32(brightness)
    return lit
