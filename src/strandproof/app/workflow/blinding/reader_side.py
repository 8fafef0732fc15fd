"""What a reader does with a hand-out on his own machine; no case is needed."""

import json
from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Any

from strandproof.app.workflow.blinding.contents import (
    HandOutContents,
    OutPicture,
    lines_file,
    read_hand_out,
)
from strandproof.app.workflow.entering import read_original, utc_now
from strandproof.app.workflow.reading_by_people.files import (
    GivenTestLines,
    read_marks,
)
from strandproof.app.workflow.reading_by_people.state import marked_lines
from strandproof.app.workflow.reading_by_people.verdict import verdict_with
from strandproof.app.workflow.reading_by_people.words import count_in_words
from strandproof.errors import (
    ReadingLockedError,
    ReturnedReadingError,
    SealMismatchError,
    UnknownCodeError,
)
from strandproof.grainsize.marks import count_marks
from strandproof.planning import nearest_codes
from strandproof.quantity import Quantity
from strandproof.records.entries import ReadingMark
from strandproof.storage import write_output_file


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnReading:
    """What a reader says of one picture.

    Parameters
    ----------
    picture : str
        Code and running number.
    verdict : str or None
        boundaries, none_resolved or not_readable; None where the marks say it.
    reason : str
        Why; needed for not readable.
    marks : Path or None
        List of marks on the test lines, CSV or JSON.
    """

    picture: str
    verdict: str | None = None
    reason: str = ""
    marks: Path | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadSoFar:
    """How far a reader is with a hand-out.

    Parameters
    ----------
    left : tuple of str
        Pictures not read yet, in the order of reading.
    words : tuple of str
        What the marks of the last reading give.
    """

    left: tuple[str, ...]
    words: tuple[str, ...]


def read_from_hand_out(
    source: Path,
    target: Path,
    reading: OwnReading,
    *,
    clock: Callable[[], datetime] = utc_now,
) -> ReadSoFar:
    """Add one reading to the file that goes back; what is in it stays as it is.

    Parameters
    ----------
    source : Path
        The hand-out, folder or zip; it is checked against its seal first.
    target : Path
        File of readings, JSON; made by the first reading.
    reading : OwnReading
        What is said of one picture.
    clock : callable
        Gives the present moment.

    Returns
    -------
    ReadSoFar
        Pictures left, and what the marks give.

    Raises
    ------
    ReadingLockedError
        If the picture was read before.
    ReturnedReadingError
        If neither verdict nor marks say what was seen.
    """
    contents, seal, files = read_hand_out(source)
    shown = _picture(contents, reading.picture)
    done = _earlier(target, contents, seal)
    for each in done["readings"]:
        if each["picture"] == shown.name:
            raise ReadingLockedError(
                shown.name, contents.reader, each["read_at"], remedy="Go on."
            )
    given = files.get(lines_file(shown.name))
    lines = None if given is None else GivenTestLines.model_validate_json(given)
    marks = _marks(reading, lines)
    verdict = verdict_with(
        {"verdict": reading.verdict, "reason": reading.reason}, marks
    )
    if verdict is None:
        raise ReturnedReadingError((f"{shown.name}: say a verdict.",))
    done["readings"].append(
        {
            "picture": shown.name,
            "verdict": verdict,
            "reason": reading.reason,
            "read_at": clock().isoformat(),
            "marks": [_as_row(mark) for mark in marks or ()],
        }
    )
    text = json.dumps(done, indent=2, ensure_ascii=False) + "\n"
    write_output_file(target, text.encode("utf-8"), overwrite=True)
    read = {each["picture"] for each in done["readings"]}
    left = tuple(p.name for p in contents.pictures if p.name not in read)
    return ReadSoFar(left=left, words=_words(shown, lines, marks))


def _picture(contents: HandOutContents, name: str) -> OutPicture:
    """Find a picture by its name.

    Raises
    ------
    UnknownCodeError
        If the hand-out has none of that name.
    """
    names = [each.name for each in contents.pictures]
    for each in contents.pictures:
        if each.name == name.strip().upper():
            return each
    raise UnknownCodeError(name, nearest_codes(name, names))


def _earlier(target: Path, contents: HandOutContents, seal: str) -> dict[str, Any]:
    """Read what was read before, or begin.

    Raises
    ------
    ReturnedReadingError
        If the file is no file of readings.
    SealMismatchError
        If it belongs to another hand-out.
    """
    if not target.exists():
        return {"seal": seal, "reader": contents.reader, "readings": []}
    try:
        done = json.loads(read_original(target).content)
        found = str(done["seal"])
        done["readings"] = list(done["readings"])
    except (ValueError, KeyError, TypeError):
        fault = f"{target.name} is no file of readings; choose another name."
        raise ReturnedReadingError((fault,)) from None
    if found != seal:
        what = f"The file {target.name}"
        remedy = "Choose another file for this hand-out."
        raise SealMismatchError(what, expected=seal, found=found, remedy=remedy)
    return dict(done)


def _marks(
    reading: OwnReading, lines: GivenTestLines | None
) -> tuple[ReadingMark, ...] | None:
    """Read the marks.

    Raises
    ------
    ReturnedReadingError
        If marks are missing, or come without lines to stand on.
    """
    if reading.marks is not None and lines is None:
        raise ReturnedReadingError(("This hand-out has no test lines to mark on.",))
    if lines is None or reading.verdict == "not_readable":
        return None
    if reading.marks is None:
        fault = (
            f"{reading.picture}: a list of marks is needed; one with its heading alone "
            "says that nothing was seen."
        )
        raise ReturnedReadingError((fault,))
    return read_marks(reading.marks, lines.lines)


def _as_row(mark: ReadingMark) -> dict[str, Any]:
    column, row = mark.position_px
    return {
        "line": mark.line,
        "column_px": column,
        "row_px": row,
        "feature": mark.feature,
        "direction_deg": mark.direction_deg,
        "meets": mark.meets,
    }


def _words(
    shown: OutPicture,
    lines: GivenTestLines | None,
    marks: tuple[ReadingMark, ...] | None,
) -> tuple[str, ...]:
    if lines is None or marks is None:
        return ()
    size = None
    if shown.pixel_size_um is not None:
        size = Quantity(
            shown.pixel_size_um, "um", standard_uncertainty=shown.pixel_size_u_um or 0
        )
    return count_in_words(
        count_marks(marked_lines(lines.lines, marks), pixel_size=size)
    )
