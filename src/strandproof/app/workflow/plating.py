"""The use case that states the thickness of a layer and what it is worth."""

from dataclasses import dataclass
from typing import Any

from strandproof.app.workflow.bench_findings import BenchFinding
from strandproof.electrical import layer_effect
from strandproof.physical import layer_thickness
from strandproof.quantity import (
    Interval,
    Quantity,
    expanded_interval,
    format_plus_minus,
    normal_input,
)
from strandproof.records import FLAGS
from strandproof.records.electrical import LayerEffect
from strandproof.records.entries import ClaimKind, MeasurementResult
from strandproof.records.entries.numbers import measured_value
from strandproof.records.physical import LayerReadings, LayerThickness


@dataclass(frozen=True, slots=True, kw_only=True)
class PlatedStrands:
    """Strands that carry the layer, to say what it is worth in them.

    Parameters
    ----------
    millimetres : tuple of float
        Outer diameter [mm] and its standard uncertainty.
    strands : int
        Strands.
    layer, core : str
        Metals, as the package's table names them.
    """

    millimetres: tuple[float, float]
    strands: int = 1
    layer: str = "tin"
    core: str = "copper"


@dataclass(frozen=True, slots=True, kw_only=True)
class Plating:
    """A layer's thickness, and its share in a strand where the strand is known.

    Parameters
    ----------
    name : str
        Metal of the layer; empty where nobody identified it.
    thickness : LayerThickness
        Thickness with interval.
    effect : LayerEffect or None
        Shares by volume, mass and resistance; None without a strand.
    """

    name: str
    thickness: LayerThickness
    effect: LayerEffect | None


def plating(
    readings: LayerReadings, *, name: str = "", strands: PlatedStrands | None = None
) -> Plating:
    """State the thickness of a layer from readings round a section.

    Parameters
    ----------
    readings : LayerReadings
        Readings, resolution, tilt.
    name : str
        Metal of the layer, as identified on the section; empty: not identified.
    strands : PlatedStrands or None
        The strands, to say what the layer is worth in them.

    Returns
    -------
    Plating
        Thickness and shares.

    Raises
    ------
    NotResolvedError
        If the layer is too thin for the picture.
    """
    thickness = layer_thickness(readings)
    effect = None if strands is None else _effect(thickness.thickness, strands)
    return Plating(name=name, thickness=thickness, effect=effect)


def plating_in_words(found: Plating) -> tuple[str, ...]:
    """Say how thick a layer is and what it is worth.

    Parameters
    ----------
    found : Plating
        From `plating`.

    Returns
    -------
    tuple of str
        Lines for people.
    """
    thickness = found.thickness
    factor = f"{thickness.coverage_factor:.2f}"
    lines = [
        _sentence(found),
        f"  single readings {_range(thickness)} µm; coverage factor {factor}",
    ]
    lines += [
        f"  {line.name}: {line.component:.2g} µm"
        for line in thickness.thickness.budget
        if line.component
    ]
    if found.effect is not None:
        lines += _effect_words(found.effect)
    names = dict.fromkeys(flag.name for flag in thickness.flags)
    lines += [f"Keep in mind: {FLAGS[name].meaning}" for name in names]
    if not found.name:
        lines.append("Nobody identified the metal of the layer; a thickness does not.")
    lines.append("What lies under the layer was not tested.")
    return tuple(lines)


def plating_data(found: Plating) -> dict[str, Any]:
    """Give a layer as plain data.

    Parameters
    ----------
    found : Plating
        From `plating`.

    Returns
    -------
    dict
        JSON data.
    """
    thickness, effect = found.thickness, found.effect
    return {
        "layer": found.name or None,
        "thickness": _number(thickness.thickness, thickness.interval),
        "coverage_factor": thickness.coverage_factor,
        "budget": [
            {"name": line.name, "component": line.component}
            for line in thickness.thickness.budget
        ],
        "smallest_um": thickness.smallest_um,
        "largest_um": thickness.largest_um,
        "readings": thickness.readings,
        "oblique_factor": thickness.oblique_factor,
        "effect": effect
        and {
            "volume_percent": _number(effect.volume_percent),
            "mass_percent": _number(effect.mass_percent),
            "resistance_change_percent": _number(effect.resistance_change_percent),
            "core_area": _number(effect.core_area),
        },
        "flags": [flag.name for flag in thickness.flags],
        "bears_on": ["build"],
    }


def plating_finding(found: Plating) -> BenchFinding:
    """Give a layer in the form that a case holds.

    Parameters
    ----------
    found : Plating
        From `plating`.

    Returns
    -------
    BenchFinding
        Bears on build only.
    """
    thickness = found.thickness
    name = f"{found.name or 'unidentified'}_layer_thickness".replace(" ", "_")
    return BenchFinding(
        method="layer thickness on a section"
        + (f", {found.name} identified there" if found.name else ""),
        results=(
            MeasurementResult(
                name=name,
                value=measured_value(thickness.thickness, thickness.interval),
                words=f"{thickness.readings} readings {_range(thickness)} µm",
            ),
            *_shares(found.effect),
        ),
        bears_on=(ClaimKind.BUILD,),
        sentence=_sentence(found),
        flags=tuple(flag.name for flag in thickness.flags),
    )


def _effect(thickness: Quantity, strands: PlatedStrands) -> LayerEffect:
    return layer_effect(
        normal_input("strand diameter", *strands.millimetres, unit="mm"),
        normal_input(
            "layer thickness",
            thickness.value,
            thickness.standard_uncertainty,
            unit="um",
            degrees_of_freedom=thickness.degrees_of_freedom,
        ),
        layer=strands.layer,
        core=strands.core,
        strands=strands.strands,
    )


def _shares(effect: LayerEffect | None) -> tuple[MeasurementResult, ...]:
    if effect is None:
        return ()
    named = (
        ("layer_share_by_volume", effect.volume_percent),
        ("layer_share_by_mass", effect.mass_percent),
        ("resistance_added_by_layer", effect.resistance_change_percent),
    )
    return tuple(
        MeasurementResult(
            name=name,
            value=measured_value(quantity, expanded_interval(quantity)),
            words="computed from thickness and outer diameter with handbook values of "
            "the metals, whose uncertainty is not in it.",
        )
        for name, quantity in named
    )


def _sentence(found: Plating) -> str:
    half = found.thickness.interval.half_width or 0.0
    shown = format_plus_minus(found.thickness.thickness.value, half, unit="um")
    what = f"Layer of {found.name}" if found.name else "Layer, metal not identified"
    return f"{what}: {shown} (95 %), mean of {found.thickness.readings} readings."


def _range(thickness: LayerThickness) -> str:
    return f"from {thickness.smallest_um:.3g} to {thickness.largest_um:.3g}"


def _effect_words(effect: LayerEffect) -> list[str]:
    shares = (
        ("by volume", effect.volume_percent),
        ("by mass", effect.mass_percent),
        ("added to the resistance", effect.resistance_change_percent),
    )
    words = [f"{_percent(quantity)} {name}" for name, quantity in shares]
    area = effect.core_area
    return [
        "  the layer is " + ", ".join(words),
        f"  metal under the layer: {area.value:.4f} mm² in all",
    ]


def _percent(quantity: Quantity) -> str:
    interval = expanded_interval(quantity)
    return f"{quantity.value:.1f} % ({interval.lower:.1f} to {interval.upper:.1f})"


def _number(quantity: Quantity, interval: Interval | None = None) -> dict[str, Any]:
    given = interval or expanded_interval(quantity)
    return {
        "value": quantity.value,
        "unit": quantity.unit,
        "standard_uncertainty": quantity.standard_uncertainty,
        "lower": given.lower,
        "upper": given.upper,
        "confidence": given.confidence,
    }
