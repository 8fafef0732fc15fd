"""The numbers and sentences of a grain size that was combined from many fields."""

from collections.abc import Sequence

from strandproof.grainsize import NestedMeans, intercept_g, intercept_g_estimate
from strandproof.grainsize.by_level import (
    DetectionRates,
    Part,
    calibration_part,
    detection_part,
    expected_gains,
    gain_in_words,
    joined_estimate,
    rule_part,
)
from strandproof.quantity import Quantity, coverage_factor, format_interval
from strandproof.records.entries import MeasuredValue, MeasurementResult
from strandproof.records.entries.numbers import measured_value
from strandproof.records.measurement import Estimate

_MICROMETRES_PER_MILLIMETRE = 1000.0
_CONFIDENCE = 0.95


def grain_size_results(
    means: NestedMeans, *, pixel_size: Quantity, rates: DetectionRates | None
) -> tuple[MeasurementResult, ...]:
    """Give the results of a combined grain size.

    Parameters
    ----------
    means : NestedMeans
        Means, intervals and components by level.
    pixel_size : Quantity
        Pixel size [um] that the lengths were taken with.
    rates : DetectionRates or None
        Boundaries missed and falsely reported on known pieces; None where no
        such piece was read.

    Returns
    -------
    tuple of MeasurementResult
        The mean with its joined interval first.
    """
    parts = [calibration_part(pixel_size)]
    if rates is not None:
        parts.append(detection_part(rates.correction(fields=1)))
    size = joined_estimate(means.by_lead, parts)
    g = intercept_g_estimate(size)
    leads = "; ".join(f"{lead} {mean:.2f} µm" for lead, mean in means.lead_means_um)
    corrected = (
        f" Corrected by {parts[-1].factor:.3f} for boundaries missed and falsely "
        "reported; the leads' means are not."
        if rates is not None
        else ""
    )
    return (
        MeasurementResult(
            name="mean_intercept",
            value=measured_value(size.quantity, size.interval95),
            words=f"By lead: {leads}. Twins excluded.{corrected}",
        ),
        MeasurementResult(
            name="relative_accuracy",
            value=MeasuredValue(value=size.relative_accuracy_percent or 0.0, unit="%"),
            words="half the interval by lead in percent of the mean",
        ),
        MeasurementResult(
            name="g_intercept", value=measured_value(g.quantity, g.interval95)
        ),
        *_compared(means),
        MeasurementResult(
            name="parts_of_the_interval",
            value=None,
            words=_parts_in_words(means, parts, rates),
        ),
        MeasurementResult(
            name="intervals_by_level", value=None, words=_levels_in_words(means)
        ),
        MeasurementResult(
            name="scatter_by_level", value=None, words=_scatter_in_words(means)
        ),
        MeasurementResult(
            name="what_more_would_bring", value=None, words=_gains_in_words(means)
        ),
        MeasurementResult(
            name="interval_if_wrongly_independent",
            value=None,
            words=(
                f"± {means.interval_as_if_strands_um:.2f} µm by strand and "
                f"± {means.interval_as_if_fields_um:.2f} µm by field: too narrow, "
                "since strands and fields of one lead are not independent"
            ),
        ),
    )


def _compared(means: NestedMeans) -> tuple[MeasurementResult, ...]:
    """Means by other counting rules, for comparison only."""
    with_twins, with_uncertain = means.with_twins_um, means.with_uncertain_um
    g_with_twins = intercept_g(with_twins / _MICROMETRES_PER_MILLIMETRE)
    moved = 100 * (with_uncertain / means.by_lead.quantity.value - 1)
    return (
        MeasurementResult(
            name="mean_intercept_with_twins",
            value=MeasuredValue(value=with_twins, unit="um"),
            words=f"Twins counted as boundaries, for comparison: G {g_with_twins:.1f}.",
        ),
        MeasurementResult(
            name="mean_intercept_with_uncertain_marks",
            value=MeasuredValue(value=with_uncertain, unit="um"),
            words=f"Uncertain marks counted as boundaries, for comparison: "
            f"{_signed(moved)} %.",
        ),
    )


def _parts_in_words(
    means: NestedMeans, parts: Sequence[Part], rates: DetectionRates | None
) -> str:
    """Say what the interval holds, what it does not, and what the rule would add."""
    sampling = means.by_lead.relative_accuracy_percent or 0.0
    within = [f"sampling by lead ± {sampling:.2g} %"]
    within += [f"{part.name} ± {100 * _expanded(part):.2g} %" for part in parts]
    said = [f"Joined in squares: {'; '.join(within)}."]
    if rates is None:
        said.append(
            "Not in it: boundaries missed or falsely reported, since no known pieces "
            "like these were given."
        )
    else:
        missed, false = rates.missed_share95(), rates.false_per_boundary95()
        said.append(
            f"On the known pieces {rates.shown - rates.found} of {rates.shown} "
            f"boundaries were missed (share {format_interval(missed)}) and "
            f"{rates.false} falsely reported (a boundary {format_interval(false)})."
        )
    moved = means.with_uncertain_um / means.by_lead.quantity.value - 1
    rule = rule_part("uncertain marks in or out", relative_half_width=moved)
    whole = joined_estimate(means.by_lead, (*parts, rule))
    said.append(
        f"With uncertain marks in or out as a further part: "
        f"± {whole.relative_accuracy_percent or 0.0:.2g} %."
    )
    return " ".join(said)


def _expanded(part: Part) -> float:
    factor = coverage_factor(_CONFIDENCE, degrees_of_freedom=part.degrees_of_freedom)
    return factor * part.relative_standard_uncertainty


def _levels_in_words(means: NestedMeans) -> str:
    """Say the interval of every level and what it speaks for."""
    return " ".join(
        f"By {each.level} ± {_half_width(each.estimate):.2f} µm "
        f"({each.degrees_of_freedom} degrees of freedom), for {each.speaks_for}."
        for each in means.levels
    )


def _half_width(estimate: Estimate) -> float:
    interval = estimate.interval95
    return (interval.half_width or 0.0) if interval is not None else 0.0


def _scatter_in_words(means: NestedMeans) -> str:
    """Say the standard deviation of every level."""
    said = "; ".join(
        f"by {each.level} {each.standard_deviation:.2f} µm "
        f"({each.degrees_of_freedom} degrees of freedom)"
        for each in means.components.components
    )
    return f"Standard deviations of a mixed model (REML): {said}."


def _gains_in_words(means: NestedMeans) -> str:
    """Say what one more unit and five more of every level would bring."""
    gains = expected_gains(means.components, more=(1, 5))
    said = "; ".join(gain_in_words(gain) for gain in gains)
    return f"Relative accuracy to expect from sampling, {said}."


def _signed(percent: float) -> str:
    return f"{percent:+.1f}".replace("-", "−")
