"""What a four-wire resistance gave: lines for people, plain data for programs."""

from typing import Any

from strandproof.app.workflow.resisting import ResistanceAnswer, shown_conductivity
from strandproof.quantity import (
    Quantity,
    format_interval,
    format_plus_minus,
    format_quantity,
)
from strandproof.records import FLAGS
from strandproof.records.electrical import ConductivityResult, SeriesResult

_CANNOT = (
    "This cannot tell crystals, casting route, oxygen or nines: boundaries a few "
    "micrometres apart change it by 0.1 to 0.3 %."
)
_MICRO = 1e6


def resistance_in_words(answer: ResistanceAnswer) -> tuple[str, ...]:
    """Say what a resistance gave, with the budget of each route.

    Parameters
    ----------
    answer : ResistanceAnswer
        From `judge_resistance`.

    Returns
    -------
    tuple of str
        Lines for people.
    """
    at_20c = format_quantity(answer.stated.resistance_at_20c)
    lines = [] if answer.series is None else _series_lines(answer.series)
    lines += () if answer.leads is None else answer.leads.sentences
    lines.append(f"Resistance at 20 degC: {at_20c}")
    for result in answer.results:
        lines += _route_lines(result)
    lines += _comparison_lines(answer)
    lines += [
        f"Keep in mind: {FLAGS[flag.name].meaning}"
        + (f" ({flag.detail})" if flag.detail else "")
        for flag in answer.flags
    ]
    lines.append(_CANNOT)
    return tuple(lines)


def resistance_data(answer: ResistanceAnswer) -> dict[str, Any]:
    """Give what a resistance gave as plain data.

    Parameters
    ----------
    answer : ResistanceAnswer
        From `judge_resistance`.

    Returns
    -------
    dict
        JSON data: routes, series, checks, flags.
    """
    series, leads, comparison = answer.series, answer.leads, answer.comparison
    return {
        "routes": [_route_data(result) for result in answer.results],
        "series": None if series is None else _series_data(series),
        "leads": None if leads is None else list(leads.sentences),
        "routes_agree": None if comparison is None else comparison.agree,
        "flags": [{"name": flag.name, "detail": flag.detail} for flag in answer.flags],
    }


def _series_lines(series: SeriesResult) -> list[str]:
    lines = [
        f"At {point.current_a:g} A, {point.pairs} "
        f"{'pair' if point.pairs == 1 else 'pairs'}: "
        f"{format_quantity(point.resistance)}; thermal voltage removed "
        f"{_MICRO * point.thermal_voltage_v:.2g} uV; {point.power_w:.2g} W"
        for point in series.points
    ]
    if series.extrapolated:
        zero = format_quantity(series.resistance)
        lines.append(f"At zero current, by a straight line in I^2: {zero}")
    else:
        lines.append("One current only: nothing is extrapolated to zero current.")
    if series.rise_k is not None:
        rise = format_plus_minus(
            series.rise_k.value, 2.0 * series.rise_k.standard_uncertainty, unit="K"
        )
        lines.append(f"Rise of the wire at the highest current: {rise} (k = 2)")
    if series.scatter_v is not None:
        lines.append(f"Scatter of a pair: {_MICRO * series.scatter_v:.2g} uV")
    if series.thermal_drift_v_per_min is not None:
        drift = _MICRO * series.thermal_drift_v_per_min
        lines.append(f"Drift of the thermal voltage: {drift:.2g} uV/min")
    return lines


def _route_lines(result: ConductivityResult) -> list[str]:
    iacs = result.percent_iacs
    resistivity = format_quantity(result.resistivity)
    freedom = iacs.degrees_of_freedom
    # A coverage factor of 1.96 needs no count of degrees of freedom beside it.
    degrees = f", {freedom:.0f} degrees of freedom" if freedom < 1000 else ""
    lines = [
        (
            f"By {result.route}: {shown_conductivity(result)} "
            f"({100 * result.interval.confidence:g} %, "
            f"k = {result.coverage_factor:.2f}{degrees}); resistivity {resistivity}"
        ),
        f"  {result.band.sentence}",
        *(f"  {line.name}: {line.component:.2g} {iacs.unit}" for line in iacs.budget),
    ]
    if result.second_opinion is not None:
        second = format_interval(result.second_opinion.monte_carlo)
        agrees = result.second_opinion.agrees
        verdict = "" if agrees else "; it differs from first order and is stated"
        lines.append(f"  Monte Carlo: {second}{verdict}")
    return lines


def _comparison_lines(answer: ResistanceAnswer) -> list[str]:
    found = answer.comparison
    if found is None:
        return []
    half = found.interval.half_width or 0.0
    percent = 100.0 * half / found.by_density.resistivity.value
    verdict = "agree" if found.agree else "disagree"
    return [
        (
            f"Geometry by mass and by diameter {verdict}: by diameter the resistivity "
            f"is {found.difference_percent:+.1f} % away, expanded uncertainty "
            f"{percent:.1f} %"
        )
    ]


def _route_data(result: ConductivityResult) -> dict[str, Any]:
    second = result.second_opinion
    return {
        "route": result.route,
        "percent_iacs": {
            **_quantity_data(result.percent_iacs),
            "lower": result.interval.lower,
            "upper": result.interval.upper,
            "confidence": result.interval.confidence,
        },
        "coverage_factor": result.coverage_factor,
        "resistance_at_20c": _quantity_data(result.resistance_at_20c),
        "resistivity": _quantity_data(result.resistivity),
        "budget": [
            {"name": line.name, "component": line.component}
            for line in result.percent_iacs.budget
        ],
        "monte_carlo": None
        if second is None
        else {
            "lower": second.monte_carlo.lower,
            "upper": second.monte_carlo.upper,
            "agrees": second.agrees,
        },
        "band": result.band.verdict,
        "flags": [flag.name for flag in result.flags],
    }


def _series_data(series: SeriesResult) -> dict[str, Any]:
    return {
        "currents": [
            {
                "current_a": point.current_a,
                "pairs": point.pairs,
                "resistance": _quantity_data(point.resistance),
                "thermal_voltage_v": point.thermal_voltage_v,
                "power_w": point.power_w,
            }
            for point in series.points
        ],
        "extrapolated": series.extrapolated,
        "resistance": _quantity_data(series.resistance),
        "rise_k": None if series.rise_k is None else _quantity_data(series.rise_k),
        "scatter_v": series.scatter_v,
        "thermal_drift_v_per_min": series.thermal_drift_v_per_min,
    }


def _quantity_data(quantity: Quantity) -> dict[str, Any]:
    freedom = quantity.degrees_of_freedom
    return {
        "value": quantity.value,
        "unit": quantity.unit,
        "standard_uncertainty": quantity.standard_uncertainty,
        "degrees_of_freedom": freedom if freedom < float("inf") else None,
    }
