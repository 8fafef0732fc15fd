from importlib.resources import files

import pytest

from strandproof.errors import UnknownTableError
from strandproof.tables import (
    STATUSES,
    package_table,
    package_table_names,
    table_value,
)

NAMES = (
    "exact_limits",
    "grain_size_relations",
    "grain_size_rows_e112",
    "grain_size_rows_gost",
    "grain_size_rules",
    "verbal_scale",
)


def test_the_tables_of_the_package_are_these() -> None:
    # Later parts add tables; those of this part must stay.
    assert set(NAMES) <= set(package_table_names())
    assert list(package_table_names()) == sorted(package_table_names())


@pytest.mark.parametrize("name", package_table_names())
def test_every_row_of_the_package_is_valid(name: str) -> None:
    rows = package_table(name)
    assert rows
    assert all(row.status in STATUSES for row in rows.values())


def test_readme_describes_every_file_and_no_other() -> None:
    data = files("strandproof.tables") / "data"
    readme = (data / "README.md").read_text(encoding="utf-8")
    listed = {
        line.split("`")[1] for line in readme.splitlines() if line.startswith("| `")
    }
    assert listed == {f"{name}.csv" for name in package_table_names()}


def test_an_unknown_table_is_named_with_the_known_ones() -> None:
    with pytest.raises(UnknownTableError, match=r"no table named 'nothing'.*exact_lim"):
        package_table("nothing")


def test_an_unknown_row_is_named_with_the_known_ones() -> None:
    with pytest.raises(UnknownTableError, match=r"no row named 'nothing'.*moderate"):
        table_value(package_table("verbal_scale"), "nothing")


def test_remembered_values_are_not_promoted() -> None:
    relations = package_table("grain_size_relations")
    assert relations["intercept.reference_length"].status == "from memory"
    assert relations["intercept.macro_reference_length"].status == "from memory"
    assert relations["metric.grains_at_zero_iso"].status == "from memory"
    assert relations["metric.grains_at_zero"].status == "read"
    assert relations["planimetric.e112.offset"].status == "read (secondary)"
    statuses = {row.status for row in package_table("grain_size_rows_e112").values()}
    assert statuses == {"computed"}


def test_the_misprint_is_kept_as_printed_and_marked() -> None:
    rows = package_table("grain_size_rows_gost")
    assert rows["no_3.mean_area"].value == 0.0516
    assert "misprint" in rows["no_3.mean_area"].conditions
    assert rows["no_3.mean_area.corrected"].value == 0.0156
    assert rows["no_3.mean_area.corrected"].status == "computed"
