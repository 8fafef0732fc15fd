"""Computed check values on copper, gauge, coefficients, conformity, layers.

Source: the project's list of check values, sections 2.1 to 2.6 and 5.3, and its copper
facts, section 1.5. Status: computed there, recomputed here; the constants of NBS
circulars, the density, JCGM 106's examples and the boundary's coefficient that enter
them are from memory. Tolerance: half a unit of the last digit printed.
"""

import numpy as np
import pytest
from electrical_examples import resistance, strand, temperature

from strandproof.electrical import (
    boundary_share,
    conductivity_by_diameter,
    conductivity_ms_per_m,
    conformance_probability,
    expected_core,
    factor_to_20c,
    gauge_area_mm2,
    gauge_diameter_mm,
    layer_effect,
    mass_resistivity_ohm_g_per_m2,
    metal,
    percent_iacs_of_volume_resistivity,
    resistance_by_reversal,
    scaled_coefficient,
    strand_area,
    volume_resistivity_ohm_m,
)
from strandproof.quantity import Quantity, normal_input
from strandproof.records.electrical import GaugeRounding, ResistanceMeasurement

MIL_PER_MM = 1 / 0.0254
FEET_PER_KM = 1000 / 0.3048


def printed(found: float, text: str) -> None:
    decimals = len(text.partition(".")[2])
    np.testing.assert_allclose(found, float(text), rtol=0, atol=0.5 * 10.0**-decimals)


@pytest.mark.parametrize(
    ("percent", "conductivity", "volume", "mass"),
    [
        (101.0, "58.580", "0.017071", "0.15176"),
        (100.0, "58.000", "0.017241", "0.15328"),
        (97.16, "56.353", "0.017745", "0.15776"),
        (96.16, "55.773", "0.017930", "0.15940"),
        (95.0, "55.100", "0.018149", None),
    ],
)
def test_ladder(percent: float, conductivity: str, volume: str, mass: str) -> None:
    printed(conductivity_ms_per_m(percent), conductivity)
    printed(1e6 * volume_resistivity_ohm_m(percent), volume)
    if mass is not None:
        printed(mass_resistivity_ohm_g_per_m2(percent), mass)


@pytest.mark.parametrize(
    ("percent", "ohm_lb_per_mile2"),
    [(101.0, "866.53"), (100.0, "875.20"), (97.16, "900.78"), (96.16, "910.15")],
)
def test_ladder_in_ohm_pounds_per_square_mile(
    percent: float, ohm_lb_per_mile2: str
) -> None:
    # From the unrounded 8.89/58; with 0.15328 it would be 875.22 at 100 %.
    ohm_g_per_m2 = 8.89e6 * volume_resistivity_ohm_m(percent)
    printed(ohm_g_per_m2 / 453.59237 * 1609.344**2, ohm_lb_per_mile2)


def test_rounded_mass_resistivity_is_off_by_27_millionths() -> None:
    exact = 8.89e6 * volume_resistivity_ohm_m(100.0)
    np.testing.assert_allclose(
        mass_resistivity_ohm_g_per_m2(100.0) / exact - 1, 2.7e-5, rtol=0, atol=5e-7
    )


@pytest.mark.parametrize(
    ("percent", "coefficient"),
    [
        (95.0, "0.003734"),
        (97.3, "0.003824"),
        (98.0, "0.003851"),
        (101.0, "0.003969"),
    ],
)
def test_scaled_coefficients(percent: float, coefficient: str) -> None:
    # 0.0037335 at 95 % is printed rounded up and lands a hair below in binary.
    np.testing.assert_allclose(
        scaled_coefficient(percent).estimate,
        float(coefficient),
        rtol=0,
        atol=5.000001e-7,
    )


@pytest.mark.parametrize(
    ("temperature_c", "factor"),
    [
        (15, "1.0200"),
        (18, "1.0079"),
        (22, "0.9922"),
        (23, "0.9883"),
        (25, "0.9807"),
        (30, "0.9622"),
        (50, "0.8945"),
        (90, "0.7843"),
    ],
)
def test_factors_to_20_degrees(temperature_c: float, factor: str) -> None:
    printed(factor_to_20c(temperature_c), factor)


def test_the_straight_line_ends_where_it_is_computed_to() -> None:
    zero = 20 - 1 / scaled_coefficient(100.0).estimate
    printed(zero, "-234.45")


GAUGES = [
    (-3, "11.6840", "0.16080", "0.04901", "0.04901"),
    (10, "2.58819", "3.2771", "0.99886", "0.99881"),
    (12, "2.05253", "5.2108", "1.58825", "1.58857"),
    (14, "1.62773", "8.2855", "2.5254", "2.5241"),
    (16, "1.29085", "13.174", "4.0156", "4.0189"),
    (18, "1.02369", "20.948", "6.3850", "6.3859"),
    (20, "0.81182", "33.309", "10.153", "10.128"),
    (22, "0.64380", "52.963", "16.143", "16.203"),
    (24, "0.51056", "84.215", "25.669", "25.671"),
    (26, "0.40489", "133.91", "40.815", "41.024"),
    (28, "0.32109", "212.92", "64.898", "65.326"),
    (30, "0.25464", "338.56", "103.19", "103.71"),
    (36, "0.12700", "1361.05", "414.85", "414.85"),
]


@pytest.mark.parametrize(("gauge", "mm", "ohm_km", "exact", "rounded"), GAUGES)
def test_gauge_table(
    gauge: int, mm: str, ohm_km: str, exact: str, rounded: str
) -> None:
    printed(gauge_diameter_mm(gauge), mm)
    printed(ohm_per_km(gauge, "exact"), ohm_km)
    printed(ohm_per_km(gauge, "exact") / FEET_PER_KM * 1000, exact)
    printed(ohm_per_km(gauge, "tenth_mil") / FEET_PER_KM * 1000, rounded)


def ohm_per_km(gauge: int, rounding: GaugeRounding) -> float:
    area = Quantity(gauge_area_mm2(gauge, rounding=rounding), "mm^2")
    # mohm/m and ohm/km are one number.
    return expected_core(area, metal("copper")).resistance_per_metre.value


def test_ratio_of_neighbouring_gauges() -> None:
    printed(gauge_diameter_mm(25) / gauge_diameter_mm(26), "1.1229322")
    printed(gauge_area_mm2(25) / gauge_area_mm2(26), "1.2609767")


@pytest.mark.parametrize(
    ("diameter_mm", "ohm_per_m"),
    [
        (0.05, "8.78"),
        (0.1, "2.195"),
        (0.2, "0.549"),
        (0.5, "0.0878"),
        (1.0, "0.0220"),
    ],
)
def test_resistance_of_strands(diameter_mm: float, ohm_per_m: str) -> None:
    area = strand_area(normal_input("diameter", diameter_mm, 0.0, unit="mm"))
    found = expected_core(area, metal("copper")).resistance_per_metre.value
    printed(found / 1000, ohm_per_m)


def test_a_cable_limit_proves_little_copper() -> None:
    area = Quantity(0.479, "mm^2")
    printed(expected_core(area, metal("copper")).resistance_per_metre.value, "36.0")


def test_pure_metals_in_percent_iacs() -> None:
    printed(percent_iacs_of_volume_resistivity(16.78e-9), "102.75")
    printed(percent_iacs_of_volume_resistivity(15.87e-9), "108.6")


def test_diameter_dominates() -> None:
    measurement = ResistanceMeasurement(
        resistance=resistance(percent=0.1),
        temperature=temperature(20.0),
        gauge_length=normal_input("gauge length", 1.0, 0.0005, unit="m"),
    )
    found = conductivity_by_diameter(
        measurement, diameter=normal_input("diameter", 1.0, 0.005, unit="mm")
    ).resistivity
    assert found.relative_uncertainty is not None
    printed(100 * found.relative_uncertainty, "1.01")
    assert found.budget[0].name == "diameter"


def test_thermal_voltage_of_one_microvolt() -> None:
    forward, reverse = (
        normal_input(f"voltage {name}", 1e-6 + sign * 1e-3, 1e-9, unit="V")
        for name, sign in (("forward", 1), ("reversed", -1))
    )
    current = normal_input("current", 1.0, 1e-4, unit="A")
    reading = resistance_by_reversal(forward, reverse, current)
    np.testing.assert_allclose(reading.resistance.value, 1e-3, rtol=1e-12)
    np.testing.assert_allclose(reading.thermal_voltage.value, 1e-6, rtol=1e-9)
    one_way = forward.estimate / current.estimate
    printed(100 * (one_way / reading.resistance.value - 1), "0.1")


@pytest.mark.parametrize(
    ("diameter_mm", "silver_um", "change"), [(1.0, 1.0, "-0.035"), (0.5, 2.0, "-0.14")]
)
def test_silver_layer(diameter_mm: float, silver_um: float, change: str) -> None:
    effect = layer_effect(
        normal_input("diameter", diameter_mm, 0.0, unit="mm"),
        normal_input("silver thickness", silver_um, 0.1, unit="um"),
        layer="silver",
    )
    printed(effect.resistance_change_percent.value, change)


@pytest.mark.parametrize(
    ("distance_um", "per_area", "per_boundary"),
    [(10.0, "0.35", "0.17"), (50.0, "0.07", "0.035"), (500.0, "0.007", "0.0035")],
)
def test_boundary_shares(distance_um: float, per_area: str, per_boundary: str) -> None:
    distance = Quantity(distance_um, "um")
    coefficients = (3e-16, 3e-16)
    area = boundary_share(
        distance, reading="per_area", coefficients_ohm_m2=coefficients
    )
    printed(area.upper_percent, per_area)
    crossed = boundary_share(distance, coefficients_ohm_m2=coefficients)
    printed(crossed.upper_percent, per_boundary)


@pytest.mark.parametrize(
    ("value", "u", "lower", "upper", "probability"),
    [
        (-5.47, 0.05, None, -5.40, "0.919"),
        (509.7, 8.6, 490.0, None, "0.989"),
        (13.6, 1.8, 12.5, 16.3, "0.663"),
    ],
)
def test_conformance_probabilities(
    value: float, u: float, lower: float | None, upper: float | None, probability: str
) -> None:
    found = conformance_probability(Quantity(value, "1", u), lower=lower, upper=upper)
    printed(found, probability)


def test_the_strand_of_the_brief_by_hand() -> None:
    # The same arithmetic written out, without the package.
    measurement = strand()
    at_20 = 1.7296 / (1 + 0.00393 * 3.8)
    by_hand = at_20 * np.pi * 0.08e-3**2 / 4 / 0.5
    found = conductivity_by_diameter(
        measurement, diameter=normal_input("diameter", 80.0, 0.5, unit="um")
    )
    np.testing.assert_allclose(found.resistivity.value, by_hand, rtol=1e-12)
