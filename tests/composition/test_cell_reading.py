from pathlib import Path

import openpyxl
import pytest

from strandproof.composition import content_from_words, contents_from_cells
from strandproof.errors import ParameterError, TableRowError
from strandproof.records.composition import ElementContent
from strandproof.storage.cell_tables import read_cell_table

ROWS = [
    ("Element", "Value", "Unit", "u"),
    ("Fe", "3,2", "ppm", "0,3"),
    ("Bi", "<0,5", "mg/kg", ""),
    ("Ag", "0.0012", "%", ""),
    ("O", "not measured", "", ""),
]
EXPECTED = (
    ElementContent(symbol="Fe", state="value", ppm=3.2, standard_uncertainty=0.3),
    ElementContent(symbol="Bi", state="below", ppm=0.5),
    ElementContent(symbol="Ag", state="value", ppm=12.0),
    ElementContent(symbol="O", state="not_measured"),
)


def read(path: Path) -> tuple[ElementContent, ...]:
    return contents_from_cells(read_cell_table(path))


def written(folder: Path, *rows: str) -> Path:
    path = folder / "paper.csv"
    path.write_text("\n".join(("element;value;unit", *rows)), encoding="utf-8")
    return path


def test_csv_with_decimal_commas(tmp_path: Path) -> None:
    path = tmp_path / "paper.csv"
    path.write_text("\n".join(";".join(row) for row in ROWS), encoding="utf-8")
    assert read(path) == EXPECTED


def test_xlsx_with_numbers_and_words(tmp_path: Path) -> None:
    book = openpyxl.Workbook()
    sheet = book.active
    assert sheet is not None
    for row in ROWS:
        sheet.append(row)
    sheet["B2"], sheet["D2"] = 3.2, 0.3
    path = tmp_path / "paper.xlsx"
    book.save(path)
    assert read(path) == EXPECTED


@pytest.mark.parametrize(
    ("row", "told"),
    [
        ("Fe;about 3;ppm", "line 3: Fe 'about 3'"),
        ("Fe;1.000,5;ppm", "line 3: Fe '1.000,5'"),
        ("Fe;-1;ppm", "line 3: Fe '-1'"),
        ("Fe;3;oz", "line 3: column 'unit' holds 'oz'"),
        ("Cu;99.99;%", "line 3: Cu '99.99'"),
        ("Xx;3;ppm", "line 3: Xx '3'"),
        ("Bi;<0;ppm", "line 3: Bi '<0'"),
        ("Ag;1;ppm", "line 3: column 'element' holds 'Ag'"),
    ],
)
def test_a_bad_row_is_named_with_file_and_line(
    tmp_path: Path, row: str, told: str
) -> None:
    with pytest.raises(TableRowError, match="paper.csv") as caught:
        read(written(tmp_path, "Ag;1;ppm", row))
    assert told in str(caught.value)


def test_a_missing_column_is_named(tmp_path: Path) -> None:
    path = tmp_path / "paper.csv"
    path.write_text("element;amount\nFe;3\n", encoding="utf-8")
    with pytest.raises(ParameterError, match="No column is named value"):
        read(path)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Fe=3.2+-0.3", EXPECTED[0]),
        ("Bi=<0,5 mg/kg", EXPECTED[1]),
        ("Ag=0.0012%", EXPECTED[2]),
        ("O=not measured", EXPECTED[3]),
    ],
)
def test_elements_as_typed(text: str, expected: ElementContent) -> None:
    assert content_from_words(text) == expected


@pytest.mark.parametrize("text", ["Fe", "Fe=3 oz", "Fe=3+-", "=3"])
def test_other_words_are_refused(text: str) -> None:
    with pytest.raises(ParameterError):
        content_from_words(text)
