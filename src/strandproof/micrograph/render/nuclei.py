"""Nuclei of grains: where they lie, how large they are, and which grain holds a point.

A section plane cuts a power (Laguerre) diagram of nuclei in space. The power
distance of a point of the plane to a nucleus is the squared distance within the
plane plus z^2 - r^2, so the section is again a power diagram, and the nearest
nucleus in a space with one more coordinate, sqrt(z^2 - r^2 + const).
"""

from dataclasses import dataclass
from math import exp

import numpy as np
import numpy.typing as npt
from scipy.spatial import KDTree

Plane = npt.NDArray[np.float64]

# Jitter of the body-centred lattice of nuclei, in mean spacings: large enough to
# leave no row of grains visible, small enough to keep grains compact.
_JITTER = 0.24
_LARGEST_DEVIATE = 2.0


@dataclass(frozen=True, slots=True)
class Extent:
    """Rectangle in the frame of the structure: along and across its direction."""

    along: tuple[float, float]
    across: tuple[float, float]

    @classmethod
    def around(cls, along: Plane, across: Plane) -> "Extent":
        """Return the smallest rectangle that holds all points."""
        return cls(
            (float(along.min()), float(along.max())),
            (float(across.min()), float(across.max())),
        )


@dataclass(frozen=True, slots=True, eq=False)
class Nuclei:
    """Nuclei near the section plane.

    Parameters
    ----------
    places : ndarray of float64, shape (n_nuclei, 2)
        Position along and across [px].
    heights : ndarray of float64, shape (n_nuclei,)
        Distance from the section plane, signed [px].
    radii : ndarray of float64, shape (n_nuclei,)
        Radius, whose square is the power weight [px].
    """

    places: npt.NDArray[np.float64]
    heights: npt.NDArray[np.float64]
    radii: npt.NDArray[np.float64]

    def nearest(self, along: Plane, across: Plane) -> npt.NDArray[np.int32]:
        """Find the number (from 0) of the nucleus whose grain holds each point."""
        if along.size == 0:
            return np.zeros(along.shape, np.int32)
        power = self.heights**2 - self.radii**2
        lift = np.sqrt(power - power.min())
        tree = KDTree(np.column_stack((self.places, lift)), balanced_tree=False)
        flat = (along.ravel(), across.ravel(), np.zeros(along.size))
        points = np.column_stack(flat)
        # A bound found on a few points makes the search much shorter; the few
        # points beyond it are searched again.
        reach = 1.25 * float(np.max(tree.query(points[::101])[0]))
        found = np.asarray(tree.query(points, distance_upper_bound=reach)[1], np.int32)
        lost = found == lift.size
        found[lost] = tree.query(points[lost])[1]
        return found.reshape(along.shape)


def lattice_nuclei(
    extent: Extent,
    *,
    spacing: float,
    size_spread: float,
    generator: np.random.Generator,
) -> Nuclei:
    """Draw nuclei on a jittered, turned body-centred lattice around a plane."""
    depth = spacing * (1.2 + 0.5 * exp(_LARGEST_DEVIATE * size_spread))
    edge = spacing * 2 ** (1 / 3)  # two nuclei in each cube
    cubes = _turned_lattice(extent, edge=edge, margin=depth, generator=generator)
    layers = np.arange(-depth, depth, edge / 2) + edge / 2 * generator.uniform()
    sides = [cubes + (k % 2) * edge / 2 for k in range(layers.size)]
    places = np.concatenate(sides)
    heights = np.repeat(layers, [len(side) for side in sides])
    places = places + generator.normal(0, _JITTER * spacing, places.shape)
    heights = heights + generator.normal(0, _JITTER * spacing, heights.shape)
    deviates = np.clip(
        generator.standard_normal(heights.size), -_LARGEST_DEVIATE, _LARGEST_DEVIATE
    )
    radii = 0.5 * spacing * np.exp(size_spread * deviates)
    turned = _turn(places, generator.uniform(0, np.pi))
    centred = turned + _middle(extent)
    near = _inside(centred, extent, margin=depth)
    return Nuclei(centred[near], heights[near], radii[near])


def _middle(extent: Extent) -> npt.NDArray[np.float64]:
    return np.array([sum(extent.along) / 2, sum(extent.across) / 2])


def _turn(places: npt.NDArray[np.float64], angle: float) -> npt.NDArray[np.float64]:
    cosine, sine = np.cos(angle), np.sin(angle)
    first, second = places.T
    return np.column_stack(
        (first * cosine - second * sine, first * sine + second * cosine)
    )


def _turned_lattice(
    extent: Extent, *, edge: float, margin: float, generator: np.random.Generator
) -> npt.NDArray[np.float64]:
    """Square lattice over the circle around the extent, before it is turned."""
    sides = (np.ptp(extent.along) + 2 * margin, np.ptp(extent.across) + 2 * margin)
    reach = 0.5 * float(np.hypot(*sides))
    line = np.arange(-reach - edge, reach + edge, edge)
    first, second = np.meshgrid(line, line, indexing="ij")
    phase = generator.uniform(0, edge, 2)
    return np.column_stack((first.ravel(), second.ravel())) + phase


def _inside(
    places: npt.NDArray[np.float64], extent: Extent, *, margin: float
) -> npt.NDArray[np.bool_]:
    low = np.array([extent.along[0], extent.across[0]]) - margin
    high = np.array([extent.along[1], extent.across[1]]) + margin
    inside: npt.NDArray[np.bool_] = np.all((places >= low) & (places <= high), axis=1)
    return inside


def wall_positions(
    along: tuple[float, float],
    *,
    spacing: float,
    size_spread: float,
    generator: np.random.Generator,
) -> npt.NDArray[np.float64]:
    """Draw the places of the walls of a bamboo structure along the strand.

    Gaps are lognormal with the given mean; the first wall lies a whole stretch
    before the picture, so that the picture begins at a random place of a gap.
    """
    count = int((along[1] - along[0]) / spacing * 2) + 24
    sigma = max(size_spread, 0.05)
    gaps = spacing * np.exp(sigma * generator.standard_normal(count) - 0.5 * sigma**2)
    start = along[0] - spacing * (8 + generator.uniform())
    return start + np.cumsum(gaps)
