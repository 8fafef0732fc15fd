import strandproof.tables as package

NAMES = {
    "COLUMNS",
    "STATUSES",
    "TABLE_UNITS",
    "RowStatus",
    "TableRow",
    "VerbalStrength",
    "package_table",
    "package_table_names",
    "parse_table",
    "table_value",
    "verbal_strength",
}


def test_public_names_are_these() -> None:
    assert set(package.__all__) == NAMES


def test_every_public_name_is_there() -> None:
    assert all(hasattr(package, name) for name in package.__all__)
