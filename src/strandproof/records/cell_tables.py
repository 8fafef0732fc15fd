"""A table as somebody's program wrote it: headers and cells, nothing understood yet."""

from collections.abc import Mapping
from dataclasses import dataclass

from strandproof.errors import ParameterError, TableRowError

Cell = str | float


@dataclass(frozen=True, slots=True, kw_only=True)
class CellRow:
    """One row below the header.

    Parameters
    ----------
    number : int
        Row in the file, the first being 1.
    cells : tuple of str or float
        One cell for each header; an empty cell is an empty text.
    """

    number: int
    cells: tuple[Cell, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class CellTable:
    """Headers and rows of a file, as they stand there.

    Parameters
    ----------
    name : str
        File, for messages.
    headers : tuple of str
        Text of the header row, each once.
    rows : tuple of CellRow
        Rows that are not empty.
    """

    name: str
    headers: tuple[str, ...]
    rows: tuple[CellRow, ...]

    def column(self, header: str) -> int:
        """Give the place of a column.

        Parameters
        ----------
        header : str
            Its header.

        Returns
        -------
        int
            Its place, the first being 0.

        Raises
        ------
        ParameterError
            If there is no such column.
        """
        if header not in self.headers:
            raise ParameterError(
                "column", header, allowed="one of " + ", ".join(self.headers)
            )
        return self.headers.index(header)

    def fault(
        self, row: CellRow, header: str, cell: Cell, *, allowed: str
    ) -> TableRowError:
        """Make the error that names file, row, column and cell.

        Parameters
        ----------
        row : CellRow
            The row.
        header : str
            Header of the column.
        cell : str or float
            What stands there.
        allowed : str
            What is allowed, in words.

        Returns
        -------
        TableRowError
            To be raised.
        """
        problem = f"column {header!r} holds {cell!r}"
        return TableRowError(self.name, row.number, problem, allowed=allowed)


@dataclass(frozen=True, slots=True, kw_only=True)
class ColumnMapping:
    """Which column of a table plays which role.

    Parameters
    ----------
    headers : mapping of str to str
        Header by role, for example ``{"forward": "U+ (mV)"}``.
    """

    headers: Mapping[str, str]
