"""Opening, telling apart and replacing picture files."""

import hashlib
import os
import subprocess
import sys
from pathlib import Path

import pytest

from strandproof.errors import (
    ExpansionError,
    OutputExistsError,
    UnreadablePictureError,
    UnsupportedPictureError,
    WriteFailedError,
)
from strandproof.storage import picture_files
from strandproof.storage.picture_files import (
    PictureFile,
    picture_format,
    read_picture_file,
    write_output_file,
)


def test_bytes_and_hash_belong_together(tmp_path: Path) -> None:
    path = tmp_path / "a.png"
    path.write_bytes(b"\x89PNG and so on")
    file = read_picture_file(path)
    assert file.data == path.read_bytes()
    assert file.sha256 == hashlib.sha256(file.data).hexdigest()
    assert file.path == str(path)


def test_missing_file_is_named(tmp_path: Path) -> None:
    with pytest.raises(UnreadablePictureError, match=r"nowhere.*no such file.*Check"):
        read_picture_file(tmp_path / "nowhere.png")


def test_folder_is_named(tmp_path: Path) -> None:
    with pytest.raises(UnreadablePictureError, match="it is a folder"):
        read_picture_file(tmp_path)


def test_empty_file_is_named(tmp_path: Path) -> None:
    path = tmp_path / "empty.tif"
    path.touch()
    with pytest.raises(UnreadablePictureError, match=r"empty \(0 bytes\)"):
        read_picture_file(path)


def test_pipe_is_refused_and_does_not_block(tmp_path: Path) -> None:
    path = tmp_path / "pipe"
    os.mkfifo(path)
    with pytest.raises(UnreadablePictureError, match="device or a pipe"):
        read_picture_file(path)


def test_device_is_refused() -> None:
    with pytest.raises(UnreadablePictureError, match="device or a pipe"):
        read_picture_file("/dev/zero")


def test_file_without_permission_is_named(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "locked.png"
    path.write_bytes(b"x")

    # Permission bits do not stop the administrator, who may run the tests.
    def refuse(*_args: object) -> int:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(os, "open", refuse)
    with pytest.raises(UnreadablePictureError, match=r"this user may not.*permissions"):
        read_picture_file(path)


@pytest.mark.parametrize("name", ["a\0b.png", "x" * 5000])
def test_impossible_name_is_an_error_of_ours(tmp_path: Path, name: str) -> None:
    with pytest.raises(UnreadablePictureError, match="the system says"):
        read_picture_file(f"{tmp_path}/{name}")


def test_huge_file_is_refused_unread(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "huge.tif"
    with path.open("wb") as stream:
        stream.truncate(5_000_000_000)  # sparse, takes no room
    with pytest.raises(ExpansionError, match=r"5\.0 GB; the limit is 4 GB"):
        read_picture_file(path)
    path.write_bytes(b"0123456789")
    monkeypatch.setattr(picture_files, "LARGEST_FILE_BYTES", 5)
    assert len(read_picture_file(path, allow_large=True).data) == 10


@pytest.mark.parametrize(
    ("beginning", "expected"),
    [
        (b"\x89PNG\r\n\x1a\n", "PNG"),
        (b"\xff\xd8\xff\xe0", "JPEG"),
        (b"II*\0\x08\0\0\0", "TIFF"),
        (b"MM\0*\0\0\0\x08", "TIFF"),
        (b"II+\0\x08\0\0\0", "TIFF"),
        (b"MM\0+\0\x08\0\0", "TIFF"),
    ],
)
def test_format_goes_by_the_first_bytes(beginning: bytes, expected: str) -> None:
    assert picture_format(PictureFile("x", beginning + bytes(20), "")) == expected


@pytest.mark.parametrize(
    ("beginning", "found"),
    [
        (b"GIF89a", "a GIF picture"),
        (b"BM\x10\0", "a BMP picture"),
        (b"RIFF\0\0\0\0WEBPVP8 ", "a WebP picture"),
        (b"%PDF-1.7", "a PDF document"),
        (b"<svg xmlns='http://www.w3.org/2000/svg'>", "an SVG drawing"),
        (b"\xef\xbb\xbf<?xml version='1.0'?>\n<svg>", "an SVG drawing"),
        (b"<!DOCTYPE html><html>", "a web page"),
        (b"\0\0\0\x18ftypheic", "a HEIC picture"),
        (b"\0\0\0\x1cftypavif", "an AVIF picture"),
        (b"\0\0\0\x0cjP  \r\n", "a JPEG 2000 picture"),
        (b"8BPS\0\x01", "a layered picture"),
        (b"PK\x03\x04", "a ZIP archive"),
        (b"II*\0\x10\0\0\0CR\x02\0", "a camera's raw picture"),
        (bytes(64), "nothing but zero bytes"),
        (b"\x89PNG\n\x1a\n\0", "a PNG .* text-mode transfer"),
        (b"hello, reader", "an unknown kind of data .first bytes 68 65 6c"),
        (bytes(128) + b"DICM", "a DICOM picture"),
    ],
)
def test_other_formats_are_named_with_the_remedy(beginning: bytes, found: str) -> None:
    file = PictureFile("odd.png", beginning, "")
    expected = f"odd.png holds {found}.*read are PNG, JPEG and TIFF.*as PNG or TIFF"
    with pytest.raises(UnsupportedPictureError, match=expected):
        picture_format(file)


def test_written_file_is_whole_and_alone(tmp_path: Path) -> None:
    path = tmp_path / "out.png"
    write_output_file(path, b"content")
    assert path.read_bytes() == b"content"
    assert [p.name for p in tmp_path.iterdir()] == ["out.png"]


def test_existing_file_is_replaced_only_when_allowed(tmp_path: Path) -> None:
    path = tmp_path / "out.png"
    path.write_bytes(b"earlier")
    with pytest.raises(OutputExistsError, match="there already"):
        write_output_file(path, b"later")
    assert path.read_bytes() == b"earlier"
    write_output_file(path, b"later", overwrite=True)
    assert path.read_bytes() == b"later"


@pytest.mark.parametrize("way", ["same name", "symbolic link", "hard link"])
def test_input_picture_is_never_replaced(tmp_path: Path, way: str) -> None:
    source, path = tmp_path / "input.png", tmp_path / "other.png"
    source.write_bytes(b"the original")
    if way == "same name":
        path = tmp_path / "." / "input.png"
    elif way == "symbolic link":
        path.symlink_to(source)
    else:
        path.hardlink_to(source)
    with pytest.raises(OutputExistsError, match="input picture, which is never"):
        write_output_file(path, b"new", source=source, overwrite=True)
    assert source.read_bytes() == b"the original"


def test_folder_and_device_are_never_replaced(tmp_path: Path) -> None:
    for place in (tmp_path, Path("/dev/full")):
        with pytest.raises(OutputExistsError, match="a folder or a device"):
            write_output_file(place, b"new", overwrite=True)


def test_missing_folder_is_a_failed_write(tmp_path: Path) -> None:
    with pytest.raises(WriteFailedError, match="could not be written"):
        write_output_file(tmp_path / "nowhere" / "out.png", b"new")


@pytest.mark.parametrize("length", [300, 5000])
def test_name_too_long_is_a_failed_write(tmp_path: Path, length: int) -> None:
    with pytest.raises(WriteFailedError, match="could not be written"):
        write_output_file(tmp_path / ("x" * length), b"new")
    assert list(tmp_path.iterdir()) == []


FULL_DISK = """
import pathlib, resource, sys
from strandproof.errors import WriteFailedError
from strandproof.storage.picture_files import write_output_file
path = pathlib.Path(sys.argv[1])
resource.setrlimit(resource.RLIMIT_FSIZE, (1000, 1000))
try:
    write_output_file(path, bytes(5000), overwrite=True)
except WriteFailedError as error:
    print(error)
"""


def test_write_that_the_system_cuts_off_changes_nothing(tmp_path: Path) -> None:
    path = tmp_path / "out.png"
    path.write_bytes(b"earlier")
    # A limit on the size of files stands for the full disk: the system takes the
    # first bytes and refuses the rest.
    done = subprocess.run(  # noqa: S603  (our own interpreter and our own words)
        [sys.executable, "-c", FULL_DISK, str(path)],
        capture_output=True,
        text=True,
        check=True,
    )
    assert "could not be written" in done.stdout
    assert "Nothing was changed" in done.stdout
    assert path.read_bytes() == b"earlier"
    assert [p.name for p in tmp_path.iterdir()] == ["out.png"]
