"""Measurements as a reader meets them: a sentence, a table, what they bear on."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from strandproof.records import FLAGS, FlagDefinition
from strandproof.records.case_state import CaseState
from strandproof.records.entries import (
    Measurement,
    Micrograph,
    Section,
    Specimen,
)
from strandproof.report.figures import Drawing, Figure
from strandproof.report.keeping import standing_flags
from strandproof.report.pieces import micrograph_measured
from strandproof.report.wording import (
    KIND_WORDS,
    number_in_words,
    result_in_words,
    result_name,
    value_in_words,
)

_SHOWN_ONE_BY_ONE = 3


@dataclass(frozen=True, slots=True)
class Finding:
    """A measurement with its words.

    Parameters
    ----------
    measurement : Measurement
        Its record.
    sentence : str
        What was found, in one sentence.
    rows : tuple of (str, str)
        Name and words of each number.
    bears_on, does_not_bear_on : tuple of str
        Kinds of claim.
    flags : tuple of FlagDefinition
        What is to be kept in mind.
    figure : Figure or None
        The picture measured.
    drawing : Drawing or None
        The numbers behind it, drawn.
    standing : tuple of str
        Open flags of the heat and handling ledger on what it rests on.
    """

    measurement: Measurement
    sentence: str
    rows: tuple[tuple[str, str], ...]
    bears_on: tuple[str, ...]
    does_not_bear_on: tuple[str, ...]
    flags: tuple[FlagDefinition, ...]
    figure: Figure | None
    drawing: Drawing | None
    standing: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class ThirdReading:
    """One row of the program's own readings, where there are many.

    Parameters
    ----------
    measurement : Measurement
        Its record.
    micrograph : str
        Short name of the micrograph.
    mean_intercept, g, grains : str
        Words.
    flags : tuple of FlagDefinition
        What is to be kept in mind.
    standing : tuple of str
        Open flags of the heat and handling ledger on what it rests on.
    """

    measurement: Measurement
    micrograph: str
    mean_intercept: str
    g: str
    grains: str
    flags: tuple[FlagDefinition, ...]
    standing: tuple[str, ...] = ()


def findings(
    state: CaseState,
    figures: tuple[Figure, ...],
    drawings: Mapping[str, Drawing] | None = None,
) -> tuple[Finding, ...]:
    """Give the measurements that are shown one by one.

    Parameters
    ----------
    state : CaseState
        State of the case.
    figures : tuple of Figure
        Micrographs at hand.
    drawings : mapping of str to Drawing, optional
        Drawings of numbers, by short name of the measurement.

    Returns
    -------
    tuple of Finding
        Readings of single micrographs only where there are few.
    """
    shown = {figure.micrograph.id: figure for figure in figures}
    drawn = drawings or {}
    measurements = state.records(Measurement)
    single = [m for m in measurements if micrograph_measured(m)]
    listed = single if len(single) > _SHOWN_ONE_BY_ONE else []
    standing = standing_flags(state)
    return tuple(
        replace(
            _finding(
                state,
                measurement,
                shown.get(micrograph_measured(measurement)),
                drawn.get(measurement.id),
            ),
            standing=standing.on(state, measurement.measures),
        )
        for measurement in measurements
        if measurement not in listed
    )


def third_readings(state: CaseState) -> tuple[ThirdReading, ...]:
    """Give the program's readings of single micrographs, where there are many.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    tuple of ThirdReading
        Empty where they are shown one by one.
    """
    single = [m for m in state.records(Measurement) if micrograph_measured(m)]
    if len(single) <= _SHOWN_ONE_BY_ONE:
        return ()
    standing = standing_flags(state)
    return tuple(
        replace(
            _third_reading(measurement),
            standing=standing.on(state, measurement.measures),
        )
        for measurement in single
    )


def _finding(
    state: CaseState,
    measurement: Measurement,
    figure: Figure | None,
    drawing: Drawing | None,
) -> Finding:
    return Finding(
        measurement=measurement,
        sentence=_sentence(state, measurement),
        rows=tuple(
            (result_name(result.name), result_in_words(result))
            for result in measurement.results
        ),
        bears_on=tuple(KIND_WORDS[kind] for kind in measurement.bears_on),
        does_not_bear_on=tuple(
            KIND_WORDS[kind] for kind in measurement.does_not_bear_on
        ),
        flags=_flags(measurement),
        figure=figure,
        drawing=drawing,
    )


def _flags(measurement: Measurement) -> tuple[FlagDefinition, ...]:
    """Look flags up; one that this program does not know keeps its name."""
    return tuple(
        FLAGS.get(name) or FlagDefinition(name, f"Flag raised: {name}.", "")
        for name in measurement.flags
    )


def _sentence(state: CaseState, measurement: Measurement) -> str:
    where = _where(state, measurement)
    results = {result.name: result for result in measurement.results}
    size = results.get("mean_intercept")
    if size is not None and size.value is not None:
        return (
            f"{where}, the mean lineal intercept between grain boundaries is "
            f"{value_in_words(size.value)}."
        )
    first = measurement.results[0]
    return f"{where}: {result_name(first.name)} {number_in_words(first)}."


def _where(state: CaseState, measurement: Measurement) -> str:
    kind, _, label = measurement.measures.partition("/")
    if kind == "case":
        return "Over the leads examined"
    if kind == "micrograph":
        section = state.record(Section, state.record(Micrograph, label).section)
        specimen = state.record(Specimen, section.specimen)
        return (
            f"On the {section.direction} section {section.id} of specimen "
            f"{specimen.id}, exhibit {specimen.exhibit}, at the place shown"
        )
    if kind == "specimen":
        return f"On specimen {label} of exhibit {state.record(Specimen, label).exhibit}"
    return f"On {kind} {label}"


def _third_reading(measurement: Measurement) -> ThirdReading:
    results = {result.name: result for result in measurement.results}

    def words(name: str) -> str:
        result = results.get(name)
        return "not stated" if result is None else number_in_words(result)

    return ThirdReading(
        measurement=measurement,
        micrograph=micrograph_measured(measurement),
        mean_intercept=words("mean_intercept"),
        g=words("g_intercept"),
        grains=words("grains"),
        flags=_flags(measurement),
    )
