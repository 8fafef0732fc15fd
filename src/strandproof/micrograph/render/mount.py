"""The mount beside the metal, and the rounded edge between them."""

import numpy as np
from scipy import ndimage

from strandproof.micrograph.render.appearance import Preparation
from strandproof.micrograph.render.hardships import Resin
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
    if preparation.resin != Resin():
        resin = _detailed(resin, outside, preparation, seed)
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


def _detailed(
    resin: FloatPlane, outside: FloatPlane, preparation: Preparation, seed: int
) -> FloatPlane:
    """Resin with filler grains, dim structure, and a halo or gap at the metal."""
    detail, shape = preparation.resin, (resin.shape[0], resin.shape[1])
    if detail.structure:
        resin = resin * _dim_structure(shape, detail.structure, seed)
    if detail.fillers_per_mpx:
        resin = resin + _filler_grains(shape, preparation, seed)
    generator = stream(seed, "halo")
    reach = generator.uniform(1.5, 6)
    at_edge = np.exp(-((outside / np.float32(reach)) ** 2)) * np.float32(detail.halo)
    brightness = np.float32(generator.uniform(0.3, 0.9))
    edged: FloatPlane = (
        resin + at_edge * brightness if detail.halo > 0 else resin * (1 + at_edge)
    )
    return edged


def _dim_structure(shape: tuple[int, int], strength: float, seed: int) -> FloatPlane:
    """Clouds and thin curved lines, as of things below the polished face."""
    generator = stream(seed, "resin structure")
    clouds = octave_noise(shape, float(generator.uniform(25, 90)), generator)
    field = smooth_noise(shape, float(generator.uniform(20, 70)), generator)
    lines = np.exp(-((field / np.float32(0.05)) ** 2))
    plane = 1 + np.float32(strength) * (0.35 * clouds - 0.4 * lines)
    bounded: FloatPlane = np.clip(plane, 0.3, 2)
    return bounded


def _filler_grains(
    shape: tuple[int, int], preparation: Preparation, seed: int
) -> FloatPlane:
    """Angular grains, lighter or darker than the resin."""
    generator = stream(seed, "fillers")
    count = int(preparation.resin.fillers_per_mpx * shape[0] * shape[1] / 1e6)
    added = np.zeros(shape, np.float32)
    size = generator.uniform(2, 9)
    for _ in range(count):
        y, x = generator.uniform(0, shape[0]), generator.uniform(0, shape[1])
        radius = size * generator.lognormal(0, 0.5)
        _add_grain(added, (y, x, min(radius, 40.0)), generator)
    added *= np.float32(preparation.resin_brightness + 0.05)
    return added


def _add_grain(
    added: FloatPlane, place: tuple[float, float, float], generator: np.random.Generator
) -> None:
    """Add one convex grain with five straight sides."""
    y, x, radius = place
    rows, columns = (
        slice(max(0, int(at - 1.6 * radius)), max(0, int(at + 1.6 * radius) + 1))
        for at in (y, x)
    )
    window = added[rows, columns]
    down = np.arange(window.shape[0])[:, None] + rows.start - y
    right = np.arange(window.shape[1])[None, :] + columns.start - x
    sides = np.sort(generator.uniform(0, 2 * np.pi, 5))
    beyond = np.max(
        [
            down * np.sin(a) + right * np.cos(a) - radius * generator.uniform(0.5, 1)
            for a in sides
        ],
        axis=0,
    )
    beyond = np.maximum(beyond, np.hypot(down, right) - 1.3 * radius)
    tone = generator.normal(0.3, 0.5)
    window[...] += (tone * np.clip(0.5 - beyond, 0, 1)).astype(np.float32)
