"""One wire: limits, identities, no overflow, refusals."""

import numpy as np
import pytest

from strandproof.electrical import (
    dc_resistance_ohm_per_m,
    internal_impedance_ohm_per_m,
    skin_depth_mm,
)
from strandproof.electrical.internal_impedance import transverse_loss_factor
from strandproof.errors import ParameterError
from strandproof.records.electrical import ConductingMetal, RoundWire, WireLayer

COPPER = ConductingMetal(name="copper", resistivity_ohm_m=1e-6 / 58)
STEEL = ConductingMetal(
    name="steel", resistivity_ohm_m=120e-9, relative_permeability=10_000.0
)


def wire(diameter_mm: float, *layers: WireLayer) -> RoundWire:
    return RoundWire(diameter_mm=diameter_mm, core=COPPER, layers=layers)


@pytest.mark.parametrize("frequency", [20.0, 20e3, 1e6])
@pytest.mark.parametrize("share", [0.001, 0.3, 0.9])
def test_a_layer_of_the_same_metal_is_no_layer(frequency: float, share: float) -> None:
    layers = (WireLayer(metal=COPPER, thickness_um=500 * share),)
    bare = internal_impedance_ohm_per_m(wire(1.0), frequency_hz=frequency)
    layered = internal_impedance_ohm_per_m(wire(1.0, *layers), frequency_hz=frequency)
    np.testing.assert_allclose(layered, bare, rtol=1e-12, atol=0)


def test_three_layers_of_one_metal_are_one_layer() -> None:
    thirds = tuple(WireLayer(metal=STEEL, thickness_um=50.0) for _ in range(3))
    whole = WireLayer(metal=STEEL, thickness_um=150.0)
    found = [
        internal_impedance_ohm_per_m(each, frequency_hz=5e3)
        for each in (wire(1.0, *thirds), wire(1.0, whole))
    ]
    np.testing.assert_allclose(found[0], found[1], rtol=1e-12, atol=0)


def test_at_low_frequency_it_is_the_resistance_at_direct_current() -> None:
    plated = wire(0.12, WireLayer(metal=STEEL, thickness_um=2.0))
    found = internal_impedance_ohm_per_m(plated, frequency_hz=0.01)
    expected = dc_resistance_ohm_per_m(plated)
    np.testing.assert_allclose(found.real, expected, rtol=1e-9, atol=0)


@pytest.mark.parametrize("diameter", [10.0, 100.0])
def test_thick_magnetic_layers_do_not_overflow(diameter: float) -> None:
    """Far thicker than its skin depth: the surface impedance over the girth."""
    steel = wire(diameter, WireLayer(metal=STEEL, thickness_um=300 * diameter))
    found = internal_impedance_ohm_per_m(steel, frequency_hz=1e6)
    depth = 1e-3 * skin_depth_mm(STEEL, frequency_hz=1e6)
    surface = complex(1, 1) * STEEL.resistivity_ohm_m / depth
    expected = surface / (np.pi * 1e-3 * diameter)
    np.testing.assert_allclose(found, expected, rtol=1e-3, atol=0)


def test_the_loss_factor_is_highest_near_two_and_a_half_depths_of_radius() -> None:
    depth = skin_depth_mm(COPPER, frequency_hz=20e3)
    radii = np.linspace(0.1, 10, 200)
    found = [
        transverse_loss_factor(wire(2 * r * depth), frequency_hz=20e3) for r in radii
    ]
    assert 0.37 < max(found) < 0.38
    # Through a thick wire: Im of 1 - 2 I1/(u I0) with I1/I0 = 1 gives delta/a.
    np.testing.assert_allclose(found[-1], 1 / radii[-1], rtol=0.12, atol=0)


@pytest.mark.parametrize("frequency", [0.0, -1.0, 1.1e6, float("nan")])
def test_frequencies_outside_of_what_was_checked(frequency: float) -> None:
    with pytest.raises(ParameterError, match="above 0 and up to 1e6 Hz"):
        internal_impedance_ohm_per_m(wire(1.0), frequency_hz=frequency)


def test_a_magnetic_wire_across_a_field_is_refused() -> None:
    with pytest.raises(ParameterError, match="relative_permeability"):
        transverse_loss_factor(
            RoundWire(diameter_mm=1.0, core=STEEL), frequency_hz=20e3
        )


def test_wires_that_cannot_be() -> None:
    with pytest.raises(ParameterError, match="leave a core"):
        wire(0.1, WireLayer(metal=COPPER, thickness_um=50.0))
    with pytest.raises(ParameterError, match="diameter_mm"):
        wire(0.0)
    with pytest.raises(ParameterError, match="thickness_um"):
        WireLayer(metal=COPPER, thickness_um=0.0)
    with pytest.raises(ParameterError, match="relative_permeability"):
        ConductingMetal(name="x", resistivity_ohm_m=1e-8, relative_permeability=0.5)
    with pytest.raises(ParameterError, match="resistivity_ohm_m"):
        ConductingMetal(name="x", resistivity_ohm_m=0.0)
