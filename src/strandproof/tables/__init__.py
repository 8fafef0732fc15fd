"""Reference values as data: constants, scales and check values with their origin.

The tables are CSV files in ``data/``, checked row by row by one loader. Imports
`errors` only; the files are package data and the only thing read.
"""

from strandproof.tables.impurity_resistivity import (
    ImpurityResistivity,
    impurity_resistivities,
)
from strandproof.tables.loader import (
    COLUMNS,
    STATUSES,
    TABLE_UNITS,
    RowStatus,
    TableRow,
    parse_table,
)
from strandproof.tables.package_data import (
    package_table,
    package_table_names,
    table_value,
)
from strandproof.tables.verbal import VerbalStrength, verbal_strength

__all__ = [
    "COLUMNS",
    "STATUSES",
    "TABLE_UNITS",
    "ImpurityResistivity",
    "RowStatus",
    "TableRow",
    "VerbalStrength",
    "impurity_resistivities",
    "package_table",
    "package_table_names",
    "parse_table",
    "table_value",
    "verbal_strength",
]
