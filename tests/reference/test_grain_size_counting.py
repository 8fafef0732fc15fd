"""Counting rules that were read, on figures with known answers.

Sources, all read by the project (list of check values, section 1.3):

- GB 6394-86 (modified from ASTM E112-81), equations (5) to (7) and 4.2.1:
  n = n1 + n2/2; N_A = M^2 n/A; for A = 5000 mm2 N_A = 0.0002 M^2 n; about 50 grains;
- Vander Voort, The Jeffries planimetric method: circle 79.8 mm wide;
- Vander Voort, The Heyn intercept method: three circles, 500 mm in all;
- textbook chapter Quantitative Microscopy, p. 449, equations 6-27 and 6-28: boundary
  1, triple point 1 1/2, tangent 1/2; N and P equal within one;
- summary of ASTM E112-12: a segment that ends inside a grain is half an intercept
  (read, secondary);
- E562-02, 3.2.1: a point on a boundary is one half.

Numbers only; no text is copied.
"""

import numpy as np
import pytest

from strandproof.grainsize import count_grains
from strandproof.grainsize.patch import metal_patch
from strandproof.grainsize.procedures import (
    intercepts_of,
    intersections_of,
    scoring_rules,
)
from strandproof.grainsize.procedures.contacts import contact_map, run_events
from strandproof.grainsize.procedures.curves import metal_runs, straight_curve
from strandproof.grainsize.procedures.figures import print_size_um
from strandproof.records.procedures import LineEvents
from strandproof.tables import package_table

RULES = package_table("grain_size_rules")


@pytest.mark.parametrize(
    ("key", "value", "status"),
    [
        ("count.frame_grain_score", 0.5, "read"),
        ("count.minimum_grains", 50.0, "read"),
        ("count.circle_diameter", 79.8, "read"),
        ("figure.three_circles_length", 500.0, "read"),
        ("intercept.tangent_score.textbook", 0.5, "read"),
        ("intercept.triple_point_score", 1.5, "read"),
        ("intercept.line_end_score", 0.5, "read (secondary)"),
    ],
)
def test_the_table_holds_what_was_read(key: str, value: float, status: str) -> None:
    assert (RULES[key].value, RULES[key].status) == (value, status)


@pytest.mark.parametrize(
    ("events", "score"),
    [
        (LineEvents(crossings=1), 1.0),
        (LineEvents(triple_points=1), 1.5),
        (LineEvents(tangents=1), 0.5),
    ],
)
def test_scores_of_the_textbook(events: LineEvents, score: float) -> None:
    assert intersections_of(events, scoring_rules("textbook")) == score


def test_a_segment_that_ends_inside_grains_has_as_many_intercepts_as_boundaries() -> (
    None
):
    # Ten stripes of 20 px; the segment lies in six of them, the outer two in part.
    labels = np.tile(np.repeat(np.arange(1, 11), 20), (40, 1))
    patch = metal_patch(labels, np.ones(labels.shape, np.bool_))
    curve = straight_curve((20.0, 30.0), (20.0, 130.0), step_px=0.25)
    (run,) = metal_runs(curve, patch)
    met = run_events(contact_map(patch, contact_px=1.0), run)
    assert met == LineEvents(crossings=5, ends_inside=2)
    whole, halves = 4, 2
    assert intercepts_of(met, scoring_rules()) == whole + 0.5 * halves == 5.0
    assert (
        abs(
            intercepts_of(met, scoring_rules()) - intersections_of(met, scoring_rules())
        )
        <= 1.0
    )


def test_grains_inside_and_half_of_those_cut() -> None:
    # A 60 px square on squares of 20 px, shifted by half: 4 inside, 12 cut.
    places = (np.arange(120) + 10) // 20
    labels = places[:, None] * 10 + places[None, :] + 1
    region = np.zeros(labels.shape, np.bool_)
    region[20:80, 20:80] = True
    count = count_grains(labels, region, frame_rule="half")
    assert (count.inside, count.cut) == (4, 12)
    assert count.equivalent == 4 + 12 / 2


@pytest.mark.parametrize(
    ("magnification", "factor"), [(50, 0.5), (100, 2.0), (200, 8.0), (500, 50.0)]
)
def test_the_factor_of_a_5000_mm2_area(magnification: int, factor: float) -> None:
    # Factor 0.0002 M^2; its values at each M are computed from it.
    side_mm = print_size_um(1000.0, magnification) / 1000.0
    assert 1.0 / (5000.0 * (side_mm / 1000.0) ** 2) == pytest.approx(
        factor, rel=1e-12, abs=0
    )
    assert 0.0002 * magnification**2 == pytest.approx(factor, rel=1e-12, abs=0)
