"""Time and memory of the segmentation on a large synthetic picture.

Run: python benchmarks/segmentation_large.py [megapixels]

The picture is one rendered section of 1024 x 1024 px laid side by side, mirrored at
each seam; in colour, as float, as the caller holds it. Prints seconds a megapixel
(wall clock and processor), the peak memory of the whole process, and what was found;
and the same for one megapixel.
"""

import resource
import sys
import time

import numpy as np

from strandproof.micrograph import segment
from strandproof.micrograph.render import (
    GrainPopulation,
    SectionParameters,
    TwinHabit,
    render_section,
)


def main(megapixels: float) -> None:
    """Print the figures."""
    twins = TwinHabit(grain_fraction=0.5, mean_lamellae=1.5)
    grains = GrainPopulation(family="twinned", mean_intercept_um=40.0, twins=twins)
    tile = render_section(SectionParameters(population=grains), seed=1).picture
    for size in (1.0, megapixels):
        n_rows = round((size * 1e6 / 1.5) ** 0.5)
        n_cols = round(1.5 * n_rows)
        pad = ((0, max(n_rows - 1024, 0)), (0, max(n_cols - 1024, 0)), (0, 0))
        picture = np.pad(tile, pad, mode="symmetric")[:n_rows, :n_cols]
        picture = np.ascontiguousarray(picture)
        begins, spent = time.perf_counter(), time.process_time()
        structure = segment(picture)
        wall, cpu = time.perf_counter() - begins, time.process_time() - spent
        peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
        area = n_rows * n_cols / 1e6
        print(
            f"{area:.1f} megapixels: {wall / area:.2f} s a megapixel, processor "
            f"{cpu / area:.2f}, peak {peak:.0f} MiB, "
            f"{structure.grain_labels.max()} grains"
        )


if __name__ == "__main__":
    main(float(sys.argv[1]) if len(sys.argv) > 1 else 24.0)
