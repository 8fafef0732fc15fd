from pathlib import Path

import openpyxl
import pytest

from strandproof.errors import MissingFileError, ParameterError, TableRowError
from strandproof.records.cell_tables import ColumnMapping
from strandproof.storage import (
    COLUMNS_FILE,
    read_cell_table,
    remember_columns,
    remembered_columns,
)


def written(folder: Path, text: str, *, encoding: str = "utf-8") -> Path:
    path = folder / "readings.csv"
    path.write_bytes(text.encode(encoding))
    return path


@pytest.mark.parametrize("delimiter", [";", ",", "\t"])
def test_csv_of_any_usual_delimiter(tmp_path: Path, delimiter: str) -> None:
    rows = [["I (mA)", "U+ (mV)"], ["20", "34.6"], ["", ""], ["50", "86.5"]]
    path = written(tmp_path, "\n".join(delimiter.join(row) for row in rows))
    table = read_cell_table(path)
    assert table.headers == ("I (mA)", "U+ (mV)")
    assert [(row.number, row.cells) for row in table.rows] == [
        (2, ("20", "34.6")),
        (4, ("50", "86.5")),
    ]


def test_byte_order_mark_and_old_code_page(tmp_path: Path) -> None:
    marked = written(tmp_path, "\ufeffT (°C);U (µV)\n20;1\n")
    assert read_cell_table(marked).headers == ("T (°C)", "U (µV)")
    old = written(tmp_path, "T (°C);U (µV)\n20;1\n", encoding="cp1252")
    assert read_cell_table(old).headers == ("T (°C)", "U (µV)")


def test_xlsx_keeps_numbers_and_names_its_sheets(tmp_path: Path) -> None:
    book = openpyxl.Workbook()
    sheet = book.active
    assert sheet is not None
    sheet.title = "bench"
    sheet.append(["I (mA)", "U+ (mV)", "note"])
    sheet.append([20, 34.6, None])
    sheet.append([50, "86,5", "draught"])
    path = tmp_path / "readings.xlsx"
    book.save(path)
    table = read_cell_table(path)
    assert table.rows[0].cells == (20.0, 34.6, "")
    assert table.rows[1].cells == (50.0, "86,5", "draught")
    book.create_sheet("other")
    book.save(path)
    assert read_cell_table(path, sheet="bench") == table
    for sheet_name in (None, "absent"):
        with pytest.raises(ParameterError, match="one of the sheets bench, other"):
            read_cell_table(path, sheet=sheet_name)


@pytest.mark.parametrize(
    ("text", "match"),
    [
        ("", "no row of readings"),
        ("I;U\n", "no row of readings"),
        ("I;I\n1;2\n", "each once"),
        ("I;;U\n1;2;3\n", "a header for every column"),
        ("I;U\n1;2;3\n", "line 2: the row has 3 cells"),
        ('I;U\n1;"2\n', "no CSV"),
    ],
)
def test_faults_name_file_and_line(tmp_path: Path, text: str, match: str) -> None:
    with pytest.raises(TableRowError, match=match) as refusal:
        read_cell_table(written(tmp_path, text))
    assert "readings.csv" in str(refusal.value)


def test_other_files_are_refused(tmp_path: Path) -> None:
    with pytest.raises(MissingFileError, match="no such file"):
        read_cell_table(tmp_path / "absent.csv")
    for name in ("readings.ods", "broken.xlsx"):
        (tmp_path / name).write_bytes(b"no table")
        with pytest.raises(ParameterError, match="Save the table again"):
            read_cell_table(tmp_path / name)


def test_columns_are_remembered_by_their_headers(tmp_path: Path) -> None:
    path = tmp_path / "readings.csv"
    headers = ("a", "b")
    assert remembered_columns(path, headers) is None
    mapping = ColumnMapping(headers={"current": "a"})
    kept = remember_columns(path, headers, mapping)
    assert kept == tmp_path / COLUMNS_FILE
    remember_columns(path, ("other",), ColumnMapping(headers={"mass": "other"}))
    assert remembered_columns(path, headers) == mapping
    assert remembered_columns(tmp_path / "next.csv", headers) == mapping
    changed = ColumnMapping(headers={"current": "b"})
    remember_columns(path, headers, changed)
    assert remembered_columns(path, headers) == changed


def test_a_damaged_memory_is_refused(tmp_path: Path) -> None:
    (tmp_path / COLUMNS_FILE).write_text("{]", "utf-8")
    with pytest.raises(ParameterError, match="Delete it"):
        remembered_columns(tmp_path / "readings.csv", ("a",))
