"""What one part per million of an element adds to the resistivity of copper."""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from strandproof.tables.loader import RowStatus, TableRow
from strandproof.tables.package_data import package_table, table_value


@dataclass(frozen=True, slots=True, kw_only=True)
class ImpurityResistivity:
    """Specific resistivity of one element in copper, with the range of the sources.

    Parameters
    ----------
    symbol : str
        Chemical symbol, for example ``"Fe"``.
    dissolved : float
        Recommended increase while dissolved [pohm m per ppm by mass]; above 0.
    dissolved_low, dissolved_high : float
        Lowest and highest value that the sources of the table give
        [pohm m per ppm by mass].
    precipitated_low, precipitated_high : float
        The same amount locked up in precipitates or oxide
        [pohm m per ppm by mass].
    solubility : float or None
        Greatest content that stays dissolved, about [ppm by mass]; None where
        the table names none.
    status : RowStatus
        Status of the recommended value.
    remark : str
        Conflict or condition of the recommended value.
    """

    symbol: str
    dissolved: float
    dissolved_low: float
    dissolved_high: float
    precipitated_low: float
    precipitated_high: float
    solubility: float | None
    status: RowStatus
    remark: str


def impurity_resistivities(
    table: Mapping[str, TableRow] | None = None,
) -> Mapping[str, ImpurityResistivity]:
    """Specific resistivities of all elements of the table, by chemical symbol.

    Most rows are from memory: two independent memories, of which some conflict;
    `dissolved_low` and `dissolved_high` carry that conflict.

    Parameters
    ----------
    table : Mapping from str to TableRow, optional
        Rows as in ``impurity_resistivity``; None takes the package's table.

    Returns
    -------
    Mapping from str to ImpurityResistivity
        In the order of the table; read-only.

    Raises
    ------
    UnknownTableError
        If an element lacks its recommended value or its molar mass.

    Notes
    -----
    1 µΩ cm per 1 % by mass is 1 pΩ m per ppm by mass. Per atom, dilute:
    ``k_mass = k_atom · M_Cu / M``. Where the table has no own value for
    precipitates, the dissolved values divided by 50 and by 10 bound it.

    Examples
    --------
    >>> impurity_resistivities()["Ni"].dissolved
    1.2
    >>> silver = impurity_resistivities()["Ag"]
    >>> round(silver.dissolved_low, 3), silver.dissolved_high
    (0.082, 0.355)
    """
    rows = package_table("impurity_resistivity") if table is None else table
    stems = [key.partition(".")[0] for key in rows if key.endswith(".dissolved")]
    found = (_element(stem, rows) for stem in stems)
    return MappingProxyType({element.symbol: element for element in found})


def _element(stem: str, rows: Mapping[str, TableRow]) -> ImpurityResistivity:
    recommended = rows[f"{stem}.dissolved"]
    dissolved = _memories(stem, rows)
    low, high = _precipitated(stem, rows, dissolved)
    solubility = rows.get(f"{stem}.solubility")
    return ImpurityResistivity(
        symbol=stem.capitalize(),
        dissolved=recommended.value,
        dissolved_low=min(dissolved),
        dissolved_high=max(dissolved),
        precipitated_low=low,
        precipitated_high=high,
        solubility=solubility.value if solubility else None,
        status=recommended.status,
        remark=recommended.conditions,
    )


def _memories(stem: str, rows: Mapping[str, TableRow]) -> list[float]:
    """Recommended value and each source's, all [pohm m/ppm]."""
    found = [rows[f"{stem}.dissolved"].value]
    if f"{stem}.per_weight_percent" in rows:
        found.append(rows[f"{stem}.per_weight_percent"].value)
    if f"{stem}.per_atom_percent" in rows:
        ratio = table_value(rows, "cu.molar_mass") / table_value(
            rows, f"{stem}.molar_mass"
        )
        found.append(rows[f"{stem}.per_atom_percent"].value * ratio)
    return found


def _precipitated(
    stem: str, rows: Mapping[str, TableRow], dissolved: list[float]
) -> tuple[float, float]:
    own = rows.get(f"{stem}.precipitated")
    if own is not None:
        return own.value, own.value
    return (
        min(dissolved) / table_value(rows, "precipitated.most_fold"),
        max(dissolved) / table_value(rows, "precipitated.least_fold"),
    )
