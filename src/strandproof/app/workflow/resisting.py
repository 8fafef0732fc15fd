"""The use case that judges a four-wire resistance, without a case or for one."""

from dataclasses import dataclass
from pathlib import Path

import numpy as np

from strandproof.app.workflow.bench_findings import BenchFinding
from strandproof.app.workflow.resistance_readings import (
    TypedReadings,
    resistance_measurement,
)
from strandproof.electrical import (
    check_leads,
    compare_volume_routes,
    conductivity_by_density,
    conductivity_by_diameter,
    conductivity_by_mass,
    evaluate_series,
    lay_flags,
    require_one_conductor_type,
    require_possible_diameter,
    stated_interval,
)
from strandproof.quantity import (
    format_interval,
    format_plus_minus,
    normal_input,
)
from strandproof.records import Flag
from strandproof.records.electrical import (
    ConductivityResult,
    FourWireSeries,
    LeadFindings,
    ResistanceMeasurement,
    RouteComparison,
    SeriesResult,
)
from strandproof.records.entries import ClaimKind, MeasurementResult
from strandproof.records.entries.numbers import measured_value
from strandproof.report.plots import budget_bars_svg
from strandproof.storage import write_output_file

_SEED = 20311
_METHODS = {
    "mass": "four-wire resistance, conductivity by mass resistivity",
    "density": "four-wire resistance, conductivity by density",
    "diameter": "four-wire resistance, conductivity by diameter",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class ResistanceAnswer:
    """What a four-wire resistance gave.

    Parameters
    ----------
    results : tuple of ConductivityResult
        By mass and by density where a mass was read, by diameter where a diameter
        was; the route to state first.
    series : SeriesResult or None
        Resistance at each current; None where one value was typed.
    leads : LeadFindings or None
        Checks of leads and contacts; None where one value was typed.
    comparison : RouteComparison or None
        Density against diameter; None unless both were possible.
    flags : tuple of Flag
        Everything a reader has to know, each once.
    """

    results: tuple[ConductivityResult, ...]
    series: SeriesResult | None = None
    leads: LeadFindings | None = None
    comparison: RouteComparison | None = None
    flags: tuple[Flag, ...] = ()

    @property
    def stated(self) -> ConductivityResult:
        """The result to state."""
        return self.results[0]


def judge_resistance(readings: TypedReadings) -> ResistanceAnswer:
    """Turn a four-wire resistance into a conductivity, by each route it allows.

    Parameters
    ----------
    readings : TypedReadings
        Values and standard uncertainties, or raw readings.

    Returns
    -------
    ResistanceAnswer
        Results, with the series and the checks behind them.

    Raises
    ------
    MissingMeasurementError
        If temperature, resistance or the lay of a twisted core is missing.
    MixedConductorsError
        If unlike conductors lay in parallel.
    HotWireError
        If the current warmed the wire too much.
    ImpossibleDiameterError
        If the diameter alone would make the metal conduct better than copper can.
    """
    parallel = (
        require_one_conductor_type(readings.conductors) if readings.conductors else ()
    )
    measurement = resistance_measurement(readings)
    series, leads = _at_the_bench(measurement, readings)
    results, comparison = _by_routes(measurement, readings)
    strands = max(readings.strands, sum(one.strands for one in readings.conductors))
    flags = (
        *parallel,
        *(flag for result in results for flag in result.flags),
        *(() if series is None else series.flags),
        *(() if leads is None else leads.flags),
        *(() if comparison is None else comparison.flags),
        *lay_flags(measurement.form, measurement.lay_factor, strands=strands),
    )
    return ResistanceAnswer(
        results=results,
        series=series,
        leads=leads,
        comparison=comparison,
        flags=tuple({flag.name: flag for flag in flags}.values()),
    )


def judged(measurement: ResistanceMeasurement) -> ResistanceAnswer:
    """Judge a measurement whose inputs have their names and units already.

    Parameters
    ----------
    measurement : ResistanceMeasurement
        With a mass.

    Returns
    -------
    ResistanceAnswer
        By mass with a Monte Carlo second opinion, and by density.
    """
    results = _weighed(measurement)
    flags = {flag.name: flag for result in results for flag in result.flags}
    return ResistanceAnswer(results=results, flags=tuple(flags.values()))


def resistance_finding(answer: ResistanceAnswer, **said: str) -> BenchFinding:
    """Give what a resistance gave in the form that a case holds.

    Parameters
    ----------
    answer : ResistanceAnswer
        From `judge_resistance`.
    **said : str
        What else it says, in words, by the name of the result: about crystals, about
        a claim of lower resistance.

    Returns
    -------
    BenchFinding
        It bears on performance alone.
    """
    stated = answer.stated
    return BenchFinding(
        method=_METHODS[stated.route],
        results=(
            MeasurementResult(
                name="conductivity",
                value=measured_value(stated.percent_iacs, stated_interval(stated)),
                words=_budget_words(stated),
            ),
            MeasurementResult(
                name="resistance_at_20c",
                value=measured_value(stated.resistance_at_20c),
            ),
            *(_resistivity(result) for result in answer.results),
            *(
                MeasurementResult(name=name, value=None, words=words)
                for name, words in said.items()
            ),
        ),
        bears_on=(ClaimKind.PERFORMANCE,),
        sentence=f"Conductivity of the strand by {stated.route}: "
        f"{shown_conductivity(stated)} at 20 degC.",
        flags=tuple(sorted(flag.name for flag in answer.flags)),
    )


def shown_conductivity(result: ConductivityResult) -> str:
    """Write a conductivity with its expanded uncertainty.

    Parameters
    ----------
    result : ConductivityResult
        The result.

    Returns
    -------
    str
        For example ``"100.9 ± 0.4 % IACS"``.
    """
    half = stated_interval(result).half_width or 0.0
    return format_plus_minus(
        result.percent_iacs.value, half, unit=result.percent_iacs.unit
    )


def write_budget_plot(answer: ResistanceAnswer, target: Path) -> None:
    """Draw the budget of the result to state, and write it as SVG.

    Parameters
    ----------
    answer : ResistanceAnswer
        From `judge_resistance`.
    target : Path
        The SVG file; it must not be there.
    """
    stated = answer.stated
    title = f"Uncertainty of {shown_conductivity(stated)} by {stated.route}"
    drawing = budget_bars_svg(stated.percent_iacs, title=title)
    write_output_file(target, str(drawing).encode("utf-8"))


def _at_the_bench(
    measurement: ResistanceMeasurement, readings: TypedReadings
) -> tuple[SeriesResult | None, LeadFindings | None]:
    if not isinstance(measurement.resistance, FourWireSeries):
        return None, None
    series = evaluate_series(
        measurement.resistance, temperature=measurement.temperature
    )
    return series, check_leads(series, readings.checks)


def _by_routes(
    measurement: ResistanceMeasurement, readings: TypedReadings
) -> tuple[tuple[ConductivityResult, ...], RouteComparison | None]:
    if readings.millimetres is None:
        return _weighed(measurement), None
    diameter = normal_input("diameter", *readings.millimetres, unit="mm")
    if measurement.mass is None:
        alone = conductivity_by_diameter(
            measurement,
            diameter=diameter,
            strands=readings.strands,
            generator=np.random.default_rng(_SEED),
        )
        require_possible_diameter(alone, diameter)
        return (alone,), None
    comparison = compare_volume_routes(
        measurement, diameter=diameter, strands=readings.strands
    )
    by_mass = conductivity_by_mass(measurement, generator=np.random.default_rng(_SEED))
    return (by_mass, comparison.by_density, comparison.by_diameter), comparison


def _weighed(measurement: ResistanceMeasurement) -> tuple[ConductivityResult, ...]:
    chance = np.random.default_rng(_SEED)
    return (
        conductivity_by_mass(measurement, generator=chance),
        conductivity_by_density(measurement),
    )


def _budget_words(result: ConductivityResult) -> str:
    budget = "; ".join(
        f"{line.name} {line.component:.2g}" for line in result.percent_iacs.budget
    )
    second = result.second_opinion
    agrees = ""
    if second is not None:
        verdict = "agrees" if second.agrees else "differs"
        agrees = (
            f" Monte Carlo {verdict}: {format_interval(second.monte_carlo)} against "
            f"{format_interval(second.first_order)}."
        )
    return f"{result.band.sentence} Budget in % IACS: {budget}.{agrees}"


def _resistivity(result: ConductivityResult) -> MeasurementResult:
    name, words = {
        "mass": ("mass_resistivity", "no density in this budget"),
        "density": (
            "volume_resistivity",
            f"by density; {format_interval(result.interval)} as conductivity",
        ),
        "diameter": (
            "volume_resistivity_by_diameter",
            f"by diameter; {format_interval(result.interval)} as conductivity",
        ),
    }[result.route]
    value = measured_value(result.resistivity)
    return MeasurementResult(name=name, value=value, words=words)
