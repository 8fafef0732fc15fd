"""Density of water and air, buoyancy, and the rule of mixtures, recomputed.

Sources and status:
- water: Kell 1975 (J. Chem. Eng. Data 20, 97), another formula by other people, from
  memory, against Tanaka 2001, from memory. Kell's greatest density is 999.972 and
  Tanaka's 999.97495 kg/m3, so both are taken relative to it; Kell's temperatures are
  those of 1968, 1.00024 times today's (from memory). Tanaka states 0.8 ppm, Kell about
  1 ppm (from memory): they have to agree to 2 ppm;
- water at 20 degC, 998.207 kg/m3: from memory;
- air at 20 degC, 1013.25 hPa, 50 %: 1.199 kg/m3, computed from the gas law here;
- clad wires: the project's copper facts, section 6 (computed there: 10 % by volume
  3.32 g/cm3 and 65.4 % IACS, 15 % 3.63 and 67.3) and the product brief, Appendix A
  (0.347 g/m, 281 mohm/m). Tolerance: half a unit of the last digit printed.
"""

from math import pi, sqrt

import numpy as np
import pytest
from uncertainties import ufloat

from strandproof.physical import (
    air_density,
    density_by_buoyancy,
    density_by_geometry,
    mixture,
    per_metre,
    property_range,
    skin_volume_share,
    surface_pull_mg,
    water_density,
)
from strandproof.quantity import normal_input
from strandproof.records.physical import BuoyancyWeighing, Mixture


def printed(found: float, text: str) -> None:
    decimals = len(text.partition(".")[2])
    np.testing.assert_allclose(found, float(text), rtol=0, atol=0.5 * 10.0**-decimals)


def kell(t: float) -> float:
    top = (
        999.83952
        + 16.945176 * t
        - 7.9870401e-3 * t**2
        - 46.170461e-6 * t**3
        + 105.56302e-9 * t**4
        - 280.54253e-12 * t**5
    )
    return top / (1 + 16.879850e-3 * t)


@pytest.mark.parametrize("celsius", [0.5, 4.0, 10.0, 15.0, 20.0, 25.0, 30.0, 40.0])
def test_water_by_two_formulas(celsius: float) -> None:
    np.testing.assert_allclose(
        float(water_density(celsius)) / 999.97495,
        kell(1.00024 * celsius) / 999.972,
        rtol=2e-6,
        atol=0,
    )


def test_water_as_remembered() -> None:
    printed(float(water_density(20.0)), "998.207")
    assert 999.970 < float(water_density(3.98)) < 999.976


def test_air_by_the_gas_law() -> None:
    # Dry air 28.9647 g/mol, water 18.015 g/mol, vapour pressure 23.39 hPa at 20 degC.
    vapour = 0.5 * 2339.0
    kg_per_m3 = ((101325.0 - vapour) * 28.9647e-3 + vapour * 18.015e-3) / (
        8.314463 * 293.15
    )
    np.testing.assert_allclose(
        air_density(20.0).estimate, kg_per_m3, rtol=0, atol=0.001
    )


def test_buoyancy_of_a_known_body() -> None:
    """A body of 8.933 g/cm3 in water of 21 degC, its readings made from Archimedes."""
    volume_cm3, density = 0.07, 8.933
    water, air = 1e-3 * kell(21.0), 1e-3 * air_density(21.0).estimate
    # A balance set with weights of 8.0 g/cm3 shows forces times 1/(1 - air/8.0).
    factor = 1.0 / (1.0 - air / 8.0)
    in_air = volume_cm3 * (density - air) * factor
    in_water = volume_cm3 * (density - water) * factor
    found = density_by_buoyancy(
        BuoyancyWeighing(
            in_air=normal_input("in air", in_air, 1e-4, unit="g"),
            in_water=normal_input("in water", in_water, 1e-4, unit="g"),
            water_temperature=normal_input("water", 21.0, 0.2, unit="degC"),
            air_density=air_density(21.0),
            wire_diameter_um=0.0,
            bubbles_removed=True,
            pure_water=True,
        )
    )
    np.testing.assert_allclose(found.density.value, density, rtol=0, atol=3e-5)
    assert not found.flags


def test_half_a_gram_of_strand_gives_five_hundredths() -> None:
    """Copper facts, section 6: 0.5 g to +-0.05 g/cm3, with a balance of 0.1 mg."""
    lost = 500.0 * 0.9982 / 8.92
    found = density_by_buoyancy(
        BuoyancyWeighing(
            in_air=normal_input("in air", 500.0, 0.1, unit="mg"),
            in_water=normal_input("in water", 500.0 - lost, 0.1, unit="mg"),
            water_temperature=normal_input("water", 20.0, 0.2, unit="degC"),
            air_density=air_density(20.0),
            wire_diameter_um=0.0,
        )
    )
    printed(found.interval.half_width or 0.0, "0.04")
    # First order by another library, with the two readings only.
    air, water = ufloat(500.0, 0.1), ufloat(500.0 - lost, 0.1)
    other = (air * 0.998207 - water * 0.001199) / (air - water)
    np.testing.assert_allclose(found.density.standard_uncertainty, other.s, rtol=3e-3)


def test_pull_of_the_surface() -> None:
    # pi x 0.1 mm x 72.7 mN/m is 22.8 uN, the weight of 2.33 mg.
    printed(surface_pull_mg(100.0), "2.33")


def test_geometry_against_another_library() -> None:
    found = density_by_geometry(
        normal_input("mass", 847.0, 1.0, unit="mg"),
        normal_input("length", 1000.0, 1.0, unit="mm"),
        normal_input("diameter", 80.0, 0.5, unit="um"),
        strands=19,
    ).density
    volume = 19 * pi / 4 * ufloat(0.080, 0.0005) ** 2 * ufloat(1000.0, 1.0)
    other = ufloat(847.0, 1.0) / volume
    np.testing.assert_allclose(found.value, other.n, rtol=1e-12)
    np.testing.assert_allclose(found.standard_uncertainty, other.s, rtol=1e-9)


@pytest.mark.parametrize(
    ("share", "density", "percent"), [(0.10, "3.32", "65.4"), (0.15, "3.63", "67.3")]
)
def test_clad_aluminium_by_the_rule(share: float, density: str, percent: str) -> None:
    clad = mixture({"copper": share, "aluminium": 1 - share})
    printed(clad.density_g_per_cm3, density)
    printed(clad.percent_iacs, percent)


def test_clad_core_of_the_brief() -> None:
    """The brief's core goes by the standard's values, not by the rule of mixtures."""
    ends = property_range("clad_aluminium", "density").upper
    resistivity = property_range("clad_aluminium", "resistivity").lower
    mass, resistance = per_metre(
        Mixture(
            density_g_per_cm3=ends,
            resistivity_nohm_m=resistivity,
            percent_iacs=100.0 * 17.2414 / resistivity,
            mass_percent={},
        ),
        0.0955,
    )
    printed(mass, "0.347")
    printed(resistance, "281")


def test_silver_skin_of_one_micrometre() -> None:
    """Copper facts, section 6: 4.0 % by volume, 4.6 % by mass, density 8.99, 100.34."""
    share = skin_volume_share(100.0, 1.0)
    printed(100 * share, "4.0")
    plated = mixture({"silver": share, "copper": 1 - share})
    printed(plated.mass_percent["silver"], "4.6")
    printed(plated.density_g_per_cm3, "8.99")
    printed(plated.percent_iacs, "100.34")


def test_tin_of_the_drain() -> None:
    """Appendix A: 1.9 um on 0.12 mm is 6.2 % by volume, 5.2 % by mass, +5.6 %."""
    share = skin_volume_share(120.0, 1.9)
    tinned = mixture({"tin": share, "copper": 1 - share})
    printed(100 * share, "6.2")
    printed(tinned.mass_percent["tin"], "5.2")
    printed(100 * (tinned.resistivity_nohm_m / 17.2414 - 1), "5.6")


def test_even_spread() -> None:
    one = property_range("brass", "density")
    assert one.deviation == pytest.approx((one.upper - one.lower) / sqrt(12), rel=1e-12)
