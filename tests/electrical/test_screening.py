from dataclasses import replace

import numpy as np
import pytest
from electrical_examples import temperature

from strandproof.electrical import screen_core
from strandproof.errors import MissingMeasurementError, ParameterError
from strandproof.quantity import normal_input
from strandproof.records.electrical import (
    CoreReading,
    DecisionRule,
    ScreeningLimits,
)

# Product brief S9: 0.0955 mm2 nominal; 5 % allowed in mass and resistance.
LIMITS = ScreeningLimits(
    strands=19,
    least_mass_per_metre_g=0.95 * 0.849,
    most_resistance_per_metre_mohm=1.05 * 180.5,
)


def core(
    *, mass_mg: float = 849.0, resistance_mohm: float = 180.5, strands: int = 19
) -> CoreReading:
    return CoreReading(
        label="core 1",
        strands=strands,
        length=normal_input("length", 1000.0, 0.5, unit="mm"),
        mass=normal_input("mass", mass_mg, 1.0, unit="mg"),
        resistance=normal_input("resistance", resistance_mohm, 0.1, unit="mohm"),
        temperature=temperature(20.0),
    )


def test_a_copper_core_is_accepted() -> None:
    found = screen_core(core(), limits=LIMITS)
    assert found.action == "accept"
    assert found.reasons == ()
    assert found.flags == ()
    np.testing.assert_allclose(
        found.percent_iacs_by_mass.value, 100.0, rtol=0, atol=0.1
    )


def test_a_clad_aluminium_core_stands_out() -> None:
    found = screen_core(core(mass_mg=347.0, resistance_mohm=281.0), limits=LIMITS)
    assert found.action == "hold"
    assert found.mass_per_metre.decision == "does not conform"
    assert found.resistance_per_metre.decision == "does not conform"
    assert [flag.name for flag in found.flags] == ["above_copper_ceiling"]
    assert len(found.reasons) == 2


@pytest.mark.parametrize("strands", [18, 20])
def test_another_strand_count_is_held(strands: int) -> None:
    found = screen_core(core(strands=strands), limits=LIMITS)
    assert found.action == "hold"
    assert found.reasons == (f"{strands} strands counted, 19 wanted",)


def test_inside_of_the_guard_band_is_held_with_rule_and_risk() -> None:
    near = core(mass_mg=0.95 * 849.0 + 0.5)
    found = screen_core(near, limits=LIMITS)
    assert found.mass_per_metre.decision == "undetermined"
    assert found.action == "hold"
    assert "risk of a wrong decision at most 5 %" in found.reasons[0]
    simple = screen_core(near, limits=LIMITS, rule=DecisionRule(guard="none"))
    assert simple.action == "accept"


def test_the_resistance_is_referred_to_20_degrees() -> None:
    warm = replace(
        core(resistance_mohm=180.5 * (1 + 0.00393 * 8)), temperature=temperature(28.0)
    )
    found = screen_core(warm, limits=LIMITS)
    np.testing.assert_allclose(
        found.resistance_per_metre.measured.value, 180.5, rtol=1e-9
    )


def test_no_temperature_and_no_limits_are_refused() -> None:
    with pytest.raises(MissingMeasurementError, match="temperature of the wire"):
        screen_core(replace(core(), temperature=None), limits=LIMITS)
    with pytest.raises(ParameterError, match="least_mass_per_metre_g"):
        screen_core(core(), limits=replace(LIMITS, least_mass_per_metre_g=0.0))
