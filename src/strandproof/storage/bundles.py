"""Bundles of files that go out and come back: a zip, or a folder.

The same files make the same bytes: names sorted, one fixed time, nothing packed, and
nothing written of the machine that made it.
"""

import io
import os
import zipfile
from collections.abc import Mapping
from pathlib import Path

from strandproof.errors import (
    MissingFileError,
    OutputExistsError,
    ParameterError,
    WriteFailedError,
)
from strandproof.storage.durable import write_durably
from strandproof.storage.picture_files import write_output_file

_EARLIEST = (1980, 1, 1, 0, 0, 0)  # the first moment that a zip can hold
_EARLIEST_SECONDS = 315_532_800  # the same moment in a folder, in UTC
_PLAIN_FILE = 0o100644 << 16
_UNIX = 3
_LARGEST_BYTES = 4_000_000_000


def zip_bytes(files: Mapping[str, bytes]) -> bytes:
    r"""Pack files into a zip that is the same whenever and wherever it is made.

    Parameters
    ----------
    files : mapping of str to bytes
        Content by name; names use ``/`` between folders.

    Returns
    -------
    bytes
        The zip, its files stored as they are.

    Examples
    --------
    >>> zip_bytes({"a": b"1", "b": b"2"}) == zip_bytes({"b": b"2", "a": b"1"})
    True
    """
    buffer = io.BytesIO()
    with zipfile.ZipFile(buffer, "w", zipfile.ZIP_STORED) as archive:
        for name in sorted(files):
            about = zipfile.ZipInfo(name, _EARLIEST)
            about.create_system = _UNIX
            about.external_attr = _PLAIN_FILE
            archive.writestr(about, files[name])
    return buffer.getvalue()


def write_bundle(target: Path, files: Mapping[str, bytes]) -> None:
    """Write files as a new zip (by the ending of the name) or into a new folder.

    Parameters
    ----------
    target : Path
        A name that ends with ``.zip``, or a new or empty folder.
    files : mapping of str to bytes
        Content by name.

    Raises
    ------
    OutputExistsError
        If something is there already.
    WriteFailedError
        If the system refuses.
    """
    if target.suffix.lower() == ".zip":
        write_output_file(target, zip_bytes(files))
        return
    if target.exists() and (not target.is_dir() or any(target.iterdir())):
        raise OutputExistsError(
            str(target), what="it is no empty folder", remedy="Choose a new folder."
        )
    try:
        for name, content in sorted(files.items()):
            path = target / name
            path.parent.mkdir(parents=True, exist_ok=True)
            write_durably(path, content)
            os.utime(path, (_EARLIEST_SECONDS, _EARLIEST_SECONDS))
    except OSError as error:
        raise WriteFailedError(target, error.strerror or str(error)) from error


def read_bundle(source: Path) -> dict[str, bytes]:
    """Read all files of a bundle.

    Parameters
    ----------
    source : Path
        A zip or a folder.

    Returns
    -------
    dict of str to bytes
        Content by name.

    Raises
    ------
    MissingFileError
        If it is not there or is no bundle.
    """
    try:
        if source.is_dir():
            return {
                path.relative_to(source).as_posix(): path.read_bytes()
                for path in sorted(source.rglob("*"))
                if path.is_file()
            }
        with zipfile.ZipFile(source) as archive:
            _refuse_large(archive)
            return {
                info.filename: archive.read(info)
                for info in archive.infolist()
                if not info.is_dir()
            }
    except (OSError, zipfile.BadZipFile) as error:
        raise MissingFileError(source, str(error)) from error


def _refuse_large(archive: zipfile.ZipFile) -> None:
    """Refuse a zip that would unpack to more than a disk should take.

    Raises
    ------
    ParameterError
        If it says so.
    """
    size = sum(info.file_size for info in archive.infolist())
    if size > _LARGEST_BYTES:
        raise ParameterError(
            "bundle", f"{size} bytes unpacked", allowed=f"up to {_LARGEST_BYTES} bytes"
        )
