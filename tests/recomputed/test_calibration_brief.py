"""Calibration and resizing against the project's own examples.

Source: product brief, M13 and M14. Status: computed there; no published source. The
five marked lengths are invented here so that their mean is the brief's value;
everything else is recomputed from the definitions. Printed digits: 0.0001 um, 0.1 um,
0.1 G.
"""

from math import sqrt
from statistics import mean, stdev

import pytest

from strandproof.grainsize.relations import intercept_g
from strandproof.micrograph.calibration import (
    Resizing,
    StageScale,
    calibration_from_marks,
)
from strandproof.quantity import Quantity

MARKED_PX = (577.6, 581.9, 579.2, 576.2, 582.1)
ORIGINAL_PX, COPY_PX = (2736, 1824), (1368, 912)


def test_ten_divisions_marked_five_times() -> None:
    scale = StageScale(division_um=10.0, certificate_um=0.05)
    found = calibration_from_marks(MARKED_PX, scale, divisions=10)
    size = found.pixel_size
    assert size.value == pytest.approx(0.1726, rel=0, abs=0.00005)
    assert size.standard_uncertainty == pytest.approx(0.0004, rel=0, abs=0.00005)


def test_the_budget_by_hand() -> None:
    """Relative squares of scatter, steps, cosines, certificate (GUM 5.1.6)."""
    scale = StageScale(division_um=10.0, certificate_um=0.05)
    size = calibration_from_marks(MARKED_PX, scale, divisions=10).pixel_size
    length = mean(MARKED_PX)
    type_a = stdev(MARKED_PX) / sqrt(5) / length
    steps = 1 / sqrt(6) / length
    cosine = (1 - 0.99984770) / 2 / sqrt(3)  # cos 1 degree
    certificate = 0.05 / 100
    relative = sqrt(type_a**2 + steps**2 + 2 * cosine**2 + certificate**2)
    assert size.relative_uncertainty == pytest.approx(relative, rel=1e-3, abs=0)
    # Welch-Satterthwaite: only the scatter has few degrees of freedom (GUM G.4.1).
    assert size.degrees_of_freedom == pytest.approx(
        4 * (relative / type_a) ** 4, rel=1e-2, abs=0
    )


def test_half_width_copy_and_what_it_would_print() -> None:
    pair = Resizing(
        known_px=ORIGINAL_PX,
        given_px=COPY_PX,
        pixel_size=Quantity(0.1726, "um", 0.0004),
    )
    assert pair.pixel_size_given.value == pytest.approx(0.3452, rel=0, abs=0.00005)
    assert pair.question == (
        "2736 -> 1368 pixels: pixel size would be 0.3452 um. Use original?"
    )
    intercept_px = 8.4 / 0.1726
    forced_um = intercept_px / 2 * 0.1726
    assert forced_um == pytest.approx(4.2, rel=0, abs=0.05)
    assert round(intercept_g(8.4e-3), 1) == 10.5
    assert round(intercept_g(forced_um * 1e-3), 1) == 12.5
    assert not pair.agrees_with(pair.pixel_size)
