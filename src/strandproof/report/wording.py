"""Numbers and kinds in the words of a report."""

from strandproof.quantity import format_interval, format_plus_minus, format_quantity
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
        return f"{value.value:.6g}{'' if value.unit == '1' else ' ' + value.unit}"
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
