"""Numbers and kinds in the words of a report."""

from strandproof.quantity import (
    format_interval,
    format_plus_minus,
    format_quantity,
    unit_text,
)
from strandproof.records.entries import ClaimKind, MeasuredValue, MeasurementResult
from strandproof.records.entries.numbers import interval_of, quantity_of
from strandproof.weighing.wording import ratio_digits

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
    "boundaries_per_mm": "boundaries along the length",
    "events_per_mm": "events (boundaries, stray crystals) along the length",
    "mean_event_distance": "mean length from event to event",
    "places_of_the_events": "where the events lie",
    "mean_intercept_with_twins": "mean lineal intercept, twins counted too",
    "mean_intercept_with_uncertain_marks": (
        "mean lineal intercept, uncertain marks counted too"
    ),
    "parts_of_the_interval": "what is in the interval, and what is not",
    "intervals_by_level": "interval by lead, strand, field, and what each speaks for",
    "scatter_by_level": "scatter between leads, strands, fields",
    "what_more_would_bring": "what further leads, strands, fields would bring",
    "interval_if_wrongly_independent": "interval if strands or fields were independent",
    "copper_area": "copper area by diameter and count",
    "resistance_at_20c": "resistance at 20 °C",
    "conductivity": "conductivity by mass resistivity",
    "volume_resistivity": "volume resistivity by density",
}

_SYMMETRIC_WITHIN = 0.02
_DIGITS_WITHOUT_UNCERTAINTY = 4
_WRITTEN_OUT_BELOW = 1e9


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
        return _without_uncertainty(value)
    if interval.lower is None and interval.upper is None:
        return f"{_without_uncertainty(value)}; {format_interval(interval)}"
    if interval.lower is None or interval.upper is None:
        return format_interval(interval)
    half = (interval.upper - interval.lower) / 2
    middle = (interval.upper + interval.lower) / 2
    confidence = f"({100 * interval.confidence:g} %)"
    if half > 0 and abs(middle - value.value) <= _SYMMETRIC_WITHIN * half:
        return f"{format_plus_minus(value.value, half, unit=value.unit)} {confidence}"
    # The nearer limit decides on the digits: a far one must not round it to zero.
    near = min(value.value - interval.lower, interval.upper - value.value)
    best = format_plus_minus(value.value, near if near > 0 else half, unit=value.unit)
    number, _, rest = best.partition(" ±")
    # "(1.708 ± 0.015) × 10⁻⁸ Ω m": without its half-width the number keeps its power.
    power = rest.partition(")")[2] if number.startswith("(") else ""
    return f"{number.lstrip('(')}{power}; {format_interval(interval)}"


def _without_uncertainty(value: MeasuredValue) -> str:
    unit = "" if value.unit == "1" else f" {unit_text(value.unit)}"
    number = f"{value.value:.{_DIGITS_WITHOUT_UNCERTAINTY}g}"
    if 1 <= abs(value.value) < _WRITTEN_OUT_BELOW:
        number = f"{float(number):.0f}" if "e" in number else number
    return f"{number}{unit}"


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
    words = number_in_words(result)
    return (
        words
        if result.value is None or not result.words
        else f"{words}. {as_sentence(result.words)}"
    )


def number_in_words(result: MeasurementResult) -> str:
    """Say the number of a result without the words that belong to it.

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
    return value_in_words(result.value)


def as_sentence(words: str) -> str:
    """Begin words with a capital and leave the others as they were typed.

    Parameters
    ----------
    words : str
        Words, perhaps a user's own.

    Returns
    -------
    str
        The same with the first letter large.

    Examples
    --------
    >>> as_sentence("kept at Ostrea College")
    'Kept at Ostrea College'
    """
    return words[:1].upper() + words[1:]


def ratio_text(ratio: float | None) -> str:
    """Write a likelihood ratio with the digits of the verbal scale.

    Parameters
    ----------
    ratio : float or None
        The ratio; None when it cannot be stated.

    Returns
    -------
    str
        For example ``"190"``, ``"24.7"``, ``"8.1"`` or ``"0.42"``; never rounded
        into another band of the scale.

    Examples
    --------
    >>> ratio_text(190.0), ratio_text(8.0987), ratio_text(None)
    ('190', '8.1', 'not stated')
    """
    return "not stated" if ratio is None else ratio_digits(ratio)
