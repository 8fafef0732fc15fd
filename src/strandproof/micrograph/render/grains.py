"""From a population to grain labels on the pixels of one strand."""

from dataclasses import dataclass
from math import sqrt

import numpy as np
import numpy.typing as npt
from skimage.measure import label as connected_parts

from strandproof.micrograph.render.calibration import (
    fine_and_coarse,
    nucleus_spacing,
    stretch_factor,
)
from strandproof.micrograph.render.noise import noise_at
from strandproof.micrograph.render.nuclei import (
    Extent,
    lattice_nuclei,
    wall_positions,
)
from strandproof.micrograph.render.population import GrainPopulation
from strandproof.micrograph.render.relaxation import LabelPlane, RelaxedGrains

Plane = npt.NDArray[np.float64]

# Working pixels to one mean intercept while boundaries are smoothed, and rounds.
_WORKING_RESOLUTION = 8.0
_ROUNDS = 3
# Grains thinner than this many pixels are drawn without smoothing: the picture
# would not show it, and thin grains would be lost.
_LEAST_RELAXED_PX = 11.0


@dataclass(frozen=True, slots=True)
class _Grid:
    """Points at which grains are first drawn: `step` pixels apart, with a rim."""

    shape: tuple[int, int]
    step: float
    rim: int

    @property
    def rows(self) -> Plane:
        return self._positions(self.shape[0])

    @property
    def columns(self) -> Plane:
        return self._positions(self.shape[1])

    def _positions(self, n: int) -> Plane:
        count = int(np.ceil((n - 1) / self.step)) + 1 + 2 * self.rim
        return np.arange(-self.rim, count - self.rim, dtype=np.float64) * self.step

    def working(self, n: int) -> Plane:
        """Working coordinates of the picture's n rows or columns."""
        return np.arange(n) / self.step + self.rim


def grain_labels(
    metal: npt.NDArray[np.bool_],
    population: GrainPopulation,
    *,
    um_per_px: float,
    generator: np.random.Generator,
) -> LabelPlane:
    """Fill the metal of one strand with grains.

    Parameters
    ----------
    metal : ndarray of bool, shape (n_rows, n_cols)
        The strand within its bounding box.
    population : GrainPopulation
        What to draw.
    um_per_px : float
        Pixel size [um].
    generator : numpy.random.Generator
        Source of chance.

    Returns
    -------
    ndarray of int32, shape (n_rows, n_cols)
        0 outside; 1..n connected grains, every metal pixel in one.
    """
    if population.mean_intercept_um is None:
        return metal.astype(np.int32)
    intercept = population.mean_intercept_um / um_per_px
    least = _least_intercept(population, intercept)
    relaxed = least >= _LEAST_RELAXED_PX and population.family != "drawn"
    step = _working_step(least, metal) if relaxed else 1.0
    grid = _Grid(metal.shape, step, 8 if relaxed else 0)
    spacing = nucleus_spacing(population, intercept, relaxed=relaxed)
    stretch = stretch_factor(population, relaxed=relaxed)
    along, across = _structure_frame(grid, population.direction_deg, stretch)
    if relaxed:
        drawn = _drawn_labels(along, across, population, spacing, generator)
        labels = _relax(drawn, metal, grid, population)
    else:
        labels = np.zeros(metal.shape, np.int32)
        labels[metal] = _drawn_labels(
            along[metal], across[metal], population, spacing, generator
        )
    return tidy_labels(
        labels, metal, least_area=max(3.0, 0.008 * least**2), by_corners=not relaxed
    )


def _working_step(least: float, metal: npt.NDArray[np.bool_]) -> float:
    """Pixels between working points: fine enough for the grains and the strand."""
    thickness = float(np.count_nonzero(metal)) / np.hypot(*metal.shape)
    return float(max(1.0, min(least / _WORKING_RESOLUTION, thickness / 6)))


def _least_intercept(population: GrainPopulation, intercept: float) -> float:
    if population.family == "bimodal":
        intercept = fine_and_coarse(population, intercept)[0]
    return intercept / sqrt(population.elongation)


def _relax(
    labels: LabelPlane,
    metal: npt.NDArray[np.bool_],
    grid: _Grid,
    population: GrainPopulation,
) -> LabelPlane:
    # Grains as wide as the strand meet its surface at right angles; smaller ones
    # run on as if there were no edge, which keeps their mean intercept.
    free = np.ones(labels.shape, np.bool_)
    if population.family == "bamboo":
        rows = np.clip(np.rint(grid.rows), 0, metal.shape[0] - 1).astype(np.intp)
        columns = np.clip(np.rint(grid.columns), 0, metal.shape[1] - 1).astype(np.intp)
        free = metal[np.ix_(rows, columns)]
    dense = np.unique(labels, return_inverse=True)[1].reshape(labels.shape)
    grains = RelaxedGrains(dense.astype(np.int32), free, rounds=_ROUNDS)
    return grains.read(grid.working(metal.shape[0]), grid.working(metal.shape[1]))


def _drawn_labels(
    along: Plane,
    across: Plane,
    population: GrainPopulation,
    spacing: float,
    generator: np.random.Generator,
) -> LabelPlane:
    """Grain numbers, with gaps, of points of any number."""
    along, across = _bent(along, across, population, spacing, generator)
    if population.family == "bamboo":
        walls = wall_positions(
            (float(along.min()), float(along.max())),
            spacing=spacing,
            size_spread=population.size_spread,
            generator=generator,
        )
        return np.searchsorted(walls, along).astype(np.int32)
    extent = Extent.around(along, across)
    spread = population.size_spread
    nuclei = lattice_nuclei(
        extent, spacing=spacing, size_spread=spread, generator=generator
    )
    labels = nuclei.nearest(along, across)
    if population.family != "bimodal":
        return labels
    fine = lattice_nuclei(
        extent,
        spacing=spacing / population.fine_ratio,
        size_spread=spread,
        generator=generator,
    )
    inside = _refined(labels, nuclei.places, population, spacing, generator)[labels]
    labels[inside] = fine.nearest(along[inside], across[inside]) + nuclei.radii.size
    return labels


def _refined(
    labels: LabelPlane,
    places: Plane,
    population: GrainPopulation,
    spacing: float,
    generator: np.random.Generator,
) -> npt.NDArray[np.bool_]:
    """Which coarse grains are replaced by fine ones: neighbours, by area.

    The last grain is taken or left by chance, so that the expected share is met
    even where a strand holds a grain or two.
    """
    patches = noise_at((places[:, 0], places[:, 1]), 1.5 * spacing, generator)
    areas = np.bincount(labels.ravel(), minlength=len(places)).astype(np.float64)
    order = np.argsort(patches, kind="stable")
    before = np.cumsum(areas[order]) - areas[order]
    chance = generator.uniform()
    refined = np.zeros(len(places), np.bool_)
    refined[order] = (
        before + chance * areas[order] < population.fine_fraction * labels.size
    )
    return refined


def _bent(
    along: Plane,
    across: Plane,
    population: GrainPopulation,
    spacing: float,
    generator: np.random.Generator,
) -> tuple[Plane, Plane]:
    """Bend the plane smoothly, by a share of the (finest) grains' size."""
    size = spacing
    if population.family == "bimodal":
        size = 1.5 * spacing / population.fine_ratio
    cell = (0.6 if population.family == "bamboo" else 0.35) * size
    bend = population.waviness * size
    shifts = [bend * noise_at((along, across), cell, generator) for _ in range(2)]
    return along + shifts[0], across + shifts[1]


def _structure_frame(
    grid: _Grid, direction_deg: float, stretch: float
) -> tuple[Plane, Plane]:
    """Coordinates along and across the direction, with the stretch taken out."""
    y, x = np.meshgrid(-grid.rows, grid.columns, indexing="ij")
    angle = np.deg2rad(direction_deg)
    along = (x * np.cos(angle) + y * np.sin(angle)) / stretch
    across = (-x * np.sin(angle) + y * np.cos(angle)) * stretch
    return along, across


def tidy_labels(
    labels: LabelPlane,
    metal: npt.NDArray[np.bool_],
    *,
    least_area: float,
    by_corners: bool,
) -> LabelPlane:
    """Renumber connected grains from 1 and give specks to their neighbours.

    Thin slanted grains hang together by the corners of their pixels only.
    """
    parts: LabelPlane = connected_parts(
        np.where(metal, labels + 1, 0),
        background=0,
        connectivity=2 if by_corners else 1,
    ).astype(np.int32)
    areas = np.bincount(parts.ravel())
    specks = areas < least_area
    specks[0] = False
    if specks.any() and not specks[1:].all():
        parts = _absorb(parts, specks[parts], metal)
    numbers = np.unique(parts[metal], return_inverse=True)[1] + 1
    tidied = np.zeros(labels.shape, np.int32)
    tidied[metal] = numbers
    return tidied


def _absorb(
    parts: LabelPlane, specks: npt.NDArray[np.bool_], metal: npt.NDArray[np.bool_]
) -> LabelPlane:
    """Fill specks from the nearest grain beside them, step by step."""
    filled = np.where(specks, 0, parts)
    y, x = np.nonzero(specks & metal)
    for _ in range(max(parts.shape)):
        if y.size == 0:
            break
        best = np.zeros(y.size, np.int32)
        for down, right in ((-1, 0), (0, -1), (0, 1), (1, 0)):
            y2 = np.clip(y + down, 0, parts.shape[0] - 1)
            x2 = np.clip(x + right, 0, parts.shape[1] - 1)
            best = np.where(best == 0, filled[y2, x2], best)
        filled[y, x] = best
        y, x = y[best == 0], x[best == 0]
    isolated = filled[y, x] == 0
    filled[y[isolated], x[isolated]] = parts[y[isolated], x[isolated]]
    return filled
