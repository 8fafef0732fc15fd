"""What a ratio of resistances gave, in words, as data, and as an entry of a case."""

from typing import Any

from strandproof.app.workflow.bench_findings import BenchFinding
from strandproof.app.workflow.ratios import RatioAnswer
from strandproof.quantity import (
    Interval,
    Quantity,
    format_interval,
    format_plus_minus,
    format_quantity,
)
from strandproof.records import FLAGS
from strandproof.records.electrical import (
    ElementBound,
    PurityBound,
    ResidualResult,
    WarmRatioResult,
)
from strandproof.records.entries import ClaimKind, MeasuredValue, MeasurementResult
from strandproof.records.entries.numbers import measured_value

_SAFETY = {
    "nitrogen": "Liquid nitrogen: suffocation in closed rooms, cold burns, bursting of "
    "sealed vessels; trained staff only.",
    "helium": "Liquid helium: suffocation in closed rooms, cold burns, sudden boiling, "
    "bursting of sealed or blocked vessels; trained staff of a laboratory only.",
    "warm": "Warm the piece in a stirred bath with disconnected ends and a low-voltage "
    "source only, never on the mains.",
}
_STATE_REMARK = (
    "A hard strand reads 30 to 75 whatever its purity; a bad anneal can take a pure "
    "one to 10. Measure hardness first, and say how the piece was annealed."
)


def ratio_in_words(answer: RatioAnswer) -> tuple[str, ...]:
    """Say what a ratio gave, with its budget and what it cannot tell.

    Parameters
    ----------
    answer : RatioAnswer
        From `judge_ratio`.

    Returns
    -------
    tuple of str
        Lines for people.
    """
    lines = [_SAFETY[answer.typed.kind]]
    if answer.warm is not None:
        lines += _warm_lines(answer.warm)
    if answer.residual is not None and answer.purity is not None:
        lines += [*_residual_lines(answer.residual), *_purity_lines(answer.purity)]
    for flag in answer.flags:
        lines.append(f"Keep in mind: {FLAGS[flag.name].meaning}")
    return tuple(lines)


def ratio_data(answer: RatioAnswer) -> dict[str, Any]:
    """Give what a ratio gave as plain data.

    Parameters
    ----------
    answer : RatioAnswer
        From `judge_ratio`.

    Returns
    -------
    dict
        JSON data.
    """
    data: dict[str, Any] = {
        "kind": answer.typed.kind,
        "safety": _SAFETY[answer.typed.kind],
        "flags": [flag.name for flag in answer.flags],
    }
    if answer.warm is not None:
        data["percent_iacs"] = _quantity_data(
            answer.warm.percent_iacs, answer.warm.interval
        )
        data["temperature_coefficient"] = _quantity_data(
            answer.warm.temperature_coefficient
        )
        data["sentence"] = answer.warm.sentence
    if answer.residual is not None and answer.purity is not None:
        data |= _residual_data(answer.residual, answer.purity)
    return data


def ratio_finding(answer: RatioAnswer) -> BenchFinding:
    """Give a ratio in the form that a case holds.

    Parameters
    ----------
    answer : RatioAnswer
        From `judge_ratio`.

    Returns
    -------
    BenchFinding
        A warm ratio bears on performance, a cold one on composition.
    """
    flags = tuple(sorted({flag.name for flag in answer.flags}))
    if answer.warm is not None:
        return BenchFinding(
            method="ratio of resistances near room temperature",
            results=_warm_results(answer.warm),
            bears_on=(ClaimKind.PERFORMANCE,),
            sentence=answer.warm.sentence,
            flags=flags,
        )
    return BenchFinding(
        method=f"ratio of resistances, room over liquid {answer.typed.kind}",
        results=_cold_results(answer.residual, answer.purity),
        bears_on=(ClaimKind.COMPOSITION,),
        sentence=_cold_sentence(answer.residual, answer.purity),
        flags=flags,
    )


def _warm_lines(found: WarmRatioResult) -> list[str]:
    lines = [
        f"Temperature coefficient: {format_quantity(found.temperature_coefficient)}",
        found.sentence,
        f"  {found.band.sentence}",
    ]
    lines += _budget_lines(found.percent_iacs)
    if found.second_opinion is not None:
        second = format_interval(found.second_opinion.monte_carlo)
        lines.append(f"  Monte Carlo: {second}")
    return lines


def _residual_lines(found: ResidualResult) -> list[str]:
    residual = found.residual_resistivity
    half = found.interval.half_width or 0.0
    shown = format_plus_minus(residual.value, half, unit=residual.unit)
    return [
        f"Residual resistivity: {shown} (95 %)",
        *_budget_lines(residual),
        (
            f"Residual ratio R(273 K)/R(4 K): {_ratio_words(found.ratio_273)}; "
            f"R(293 K)/R(4 K): {_ratio_words(found.ratio_293)} (95 %)"
        ),
    ]


def _purity_lines(found: PurityBound) -> list[str]:
    lines = [found.sentence]
    lines += [
        f"  {term.name}: {_short(term.lower)} to {_short(term.upper)} nohm m "
        f"({term.basis})"
        for term in found.other_terms
    ]
    lines.append("If all that is left were one element, in ppm by mass dissolved:")
    for one in found.elements:
        usual = "none left" if one.if_all_ppm is None else _short(one.if_all_ppm)
        lines.append(
            f"  {one.symbol}: {usual}, at most {_short(one.at_most_ppm)}"
            f"{_solubility(one)}"
        )
    lines.append(
        "Claimed nines, all impurities counted: "
        + "; ".join(f"{one.nines}N {one.verdict}" for one in found.nines)
    )
    lines.append(_STATE_REMARK)
    return lines


def _solubility(one: ElementBound) -> str:
    if one.solubility_ppm is None:
        return ""
    if one.solubility_ppm == 0:
        return "; it hardly dissolves, and shows little"
    return (
        f"; beyond about {one.solubility_ppm:g} ppm it is precipitated and hardly shows"
    )


def _budget_lines(quantity: Quantity) -> list[str]:
    return [
        f"  {line.name}: {line.component:.2g} {quantity.unit}"
        for line in quantity.budget
        if line.component > 0
    ]


def _warm_results(found: WarmRatioResult) -> tuple[MeasurementResult, ...]:
    return (
        MeasurementResult(
            name="conductivity_by_ratio",
            value=measured_value(found.percent_iacs, found.interval),
            words=found.sentence,
        ),
        MeasurementResult(
            name="temperature_coefficient",
            value=measured_value(found.temperature_coefficient),
        ),
    )


def _cold_results(
    residual: ResidualResult | None, purity: PurityBound | None
) -> tuple[MeasurementResult, ...]:
    if residual is None or purity is None:
        return ()
    ratio = residual.best_ratio_273
    value = None
    if ratio is not None:
        value = MeasuredValue(
            value=ratio,
            unit="1",
            lower=residual.ratio_273.lower,
            upper=residual.ratio_273.upper,
            confidence=residual.ratio_273.confidence,
            interval_method=residual.ratio_273.method,
        )
    return (
        MeasurementResult(
            name="residual_ratio",
            value=value,
            words=f"R(273 K)/R(4 K): {_ratio_words(residual.ratio_273)} (95 %)",
        ),
        MeasurementResult(
            name="residual_resistivity",
            value=measured_value(residual.residual_resistivity, residual.interval),
        ),
        MeasurementResult(name="purity", value=None, words=purity.sentence),
    )


def _cold_sentence(residual: ResidualResult | None, purity: PurityBound | None) -> str:
    if residual is None or purity is None:
        return ""
    ratio = _ratio_words(residual.ratio_273)
    return f"Residual ratio R(273 K)/R(4 K) {ratio} (95 %). {purity.sentence}"


def _residual_data(residual: ResidualResult, purity: PurityBound) -> dict[str, Any]:
    return {
        "residual_resistivity": _quantity_data(
            residual.residual_resistivity, residual.interval
        ),
        "ratio_273": _interval_data(residual.ratio_273),
        "ratio_293": _interval_data(residual.ratio_293),
        "dissolved_total_ppm": list(purity.dissolved_total_ppm),
        "without_silver_at_most_ppm": purity.without_silver_at_most_ppm,
        "elements": [
            {
                "symbol": one.symbol,
                "if_all_ppm": one.if_all_ppm,
                "at_most_ppm": one.at_most_ppm,
                "solubility_ppm": one.solubility_ppm,
            }
            for one in purity.elements
        ],
        "nines": {f"{one.nines}N": one.verdict for one in purity.nines},
        "sentence": purity.sentence,
    }


def _quantity_data(
    quantity: Quantity, interval: Interval | None = None
) -> dict[str, Any]:
    data: dict[str, Any] = {
        "value": quantity.value,
        "unit": quantity.unit,
        "standard_uncertainty": quantity.standard_uncertainty,
        "budget": [
            {"name": line.name, "component": line.component} for line in quantity.budget
        ],
    }
    return data if interval is None else data | _interval_data(interval)


def _interval_data(interval: Interval) -> dict[str, Any]:
    return {
        "lower": interval.lower,
        "upper": interval.upper,
        "confidence": interval.confidence,
    }


def _ratio_words(ratio: Interval) -> str:
    if ratio.lower is None:
        return "not to be stated"
    if ratio.upper is None:
        return f"{_whole(ratio.lower)} or more"
    return f"{_whole(ratio.lower)} to {_whole(ratio.upper)}"


def _whole(ratio: float) -> str:
    return f"{float(f'{ratio:.3g}'):g}"


def _short(number: float) -> str:
    return f"{float(f'{number:.2g}'):g}"
