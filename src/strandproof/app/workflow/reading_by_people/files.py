"""Files that go to a reader and come back: test lines, and lists of marks."""

import csv
import json
from collections.abc import Iterable, Iterator, Mapping, Sequence
from math import isfinite
from pathlib import Path
from typing import Annotated, Any, get_args

from pydantic import Field, ValidationError

from strandproof.app.workflow.entering import read_original
from strandproof.app.workflow.reading_by_people.state import on_line, placed_line
from strandproof.errors import InvalidEntryError, ParameterError
from strandproof.records.entries.bodies import FrozenModel, Sha256
from strandproof.records.entries.building import faults_in_words
from strandproof.records.entries.laboratory import (
    MarkFeature,
    MarkMeeting,
    ReadingLine,
    ReadingMark,
)

COLUMNS = (
    "line",
    "along_px",
    "column_px",
    "row_px",
    "feature",
    "direction_deg",
    "meets",
)
"""Columns of a list of marks; place is along_px, or column_px with row_px."""

_MARKS = "list of marks"
_HALF_TURN_DEG = 180.0


class GivenTestLines(FrozenModel):
    """Test lines for one micrograph, as they go to its readers.

    They name the blind code and the picture, not the micrograph: its short name may
    say which piece it is.
    """

    code: str = ""
    """Blind code of the section; empty where it has none."""
    picture_sha256: Sha256
    """The picture that the lines belong to."""
    page: Annotated[int, Field(ge=1)] = 1
    """Page of the file, for files with several."""
    width_px: Annotated[int, Field(ge=1)]
    """Columns of the picture [px]."""
    height_px: Annotated[int, Field(ge=1)]
    """Rows of the picture [px]."""
    seed: Annotated[int, Field(ge=0)] | None = None
    """Seed that fixed the places; none: placed by a person."""
    directions_deg: tuple[float, ...] = ()
    """Directions that straight lines took in turn [deg]."""
    lines: Annotated[tuple[ReadingLine, ...], Field(min_length=1)]
    """The lines."""


def lines_for_reader(given: GivenTestLines) -> str:
    """Write test lines as JSON for a reader.

    Parameters
    ----------
    given : GivenTestLines
        The lines.

    Returns
    -------
    str
        JSON, one member a line.
    """
    data = given.model_dump(mode="json", exclude_none=True)
    return json.dumps(data, indent=2, ensure_ascii=False) + "\n"


def read_test_lines(path: Path) -> GivenTestLines:
    """Read test lines from their file.

    Parameters
    ----------
    path : Path
        JSON as `lines_for_reader` writes it.

    Returns
    -------
    GivenTestLines
        The lines.

    Raises
    ------
    InvalidEntryError
        If the file holds something else.
    """
    try:
        return GivenTestLines.model_validate(_json(path, "file of test lines"))
    except ValidationError as error:
        raise InvalidEntryError("file of test lines", faults_in_words(error)) from None


def read_marks(path: Path, lines: Sequence[ReadingLine]) -> tuple[ReadingMark, ...]:
    """Read a list of marks, CSV or JSON by the ending of its name.

    Parameters
    ----------
    path : Path
        A row, or an object, for each mark: ``line``, ``feature``, the place as
        ``along_px`` or as ``column_px`` and ``row_px``, and if noted
        ``direction_deg`` and ``meets``.
    lines : sequence of ReadingLine
        The test lines.

    Returns
    -------
    tuple of ReadingMark
        In the order of the file; mark 1 is the first.

    Raises
    ------
    InvalidEntryError
        If the file is no such list, or a mark does not fit.
    """
    return marks_of_rows(_rows(path), lines, source=path.name)


def marks_of_rows(
    rows: Iterable[tuple[str, Mapping[str, Any]]],
    lines: Sequence[ReadingLine],
    *,
    source: str,
) -> tuple[ReadingMark, ...]:
    """Check marks given row by row against the test lines that they stand on.

    Parameters
    ----------
    rows : iterable of (str, mapping)
        Place of the row in words, and its columns as `COLUMNS` names them.
    lines : sequence of ReadingLine
        The test lines.
    source : str
        Name of the file, for messages.

    Returns
    -------
    tuple of ReadingMark
        In the order given.

    Raises
    ------
    InvalidEntryError
        If anything does not fit; every fault is named with its row.
    """
    known = {line.number: line for line in lines}
    marks: list[ReadingMark] = []
    faults: list[str] = []
    for where, row in rows:
        try:
            marks.append(_mark(row, known))
        except ParameterError as error:
            faults.append(f"{source}, {where}: {error}")
    if faults:
        raise InvalidEntryError(_MARKS, tuple(faults))
    return tuple(marks)


def _rows(path: Path) -> Iterator[tuple[str, Mapping[str, Any]]]:
    """Give the rows of a list of marks with their places in the file.

    Raises
    ------
    InvalidEntryError
        If the file is no such list.
    """
    if path.suffix.lower() == ".json":
        data = _json(path, _MARKS)
        marks = data.get("marks") if isinstance(data, dict) else data
        if not isinstance(marks, list) or not all(isinstance(m, dict) for m in marks):
            fault = f"{path.name}: not a JSON list of marks, each an object."
            raise InvalidEntryError(_MARKS, (fault,))
        yield from ((f"mark {k}", mark) for k, mark in enumerate(marks, 1))
        return
    text = _text(path, _MARKS)
    # Some table programs write semicolons where the comma is the decimal sign.
    heading = text.partition("\n")[0]
    table = csv.DictReader(
        text.splitlines(), delimiter=";" if ";" in heading else ",", restval=""
    )
    if not {"line", "feature"} <= set(table.fieldnames or ()):
        fault = f"{path.name}: the first row must name the columns line and feature."
        raise InvalidEntryError(_MARKS, (fault,))
    for row in table:
        if any((value or "") != "" for key, value in row.items() if key):
            yield f"line {table.line_num}", row


def _mark(row: Mapping[str, Any], lines: Mapping[int, ReadingLine]) -> ReadingMark:
    """Read one mark.

    Raises
    ------
    ParameterError
        If something in it does not fit.
    """
    given = {k: v for k, v in row.items() if v is not None and v != ""}
    for name in given:
        if name not in COLUMNS:
            raise ParameterError("column", name, allowed=_one_of(COLUMNS))
    number = _number(given, "line")
    if number not in lines:
        raise ParameterError(
            "line", given.get("line"), allowed=_one_of(map(str, lines))
        )
    line = lines[int(number)]
    angle = _number(given, "direction_deg") if "direction_deg" in given else None
    mark = ReadingMark(
        line=line.number,
        position_px=_place(given, line),
        feature=_word(given, "feature", get_args(MarkFeature)),
        direction_deg=None if angle is None else angle % _HALF_TURN_DEG,
        meets=_word({"meets": "crossing", **given}, "meets", get_args(MarkMeeting)),
    )
    on_line(placed_line(line), mark)
    return mark


def _place(given: Mapping[str, Any], line: ReadingLine) -> tuple[float, float]:
    """Read where a mark stands.

    Raises
    ------
    ParameterError
        If it has no place, two, or one beyond the line.
    """
    by_distance = "along_px" in given
    if by_distance == ("column_px" in given and "row_px" in given):
        raise ParameterError(
            "place",
            sorted(given),
            allowed="either along_px, or column_px together with row_px",
        )
    if not by_distance:
        return _number(given, "column_px"), _number(given, "row_px")
    along = _number(given, "along_px")
    length = placed_line(line).length_px
    if not 0 <= along <= length:
        raise ParameterError("along_px", along, allowed=f"0 to {length:.1f} px")
    return placed_line(line).position_px(along)


def _number(given: Mapping[str, Any], name: str) -> float:
    """Read a number.

    Raises
    ------
    ParameterError
        If it is none.
    """
    try:
        value = float(given[name])
    except (KeyError, TypeError, ValueError):
        value = float("nan")
    if not isfinite(value):
        raise ParameterError(
            name, given.get(name), allowed="a number with a decimal point"
        )
    return value


def _word(given: Mapping[str, Any], name: str, words: tuple[Any, ...]) -> Any:  # noqa: ANN401 - a literal of either list
    """Read a word of a list; a blank stands for an underscore.

    Raises
    ------
    ParameterError
        If it is not on the list.
    """
    word = str(given.get(name, "")).strip().lower().replace(" ", "_")
    if word not in words:
        raise ParameterError(name, given.get(name), allowed=_one_of(words))
    return word


def _one_of(words: Iterable[str]) -> str:
    return "one of " + ", ".join(words)


def _text(path: Path, what: str) -> str:
    """Read a file of words.

    Raises
    ------
    InvalidEntryError
        If it is not UTF-8.
    """
    try:
        return read_original(path).content.decode("utf-8-sig")
    except UnicodeDecodeError:
        fault = f"{path.name}: not written in UTF-8."
        raise InvalidEntryError(what, (fault,)) from None


def _json(path: Path, what: str) -> Any:  # noqa: ANN401 - any JSON data
    """Read a JSON file.

    Raises
    ------
    InvalidEntryError
        If it is none.
    """
    try:
        return json.loads(_text(path, what))
    except ValueError as error:
        fault = f"{path.name}: not JSON ({error})."
        raise InvalidEntryError(what, (fault,)) from None
