"""Numbers of counting procedures that were computed or remembered, not read.

Source: the project's list of check values, sections 1.3, 1.5 and 1.6, and the
product brief, M15 and S5. Status beside each test. Tolerances are half a unit of the
last digit of the list.
"""

import pytest

from strandproof.grainsize.procedures import (
    SeenStructure,
    anisotropy_index,
    boundary_density,
    caliper_area,
    grains_across_of,
    intersections_of,
    mean_standing,
    one_grain_g,
    scoring_rules,
    three_planes,
    twin_density_of,
)
from strandproof.grainsize.procedures.figures import three_diameters_px
from strandproof.quantity import Quantity
from strandproof.records import Estimate
from strandproof.records.procedures import LineEvents
from strandproof.tables import package_table
from strandproof.weighing import no_boundary_bound


def test_diameters_of_three_circles_of_500_mm() -> None:
    # Computed from 3 : 2 : 1; memory agrees.
    printed = (79.58, 53.05, 26.53)
    assert three_diameters_px(500.0) == pytest.approx(printed, rel=0, abs=0.005)


@pytest.mark.parametrize(
    ("longest", "across", "area", "g"),
    [(2.0, 1.0, 1.571, -3.61), (0.5, 0.4, 0.157, -0.28)],
)
def test_largest_grain_by_calipers(
    longest: float, across: float, area: float, g: float
) -> None:
    # ASTM E930, from memory; values computed.
    found = caliper_area(longest, across)
    assert found == pytest.approx(area, rel=0, abs=0.0005)
    assert one_grain_g(found) == pytest.approx(g, rel=0, abs=0.005)


def test_three_planes_of_an_elongated_structure() -> None:
    # ASTM E112 section 16, from memory; values computed.
    found = three_planes(
        12.0, 30.0, 20.0, along_over_across=anisotropy_index(50.0, 20.0)
    )
    assert found.per_mm == pytest.approx(19.31, rel=0, abs=0.005)
    assert found.mean_intercept_um == pytest.approx(51.79, rel=0, abs=0.005)
    assert found.g == pytest.approx(5.2545, rel=0, abs=0.00005)
    assert found.anisotropy_index == pytest.approx(2.50, rel=0, abs=0.005)


def test_scores_that_are_only_remembered_say_so() -> None:
    e112 = scoring_rules("e112_circles")
    assert intersections_of(LineEvents(tangents=1), e112) == 1.0
    assert intersections_of(LineEvents(triple_points=1), e112) == 2.0
    assert e112.tangent.status == e112.triple_point.status == "from memory"
    assert e112.end_on_boundary.status == "from memory"


@pytest.mark.parametrize(
    "key",
    [
        "isolated_coarse_g",
        "isolated_coarse_area",
        "wide_range_g",
        "bimodal_g",
        "bimodal_area",
    ],
)
def test_criteria_of_duplex_kinds_are_remembered(key: str) -> None:
    row = package_table("grain_size_rules")[f"duplex.{key}"]
    remembered = {
        "isolated_coarse_g": 3.0,
        "isolated_coarse_area": 5.0,
        "wide_range_g": 5.0,
        "bimodal_g": 4.0,
        "bimodal_area": 75.0,
    }
    assert (row.value, row.status) == (remembered[key], "from memory")


def test_twelve_boundaries_and_five_twins_of_m15() -> None:
    # Brief M15: 600 px of 0.1726 um are 103.6 um; 8.6 um without twins, 6.1 with.
    found = twin_density_of(
        5, 12, length_px=600.0, pixel_size=Quantity(0.1726, "um", 0.0004)
    )
    assert 1000 * found.length.value == pytest.approx(103.6, rel=0, abs=0.05)
    assert found.mean_intercept is not None
    assert found.mean_intercept_with_twins is not None
    means = (found.mean_intercept.value, found.mean_intercept_with_twins.value)
    assert [1000 * mean for mean in means] == pytest.approx([8.6, 6.1], rel=0, abs=0.05)
    assert "8.63 um with twins excluded, 6.09 um with twins" in found.sentence


def test_boundary_area_per_volume_of_the_running_case() -> None:
    # S_V = 2/l, stereology, from memory: 2/8.444 um = 236.9 per mm (computed).
    mean = Estimate(
        quantity=Quantity(8.444, "um", 0.18),
        interval95=None,
        relative_accuracy_percent=None,
    )
    found = boundary_density(mean).surface_per_volume
    assert found.value == pytest.approx(236.9, rel=0, abs=0.05)
    assert found.standard_uncertainty == pytest.approx(
        found.value * 0.18 / 8.444, rel=1e-12, abs=0
    )


def test_the_sentence_of_s5() -> None:
    # Brief S5: reference strand 0.05 mm, 31 um.
    across = grains_across_of(50.0, 31.0)
    found = mean_standing(SeenStructure(boundary_seen=True, grains_across=across))
    assert found.sentence == (
        "1.6 grains across: average grain size not meaningful; count boundaries along "
        "the length. A round face without a boundary says nothing between X1 and X8."
    )
    assert not found.may_state_mean


def test_the_flag_of_m16_still_lets_the_mean_stand() -> None:
    # Brief M16: 80 um over 8.44 um, "about 9.5 grains across, flagged".
    found = mean_standing(
        SeenStructure(boundary_seen=True, grains_across=grains_across_of(80.0, 8.444))
    )
    assert found.may_state_mean
    assert found.sentence.startswith("About 9.5 grains across")


def test_the_sentence_of_s6() -> None:
    # Brief S6, after its first word; the bound is that of `weighing`.
    said = no_boundary_bound(36, claimed_m=100, claimed_by="the tag").sentence
    assert said.endswith(
        "at most 0.083 per mm; mean crystal at least 12.0 mm (95 %). To speak of 1 m "
        "you need about 3 m seen; of the tag's 100 m, about 300 m."
    )


def test_the_neutral_score_of_a_triple_point() -> None:
    # Computed: three boundaries meet; a line beside the point crosses 1 or 2 of them.
    rules = scoring_rules()
    assert rules.triple_point.score == (1 + 2) / 2
    assert rules.tangent.score != (0 + 2) / 2
    assert rules.end_on_boundary.score == (0 + 1) / 2
