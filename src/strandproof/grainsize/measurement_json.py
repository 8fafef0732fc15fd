"""A measurement as plain data, ready for JSON, with a unit beside every number."""

from dataclasses import asdict
from math import isfinite

from strandproof.quantity import Interval, Quantity
from strandproof.records import Flag
from strandproof.records.measurement import (
    AxialCrossings,
    DirectionalIntercept,
    Estimate,
    GrainMeasurement,
    InterceptCount,
    StrandMeasurement,
    StructureMeasurement,
)
from strandproof.records.plain_data import PlainValue

SCHEMA_NAME = "strandproof-measurement"
SCHEMA_VERSION = 1

PlainData = dict[str, PlainValue]


def measurement_as_plain_data(measurement: StructureMeasurement) -> PlainData:
    """Turn a measurement into nested dicts, lists, texts and finite numbers.

    Parameters
    ----------
    measurement : StructureMeasurement
        The measurement.

    Returns
    -------
    dict
        Schema ``"strandproof-measurement"``, version 1. What could not be
        stated is None. Without a scale the keys ``grains_per_mm2`` and
        ``crossings_per_mm`` are None, ``grains_per_px2`` and
        ``crossings_per_px`` hold the values, and every length is in px.

    Notes
    -----
    Test lines are summed up by number and length; their end points stay in the
    record.
    """
    picture = measurement.picture
    return {
        "schema": SCHEMA_NAME,
        "schema_version": SCHEMA_VERSION,
        "method": measurement.method,
        "method_version": measurement.method_version,
        "pixel_size": _optional_quantity(measurement.pixel_size),
        "relations": measurement.relation_form,
        "rules": dict(asdict(measurement.rules)),
        "picture": None if picture is None else _values(picture),
        "strands": [_strand(strand) for strand in measurement.strands],
        "flags": [_flag(flag) for flag in measurement.flags],
    }


def _strand(strand: StrandMeasurement) -> PlainData:
    return {
        "number": strand.number,
        "shape": strand.shape,
        "verdict": strand.verdict,
        "verdict_reason": strand.verdict_reason,
        "axis": {"value": strand.axis_deg, "unit": "deg"},
        "grains_across": strand.grains_across,
        **_values(strand.values),
        "flags": [_flag(flag) for flag in strand.flags],
    }


def _values(values: GrainMeasurement) -> PlainData:
    count, intercepts = values.count, values.intercepts
    return {
        "n_grains": count.grains,
        "n_grains_inside": count.inside,
        "n_grains_cut": count.cut,
        "n_grains_equivalent": count.equivalent,
        "area": _quantity(count.area),
        **_under_unit("grains", values.grains_per_area, scaled="grains_per_mm2"),
        "mean_intercept": _estimate(intercepts.mean_intercept),
        "elongation": intercepts.elongation,
        "g_planimetric": _estimate(values.g_planimetric),
        "g_intercept": _estimate(values.g_intercept),
        **_crossings(values.axial_crossings),
        "lines": _lines(intercepts),
    }


def _crossings(crossings: AxialCrossings | None) -> PlainData:
    if crossings is None:
        return {"crossings_per_mm": None, "axial_lines": None}
    return _under_unit("crossings", crossings.rate, scaled="crossings_per_mm") | {
        "axial_lines": {
            "n_lines": len(crossings.traverses),
            "length": _quantity(crossings.length),
            "n_crossings": crossings.crossings,
            "mean_spacing95": _interval(crossings.mean_spacing95),
            "sentence": crossings.sentence,
        }
    }


def _under_unit(word: str, estimate: Estimate | None, *, scaled: str) -> PlainData:
    """Return the value under a key named for its unit; `scaled` is always there."""
    data: PlainData = {scaled: None}
    if estimate is not None:
        unit = estimate.quantity.unit.removeprefix("1/").replace("^", "")
        data[f"{word}_per_{unit}"] = _estimate(estimate)
    return data


def _lines(intercepts: InterceptCount) -> PlainData:
    return {
        "n_lines": len(intercepts.traverses),
        "length": _quantity(intercepts.length),
        "n_intercepts": intercepts.intercepts,
        "n_blocks": intercepts.blocks,
        "directions": [_direction(each) for each in intercepts.directions],
    }


def _direction(direction: DirectionalIntercept) -> PlainData:
    return {
        "direction_from_axis": {"value": direction.direction_deg, "unit": "deg"},
        "n_lines": direction.lines,
        "length": _quantity(direction.length),
        "n_intercepts": direction.intercepts,
        "mean_intercept": _estimate(direction.mean_intercept),
    }


def _estimate(estimate: Estimate | None) -> PlainData | None:
    if estimate is None:
        return None
    interval = estimate.interval95
    return {
        **_quantity(estimate.quantity),
        "interval95": None if interval is None else _interval(interval),
        "relative_accuracy": None
        if estimate.relative_accuracy_percent is None
        else {"value": estimate.relative_accuracy_percent, "unit": "%"},
    }


def _optional_quantity(quantity: Quantity | None) -> PlainData | None:
    return None if quantity is None else _quantity(quantity)


def _quantity(quantity: Quantity) -> PlainData:
    freedom = quantity.degrees_of_freedom
    return {
        "value": quantity.value,
        "unit": quantity.unit,
        "standard_uncertainty": quantity.standard_uncertainty,
        # JSON has no infinity: None says that the uncertainty is taken as known.
        "degrees_of_freedom": freedom if isfinite(freedom) else None,
    }


def _interval(interval: Interval) -> PlainData:
    return {
        "lower": interval.lower,
        "upper": interval.upper,
        "unit": interval.unit,
        "confidence": interval.confidence,
        "method": interval.method,
    }


def _flag(flag: Flag) -> PlainData:
    return {
        "name": flag.name,
        "detail": flag.detail,
        "strand": flag.strand,
        "meaning": flag.definition.meaning,
        "remedy": flag.definition.remedy,
    }
