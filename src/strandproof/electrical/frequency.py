"""What a conductor does from 20 Hz to 1 MHz, and how much that is at 20 kHz."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from math import hypot, pi

import numpy as np

from strandproof.electrical.bundles import packed_diameter_mm, proximity_ohm_per_m
from strandproof.electrical.internal_impedance import (
    HIGHEST_HZ,
    dc_resistance_ohm_per_m,
    internal_impedance_ohm_per_m,
    skin_depth_mm,
)
from strandproof.electrical.lay import lay_factor
from strandproof.errors import ParameterError
from strandproof.quantity import BudgetLine, Quantity, normal_input
from strandproof.records.electrical import (
    FrequencyPoint,
    FrequencyResponse,
    RoundWire,
    StrandBundle,
)

AUDIO_HZ = 20e3
"""Upper end of the audio band, by custom [Hz]."""

_LOWEST_HZ = 20.0
_PER_DECADE = 5
_STEP = 1e-3  # relative step of the sensitivities

_ONE_WIRE = (
    "one round wire, exact; the return current is taken as far away, so the field of "
    "a neighbouring conductor is not in it"
)
_INSULATED = (
    "insulated strands that all change places, each with its own skin effect and the "
    "field of the others across it, uniform over a strand; the return conductor beside "
    "the bundle is not in it; the rise is right to 5 % of itself for strands up to one "
    "skin depth thick, and too high beyond (8 % at 1.7, 28 % at 2.4, 70 % at 3.4)"
)
_TOUCHING = (
    "bare strands in contact, taken as one solid wire of the bundle's diameter and the "
    "same resistance at direct current; oxide and loose contact lower the effect"
)


def usual_frequencies_hz() -> tuple[float, ...]:
    """Frequencies from 20 Hz to 1 MHz, five to a decade, 20 kHz among them.

    Returns
    -------
    tuple of float
        Frequencies [Hz], rising.

    Examples
    --------
    >>> found = usual_frequencies_hz()
    >>> found[0], found[-1], 20000.0 in found
    (20.0, 1000000.0, True)
    """
    steps = range(int(np.log10(HIGHEST_HZ / _LOWEST_HZ) * _PER_DECADE) + 1)
    found = [float(f"{_LOWEST_HZ * 10 ** (k / _PER_DECADE):.3g}") for k in steps]
    return (*found, HIGHEST_HZ)


def frequency_response(
    bundle: StrandBundle,
    *,
    frequencies_hz: Sequence[float] | None = None,
    diameter_uncertainty_mm: float = 0.0,
    resistivity_uncertainty_percent: float = 0.0,
) -> FrequencyResponse:
    """Resistance and internal inductance of a conductor against frequency.

    Parameters
    ----------
    bundle : StrandBundle
        One wire, or strands in parallel.
    frequencies_hz : sequence of float, optional
        Frequencies [Hz], each above 0 and up to 1 MHz; None takes
        `usual_frequencies_hz`.
    diameter_uncertainty_mm : float
        Standard uncertainty of the strand's diameter [mm]; 0 or more.
    resistivity_uncertainty_percent : float
        Standard uncertainty of the core's resistivity [%]; 0 or more.

    Returns
    -------
    FrequencyResponse
        Points in rising order and the ratio at 20 kHz with its uncertainty.

    Raises
    ------
    ParameterError
        If a number is out of range, or the strands do not fit into the bundle.

    Examples
    --------
    >>> from strandproof.records.electrical import ConductingMetal
    >>> copper = ConductingMetal(name="copper", resistivity_ohm_m=1e-6 / 58)
    >>> wire = RoundWire(diameter_mm=1.0, core=copper)
    >>> round(frequency_response(StrandBundle(wire=wire)).audio.ratio, 4)
    1.0267
    """
    _require_uncertainties(diameter_uncertainty_mm, resistivity_uncertainty_percent)
    wanted = usual_frequencies_hz() if frequencies_hz is None else frequencies_hz
    if not wanted:
        raise ParameterError("frequencies_hz", wanted, allowed="one or more")
    audio = conductor_at(bundle, frequency_hz=AUDIO_HZ)
    factor = bundle_lay_factor(bundle)
    return FrequencyResponse(
        bundle=bundle,
        model=_model(bundle),
        dc_resistance_ohm_per_m=_dc_ohm_per_m(bundle) * factor,
        bundle_diameter_mm=packed_diameter_mm(bundle),
        lay_factor=factor,
        points=tuple(
            conductor_at(bundle, frequency_hz=each) for each in sorted(wanted)
        ),
        audio=audio,
        audio_ratio=_audio_ratio(
            bundle,
            audio.ratio,
            diameter_uncertainty_mm,
            resistivity_uncertainty_percent,
        ),
    )


def conductor_at(bundle: StrandBundle, *, frequency_hz: float) -> FrequencyPoint:
    """Resistance and internal inductance of a conductor at one frequency.

    Parameters
    ----------
    bundle : StrandBundle
        One wire, or strands in parallel.
    frequency_hz : float
        Frequency [Hz]; above 0, up to 1 MHz.

    Returns
    -------
    FrequencyPoint
        Per metre of cable.

    Raises
    ------
    ParameterError
        If the frequency is out of range, or the strands do not fit.

    Notes
    -----
    One wire: Z of `internal_impedance_ohm_per_m`. Insulated strands: Re Z of a
    strand over n, plus `proximity_ohm_per_m`. Strands in contact: one wire of the
    bundle's diameter D with the resistivity rho D^2/(n d^2). All times the lay
    factor.
    """
    dc = _dc_ohm_per_m(bundle)
    own, inductance = _own(bundle, frequency_hz)
    added = 0.0
    if bundle.contact == "insulated":
        added = proximity_ohm_per_m(bundle, frequency_hz=frequency_hz)
    factor = bundle_lay_factor(bundle)
    return FrequencyPoint(
        frequency_hz=frequency_hz,
        resistance_ohm_per_m=factor * (own + added),
        ratio=(own + added) / dc,
        proximity_share=added / dc,
        internal_inductance_nh_per_m=inductance,
        skin_depth_mm=skin_depth_mm(bundle.wire.core, frequency_hz=frequency_hz),
    )


def bundle_lay_factor(bundle: StrandBundle) -> float:
    """Length of an outer strand over that of the cable, taken for all strands.

    Parameters
    ----------
    bundle : StrandBundle
        The bundle.

    Returns
    -------
    float
        1 where no lay length is given, or for one strand [1].

    Raises
    ------
    ParameterError
        If the strands do not fit into the bundle.
    """
    if bundle.lay_length_mm is None or bundle.strands == 1:
        return 1.0
    helix = packed_diameter_mm(bundle) - bundle.wire.diameter_mm
    return lay_factor(
        normal_input("lay length", bundle.lay_length_mm, 0.0, unit="mm"),
        normal_input("helix diameter", helix, 0.0, unit="mm"),
    ).value


def _own(bundle: StrandBundle, frequency_hz: float) -> tuple[float, float | None]:
    """Resistance [ohm/m] and internal inductance [nH/m] without the neighbours."""
    if bundle.strands == 1 or bundle.contact == "touching":
        wire = _as_one_wire(bundle)
        found = internal_impedance_ohm_per_m(wire, frequency_hz=frequency_hz)
        return found.real, 1e9 * found.imag / (2.0 * pi * frequency_hz)
    strand = internal_impedance_ohm_per_m(bundle.wire, frequency_hz=frequency_hz)
    return strand.real / bundle.strands, None


def _as_one_wire(bundle: StrandBundle) -> RoundWire:
    if bundle.strands == 1:
        return bundle.wire
    diameter = packed_diameter_mm(bundle)
    thinning = diameter**2 / (bundle.strands * bundle.wire.diameter_mm**2)
    core = bundle.wire.core
    metal = replace(core, resistivity_ohm_m=core.resistivity_ohm_m * thinning)
    return RoundWire(diameter_mm=diameter, core=metal)


def _dc_ohm_per_m(bundle: StrandBundle) -> float:
    return dc_resistance_ohm_per_m(bundle.wire) / bundle.strands


def _model(bundle: StrandBundle) -> str:
    if bundle.strands == 1:
        return _ONE_WIRE
    return _INSULATED if bundle.contact == "insulated" else _TOUCHING


def _audio_ratio(
    bundle: StrandBundle, ratio: float, diameter_u_mm: float, percent: float
) -> Quantity:
    """Give the ratio at 20 kHz its uncertainty, by differences (GUM 5.1.3, note 2)."""
    lines = (
        _budget_line(
            ("strand diameter", "mm", diameter_u_mm),
            bundle.wire.diameter_mm,
            lambda value: _with_diameter(bundle, value),
        ),
        _budget_line(
            (
                "resistivity of the core",
                "ohm m",
                0.01 * percent * bundle.wire.core.resistivity_ohm_m,
            ),
            bundle.wire.core.resistivity_ohm_m,
            lambda value: _with_resistivity(bundle, value),
        ),
    )
    budget = tuple(sorted(lines, key=lambda line: -line.component))
    return Quantity(
        ratio, "1", hypot(*(line.component for line in lines)), budget=budget
    )


def _budget_line(
    source: tuple[str, str, float],
    estimate: float,
    changed: Callable[[float], StrandBundle],
) -> BudgetLine:
    name, unit, u = source
    step = _STEP * estimate
    low, high = (
        conductor_at(changed(estimate + way * step), frequency_hz=AUDIO_HZ).ratio
        for way in (-1, 1)
    )
    slope = (high - low) / (2.0 * step)
    return BudgetLine(
        name=name,
        standard_uncertainty=u,
        unit=unit,
        sensitivity=slope,
        component=abs(slope) * u,
    )


def _with_diameter(bundle: StrandBundle, diameter_mm: float) -> StrandBundle:
    wire = replace(bundle.wire, diameter_mm=diameter_mm)
    # A bundle's diameter that was measured grows with its strands, so that strands
    # that fill it still fit.
    outer = bundle.diameter_mm
    scaled = None if outer is None else outer * diameter_mm / bundle.wire.diameter_mm
    return replace(bundle, wire=wire, diameter_mm=scaled)


def _with_resistivity(bundle: StrandBundle, resistivity_ohm_m: float) -> StrandBundle:
    core = replace(bundle.wire.core, resistivity_ohm_m=resistivity_ohm_m)
    return replace(bundle, wire=replace(bundle.wire, core=core))


def _require_uncertainties(diameter_mm: float, percent: float) -> None:
    for name, value in (
        ("diameter_uncertainty_mm", diameter_mm),
        ("resistivity_uncertainty_percent", percent),
    ):
        if not 0.0 <= value <= 1e3:
            raise ParameterError(name, value, allowed="zero or above")
