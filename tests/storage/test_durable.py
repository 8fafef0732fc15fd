"""Whole files: there complete or not at all."""

import errno
import os
from pathlib import Path

import pytest

from strandproof.errors import WriteFailedError
from strandproof.storage import durable
from strandproof.storage.durable import write_all, write_durably


def test_file_is_written_and_replaced(tmp_path: Path) -> None:
    path = tmp_path / "a.txt"
    write_durably(path, b"one")
    write_durably(path, b"two")
    assert path.read_bytes() == b"two"
    assert [p.name for p in tmp_path.iterdir()] == ["a.txt"]


def test_full_disk_leaves_the_old_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "a.txt"
    write_durably(path, b"one")

    def no_space(descriptor: int, data: bytes) -> None:
        os.write(descriptor, data[:1])
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr(durable, "write_all", no_space)
    with pytest.raises(WriteFailedError, match="No space left.*Nothing was changed"):
        write_durably(path, b"two")
    assert path.read_bytes() == b"one"
    assert [p.name for p in tmp_path.iterdir()] == ["a.txt"]


def test_missing_folder_is_said(tmp_path: Path) -> None:
    with pytest.raises(WriteFailedError, match="No such file"):
        write_durably(tmp_path / "gone" / "a.txt", b"x")


def test_short_writes_are_continued(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    real_write = os.write
    monkeypatch.setattr(os, "write", lambda fd, data: real_write(fd, bytes(data[:3])))
    path = tmp_path / "a.txt"
    descriptor = os.open(path, os.O_WRONLY | os.O_CREAT)
    write_all(descriptor, b"ten letters")
    os.close(descriptor)
    assert path.read_bytes() == b"ten letters"


def test_name_that_is_too_long_is_said(tmp_path: Path) -> None:
    with pytest.raises(WriteFailedError, match="File name too long"):
        write_durably(tmp_path / ("a" * 300), b"x")
