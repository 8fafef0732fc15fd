"""The tables that ship with the package, read once and kept."""

from collections.abc import Mapping
from functools import cache
from importlib.resources import files

from strandproof.errors import UnknownTableError
from strandproof.tables.loader import TableRow, parse_table


@cache
def package_table_names() -> tuple[str, ...]:
    """Names of the tables in the package, sorted, without ``.csv``.

    Returns
    -------
    tuple of str
        For example ``("exact_limits", "grain_size_relations", ...)``.
    """
    entries = (files("strandproof.tables") / "data").iterdir()
    return tuple(
        sorted(
            entry.name.removesuffix(".csv")
            for entry in entries
            if entry.name.endswith(".csv")
        )
    )


@cache
def package_table(name: str) -> Mapping[str, TableRow]:
    """All rows of one table of the package, by key.

    Parameters
    ----------
    name : str
        File name without ``.csv``.

    Returns
    -------
    Mapping from str to TableRow
        Checked rows; read-only, so that the kept copy cannot be altered.

    Raises
    ------
    UnknownTableError
        If the package has no table of that name.

    Examples
    --------
    >>> package_table("grain_size_relations")["definition.area"].value
    645.16
    """
    if name not in package_table_names():
        raise UnknownTableError("table", name, known=", ".join(package_table_names()))
    source = files("strandproof.tables") / "data" / f"{name}.csv"
    return parse_table(source.read_text(encoding="utf-8"), file_name=source.name)


def table_value(table: Mapping[str, TableRow], key: str) -> float:
    """Value of one row, with a message that helps when the key is wrong.

    Parameters
    ----------
    table : Mapping from str to TableRow
        A table, for example from `package_table`.
    key : str
        Key of the row.

    Returns
    -------
    float
        The value, in the row's unit.

    Raises
    ------
    UnknownTableError
        If the table has no such row.
    """
    if key not in table:
        raise UnknownTableError("row", key, known=", ".join(table))
    return table[key].value
