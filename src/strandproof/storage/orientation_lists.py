"""Lists of grains and of places, made of the rows of their tables."""

import re
from collections.abc import Sequence

import numpy as np
import numpy.typing as npt

from strandproof.errors import TableRowError
from strandproof.records.orientation import AngleMeaning, GrainTable, PlaceTable
from strandproof.storage.orientation_cells import (
    Columns,
    Row,
    angle_fault,
    number_or_none,
)


def grain_table(
    rows: Sequence[Row],
    columns: Columns,
    *,
    meaning: AngleMeaning,
    notes: tuple[str, ...],
) -> GrainTable:
    """Make a list of grains of its rows.

    Parameters
    ----------
    rows : sequence of Row
        One or more.
    columns : Columns
        The header.
    meaning : {"passive", "active"}
        How the angles are meant.
    notes : tuple of str
        Remark lines.

    Returns
    -------
    GrainTable
        The list.

    Raises
    ------
    TableRowError
        If a number is missing or no number, a grain is listed twice, or a
        neighbour is not in the list.
    """
    numbers = [_whole(row, "grain", row.cells["grain"]) for row in rows]
    _refuse_repeated(rows, "grain", numbers)
    neighbours = None
    if "neighbours" in columns.place:
        known = set(numbers)
        neighbours = tuple(_neighbours(row, known) for row in rows)
    x, y = _along(rows, columns, "x"), _along(rows, columns, "y")
    return GrainTable(
        name=rows[0].name,
        numbers=tuple(numbers),
        x_um=x,
        y_um=y,
        angles_rad=_angles(rows, columns),
        area_um2=np.array([_area(row) for row in rows]),
        neighbours=neighbours,
        meaning=meaning,
        notes=notes,
    )


def place_table(
    rows: Sequence[Row],
    columns: Columns,
    *,
    meaning: AngleMeaning,
    notes: tuple[str, ...],
) -> PlaceTable:
    """Make a list of places of its rows.

    Parameters
    ----------
    rows : sequence of Row
        One or more.
    columns : Columns
        The header.
    meaning : {"passive", "active"}
        How the angles are meant.
    notes : tuple of str
        Remark lines.

    Returns
    -------
    PlaceTable
        The list.

    Raises
    ------
    TableRowError
        If a number is missing or no number, or a place has no name or that of
        another.
    """
    names = [row.cells["place"] for row in rows]
    for row in rows:
        if not row.cells["place"] or not row.cells["place"].isprintable():
            raise row.fault("place", allowed="a name")
    _refuse_repeated(rows, "place", names)
    return PlaceTable(
        name=rows[0].name,
        places=tuple(names),
        x_um=_along(rows, columns, "x"),
        angles_rad=_angles(rows, columns),
        meaning=meaning,
        notes=notes,
    )


def _along(
    rows: Sequence[Row], columns: Columns, direction: str
) -> npt.NDArray[np.float64]:
    column = f"{direction}_{columns.length_unit}"
    return columns.um_per_unit * np.array([_number(row, column) for row in rows])


def _angles(rows: Sequence[Row], columns: Columns) -> npt.NDArray[np.float64]:
    given = [[_number(row, name) for name in columns.angles] for row in rows]
    angles = np.array(given) * columns.radians_per_unit
    fault = angle_fault(angles)
    if fault is not None:
        number, problem, allowed = fault
        row = rows[number]
        raise TableRowError(row.name, row.line, problem, allowed=allowed)
    return angles


def _number(row: Row, column: str) -> float:
    number = number_or_none(row, column)
    if number is None:
        raise row.fault(column, allowed="a number")
    return number


def _area(row: Row) -> float:
    area = _number(row, "area_um2")
    if not area > 0.0:
        raise row.fault("area_um2", allowed="a number above 0 [um2]")
    return area


def _whole(row: Row, column: str, text: str) -> int:
    if not re.fullmatch(r"\d{1,9}", text):
        raise row.fault(column, allowed="a whole number of at most nine digits")
    return int(text)


def _neighbours(row: Row, known: set[int]) -> tuple[int, ...]:
    column = "neighbours"
    parts = row.cells[column].split()
    numbers = tuple(_whole(row, column, part) for part in parts)
    own = int(row.cells["grain"])
    if not set(numbers) <= known or own in numbers:
        allowed = "numbers of other grains of the list, parted by spaces"
        raise row.fault(column, allowed=allowed)
    return numbers


def _refuse_repeated(
    rows: Sequence[Row], column: str, values: Sequence[str] | Sequence[int]
) -> None:
    seen: set[object] = set()
    for row, value in zip(rows, values, strict=True):
        if value in seen:
            raise row.fault(column, allowed="one that no earlier row has")
        seen.add(value)
