"""The use case that turns readers' counts into a grain size by lead."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from strandproof.app.workflow.entering import Desk, open_case
from strandproof.app.workflow.readings import section_read
from strandproof.errors import ParameterError
from strandproof.grainsize import (
    FieldCount,
    NestedMeans,
    intercept_g,
    intercept_g_estimate,
    nested_means,
    reader_agreement,
)
from strandproof.records.case_state import CaseState
from strandproof.records.entries import (
    Calibration,
    ClaimKind,
    ConductorType,
    Control,
    Entry,
    MeasuredValue,
    Measurement,
    MeasurementResult,
    Reading,
    Section,
    Specimen,
)
from strandproof.records.entries.numbers import measured_value
from strandproof.storage import Addition

_BEARS_ON = (ClaimKind.CRYSTAL_STATE,)
_MICROMETRES_PER_MILLIMETRE = 1000.0


@dataclass(frozen=True, slots=True)
class ReadersAsked:
    """Whose readings make a grain size, and by which scale.

    Parameters
    ----------
    counter : str
        Reader whose counts on test lines are used.
    second : str
        Reader whose verdicts are compared with the counter's; empty for none.
    calibration : str
        Calibration of the fields.
    """

    counter: str
    second: str
    calibration: str


def combine_readings(desk: Desk, label: str, readers: ReadersAsked) -> Entry:
    """Combine a reader's counts to a mean intercept with its interval by lead.

    Readings with test lines count; those without are verdicts, compared between
    the two readers. Sections of controls, transverse sections and fields that were
    not readable are left out of the mean.

    Parameters
    ----------
    desk : Desk
        Folder and person.
    label : str
        Short name of the measurement.
    readers : ReadersAsked
        Whose readings.

    Returns
    -------
    Entry
        The measurement as entered.
    """
    state = open_case(desk.folder)
    counts = _field_counts(state, readers)
    means = nested_means(counts)
    body = Measurement(
        id=label,
        measures="case/" + state.case.id,
        method=(
            f"lineal intercepts counted by {readers.counter} on longitudinal sections; "
            f"{len(means.lead_means_um)} leads, {means.strands} strands, "
            f"{means.fields} fields; twins excluded"
        ),
        method_version="interval by lead",
        results=_results(means, _agreement(state, readers)),
        verdict="poly",
        flags=_flags(state, counts, means),
        bears_on=_BEARS_ON,
        does_not_bear_on=tuple(kind for kind in ClaimKind if kind not in _BEARS_ON),
        measured_at=desk.clock(),
        measured_by=readers.counter,
    )
    return desk.add(Addition(body))[0]


def _field_counts(state: CaseState, readers: ReadersAsked) -> tuple[FieldCount, ...]:
    """Give what was counted on test lines along the strands of the product.

    Raises
    ------
    ParameterError
        If the counter counted nothing there.
    """
    um_per_px = state.record(Calibration, readers.calibration).pixel_size.value
    controls = {control.specimen for control in state.records(Control)}
    counts = tuple(
        _field_count(state, reading, section, reading.line_length_px * um_per_px)
        for reading in state.records(Reading)
        if reading.reader == readers.counter
        and reading.line_length_px is not None
        and reading.verdict != "not_readable"
        and (section := section_read(state, reading)) is not None
        and section.direction == "longitudinal"
        and section.specimen not in controls
    )
    if not counts:
        raise ParameterError(
            "counter",
            readers.counter,
            allowed="a reader with counts on test lines of long sections in this case",
        )
    return counts


def _field_count(
    state: CaseState, reading: Reading, section: Section, line_length_um: float
) -> FieldCount:
    counts = reading.counts or Counter(mark.feature for mark in reading.marks)
    return FieldCount(
        lead=state.record(Specimen, section.specimen).exhibit,
        strand=section.specimen,
        field=reading.id,
        line_length_um=line_length_um,
        boundaries=counts.get("boundary", 0),
        twins=counts.get("twin", 0),
    )


def _agreement(state: CaseState, readers: ReadersAsked) -> MeasurementResult:
    """Compare the verdicts of the two readers.

    Raises
    ------
    ParameterError
        If the second reader read nothing in this case.
    """
    known = {reading.reader for reading in state.records(Reading)}
    if readers.second and readers.second not in known:
        raise ParameterError(
            "second",
            readers.second,
            allowed="a reader with verdicts in this case, or nobody",
        )
    verdicts: dict[str, dict[str, str]] = {}
    for reading in state.records(Reading):
        if reading.line_length_px is None and _is_planned(state, reading):
            verdicts.setdefault(reading.reads, {})[reading.reader] = reading.verdict
    both = [
        (by[readers.counter], by[readers.second])
        for by in verdicts.values()
        if {readers.counter, readers.second} <= by.keys()
    ]
    if not both:
        return MeasurementResult(
            name="agreement_of_readers", value=None, words="no second reader"
        )
    found = reader_agreement([one for one, _ in both], [two for _, two in both])
    kappa = "not defined" if found.kappa is None else f"{found.kappa:.2f}"
    words = (
        f"{readers.counter} and {readers.second} agree on {found.same} of "
        f"{found.pieces} sections, Cohen's kappa {kappa}, not readable included"
    )
    return MeasurementResult(name="agreement_of_readers", value=None, words=words)


def _is_planned(state: CaseState, reading: Reading) -> bool:
    """Tell readings of the first bench from controls that were added later."""
    section = section_read(state, reading)
    late = {c.specimen for c in state.records(Control) if c.note == "added later"}
    return section is not None and section.specimen not in late


def _results(
    means: NestedMeans, agreement: MeasurementResult
) -> tuple[MeasurementResult, ...]:
    size, g = means.by_lead, intercept_g_estimate(means.by_lead)
    leads = "; ".join(f"{lead} {mean:.2f} µm" for lead, mean in means.lead_means_um)
    with_twins = means.with_twins_um
    g_with_twins = intercept_g(with_twins / _MICROMETRES_PER_MILLIMETRE)
    return (
        MeasurementResult(
            name="mean_intercept",
            value=measured_value(size.quantity, size.interval95),
            words=f"By lead: {leads}. Twins excluded.",
        ),
        MeasurementResult(
            name="relative_accuracy",
            value=MeasuredValue(value=size.relative_accuracy_percent or 0.0, unit="%"),
            words="half the interval by lead in percent of the mean",
        ),
        MeasurementResult(
            name="g_intercept", value=measured_value(g.quantity, g.interval95)
        ),
        MeasurementResult(
            name="mean_intercept_with_twins",
            value=MeasuredValue(value=with_twins, unit="um"),
            words=f"Twins counted as boundaries, for comparison: G {g_with_twins:.1f}.",
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
        agreement,
    )


def _flags(
    state: CaseState, counts: Sequence[FieldCount], means: NestedMeans
) -> tuple[str, ...]:
    """Flag a strand that is few grains wide, where its width is in the case."""
    widths = _strand_widths_um(state, {count.strand for count in counts})
    mean = means.by_lead.quantity.value
    if widths and min(widths) / mean < 10:
        return ("few_grains_across",)
    return ()


def _strand_widths_um(state: CaseState, strands: set[str]) -> Sequence[float]:
    used = {state.record(Specimen, strand).conductor_type for strand in strands}
    return [
        kind.strand_diameter.value * _MICROMETRES_PER_MILLIMETRE
        for kind in state.records(ConductorType)
        if kind.strand_diameter is not None and kind.id in used
    ]
