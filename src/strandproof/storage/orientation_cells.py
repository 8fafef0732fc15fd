"""Columns and cells of a table of orientations: which there are, what they hold."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from math import isfinite, pi, radians
from typing import Literal

import numpy as np
import numpy.typing as npt

from strandproof.errors import TableRowError

TableKind = Literal["map", "grains", "places"]

_ANGLES = {
    "deg": ("phi1_deg", "phi_deg", "phi2_deg"),
    "rad": ("phi1_rad", "phi_rad", "phi2_rad"),
}
_PLACES_UM = {"um": 1.0, "mm": 1000.0}
_NUMBER = re.compile(r"[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?")
_SLACK = 1e-6  # rounded degrees of a half or whole turn
_MOST_COLUMNS = 60
_NEEDED: Mapping[TableKind, tuple[str, ...]] = {
    "map": ("x_{}", "y_{}"),
    "grains": ("grain", "x_{}", "y_{}", "area_um2"),
    "places": ("place", "x_{}"),
}
_OPTIONAL: Mapping[TableKind, tuple[str, ...]] = {
    "map": ("indexed",),
    "grains": ("neighbours",),
    "places": (),
}
_ALLOWED: Mapping[TableKind, str] = {
    "map": "x_um, y_um, phi1_deg, Phi_deg, phi2_deg for points of a map, with "
    "indexed where it is known; with grain and area_um2 a list of grains; with "
    "place a list of places (x_mm and angles in _rad are read too)",
    "grains": "grain, x_um, y_um, area_um2, phi1_deg, Phi_deg, phi2_deg and, where "
    "they are known, neighbours",
    "places": "place, x_um or x_mm along the strand, phi1_deg, Phi_deg, phi2_deg",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Columns:
    """Columns of a table, as its header names them.

    Parameters
    ----------
    kind : {"map", "grains", "places"}
        What the rows are.
    place : Mapping from str to int
        Where each column stands, by its name in lower case.
    angles : tuple of str
        Names of the three angle columns.
    radians_per_unit : float
        Radians in one unit of the angles.
    um_per_unit : float
        Micrometres in one unit of the places.
    length_unit : str
        Unit of the places.
    unread : tuple of str
        Columns that no rule reads.
    """

    kind: TableKind
    place: Mapping[str, int]
    angles: tuple[str, ...]
    radians_per_unit: float
    um_per_unit: float
    length_unit: str
    unread: tuple[str, ...]

    @property
    def has_indexed(self) -> bool:
        """Whether a column says which points were indexed."""
        return "indexed" in self.place

    @property
    def numeric(self) -> tuple[str, ...]:
        """Columns of numbers of a map, in the order they are kept."""
        places = (f"x_{self.length_unit}", f"y_{self.length_unit}")
        indexed = ("indexed",) if self.has_indexed else ()
        return (*places, *self.angles, *indexed)


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One row of a table and where it stands.

    Parameters
    ----------
    name : str
        Name of the file.
    line : int
        Line in it.
    cells : Mapping from str to str
        Content by column, without spaces around it.
    """

    name: str
    line: int
    cells: Mapping[str, str]

    def fault(self, column: str, *, allowed: str) -> TableRowError:
        """Give the error that names a cell of this row.

        Parameters
        ----------
        column : str
            Name of the column.
        allowed : str
            What is allowed, in words.

        Returns
        -------
        TableRowError
            To be raised.
        """
        problem = f"{column} is {self.cells[column][:60]!r}"
        return TableRowError(self.name, self.line, problem, allowed=allowed)


def columns_of_header(text: str, *, name: str, line: int) -> Columns:
    """Read the header of a table.

    Parameters
    ----------
    text : str
        The header's line.
    name : str
        Name of the file, for messages.
    line : int
        Its line, for messages.

    Returns
    -------
    Columns
        Which columns there are, and what the table is.

    Raises
    ------
    TableRowError
        If a column is missing or named twice, or cells are not parted by
        commas.
    """
    names = [cell.strip().strip('"').lower() for cell in text.split(",")]
    if len(names) < 3 and re.search(r"[;\t]", text):
        problem = "the header's cells are parted by semicolons or tabs"
        raise TableRowError(name, line, problem, allowed="commas")
    if len(set(names)) < len(names) or len(names) > _MOST_COLUMNS:
        problem = f"the header has {len(names)} columns, {len(set(names))} of them new"
        allowed = f"at most {_MOST_COLUMNS} columns, each named once"
        raise TableRowError(name, line, problem, allowed=allowed)
    place = {column: number for number, column in enumerate(names)}
    kind: TableKind = "map"
    if "place" in place:
        kind = "places"
    elif "grain" in place:
        kind = "grains"
    unit = "rad" if "phi1_rad" in place else "deg"
    length = "mm" if "x_mm" in place else "um"
    needed = [column.format(length) for column in _NEEDED[kind]]
    missing = [column for column in (*needed, *_ANGLES[unit]) if column not in place]
    if missing:
        problem = f"the header is {text[:200]!r}, without {', '.join(missing)}"
        raise TableRowError(name, line, problem, allowed=_ALLOWED[kind])
    read = {*needed, *_ANGLES[unit], *_OPTIONAL[kind]}
    return Columns(
        kind=kind,
        place=place,
        angles=_ANGLES[unit],
        radians_per_unit=radians(1.0) if unit == "deg" else 1.0,
        um_per_unit=_PLACES_UM[length],
        length_unit=length,
        unread=tuple(column for column in names if column not in read),
    )


def number_or_none(row: Row, column: str) -> float | None:
    """Read a cell that holds a number or nothing.

    Parameters
    ----------
    row : Row
        The row.
    column : str
        Name of the column.

    Returns
    -------
    float or None
        None where the cell is empty.

    Raises
    ------
    TableRowError
        If the cell holds anything else.
    """
    text = row.cells[column]
    if not text:
        return None
    if not _NUMBER.fullmatch(text) or not isfinite(float(text)):
        raise row.fault(column, allowed="a finite number with a decimal point")
    return float(text)


def angle_fault(angles_rad: npt.NDArray[np.float64]) -> tuple[int, str, str] | None:
    """Find the first row whose angles cannot be Bunge angles.

    Parameters
    ----------
    angles_rad : ndarray of float, shape (n, 3)
        phi1, Phi, phi2 [rad]; NaN where none.

    Returns
    -------
    tuple of int, str and str, or None
        Row, what was found, what is allowed; None if all are in range.
    """
    low = np.array([-2.0 * pi, 0.0, -2.0 * pi]) - _SLACK
    high = np.array([2.0 * pi, pi, 2.0 * pi]) + _SLACK
    outside = (angles_rad < low) | (angles_rad > high)
    rows = np.flatnonzero(outside.any(axis=1))
    if len(rows) == 0:
        return None
    first = int(rows[0])
    shown = ", ".join(f"{angle:.6g}" for angle in np.rad2deg(angles_rad[first]))
    problem = f"the angles are {shown} deg"
    allowed = (
        "phi1 and phi2 from -360 to 360 deg and Phi from 0 to 180; a point that was "
        "not indexed has empty angles, or 0 in the column indexed; radians are named "
        "so in the header (phi1_rad)"
    )
    return first, problem, allowed


def place_fault(
    table: npt.NDArray[np.float64], columns: Columns
) -> tuple[int, str, str] | None:
    """Find the first row of a map whose place or mark of indexing is no good.

    Parameters
    ----------
    table : ndarray of float, shape (n, n_numeric)
        Columns of numbers, as `Columns.numeric` names them.
    columns : Columns
        The header.

    Returns
    -------
    tuple of int, str and str, or None
        Row, what was found, what is allowed; None if all are good.
    """
    bad = ~np.isfinite(table[:, :2]).all(axis=1)
    if columns.has_indexed:
        bad |= ~np.isin(table[:, 5], (0.0, 1.0))
    rows = np.flatnonzero(bad)
    if len(rows) == 0:
        return None
    first = int(rows[0])
    found = zip(columns.numeric, table[first], strict=True)
    problem = "the row holds " + ", ".join(f"{name} {one:g}" for name, one in found)
    return first, problem, "finite places, and 0 or 1 in the column indexed"
