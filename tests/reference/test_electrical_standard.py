"""The annealed copper standard and values of metals, as sources print them.

Sources and status, row by row:
- IEC 60028 (conductivity, resistivities, coefficient): read (secondary), through a
  power-engineering handbook p. 967-970 and an encyclopedia's copy;
- 10.371 ohm circular mil per foot and 172.41/(% IACS): read (secondary), a conductor
  maker's conversion table;
- resistivities of pure copper and silver, J. Phys. Chem. Ref. Data 8 (1979) 1147:
  read (secondary), handbook table;
- factors of IEC 60228: read (secondary), a cable maker's table;
- copper-clad aluminium, ASTM B566: read (secondary), a data sheet.
Not here, because nobody on the project has read them: the standard's density and
expansion (from memory), tin. Tolerance: half a unit of the last printed digit.
Numbers only, no text is copied.
"""

from math import pi

import numpy as np
import pytest

from strandproof.electrical import (
    expected_core,
    factor_to_20c,
    mass_resistivity_ohm_g_per_m2,
    metal,
    package_copper_standard,
    percent_iacs_of_volume_resistivity,
    volume_resistivity_ohm_m,
)
from strandproof.quantity import Quantity
from strandproof.tables import package_table


def printed(found: float, text: str) -> None:
    decimals = len(text.partition(".")[2])
    np.testing.assert_allclose(found, float(text), rtol=0, atol=0.5 * 10.0**-decimals)


def test_annealed_copper_standard() -> None:
    standard = package_copper_standard()
    printed(standard.conductivity_ms_per_m, "58.0")
    printed(1e6 * standard.volume_resistivity_ohm_m, "0.017241")
    printed(standard.mass_resistivity_ohm_g_per_m2, "0.15328")
    printed(standard.temperature_coefficient_per_k, "0.00393")


def test_conversion_table_of_a_maker() -> None:
    circular_mil_m2 = pi / 4 * 25.4e-6**2
    ohm_cmil_per_ft = volume_resistivity_ohm_m(100.0) * 0.3048 / circular_mil_m2
    printed(ohm_cmil_per_ft, "10.371")
    # 172.41 over per cent IACS is the resistivity in microohm cm.
    printed(1e8 * volume_resistivity_ohm_m(1.0), "172.41")


def test_pure_copper_in_the_table() -> None:
    rows = package_table("conductor_standards")
    printed(rows["pure_copper.resistivity_20c"].value, "16.78")
    printed(rows["pure_copper.resistivity_0c"].value, "15.43")
    printed(1e9 * metal("silver").resistivity_ohm_m, "15.87")
    # An encyclopedia's page on oxygen-free copper prints 102.75 % IACS.
    printed(percent_iacs_of_volume_resistivity(16.78e-9), "102.75")


@pytest.mark.parametrize(
    ("temperature_c", "factor"),
    [
        (5, "1.064"),
        (10, "1.042"),
        (15, "1.020"),
        (25, "0.980"),
        (30, "0.962"),
        (50, "0.893"),
        (90, "0.781"),
    ],
)
def test_factors_of_iec_60228_are_another_coefficient(
    temperature_c: float, factor: str
) -> None:
    row = package_table("conductor_standards")[
        f"iec60228.factor_to_20c.at_{temperature_c}c"
    ]
    assert row.printed == factor
    assert row.status == "read (secondary)"
    # They are those of 0.004 /K, and not those that this package uses.
    printed(factor_to_20c(temperature_c, coefficient_per_k=0.004), factor)
    difference = abs(factor_to_20c(temperature_c) / float(factor) - 1)
    assert difference < 0.0043


def test_the_trap_of_iec_60228_is_worth_four_tenths_of_a_percent() -> None:
    ours = factor_to_20c(90.0)
    np.testing.assert_allclose(100 * (ours / 0.781 - 1), 0.4, rtol=0, atol=0.05)


@pytest.mark.parametrize(
    ("name", "density", "least_percent"),
    [("clad_aluminium_10", "3.32", 62.9), ("clad_aluminium_15", "3.63", 64.4)],
)
def test_clad_aluminium(name: str, density: str, least_percent: float) -> None:
    printed(metal(name).density_g_per_cm3, density)
    core = expected_core(Quantity(1.0, "mm^2"), metal(name))
    # The printed resistivity has three digits: 0.2 % of the conductivity.
    np.testing.assert_allclose(core.percent_iacs, least_percent, rtol=0.002, atol=0)


def test_remembered_values_are_not_promoted() -> None:
    rows = package_table("conductor_standards")
    remembered = {
        "iacs.density",
        "iacs.linear_expansion",
        "metal.tin.density",
        "metal.tin.resistivity",
        "boundary.coefficient.lower",
        "boundary.coefficient.upper",
    }
    assert {key for key, row in rows.items() if row.status == "from memory"} == (
        remembered
    )
    judged = {key for key, row in rows.items() if row.status == "judgement"}
    assert judged == {
        "iacs.temperature_coefficient.spread",
        "iacs.density.spread",
        "band.ceiling",
        "band.floor",
        "rule.distance_from_20c",
        "rule.mass_share",
    }


def test_the_old_american_standard_is_kept_apart() -> None:
    rows = package_table("conductor_standards")
    old = rows["iacs.mass_resistivity.before_1913"]
    printed(old.value, "0.15292")
    assert old.value < mass_resistivity_ohm_g_per_m2(100.0)
