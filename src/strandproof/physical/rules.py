"""Rules and constants of this part, read from the package's tables."""

from functools import cache

from strandproof.tables import package_table, table_value


@cache
def rule(key: str) -> float:
    """Value of one row of ``physical_rules.csv``.

    Parameters
    ----------
    key : str
        Key of the row, for example ``"vickers.edge_distance"``.

    Returns
    -------
    float
        The value, in the row's unit.

    Raises
    ------
    UnknownTableError
        If the table has no such row.

    Examples
    --------
    >>> rule("vickers.edge_distance")
    2.5
    """
    return table_value(package_table("physical_rules"), key)
