"""Which column of a table is what, in which unit, and the numbers in it."""

import re
from collections.abc import Mapping, Sequence
from pathlib import Path

from strandproof.errors import ParameterError
from strandproof.records.cell_tables import Cell, CellRow, CellTable, ColumnMapping
from strandproof.storage import read_cell_table, remember_columns, remembered_columns

Roles = Mapping[str, Sequence[str]]
"""Words, lower case, by which the header of each role is known without being told."""

_UNITS = {
    "v": "V",
    "mv": "mV",
    "uv": "uV",
    "a": "A",
    "ma": "mA",
    "ohm": "ohm",
    "mohm": "mohm",
    "uohm": "uohm",
    "g": "g",
    "mg": "mg",
    "kg": "kg",
    "m": "m",
    "mm": "mm",
    "um": "um",
    "s": "s",
    "min": "min",
    "degc": "degC",
    "c": "degC",
}
_SIGNS = (
    ("Ω", "ohm"),
    ("Ω", "ohm"),
    ("µ", "u"),
    ("μ", "u"),
    ("°", "deg"),
    ("º", "deg"),
)
_HEADER = re.compile(
    r"(?P<words>.*?)\s*(?:\[(?P<a>[^\]]+)\]|\((?P<b>[^)]+)\)"
    r"|[/,]\s*(?P<c>[^\s/,]+)|[\s_](?P<d>[^\s_]+))\s*"
)
_NUMBER = re.compile(r"[+-]?(\d+([.,]\d*)?|[.,]\d+)([eE][+-]?\d+)?")


def known_table(
    path: Path,
    *,
    roles: Roles,
    required: Sequence[str],
    named: Mapping[str, str],
    sheet: str | None = None,
) -> tuple[CellTable, ColumnMapping]:
    """Read a table and settle which column is what.

    What the user names goes first, then what was remembered beside a table with the
    same headers, then headers that say it themselves. What the user named is
    remembered.

    Parameters
    ----------
    path : Path
        A CSV or XLSX file.
    roles : mapping of str to sequence of str
        Roles, with the words by which each is known.
    required : sequence of str
        Roles that must be there.
    named : mapping of str to str
        Header by role, as the user named them.
    sheet : str or None
        Sheet of an XLSX file.

    Returns
    -------
    table : CellTable
        Its cells.
    mapping : ColumnMapping
        Header by role.

    Raises
    ------
    ParameterError
        If a role or header is not known, one column is given two roles, or a
        required role has no column.
    TableRowError
        If a row cannot be read.
    """
    table = read_cell_table(path, sheet=sheet)
    _require_known(table, roles, named)
    kept = remembered_columns(path, table.headers)
    headers = {
        **_told_by_headers(table, roles),
        **({} if kept is None else kept.headers),
        **named,
    }
    headers = {role: header for role, header in headers.items() if role in roles}
    _require_once(headers)
    missing = [role for role in required if role not in headers]
    if missing:
        what = f"columns of {path.name}"
        raise ParameterError(
            what,
            list(table.headers),
            allowed=f"a column for {', '.join(required)}",
            remedy=f"Name the missing one, for example --column "
            f"{missing[0]}={table.headers[0]!r}; it is remembered.",
        )
    mapping = ColumnMapping(headers=headers)
    if named:
        remember_columns(path, table.headers, mapping)
    return table, mapping


def unit_of_header(header: str) -> str | None:
    """Find the unit in a header.

    Parameters
    ----------
    header : str
        For example ``"U+ (mV)"``, ``"I / mA"`` or ``"current_mA"``.

    Returns
    -------
    str or None
        The unit as this program writes it; None where there is none.

    Examples
    --------
    >>> unit_of_header("U+ (mV)"), unit_of_header("R [µΩ]"), unit_of_header("T, °C")
    ('mV', 'uohm', 'degC')
    >>> unit_of_header("forward") is None
    True
    """
    return _parted(header)[1]


def column_unit(
    table: CellTable, mapping: ColumnMapping, role: str, *, allowed: Sequence[str]
) -> str:
    """Give the unit of a column, or refuse.

    Parameters
    ----------
    table : CellTable
        The table.
    mapping : ColumnMapping
        Header by role.
    role : str
        Role of the column.
    allowed : sequence of str
        Units that fit.

    Returns
    -------
    str
        The unit.

    Raises
    ------
    ParameterError
        If the header names no unit, or another one.
    """
    header = mapping.headers[role]
    unit = unit_of_header(header)
    if unit is None or unit not in allowed:
        what = f"header of the column for {role} in {table.name}"
        raise ParameterError(
            what,
            header,
            allowed="a header with one of the units " + ", ".join(allowed),
            remedy=f"Write the unit into the header, for example "
            f"'{role} ({allowed[0]})'.",
        )
    return unit


def column_texts(
    table: CellTable, mapping: ColumnMapping, role: str
) -> tuple[str, ...]:
    """Give the cells of a column as text.

    Parameters
    ----------
    table : CellTable
        The table.
    mapping : ColumnMapping
        Header by role.
    role : str
        Role of the column.

    Returns
    -------
    tuple of str
        One for each row; empty texts where the table has no such column.
    """
    if role not in mapping.headers:
        return ("",) * len(table.rows)
    place = table.column(mapping.headers[role])
    return tuple(_as_text(row.cells[place]) for row in table.rows)


def column_numbers(
    table: CellTable, mapping: ColumnMapping, role: str
) -> tuple[float | None, ...]:
    """Give the numbers of a column.

    Parameters
    ----------
    table : CellTable
        The table.
    mapping : ColumnMapping
        Header by role.
    role : str
        Role of the column.

    Returns
    -------
    tuple of float or None
        One for each row; None for an empty cell, or without such a column.

    Raises
    ------
    TableRowError
        If a cell is no number, or some cells have a decimal comma and some a point.
    """
    if role not in mapping.headers:
        return (None,) * len(table.rows)
    header = mapping.headers[role]
    place = table.column(header)
    marks: set[str] = set()
    return tuple(
        _number(table, row, header, row.cells[place], marks) for row in table.rows
    )


def required_numbers(
    table: CellTable, mapping: ColumnMapping, role: str
) -> tuple[float, ...]:
    """Give the numbers of a column that may have no empty cell.

    Parameters
    ----------
    table : CellTable
        The table.
    mapping : ColumnMapping
        Header by role.
    role : str
        Role of the column.

    Returns
    -------
    tuple of float
        One for each row.

    Raises
    ------
    TableRowError
        If a cell is empty or no number.
    """
    found = []
    for row, value in zip(
        table.rows, column_numbers(table, mapping, role), strict=True
    ):
        if value is None:
            header = mapping.headers[role]
            raise table.fault(row, header, "", allowed="a number in every row")
        found.append(value)
    return tuple(found)


def _number(
    table: CellTable, row: CellRow, header: str, cell: Cell, marks: set[str]
) -> float | None:
    if isinstance(cell, float):
        return cell
    text = cell.replace("−", "-").replace("\u00a0", "").strip()
    if not text:
        return None
    if not _NUMBER.fullmatch(text):
        raise table.fault(
            row,
            header,
            cell,
            allowed="a plain number such as 172.98 or 172,98, its unit in the header",
        )
    # 1,234 may be a thousand to one writer; beside 1.2 in the same column nobody
    # can tell which is meant.
    marks |= set(text) & {",", "."}
    if len(marks) > 1:
        raise table.fault(
            row, header, cell, allowed="decimal commas or decimal points, not both"
        )
    return float(text.replace(",", "."))


def _parted(header: str) -> tuple[str, str | None]:
    plain = header.strip()
    for sign, word in _SIGNS:
        plain = plain.replace(sign, word)
    found = _HEADER.fullmatch(plain)
    if found is None:
        return plain, None
    unit = next(part for part in found.group("a", "b", "c", "d") if part is not None)
    # mV and MV are not the same, so only the unit's known spellings count.
    known = _UNITS.get(unit.strip().lower())
    spelt = unit.strip()
    if known is None or (spelt[0] in {"M", "K"} and known[0] in {"m", "k"}):
        return plain, None
    return found["words"], known


def _told_by_headers(table: CellTable, roles: Roles) -> dict[str, str]:
    found: dict[str, str] = {}
    for role, words in roles.items():
        fitting = [
            header
            for header in table.headers
            if _spoken(_parted(header)[0]) in {role, *words}
        ]
        if len(fitting) == 1:
            found[role] = fitting[0]
    return found


def _spoken(words: str) -> str:
    return re.sub(r"[\s_]+", " ", words).strip().lower()


def _require_known(table: CellTable, roles: Roles, named: Mapping[str, str]) -> None:
    for role, header in named.items():
        if role not in roles:
            raise ParameterError("column", role, allowed="one of " + ", ".join(roles))
        table.column(header)


def _require_once(headers: Mapping[str, str]) -> None:
    if len(set(headers.values())) != len(headers):
        raise ParameterError(
            "columns", dict(headers), allowed="each column in one role only"
        )


def _as_text(cell: Cell) -> str:
    if isinstance(cell, float) and cell.is_integer():
        return str(int(cell))
    return str(cell)
