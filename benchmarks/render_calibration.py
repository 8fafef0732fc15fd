"""Count how far drawn sections meet the mean intercept that was asked for.

Prints observed / requested mean lineal intercept with its standard error for a
table of size spreads and wavinesses, smoothed and not. The tables in
``strandproof/micrograph/render/calibration.py`` were made by multiplying their
entries by these ratios. Usage: ``python benchmarks/render_calibration.py [seeds]``.
"""

import sys

import numpy as np

from strandproof.micrograph.render.calibration import SPREADS, WAVINESSES
from strandproof.micrograph.render.grains import grain_labels
from strandproof.micrograph.render.population import GrainFamily, GrainPopulation
from strandproof.micrograph.render.truth import measure_intercepts

SIDE_PX = 512


def observed_over_requested(
    population: GrainPopulation, seeds: int
) -> tuple[float, float]:
    """Ratio of observed to requested mean intercept, and its standard error."""
    metal = np.ones((SIDE_PX, SIDE_PX), np.bool_)
    strands = metal.astype(np.int32)
    crossings = []
    for seed in range(seeds):
        grains = grain_labels(
            metal, population, um_per_px=1.0, generator=np.random.default_rng(seed)
        )
        found = measure_intercepts(
            grains, strands, um_per_px=1.0, population=population
        )
        crossings.append(found.crossings / found.length_um)
    mean = float(np.mean(crossings))
    error = float(np.std(crossings) / np.sqrt(seeds)) / mean
    ratio = 1 / mean / (population.mean_intercept_um or 1.0)
    return ratio, ratio * error


def main(seeds: int) -> None:
    """Print both tables."""
    cases: tuple[tuple[str, GrainFamily, float], ...] = (
        ("smoothed", "equiaxed", 24.0),
        ("not smoothed", "drawn", 16.0),
    )
    for title, family, intercept in cases:
        print(title, "waviness", *WAVINESSES)
        for spread in SPREADS:
            cells = []
            for waviness in WAVINESSES:
                population = GrainPopulation(
                    family=family,
                    mean_intercept_um=intercept,
                    size_spread=spread,
                    waviness=waviness,
                )
                cells.append(observed_over_requested(population, seeds))
            line = "  ".join(f"{ratio:.4f}+-{error:.4f}" for ratio, error in cells)
            print(f"spread {spread:.1f}  {line}", flush=True)


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 40)
