"""Tables of readings: CSV and XLSX, and the mapping of columns kept beside them."""

import csv
import json
from collections.abc import Iterable, Iterator, Mapping, Sequence
from io import StringIO
from pathlib import Path
from typing import Any
from zipfile import BadZipFile

import openpyxl
from openpyxl.utils.exceptions import InvalidFileException

from strandproof.errors import (
    MissingFileError,
    ParameterError,
    TableRowError,
)
from strandproof.records.cell_tables import Cell, CellRow, CellTable, ColumnMapping
from strandproof.storage.picture_files import write_output_file

COLUMNS_FILE = "strandproof-columns.json"
"""Name of the file beside a table that remembers which column is what."""

LARGEST_CELL_TABLE_BYTES = 20_000_000

_DELIMITERS = ";\t,"
_REMEDY = "Save the table again as CSV (UTF-8) or XLSX."


def read_cell_table(path: Path, *, sheet: str | None = None) -> CellTable:
    """Read the cells of a table, CSV or XLSX, without understanding them.

    The first row that is not empty is the header. In an XLSX file the values that
    were computed when it was saved are taken, not the formulas.

    Parameters
    ----------
    path : Path
        A file ending in ``.csv`` or ``.xlsx``.
    sheet : str, optional
        Sheet of an XLSX file; None takes the only one.

    Returns
    -------
    CellTable
        Header and rows.

    Raises
    ------
    MissingFileError
        If there is no such file.
    ParameterError
        If the file is of another kind, too large, no table, or the sheet is not there.
    TableRowError
        If there is no row, a header is empty or repeated, or a row has more cells
        than the header.
    """
    if not path.is_file():
        raise MissingFileError(path, "there is no such file")
    if path.stat().st_size > LARGEST_CELL_TABLE_BYTES:
        raise ParameterError(
            "table",
            f"{path.stat().st_size} bytes",
            allowed=f"at most {LARGEST_CELL_TABLE_BYTES} bytes",
        )
    readers = {".csv": _csv_rows, ".xlsx": _xlsx_rows}
    reader = readers.get(path.suffix.lower())
    if reader is None:
        raise ParameterError(
            "table", path.name, allowed="a file ending in .csv or .xlsx", remedy=_REMEDY
        )
    return _table(path.name, reader(path, sheet))


def remembered_columns(path: Path, headers: Sequence[str]) -> ColumnMapping | None:
    """Recall which column of a table is what.

    Parameters
    ----------
    path : Path
        The table.
    headers : sequence of str
        Its headers.

    Returns
    -------
    ColumnMapping or None
        What was kept for a table with these headers in the same folder.

    Raises
    ------
    ParameterError
        If the file that remembers is damaged.
    """
    for kept in _kept(path.parent / COLUMNS_FILE):
        if kept["headers"] == list(headers):
            return ColumnMapping(headers=dict(kept["columns"]))
    return None


def remember_columns(
    path: Path, headers: Sequence[str], mapping: ColumnMapping
) -> Path:
    """Keep which column of a table is what, in a file beside the table.

    Parameters
    ----------
    path : Path
        The table.
    headers : sequence of str
        Its headers; a mapping kept for the same ones is replaced.
    mapping : ColumnMapping
        Which column is what.

    Returns
    -------
    Path
        The file that remembers.

    Raises
    ------
    ParameterError
        If the file that remembers is damaged.
    WriteFailedError
        If it cannot be written.
    """
    target = path.parent / COLUMNS_FILE
    others = [kept for kept in _kept(target) if kept["headers"] != list(headers)]
    mine = {"headers": list(headers), "columns": dict(mapping.headers)}
    text = json.dumps({"tables": [*others, mine]}, indent=2, ensure_ascii=False)
    write_output_file(target, f"{text}\n".encode(), overwrite=True)
    return target


def _kept(path: Path) -> list[Mapping[str, Any]]:
    if not path.is_file():
        return []
    try:
        tables = json.loads(path.read_text("utf-8"))["tables"]
        return [
            {"headers": list(each["headers"]), "columns": dict(each["columns"])}
            for each in tables
        ]
    except (ValueError, LookupError, TypeError) as error:
        raise ParameterError(
            path.name,
            str(error),
            allowed="the file as it was written",
            remedy="Delete it, and name the columns again.",
        ) from error


def _csv_rows(path: Path, _sheet: str | None) -> Iterator[tuple[int, list[Cell]]]:
    text = _text(path)
    first = next((line for line in text.splitlines() if line.strip()), "")
    delimiter = max(_DELIMITERS, key=first.count)
    reader = csv.reader(StringIO(text, newline=""), delimiter=delimiter, strict=True)
    try:
        for cells in reader:
            yield reader.line_num, [cell.strip() for cell in cells]
    except csv.Error as error:
        raise TableRowError(
            path.name, reader.line_num, f"the line is no CSV ({error})", allowed="CSV"
        ) from error


def _text(path: Path) -> str:
    # A spreadsheet may still write the old code page of Western Europe, and its
    # degree and micro signs are no UTF-8; every sequence of bytes is text in it.
    content = path.read_bytes()
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError:
        return content.decode("cp1252", errors="replace")


def _xlsx_rows(path: Path, sheet: str | None) -> Iterator[tuple[int, list[Cell]]]:
    try:
        book = openpyxl.load_workbook(path, read_only=True, data_only=True)
    except (BadZipFile, InvalidFileException, KeyError, OSError) as error:
        raise ParameterError(
            "table", path.name, allowed="a whole XLSX file", remedy=_REMEDY
        ) from error
    try:
        names = book.sheetnames
        if (sheet is None and len(names) != 1) or sheet not in {None, *names}:
            raise ParameterError(
                "sheet", sheet, allowed="one of the sheets " + ", ".join(names)
            )
        rows = book[sheet or names[0]].iter_rows(values_only=True)
        for number, values in enumerate(rows, start=1):
            yield number, [_cell(value) for value in values]
    finally:
        book.close()


def _cell(value: object) -> Cell:
    if value is None:
        return ""
    # True is an integer to Python, and no reading.
    if isinstance(value, int | float) and not isinstance(value, bool):
        return float(value)
    return str(value).strip()


def _table(name: str, rows: Iterable[tuple[int, list[Cell]]]) -> CellTable:
    filled = [(number, cells) for number, cells in rows if any(_filled(cells))]
    if len(filled) < 2:
        raise TableRowError(
            name,
            filled[0][0] if filled else 1,
            "no row of readings was found",
            allowed="a header row and one row or more below it",
        )
    (number, first), *below = filled
    headers = tuple(str(cell) for cell in _without_empty_end(first))
    if "" in headers or len(set(headers)) != len(headers):
        raise TableRowError(
            name,
            number,
            f"the header is {', '.join(headers)!r}",
            allowed="a header for every column, each once",
        )
    return CellTable(
        name=name,
        headers=headers,
        rows=tuple(_row(name, place, cells, len(headers)) for place, cells in below),
    )


def _row(name: str, number: int, cells: list[Cell], columns: int) -> CellRow:
    held = _without_empty_end(cells)
    if len(held) > columns:
        raise TableRowError(
            name,
            number,
            f"the row has {len(held)} cells",
            allowed=f"at most {columns}, one for each header; with a decimal comma, "
            "separate the columns by semicolons",
        )
    return CellRow(number=number, cells=(*held, *[""] * (columns - len(held))))


def _filled(cells: Iterable[Cell]) -> Iterator[bool]:
    return (cell != "" for cell in cells)


def _without_empty_end(cells: list[Cell]) -> list[Cell]:
    last = max((k for k, filled in enumerate(_filled(cells)) if filled), default=-1)
    return cells[: last + 1]
