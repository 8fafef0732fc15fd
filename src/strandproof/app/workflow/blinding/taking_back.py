"""The use case that takes readings back: seal, codes and marks checked, then locked."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from strandproof.app.workflow.blinding.handing_out import handed_out, lines_given
from strandproof.app.workflow.blinding.returned_file import (
    ReturnedFile,
    ReturnedPicture,
    parse_returned,
)
from strandproof.app.workflow.entering import Desk, open_case, read_original
from strandproof.app.workflow.keeping.gate import refuse_uncountable
from strandproof.app.workflow.reading_by_people.files import marks_of_rows
from strandproof.app.workflow.reading_by_people.state import metal_length_px
from strandproof.app.workflow.reading_by_people.verdict import verdict_with
from strandproof.app.workflow.reading_locks import refuse_locked
from strandproof.errors import (
    InvalidEntryError,
    ReturnedReadingError,
    SealMismatchError,
    UnknownCodeError,
)
from strandproof.planning import nearest_codes
from strandproof.records.case_state import CaseState
from strandproof.records.entries import (
    Entry,
    HandOut,
    HandOutReturned,
    Reading,
    ReadingLock,
    kind_of,
)
from strandproof.records.entries.building import build_body
from strandproof.storage import Addition

_PLACES = "places of the test lines: fixed by the picture's own hash"


def take_back(desk: Desk, label: str, returned: Path) -> tuple[Entry, ...]:
    """Take a reader's readings back into the case, and lock each of them.

    All is checked before anything is entered, and all is entered at once; a refusal
    leaves nothing behind.

    Parameters
    ----------
    desk : Desk
        Folder and person; the coder.
    label : str
        Short name of the hand-out.
    returned : Path
        Readings as they came, ``.json`` or ``.csv``.

    Returns
    -------
    tuple of Entry
        Readings, locks, and the return itself.

    Raises
    ------
    SealMismatchError
        If the file does not carry the seal of this hand-out.
    ReturnedReadingError
        If pictures are missing, or verdicts and marks do not fit.
    """
    state = open_case(desk.folder)
    given = state.record(HandOut, label)
    original = read_original(returned)
    file = parse_returned(original.content, original.name)
    _check_seal(given, file)
    _check_codes(given, file)
    named = handed_out(desk.folder, state, label)
    desk_of = _Taking(desk, state, given)
    readings = _readings(desk_of, file, named)
    locks = [_lock(desk, reading) for reading in readings]
    back = HandOutReturned(
        id=label,
        hand_out=label,
        file_sha256=original.sha256,
        readings=tuple(reading.id for reading in readings),
        returned_at=desk.clock(),
        taken_by=desk.person,
    )
    return desk.add(
        *map(Addition, readings), *map(Addition, locks), Addition(back, (original,))
    )


def reading_label(micrograph: str, reader: str) -> str:
    """Give the short name of a returned reading; it must not tell the code.

    Parameters
    ----------
    micrograph : str
        Short name of the micrograph.
    reader : str
        Who read it.

    Returns
    -------
    str
        The same for every hand-out, so that nothing is read twice.

    Examples
    --------
    >>> reading_label("E1-s1-L-1", "A. Two")
    'E1-s1-L-1-A.Two'
    """
    plain = re.sub(r"[^A-Za-z0-9._-]", "", reader)
    return f"{micrograph}-{plain}"[:48]


@dataclass(frozen=True, slots=True)
class _Taking:
    """What one taking back works with."""

    desk: Desk
    state: CaseState
    given: HandOut


def _check_seal(given: HandOut, file: ReturnedFile) -> None:
    """Refuse a file that carries another seal, or none.

    Raises
    ------
    SealMismatchError
        If it does.
    """
    if file.seals == {given.seal_sha256}:
        return
    found = ", ".join(sorted(file.seals - {given.seal_sha256})) or "none"
    raise SealMismatchError(
        "This file of readings",
        expected=given.seal_sha256,
        found=found or "an empty one",
        remedy="It belongs to another hand-out, or the seal was changed; ask its "
        "reader for the file that goes with this hand-out.",
    )


def _check_codes(given: HandOut, file: ReturnedFile) -> None:
    """Refuse a picture that was not handed out, and a hand-out read in part.

    Raises
    ------
    UnknownCodeError
        If a picture has a foreign code.
    ReturnedReadingError
        If pictures are missing.
    """
    names = [each.name for each in given.pictures]
    for code in file.pictures:
        if code not in names:
            raise UnknownCodeError(code, _nearest(code, names))
    missing = [name for name in names if name not in file.pictures]
    if missing:
        fault = f"Not read: {', '.join(missing)}. Say not_readable where it is so."
        raise ReturnedReadingError((fault,))


def _nearest(code: str, names: list[str]) -> tuple[str, ...]:
    if not re.fullmatch(r"[A-Za-z0-9 -]+", code):
        return ()
    return nearest_codes(code, names)


def _readings(
    taking: _Taking, file: ReturnedFile, named: Mapping[str, str]
) -> list[Reading]:
    """Make the readings, in the order of the micrographs, not of the codes.

    Raises
    ------
    ReturnedReadingError
        If any does not fit; every fault is named.
    """
    readings: list[Reading] = []
    faults: list[str] = []
    for name, micrograph in sorted(named.items(), key=lambda item: item[1]):
        refuse_locked(taking.state, reading_label(micrograph, taking.given.reader))
        try:
            reading = _reading(taking, micrograph, file.pictures[name])
        except InvalidEntryError as error:
            faults += [f"{name}: {fault}" for fault in error.faults]
            continue
        refuse_uncountable(taking.state, reading)
        readings.append(reading)
    if faults:
        raise ReturnedReadingError(tuple(faults))
    return readings


def _reading(taking: _Taking, micrograph: str, picture: ReturnedPicture) -> Reading:
    """Make one reading.

    Raises
    ------
    InvalidEntryError
        If verdict, reason and marks do not fit each other.
    """
    given = taking.given
    stated = {
        "verdict": picture.verdict.lower().replace(" ", "_") or None,
        "reason": picture.reason,
    }
    lines = lines_given(taking.desk.folder, given, micrograph)
    if lines is None and picture.rows:
        fault = "marks: no test lines were handed out."
        raise InvalidEntryError("reading", (fault,))
    on_lines = {}
    marks = None
    if lines is not None and stated["verdict"] != "not_readable":
        marks = marks_of_rows(picture.rows, lines.lines, source="marks")
        length = metal_length_px(lines.lines, marks)
        if length is None:
            fault = "marks: by their strand edges no test line lies in metal."
            raise InvalidEntryError("reading", (fault,))
        on_lines = {
            "test_lines": lines.lines,
            "lines_seed": lines.seed,
            "marks": marks,
            "line_length_px": length,
        }
    body = build_body(
        "reading",
        {
            "id": reading_label(micrograph, given.reader),
            "reads": f"micrograph/{micrograph}",
            "reader": given.reader,
            "blind": True,
            "verdict": verdict_with(stated, marks),
            "reason": picture.reason,
            "counting_rules": (
                *((_PLACES,) if lines is not None else ()),
                *given.counting_rules,
            ),
            "hand_out": given.id,
            "read_at": picture.read_at or taking.desk.clock(),
            **on_lines,
        },
    )
    if not isinstance(body, Reading):  # pragma: no cover - the registry says so
        raise InvalidEntryError(kind_of(body), ("no reading.",))
    return body


def _lock(desk: Desk, reading: Reading) -> ReadingLock:
    return ReadingLock(
        id=reading.id,
        reading=reading.id,
        locked_at=desk.clock(),
        locked_by=reading.reader,
    )
