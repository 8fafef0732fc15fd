"""Synthetic structures of known truth, shared by the tests of this part."""

from collections.abc import Callable
from math import sqrt
from typing import Literal, Protocol

import numpy as np
import numpy.typing as npt
import pytest
from scipy.spatial import KDTree

from strandproof.records import Flag, LabelledStructure, Strand

Labels = npt.NDArray[np.int32]


class OneStrand(Protocol):
    """Builds a structure with one strand."""

    def __call__(
        self,
        labels: Labels,
        *,
        metal: npt.NDArray[np.bool_] | None = None,
        shape: Literal["field", "long", "round", "piece"] = "field",
        axis_deg: float | None = 0.0,
        flags: tuple[Flag, ...] = (),
    ) -> LabelledStructure: ...


def _one_strand(
    labels: Labels,
    *,
    metal: npt.NDArray[np.bool_] | None = None,
    shape: Literal["field", "long", "round", "piece"] = "field",
    axis_deg: float | None = 0.0,
    flags: tuple[Flag, ...] = (),
) -> LabelledStructure:
    mask = np.ones(labels.shape, np.bool_) if metal is None else metal
    rows, cols = np.nonzero(mask)
    angle = np.radians(axis_deg or 0.0)
    along = cols * np.cos(angle) - rows * np.sin(angle)
    across = cols * np.sin(angle) + rows * np.cos(angle)
    strand = Strand(
        number=1,
        area_px=float(rows.size),
        centroid_px=(float(rows.mean()), float(cols.mean())),
        length_px=float(np.ptp(along)) + 1.0,
        width_px=float(np.ptp(across)) + 1.0,
        axis_deg=axis_deg,
        shape=shape,
        verdict="poly" if np.unique(labels[mask & (labels > 0)]).size > 1 else "single",
        verdict_reason="drawn so",
    )
    return LabelledStructure(
        grain_labels=np.where(mask, labels, 0).astype(np.int32),
        strand_labels=mask.astype(np.int32),
        strands=(strand,),
        flags=flags,
        method="drawn",
        method_version="1",
    )


@pytest.fixture(scope="session")
def one_strand() -> OneStrand:
    return _one_strand


def with_boundaries(labels: npt.NDArray[np.integer]) -> Labels:
    """Labels with a boundary of label 0, one to two pixels wide."""
    boundary = np.zeros(labels.shape, np.bool_)
    boundary[:-1] |= labels[:-1] != labels[1:]
    boundary[:, :-1] |= labels[:, :-1] != labels[:, 1:]
    return np.where(boundary, 0, labels).astype(np.int32)


def nearest_labels(centres: npt.NDArray[np.float64], shape: tuple[int, int]) -> Labels:
    """Labels 1, 2, ... by the nearest of centres given as row and column."""
    rows, cols = np.indices(shape)
    points = np.column_stack((rows.ravel(), cols.ravel()))
    _, nearest = KDTree(centres).query(points)
    return with_boundaries(np.asarray(nearest).reshape(shape) + 1)


def square_labels(side: int, cells: int) -> Labels:
    """Squares of `side` pixels; the frame cuts the outer ones in half."""
    places = (np.arange(side * cells) + side // 2) // side
    numbers = places[:, None] * (cells + 1) + places[None, :] + 1
    return with_boundaries(numbers)


def hexagon_labels(edge: float, shape: tuple[int, int]) -> Labels:
    """Regular hexagons with two upright edges each."""
    step_col, step_row = sqrt(3.0) * edge, 1.5 * edge
    centres = [
        (row * step_row, (col + 0.5 * (row % 2)) * step_col)
        for row in range(-2, int(shape[0] / step_row) + 3)
        for col in range(-2, int(shape[1] / step_col) + 3)
    ]
    return nearest_labels(np.array(centres), shape)


def voronoi_labels(seed: int, *, expected_grains: float, side: int) -> Labels:
    """Poisson-Voronoi structure; points also fall outside of the picture."""
    generator = np.random.default_rng(seed)
    density = expected_grains / side**2
    margin = 6.0 / sqrt(density)
    number = generator.poisson(density * (side + 2.0 * margin) ** 2)
    centres = generator.uniform(-margin, side + margin, (number, 2))
    return nearest_labels(centres, (side, side))


@pytest.fixture(scope="session")
def squares() -> Callable[[int, int], Labels]:
    return square_labels


@pytest.fixture(scope="session")
def hexagons() -> Callable[[float, tuple[int, int]], Labels]:
    return hexagon_labels


class Voronoi(Protocol):
    """Builds Poisson-Voronoi labels."""

    def __call__(self, seed: int, *, expected_grains: float, side: int) -> Labels: ...


@pytest.fixture(scope="session")
def voronoi() -> Voronoi:
    return voronoi_labels
