"""The use cases that find a density, by water or by length and diameter."""

from dataclasses import dataclass
from typing import Any

from strandproof.app.workflow.bench_findings import BenchFinding
from strandproof.app.workflow.budget_lines import (
    budget_in_words,
    flags_in_words,
    result_data,
)
from strandproof.physical import (
    air_density,
    density_by_buoyancy,
    density_by_geometry,
)
from strandproof.quantity import normal_input
from strandproof.records.entries import ClaimKind, MeasurementResult
from strandproof.records.entries.numbers import measured_value
from strandproof.records.physical import BuoyancyWeighing, DensityResult

_LIMITS = (
    "Density tells copper, silver, clad aluminium and clad steel apart; it tells "
    "neither purity, crystals nor a thin skin."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class TypedWeighing:
    """Readings of a balance as typed: values with standard uncertainties.

    Parameters
    ----------
    air_mg, water_mg, celsius : tuple of float
        Reading in air and in water [mg], temperature of the water [degC].
    pressure_hpa, humidity_percent : float
        Of the room's air.
    wire_um : float or None
        Diameter of the wire through the water's surface [um].
    bubbles_removed, pure_water : bool or None
        What is stated; None: nothing.
    """

    air_mg: tuple[float, float]
    water_mg: tuple[float, float]
    celsius: tuple[float, float]
    pressure_hpa: float = 1013.25
    humidity_percent: float = 50.0
    wire_um: float | None = None
    bubbles_removed: bool | None = None
    pure_water: bool | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class TypedGeometry:
    """Mass, length and diameter as typed: values with standard uncertainties.

    Parameters
    ----------
    milligrams, metres, millimetres : tuple of float
        Mass of all strands, length and diameter of one.
    strands : int
        Strands weighed together.
    """

    milligrams: tuple[float, float]
    metres: tuple[float, float]
    millimetres: tuple[float, float]
    strands: int = 1


def judge_density(typed: TypedWeighing | TypedGeometry) -> DensityResult:
    """Turn typed readings into a density.

    Parameters
    ----------
    typed : TypedWeighing or TypedGeometry
        Readings with standard uncertainties.

    Returns
    -------
    DensityResult
        Density with budget and what spoils it.

    Raises
    ------
    ParameterError
        If a number is out of range.
    """
    if isinstance(typed, TypedGeometry):
        return density_by_geometry(
            normal_input("mass", *typed.milligrams, unit="mg"),
            normal_input("length", *typed.metres, unit="m"),
            normal_input("diameter", *typed.millimetres, unit="mm"),
            strands=typed.strands,
        )
    return density_by_buoyancy(
        BuoyancyWeighing(
            in_air=normal_input("reading in air", *typed.air_mg, unit="mg"),
            in_water=normal_input("reading in water", *typed.water_mg, unit="mg"),
            water_temperature=normal_input(
                "temperature of the water", *typed.celsius, unit="degC"
            ),
            air_density=air_density(
                typed.celsius[0],
                pressure_hpa=typed.pressure_hpa,
                humidity_percent=typed.humidity_percent,
            ),
            wire_diameter_um=typed.wire_um,
            bubbles_removed=typed.bubbles_removed,
            pure_water=typed.pure_water,
        )
    )


def density_in_words(result: DensityResult) -> tuple[str, ...]:
    """Say what a density came out as.

    Parameters
    ----------
    result : DensityResult
        From `judge_density`.

    Returns
    -------
    tuple of str
        Lines for people.
    """
    return (
        *result.sentences,
        *budget_in_words(result.density),
        *flags_in_words(result.flags),
        _LIMITS,
    )


def density_data(result: DensityResult) -> dict[str, Any]:
    """Give a density as plain data.

    Parameters
    ----------
    result : DensityResult
        From `judge_density`.

    Returns
    -------
    dict
        JSON data.
    """
    return result_data(result, result.density)


def density_finding(result: DensityResult) -> BenchFinding:
    """Give a density in the form that a case holds.

    Parameters
    ----------
    result : DensityResult
        From `judge_density`.

    Returns
    -------
    BenchFinding
        Bears on the build: which metal.
    """
    return BenchFinding(
        method=f"density by {result.method}",
        results=(
            MeasurementResult(
                name="density",
                value=measured_value(result.density, result.interval),
                words=result.sentences[0],
            ),
        ),
        bears_on=(ClaimKind.BUILD,),
        sentence=result.sentences[0],
        flags=tuple(dict.fromkeys(flag.name for flag in result.flags)),
    )
