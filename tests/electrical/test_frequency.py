"""A conductor over frequency: table, uncertainty, strands in contact, lay."""

from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from strandproof.electrical import (
    conductor_at,
    frequency_response,
    lay_factor,
    usual_frequencies_hz,
)
from strandproof.errors import ParameterError
from strandproof.quantity import normal_input
from strandproof.records.electrical import (
    ConductingMetal,
    RoundWire,
    StrandBundle,
    WireLayer,
)

COPPER = ConductingMetal(name="copper", resistivity_ohm_m=1e-6 / 58)
CORE = StrandBundle(wire=RoundWire(diameter_mm=0.08, core=COPPER), strands=19)


def test_the_table_runs_from_20_hz_to_1_mhz() -> None:
    found = usual_frequencies_hz()
    assert (found[0], found[-1]) == (20.0, 1e6)
    assert list(found) == sorted(set(found))
    points = frequency_response(CORE).points
    ratios = [point.ratio for point in points]
    assert tuple(point.frequency_hz for point in points) == found
    assert np.all(np.diff(ratios) > 0)
    assert min(ratios) > 1


def test_one_strand_has_no_neighbours() -> None:
    one = conductor_at(replace(CORE, strands=1), frequency_hz=1e5)
    assert one.proximity_share == 0
    assert one.internal_inductance_nh_per_m is not None
    np.testing.assert_allclose(one.internal_inductance_nh_per_m, 50, rtol=1e-3, atol=0)
    assert conductor_at(CORE, frequency_hz=1e5).internal_inductance_nh_per_m is None


def test_strands_in_contact_are_one_wire_of_the_bundle() -> None:
    touching = replace(CORE, contact="touching")
    thinned = replace(COPPER, resistivity_ohm_m=COPPER.resistivity_ohm_m * 25 / 19)
    wire = StrandBundle(wire=RoundWire(diameter_mm=0.4, core=thinned))
    found, expected = (conductor_at(b, frequency_hz=1e6) for b in (touching, wire))
    np.testing.assert_allclose(found.ratio, expected.ratio, rtol=1e-12, atol=0)
    np.testing.assert_allclose(
        found.resistance_ohm_per_m, expected.resistance_ohm_per_m, rtol=1e-12, atol=0
    )


def test_a_wider_bundle_has_less_field_in_it() -> None:
    """The field goes with 1 over the diameter of the strands' axes."""
    tight = conductor_at(CORE, frequency_hz=20e3).proximity_share
    wide = conductor_at(replace(CORE, diameter_mm=0.72), frequency_hz=20e3)
    np.testing.assert_allclose(
        wide.proximity_share, tight * (0.32 / 0.64) ** 2, rtol=1e-9, atol=0
    )


def test_lay_lengthens_every_strand_and_changes_no_ratio() -> None:
    laid = frequency_response(replace(CORE, lay_length_mm=5.0))
    straight = frequency_response(CORE)
    factor = lay_factor(
        normal_input("lay length", 5.0, 0.0, unit="mm"),
        normal_input("helix diameter", 0.32, 0.0, unit="mm"),
    ).value
    assert laid.lay_factor == factor > 1
    np.testing.assert_allclose(
        laid.dc_resistance_ohm_per_m,
        factor * straight.dc_resistance_ohm_per_m,
        rtol=1e-12,
        atol=0,
    )
    assert laid.audio.ratio == straight.audio.ratio


def test_uncertainty_of_a_thin_wire_goes_with_the_fourth_power() -> None:
    """Rise is x^4/192: four times the diameter's, twice the resistivity's relative."""
    wire = StrandBundle(wire=RoundWire(diameter_mm=0.2, core=COPPER))
    found = frequency_response(
        wire, diameter_uncertainty_mm=0.002, resistivity_uncertainty_percent=0.5
    ).audio_ratio
    rise = found.value - 1
    by_name = {line.name: line.component / rise for line in found.budget}
    np.testing.assert_allclose(by_name["strand diameter"], 0.04, rtol=0.01, atol=0)
    np.testing.assert_allclose(
        by_name["resistivity of the core"], 0.01, rtol=0.01, atol=0
    )
    np.testing.assert_allclose(
        found.standard_uncertainty / rise, np.hypot(0.04, 0.01), rtol=0.01, atol=0
    )


@pytest.mark.parametrize(
    ("changes", "match"),
    [
        ({"strands": 0}, "from 1 to 5000"),
        ({"diameter_mm": -1.0}, "diameter_mm"),
        ({"lay_length_mm": 0.0}, "lay_length_mm"),
    ],
)
def test_bundles_that_cannot_be(changes: dict[str, Any], match: str) -> None:
    with pytest.raises(ParameterError, match=match):
        replace(CORE, **changes)


def test_strands_that_do_not_fit() -> None:
    with pytest.raises(ParameterError, match="19 strands of 0.08 mm fit into"):
        frequency_response(replace(CORE, diameter_mm=0.3))


def test_plated_strands_in_contact_are_refused() -> None:
    layer = WireLayer(metal=COPPER, thickness_um=1.0)
    plated = replace(CORE.wire, layers=(layer,))
    with pytest.raises(ParameterError, match="one solid wire"):
        replace(CORE, wire=plated, contact="touching")


def test_magnetic_layers_in_a_bundle_are_refused() -> None:
    nickel = ConductingMetal(
        name="nickel", resistivity_ohm_m=7e-8, relative_permeability=100.0
    )
    plated = replace(CORE.wire, layers=(WireLayer(metal=nickel, thickness_um=1.0),))
    with pytest.raises(ParameterError, match="one magnetic strand alone"):
        frequency_response(replace(CORE, wire=plated))


def test_nonsense_uncertainties_and_no_frequency() -> None:
    with pytest.raises(ParameterError, match="diameter_uncertainty_mm"):
        frequency_response(CORE, diameter_uncertainty_mm=-0.1)
    with pytest.raises(ParameterError, match="frequencies_hz"):
        frequency_response(CORE, frequencies_hz=())
