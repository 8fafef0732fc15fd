"""Wrong numbers in circulation, one test each.

Source: the project's list of check values, section 0, traps 1, 2, 3 and 5.
Status: the right values are computed from the definition; the wrong ones were read
on public pages.
"""

from math import cos, log2, radians, sin, sqrt

import numpy as np
import pytest

from strandproof.grainsize import (
    grains_per_mm2_of,
    intercept_g,
    mean_intercept_mm_of,
    measure,
    metric_index,
    planimetric_g,
)
from strandproof.quantity import Quantity
from strandproof.records import LabelledStructure, Strand
from strandproof.tables import package_table


@pytest.mark.parametrize(
    ("g", "grains", "diameter_um", "intercept_um"),
    [(5.0, 248.0, 63.5, 56.6), (7.0, 992.0, 31.75, 28.3)],
)
def test_trap_1_grains_and_sizes_follow_from_the_definition(
    g: float, grains: float, diameter_um: float, intercept_um: float
) -> None:
    density = grains_per_mm2_of(g)
    assert density == pytest.approx(grains, rel=0, abs=0.5)
    assert 1000 / sqrt(density) == pytest.approx(diameter_um, rel=0, abs=0.05)
    assert 1000 * mean_intercept_mm_of(g) == pytest.approx(
        intercept_um, rel=0, abs=0.05
    )


def test_trap_1_wrong_formulas_are_not_ours() -> None:
    # "n/mm2 = 2^N" and "5.0 -> 16 grains/mm2" are on public pages.
    assert abs(grains_per_mm2_of(5.0) - 2**5) > 200
    assert abs(grains_per_mm2_of(5.0) - 16) > 200
    # "G = -6.6438 log2(L) - 3.293" takes the wrong logarithm.
    assert abs(intercept_g(0.02) - (-6.6438 * log2(0.02) - 3.293)) > 20


def test_trap_2_astm_number_and_metric_index_differ() -> None:
    for grains_per_mm2 in (8.0, 500.0, 1e5):
        difference = metric_index(grains_per_mm2) - planimetric_g(grains_per_mm2)
        # G is formed with the printed, rounded constants: 0.0002 of leeway.
        assert difference == pytest.approx(-log2(8 / 7.75), rel=0, abs=0.0003)
        assert difference == pytest.approx(-0.0458, rel=0, abs=0.0003)


def _squares(side: int, cells: int) -> LabelledStructure:
    places = (np.arange(side * cells) + side // 2) // side
    labels = (places[:, None] * (cells + 1) + places[None, :] + 1).astype(np.int32)
    size = side * cells
    strand = Strand(
        number=1,
        area_px=float(size**2),
        centroid_px=((size - 1) / 2, (size - 1) / 2),
        length_px=float(size),
        width_px=float(size),
        axis_deg=17.0,
        shape="field",
        verdict="poly",
        verdict_reason="drawn",
    )
    return LabelledStructure(
        grain_labels=labels,
        strand_labels=np.ones_like(labels),
        strands=(strand,),
        flags=(),
        method="drawn",
        method_version="1",
    )


def test_trap_3_neither_g_is_computed_from_the_other() -> None:
    picture = measure(_squares(20, 12), pixel_size=Quantity(1.0, "um")).picture
    assert picture is not None
    assert picture.g_planimetric is not None
    assert picture.g_intercept is not None
    mean = picture.intercepts.mean_intercept
    density = picture.grains_per_area
    assert mean is not None
    assert density is not None
    ratio = mean.quantity.value / (1000 / sqrt(density.quantity.value))
    # |cos| + |sin| boundaries per side, over lines at 17, 62, 107 and 152 deg:
    # squares have 0.769, not the 0.89 of any table.
    at = radians(17), radians(62)
    crossed = sum(cos(angle) + sin(angle) for angle in at) / 2
    assert ratio == pytest.approx(1 / crossed, rel=0.04, abs=0)
    assert ratio < 0.85
    assert picture.g_intercept.quantity.value > picture.g_planimetric.quantity.value


def test_trap_3_the_two_tables_have_two_ratios() -> None:
    astm, gost = (
        package_table("grain_size_rows_e112"),
        package_table("grain_size_rows_gost"),
    )
    relations = package_table("grain_size_relations")
    in_astm = (
        astm["g_0.mean_lineal_intercept"].value / astm["g_0.nominal_diameter"].value
    )
    in_gost = gost["no_1.mean_lineal_size"].value / gost["no_1.mean_diameter"].value
    assert in_astm == pytest.approx(0.8908, rel=0, abs=0.0002)
    assert in_gost == pytest.approx(0.888, rel=0, abs=0.0005)
    assert relations["ratio.intercept_to_diameter.e112"].value == 0.8908
    assert relations["ratio.intercept_to_diameter.gost"].value == 0.8862


def test_trap_5_the_misprinted_area_is_not_used() -> None:
    rows = package_table("grain_size_rows_gost")
    assert rows["no_3.mean_area"].value == 0.0516
    assert metric_index(1 / rows["no_3.mean_area.corrected"].value) == pytest.approx(
        3.0, rel=0, abs=0.005
    )
    assert metric_index(1 / rows["no_3.mean_area"].value) < 1.5
