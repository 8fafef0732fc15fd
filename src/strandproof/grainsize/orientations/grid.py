"""Points of a map put on their square or hexagonal grid, or on one line."""

from dataclasses import dataclass
from math import sqrt

import numpy as np
import numpy.typing as npt

from strandproof.errors import ParameterError, TableRowError
from strandproof.grainsize.orientations.rotations import Floats
from strandproof.records.orientation import OrientationTable
from strandproof.records.orientation_results import GridKind

Whole = npt.NDArray[np.int64]

LARGEST_GRID_CELLS = 64_000_000
_OFF_GRID = 0.15  # of a step: rounded coordinates pass, a jittering stage does not
_HEXAGON_TOLERANCE = 0.05
_EMPTY_PER_POINT = 20


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PointGrid:
    """Where each point of a table stands on its grid.

    Parameters
    ----------
    kind : {"square", "hexagonal", "line"}
        Arrangement. ``"square"`` holds rectangular cells too.
    step_um, row_step_um : float
        Distance of points in a row and of rows [um].
    shifted_parity : int
        Rows whose number leaves this rest over 2 stand half a step to the
        right; of no account unless hexagonal.
    points : ndarray of int, shape (n_rows, n_columns)
        Number of the table's point in each cell; -1 where there is none.
    """

    kind: GridKind
    step_um: float
    row_step_um: float
    shifted_parity: int
    points: Whole

    @property
    def cell_area_um2(self) -> float:
        """Area that one point stands for [um^2]."""
        return self.step_um * self.row_step_um


def point_grid(table: OrientationTable) -> PointGrid:
    """Find the grid that the points of a table stand on.

    Gaps are allowed, and coordinates rounded to a tenth of the step; points of
    a stage that jitters are not.

    Parameters
    ----------
    table : OrientationTable
        Two points or more.

    Returns
    -------
    PointGrid
        The grid.

    Raises
    ------
    ParameterError
        If there are fewer than two points, or so few in so large a frame that
        they are no map.
    TableRowError
        If a point is off the grid, or stands where an earlier one does; names
        its line.
    """
    if len(table.x_um) < 2:
        raise ParameterError(
            "points of the table", len(table.x_um), allowed="2 or more"
        )
    rows, row_step = _rows(table)
    column_place, step, shifted = _columns(table, rows)
    row_step = row_step or step
    step = step or row_step
    kind = _kind(table, rows, hexagonal=shifted is not None, steps=(step, row_step))
    cells = np.full(_shape(rows, column_place, len(rows)), -1, dtype=np.int64)
    flat = rows * cells.shape[1] + column_place
    _refuse_doubles(table, flat)
    cells.ravel()[flat] = np.arange(len(rows))
    return PointGrid(
        kind=kind,
        step_um=step,
        row_step_um=row_step,
        shifted_parity=shifted or 0,
        points=cells,
    )


def _rows(table: OrientationTable) -> tuple[Whole, float]:
    levels = np.unique(table.y_um)
    step = _step(np.diff(levels))
    if step == 0.0:
        return np.zeros(len(table.y_um), dtype=np.int64), 0.0
    place = (table.y_um - levels[0]) / step
    _refuse_off_grid(table, place - np.round(place), "row", step)
    return np.round(place).astype(np.int64), step


def _columns(table: OrientationTable, rows: Whole) -> tuple[Whole, float, int | None]:
    # Returns the column of each point, the step, and which rows are shifted.
    order = np.lexsort((table.x_um, rows))
    same_row = np.diff(rows[order]) == 0
    step = _step(np.diff(table.x_um[order])[same_row])
    if step == 0.0:
        step = _step(np.diff(np.unique(table.x_um)))
    if step == 0.0:
        return np.zeros(len(rows), dtype=np.int64), 0.0, None
    leftmost = int(np.argmin(table.x_um))
    straight = (table.x_um - table.x_um[leftmost]) / step
    other_rows = 1 - int(rows[leftmost] % 2)
    staggered = straight - 0.5 * (rows % 2 == other_rows)
    # Whichever fits more points, so that one bad point is named as such.
    is_staggered = _fitting(staggered) > _fitting(straight)
    place = staggered if is_staggered else straight
    _refuse_off_grid(table, place - np.round(place), "column", step)
    shifted = other_rows if is_staggered else None
    return np.round(place).astype(np.int64), step, shifted


def _fitting(place: Floats) -> int:
    return int((np.abs(place - np.round(place)) <= _OFF_GRID).sum())


def _step(gaps: Floats) -> float:
    # The mean of the ordinary gaps: rounded coordinates average out, holes in the
    # map do not count.
    wide = gaps[gaps > 1e-9 * max(1.0, float(np.max(gaps, initial=0.0)))]
    if len(wide) == 0:
        return 0.0
    middle = float(np.median(wide))
    ordinary = wide[np.abs(wide - middle) < 0.5 * middle]
    return float(ordinary.mean())


def _kind(
    table: OrientationTable,
    rows: Whole,
    *,
    hexagonal: bool,
    steps: tuple[float, float],
) -> GridKind:
    if np.ptp(rows) == 0 or np.ptp(table.x_um) == 0.0:
        return "line"
    if not hexagonal:
        return "square"
    expected = 0.5 * sqrt(3.0) * steps[0]
    if abs(steps[1] - expected) > _HEXAGON_TOLERANCE * expected:
        raise ParameterError(
            "row distance of a grid whose rows are shifted by half a step",
            steps[1],
            allowed=f"{expected:.6g} um (0.866 of the step)",
            remedy="Export the points as measured, or on a square grid.",
        )
    return "hexagonal"


def _shape(rows: Whole, columns: Whole, points: int) -> tuple[int, int]:
    shape = int(rows.max()) + 1, int(columns.max()) + 1
    cells = shape[0] * shape[1]
    largest = min(LARGEST_GRID_CELLS, 1000 + _EMPTY_PER_POINT * points)
    if cells > largest:
        raise ParameterError(
            "cells of the grid",
            cells,
            allowed=f"at most {largest} for {points} points",
            remedy="Give one map at a time; single places go in a table with a "
            "column 'place'.",
        )
    return shape


def _refuse_off_grid(
    table: OrientationTable, off: Floats, what: str, step: float
) -> None:
    worst = int(np.abs(off).argmax())
    if abs(off[worst]) <= _OFF_GRID:
        return
    raise TableRowError(
        table.name,
        table.first_line + worst,
        f"the point at x = {table.x_um[worst]:.6g}, y = {table.y_um[worst]:.6g} um "
        f"lies {abs(off[worst]):.2f} of a {what} step of {step:.6g} um off the grid",
        allowed="a square or hexagonal grid whose rows run along x",
    )


def _refuse_doubles(table: OrientationTable, flat: Whole) -> None:
    order = np.argsort(flat, kind="stable")
    again = np.flatnonzero(np.diff(flat[order]) == 0)
    if len(again) == 0:
        return
    earlier, later = int(order[again[0]]), int(order[again[0] + 1])
    raise TableRowError(
        table.name,
        table.first_line + later,
        "the point stands in the same cell of the grid as that of line "
        f"{table.first_line + earlier}",
        allowed="one point for each cell",
    )
