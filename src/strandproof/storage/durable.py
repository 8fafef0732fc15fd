"""Bytes that are on disk before anybody is told so."""

import os
import secrets
from contextlib import suppress
from pathlib import Path

from strandproof.errors import WriteFailedError


def write_durably(path: Path, data: bytes, *, mode: int = 0o644) -> None:
    """Write a whole file so that it is either there complete or not at all.

    Parameters
    ----------
    path : Path
        Where; an existing file is replaced.
    data : bytes
        The content.
    mode : int
        Permissions of the file.

    Raises
    ------
    WriteFailedError
        If the system refuses; the old file, if any, stays as it was.

    Notes
    -----
    Write under a temporary name in the same folder, flush, fsync, rename, fsync
    the folder.
    """
    temporary = path.with_name(f".{secrets.token_hex(8)}.part")
    try:
        _write_new(temporary, data, mode)
        temporary.replace(path)
        sync_folder(path.parent)
    except OSError as error:
        with suppress(OSError):
            temporary.unlink(missing_ok=True)
        raise WriteFailedError(path, error.strerror or str(error)) from error


def sync_folder(folder: Path) -> None:
    """Make the names in a folder durable.

    Parameters
    ----------
    folder : Path
        The folder.
    """
    if os.name == "nt":  # Windows can neither open nor sync a folder
        return
    descriptor = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(descriptor)
    finally:
        os.close(descriptor)


def write_all(descriptor: int, data: bytes) -> None:
    """Write all bytes, however many calls it takes.

    Parameters
    ----------
    descriptor : int
        Open file.
    data : bytes
        What to write.
    """
    view = memoryview(data)
    while view:
        view = view[os.write(descriptor, view) :]


def _write_new(path: Path, data: bytes, mode: int) -> None:
    descriptor = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, mode)
    try:
        write_all(descriptor, data)
        os.fsync(descriptor)
    finally:
        os.close(descriptor)
