"""Loss of strands in each other's field, recomputed.

Sources and status:
- exact loss of two, three, seven and 19 strands in multipoles about each axis: own
  derivation, other than the package's sum in that all eddy currents act on each other;
- Terman's k for three strands of a litz wire, 1.55: from memory; for seven strands in a
  hexagon the closed form below, computed.
"""

from itertools import permutations
from math import comb

import numpy as np
import numpy.typing as npt
import pytest
from scipy.special import ive

from strandproof.electrical import dc_resistance_ohm_per_m, skin_depth_mm
from strandproof.electrical.bundles import proximity_ohm_per_m, strand_places
from strandproof.electrical.internal_impedance import MAGNETIC_CONSTANT
from strandproof.records.electrical import ConductingMetal, RoundWire, StrandBundle

Floats = npt.NDArray[np.float64]

COPPER = ConductingMetal(name="copper", resistivity_ohm_m=1e-6 / 58)


def solid(diameter_mm: float) -> RoundWire:
    return RoundWire(diameter_mm=diameter_mm, core=COPPER)


@pytest.mark.parametrize(
    ("strands", "expected", "tolerance"),
    [
        (2, 1.0, 1e-9),
        (3, 1.55, 0.005),
        (7, 2 * (6 / 49) * 3.5**2 * 2 * 1.5**2 / 7, 1e-9),
    ],
)
def test_terman_factor_of_few_strands(
    strands: int, expected: float, tolerance: float
) -> None:
    """R/R0 = H + k (n d/D)^2 G with G = x^4/64 at low frequency.

    For seven: none at the middle strand, 1 + 2.5 line currents at each outer one.
    """
    wire, frequency = solid(0.05), 1e3
    bundle = StrandBundle(wire=wire, strands=strands)
    dc = dc_resistance_ohm_per_m(wire) / strands
    added = proximity_ohm_per_m(bundle, frequency_hz=frequency) / dc
    x = 0.05 / np.sqrt(2) / skin_depth_mm(COPPER, frequency_hz=frequency)
    outer = {2: 2.0, 3: 1 + 2 / np.sqrt(3), 7: 3.0}[strands]
    found = added / ((strands / outer) ** 2 * x**4 / 64)
    np.testing.assert_allclose(found, expected, rtol=1e-5, atol=tolerance)


@pytest.mark.parametrize("strands", [2, 3, 7, 19])
@pytest.mark.parametrize(
    ("depths", "least", "most"),
    [(0.2, 0.95, 1.001), (1.0, 0.95, 1.02), (1.7, 0.97, 1.09), (2.4, 1.02, 1.29)],
)
def test_bundle_against_multipoles(
    strands: int, depths: float, least: float, most: float
) -> None:
    """How far the simple sum may be off is what its documentation says."""
    frequency = 20e3
    diameter = depths * skin_depth_mm(COPPER, frequency_hz=frequency)
    bundle = StrandBundle(wire=solid(diameter), strands=strands)
    simple = proximity_ohm_per_m(bundle, frequency_hz=frequency)
    exact = by_multipoles(bundle, frequency, orders=4)
    assert least <= simple / exact <= most
    # Dipoles of strands that are thin change nothing else: the sum itself is right.
    if depths == 0.2:
        alone = by_multipoles(bundle, frequency, orders=1)
        np.testing.assert_allclose(simple, alone, rtol=1e-3, atol=0)


def by_multipoles(bundle: StrandBundle, frequency: float, *, orders: int) -> float:
    """Loss of equal line currents in strands with all their eddy currents.

    Lengths in strand radii about each axis, A in units of mu0 i/(2 pi). A field
    Re(h w^n) raises Re(k conj(h) w^-n) with k = -I(n+1)/I(n-1), and costs
    (pi w/mu0) n |h|^2 Im(I(n+1)/I(n-1)) per length.
    """
    n = np.arange(1, orders + 1)
    radius_mm = bundle.wire.diameter_mm / 2
    u = complex(1, 1) * radius_mm / skin_depth_mm(COPPER, frequency_hz=frequency)
    answer = -ive(n + 1, np.complex128(u)) / ive(n - 1, np.complex128(u))
    both = np.tile(np.concatenate([answer, answer]), bundle.strands)
    passed, incident = _translations(bundle.strands, orders)
    field = np.linalg.solve(
        np.eye(len(incident)) - passed * both, incident.astype(np.complex128)
    )
    order = np.tile(np.concatenate([n, n]), bundle.strands)
    loss = np.sum(order * -both.imag * np.abs(field) ** 2)
    loss *= np.pi * 2 * np.pi * frequency * MAGNETIC_CONSTANT / (2 * np.pi) ** 2
    return float(2 * loss / bundle.strands**2)


def _translations(strands: int, orders: int) -> tuple[Floats, Floats]:
    """What one strand's multipoles are about another's axis, two parts apart."""
    places = 2 * (strand_places(strands) @ np.array([1, 1j]))
    n = np.arange(1, orders + 1)
    passed = np.zeros((strands, 2, orders, strands, 2, orders))
    incident = np.zeros((strands, 2, orders))
    for j, k in permutations(range(strands), 2):
        d = places[j] - places[k]
        current = (-1.0) ** n / (n * d**n)
        incident[j] += np.stack([current.real, current.imag])
        for column, m in enumerate(n):
            binomial = np.array([comb(int(m + p - 1), int(p)) for p in n])
            spread = (-1.0) ** n * binomial * d ** (-m - n)
            for part, unit in enumerate((1, -1j)):
                moved = spread * unit
                passed[j, :, :, k, part, column] = moved.real, moved.imag
    size = strands * 2 * orders
    return passed.reshape(size, size), incident.reshape(size)
