"""Straight lines fitted to borders whose lines are known."""

import numpy as np
import numpy.typing as npt
import pytest

from strandproof.micrograph.border_lines import (
    BorderLines,
    Moments,
    border_lines,
    moments_of,
    pair_middles,
)
from strandproof.micrograph.borders import borders_of

SIDE = 100
ROWS, COLS = np.indices((SIDE, SIDE))


def halves(second: npt.NDArray[np.bool_]) -> BorderLines:
    labels = 1 + second.astype(np.int32)
    return border_lines(borders_of(labels), labels.shape[1])


def sorted_ends(lines: BorderLines) -> list[list[float]]:
    return sorted(lines.ends[0].tolist())


def one_set(points: npt.NDArray[np.float64]) -> Moments:
    return moments_of(points, np.zeros(len(points), np.int64), 1)


def test_upright_border_runs_between_its_columns() -> None:
    lines = halves(COLS >= 40)
    assert np.allclose(sorted_ends(lines), [[0, 39.5], [99, 39.5]], rtol=0, atol=1e-6)
    assert np.allclose(np.abs(lines.direction), [[1, 0]], rtol=0, atol=1e-9)
    assert lines.roughness[0] == pytest.approx(0, abs=1e-5)
    assert lines.extent[0] == pytest.approx(99, abs=1e-6)


def test_level_border_runs_between_its_rows() -> None:
    lines = halves(ROWS >= 40)
    assert np.allclose(sorted_ends(lines), [[39.5, 0], [39.5, 99]], rtol=0, atol=1e-6)
    assert np.allclose(np.abs(lines.direction), [[0, 1]], rtol=0, atol=1e-9)


@pytest.mark.parametrize("falling", [True, False])
def test_middles_of_a_diagonal_staircase_lie_on_one_line(*, falling: bool) -> None:
    """Rows and columns of all middles differ by (or add up to) the same number."""
    lines = halves(ROWS < COLS) if falling else halves(ROWS + COLS < SIDE)
    assert lines.roughness[0] == pytest.approx(0, abs=1e-5)
    slope = lines.direction[0, 0] / lines.direction[0, 1]
    assert slope == pytest.approx(1 if falling else -1, abs=1e-9)


@pytest.mark.parametrize("angle", [-80.0, -50.0, -20.0, 5.0, 33.0, 70.0])
def test_inclined_border_has_its_direction_and_the_grids_roughness(
    angle: float,
) -> None:
    slope = np.tan(np.deg2rad(angle))
    lines = halves(slope * (COLS - 49.5) > ROWS - 49.5)
    found = np.rad2deg(np.arctan2(*lines.direction[0]))
    assert abs((found - angle + 90) % 180 - 90) < 0.5
    assert lines.roughness[0] < 0.35
    assert np.allclose(lines.moments.centres(), 49.5, rtol=0, atol=1.0)


def test_roughness_of_a_wave_is_its_effective_value() -> None:
    amplitude = 8
    edge = 50 + amplitude * np.sin(2 * np.pi * COLS / 50)
    lines = halves(edge < ROWS)
    # more pairs lie where the wave is steep, so the middles lie closer to the line
    assert 0.5 * amplitude < lines.roughness[0] < amplitude / 2**0.5 + 0.1
    assert halves(50 + 0 * edge < ROWS).roughness[0] < 1e-5


def test_each_border_of_three_bands_has_its_own_line() -> None:
    labels = (1 + (COLS >= 30) + (COLS >= 70)).astype(np.int32)
    lines = border_lines(borders_of(labels), SIDE)
    assert np.allclose(
        lines.moments.centres(), [[49.5, 29.5], [49.5, 69.5]], rtol=0, atol=1e-9
    )
    assert np.allclose(lines.extent, 99, rtol=0, atol=1e-6)


def test_border_of_one_pair_is_a_point() -> None:
    lines = halves(np.array([[False, True]]))
    assert lines.extent.tolist() == [0.0]
    assert lines.ends[0].tolist() == [[0.0, 0.5], [0.0, 0.5]]


def test_no_border_no_line() -> None:
    lines = halves(np.zeros((4, 4), np.bool_))
    assert (lines.roughness.size, lines.extent.size) == (0, 0)


def test_middles_are_midway_in_either_direction() -> None:
    borders = borders_of(np.array([[1, 2], [1, 1]], np.int32))
    middles = pair_middles(borders, 2)
    assert middles.tolist() == [[0.5, 1.0], [0.0, 0.5]]


def test_variances_are_those_of_numpy() -> None:
    points = np.random.default_rng(2).normal(3, (2, 5), (500, 2))
    moments = one_set(points)
    along, across, direction = moments.spreads()
    values, vectors = np.linalg.eigh(np.cov(points.T, bias=True))
    assert np.allclose([across[0], along[0]], values, rtol=1e-9, atol=0)
    assert abs(direction[0] @ vectors[:, 1]) == pytest.approx(1, abs=1e-9)
    rows, cols, mixed = moments.covariances()
    assert rows + cols == pytest.approx(values.sum(), rel=1e-9)
    assert rows * cols - mixed**2 == pytest.approx(values.prod(), rel=1e-9)


def test_moments_of_two_sets_add_up_to_those_of_both() -> None:
    points = np.random.default_rng(3).random((60, 2))
    parts = moments_of(points, np.arange(60) % 2, 2)
    together = Moments(sums=parts.sums.sum(axis=0, keepdims=True))
    assert np.allclose(together.sums, one_set(points).sums, rtol=1e-12, atol=0)
    assert np.allclose(
        together.centres(), points.mean(axis=0)[None], rtol=1e-12, atol=0
    )


def test_a_set_without_points_has_no_spread() -> None:
    moments = moments_of(np.ones((3, 2)), np.array([0, 0, 2]), 4)
    along, across, _ = moments.spreads()
    assert moments.sums[:, 0].tolist() == [2, 0, 1, 0]
    assert np.array_equal(along, np.zeros(4))
    assert np.array_equal(across, np.zeros(4))
