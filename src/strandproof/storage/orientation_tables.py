"""Reading a laboratory's table of orientations: points, grains or places."""

import csv
import re
from array import array
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from os import PathLike
from pathlib import Path
from typing import BinaryIO

import numpy as np
import numpy.typing as npt

from strandproof.errors import MissingFileError, ParameterError, TableRowError
from strandproof.records.orientation import (
    AngleMeaning,
    GrainTable,
    OrientationTable,
    PlaceTable,
)
from strandproof.storage.orientation_cells import (
    Columns,
    Row,
    angle_fault,
    columns_of_header,
    number_or_none,
    place_fault,
)
from strandproof.storage.orientation_lists import grain_table, place_table

LARGEST_TABLE_BYTES = 1_000_000_000
LARGEST_TABLE_POINTS = 5_000_000

_LONGEST_LINE = 4096
_MOST_NOTES = 20
_MOST_LISTED = 200_000  # grains or places
_PLAIN_NUMBERS = re.compile(r"[0-9eE+\-., \t]*")
_BYTE_ORDER_MARK = b"\xef\xbb\xbf"


@dataclass(slots=True)
class _Lines:
    """Lines of a file, read one at a time, with the number of the last one."""

    name: str
    stream: BinaryIO
    number: int = 0

    def __iter__(self) -> Iterator[str]:
        while raw := self.stream.readline(_LONGEST_LINE + 1):
            self.number += 1
            if len(raw) > _LONGEST_LINE:
                raise self.fault(
                    "the line is longer than any row of such a table",
                    allowed=f"at most {_LONGEST_LINE} bytes in a line",
                )
            if self.number == 1:
                raw = raw.removeprefix(_BYTE_ORDER_MARK)
            try:
                yield raw.decode("utf-8").rstrip("\r\n")
            except UnicodeDecodeError:
                problem = "the line is not text in UTF-8"
                raise self.fault(problem, allowed="UTF-8") from None

    def fault(self, problem: str, *, allowed: str) -> TableRowError:
        return TableRowError(self.name, self.number, problem, allowed=allowed)


def read_orientation_table(
    path: str | PathLike[str],
    *,
    meaning: AngleMeaning,
    largest_points: int = LARGEST_TABLE_POINTS,
) -> OrientationTable | GrainTable | PlaceTable:
    """Read a table of orientations; its header says of which kind it is.

    Read line by line, so that a long table needs no more memory than its
    numbers.

    Parameters
    ----------
    path : str or path-like
        A CSV file as `docs/orientations.md` describes it.
    meaning : {"passive", "active"}
        How the table's angles are meant; files do not say.
    largest_points : int
        Most points that are read.

    Returns
    -------
    OrientationTable, GrainTable or PlaceTable
        Points of a map; grains where the header has ``grain``; single places
        where it has ``place``.

    Raises
    ------
    MissingFileError
        If there is no such file, it is no ordinary file, or it may not be read.
    ParameterError
        If the file is larger than 1 GB or holds no row.
    TableRowError
        If the header or a row breaks a rule; names file and line.
    """
    place = Path(path)
    with _opened(place) as stream:
        lines = _Lines(place.name, stream)
        notes, columns = _head(lines)
        if columns.kind == "map":
            return _map(lines, columns, meaning, notes, largest_points)
        rows = _listed(lines, columns)
    if not rows:
        parameter = f"rows of {place.name}"
        raise ParameterError(parameter, 0, allowed="1 or more")
    if columns.kind == "grains":
        return grain_table(rows, columns, meaning=meaning, notes=notes)
    return place_table(rows, columns, meaning=meaning, notes=notes)


def _opened(place: Path) -> BinaryIO:
    try:
        if not place.exists():
            raise MissingFileError(place, "there is no such file")
        if not place.is_file():
            raise MissingFileError(place, "it is a folder or a device")
        size = place.stat().st_size
        if size > LARGEST_TABLE_BYTES:
            parameter = f"size of {place.name}"
            raise ParameterError(
                parameter,
                f"{size / 1e9:.1f} GB",
                allowed=f"at most {LARGEST_TABLE_BYTES / 1e9:.0f} GB",
                remedy="Cut the map into parts and read them one by one.",
            )
        return place.open("rb")
    except OSError as error:
        if isinstance(error, MissingFileError):
            raise
        raise MissingFileError(place, error.strerror or str(error)) from error


def _head(lines: _Lines) -> tuple[tuple[str, ...], Columns]:
    notes: list[str] = []
    for text in lines:
        if not text.startswith("#"):
            columns = columns_of_header(text, name=lines.name, line=lines.number)
            if columns.unread:
                unread = ", ".join(columns.unread)
                notes.append(_printable(f"Columns left unread: {unread}."))
            return tuple(notes), columns
        note = _printable(text[1:])
        if note and len(notes) < _MOST_NOTES:
            notes.append(note)
    lines.number = max(1, lines.number)
    raise lines.fault("the file ends before its header", allowed="a table")


def _printable(text: str) -> str:
    # Remarks are shown on a terminal; control characters stay out of it.
    return "".join(one for one in text if one.isprintable()).strip()[:200]


def _map(
    lines: _Lines,
    columns: Columns,
    meaning: AngleMeaning,
    notes: tuple[str, ...],
    largest_points: int,
) -> OrientationTable:
    first_line = lines.number + 1
    values = _numbers(lines, columns, largest_points)
    if len(values) == 0:
        parameter = f"rows of {lines.name}"
        raise ParameterError(parameter, 0, allowed="1 or more")
    width = len(columns.numeric)
    table = np.frombuffer(values, dtype=np.float64).reshape(-1, width)
    angles = table[:, 2:5] * columns.radians_per_unit
    if columns.has_indexed:
        angles[table[:, 5] == 0.0] = np.nan
    fault = place_fault(table, columns) or angle_fault(angles)
    if fault is not None:
        row, problem, allowed = fault
        raise TableRowError(lines.name, first_line + row, problem, allowed=allowed)
    return OrientationTable(
        name=lines.name,
        x_um=_column(table, 0, columns.um_per_unit),
        y_um=_column(table, 1, columns.um_per_unit),
        angles_rad=angles,
        meaning=meaning,
        first_line=first_line,
        notes=notes,
    )


def _column(
    table: npt.NDArray[np.float64], number: int, factor: float
) -> npt.NDArray[np.float64]:
    return np.ascontiguousarray(table[:, number]) * factor


def _numbers(lines: _Lines, columns: Columns, largest_points: int) -> "array[float]":
    values = array("d")
    wanted = [columns.place[name] for name in columns.numeric]
    count = len(columns.place)
    most = largest_points * len(wanted)
    for text in _rows(lines):
        cells = text.split(",")
        # The quick way for rows of plain numbers; the other one finds what is
        # wrong, if anything is.
        try:
            if len(cells) != count or not _PLAIN_NUMBERS.fullmatch(text):
                values.extend(_checked(lines, text, columns))
            else:
                values.extend([float(cells[place]) for place in wanted])
        except ValueError as error:
            if isinstance(error, TableRowError):
                raise
            values.extend(_checked(lines, text, columns))
        if len(values) > most:
            problem = "the table goes on past the largest number of points"
            raise lines.fault(problem, allowed=f"at most {largest_points} points")
    return values


def _checked(lines: _Lines, text: str, columns: Columns) -> list[float]:
    row = _row(lines, text, columns)
    angles = [number_or_none(row, name) for name in columns.angles]
    places = [number_or_none(row, name) for name in columns.numeric[:2]]
    for name, value in zip(columns.numeric[:2], places, strict=True):
        if value is None:
            raise row.fault(name, allowed="a number")
    indexed = [number_or_none(row, "indexed")] if columns.has_indexed else []
    if indexed and indexed[0] not in {0.0, 1.0}:
        raise row.fault("indexed", allowed="0 or 1")
    given = sum(angle is not None for angle in angles)
    if given not in {0, 3} or (given == 0 and indexed == [1.0]):
        problem = f"the row has {given} of three angles"
        raise lines.fault(
            problem,
            allowed="three angles, or none where the point was not indexed",
        )
    return [float("nan") if v is None else v for v in (*places, *angles, *indexed)]


def _listed(lines: _Lines, columns: Columns) -> Sequence[Row]:
    rows = []
    for text in _rows(lines):
        rows.append(_row(lines, text, columns))
        if len(rows) > _MOST_LISTED:
            problem = "the list goes on past the largest number of rows"
            raise lines.fault(problem, allowed=f"at most {_MOST_LISTED} rows")
    return rows


def _rows(lines: _Lines) -> Iterator[str]:
    blank = 0
    for text in lines:
        if not text.strip():
            blank = blank or lines.number
            continue
        if blank:
            raise TableRowError(
                lines.name, blank, "the line is empty", allowed="rows without a gap"
            )
        yield text


def _row(lines: _Lines, text: str, columns: Columns) -> Row:
    try:
        cells = next(csv.reader([text], strict=True))
    except csv.Error as error:
        problem = f"the line is no CSV ({error})"
        raise lines.fault(problem, allowed="cells parted by commas") from error
    if len(cells) != len(columns.place):
        problem = f"the line has {len(cells)} cells"
        allowed = f"{len(columns.place)} cells parted by commas, with decimal points"
        raise lines.fault(problem, allowed=allowed)
    return Row(
        name=lines.name,
        line=lines.number,
        cells={name: cells[place].strip() for name, place in columns.place.items()},
    )
