"""Residual resistivity from ratios in liquid nitrogen and helium."""

from dataclasses import replace

import numpy as np
import pytest
from scipy.optimize import brentq

from strandproof.electrical.residual import (
    bath_temperature,
    ratio_over_residual,
    residual_from_cold_ratio,
    residual_of_ratio_nohm_m,
    resistivity_nohm_m,
)
from strandproof.errors import ParameterError, UnitError
from strandproof.quantity import normal_input
from strandproof.records.electrical import Bath, ColdRatioReading, ColdReference

CONTRACTION = {"nitrogen": 0.00302, "helium": 0.00324}
BATH_K = {"nitrogen": 77.355, "helium": 4.2}


def made_ratio(residual: float, bath: Bath = "nitrogen", kelvin: float = 0.0) -> float:
    at = kelvin or BATH_K[bath]
    warm = float(resistivity_nohm_m(293.15, residual))
    return warm / float(resistivity_nohm_m(at, residual)) * (1 - CONTRACTION[bath])


def reading(
    value: float, *, percent: float = 0.2, bath: Bath = "nitrogen"
) -> ColdRatioReading:
    return ColdRatioReading(
        bath=bath,
        ratio=normal_input("ratio", value, 0.01 * percent * value, unit="1"),
        room_temperature=normal_input("room", 20.0, 0.1, unit="degC"),
        bath_temperature=bath_temperature(bath, pressure_hpa=1013.25, spread_hpa=3.0),
    )


def reference(value: float, ratio: float = 200.0) -> ColdReference:
    return ColdReference(
        ratio=normal_input("reference", value, 0.002 * value, unit="1"),
        residual_ratio=normal_input("its ratio", ratio, 0.02 * ratio, unit="1"),
    )


@pytest.mark.parametrize("residual", [0.005, 0.05, 0.155, 0.6, 1.55])
@pytest.mark.parametrize("bath", ["nitrogen", "helium"])
def test_ratio_made_from_a_residual_gives_it_back(residual: float, bath: Bath) -> None:
    found = residual_from_cold_ratio(reading(made_ratio(residual, bath), bath=bath))
    np.testing.assert_allclose(
        found.residual_resistivity.value, residual, rtol=1e-9, atol=1e-12
    )


@pytest.mark.parametrize("residual", [0.02, 0.155, 0.8])
def test_reference_takes_the_bath_out(residual: float) -> None:
    # The bath is 0.6 K warmer than the pressure says, both wires in it.
    known = residual_of_ratio_nohm_m(200.0)
    warm = replace(
        reading(made_ratio(residual, kelvin=77.955)),
        reference=reference(
            made_ratio(known, kelvin=77.955), ratio=ratio_over_residual(known) or 0.0
        ),
    )
    found = residual_from_cold_ratio(warm)
    np.testing.assert_allclose(found.residual_resistivity.value, residual, rtol=1e-9)
    assert "no_reference_wire" not in [flag.name for flag in found.flags]
    alone = residual_from_cold_ratio(replace(warm, reference=None))
    assert alone.residual_resistivity.value > residual + 0.02
    assert "no_reference_wire" in [flag.name for flag in alone.flags]


def test_sensitivity_to_the_ratio_against_a_root_finder() -> None:
    value, step = made_ratio(0.1), 1e-4
    found = residual_from_cold_ratio(reading(value))
    line = next(one for one in found.residual_resistivity.budget if one.name == "ratio")

    def residual(at: float) -> float:
        return float(brentq(lambda x: made_ratio(x) - at, 1e-9, 5.0, xtol=1e-14))

    slope = (residual(value + step) - residual(value - step)) / (2 * step)
    np.testing.assert_allclose(line.sensitivity, slope, rtol=1e-5)


def test_both_definitions_of_the_ratio_are_stated() -> None:
    found = residual_from_cold_ratio(reading(180.0, percent=1.0, bath="helium"))
    assert found.ratio_273.lower is not None
    assert found.ratio_293.lower is not None
    np.testing.assert_allclose(
        found.ratio_293.lower / found.ratio_273.lower, 16.78 / 15.43, rtol=0.003
    )
    assert found.ratio_293.lower < 180.6 < (found.ratio_293.upper or 0.0)


def test_what_nitrogen_cannot_resolve_is_open_above_and_flagged() -> None:
    found = residual_from_cold_ratio(reading(made_ratio(0.005)))
    assert found.ratio_273.upper is None
    assert found.ratio_273.lower is not None
    assert "residual_not_resolved" in [flag.name for flag in found.flags]
    assert found.at_most_nohm_m > 0.005


def test_beyond_perfect_copper_is_refused() -> None:
    with pytest.raises(ParameterError, match="where perfect copper ends"):
        residual_from_cold_ratio(reading(12.0))
    with pytest.raises(ParameterError, match="above 1"):
        residual_from_cold_ratio(reading(0.12))


def test_reference_that_cannot_be_is_refused() -> None:
    impossible = replace(reading(8.0), reference=reference(60.0, ratio=30.0))
    with pytest.raises(ParameterError, match="which of the two ratios"):
        residual_from_cold_ratio(impossible)


def test_bath_temperature() -> None:
    # 12 mbar more are about 0.1 K (from memory).
    low, high = (
        bath_temperature("nitrogen", pressure_hpa=p, spread_hpa=1.0).estimate
        for p in (1000.0, 1012.0)
    )
    np.testing.assert_allclose(high - low, 0.1, rtol=0.01)
    assert (
        bath_temperature("helium", pressure_hpa=900.0, spread_hpa=1.0).estimate == 4.2
    )
    with pytest.raises(ParameterError, match="600 to 1100 hPa"):
        bath_temperature("nitrogen", pressure_hpa=29.9, spread_hpa=0.1)


def test_bath_that_does_not_fit_is_refused() -> None:
    warm = replace(
        reading(8.0), bath_temperature=normal_input("bath", 95.0, 0.1, unit="K")
    )
    with pytest.raises(ParameterError, match="70 to 85 K in liquid nitrogen"):
        residual_from_cold_ratio(warm)
    celsius = replace(
        reading(8.0), bath_temperature=normal_input("bath", -196.0, 0.1, unit="degC")
    )
    with pytest.raises(UnitError, match="expected is K"):
        residual_from_cold_ratio(celsius)
