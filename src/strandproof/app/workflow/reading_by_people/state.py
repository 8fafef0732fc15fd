"""What a case says about a reading: its lock, its versions, its marked lines."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from strandproof.app.workflow.reading_locks import locks_of
from strandproof.grainsize.marks import (
    CircularTestLine,
    LineMark,
    MarkedLine,
    PlacedLine,
    StraightTestLine,
    placed_mark,
)
from strandproof.records.case_state import CaseState
from strandproof.records.entries import Entry, Reading, ReadingMark
from strandproof.records.entries.laboratory import ReadingLine

Standing = Literal["open", "locked", "after the hint", "changed after locking"]


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadingVersion:
    """One version of a reading.

    Parameters
    ----------
    entry : Entry
        The entry that made it.
    reading : Reading
        What it says.
    standing : str
        ``"open"`` before any lock, ``"locked"`` for the version that was locked,
        ``"after the hint"`` for one classed anew, and ``"changed after locking"`` for
        one that came to be in another way.
    """

    entry: Entry
    reading: Reading
    standing: Standing


def reading_versions(state: CaseState, label: str) -> tuple[ReadingVersion, ...]:
    """Give every version of a reading, in order; none is ever lost.

    Parameters
    ----------
    state : CaseState
        State of the case.
    label : str
        Short name of the reading.

    Returns
    -------
    tuple of ReadingVersion
        At most one of them is the locked one.
    """
    locks = locks_of(state, label)
    locked_at = locks[0].number if locks else None
    made = [
        (entry, entry.body)
        for entry in state.entries
        if isinstance(entry.body, Reading) and entry.body.id == label
    ]
    before = [entry.number for entry, _ in made if entry.number < (locked_at or 0)]

    def standing(entry: Entry, reading: Reading) -> Standing:
        if locked_at is None or entry.number < before[-1]:
            return "open"
        if entry.number == before[-1]:
            return "locked"
        return "after the hint" if reading.after_hint else "changed after locking"

    return tuple(
        ReadingVersion(entry=entry, reading=body, standing=standing(entry, body))
        for entry, body in made
    )


def locked_version(state: CaseState, label: str) -> Reading | None:
    """Give the version of a reading that was locked.

    Parameters
    ----------
    state : CaseState
        State of the case.
    label : str
        Short name of the reading.

    Returns
    -------
    Reading or None
        None for a reading that is open.
    """
    for version in reading_versions(state, label):
        if version.standing == "locked":
            return version.reading
    return None


def marked_lines(
    lines: Sequence[ReadingLine], marks: Sequence[ReadingMark]
) -> tuple[MarkedLine, ...]:
    """Give test lines with the marks on them.

    Parameters
    ----------
    lines : sequence of ReadingLine
        Test lines of a reading.
    marks : sequence of ReadingMark
        Its marks.

    Returns
    -------
    tuple of MarkedLine
        One for each test line, marked or not.
    """
    return tuple(
        MarkedLine(
            line=placed_line(line),
            marks=tuple(
                on_line(placed_line(line), mark)
                for mark in marks
                if mark.line == line.number
            ),
            starts_in=line.starts_in,
        )
        for line in lines
    )


def metal_length_px(
    lines: Sequence[ReadingLine], marks: Sequence[ReadingMark]
) -> float | None:
    """Give the length of all test lines in metal.

    Parameters
    ----------
    lines : sequence of ReadingLine
        Test lines of a reading.
    marks : sequence of ReadingMark
        Its marks; strand edges part metal from resin.

    Returns
    -------
    float or None
        Length [px]; None where no line lies in metal.
    """
    return sum(marked.metal_px for marked in marked_lines(lines, marks)) or None


def on_line(line: PlacedLine, mark: ReadingMark) -> LineMark:
    """Put a mark of the case onto its test line.

    Parameters
    ----------
    line : StraightTestLine or CircularTestLine
        The line.
    mark : ReadingMark
        The mark.

    Returns
    -------
    LineMark
        The mark by its place along the line.
    """
    return placed_mark(
        line,
        mark.position_px,
        mark.feature,
        direction_deg=mark.direction_deg,
        meets=mark.meets,
    )


def placed_line(line: ReadingLine) -> PlacedLine:
    """Give a test line of the case for counting.

    Parameters
    ----------
    line : ReadingLine
        As the case holds it.

    Returns
    -------
    StraightTestLine or CircularTestLine
        The line.
    """
    if line.centre_px is not None and line.radius_px is not None:
        return CircularTestLine(
            number=line.number, centre_px=line.centre_px, radius_px=line.radius_px
        )
    return StraightTestLine(
        number=line.number,
        start_px=line.start_px or (0.0, 0.0),
        end_px=line.end_px or (0.0, 0.0),
    )


def line_record(line: PlacedLine) -> ReadingLine:
    """Give a test line the way a case holds it.

    Parameters
    ----------
    line : StraightTestLine or CircularTestLine
        The line.

    Returns
    -------
    ReadingLine
        The record.
    """
    if isinstance(line, CircularTestLine):
        return ReadingLine(
            number=line.number, centre_px=line.centre_px, radius_px=line.radius_px
        )
    return ReadingLine(number=line.number, start_px=line.start_px, end_px=line.end_px)
