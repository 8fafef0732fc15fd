"""Tables of orientations: what is read, and what is refused with its line."""

import os
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from strandproof.errors import (
    MissingFileError,
    ParameterError,
    StrandproofError,
    TableRowError,
)
from strandproof.records.orientation import GrainTable, OrientationTable, PlaceTable
from strandproof.storage import (
    angle_remark,
    encode_orientation_table,
    read_orientation_table,
)
from strandproof.storage import orientation_tables as module

HEADER = "x_um,y_um,phi1_deg,Phi_deg,phi2_deg"
MAP = f"{HEADER}\n0,0,10,20,30\n0.5,0,,,\n1.0,0,350.5,0.0,-12.25\n"
GRAINS = (
    "grain,x_um,y_um,area_um2,phi1_deg,Phi_deg,phi2_deg,neighbours\n"
    "1,0,0,50,10,20,30,2\n2,5,0,20.5,40,50,60,1 3\n3,9,0,7,1,2,3,\n"
)
PLACES = "place,x_mm,phi1_deg,Phi_deg,phi2_deg\nstart,0,1,2,3\nend,36,1.5,2,3\n"


def read(tmp_path: Path, text: str | bytes) -> OrientationTable:
    table = read_any(tmp_path, text)
    assert isinstance(table, OrientationTable)
    return table


def read_any(
    tmp_path: Path, text: str | bytes
) -> OrientationTable | GrainTable | PlaceTable:
    path = tmp_path / "table.csv"
    path.write_bytes(text.encode("utf-8") if isinstance(text, str) else text)
    return read_orientation_table(path, meaning="passive")


def test_points_of_a_map(tmp_path: Path) -> None:
    table = read(tmp_path, MAP)
    np.testing.assert_allclose(table.x_um, [0.0, 0.5, 1.0], rtol=0, atol=0)
    expected = np.radians([[10.0, 20.0, 30.0], [350.5, 0.0, -12.25]])
    np.testing.assert_allclose(table.angles_rad[[0, 2]], expected, rtol=1e-12)
    assert np.isnan(table.angles_rad[1]).all()
    assert (table.meaning, table.first_line, table.notes) == ("passive", 2, ())


@pytest.mark.parametrize(
    "text",
    [
        MAP.replace("\n", "\r\n"),
        "\N{BYTE ORDER MARK}" + MAP,
        MAP + "\n\n",
        MAP.rstrip("\n"),
        MAP.replace(",", " , "),
        MAP.replace("x_um", '"x_um"').replace("0,0,10", '"0",0,10'),
    ],
)
def test_line_ends_marks_spaces_and_quotes_do_not_matter(
    text: str, tmp_path: Path
) -> None:
    found, plain = read(tmp_path, text), read(tmp_path, MAP)
    np.testing.assert_array_equal(found.angles_rad, plain.angles_rad)
    np.testing.assert_array_equal(found.x_um, plain.x_um)


def test_remarks_and_unread_columns_are_kept_as_notes(tmp_path: Path) -> None:
    text = f"# SYNTHETIC\x1b[31m: drawn\n#\n{HEADER},phase\n0,0,1,2,3,1\n1,0,1,2,3,2\n"
    table = read(tmp_path, text)
    assert table.notes == ("SYNTHETIC[31m: drawn", "Columns left unread: phase.")
    assert table.first_line == 4


def test_the_column_indexed_overrules_angles(tmp_path: Path) -> None:
    text = f"{HEADER},indexed\n0,0,1,2,3,1\n1,0,720,720,720,0\n2,0,,,,0\n"
    table = read(tmp_path, text)
    assert np.isfinite(table.angles_rad[:, 0]).tolist() == [True, False, False]


def test_millimetres_and_radians_are_read_as_named(tmp_path: Path) -> None:
    text = "x_mm,y_mm,phi1_rad,Phi_rad,phi2_rad\n0,0,0.1,0.2,0.3\n0.002,0,0.1,3.1,6\n"
    table = read(tmp_path, text)
    assert table.x_um[1] == pytest.approx(2.0)
    np.testing.assert_allclose(table.angles_rad[1], [0.1, 3.1, 6.0], rtol=0, atol=0)


def test_a_list_of_grains(tmp_path: Path) -> None:
    table = read_any(tmp_path, GRAINS)
    assert isinstance(table, GrainTable)
    assert table.numbers == (1, 2, 3)
    assert table.neighbours == ((2,), (1, 3), ())
    assert table.area_um2.tolist() == [50.0, 20.5, 7.0]


def test_a_list_of_places(tmp_path: Path) -> None:
    table = read_any(tmp_path, PLACES)
    assert isinstance(table, PlaceTable)
    assert table.places == ("start", "end")
    assert table.x_um.tolist() == [0.0, 36_000.0]


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "line 1: the file ends before its header"),
        ("# only a remark\n", "line 1: the file ends before its header"),
        (HEADER, "rows of table.csv was given as 0"),
        ("x_um,y_um,phi1_deg,Phi_deg\n", "line 1: .* without phi2_deg"),
        ("X;Y;Phi1;Phi;Phi2\n", "line 1: .* semicolons or tabs"),
        (f"{HEADER},x_um\n", "line 1: the header has 6 columns, 5 of them new"),
        (f"{HEADER}\n0,0,1,2\n", "line 2: the line has 4 cells"),
        (f"{HEADER}\n0,0,1,2,3\n1,5,0,1,2,3\n", "line 3: the line has 6 cells"),
        (f"{HEADER}\n0,0,1,2,x\n", "line 2: phi2_deg is 'x'"),
        (f"{HEADER}\n0,0,1,2,nan\n", "line 2: phi2_deg is 'nan'"),
        (f"{HEADER}\n0,0,1,2,1_0\n", "line 2: phi2_deg is '1_0'"),
        (f"{HEADER}\n0,0,1.2.3,2,3\n", "line 2: phi1_deg is '1.2.3'"),
        (f"{HEADER}\n,0,1,2,3\n", "line 2: x_um is ''"),
        (f"{HEADER}\n1e999,0,1,2,3\n", "line 2: the row holds x_um inf"),
        (f"{HEADER}\n0,0,1,2,\n", "line 2: the row has 2 of three angles"),
        (f"{HEADER}\n0,0,1,2,3\n\n1,0,1,2,3\n", "line 3: the line is empty"),
        (f"{HEADER}\n0,0,1,2,3\n1,0,1,181,3\n", "line 3: the angles are 1, 181, 3 deg"),
        (f"{HEADER}\n0,0,1,-2,3\n", "line 2: the angles are 1, -2, 3 deg"),
        (f"{HEADER}\n0,0,400,2,3\n", "line 2: the angles are 400, 2, 3 deg"),
        (f"{HEADER},indexed\n0,0,1,2,3,2\n", "line 2: the row holds .* indexed 2"),
        (f"{HEADER},indexed\n0,0,,,,1\n", "line 2: the row has 0 of three angles"),
        (f"{HEADER},indexed\n0,0,1,2,3,yes\n", "line 2: indexed is 'yes'"),
        (f"{HEADER}\n0,0,1,2,3\n" + "1" * 5000, "line 3: the line is longer"),
        (HEADER.encode() + b"\n0,0,1,2,\xff\n", "line 2: the line is not text"),
        (GRAINS.replace("40,50,60", "40,,60"), "line 3: phi_deg is ''"),
        (GRAINS.replace("20.5", "0"), "line 3: area_um2 is '0'"),
        (GRAINS.replace("1 3", "1 9"), "line 3: neighbours is '1 9'"),
        (GRAINS.replace("1 3", "1 2"), "line 3: neighbours is '1 2'"),
        (GRAINS.replace("\n3,", "\n2,"), "line 4: grain is '2'"),
        (GRAINS.replace("\n3,", "\n3.5,"), "line 4: grain is '3.5'"),
        (GRAINS.replace("40,50,60", "40,500,60"), "line 3: the angles are 40, 500, 60"),
        (PLACES.replace("end", "start"), "line 3: place is 'start'"),
        (PLACES.replace("end", ""), "line 3: place is ''"),
        ("place,x_mm,phi1_deg,Phi_deg,phi2_deg\n", "rows of table.csv"),
    ],
)
def test_faults_are_named_with_their_line(
    text: str | bytes, said: str, tmp_path: Path
) -> None:
    with pytest.raises((TableRowError, ParameterError), match=said):
        read_any(tmp_path, text)


def test_too_many_points_stop_the_reading(tmp_path: Path) -> None:
    path = tmp_path / "table.csv"
    path.write_text(HEADER + "\n" + "0,0,1,2,3\n" * 11, encoding="utf-8")
    with pytest.raises(TableRowError, match="line 12: .* at most 10 points"):
        read_orientation_table(path, meaning="passive", largest_points=10)


def test_too_large_a_file_is_not_opened(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(module, "LARGEST_TABLE_BYTES", 10)
    with pytest.raises(ParameterError, match="size of table.csv"):
        read_any(tmp_path, MAP)


def test_a_missing_file_a_folder_and_a_pipe_are_refused(tmp_path: Path) -> None:
    with pytest.raises(MissingFileError, match="there is no such file"):
        read_orientation_table(tmp_path / "none.csv", meaning="passive")
    with pytest.raises(MissingFileError, match="a folder or a device"):
        read_orientation_table(tmp_path, meaning="passive")
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    with pytest.raises(MissingFileError, match="a folder or a device"):
        read_orientation_table(pipe, meaning="passive")


def test_what_was_written_is_read_again(tmp_path: Path) -> None:
    table = read(tmp_path, MAP)
    again = read(tmp_path, encode_orientation_table(table))
    np.testing.assert_allclose(again.angles_rad, table.angles_rad, rtol=0, atol=1e-5)
    np.testing.assert_allclose(again.x_um, table.x_um, rtol=0, atol=1e-4)
    assert again.notes == (angle_remark("passive"),)


@given(st.binary(max_size=300))
def test_no_bytes_bring_anything_but_a_clear_refusal(
    tmp_path_factory: pytest.TempPathFactory, data: bytes
) -> None:
    path = tmp_path_factory.mktemp("bytes") / "table.csv"
    path.write_bytes(HEADER.encode() + b"\n0,0,1,2,3\n" + data)
    try:
        points = len(read_orientation_table(path, meaning="passive").x_um)
    except StrandproofError as refusal:
        said = str(refusal)
    else:
        said = f"table.csv, {points} points"
        assert points >= 1
    assert "table.csv" in said
