from pathlib import Path

import pytest

from strandproof.app.workflow.table_columns import (
    column_numbers,
    column_texts,
    column_unit,
    known_table,
    required_numbers,
    unit_of_header,
)
from strandproof.errors import ParameterError, TableRowError
from strandproof.records.cell_tables import CellTable, ColumnMapping

ROLES = {"current": ("i",), "forward": ("u+",), "note": ()}


def table(folder: Path, text: str, **named: str) -> tuple[CellTable, ColumnMapping]:
    path = folder / "r.csv"
    path.write_text(text, "utf-8")
    return known_table(path, roles=ROLES, required=("current", "forward"), named=named)


@pytest.mark.parametrize(
    ("header", "unit"),
    [
        ("U+ (mV)", "mV"),
        ("U+ [µV]", "uV"),
        ("I / mA", "mA"),
        ("current_mA", "mA"),
        ("R (mΩ)", "mohm"),
        ("T, °C", "degC"),
        ("I (MA)", None),
        ("forward", None),
        ("U (furlong)", None),
    ],
)
def test_units_in_headers(header: str, unit: str | None) -> None:
    assert unit_of_header(header) == unit


def test_headers_that_say_it_need_no_mapping(tmp_path: Path) -> None:
    cells, mapping = table(tmp_path, "I (mA);U+ (mV);note\n20;34,6;warm\n50;86,5;\n")
    assert required_numbers(cells, mapping, "forward") == (34.6, 86.5)
    assert column_unit(cells, mapping, "current", allowed=("A", "mA")) == "mA"
    assert column_texts(cells, mapping, "note") == ("warm", "")
    assert list(tmp_path.iterdir()) == [tmp_path / "r.csv"]


def test_a_named_mapping_is_remembered(tmp_path: Path) -> None:
    text = "strom (mA);plus (mV)\n20;34.6\n"
    with pytest.raises(ParameterError, match="--column current='strom"):
        table(tmp_path, text)
    named = {"current": "strom (mA)", "forward": "plus (mV)"}
    first = table(tmp_path, text, **named)
    again = table(tmp_path, text)
    assert first[1] == again[1]


def test_names_that_are_not_there_are_refused(tmp_path: Path) -> None:
    text = "I (mA);U+ (mV)\n20;34.6\n"
    with pytest.raises(ParameterError, match=r"one of I \(mA\), U\+ \(mV\)"):
        table(tmp_path, text, current="absent")
    with pytest.raises(ParameterError, match="one of current, forward, note"):
        table(tmp_path, text, colour="I (mA)")
    with pytest.raises(ParameterError, match="each column in one role only"):
        table(tmp_path, text, forward="I (mA)")


@pytest.mark.parametrize(
    ("cells", "match"),
    [
        ("20;34.6 mV", "line 2: column 'U\\+ \\(mV\\)' holds '34.6 mV'"),
        ("20;1.234,5", "a plain number"),
        ("20;", "a number in every row"),
        ("20;34,6\n50;86.5", "line 3: .*decimal commas or decimal points, not both"),
    ],
)
def test_faults_name_row_and_column(tmp_path: Path, cells: str, match: str) -> None:
    found, mapping = table(tmp_path, f"I (mA);U+ (mV)\n{cells}\n")
    with pytest.raises(TableRowError, match=match):
        required_numbers(found, mapping, "forward")


def test_a_header_without_its_unit_is_refused(tmp_path: Path) -> None:
    found, mapping = table(tmp_path, "current;forward\n20;34.6\n")
    with pytest.raises(ParameterError, match=r"'current \(A\)'"):
        column_unit(found, mapping, "current", allowed=("A", "mA"))


def test_a_column_that_is_not_there_gives_nothing(tmp_path: Path) -> None:
    found, mapping = table(tmp_path, "I (mA);U+ (mV)\n20;−34.6\n")
    assert column_numbers(found, mapping, "note") == (None,)
    assert column_texts(found, mapping, "note") == ("",)
    assert column_numbers(found, mapping, "forward") == (-34.6,)
