"""The one reader of reference tables: text in, checked rows out.

Every table of the package goes through `parse_table`, so that a row without
source, unit or status cannot reach a computation.
"""

import csv
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from io import StringIO
from math import isfinite
from types import MappingProxyType
from typing import Literal, cast, get_args

from strandproof.errors import TableRowError

RowStatus = Literal["read", "read (secondary)", "from memory", "computed", "judgement"]

STATUSES: tuple[RowStatus, ...] = get_args(RowStatus)
"""How far a row can be trusted, see ``docs/tables.md``."""

COLUMNS = (
    "key",
    "value",
    "standard_uncertainty",
    "unit",
    "conditions",
    "source",
    "edition",
    "locator",
    "status",
    "checked_by",
    "checked_on",
)
"""The header of every table, in this order."""

TABLE_UNITS = frozenset(
    {"1", "%", "um", "mm", "um2", "mm2", "1/mm", "1/mm2", "1/mm3", "1/in2", "px"}
    | {"MS/m", "ohm mm2/m", "ohm g/m2", "nohm m", "ohm m2", "1/K", "K", "g/cm3"}
    | {"in", "mil", "ohm/km"}
    | {"HV", "kg/m3", "mN/m", "deg", "degC", "degC2"}
    | {"ppm", "g/mol", "uohm cm/wt%", "uohm cm/at%", "pohm m/ppm"}
    | {"nohm m/K", "ohm m3", "1/m2", "K/hPa", "MPa"}
    | {"g", "d"}
)
"""Units a row may carry; a table that needs another one adds it here."""

_REQUIRED = ("key", "value", "unit", "source", "status", "checked_by", "checked_on")
_KEY = re.compile(r"[a-z0-9_]+(\.[a-z0-9_]+)*")
_PLAIN_NUMBER = re.compile(r"[+-]?(\d+(\.\d*)?|\.\d+)(e[+-]?\d+)?", re.IGNORECASE)
_ISO_DATE = re.compile(r"\d{4}-\d{2}-\d{2}")


@dataclass(frozen=True, slots=True, kw_only=True)
class TableRow:
    """One reference value with its origin.

    Parameters
    ----------
    key : str
        Name of the value within its table.
    value : float
        The value, in `unit`.
    printed : str
        The value as the source prints it; its last digit gives the tolerance
        of a comparison.
    standard_uncertainty : float or None
        Standard uncertainty, in `unit`; 0 for a definition, None where the
        source states none.
    unit : str
        One of `TABLE_UNITS`; ``"1"`` for a pure number.
    conditions : str
        What the value holds for; may be empty.
    source, edition, locator : str
        The document, its edition, and where in it; edition and locator may be
        empty where the status says that nobody read it.
    status : {"read", "read (secondary)", "from memory", "computed", "judgement"}
        How far the row can be trusted.
    checked_by : str
        Who compared it with what, as the tables' README explains.
    checked_on : date
        When.
    """

    key: str
    value: float
    printed: str
    standard_uncertainty: float | None
    unit: str
    conditions: str
    source: str
    edition: str
    locator: str
    status: RowStatus
    checked_by: str
    checked_on: date

    @property
    def half_digit(self) -> float:
        """Half a unit of the last printed digit, in `unit`.

        Notes
        -----
        A printed value stands for anything within this distance of it.
        """
        mantissa, _, exponent = self.printed.lower().partition("e")
        decimals = len(mantissa.partition(".")[2])
        return 0.5 * 10.0 ** (int(exponent or 0) - decimals)


@dataclass(frozen=True, slots=True)
class _Line:
    """The cells of one line of a table and where they stand."""

    file_name: str
    number: int
    cells: Mapping[str, str]

    def fault(self, column: str, *, allowed: str) -> TableRowError:
        problem = f"{column} is {self.cells[column]!r}"
        return TableRowError(self.file_name, self.number, problem, allowed=allowed)


def parse_table(text: str, *, file_name: str) -> Mapping[str, TableRow]:
    r"""Rows of one table, by key; the first row that breaks a rule raises.

    Nothing is skipped, filled in or guessed: no comments, no blank lines, no
    missing cells at the end of a line, no spaces around a cell.

    Parameters
    ----------
    text : str
        Content of a CSV file with the header `COLUMNS`.
    file_name : str
        Name of the file, for messages only.

    Returns
    -------
    Mapping from str to TableRow
        The rows in the order of the file; read-only.

    Raises
    ------
    TableRowError
        If the header differs from `COLUMNS`, the table is empty, or a row has
        another number of cells, an empty required cell, spaces around a cell,
        a malformed or repeated key, a value that is no finite number, a
        negative uncertainty, an unknown unit or status, a date that is not
        YYYY-MM-DD, or a status of reading without a locator.

    Examples
    --------
    >>> header = ",".join(COLUMNS)
    >>> row = "grains.minimum,50,,1,,GB 6394,1986,4.2.1,read,project,2026-11-25"
    >>> parse_table(f"{header}\n{row}\n", file_name="t.csv")["grains.minimum"].value
    50.0
    """
    rows: dict[str, TableRow] = {}
    for line in _lines(text, file_name):
        row = _row(line)
        if row.key in rows:
            raise line.fault("key", allowed="a key that no earlier line has")
        rows[row.key] = row
    if not rows:
        raise TableRowError(
            file_name, 1, "the table ends after its header", allowed="one row or more"
        )
    return MappingProxyType(rows)


def _lines(text: str, file_name: str) -> Iterator[_Line]:
    reader = csv.reader(StringIO(text, newline=""), strict=True)
    try:
        for index, cells in enumerate(reader):
            if index == 0:
                _check_header(cells, file_name)
                continue
            if len(cells) != len(COLUMNS):
                problem = f"the line has {len(cells)} cells"
                allowed = f"{len(COLUMNS)} cells"
                raise TableRowError(
                    file_name, reader.line_num, problem, allowed=allowed
                )
            yield _Line(
                file_name, reader.line_num, dict(zip(COLUMNS, cells, strict=True))
            )
    except csv.Error as error:
        raise TableRowError(
            file_name, reader.line_num, f"the line is no CSV ({error})", allowed="CSV"
        ) from error
    if reader.line_num == 0:
        _check_header([], file_name)


def _check_header(cells: list[str], file_name: str) -> None:
    if tuple(cells) != COLUMNS:
        missing = [name for name in COLUMNS if name not in cells]
        problem = f"the header is {','.join(cells)!r}"
        if missing:
            problem += f", without {', '.join(missing)}"
        raise TableRowError(file_name, 1, problem, allowed=",".join(COLUMNS))


def _row(line: _Line) -> TableRow:
    _check_cells(line)
    cells = line.cells
    return TableRow(
        key=cells["key"],
        value=_number(line, "value"),
        printed=cells["value"],
        standard_uncertainty=_uncertainty(line),
        unit=cells["unit"],
        conditions=cells["conditions"],
        source=cells["source"],
        edition=cells["edition"],
        locator=cells["locator"],
        status=cast("RowStatus", cells["status"]),
        checked_by=cells["checked_by"],
        checked_on=_date(line, "checked_on"),
    )


def _check_cells(line: _Line) -> None:
    cells = line.cells
    for name in COLUMNS:
        if cells[name] != cells[name].strip():
            raise line.fault(name, allowed="text without spaces around it")
    for name in _REQUIRED:
        if not cells[name]:
            raise line.fault(name, allowed="text that is not empty")
    if not _KEY.fullmatch(cells["key"]):
        raise line.fault("key", allowed="words of a-z, 0-9 and _, joined by dots")
    if cells["unit"] not in TABLE_UNITS:
        raise line.fault("unit", allowed=f"one of {', '.join(sorted(TABLE_UNITS))}")
    if cells["status"] not in STATUSES:
        raise line.fault("status", allowed=f"one of {', '.join(STATUSES)}")
    if cells["status"].startswith("read") and not cells["locator"]:
        raise line.fault("locator", allowed="a place in the source that was read")


def _number(line: _Line, column: str) -> float:
    # float() also takes "nan", "1_000" and spaces, none of which belong here.
    text = line.cells[column]
    if not _PLAIN_NUMBER.fullmatch(text) or not isfinite(float(text)):
        raise line.fault(column, allowed="a finite number in plain digits")
    return float(text)


def _uncertainty(line: _Line) -> float | None:
    column = "standard_uncertainty"
    if not line.cells[column]:
        return None
    uncertainty = _number(line, column)
    if uncertainty < 0:
        raise line.fault(column, allowed="zero or above, or empty for not stated")
    return uncertainty


def _date(line: _Line, column: str) -> date:
    allowed = "a date as YYYY-MM-DD"
    text = line.cells[column]
    if not _ISO_DATE.fullmatch(text):
        raise line.fault(column, allowed=allowed)
    try:
        return date.fromisoformat(text)
    except ValueError as error:
        raise line.fault(column, allowed=allowed) from error
