"""Use cases of reading by people: enter a verdict or marks, and lock them."""

from pathlib import Path
from typing import Any

from strandproof.app.workflow.entering import (
    Correction,
    Desk,
    Fields,
    open_case,
    read_original,
)
from strandproof.app.workflow.keeping.gate import refuse_uncountable
from strandproof.app.workflow.reading_by_people.files import (
    GivenTestLines,
    read_marks,
    read_test_lines,
)
from strandproof.app.workflow.reading_by_people.lines import (
    laid_by_seed,
    seed_of_picture,
)
from strandproof.app.workflow.reading_by_people.state import metal_length_px
from strandproof.app.workflow.reading_by_people.verdict import verdict_with
from strandproof.app.workflow.reading_locks import refuse_locked
from strandproof.errors import InvalidEntryError
from strandproof.records.case_state import CaseState
from strandproof.records.entries import (
    Entry,
    Micrograph,
    Reading,
    ReadingLock,
)
from strandproof.records.entries.building import build_body
from strandproof.storage import Addition

_READING = "reading"


def enter_reading(
    desk: Desk,
    fields: Fields,
    *,
    lines: Path | None = None,
    marks: Path | None = None,
    corrects: Correction | None = None,
) -> Entry:
    """Enter what a person saw: a verdict alone, or marks on test lines.

    Parameters
    ----------
    desk : Desk
        Folder and person.
    fields : mapping
        Fields of the record `Reading`; ``reader`` is the person at the desk when
        left out, ``reads`` is what the test lines belong to, and ``verdict`` follows
        from the marks where they decide it.
    lines : Path or None
        File of the test lines, from `write_test_lines` or a person's own.
    marks : Path or None
        List of marks, CSV or JSON; it is kept with the case as it came.
    corrects : Correction or None
        The earlier version that this one takes the place of, as long as it is open.

    Returns
    -------
    Entry
        The reading as entered.

    Raises
    ------
    InvalidEntryError
        If lines, marks and verdict do not fit each other, or a field is wrong.
    """
    state = open_case(desk.folder)
    refuse_locked(state, str(fields.get("id", "")))
    stated = {name: value for name, value in fields.items() if value is not None}
    _require_both(stated, lines, marks)
    original = None if marks is None else read_original(marks)
    found = {} if lines is None else _on_lines(state, stated, lines, marks)
    if original is not None:
        found["marks_sha256"] = original.sha256
    body = build_body(
        _READING,
        {
            "reader": desk.person,
            "read_at": desk.clock(),
            **stated,
            **found,
            "verdict": verdict_with(stated, found.get("marks")),
        },
    )
    refuse_uncountable(state, body)
    addition = Addition(
        body,
        () if original is None else (original,),
        supersedes=None if corrects is None else corrects.entry,
        reason="" if corrects is None else corrects.reason,
    )
    return desk.add(addition)[0]


def lock_reading(desk: Desk, label: str) -> Entry:
    """Close a reading against changes, before any hint is shown.

    Parameters
    ----------
    desk : Desk
        Folder and person.
    label : str
        Short name of the reading.

    Returns
    -------
    Entry
        The lock.
    """
    state = open_case(desk.folder)
    state.record(Reading, label)
    refuse_locked(state, label)
    body = ReadingLock(
        id=label, reading=label, locked_at=desk.clock(), locked_by=desk.person
    )
    return desk.add(Addition(body))[0]


def _require_both(fields: Fields, lines: Path | None, marks: Path | None) -> None:
    """Refuse marks without lines, and lines without marks unless not readable.

    Raises
    ------
    InvalidEntryError
        If one of the two is missing.
    """
    if marks is not None and lines is None:
        fault = "lines: marks need the file of the test lines that they stand on."
        raise InvalidEntryError(_READING, (fault,))
    if lines is not None and marks is None and fields.get("verdict") != "not_readable":
        fault = (
            "marks: test lines need a list of marks; a list with its heading alone "
            "says that nothing was seen."
        )
        raise InvalidEntryError(_READING, (fault,))


def _micrograph_of(
    state: CaseState, reads: str | None, given: GivenTestLines
) -> Micrograph:
    """Find the micrograph that test lines belong to, and check them against it.

    Raises
    ------
    InvalidEntryError
        If there is none, another one was named, or the seed gives other lines.
    """
    shown = [
        each
        for each in state.records(Micrograph)
        if (each.file_sha256, each.page) == (given.picture_sha256, given.page)
    ]
    faults = []
    if not shown:
        faults.append("lines: they belong to a picture that the case does not have.")
    elif reads not in {None, f"micrograph/{shown[0].id}"}:
        faults.append(f"reads: the test lines are those of micrograph/{shown[0].id}.")
    elif given.seed is not None and not laid_by_seed(given):
        faults.append(
            f"lines: seed {given.seed} gives other lines; for lines placed by a "
            "person leave the seed out."
        )
    if faults:
        raise InvalidEntryError(_READING, tuple(faults))
    return shown[0]


def _on_lines(
    state: CaseState, fields: Fields, lines: Path, marks: Path | None
) -> dict[str, Any]:
    """Give the fields of a reading that its test lines and marks make.

    Raises
    ------
    InvalidEntryError
        If no line lies in metal.
    """
    given = read_test_lines(lines)
    micrograph = _micrograph_of(state, fields.get("reads"), given)
    own = seed_of_picture(given.picture_sha256)
    places = {own: "fixed by the picture's own hash", None: "placed by a person"}
    how = places.get(given.seed, f"by seed {given.seed}, chosen by a person")
    set_marks = () if marks is None else read_marks(marks, given.lines)
    length = metal_length_px(given.lines, set_marks)
    if marks is not None and length is None:
        fault = "lines: none of the test lines lies in metal; give lines that do."
        raise InvalidEntryError(_READING, (fault,))
    return {
        "reads": f"micrograph/{micrograph.id}",
        "test_lines": given.lines,
        "lines_seed": given.seed,
        "counting_rules": (
            f"places of the test lines: {how}",
            *fields.get("counting_rules", ()),
        ),
        "marks": set_marks,
        "line_length_px": length,
    }
