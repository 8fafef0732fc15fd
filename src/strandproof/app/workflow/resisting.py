"""The use case that judges a four-wire resistance without a case."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from strandproof.electrical import (
    conductivity_by_density,
    conductivity_by_diameter,
    conductivity_by_mass,
    require_one_conductor_type,
)
from strandproof.quantity import (
    Input,
    format_interval,
    format_plus_minus,
    format_quantity,
    normal_input,
)
from strandproof.records import FLAGS
from strandproof.records.electrical import (
    ConductivityResult,
    ParallelConductor,
    ResistanceMeasurement,
)

_SEED = 20311


@dataclass(frozen=True, slots=True, kw_only=True)
class TypedReadings:
    """Readings as typed: values with their standard uncertainties.

    Parameters
    ----------
    ohm, celsius, metres, milligrams, millimetres : tuple of float or None
        Value and standard uncertainty; None where it was not read.
    strands : int
        Strands in parallel, for the route by diameter.
    conductors : sequence of str
        Everything that the current ran through, as ``name:strands:metal`` or
        ``name:strands:metal:layer``.
    """

    ohm: tuple[float, float]
    celsius: tuple[float, float] | None
    metres: tuple[float, float]
    milligrams: tuple[float, float] | None = None
    millimetres: tuple[float, float] | None = None
    strands: int = 1
    conductors: Sequence[ParallelConductor] = ()


def resistance_measurement(readings: TypedReadings) -> ResistanceMeasurement:
    """Give typed readings their names and units.

    Parameters
    ----------
    readings : TypedReadings
        Values and standard uncertainties.

    Returns
    -------
    ResistanceMeasurement
        For the evaluation.
    """
    return ResistanceMeasurement(
        resistance=normal_input("resistance", *readings.ohm, unit="ohm"),
        temperature=_optional("temperature of the wire", readings.celsius, "degC"),
        gauge_length=normal_input("length", *readings.metres, unit="m"),
        mass=_optional("mass", readings.milligrams, "mg"),
    )


def judge_resistance(readings: TypedReadings) -> tuple[ConductivityResult, ...]:
    """Turn a four-wire resistance into a conductivity, by each route it allows.

    Parameters
    ----------
    readings : TypedReadings
        Values and standard uncertainties.

    Returns
    -------
    tuple of ConductivityResult
        By mass and by density where a mass was read, by diameter where a diameter
        was.
    """
    if readings.conductors:
        require_one_conductor_type(readings.conductors)
    measurement = resistance_measurement(readings)
    chance = np.random.default_rng(_SEED)
    results = []
    if measurement.mass is not None or readings.millimetres is None:
        results.append(conductivity_by_mass(measurement, generator=chance))
        results.append(conductivity_by_density(measurement))
    if readings.millimetres is not None:
        diameter = normal_input("diameter", *readings.millimetres, unit="mm")
        results.append(
            conductivity_by_diameter(
                measurement, diameter=diameter, strands=readings.strands
            )
        )
    return tuple(results)


def resistance_in_words(results: Sequence[ConductivityResult]) -> tuple[str, ...]:
    """Say what a resistance gave, with the budget of each route.

    Parameters
    ----------
    results : sequence of ConductivityResult
        From `judge_resistance`.

    Returns
    -------
    tuple of str
        Lines for people.
    """
    lines = [f"Resistance at 20 degC: {format_quantity(results[0].resistance_at_20c)}"]
    for result in results:
        iacs = result.percent_iacs
        half = result.interval.half_width or 0.0
        shown = format_plus_minus(iacs.value, half, unit=iacs.unit)
        factor = f"(95 %, k = {result.coverage_factor:.2f})"
        resistivity = format_quantity(result.resistivity)
        lines.append(f"By {result.route}: {shown} {factor}; resistivity {resistivity}")
        lines.append(f"  {result.band.sentence}")
        lines += [
            f"  {line.name}: {line.component:.2g} {iacs.unit}" for line in iacs.budget
        ]
        if result.second_opinion is not None:
            second = format_interval(result.second_opinion.monte_carlo)
            lines.append(f"  Monte Carlo: {second}")
    names = dict.fromkeys(flag.name for result in results for flag in result.flags)
    lines += [f"Keep in mind: {FLAGS[name].meaning}" for name in names]
    lines.append(
        "This cannot tell crystals, casting route, oxygen or nines: boundaries a few "
        "micrometres apart change it by 0.1 to 0.3 %."
    )
    return tuple(lines)


def resistance_data(results: Sequence[ConductivityResult]) -> list[dict[str, Any]]:
    """Give what a resistance gave as plain data.

    Parameters
    ----------
    results : sequence of ConductivityResult
        From `judge_resistance`.

    Returns
    -------
    list of dict
        JSON data, one for each route.
    """
    return [
        {
            "route": result.route,
            "percent_iacs": {
                "value": result.percent_iacs.value,
                "standard_uncertainty": result.percent_iacs.standard_uncertainty,
                "lower": result.interval.lower,
                "upper": result.interval.upper,
                "confidence": result.interval.confidence,
            },
            "resistance_at_20c": {
                "value": result.resistance_at_20c.value,
                "unit": result.resistance_at_20c.unit,
                "standard_uncertainty": result.resistance_at_20c.standard_uncertainty,
            },
            "resistivity": {
                "value": result.resistivity.value,
                "unit": result.resistivity.unit,
                "standard_uncertainty": result.resistivity.standard_uncertainty,
            },
            "budget": [
                {"name": line.name, "component": line.component}
                for line in result.percent_iacs.budget
            ],
            "band": result.band.verdict,
            "flags": [flag.name for flag in result.flags],
        }
        for result in results
    ]


def _optional(
    name: str, reading: tuple[float, float] | None, unit: str
) -> Input | None:
    return None if reading is None else normal_input(name, *reading, unit=unit)
