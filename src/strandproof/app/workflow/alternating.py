"""The use case that says how large a conductor's frequency effect is."""

from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from strandproof.app.workflow.bench_findings import BenchFinding
from strandproof.electrical import (
    frequency_response,
    metal,
    volume_resistivity_ohm_m,
)
from strandproof.errors import ParameterError
from strandproof.quantity import expanded_interval
from strandproof.records.electrical import (
    ConductingMetal,
    FrequencyPoint,
    FrequencyResponse,
    RoundWire,
    StrandBundle,
    StrandContact,
    WireLayer,
)
from strandproof.records.entries import ClaimKind, MeasurementResult
from strandproof.records.entries.numbers import measured_value
from strandproof.report.plots import RiseCurve, frequency_svg, rise_in_words
from strandproof.storage import write_output_file

_NOT_HEARING = (
    "This is about whether a statement on resistance is true. Whether anything would "
    "be audible is another question, and nothing here speaks for or against it."
)
_SHOWN_HZ = (20.0, 200.0, 2e3, 2e4, 2e5, 1e6)


@dataclass(frozen=True, slots=True, kw_only=True)
class TypedLayer:
    """A layer as typed.

    Parameters
    ----------
    metal : str
        Name; one of the package's metals unless a resistivity is given.
    thickness_um : float
        Thickness [um].
    resistivity_nohm_m : float or None
        Resistivity [nohm m]; None takes the package's.
    relative_permeability : float
        Relative permeability [1].
    """

    metal: str
    thickness_um: float
    resistivity_nohm_m: float | None = None
    relative_permeability: float = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class TypedConductor:
    """A conductor as typed.

    Parameters
    ----------
    millimetres : tuple of float
        Diameter of a strand, layer included [mm], and its standard uncertainty.
    metal : str
        Metal of the core.
    percent_iacs : tuple of float or None
        Its conductivity [% IACS] and the standard uncertainty; None takes the
        package's value for the metal.
    layer : TypedLayer or None
        Layer on each strand.
    strands : int
        Strands.
    contact : {"insulated", "touching"}
        How the strands lie.
    bundle_millimetres, lay_millimetres : float or None
        Diameter of the bundle over metal, and lay length [mm].
    metres : float
        Length of cable [m].
    """

    millimetres: tuple[float, float]
    metal: str = "copper"
    percent_iacs: tuple[float, float] | None = None
    layer: TypedLayer | None = None
    strands: int = 1
    contact: StrandContact = "insulated"
    bundle_millimetres: float | None = None
    lay_millimetres: float | None = None
    metres: float = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class FrequencyEffect:
    """A conductor's behaviour, and the same strands as bare ones in contact.

    Parameters
    ----------
    typed : TypedConductor
        What was typed.
    response : FrequencyResponse
        What it does.
    touching : FrequencyResponse or None
        The same strands in contact; None for one wire, plated strands, or where
        that is what was asked.
    """

    typed: TypedConductor
    response: FrequencyResponse
    touching: FrequencyResponse | None


def frequency_effect(typed: TypedConductor) -> FrequencyEffect:
    """Compute a conductor from 20 Hz to 1 MHz.

    Parameters
    ----------
    typed : TypedConductor
        The conductor.

    Returns
    -------
    FrequencyEffect
        Table, ratio at 20 kHz with uncertainty, and a comparison.

    Raises
    ------
    ParameterError
        If a number is out of range, a metal is not known, or the strands do not fit.
    """
    if not 0 < typed.metres <= 1e5:
        raise ParameterError("metres", typed.metres, allowed="above 0, up to 100000")
    bundle = _bundle(typed)
    diameter_u, percent = typed.millimetres[1], _resistivity_percent(typed)

    def response(of: StrandBundle) -> FrequencyResponse:
        return frequency_response(
            of,
            diameter_uncertainty_mm=diameter_u,
            resistivity_uncertainty_percent=percent,
        )

    compared = (
        bundle.strands > 1 and bundle.contact == "insulated" and not bundle.wire.layers
    )
    return FrequencyEffect(
        typed=typed,
        response=response(bundle),
        touching=response(replace(bundle, contact="touching")) if compared else None,
    )


def frequency_sentence(effect: FrequencyEffect) -> str:
    """Say how large the effect is at 20 kHz.

    Parameters
    ----------
    effect : FrequencyEffect
        From `frequency_effect`.

    Returns
    -------
    str
        One sentence, about this conductor alone.
    """
    response, metres = effect.response, effect.typed.metres
    dc = 1e3 * metres * response.dc_resistance_ohm_per_m
    added = dc * (response.audio.ratio - 1.0)
    rise = rise_in_words(response.audio.ratio)
    ratio = response.audio.skin_depth_mm / response.bundle.wire.diameter_mm
    return (
        f"At 20 kHz the resistance of {metres:g} m is {rise} above that at direct "
        f"current ({added:.2g} of {dc:.4g} mohm); the skin depth is "
        f"{response.audio.skin_depth_mm:.3f} mm, {ratio:.2g} diameters of a strand."
    )


def frequency_in_words(effect: FrequencyEffect) -> tuple[str, ...]:
    """Say what a conductor does against frequency.

    Parameters
    ----------
    effect : FrequencyEffect
        From `frequency_effect`.

    Returns
    -------
    tuple of str
        Lines for people.
    """
    response = effect.response
    lines = [frequency_sentence(effect), _uncertainty_words(response)]
    lines.append("      Hz   Rac/Rdc      mohm/m   inside nH/m   skin depth mm")
    lines += [_row(point) for point in _shown(response)]
    lines.append(f"Model: {response.model}.")
    if effect.touching is not None:
        rise = rise_in_words(effect.touching.audio.ratio)
        lines.append(
            f"The same strands bare and in contact: {rise} at 20 kHz, nearly that of "
            "one solid wire of the bundle's diameter."
        )
    lines.append(_NOT_HEARING)
    return tuple(line for line in lines if line)


def frequency_data(effect: FrequencyEffect) -> dict[str, Any]:
    """Give what a conductor does as plain data.

    Parameters
    ----------
    effect : FrequencyEffect
        From `frequency_effect`.

    Returns
    -------
    dict
        JSON data.
    """
    response = effect.response
    audio = response.audio_ratio
    return {
        "sentence": frequency_sentence(effect),
        "model": response.model,
        "strands": response.bundle.strands,
        "bundle_diameter_mm": response.bundle_diameter_mm,
        "lay_factor": response.lay_factor,
        "dc_resistance_ohm_per_m": response.dc_resistance_ohm_per_m,
        "at_20_khz": {
            "ratio": audio.value,
            "standard_uncertainty": audio.standard_uncertainty,
            "budget": [
                {"name": line.name, "component": line.component}
                for line in audio.budget
            ],
        },
        "touching_ratio_at_20_khz": effect.touching and effect.touching.audio.ratio,
        "points": [
            {
                "frequency_hz": point.frequency_hz,
                "ratio": point.ratio,
                "proximity_share": point.proximity_share,
                "resistance_ohm_per_m": point.resistance_ohm_per_m,
                "internal_inductance_nh_per_m": point.internal_inductance_nh_per_m,
                "skin_depth_mm": point.skin_depth_mm,
            }
            for point in response.points
        ],
        "bears_on": ["performance"],
        "says_nothing_about": "audibility",
    }


def frequency_finding(effect: FrequencyEffect) -> BenchFinding:
    """Give the effect at 20 kHz in the form that a case holds.

    Parameters
    ----------
    effect : FrequencyEffect
        From `frequency_effect`.

    Returns
    -------
    BenchFinding
        Bears on performance only.
    """
    ratio = effect.response.audio_ratio
    interval = expanded_interval(ratio) if ratio.standard_uncertainty else None
    return BenchFinding(
        method="internal impedance of the conductor, computed from its dimensions",
        results=(
            MeasurementResult(
                name="resistance_ratio_at_20_khz",
                value=measured_value(ratio, interval),
                words=f"{rise_in_words(ratio.value)} above direct current",
            ),
        ),
        bears_on=(ClaimKind.PERFORMANCE,),
        sentence=f"{frequency_sentence(effect)} It says nothing about audibility.",
    )


def write_frequency_plot(effect: FrequencyEffect, target: Path) -> None:
    """Write a drawing of the rise of resistance.

    Parameters
    ----------
    effect : FrequencyEffect
        From `frequency_effect`.
    target : Path
        New SVG file.
    """
    bundle = effect.response.bundle
    diameter = f"{bundle.wire.diameter_mm:g} mm"
    if bundle.strands == 1:
        name, title = f"one wire of {diameter}", f"A wire of {diameter}"
    else:
        name = f"strands {bundle.contact}"
        title = f"{bundle.strands} strands of {diameter}"
    curves = [_curve(name, effect.response)]
    if effect.touching is not None:
        curves.append(_curve("the same, bare and touching", effect.touching))
    drawing = frequency_svg(curves, title=f"{title}: resistance against frequency")
    write_output_file(target, str(drawing).encode("utf-8"))


def _curve(name: str, response: FrequencyResponse) -> RiseCurve:
    return RiseCurve(
        name=name,
        frequencies_hz=tuple(point.frequency_hz for point in response.points),
        ratios=tuple(point.ratio for point in response.points),
        at_20_khz=response.audio.ratio,
    )


def _shown(response: FrequencyResponse) -> list[FrequencyPoint]:
    return [point for point in response.points if point.frequency_hz in _SHOWN_HZ]


def _row(point: FrequencyPoint) -> str:
    inside = point.internal_inductance_nh_per_m
    return (
        f"{point.frequency_hz:8.0f}  {point.ratio:8.6f}  "
        f"{1e3 * point.resistance_ohm_per_m:10.5g}   "
        f"{'not stated' if inside is None else f'{inside:.2f}':>11}   "
        f"{point.skin_depth_mm:13.4g}"
    )


def _uncertainty_words(response: FrequencyResponse) -> str:
    ratio = response.audio_ratio
    if not ratio.standard_uncertainty:
        return (
            "No uncertainty of diameter or conductivity was given, so none is stated; "
            "for a thin wire the rise goes with the diameter's fourth power."
        )
    rise, u = 100 * (ratio.value - 1.0), 200 * ratio.standard_uncertainty
    return f"The rise: {rise:.3g} % with an expanded uncertainty of {u:.2g} % (k = 2)."


def _bundle(typed: TypedConductor) -> StrandBundle:
    layer = typed.layer
    layers = () if layer is None else (_layer(layer),)
    return StrandBundle(
        wire=RoundWire(
            diameter_mm=typed.millimetres[0], core=_core(typed), layers=layers
        ),
        strands=typed.strands,
        contact=typed.contact,
        diameter_mm=typed.bundle_millimetres,
        lay_length_mm=typed.lay_millimetres,
    )


def _core(typed: TypedConductor) -> ConductingMetal:
    if typed.percent_iacs is None:
        resistivity = metal(typed.metal).resistivity_ohm_m
    else:
        resistivity = volume_resistivity_ohm_m(typed.percent_iacs[0])
    return ConductingMetal(name=typed.metal, resistivity_ohm_m=resistivity)


def _layer(typed: TypedLayer) -> WireLayer:
    resistivity = (
        metal(typed.metal).resistivity_ohm_m
        if typed.resistivity_nohm_m is None
        else 1e-9 * typed.resistivity_nohm_m
    )
    return WireLayer(
        metal=ConductingMetal(
            name=typed.metal,
            resistivity_ohm_m=resistivity,
            relative_permeability=typed.relative_permeability,
        ),
        thickness_um=typed.thickness_um,
    )


def _resistivity_percent(typed: TypedConductor) -> float:
    if typed.percent_iacs is None:
        return 0.0
    value, u = typed.percent_iacs
    return 100.0 * u / value
