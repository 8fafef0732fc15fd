"""Exact internal impedance of a round wire, bare or with layers, at one frequency.

Good conductors, no displacement current, constant permeability, the return current
far away or coaxial; SI units throughout. Time goes as exp(+j w t).
"""

from cmath import exp as complex_exp
from math import isfinite, pi, sqrt

import numpy as np
from scipy.special import ive, kve

from strandproof.errors import ParameterError
from strandproof.records.electrical import ConductingMetal, RoundWire

MAGNETIC_CONSTANT = 4e-7 * pi
"""Permeability of free space [H/m]; the value of 2019 differs in the tenth digit."""

HIGHEST_HZ = 1e6
"""Highest frequency that this part was checked at [Hz]."""


def require_frequency(frequency_hz: float) -> None:
    """Refuse a frequency outside of the range that was checked.

    Parameters
    ----------
    frequency_hz : float
        Frequency [Hz].

    Raises
    ------
    ParameterError
        Unless it is above zero and at most 1 MHz.
    """
    if not (isfinite(frequency_hz) and 0 < frequency_hz <= HIGHEST_HZ):
        raise ParameterError(
            "frequency_hz", frequency_hz, allowed="above 0 and up to 1e6 Hz"
        )


def skin_depth_mm(metal: ConductingMetal, *, frequency_hz: float) -> float:
    """Depth at which the current density under a flat surface falls to 37 %.

    It is no edge of conduction: in a wire thinner than this the current hardly
    changes at all, in a thicker one it decays smoothly.

    Parameters
    ----------
    metal : ConductingMetal
        The metal.
    frequency_hz : float
        Frequency [Hz]; above 0, up to 1 MHz.

    Returns
    -------
    float
        Skin depth [mm].

    Raises
    ------
    ParameterError
        If the frequency is out of range.

    Notes
    -----
    delta = sqrt(rho/(pi f mu)).

    Examples
    --------
    >>> copper = ConductingMetal(name="copper", resistivity_ohm_m=1e-6 / 58)
    >>> round(skin_depth_mm(copper, frequency_hz=20e3), 4)
    0.4673
    """
    require_frequency(frequency_hz)
    permeability = MAGNETIC_CONSTANT * metal.relative_permeability
    return 1e3 * sqrt(metal.resistivity_ohm_m / (pi * frequency_hz * permeability))


def dc_resistance_ohm_per_m(wire: RoundWire) -> float:
    """Resistance of a wire at direct current: core and layers in parallel.

    Parameters
    ----------
    wire : RoundWire
        The wire.

    Returns
    -------
    float
        Resistance per length [ohm/m].

    Examples
    --------
    >>> copper = ConductingMetal(name="copper", resistivity_ohm_m=1e-6 / 58)
    >>> one = RoundWire(diameter_mm=0.08, core=copper)
    >>> round(dc_resistance_ohm_per_m(one), 3)
    3.43
    """
    inner = wire.core_radius_m
    conductance = pi * inner**2 / wire.core.resistivity_ohm_m
    for layer in wire.layers:
        outer = inner + 1e-6 * layer.thickness_um
        area = pi * (outer - inner) * (outer + inner)
        conductance += area / layer.metal.resistivity_ohm_m
        inner = outer
    return 1.0 / conductance


def internal_impedance_ohm_per_m(wire: RoundWire, *, frequency_hz: float) -> complex:
    """Give the internal impedance of a round wire with any number of layers.

    The real part is the resistance, the imaginary part the reactance of the field
    inside of the metal. Exponentials are taken out of all Bessel functions, so that
    nothing overflows however thick the wire is against its skin depth.

    Parameters
    ----------
    wire : RoundWire
        The wire.
    frequency_hz : float
        Frequency [Hz]; above 0, up to 1 MHz.

    Returns
    -------
    complex
        Impedance per length [ohm/m].

    Raises
    ------
    ParameterError
        If the frequency is out of range.

    Notes
    -----
    In each metal E = B I0(g r) + C K0(g r) with g = (1 + j)/delta, and
    H = (B I1(g r) - C K1(g r))/(rho g). E and H, both tangential, are continuous at
    every border. What is carried outwards is H/E: (I1/I0)/(rho g) at the core's
    surface, then, by the Wronskian I0 K1 + I1 K0 = 1/u, through each layer. At the
    outer radius Z = E/(2 pi b H). For a bare wire this is Z/R0 = (u/2) I0(u)/I1(u)
    with u = g a, the same as z J0(z)/(2 J1(z)).

    References
    ----------
    S. A. Schelkunoff, 1934, Bell System Technical Journal 13, 532-579 (surface
    impedances of cylindrical conductors; from memory).
    """
    require_frequency(frequency_hz)
    radius = wire.core_radius_m
    admittance = _core_admittance(wire.core, radius, frequency_hz)
    for layer in wire.layers:
        outer = radius + 1e-6 * layer.thickness_um
        admittance = _carried(admittance, layer.metal, (radius, outer), frequency_hz)
        radius = outer
    return 1.0 / (2.0 * pi * radius * admittance)


def transverse_loss_factor(wire: RoundWire, *, frequency_hz: float) -> float:
    """Loss of a bare round wire in an alternating field across it, dimensionless.

    The field is uniform over the wire. The loss per length follows from it as in
    Notes; well below the skin effect's onset it goes with frequency squared.

    Parameters
    ----------
    wire : RoundWire
        The wire; its layers are left out and all of it taken as the core's metal.
    frequency_hz : float
        Frequency [Hz]; above 0, up to 1 MHz.

    Returns
    -------
    float
        Im(I2(u)/I0(u)) with u = (1 + j) a/delta, above 0 and below 0.38 [1].

    Raises
    ------
    ParameterError
        If the frequency is out of range, or the core's metal is magnetic.

    Notes
    -----
    A cylinder in a field of peak H has the dipole -2 pi a^2 H I2(u)/I0(u) and takes
    up P = pi w mu0 a^2 H^2 Im(I2/I0) per length. At low frequency this is the eddy
    loss pi w^2 B^2 d^4/(128 rho).

    References
    ----------
    J. A. Ferreira, 1994, IEEE Transactions on Power Electronics 9, 127-131 (the same
    loss in Kelvin functions; from memory).
    """
    require_frequency(frequency_hz)
    if wire.core.relative_permeability != 1.0:
        raise ParameterError(
            "relative_permeability",
            wire.core.relative_permeability,
            allowed="1 for strands in the field of their neighbours",
        )
    u = _propagation(wire.core, frequency_hz) * wire.radius_m
    return float((_rising(2, u) / _rising(0, u)).imag)


def _propagation(metal: ConductingMetal, frequency_hz: float) -> complex:
    return complex(1.0, 1.0) / (1e-3 * skin_depth_mm(metal, frequency_hz=frequency_hz))


def _core_admittance(
    metal: ConductingMetal, radius: float, frequency_hz: float
) -> complex:
    g = _propagation(metal, frequency_hz)
    u = g * radius
    return complex(_rising(1, u) / _rising(0, u) / (metal.resistivity_ohm_m * g))


def _carried(
    admittance: complex,
    metal: ConductingMetal,
    radii: tuple[float, float],
    frequency_hz: float,
) -> complex:
    """H/E at the outer radius of a layer from H/E at its inner one."""
    g = _propagation(metal, frequency_hz)
    wave = metal.resistivity_ohm_m * g
    u, v = g * radii[0], g * radii[1]
    q = wave * admittance
    rising = _falling(1, u) + q * _falling(0, u)
    # What falls outwards, over what rises: exp of -2 Re(v - u) and no more.
    falling = (_rising(1, u) - q * _rising(0, u)) * complex_exp(u.real + u - v - v.real)
    electric = rising * _rising(0, v) + falling * _falling(0, v)
    magnetic = rising * _rising(1, v) - falling * _falling(1, v)
    return complex(magnetic / electric / wave)


def _rising(order: int, argument: complex) -> complex:
    """I of an order, times exp of minus the argument's real part."""
    return complex(ive(order, np.complex128(argument)))


def _falling(order: int, argument: complex) -> complex:
    """K of an order, times exp of the argument."""
    return complex(kve(order, np.complex128(argument)))
