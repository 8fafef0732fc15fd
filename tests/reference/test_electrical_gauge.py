"""The American wire gauge against copies of its tables.

Sources and status:
- ratio 92 over 39 steps, 0.005 inch at 36, 0.4600 inch at 4/0, rounding to four
  significant figures and 0.1 mil at best: ASTM B258-02, read (secondary) in an
  encyclopedia's article;
- diameters, circular mils and pounds per 1000 feet: read (secondary), a copy of a wire
  table;
- ohms per 1000 feet: read (secondary), a wire-table page;
- diameters 6/0 to 50: the table in the library fluids 1.3.1 (MIT licence), read.
Tolerance: half a unit of the last printed digit. Numbers only, no text is copied.
"""

import fluids.piping
import numpy as np
import pytest

from strandproof.electrical import (
    gauge_area_mm2,
    gauge_diameter_mm,
    metal,
    package_copper_standard,
)
from strandproof.tables import package_table

MIL_MM = 0.0254
# Circular mils of four significant digits stand for half of the fourth.
TABLE_COPY = [
    (-3, "0.4600", 211_600, 50, "640.5"),
    (0, "0.3249", 105_500, 50, None),
    (10, "0.1019", 10_380, 5, "31.43"),
    (12, "0.0808", 6_530, 0.5, "19.77"),
    (14, "0.0641", 4_107, 0.5, "12.43"),
    (18, "0.0403", 1_624, 0.5, "4.917"),
    (20, "0.0320", 1_022, 0.5, "3.092"),
    (24, "0.0201", 404.0, 0.05, None),
]


def printed(found: float, text: str) -> None:
    decimals = len(text.partition(".")[2])
    np.testing.assert_allclose(found, float(text), rtol=0, atol=0.5 * 10.0**-decimals)


def circular_mils(gauge: int) -> float:
    return (gauge_diameter_mm(gauge) / MIL_MM) ** 2


def pounds_per_1000_ft(area_mm2: float) -> float:
    density = package_copper_standard().density_g_per_cm3
    return area_mm2 * density * 304.8 / 453.59237


def ohms_per_1000_ft(gauge: int) -> float:
    return metal("copper").resistivity_ohm_m * 304.8e6 / gauge_area_mm2(gauge)


@pytest.mark.parametrize(("gauge", "inch", "cmil", "half", "pounds"), TABLE_COPY)
def test_table_copy(
    gauge: int, inch: str, cmil: float, half: float, pounds: str | None
) -> None:
    rounded = gauge_diameter_mm(gauge, rounding="tenth_mil")
    np.testing.assert_allclose(rounded / 25.4, float(inch), rtol=1e-12)
    # Areas and masses of this table go by the exact diameter, not by the rounded one.
    np.testing.assert_allclose(circular_mils(gauge), cmil, rtol=0, atol=half)
    if pounds is not None:
        printed(pounds_per_1000_ft(gauge_area_mm2(gauge)), pounds)


def test_pounds_of_1_0_lie_on_an_edge_of_rounding() -> None:
    # Printed 319.5; 319.4499 from the exact diameter would print 319.4, the rounded
    # diameter gives 319.53.
    printed(pounds_per_1000_ft(gauge_area_mm2(0)), "319.4")
    printed(pounds_per_1000_ft(gauge_area_mm2(0, rounding="tenth_mil")), "319.5")


@pytest.mark.parametrize(
    ("gauge", "ohms"),
    [
        # 12 and 30 are printed as 1.5880 and 103.20; the fifth digit is a zero that
        # the formula does not give (1.5883, 103.19), so four digits are compared.
        (12, "1.588"),
        (18, "6.385"),
        (20, "10.15"),
        (24, "25.67"),
        (28, "64.90"),
        (30, "103.2"),
    ],
)
def test_wire_table_page(gauge: int, ohms: str) -> None:
    printed(ohms_per_1000_ft(gauge), ohms)


# The library writes 6/0 to 2/0 as fractions and 1/0 as a half.
FRACTIONS = {0.167: -5, 0.2: -4, 0.25: -3, 0.33: -2, 0.5: -1}
LIBRARY = [
    (int(FRACTIONS.get(key, key)), float(inch))
    for key, inch in zip(fluids.piping.AWG_gauges, fluids.piping.AWG_inch, strict=True)
]


def test_the_library_has_all_gauges() -> None:
    assert [gauge for gauge, _ in LIBRARY] == list(range(-5, 51))


@pytest.mark.parametrize(("gauge", "inch"), LIBRARY[:36])
def test_library_down_to_gauge_30(gauge: int, inch: float) -> None:
    rounded = gauge_diameter_mm(gauge, rounding="tenth_mil") / 25.4
    np.testing.assert_allclose(rounded, inch, rtol=1e-12)


@pytest.mark.parametrize(("gauge", "inch"), LIBRARY[36:])
def test_library_from_gauge_31_on(gauge: int, inch: float) -> None:
    # Stored to 0.01 mil. Gauge 38 is 0.00396 there, 0.003965 by the formula.
    exact = gauge_diameter_mm(gauge) / 25.4
    atol = 0.6e-5 if gauge == 38 else 0.5e-5
    np.testing.assert_allclose(exact, inch, rtol=0, atol=atol)
    if gauge == 38:
        assert round(exact, 5) == 0.00397


def test_statuses_of_the_formula() -> None:
    rows = package_table("wire_gauge")
    formula = [row for key, row in rows.items() if key.startswith("formula.")]
    assert {row.status for row in formula} == {"read (secondary)"}
    assert rows["inch"].status == "computed"


def test_formula_gives_the_largest_diameter() -> None:
    largest = package_table("wire_gauge")["formula.largest_diameter"].value
    np.testing.assert_allclose(gauge_diameter_mm(-3) / 25.4, largest, rtol=1e-12)
