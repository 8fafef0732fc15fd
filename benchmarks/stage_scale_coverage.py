"""How often the 95 % interval of a stage-scale calibration covers the truth.

Draws synthetic stage scales at random and counts. Run with
``PYTHONPATH=tests/support python benchmarks/stage_scale_coverage.py 400``.
"""

import sys

import numpy as np
from stage_scales import DrawnScale, drawn

from strandproof.errors import CalibrationError
from strandproof.micrograph.calibration import (
    StageScale,
    calibration_from_rulings,
    fit_ruling,
)
from strandproof.quantity import expanded_interval

FIRST_SEED = 1000


def random_scale(chance: np.random.Generator) -> DrawnScale:
    """Draw spacing, angle, blur, noise, contrast, placing errors and lengths."""
    spacing = chance.uniform(8, 60)
    return DrawnScale(
        spacing_px=spacing,
        angle_deg=chance.uniform(0, 180),
        line_px=chance.uniform(0.15, 0.4) * spacing,
        blur_px=chance.uniform(0.3, 2.0),
        noise=chance.uniform(0, 0.15),
        line=chance.uniform(0.1, 0.5),
        placing_px=chance.uniform(0, 0.01) * spacing,
        height=chance.uniform(0.3, 0.9),
    )


def main(count: int) -> None:
    """Count covered, missed and refused scales."""
    # Neither certificate nor tilt: only what the picture brings is put to the test.
    exact = StageScale(division_um=10.0, certificate_um=0.0, tilt_deg=0.0)
    covered, refused, errors = 0, 0, []
    for seed in range(FIRST_SEED, FIRST_SEED + count):
        chance = np.random.default_rng(seed)
        scale = random_scale(chance)
        picture = drawn(scale, chance)
        try:
            fit = fit_ruling(picture)
        except CalibrationError:
            refused += 1
            continue
        found = calibration_from_rulings([fit], exact).pixel_size
        truth = exact.division_um / scale.spacing_px
        half_width = expanded_interval(found).half_width
        covered += half_width is not None and abs(found.value - truth) <= half_width
        errors.append(found.value / truth - 1)
    measured = count - refused
    print(f"{count} drawn, {refused} refused, {covered} of {measured} covered")
    print(f"relative error: rms {np.sqrt(np.mean(np.square(errors))):.5f}")
    print(f"median absolute {np.median(np.abs(errors)):.5f}")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 400)
