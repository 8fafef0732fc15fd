"""Skin effect against published points.

Sources and status:
- skin depth of copper at 1.7e-8 ohm m, 60 Hz 8.5 mm, 1 kHz 2.1 mm, 20 kHz 0.46 mm:
  read, public tables as the project's list of check values, section 2.5, has them;
- rise of 10.05 % at x = 2.14: Neher and McGrath, 1957, Table III, read (secondary);
- ratio 3.35 to 3.36 of a solid wire of gauge 10 at 100 kHz: Terman's table, read
  (secondary).
Tolerance: half a unit of the last printed digit. Numbers only, no text is copied.
"""

import numpy as np
import pytest

from strandproof.electrical import (
    conductor_at,
    gauge_diameter_mm,
    skin_depth_mm,
)
from strandproof.records.electrical import ConductingMetal, RoundWire, StrandBundle

STANDARD = ConductingMetal(name="copper", resistivity_ohm_m=1e-6 / 58)


def ratio(diameter_mm: float, frequency_hz: float) -> float:
    wire = RoundWire(diameter_mm=diameter_mm, core=STANDARD)
    return conductor_at(StrandBundle(wire=wire), frequency_hz=frequency_hz).ratio


@pytest.mark.parametrize(
    ("frequency", "depth"), [(60.0, "8.5"), (1e3, "2.1"), (20e3, "0.46")]
)
def test_skin_depth_of_copper(frequency: float, depth: str) -> None:
    metal = ConductingMetal(name="copper", resistivity_ohm_m=1.7e-8)
    decimals = len(depth.partition(".")[2])
    np.testing.assert_allclose(
        skin_depth_mm(metal, frequency_hz=frequency),
        float(depth),
        rtol=0,
        atol=0.5 * 10.0**-decimals,
    )


def test_neher_and_mcgrath() -> None:
    # x = sqrt(2) r/delta; the diameter that has x = 2.14 at 60 Hz.
    depth = skin_depth_mm(STANDARD, frequency_hz=60.0)
    found = ratio(2 * 2.14 * depth / np.sqrt(2), 60.0)
    np.testing.assert_allclose(100 * (found - 1), 10.05, rtol=0, atol=0.005)


def test_terman_gauge_10_at_100_khz() -> None:
    # The solid wire rounds either way between two printed values.
    found = ratio(gauge_diameter_mm(10), 100e3)
    assert 3.345 <= found <= 3.365
