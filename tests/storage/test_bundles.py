"""Bundles: a zip or a folder, the same bytes every time, read back alike."""

import zipfile
from pathlib import Path

import pytest

from strandproof.errors import MissingFileError, OutputExistsError, ParameterError
from strandproof.storage import bundles
from strandproof.storage.bundles import read_bundle, write_bundle, zip_bytes

FILES = {"b/two.txt": b"2", "a.txt": b"1"}


@pytest.mark.parametrize("name", ["out.zip", "out"])
def test_round_trip(tmp_path: Path, name: str) -> None:
    write_bundle(tmp_path / name, FILES)
    assert read_bundle(tmp_path / name) == FILES
    for path in (tmp_path / "out").rglob("*.txt"):
        assert path.stat().st_mtime == 315_532_800
    with pytest.raises(OutputExistsError, match="there already|no empty folder"):
        write_bundle(tmp_path / name, FILES)


def test_zip_holds_nothing_of_the_machine(tmp_path: Path) -> None:
    (tmp_path / "x.zip").write_bytes(zip_bytes(FILES))
    with zipfile.ZipFile(tmp_path / "x.zip") as archive:
        infos = archive.infolist()
    assert [info.filename for info in infos] == ["a.txt", "b/two.txt"]
    assert {(i.date_time, i.create_system, i.extra, i.comment) for i in infos} == {
        ((1980, 1, 1, 0, 0, 0), 3, b"", b"")
    }


def test_what_is_no_bundle_is_refused(tmp_path: Path) -> None:
    (tmp_path / "x.zip").write_bytes(b"PK nothing")
    for name in ("x.zip", "none.zip"):
        with pytest.raises(MissingFileError, match="cannot be read"):
            read_bundle(tmp_path / name)


def test_too_large_is_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    write_bundle(tmp_path / "x.zip", FILES)
    monkeypatch.setattr(bundles, "_LARGEST_BYTES", 1)
    with pytest.raises(ParameterError, match="2 bytes unpacked"):
        read_bundle(tmp_path / "x.zip")
