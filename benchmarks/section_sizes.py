"""Size of drawn faces and tapes through the finding of strands: bias and coverage.

Faces of 40 to 90 um are drawn at three pixel sizes, found by the trained network and
measured; the interval is held against the diameter that was drawn and the area of the
exact labels. Synthetic pictures only.

Run: python benchmarks/section_sizes.py [faces]
"""

import sys

import numpy as np

from strandproof.micrograph import segment
from strandproof.micrograph.render import (
    Etch,
    GrainPopulation,
    Groove,
    SectionParameters,
    StrandLayout,
    TwinHabit,
    render_section,
)
from strandproof.physical import section_from_labels
from strandproof.quantity import Quantity, expanded_interval
from strandproof.records.physical import EdgeKnowledge

_SEED = 20311
_BLUR_PX = 3.0


def main() -> None:
    """Print errors of diameter and area, and how often the intervals hold."""
    faces = int(sys.argv[1]) if len(sys.argv) > 1 else 60
    chance = np.random.default_rng(_SEED)
    rows = [_face(chance) for _ in range(faces)]
    found = np.array([row for row in rows if row is not None])
    print(f"{len(found)} of {faces} faces found as one whole face")
    for name, column in (("diameter", 0), ("area", 2)):
        errors, held = found[:, column], found[:, column + 1]
        print(
            f"{name}: mean error {100 * errors.mean():+.2f} %, standard deviation "
            f"{100 * errors.std(ddof=1):.2f} %, 95 % interval holds "
            f"{int(held.sum())} of {len(held)}"
        )


def _face(chance: np.random.Generator) -> tuple[float, float, float, float] | None:
    width = float(chance.uniform(40, 90))
    pixel = float(chance.choice([0.17, 0.25, 0.35]))
    side = int(1.25 * width / pixel)
    section = render_section(
        SectionParameters(
            population=GrainPopulation(
                family="twinned",
                mean_intercept_um=float(chance.uniform(6, 20)),
                twins=TwinHabit(),
            ),
            layout=StrandLayout(arrangement="round", width_um=width),
            etch=Etch(grey_contrast=0.14, groove=Groove(width_px=2.2, depth=0.6)),
            um_per_px=pixel,
            shape=(side, side),
        ),
        seed=int(chance.integers(1 << 30)),
    )
    labels = segment(section.picture).strand_labels
    size = Quantity(pixel, "um", 0.002 * pixel)
    edge = EdgeKnowledge(pixel_size=size, resolution_um=_BLUR_PX * pixel)
    found = section_from_labels(labels, edge=edge)
    if found.strands != 1:
        return None
    area = 1e-6 * pixel**2 * float((section.strand_labels > 0).sum())
    true = 2e3 * float(np.sqrt(area / np.pi))
    return (
        *_held(found.mean_diameter, true),
        *_held(found.total_area, area),
    )


def _held(quantity: Quantity, true: float) -> tuple[float, float]:
    interval = expanded_interval(quantity)
    low, high = interval.lower, interval.upper
    inside = low is not None and high is not None and low <= true <= high
    return quantity.value / true - 1.0, float(inside)


if __name__ == "__main__":
    main()
