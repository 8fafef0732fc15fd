"""Use cases that set readings side by side: two readers, and the program as a third."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from strandproof.app.workflow.entering import open_case
from strandproof.app.workflow.reading_by_people.measured import count_of_reading
from strandproof.app.workflow.reading_by_people.state import (
    locked_version,
    marked_lines,
    placed_line,
)
from strandproof.app.workflow.readings import section_read
from strandproof.errors import ParameterError, ReadingsOpenError
from strandproof.grainsize import ReaderAgreement, reader_agreement
from strandproof.grainsize.marks import (
    MarkComparison,
    MarkCount,
    MarkedLine,
    compare_marks,
)
from strandproof.records.case_state import CaseState
from strandproof.records.entries import (
    Measurement,
    Micrograph,
    Reading,
)

SAME_MARK_PX = 4.0
"""How far apart two readers' marks may lie to be the same one [px]; judgement."""

_AUTOMATIC = "automatic grain measurement"


@dataclass(frozen=True, slots=True, kw_only=True)
class VerdictDifference:
    """A thing that two readers judged differently, with both reasons.

    Parameters
    ----------
    reads : str
        What was read, as kind and name.
    code : str
        Its blind code; empty where it has none.
    first, second : Reading
        The locked readings.
    """

    reads: str
    code: str
    first: Reading
    second: Reading


@dataclass(frozen=True, slots=True, kw_only=True)
class MarkedByBoth:
    """A field that two readers marked on the same lines.

    Parameters
    ----------
    reads : str
        What was read, as kind and name.
    first_lines, second_lines : tuple of MarkedLine
        The lines with each reader's marks, as locked.
    first, second : MarkCount
        What each reader's marks give.
    comparison : MarkComparison
        Which marks are the same.
    """

    reads: str
    first_lines: tuple[MarkedLine, ...]
    second_lines: tuple[MarkedLine, ...]
    first: MarkCount
    second: MarkCount
    comparison: MarkComparison


@dataclass(frozen=True, slots=True, kw_only=True)
class ClassedAnew:
    """A reading whose marks were classed anew after the hint.

    Parameters
    ----------
    reading : Reading
        The version that holds now; the locked one is what is compared.
    count : MarkCount
        What its marks give now.
    """

    reading: Reading
    count: MarkCount


@dataclass(frozen=True, slots=True, kw_only=True)
class ThirdReading:
    """What the automatic measurement says of the same field, beside the readers.

    Parameters
    ----------
    reads : str
        What was measured, as kind and name.
    measurement : Measurement
        The measurement in the case.
    """

    reads: str
    measurement: Measurement


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadersCompared:
    """Two readers side by side.

    Parameters
    ----------
    first, second : str
        The readers.
    verdicts : ReaderAgreement
        Agreement on everything that both judged.
    things : tuple of str
        What both judged, in the order of the agreement.
    differences : tuple of VerdictDifference
        Where they differ.
    marked : tuple of MarkedByBoth
        Fields that both marked on the same lines.
    classed_anew : tuple of ClassedAnew
        Readings on those lines that a hint changed since.
    not_blind : tuple of str
        Short names of readings whose reader knew which piece it was.
    third : tuple of ThirdReading
        Automatic measurements of what both judged; they decide nothing.
    """

    first: str
    second: str
    verdicts: ReaderAgreement
    things: tuple[str, ...]
    differences: tuple[VerdictDifference, ...]
    marked: tuple[MarkedByBoth, ...]
    classed_anew: tuple[ClassedAnew, ...]
    not_blind: tuple[str, ...]
    third: tuple[ThirdReading, ...]


def compare_readers(
    folder: Path, first: str, second: str, *, tolerance_px: float = SAME_MARK_PX
) -> ReadersCompared:
    """Set two readers' locked readings side by side.

    The versions that were locked are compared, not what a hint made of them. Where a
    reader judged a thing in words and also counted on it, the words are the verdict.

    Parameters
    ----------
    folder : Path
        Folder of the case.
    first, second : str
        The readers.
    tolerance_px : float
        How far apart two marks may lie to be the same one [px].

    Returns
    -------
    ReadersCompared
        Agreement, differences with reasons, marks, and the program's reading.

    Raises
    ------
    ReadingsOpenError
        If a reading that would be shown is not locked.
    ParameterError
        If the two judged nothing in common.
    """
    state = open_case(folder)
    mine, theirs = _by_thing(state, first), _by_thing(state, second)
    things = tuple(thing for thing in mine if thing in theirs)
    if not things or first == second:
        raise ParameterError(
            "readers",
            (first, second),
            allowed="two readers with readings of the same section or micrograph",
            remedy=f"Readers in this case: {', '.join(_readers(state)) or 'none'}.",
        )
    shown = [r for t in things for r in (*mine[t], *theirs[t])]
    still_open = [r.id for r in shown if locked_version(state, r.id) is None]
    if still_open:
        raise ReadingsOpenError("A comparison of readers", tuple(still_open))
    verdicts = [
        (_verdict(state, mine[thing]), _verdict(state, theirs[thing]))
        for thing in things
    ]
    return ReadersCompared(
        first=first,
        second=second,
        verdicts=reader_agreement(
            [one.verdict for one, _ in verdicts],
            [other.verdict for _, other in verdicts],
        ),
        things=things,
        differences=tuple(
            VerdictDifference(
                reads=thing, code=_code(state, one), first=one, second=other
            )
            for thing, (one, other) in zip(things, verdicts, strict=True)
            if one.verdict != other.verdict
        ),
        marked=tuple(
            _marked(state, one, other, tolerance_px)
            for thing in things
            for one, other in _on_same_lines(state, mine[thing], theirs[thing])
        ),
        classed_anew=tuple(
            ClassedAnew(reading=each, count=count_of_reading(state, each))
            for each in shown
            if each.after_hint and each.line_length_px is not None
        ),
        not_blind=tuple(each.id for each in shown if not each.blind),
        third=_third_readings(state, things),
    )


def _by_thing(state: CaseState, reader: str) -> dict[str, list[Reading]]:
    found: dict[str, list[Reading]] = {}
    for reading in state.records(Reading):
        if reading.reader == reader:
            found.setdefault(reading.reads, []).append(reading)
    return {thing: _judging(readings) for thing, readings in found.items()}


def _judging(readings: Sequence[Reading]) -> list[Reading]:
    """Leave out mere counts of a thing that was also judged in words or marked."""
    judged = [r for r in readings if r.line_length_px is None or r.test_lines]
    return judged or list(readings)


def _verdict(state: CaseState, readings: Sequence[Reading]) -> Reading:
    in_words = [r for r in readings if r.line_length_px is None]
    chosen = (in_words or readings)[0]
    return locked_version(state, chosen.id) or chosen


def _on_same_lines(
    state: CaseState, first: Sequence[Reading], second: Sequence[Reading]
) -> Iterator[tuple[Reading, Reading]]:
    for mine in first:
        for theirs in second:
            one = locked_version(state, mine.id) or mine
            other = locked_version(state, theirs.id) or theirs
            if one.test_lines and _places(one) == _places(other):
                yield one, other


def _places(reading: Reading) -> list[object]:
    return [placed_line(line) for line in reading.test_lines]


def _marked(
    state: CaseState, one: Reading, other: Reading, tolerance_px: float
) -> MarkedByBoth:
    first = marked_lines(one.test_lines, one.marks)
    second = marked_lines(other.test_lines, other.marks)
    return MarkedByBoth(
        reads=one.reads,
        first_lines=first,
        second_lines=second,
        first=count_of_reading(state, one),
        second=count_of_reading(state, other),
        comparison=compare_marks(first, second, tolerance_px=tolerance_px),
    )


def _third_readings(
    state: CaseState, things: Sequence[str]
) -> tuple[ThirdReading, ...]:
    pictures = {
        f"micrograph/{m.id}": f"section/{m.section}" for m in state.records(Micrograph)
    }
    return tuple(
        ThirdReading(reads=each.measures, measurement=each)
        for each in state.records(Measurement)
        if each.method.startswith(_AUTOMATIC)
        and (each.measures in things or pictures.get(each.measures) in things)
    )


def _code(state: CaseState, reading: Reading) -> str:
    section = section_read(state, reading)
    return "" if section is None else section.blind_code


def _readers(state: CaseState) -> tuple[str, ...]:
    return tuple(dict.fromkeys(r.reader for r in state.records(Reading)))
