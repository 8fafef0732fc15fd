"""Two readers side by side, as plain data for programs."""

from typing import Any

from strandproof.app.workflow.reading_by_people.comparison import (
    MarkedByBoth,
    ReadersCompared,
)
from strandproof.grainsize.marks import LineMark, MarkCount
from strandproof.quantity import Interval, Quantity
from strandproof.records.measurement import Estimate


def comparison_data(compared: ReadersCompared) -> dict[str, Any]:
    """Give two readers side by side as JSON data.

    Parameters
    ----------
    compared : ReadersCompared
        From `compare_readers`.

    Returns
    -------
    dict
        Agreement, differences with reasons, marks of both on every field, what a hint
        changed since, and the automatic measurements beside them.
    """
    found = compared.verdicts
    return {
        "first": compared.first,
        "second": compared.second,
        "verdicts": {
            "pieces": found.pieces,
            "same": found.same,
            "share95": _interval(found.share95),
            "kappa": found.kappa,
            "kappa95": _interval(found.kappa95),
            "table": [
                {"first": one, "second": other, "pieces": count}
                for (one, other), count in found.table.items()
            ],
        },
        "differences": [
            {
                "reads": each.reads,
                "code": each.code,
                "first": {"verdict": each.first.verdict, "reason": each.first.reason},
                "second": {
                    "verdict": each.second.verdict,
                    "reason": each.second.reason,
                },
            }
            for each in compared.differences
        ],
        "marked": [_field(field) for field in compared.marked],
        "classed_anew": [
            {"reading": each.reading.id, **_count(each.count)}
            for each in compared.classed_anew
        ],
        "not_blind": list(compared.not_blind),
        "third": [
            {"reads": each.reads, **each.measurement.model_dump(mode="json")}
            for each in compared.third
        ],
    }


def _field(field: MarkedByBoth) -> dict[str, Any]:
    found = field.comparison
    return {
        "reads": field.reads,
        "first": _count(field.first),
        "second": _count(field.second),
        "tolerance_px": found.tolerance_px,
        "matched_by_chance": found.matched_by_chance,
        "marks": [
            {
                "line": pair.line,
                "first": _mark(pair.first),
                "second": _mark(pair.second),
                "same": pair.same,
            }
            for pair in found.pairs
        ],
    }


def _count(count: MarkCount) -> dict[str, Any]:
    return {
        "counts": dict(count.counts),
        "length": _quantity(count.length),
        "mean_intercept": _estimate(count.twins_excluded),
        "mean_intercept_with_twins": _estimate(count.twins_counted),
        "mean_intercept_uncertain_counted": _quantity(count.uncertain_counted),
        "tangents_count": count.scores.tangent,
        "mean_intercept_other_tangent_rule": _quantity(count.other_tangent_rule),
    }


def _mark(mark: LineMark | None) -> dict[str, Any] | None:
    if mark is None:
        return None
    return {
        "along_px": mark.along_px,
        "feature": mark.feature,
        "direction_deg": mark.direction_deg,
        "meets": mark.meets,
    }


def _estimate(estimate: Estimate | None) -> dict[str, Any] | None:
    if estimate is None:
        return None
    return {
        **(_quantity(estimate.quantity) or {}),
        "interval95": _interval(estimate.interval95),
    }


def _quantity(quantity: Quantity | None) -> dict[str, Any] | None:
    return (
        None if quantity is None else {"value": quantity.value, "unit": quantity.unit}
    )


def _interval(interval: Interval | None) -> dict[str, Any] | None:
    if interval is None:
        return None
    return {
        "lower": interval.lower,
        "upper": interval.upper,
        "unit": interval.unit,
        "method": interval.method,
    }
