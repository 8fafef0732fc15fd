"""Numbers and kinds in the words of a report."""

from strandproof.quantity import (
    format_interval,
    format_plus_minus,
    format_quantity,
    unit_text,
)
from strandproof.records.entries import ClaimKind, MeasuredValue, MeasurementResult
from strandproof.records.entries.numbers import interval_of, quantity_of

KIND_WORDS = {
    ClaimKind.COMPOSITION: "composition",
    ClaimKind.OXYGEN: "oxygen",
    ClaimKind.CASTING_ROUTE: "casting route",
    ClaimKind.CRYSTAL_STATE: "crystal state of the finished strand",
    ClaimKind.BUILD: "build (metal, plating, gauge, strand count)",
    ClaimKind.PERFORMANCE: "performance",
}

_RESULT_WORDS = {
    "grains": "grains seen",
    "grains_per_mm2": "grains per area",
    "mean_intercept": "mean lineal intercept",
    "g_planimetric": "grain size number G, planimetric",
    "g_intercept": "grain size number G, by intercepts",
    "crossings_per_mm": "boundaries crossed along the axis",
    "mean_intercept_with_twins": "the same with twins counted as boundaries",
    "interval_if_wrongly_independent": "interval if strands or fields were independent",
    "copper_area": "copper area by diameter and count",
    "resistance_at_20c": "resistance at 20 °C",
    "conductivity": "conductivity by mass resistivity",
    "volume_resistivity": "volume resistivity by density",
}

_SYMMETRIC_WITHIN = 0.02


def value_in_words(value: MeasuredValue) -> str:
    """Say a number with its interval, to the digits that it deserves.

    Parameters
    ----------
    value : MeasuredValue
        As the case holds it.

    Returns
    -------
    str
        Value and interval; "±" only where the interval is symmetric.

    Examples
    --------
    >>> value_in_words(
    ...     MeasuredValue(value=8.444, unit="um", lower=7.661, upper=9.227,
    ...                   confidence=0.95)
    ... )
    '8.4 ± 0.8 µm (95 %)'
    """
    interval = interval_of(value)
    if interval is None:
        if value.standard_uncertainty:
            return format_quantity(quantity_of(value))
        unit = "" if value.unit == "1" else f" {unit_text(value.unit)}"
        return f"{value.value:.4g}{unit}"
    if interval.lower is None or interval.upper is None:
        return format_interval(interval)
    half = (interval.upper - interval.lower) / 2
    middle = (interval.upper + interval.lower) / 2
    confidence = f"({100 * interval.confidence:g} %)"
    if half > 0 and abs(middle - value.value) <= _SYMMETRIC_WITHIN * half:
        return f"{format_plus_minus(value.value, half, unit=value.unit)} {confidence}"
    best = format_plus_minus(value.value, half, unit=value.unit).partition(" ±")[0]
    return f"{best.lstrip('(')}; {format_interval(interval)}"


def result_name(name: str) -> str:
    """Give the name of a result as it reads in a table.

    Parameters
    ----------
    name : str
        Name in the record.

    Returns
    -------
    str
        Words.
    """
    return _RESULT_WORDS.get(name, name.replace("_", " "))


def result_in_words(result: MeasurementResult) -> str:
    """Say one result of a measurement.

    Parameters
    ----------
    result : MeasurementResult
        As the case holds it.

    Returns
    -------
    str
        The number with its interval, or why there is none.
    """
    if result.value is None:
        return result.words or "not stated"
    words = value_in_words(result.value)
    return f"{words}. {result.words}" if result.words else words


def ratio_text(ratio: float | None) -> str:
    """Write a likelihood ratio with two digits, or three from 100.

    Parameters
    ----------
    ratio : float or None
        The ratio; None when it cannot be stated.

    Returns
    -------
    str
        For example ``"190"``, ``"8.1"`` or ``"0.42"``.

    Examples
    --------
    >>> ratio_text(190.0), ratio_text(8.0987), ratio_text(None)
    ('190', '8.1', 'not stated')
    """
    if ratio is None:
        return "not stated"
    return f"{ratio:.0f}" if ratio >= 100 else f"{ratio:.2g}"
