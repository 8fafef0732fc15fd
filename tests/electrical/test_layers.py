import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from strandproof.electrical import layer_effect, metal
from strandproof.errors import ParameterError, UnitError
from strandproof.quantity import normal_input


@settings(max_examples=40, deadline=None)
@given(
    diameter=st.floats(min_value=0.02, max_value=2.0),
    share=st.floats(min_value=0.001, max_value=0.4),
    strands=st.integers(min_value=1, max_value=100),
)
def test_resistances_in_parallel(diameter: float, share: float, strands: int) -> None:
    thickness = share * diameter
    effect = layer_effect(
        normal_input("strand diameter", diameter, 0.0, unit="mm"),
        normal_input("tin thickness", 1000 * thickness, 0.1, unit="um"),
        strands=strands,
    )
    copper, tin = metal("copper"), metal("tin")
    core = effect.core_area.value
    ring = effect.strand_area.value - core
    together = core / copper.resistivity_ohm_m + ring / tin.resistivity_ohm_m
    alone = effect.strand_area.value / copper.resistivity_ohm_m
    np.testing.assert_allclose(
        effect.resistance_change_percent.value, 100 * (alone / together - 1), rtol=1e-9
    )
    masses = core * copper.density_g_per_cm3, ring * tin.density_g_per_cm3
    np.testing.assert_allclose(
        effect.mass_percent.value, 100 * masses[1] / sum(masses), rtol=1e-9
    )
    np.testing.assert_allclose(
        effect.volume_percent.value,
        100 * ring / effect.strand_area.value,
        rtol=1e-9,
    )


def test_shares_do_not_depend_on_the_number_of_strands() -> None:
    one, seven = (
        layer_effect(
            normal_input("strand diameter", 0.12, 0.0005, unit="mm"),
            normal_input("tin thickness", 1.9, 0.15, unit="um"),
            strands=strands,
        )
        for strands in (1, 7)
    )
    assert one.volume_percent.value == seven.volume_percent.value
    np.testing.assert_allclose(
        seven.core_area.value, 7 * one.core_area.value, rtol=1e-12
    )


def test_silver_lowers_the_resistance() -> None:
    effect = layer_effect(
        normal_input("strand diameter", 0.1, 0.0, unit="mm"),
        normal_input("silver thickness", 1.0, 0.1, unit="um"),
        layer="silver",
    )
    # Copper facts, section 6 (computed): 4.0 % by volume, 100.34 against 100 % IACS.
    np.testing.assert_allclose(effect.volume_percent.value, 4.0, rtol=0, atol=0.05)
    np.testing.assert_allclose(
        effect.resistance_change_percent.value, -0.34, rtol=0, atol=0.005
    )


def test_a_layer_that_fills_the_strand_is_refused() -> None:
    with pytest.raises(ParameterError, match="below half the strand's diameter"):
        layer_effect(
            normal_input("strand diameter", 0.12, 0.0005, unit="mm"),
            normal_input("tin thickness", 60.1, 1.0, unit="um"),
        )


def test_unknown_metals_strands_and_units_are_refused() -> None:
    diameter = normal_input("strand diameter", 0.12, 0.0005, unit="mm")
    tin = normal_input("tin thickness", 1.9, 0.15, unit="um")
    with pytest.raises(ParameterError, match="one of copper, tin, silver"):
        layer_effect(diameter, tin, layer="unobtainium")
    with pytest.raises(ParameterError, match="strands was given as 0"):
        layer_effect(diameter, tin, strands=0)
    with pytest.raises(UnitError, match=r"\(length\)"):
        layer_effect(diameter, normal_input("mass", 1.9, 0.15, unit="mg"))
