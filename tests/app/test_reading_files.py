"""Lists of marks as people and programs write them."""

import json
from pathlib import Path

import pytest

from strandproof.app.workflow.reading_by_people import read_marks, read_test_lines
from strandproof.errors import InvalidEntryError, MissingFileError
from strandproof.records.entries.laboratory import ReadingLine

LINES = (
    ReadingLine(number=1, start_px=(0.0, 20.0), end_px=(100.0, 20.0)),
    ReadingLine(number=2, centre_px=(50.0, 50.0), radius_px=20.0),
)


def written(folder: Path, text: str, name: str = "marks.csv") -> Path:
    path = folder / name
    path.write_bytes(text.encode("utf-8"))
    return path


@pytest.mark.parametrize(
    "text",
    [
        pytest.param("line,along_px,feature\n1,30,slip_trace\n", id="along"),
        pytest.param("line,column_px,row_px,feature\n1,30,20,slip_trace\n", id="place"),
        pytest.param("feature,line,along_px\r\nSlip trace,1,30\r\n", id="order, words"),
        pytest.param("\ufeffline;along_px;feature\n1;30;slip_trace\n", id="semicolons"),
        pytest.param(
            "line,along_px,feature,meets\n\n1,30,slip_trace,\n,,,\n", id="gaps"
        ),
    ],
)
def test_ways_to_write_the_same_mark(tmp_path: Path, text: str) -> None:
    (mark,) = read_marks(written(tmp_path, text), LINES)
    assert mark.line == 1
    assert mark.position_px == (30.0, 20.0)
    assert (mark.feature, mark.direction_deg, mark.meets) == (
        "slip_trace",
        None,
        "crossing",
    )


@pytest.mark.parametrize("wrapped", [True, False])
def test_json_list(tmp_path: Path, *, wrapped: bool) -> None:
    marks = [
        {"line": 2, "column_px": 70, "row_px": 51, "feature": "twin"},
        {
            "line": 1,
            "along_px": 5.5,
            "feature": "boundary",
            "direction_deg": 190,
            "meets": "triple_point",
        },
    ]
    text = json.dumps({"marks": marks} if wrapped else marks)
    first, second = read_marks(written(tmp_path, text, "marks.json"), LINES)
    assert first.position_px == (70.0, 51.0)
    assert (second.direction_deg, second.meets) == (10.0, "triple_point")


def test_heading_alone_says_that_nothing_was_seen(tmp_path: Path) -> None:
    assert read_marks(written(tmp_path, "line,along_px,feature\n"), LINES) == ()


@pytest.mark.parametrize(
    ("row", "match"),
    [
        ("3,30,boundary,", "line was given as '3'; allowed is one of 1, 2"),
        ("x,30,boundary,", "line was given as 'x'; allowed is a number"),
        ("1,30,grain,", "feature was given as 'grain'; allowed is one of boundary"),
        ("1,30,,", "feature was given as None"),
        ("1,'30,boundary,", 'along_px was given as "\'30"; allowed is a number'),
        ("1,101,boundary,", "along_px was given as 101.0; allowed is 0 to 100.0 px"),
        (
            "1,,boundary,",
            "place was given as ['feature', 'line']; allowed is either along_px, or",
        ),
        ("1,30,boundary,steep", "direction_deg was given as 'steep'"),
        ("1,nan,boundary,", "along_px was given as 'nan'"),
        ("1,30,boundary,5,6", "column was given as None"),
    ],
)
def test_row_that_does_not_fit_is_named(tmp_path: Path, row: str, match: str) -> None:
    text = f"line,along_px,feature,direction_deg\n1,5,boundary,\n{row}\n"
    with pytest.raises(InvalidEntryError) as refusal:
        read_marks(written(tmp_path, text), LINES)
    assert f"marks.csv, line 3: {match}" in str(refusal.value)
    assert len(refusal.value.faults) == 1


def test_decimal_comma_is_refused_and_named(tmp_path: Path) -> None:
    text = "line;along_px;feature\n1;30,5;boundary\n"
    with pytest.raises(InvalidEntryError, match="a number with a decimal point"):
        read_marks(written(tmp_path, text), LINES)


def test_every_fault_is_named_at_once(tmp_path: Path) -> None:
    text = "line,along_px,feature\n1,500,boundary\n1,30,boundary\n9,3,twin\n"
    with pytest.raises(InvalidEntryError) as refusal:
        read_marks(written(tmp_path, text), LINES)
    assert len(refusal.value.faults) == 2


def test_mark_off_its_line_is_refused(tmp_path: Path) -> None:
    text = "line,column_px,row_px,feature\n1,30,44,boundary\n"
    with pytest.raises(InvalidEntryError, match=r"It lies 24\.0 px away"):
        read_marks(written(tmp_path, text), LINES)


@pytest.mark.parametrize(
    ("text", "name", "match"),
    [
        ("place,class\n1,2\n", "marks.csv", "must name the columns line and feature"),
        ("", "marks.csv", "must name the columns line and feature"),
        ("{", "marks.json", "not JSON"),
        ('{"marks": 3}', "marks.json", "not a JSON list of marks"),
        ("[3]", "marks.json", "not a JSON list of marks"),
    ],
)
def test_file_that_is_no_list_of_marks(
    tmp_path: Path, text: str, name: str, match: str
) -> None:
    with pytest.raises(InvalidEntryError, match=match):
        read_marks(written(tmp_path, text, name), LINES)


def test_file_in_another_encoding(tmp_path: Path) -> None:
    path = tmp_path / "marks.csv"
    path.write_bytes(b"line,along_px,feature\n1,30,\xff\n")
    with pytest.raises(InvalidEntryError, match="not written in UTF-8"):
        read_marks(path, LINES)


def test_file_that_is_not_there(tmp_path: Path) -> None:
    with pytest.raises(MissingFileError):
        read_test_lines(tmp_path / "lines.json")


def test_lines_that_are_no_lines(tmp_path: Path) -> None:
    with pytest.raises(InvalidEntryError, match="picture_sha256: Field required"):
        read_test_lines(written(tmp_path, "{}", "lines.json"))
