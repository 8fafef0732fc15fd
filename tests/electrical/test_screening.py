from dataclasses import replace

import numpy as np
import pytest
from electrical_examples import temperature

from strandproof.electrical import screen_core, screen_lot
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
    assert len(found.reasons) == 3
    assert found.reasons[-1].endswith("copper-clad aluminium (15 % copper)")


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


def lot(*cores: CoreReading) -> list[CoreReading]:
    return [replace(one, label=f"core {k}") for k, one in enumerate(cores, start=1)]


def test_a_lot_is_held_for_one_clad_core() -> None:
    """Product brief, S9: five cores, one of clad aluminium."""
    clad = core(mass_mg=347.0, resistance_mohm=281.0)
    found = screen_lot(lot(core(), core(), clad, core(), core()), limits=LIMITS)
    assert (found.action, found.held) == ("hold", ("core 3",))
    assert "Lot held: 1 of 5 (core 3)" in found.sentence
    assert "risk of at most 5 %" in found.sentence


def test_five_good_cores_leave_up_to_45_percent_unseen() -> None:
    """Product brief, Appendix A, 0 of n: 45.1 % at n = 5."""
    found = screen_lot(lot(*[core()] * 5), limits=LIMITS)
    assert found.action == "accept"
    np.testing.assert_allclose(found.bad_share_upper, 0.451, rtol=0, atol=5e-4)


def test_copper_of_too_small_an_area_still_looks_like_copper() -> None:
    thin = screen_core(core(mass_mg=637.0, resistance_mohm=240.7), limits=LIMITS)
    assert thin.action == "hold"
    assert thin.likeness == "mass and resistance fit copper"


def test_brass_fits_no_metal_of_the_table() -> None:
    # About 8.5 g/cm3 and 64 nohm m: four times the resistance of copper.
    brass = screen_core(core(mass_mg=812.0, resistance_mohm=670.0), limits=LIMITS)
    assert brass.likeness == "mass and resistance fit no metal of the table"
    assert brass.reasons[-1] == brass.likeness


def test_a_diameter_is_decided_where_it_is_limited() -> None:
    limited = replace(LIMITS, least_diameter_mm=0.079)
    thin = replace(core(), diameter=normal_input("diameter", 76.0, 0.5, unit="um"))
    right = replace(
        core(), diameter=normal_input("diameter", 0.0802, 0.0005, unit="mm")
    )
    held = screen_core(thin, limits=limited)
    assert held.diameter is not None
    assert held.diameter.decision == "does not conform"
    assert held.action == "hold"
    assert screen_core(right, limits=limited).action == "accept"
    with pytest.raises(MissingMeasurementError, match="diameter of a strand of core"):
        screen_core(core(), limits=limited)
    with pytest.raises(ParameterError, match="least_diameter_mm"):
        screen_core(right, limits=replace(LIMITS, least_diameter_mm=0.0))


def test_a_lot_needs_cores_with_labels_of_their_own() -> None:
    for cores in ([], [core(), core()]):
        with pytest.raises(ParameterError, match="a label of its own"):
            screen_lot(cores, limits=LIMITS)
