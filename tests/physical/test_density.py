from dataclasses import replace

import numpy as np
import pytest

from strandproof.errors import ParameterError, UnitError
from strandproof.physical import (
    air_density,
    density_by_buoyancy,
    density_by_geometry,
    surface_pull_mg,
    water_density,
)
from strandproof.quantity import normal_input
from strandproof.records.physical import BuoyancyWeighing

GOOD = BuoyancyWeighing(
    in_air=normal_input("in air", 500.0, 0.1, unit="mg"),
    in_water=normal_input("in water", 444.1, 0.1, unit="mg"),
    water_temperature=normal_input("water", 20.0, 0.2, unit="degC"),
    air_density=air_density(20.0),
    wire_diameter_um=50.0,
    bubbles_removed=True,
    pure_water=True,
)


def test_good_weighing_has_no_flag_and_names_the_bubble() -> None:
    found = density_by_buoyancy(GOOD)
    assert found.flags == ()
    assert "bubble of 0.56 mm3" in found.sentences[1]
    assert "up to 1.2 mg" in found.sentences[2]


def test_a_bubble_takes_one_per_cent_off() -> None:
    """The sentence holds: 0.56 mm3 of air lifts by 0.56 mg."""
    clean = density_by_buoyancy(GOOD).density.value
    spoiled = replace(GOOD, in_water=normal_input("w", 444.1 - 0.56, 0.1, unit="mg"))
    lost = 1 - density_by_buoyancy(spoiled).density.value / clean
    np.testing.assert_allclose(lost, 0.01, rtol=0.02)


def test_grams_and_milligrams_agree() -> None:
    grams = replace(
        GOOD,
        in_air=normal_input("in air", 0.5, 1e-4, unit="g"),
        in_water=normal_input("in water", 0.4441, 1e-4, unit="g"),
    )
    first, second = density_by_buoyancy(GOOD), density_by_buoyancy(grams)
    np.testing.assert_allclose(first.density.value, second.density.value, rtol=1e-12)


def test_nothing_said_is_flagged() -> None:
    silent = replace(GOOD, wire_diameter_um=None, bubbles_removed=None, pure_water=None)
    assert [flag.name for flag in density_by_buoyancy(silent).flags] == [
        "bubbles_not_excluded",
        "water_not_pure",
        "incomplete_budget",
    ]


def test_thin_suspension_shrinks_the_uncertainty() -> None:
    thick = density_by_buoyancy(replace(GOOD, wire_diameter_um=200.0)).density
    thin = density_by_buoyancy(replace(GOOD, wire_diameter_um=20.0)).density
    assert thin.standard_uncertainty < 0.5 * thick.standard_uncertainty


def test_specimen_that_floats_is_refused() -> None:
    floats = replace(GOOD, in_water=normal_input("w", 500.5, 0.1, unit="mg"))
    with pytest.raises(ParameterError, match="hanger's own reading"):
        density_by_buoyancy(floats)


@pytest.mark.parametrize("celsius", [-1.0, 41.0])
def test_water_outside_of_the_formula_is_refused(celsius: float) -> None:
    warm = normal_input("water", celsius, 0.2, unit="degC")
    with pytest.raises(ParameterError, match="0 to 40 degC"):
        density_by_buoyancy(replace(GOOD, water_temperature=warm))
    with pytest.raises(ParameterError, match="0 to 40 degC"):
        water_density(celsius)


@pytest.mark.parametrize(
    "wrong",
    [
        {"temperature_c": 50.0},
        {"temperature_c": 20.0, "pressure_hpa": 300.0},
        {"temperature_c": 20.0, "humidity_percent": 120.0},
    ],
)
def test_air_out_of_range_is_refused(wrong: dict[str, float]) -> None:
    with pytest.raises(ParameterError, match="allowed is from"):
        air_density(**wrong)


def test_negative_wire_is_refused() -> None:
    with pytest.raises(ParameterError, match="0 or above"):
        surface_pull_mg(-1.0)


def test_geometry_refuses_and_flags() -> None:
    mass = normal_input("mass", 847.0, 1.0, unit="mg")
    length = normal_input("length", 1.0, 0.001, unit="m")
    exact = normal_input("diameter", 0.08, 0.0, unit="mm")
    assert density_by_geometry(mass, length, exact, strands=19).flags[0].name == (
        "incomplete_budget"
    )
    with pytest.raises(ParameterError, match="1 or more"):
        density_by_geometry(mass, length, exact, strands=0)
    with pytest.raises(UnitError, match="mm, um, m"):
        density_by_geometry(mass, mass, exact)
