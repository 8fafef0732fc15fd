"""Internal impedance recomputed: other functions, other methods, remembered rows.

Sources and status:
- rows of x, diameter and frequency: the project's check values, section 2.5, and copper
  facts, section 7; computed there with mpmath, tolerance half a printed digit (or the
  rounding that the row shows);
- mpmath's J0, J1, I, K of any precision: an outside library, compared to 1e-12;
- a finite-volume solution of the diffusion equation by scipy's solver of banded
  equations: no Bessel function in it, compared to its own step error.
"""

from itertools import pairwise
from typing import Any

import mpmath
import numpy as np
import numpy.typing as npt
import pytest
from scipy.linalg import solve_banded

from strandproof.electrical import (
    conductor_at,
    dc_resistance_ohm_per_m,
    internal_impedance_ohm_per_m,
    skin_depth_mm,
)
from strandproof.electrical.internal_impedance import (
    MAGNETIC_CONSTANT,
    transverse_loss_factor,
)
from strandproof.records.electrical import (
    ConductingMetal,
    RoundWire,
    StrandBundle,
    WireLayer,
)

COPPER = ConductingMetal(name="copper", resistivity_ohm_m=1e-6 / 58)
Floats = npt.NDArray[np.float64]

TIN = ConductingMetal(name="tin", resistivity_ohm_m=115e-9)
NICKEL = ConductingMetal(
    name="nickel", resistivity_ohm_m=70e-9, relative_permeability=100.0
)


def solid(diameter_mm: float, metal: ConductingMetal = COPPER) -> RoundWire:
    return RoundWire(diameter_mm=diameter_mm, core=metal)


def layered(
    diameter_mm: float, metal: ConductingMetal, thickness_um: float
) -> RoundWire:
    layer = WireLayer(metal=metal, thickness_um=thickness_um)
    return RoundWire(diameter_mm=diameter_mm, core=COPPER, layers=(layer,))


def ratio(wire: RoundWire, frequency_hz: float) -> float:
    return conductor_at(StrandBundle(wire=wire), frequency_hz=frequency_hz).ratio


@pytest.mark.parametrize(
    ("x", "resistance", "inductance"),
    [
        (0.5, "1.000325436", "0.999837"),
        (1.0, "1.005186731", "0.997408"),
        (1.5, "1.025823670", "0.987111"),
        (2.0, "1.078158746", "0.961135"),
        (2.14, "1.100527510", "0.950097"),
        (3.0, "1.318094818", "0.845167"),
        (4.0, "1.677868863", "0.686323"),
        (5.0, "2.042725062", "0.555968"),
        (10.0, "3.798576052", "0.281619"),
        (20.0, "7.327672351", "0.141279"),
        (50.0, "17.93031972", "0.056560"),
        (100.0, "35.60666471", "0.028283"),
    ],
)
def test_rows_by_x(x: float, resistance: str, inductance: str) -> None:
    frequency = 20e3
    depth = skin_depth_mm(COPPER, frequency_hz=frequency)
    wire = solid(2 * x * depth / np.sqrt(2))
    impedance = internal_impedance_ohm_per_m(wire, frequency_hz=frequency)
    relative = impedance / dc_resistance_ohm_per_m(wire)
    # A flat current gives mu0/(8 pi) per length.
    flat = 2 * np.pi * frequency * MAGNETIC_CONSTANT / (8 * np.pi)
    printed(relative.real, resistance)
    printed(impedance.imag / flat, inductance)


@pytest.mark.parametrize(
    ("frequency", "depth", "surface_ohm"),
    [
        (50.0, "9.3459", 1.845e-6),
        (60.0, "8.5316", 2.021e-6),
        (1e3, "2.08981", 8.250e-6),
        (20e3, "0.467295", 3.690e-5),
        (1e6, "0.0660855", 2.609e-4),
    ],
)
def test_skin_depth_and_surface_resistance(
    frequency: float, depth: str, surface_ohm: float
) -> None:
    found = skin_depth_mm(COPPER, frequency_hz=frequency)
    printed(found, depth)
    sheet = COPPER.resistivity_ohm_m / (1e-3 * found)
    np.testing.assert_allclose(sheet, surface_ohm, rtol=3e-4, atol=0)


def test_skin_depth_of_silver_and_at_10_khz() -> None:
    silver = ConductingMetal(name="silver", resistivity_ohm_m=15.87e-9)
    printed(skin_depth_mm(silver, frequency_hz=20e3), "0.448")
    printed(skin_depth_mm(COPPER, frequency_hz=10e3), "0.661")
    printed(skin_depth_mm(COPPER, frequency_hz=100e3), "0.209")


@pytest.mark.parametrize(
    ("diameter", "row"),
    [
        (0.1, ("1.000000", "1.000001", "1.000003", "1.00007")),
        (0.2, ("1.000000", "1.00001", "1.00004", "1.0011")),
        (0.3, ("1.000001", "1.00006", "1.0002", "1.0055")),
        (0.5, ("1.000004", "1.0004", "1.0017", "1.041")),
        (0.8, ("1.00003", "1.0028", "1.011", "1.23")),
        (1.0, ("1.00007", "1.0068", "1.027", "1.45")),
        (2.0, ("1.0011", "1.10", "1.33", "2.66")),
        (2.6, ("1.003", "1.25", "1.65", None)),
    ],
)
def test_rows_of_the_copper_facts(diameter: float, row: tuple[str | None, ...]) -> None:
    for frequency, text in zip((1e3, 10e3, 20e3, 100e3), row, strict=True):
        if text is not None:
            printed(ratio(solid(diameter), frequency), text)


@pytest.mark.parametrize(
    ("diameter", "frequency", "text"),
    [
        (0.5, 20e3, "1.001704"),
        (1.0, 20e3, "1.026725"),
        # Listed as 1.024 mm; the number is that of gauge 18 rounded to 1.0236 mm.
        (1.0236, 20e3, "1.029277"),
        (2.0, 20e3, "1.326665"),
        (2.0, 1e3, "1.001091"),
    ],
)
def test_solid_wires_at_20_khz(diameter: float, frequency: float, text: str) -> None:
    printed(ratio(solid(diameter), frequency), text)


@pytest.mark.parametrize("frequency", [20.0, 20e3, 1e6])
@pytest.mark.parametrize("diameter", [0.02, 0.5, 5.0, 100.0])
def test_solid_wire_against_mpmath(diameter: float, frequency: float) -> None:
    with mpmath.workdps(40):
        a = mpmath.mpf(diameter) / 2000
        g = mpmath.sqrt(2j * mpmath.pi * frequency * MAGNETIC_CONSTANT * 58e6)
        # The form with J: z = x exp(-j pi/4) = -j g a.
        z = -1j * g * a
        expected = complex(z * mpmath.besselj(0, z) / (2 * mpmath.besselj(1, z)))
    wire = solid(diameter)
    found = internal_impedance_ohm_per_m(wire, frequency_hz=frequency)
    found /= dc_resistance_ohm_per_m(wire)
    np.testing.assert_allclose(found.real, expected.real, rtol=1e-12, atol=0)
    np.testing.assert_allclose(found.imag, expected.imag, rtol=1e-9, atol=0)


@pytest.mark.parametrize("frequency", [20.0, 20e3, 1e6])
@pytest.mark.parametrize(
    ("diameter", "metal", "thickness"),
    [
        (0.12, TIN, 1.9),
        (0.5, NICKEL, 3.0),
        (2.0, NICKEL, 50.0),
        (50.0, NICKEL, 5000.0),
    ],
)
def test_layered_wire_against_mpmath(
    diameter: float, metal: ConductingMetal, thickness: float, frequency: float
) -> None:
    wire = layered(diameter, metal, thickness)
    found = internal_impedance_ohm_per_m(wire, frequency_hz=frequency)
    expected = by_mpmath(wire, frequency)
    np.testing.assert_allclose(found.real, expected.real, rtol=1e-11, atol=0)
    np.testing.assert_allclose(found.imag, expected.imag, rtol=1e-8, atol=0)


@pytest.mark.parametrize("frequency", [20e3, 300e3])
@pytest.mark.parametrize(
    "wire",
    [solid(1.0), layered(0.5, NICKEL, 10.0), layered(0.8, TIN, 100.0)],
    ids=["solid", "nickel", "tin"],
)
def test_layered_wire_against_finite_volumes(wire: RoundWire, frequency: float) -> None:
    found = internal_impedance_ohm_per_m(wire, frequency_hz=frequency)
    coarse, fine = (by_volumes(wire, frequency, cells=n) for n in (400, 800))
    # The scheme's error falls with the square of the step.
    best = fine + (fine - coarse) / 3
    np.testing.assert_allclose(found.real, best.real, rtol=2e-4, atol=0)
    np.testing.assert_allclose(found.imag, best.imag, rtol=2e-4, atol=0)


@pytest.mark.parametrize("diameter", [0.02, 0.5, 2.0])
def test_loss_across_against_volumes(diameter: float) -> None:
    found = transverse_loss_factor(solid(diameter), frequency_hz=20e3)
    coarse, fine = (loss_by_differences(diameter, 20e3, cells=n) for n in (400, 800))
    np.testing.assert_allclose(found, fine + (fine - coarse) / 3, rtol=2e-4, atol=0)


def test_loss_across_at_low_frequency_is_the_eddy_formula() -> None:
    """P = pi w^2 B^2 d^4/(128 rho), from memory, against pi w mu0 a^2 H^2 Im(I2/I0)."""
    diameter, angular = 1e-4, 2 * np.pi * 1e3
    factor = transverse_loss_factor(solid(1e3 * diameter), frequency_hz=1e3)
    found = np.pi * angular * MAGNETIC_CONSTANT * diameter**2 / 4 * factor
    flux = MAGNETIC_CONSTANT  # for H = 1 A/m
    expected = np.pi * angular**2 * flux**2 * diameter**4
    expected /= 128 * COPPER.resistivity_ohm_m
    np.testing.assert_allclose(found, expected, rtol=1e-6, atol=0)


def printed(found: float, text: str) -> None:
    decimals = len(text.partition(".")[2])
    np.testing.assert_allclose(found, float(text), rtol=0, atol=0.5 * 10.0**-decimals)


def by_mpmath(wire: RoundWire, frequency: float) -> complex:
    """Solve the boundary problem of core and layer as three linear equations.

    Columns are the core's I0, the layer's I0 and K0, each scaled to about 1.
    """
    i, k, exp = mpmath.besseli, mpmath.besselk, mpmath.exp
    with mpmath.workdps(40):
        a, b = mpmath.mpf(wire.core_radius_m), mpmath.mpf(wire.radius_m)
        (g, s), (h, t) = (
            _wave(metal, frequency) for metal in (wire.core, wire.layers[0].metal)
        )
        inside, rise, fall = exp(-g * a), exp(-h * b), exp(h * a)
        rows = mpmath.matrix(
            [
                [i(0, g * a) * inside, -i(0, h * a) * rise, -k(0, h * a) * fall],
                [
                    s * i(1, g * a) * inside,
                    -t * i(1, h * a) * rise,
                    t * k(1, h * a) * fall,
                ],
                [0, t * i(1, h * b) * rise, -t * k(1, h * b) * fall],
            ]
        )
        # H at the surface is that of 1 A.
        _, rising, falling = mpmath.lu_solve(
            rows, mpmath.matrix([0, 0, 1 / (2 * mpmath.pi * b)])
        )
        return complex(rising * i(0, h * b) * rise + falling * k(0, h * b) * fall)


def _wave(metal: ConductingMetal, frequency: float) -> tuple[Any, Any]:
    """Propagation constant, and H over E of a wave that runs in it."""
    rho = mpmath.mpf(metal.resistivity_ohm_m)
    mu = MAGNETIC_CONSTANT * metal.relative_permeability
    g = mpmath.sqrt(2j * mpmath.pi * frequency * mu / rho)
    return g, 1 / (rho * g)


def by_volumes(wire: RoundWire, frequency: float, *, cells: int) -> complex:
    """(1/r)(r E'/mu)' = j w E/rho on rings that keep to the borders of the metals."""
    edge, conductance, permeability = _rings(wire, cells)
    middle, half = (edge[1:] + edge[:-1]) / 2, np.diff(edge) / 2
    # Flux through a face: r over the two half steps, each in its own metal.
    path = half[:-1] * permeability[:-1] + half[1:] * permeability[1:]
    through = edge[1:-1] / path
    area = middle * 2 * half
    diagonal = -2j * np.pi * frequency * conductance * area
    diagonal[:-1] -= through
    diagonal[1:] -= through
    # r H at the surface for 1 A; H = E'/(j w mu).
    surface_h = 1 / (2 * np.pi * edge[-1])
    slope = 2j * np.pi * frequency * surface_h
    source = np.zeros(len(middle), dtype=complex)
    source[-1] = -edge[-1] * slope
    field = _solved(through, diagonal, through, source)
    # Taylor to the surface: E' and, by the equation, E''.
    h, top = half[-1], field[-1]
    derivative = slope * permeability[-1]
    second = 2j * np.pi * frequency * permeability[-1] * conductance[-1] * top
    second -= derivative / edge[-1]
    return complex(top + h * derivative - h**2 * second / 2)


def _rings(wire: RoundWire, cells: int) -> tuple[Floats, Floats, Floats]:
    """Edges of rings, conductivity and permeability in each."""
    borders = [0.0, wire.core_radius_m]
    metals = [wire.core]
    for layer in wire.layers:
        borders.append(borders[-1] + 1e-6 * layer.thickness_um)
        metals.append(layer.metal)
    edges = [np.zeros(1)]
    edges += [np.linspace(*ends, cells + 1)[1:] for ends in pairwise(borders)]
    sigma = np.repeat([1 / metal.resistivity_ohm_m for metal in metals], cells)
    relative = np.repeat([metal.relative_permeability for metal in metals], cells)
    return np.concatenate(edges), sigma, MAGNETIC_CONSTANT * relative


def loss_by_differences(diameter_mm: float, frequency: float, *, cells: int) -> float:
    """A'' + A'/r - A/r^2 = j w mu0 A/rho for A sin(theta); outside r + beta/r."""
    radius = 0.5e-3 * diameter_mm
    r, step = np.linspace(0, radius, cells + 1, retstep=True)
    k = 2j * np.pi * frequency * MAGNETIC_CONSTANT / COPPER.resistivity_ohm_m
    inner = r[1:]
    diagonal = -2 / step**2 - 1 / inner**2 - k
    lower = 1 / step**2 - 1 / (2 * step * inner)
    upper = 1 / step**2 + 1 / (2 * step * inner)
    # At the surface A' = 2 - A/a follows from both conditions; a ghost point has it.
    diagonal = diagonal.astype(complex)
    lower, upper = lower.astype(complex), upper.astype(complex)
    diagonal[-1] -= upper[-1] * 2 * step / radius
    lower[-1] += upper[-1]
    source = np.zeros(cells, dtype=complex)
    source[-1] = -upper[-1] * 4 * step
    found = _solved(lower[1:], diagonal, upper[:-1], source)
    beta = radius * (found[-1] - radius)
    return float(-beta.imag / radius**2)


def _solved(
    below: npt.NDArray[Any],
    diagonal: npt.NDArray[Any],
    above: npt.NDArray[Any],
    source: npt.NDArray[Any],
) -> npt.NDArray[np.complex128]:
    bands = np.zeros((3, len(source)), dtype=np.complex128)
    bands[0, 1:], bands[1], bands[2, :-1] = above, diagonal, below
    return np.asarray(solve_banded((1, 1), bands, source), dtype=np.complex128)
