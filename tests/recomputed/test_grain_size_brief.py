"""Numbers on grain size of the running cases H7 and H0.

Source: the project's product brief, Appendix A (and S6 for the bound), all marked
there as computed. Status: computed. Tolerances are half a unit of the last digit.
"""

from math import sqrt

import numpy as np
import pytest

from strandproof.grainsize import (
    intercept_g,
    intercept_g_estimate,
    mean_over_level,
    measure,
)
from strandproof.quantity import Quantity, coverage_factor
from strandproof.records import AxialCrossings, Estimate, LabelledStructure, Strand

STRANDS_UM = ((8.1, 8.6, 8.3), (8.9, 8.5, 9.0), (8.0, 8.2, 8.4))
LEADS_UM = tuple(sum(strands) / 3 for strands in STRANDS_UM)


def _half_width(estimate: Estimate) -> float:
    interval = estimate.interval95
    assert interval is not None
    assert interval.upper is not None
    return interval.upper - estimate.quantity.value


@pytest.mark.parametrize(
    ("mean_um", "g", "half_digit"),
    [(320.0, 0.00, 0.005), (8.444, 10.488, 0.0005), (5.6, 11.673, 0.0005)],
)
def test_g_of_mean_intercepts(mean_um: float, g: float, half_digit: float) -> None:
    assert intercept_g(mean_um / 1000) == pytest.approx(g, rel=0, abs=half_digit)


def test_interval_by_lead() -> None:
    leads = mean_over_level(LEADS_UM, level="lead")
    assert leads.quantity.value == pytest.approx(8.444, rel=0, abs=0.0005)
    assert leads.quantity.degrees_of_freedom == 2
    assert sqrt(3) * leads.quantity.standard_uncertainty == pytest.approx(
        0.3151, rel=0, abs=0.00005
    )
    assert _half_width(leads) == pytest.approx(0.783, rel=0, abs=0.0005)
    assert leads.relative_accuracy_percent == pytest.approx(9.27, rel=0, abs=0.005)


def test_g_by_lead() -> None:
    g = intercept_g_estimate(mean_over_level(LEADS_UM, level="lead"))
    assert g.interval95 is not None
    assert g.interval95.lower == pytest.approx(10.23, rel=0, abs=0.005)
    assert g.interval95.upper == pytest.approx(10.77, rel=0, abs=0.005)


def test_strands_taken_as_independent_look_three_times_better() -> None:
    strands = mean_over_level(
        [mean for lead in STRANDS_UM for mean in lead], level="strand"
    )
    assert _half_width(strands) == pytest.approx(0.264, rel=0, abs=0.0005)


def test_fields_taken_as_independent_look_better_still() -> None:
    half_width = coverage_factor(0.95, degrees_of_freedom=44) * 0.956 / sqrt(45)
    assert half_width == pytest.approx(0.287, rel=0, abs=0.0005)


def test_two_leads_leave_hardly_anything() -> None:
    leads = mean_over_level(LEADS_UM[:2], level="lead")
    assert leads.quantity.value == pytest.approx(8.567, rel=0, abs=0.0005)
    assert _half_width(leads) == pytest.approx(2.965, rel=0, abs=0.0005)


def _bound(length_px: int, pixel_um: float) -> AxialCrossings:
    """Synthetic long section of one crystal, with its bound."""
    metal = np.zeros((22, length_px), np.int32)
    metal[1:-1] = 1
    strand = Strand(
        number=1,
        area_px=20.0 * length_px,
        centroid_px=(10.5, (length_px - 1) / 2),
        length_px=float(length_px),
        width_px=20.0,
        axis_deg=0.0,
        shape="long",
        verdict="single",
        verdict_reason="drawn without a boundary",
    )
    structure = LabelledStructure(
        grain_labels=metal,
        strand_labels=metal,
        strands=(strand,),
        flags=(),
        method="drawn",
        method_version="1",
    )
    picture = measure(structure, pixel_size=Quantity(pixel_um, "um")).picture
    assert picture is not None
    assert picture.axial_crossings is not None
    return picture.axial_crossings


@pytest.mark.parametrize(
    ("length_mm", "rate", "half_digit", "spacing_mm"),
    [(36, 0.0832, 0.00005, 12.0), (120, 0.0250, 0.00005, 40.1)],
)
def test_no_boundary_over_a_length(
    length_mm: int, rate: float, half_digit: float, spacing_mm: float
) -> None:
    found = _bound(100 * length_mm, 10.0)
    assert found.rate.interval95 is not None
    assert found.rate.interval95.upper == pytest.approx(rate, rel=0, abs=half_digit)
    assert found.mean_spacing95.lower == pytest.approx(spacing_mm, rel=0, abs=0.05)


def test_reference_case_h0_in_words() -> None:
    assert _bound(3600, 10.0).sentence == (
        "No boundary was resolved by this method over 36 mm along the axis: "
        "at most 0.083 per mm, mean distance at least 12.0 mm (95 %, one-sided)."
    )


def test_no_boundary_over_50_mm() -> None:
    # Check values, section 1.6: rate <= 0.0599 /mm, mean spacing >= 16.7 mm.
    found = _bound(5000, 10.0)
    assert found.rate.interval95 is not None
    assert found.rate.interval95.upper == pytest.approx(0.0599, rel=0, abs=0.00005)
    assert found.mean_spacing95.lower == pytest.approx(16.7, rel=0, abs=0.05)
