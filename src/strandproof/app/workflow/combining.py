"""The use case that turns readers' counts into a grain size by lead."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from strandproof.app.workflow.combining_results import grain_size_results
from strandproof.app.workflow.entering import Desk, open_case
from strandproof.app.workflow.readings import section_read
from strandproof.errors import ParameterError
from strandproof.grainsize import (
    FieldCount,
    NestedMeans,
    nested_means,
    reader_agreement,
)
from strandproof.grainsize.by_level import DetectionRates, KnownPiece
from strandproof.records.case_state import CaseState
from strandproof.records.entries import (
    Calibration,
    ClaimKind,
    ConductorType,
    Control,
    Entry,
    Measurement,
    MeasurementResult,
    Reading,
    Section,
    Specimen,
)
from strandproof.records.entries.numbers import quantity_of
from strandproof.records.preparation import preparation_flags
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
    known : tuple of KnownPiece
        Known pieces like these strands, all of one family, that the counter read
        in the same way; empty for none.
    """

    counter: str
    second: str
    calibration: str
    known: tuple[KnownPiece, ...] = ()


def combine_readings(desk: Desk, label: str, readers: ReadersAsked) -> Entry:
    """Combine a reader's counts to a mean intercept with its intervals by level.

    Readings with test lines count; those without are verdicts, compared between
    the two readers. Sections of controls, transverse sections and fields that were
    not readable are left out of the mean. The interval by lead joins the calibration
    and, where known pieces are given, the boundaries missed and falsely reported.

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
    counts = field_counts(state, readers)
    means = nested_means(counts)
    results = grain_size_results(
        means,
        pixel_size=quantity_of(
            state.record(Calibration, readers.calibration).pixel_size
        ),
        rates=_rates(readers.known),
    )
    body = Measurement(
        id=label,
        measures="case/" + state.case.id,
        method=(
            f"lineal intercepts counted by {readers.counter} on longitudinal sections; "
            f"{len(means.lead_means_um)} leads, {means.strands} strands, "
            f"{means.fields} fields; twins excluded"
        ),
        method_version="interval by lead",
        results=(*results, _agreement(state, readers)),
        verdict="poly",
        flags=_flags(state, counts, means),
        bears_on=_BEARS_ON,
        does_not_bear_on=tuple(kind for kind in ClaimKind if kind not in _BEARS_ON),
        measured_at=desk.clock(),
        measured_by=readers.counter,
    )
    return desk.add(Addition(body))[0]


def known_pieces_of(rows: Sequence[Mapping[str, Any]]) -> tuple[KnownPiece, ...]:
    """Build known pieces from typed fields.

    Parameters
    ----------
    rows : sequence of mapping
        Fields of `KnownPiece`, one mapping for each piece.

    Returns
    -------
    tuple of KnownPiece
        In order.

    Notes
    -----
    Refuses a field that is missing or unknown, and a count that is not whole.
    """
    return tuple(_known_piece(row) for row in rows)


def _known_piece(row: Mapping[str, Any]) -> KnownPiece:
    counted = ("shown", "found", "false")
    fields = set(row) == {"name", "family", *counted}
    if not fields or any(type(row[each]) is not int for each in counted):
        raise ParameterError(
            "known",
            dict(row),
            allowed="name, family, and whole numbers shown, found and false",
        )
    return KnownPiece(
        name=str(row["name"]),
        family=str(row["family"]),
        shown=row["shown"],
        found=row["found"],
        false=row["false"],
    )


def _rates(known: tuple[KnownPiece, ...]) -> DetectionRates | None:
    if not known:
        return None
    return DetectionRates(family=known[0].family, pieces=known)


def field_counts(state: CaseState, readers: ReadersAsked) -> tuple[FieldCount, ...]:
    """Give what was counted on test lines along the strands of the product.

    Parameters
    ----------
    state : CaseState
        State of the case.
    readers : ReadersAsked
        Whose counts, and by which scale.

    Returns
    -------
    tuple of FieldCount
        In the order of entry.

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
        section=section.id,
        boundaries=counts.get("boundary", 0),
        twins=counts.get("twin", 0),
        uncertain=counts.get("uncertain", 0),
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


def _flags(
    state: CaseState, counts: Sequence[FieldCount], means: NestedMeans
) -> tuple[str, ...]:
    """Flag a strand few grains wide, where that is known, and preparation logs."""
    widths = _strand_widths_um(state, {count.strand for count in counts})
    mean = means.by_lead.quantity.value
    few = bool(widths) and min(widths) / mean < 10
    prepared = preparation_flags(state, [count.section for count in counts])
    return (*(("few_grains_across",) if few else ()), *prepared)


def _strand_widths_um(state: CaseState, strands: set[str]) -> Sequence[float]:
    used = {state.record(Specimen, strand).conductor_type for strand in strands}
    return [
        kind.strand_diameter.value * _MICROMETRES_PER_MILLIMETRE
        for kind in state.records(ConductorType)
        if kind.strand_diameter is not None and kind.id in used
    ]
