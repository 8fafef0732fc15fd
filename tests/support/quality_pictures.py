"""Plain drawn pictures for the tests of quality flags; they show no metal."""

import numpy as np
import numpy.typing as npt
from scipy import ndimage

Plane = npt.NDArray[np.float32]
Labels = npt.NDArray[np.int32]


def cell_labels(side: int = 384, cells: int = 150, seed: int = 1) -> Labels:
    """Label each pixel with the nearest of random places."""
    chance = np.random.default_rng(seed)
    seeds = np.zeros((side, side), np.int32)
    places = chance.choice(side * side, cells, replace=False)
    seeds.ravel()[places] = np.arange(1, cells + 1)
    _, nearest = ndimage.distance_transform_edt(seeds == 0, return_indices=True)
    labels: Labels = seeds[tuple(nearest)]
    return labels


def label_edges(labels: Labels) -> npt.NDArray[np.bool_]:
    """Mark the pixels to the left of and above a change of label."""
    edges = np.zeros(labels.shape, np.bool_)
    edges[:, :-1] |= labels[:, 1:] != labels[:, :-1]
    edges[:-1] |= labels[1:] != labels[:-1]
    return edges


def grooved(
    labels: Labels, *, width: float = 2.5, depth: float = 0.4, noise: float = 0.015
) -> Plane:
    """Draw dark grooves of a width [px] on even metal, with noise, in 8 bits."""
    away = ndimage.distance_transform_edt(~label_edges(labels))
    groove = depth / (1 + np.exp((away - width / 2) * 2))
    return eight_bits(0.72 - groove + noise_plane(labels.shape, noise))


def noise_plane(shape: tuple[int, ...], noise: float, seed: int = 2) -> Plane:
    """Draw white noise."""
    chance = np.random.default_rng(seed)
    return (noise * chance.standard_normal(shape)).astype(np.float32)


def eight_bits(picture: npt.NDArray[np.floating]) -> Plane:
    """Round to 256 levels."""
    levels: Plane = (np.rint(np.clip(picture, 0, 1) * 255) / 255).astype(np.float32)
    return levels


def as_tiles(picture: Plane, side: int = 256) -> Plane:
    """Cut one tile in grey levels."""
    tile: Plane = (picture[None, :side, :side] * 255).astype(np.float32)
    return tile
