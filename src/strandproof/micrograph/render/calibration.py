"""Spacing and stretch of nuclei that meet a requested mean lineal intercept.

The mean intercept of the drawn structure is proportional to the spacing of its
nuclei. The factor depends on size spread, waviness and smoothing and has no
closed form; it was counted once over many seeds by
``benchmarks/render_calibration.py`` and is tabled here (values of our own code,
standard error of an entry about 0.3 percent).
"""

from math import log, sqrt

import numpy as np
from scipy.interpolate import RectBivariateSpline

from strandproof.micrograph.render.population import GrainPopulation

SPREADS = (0.0, 0.1, 0.2, 0.3, 0.4, 0.5)
WAVINESSES = (0.0, 0.0625, 0.125, 0.1875, 0.25)

# Mean intercept / spacing of nuclei; rows by size spread, columns by waviness.
_RELAXED = np.array(
    [
        [0.7471, 0.7457, 0.7324, 0.7064, 0.6661],
        [0.7498, 0.7451, 0.7324, 0.7075, 0.6694],
        [0.7589, 0.7528, 0.7410, 0.7223, 0.6793],
        [0.7776, 0.7756, 0.7637, 0.7443, 0.7084],
        [0.8257, 0.8219, 0.8130, 0.8011, 0.7764],
        [0.9300, 0.9294, 0.9284, 0.9145, 0.9014],
    ]
)
_UNRELAXED = np.array(
    [
        [0.7041, 0.6921, 0.6479, 0.5831, 0.5129],
        [0.7047, 0.6939, 0.6487, 0.5854, 0.5146],
        [0.7107, 0.6965, 0.6548, 0.5904, 0.5179],
        [0.7277, 0.7112, 0.6724, 0.6042, 0.5309],
        [0.7606, 0.7474, 0.7023, 0.6326, 0.5580],
        [0.8385, 0.8221, 0.7734, 0.6996, 0.6145],
    ]
)

# Smoothing and bending take away a part of the elongation.
_RELAXED_STRETCH = 1.31
_UNRELAXED_STRETCH = 1.05
_LOST_BY_STRETCH = 0.045


def fine_and_coarse(
    population: GrainPopulation, intercept: float
) -> tuple[float, float]:
    """Return the intercepts of the fine and of the coarse part of a mixed structure.

    Crossings per length add up by area: 1/l = f/l_fine + (1 - f)/l_coarse.
    """
    share, ratio = population.fine_fraction, population.fine_ratio
    coarse = intercept * (share * ratio + 1 - share)
    return coarse / ratio, coarse


def stretch_factor(population: GrainPopulation, *, relaxed: bool) -> float:
    """Return the factor by which lengths along grow and lengths across shrink."""
    gain = _RELAXED_STRETCH if relaxed else _UNRELAXED_STRETCH
    return sqrt(1 + gain * (population.elongation - 1))


def nucleus_spacing(
    population: GrainPopulation, intercept_px: float, *, relaxed: bool
) -> float:
    """Spacing of nuclei [px] (of the coarse ones in a mixed structure).

    Parameters
    ----------
    population : GrainPopulation
        The population; its own intercept is not looked at.
    intercept_px : float
        Requested mean intercept [px].
    relaxed : bool
        True if boundaries are smoothed by curvature.

    Returns
    -------
    float
        Distance between nuclei, (number per volume)^(-1/3) [px].
    """
    if population.family == "bamboo":
        return intercept_px
    factor = _tabled(population, relaxed=relaxed)
    if population.family == "bimodal":
        fine, coarse = fine_and_coarse(population, intercept_px)
        factor *= _lost_to_interfaces(population)
        return coarse / (factor * _lost_by_pixels(population, fine, relaxed=relaxed))
    if relaxed:
        # Smoothing works more on thin grains than on round ones.
        factor *= 1 - _LOST_BY_STRETCH * log(population.elongation)
    return intercept_px / (
        factor * _lost_by_pixels(population, intercept_px, relaxed=relaxed)
    )


def _tabled(population: GrainPopulation, *, relaxed: bool) -> float:
    table = _RELAXED if relaxed else _UNRELAXED
    surface = RectBivariateSpline(SPREADS, WAVINESSES, table, kx=3, ky=3)
    at = surface([population.size_spread], [population.waviness])
    return float(at[0, 0])


def _lost_by_pixels(
    population: GrainPopulation, intercept_px: float, *, relaxed: bool
) -> float:
    """Growth of the counted intercept as grains slip between pixels.

    Smoothed structures are drawn on a grid that follows the grain size, so that
    nothing changes with the number of pixels to a grain.
    """
    if relaxed:
        return 1.0
    stretch = sqrt(population.elongation)
    sides = (intercept_px * stretch, intercept_px / stretch)
    growth = [1 + 0.78 / max(side, 1.0) ** 1.5 for side in sides]
    return sqrt(growth[0] * growth[1])


def _lost_to_interfaces(population: GrainPopulation) -> float:
    """Share of the mean intercept left where coarse and fine grains meet.

    Fine grains cut by the edge of a coarse one add crossings, the more the less
    fine they are (counted as above, good to 2 percent).
    """
    coarse_share = min(1.0, (1 - population.fine_fraction) / 0.4)
    return 1 - (0.1 - 0.01 * population.fine_ratio) * coarse_share
