"""From the cells of a table to the elements of a certificate."""

import re

from strandproof.errors import ParameterError, TableRowError
from strandproof.records.cell_tables import Cell, CellRow, CellTable
from strandproof.records.composition import ElementContent

_PPM_PER_UNIT = {
    "ppm": 1.0,
    "wt ppm": 1.0,
    "ug/g": 1.0,
    "µg/g": 1.0,
    "μg/g": 1.0,
    "mg/kg": 1.0,
    "g/t": 1.0,
    "ppb": 1e-3,
    "%": 1e4,
    "wt%": 1e4,
    "wt %": 1e4,
}
_NOT_MEASURED = frozenset(
    {"not measured", "n.m.", "nm", "not determined", "-", "\N{EN DASH}", ""}
)
_NUMBER = re.compile(r"\d+(?:[.,]\d+)?(?:[eE][+-]?\d+)?")
_COLUMNS = {
    "element": ("element", "symbol"),
    "value": ("value", "content", "result"),
    "unit": ("unit",),
    "uncertainty": ("u", "uncertainty", "standard uncertainty"),
}
_ALLOWED_VALUE = (
    "a number such as 3.2 or 3,2, a detection limit such as <0.5, or: not measured"
)


def contents_from_cells(table: CellTable) -> tuple[ElementContent, ...]:
    """Read the elements of a certificate from the cells of a table.

    The columns are found by their headers, whatever their case: element, value, unit
    and, where there is one, the standard uncertainty in the same unit. A comma is a
    decimal comma; thousands are not grouped.

    Parameters
    ----------
    table : CellTable
        Header and rows.

    Returns
    -------
    tuple of ElementContent
        In the table's order; a row for copper itself is refused.

    Raises
    ------
    ParameterError
        If a column is missing.
    TableRowError
        If a row cannot be read, or names an element again; it names file and row.

    Examples
    --------
    >>> rows = (CellRow(number=2, cells=("Fe", "3,2", "ppm")),
    ...         CellRow(number=3, cells=("Bi", "<0,5", "ppm")))
    >>> headers = ("Element", "Value", "Unit")
    >>> found = contents_from_cells(CellTable(name="t.csv", headers=headers, rows=rows))
    >>> [(one.symbol, one.state, one.ppm) for one in found]
    [('Fe', 'value', 3.2), ('Bi', 'below', 0.5)]
    """
    places = {role: _place(table, role) for role in _COLUMNS}
    found: list[ElementContent] = []
    for row in table.rows:
        content = _content(table, row, places)
        if any(content.symbol == earlier.symbol for earlier in found):
            fault: TableRowError = _fault(
                table, row, "element", allowed="an element no earlier row has"
            )
            raise fault
        found.append(content)
    return tuple(found)


def content_from_words(text: str) -> ElementContent:
    """Read an element as typed: symbol, equals sign, number or limit, unit.

    Parameters
    ----------
    text : str
        ``"Fe=3.2"``, ``"Bi=<0.5"``, ``"Ag=0.0012%"``, ``"O=not measured"``, with
        ``"Fe=3.2+-0.3"`` for a standard uncertainty; ppm by mass without a unit.

    Returns
    -------
    ElementContent
        As typed.

    Raises
    ------
    ParameterError
        If it has another form.

    Examples
    --------
    >>> content_from_words("Ag=<0.0012%").ppm
    12.0
    """
    symbol, equals, rest = text.partition("=")
    amount, unit = _number_and_unit(rest)
    value, plus_minus, u = amount.partition("+-")
    if not equals or unit not in _PPM_PER_UNIT or (plus_minus and not u.strip()):
        raise ParameterError(
            "element", text, allowed="for example Fe=3.2, Bi=<0.5, Ag=12ppm or O=-"
        )
    return _built(symbol.strip(), value.strip(), unit, u.strip())


def _number_and_unit(text: str) -> tuple[str, str]:
    stripped = text.strip()
    for unit in sorted(_PPM_PER_UNIT, key=len, reverse=True):
        if stripped.endswith(unit):
            return stripped.removesuffix(unit).strip(), unit
    return stripped, "ppm"


def _place(table: CellTable, role: str) -> int | None:
    known = _COLUMNS[role]
    for place, header in enumerate(table.headers):
        if header.strip().lower() in known:
            return place
    if role == "uncertainty":
        return None
    named = f"columns of {table.name}"
    raise ParameterError(
        named,
        ", ".join(table.headers),
        allowed="element, value and unit, each a header",
        remedy=f"No column is named {' or '.join(known)}.",
    )


def _content(
    table: CellTable, row: CellRow, places: dict[str, int | None]
) -> ElementContent:
    cells = {
        role: "" if place is None else _text(row.cells[place])
        for role, place in places.items()
    }
    unit = cells["unit"].lower()
    state = _NOT_MEASURED & {cells["value"].lower()}
    if unit not in _PPM_PER_UNIT and not state:
        raise _fault(table, row, "unit", allowed=", ".join(_PPM_PER_UNIT))
    try:
        return _built(cells["element"], cells["value"], unit, cells["uncertainty"])
    except ParameterError as fault:
        raise TableRowError(
            table.name,
            row.number,
            f"{cells['element'] or 'an element'} {cells['value']!r}: {fault}".rstrip(
                "."
            ),
            allowed=_ALLOWED_VALUE,
        ) from fault


def _built(symbol: str, value: str, unit: str, u: str) -> ElementContent:
    if value.strip().lower() in _NOT_MEASURED:
        return ElementContent(symbol=symbol, state="not_measured")
    factor = _PPM_PER_UNIT[unit]
    below = value.startswith("<")
    number = _number(value.removeprefix("<").strip(), symbol)
    return ElementContent(
        symbol=symbol,
        state="below" if below else "value",
        ppm=_scaled(number, factor),
        standard_uncertainty=_scaled(_number(u, symbol), factor) if u else None,
    )


def _scaled(number: float, factor: float) -> float:
    # 0.0012 % is 12 ppm, not 12.000000000000002.
    return float(f"{number * factor:.12g}")


def _number(text: str, symbol: str) -> float:
    if not _NUMBER.fullmatch(text):
        named = f"content of {symbol}"
        raise ParameterError(named, text, allowed=_ALLOWED_VALUE)
    return float(text.replace(",", "."))


def _text(cell: Cell) -> str:
    return f"{cell:.12g}" if isinstance(cell, float) else cell.strip()


def _fault(table: CellTable, row: CellRow, role: str, *, allowed: str) -> TableRowError:
    place = _place(table, role) or 0
    return table.fault(row, table.headers[place], row.cells[place], allowed=allowed)
