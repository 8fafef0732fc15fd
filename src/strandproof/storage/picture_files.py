"""Picture files as bytes: read once, hashed, told apart by content; written whole."""

import hashlib
import os
import stat
from dataclasses import dataclass
from pathlib import Path

from strandproof.errors import (
    ExpansionError,
    OutputExistsError,
    UnreadablePictureError,
    UnsupportedPictureError,
    WriteFailedError,
)
from strandproof.storage.durable import write_durably

LARGEST_FILE_BYTES = 4_000_000_000

# Non-blocking, since opening a pipe would otherwise wait for ever; binary where
# the system knows a text mode. Not every system has both.
_READ_ONLY = os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0)

_READ = ("PNG", "JPEG", "TIFF")

# First bytes of files that are often handed over instead of a readable picture.
_SIGNATURES: tuple[tuple[int, bytes, str], ...] = (
    (0, b"\x89PNG\r\n\x1a\n", "PNG"),
    (0, b"\xff\xd8\xff", "JPEG"),
    (0, b"II*\0\x10\0\0\0CR", "a camera's raw picture"),
    (0, b"II*\0", "TIFF"),
    (0, b"MM\0*", "TIFF"),
    (0, b"II+\0", "TIFF"),
    (0, b"MM\0+", "TIFF"),
    (0, b"GIF8", "a GIF picture"),
    (0, b"BM", "a BMP picture"),
    (8, b"WEBP", "a WebP picture"),
    (0, b"%PDF", "a PDF document"),
    (0, b"%!PS", "a PostScript document"),
    (4, b"ftypavi", "an AVIF picture"),
    (4, b"ftyphei", "a HEIC picture"),
    (4, b"ftypmif", "a HEIF picture"),
    (4, b"ftyp", "a video or another file of the MP4 family"),
    (4, b"jP  ", "a JPEG 2000 picture"),
    (0, b"\xff\x4f\xff\x51", "a JPEG 2000 picture"),
    (4, b"JXL ", "a JPEG XL picture"),
    (0, b"\xff\x0a", "a JPEG XL picture"),
    (0, b"8BPS", "a layered picture of an image editor"),
    (0, b"\0\0\x01\0", "an icon"),
    (128, b"DICM", "a DICOM picture"),
    (0, b"\x8aMNG", "an MNG animation"),
    (0, b"PK\x03\x04", "a ZIP archive or an office document"),
    (0, b"\x1f\x8b", "a gzip archive"),
    (0, b"\xd0\xcf\x11\xe0", "an old office document"),
    (0, b"\x89HDF", "an HDF5 data file"),
)


@dataclass(frozen=True, slots=True, eq=False)
class PictureFile:
    """The bytes of one file and their hash; every later step reads these bytes.

    Parameters
    ----------
    path : str
        The file, as the caller named it.
    data : bytes
        The whole content.
    sha256 : str
        SHA-256 of `data`, 64 lower-case hexadecimal digits.
    """

    path: str
    data: bytes
    sha256: str


def read_picture_file(
    path: str | os.PathLike[str], *, allow_large: bool = False
) -> PictureFile:
    """Read a file once and hash exactly the bytes that were read.

    Parameters
    ----------
    path : str or path-like
        The file.
    allow_large : bool
        Read it although it is above `LARGEST_FILE_BYTES`.

    Returns
    -------
    PictureFile
        The bytes and their hash.

    Raises
    ------
    UnreadablePictureError
        If there is no such file, it is a folder or a device, it may not be
        read, or it is empty.
    ExpansionError
        If the file is larger than `LARGEST_FILE_BYTES`.
    """
    name = os.fspath(path)
    descriptor = _opened(name)
    try:
        _refuse_special(name, os.fstat(descriptor), allow_large=allow_large)
        data = _all_bytes(name, descriptor)
    finally:
        os.close(descriptor)
    if not data:
        raise UnreadablePictureError(name, "the file is empty (0 bytes)")
    return PictureFile(name, data, hashlib.sha256(data).hexdigest())


def picture_format(file: PictureFile) -> str:
    """Tell the format by the first bytes; the suffix of the name plays no part.

    Parameters
    ----------
    file : PictureFile
        The file.

    Returns
    -------
    str
        ``"PNG"``, ``"JPEG"`` or ``"TIFF"``.

    Raises
    ------
    UnsupportedPictureError
        If the content is anything else; says what it looks like.
    """
    found = _kind_of(file.data)
    if found not in _READ:
        raise UnsupportedPictureError(file.path, found)
    return found


def write_output_file(
    path: str | os.PathLike[str],
    data: bytes,
    *,
    source: str | os.PathLike[str] | None = None,
    overwrite: bool = False,
) -> None:
    """Write encoded bytes whole or not at all, and never over the input picture.

    Parameters
    ----------
    path : str or path-like
        Where; the folder has to exist.
    data : bytes
        What to write.
    source : str or path-like or None
        The picture that was read; never replaced, under whatever name or link.
    overwrite : bool
        Replace an earlier file of that name; else it is an error.

    Raises
    ------
    OutputExistsError
        If `path` is the input picture, a folder or a device, or a file is there
        and `overwrite` is False.
    WriteFailedError
        If the system refuses (disk full, no permission, no folder).

    Notes
    -----
    Written under a temporary name in the same folder, flushed to the disk and
    renamed, so that a crash leaves the old file or the new one, never half.
    """
    target = Path(path)
    try:
        if target.exists():
            _refuse_to_replace(target, source, overwrite=overwrite)
        write_durably(target, data)
    except (OutputExistsError, WriteFailedError):
        raise
    except OSError as error:  # a name too long for the system, for example
        raise WriteFailedError(target, error.strerror or str(error)) from error


def _opened(name: str) -> int:
    try:
        return os.open(name, _READ_ONLY)
    except FileNotFoundError as error:
        raise UnreadablePictureError(
            name, "there is no such file", remedy="Check the name and the folder."
        ) from error
    except PermissionError as error:
        raise UnreadablePictureError(
            name,
            "this user may not read it",
            remedy="Change the permissions of the file, or copy it.",
        ) from error
    except (OSError, ValueError) as error:
        raise UnreadablePictureError(name, f"the system says {error}") from error


def _refuse_special(name: str, status: os.stat_result, *, allow_large: bool) -> None:
    if stat.S_ISDIR(status.st_mode):
        raise UnreadablePictureError(
            name, "it is a folder", remedy="Give one picture file inside it."
        )
    if not stat.S_ISREG(status.st_mode):
        raise UnreadablePictureError(
            name, "it is a device or a pipe", remedy="Give a file on a disk."
        )
    if status.st_size > LARGEST_FILE_BYTES and not allow_large:
        raise ExpansionError(
            name,
            found=f"the file alone has {status.st_size / 1e9:.1f} GB",
            limit=f"{LARGEST_FILE_BYTES / 1e9:.0f} GB",
        )


def _all_bytes(name: str, descriptor: int) -> bytes:
    try:
        with os.fdopen(descriptor, "rb", closefd=False) as stream:
            return stream.read()
    except OSError as error:
        raise UnreadablePictureError(name, f"the system says {error}") from error


def _kind_of(data: bytes) -> str:
    for offset, signature, kind in _SIGNATURES:
        if data.startswith(signature, offset):
            return kind
    head = data[:1000].lstrip(b"\xef\xbb\xbf \t\r\n").lower()
    if head.startswith((b"<svg", b"<?xml")) and b"<svg" in head:
        return "an SVG drawing"
    if head.startswith((b"<!doctype html", b"<html")):
        return "a web page"
    if data.startswith(b"\x89PNG"):
        return "a PNG whose first bytes were changed by a text-mode transfer"
    if not any(data[:1000]):
        return "nothing but zero bytes at its beginning"
    return f"an unknown kind of data (first bytes {data[:8].hex(' ')})"


def _refuse_to_replace(
    target: Path, source: str | os.PathLike[str] | None, *, overwrite: bool
) -> None:
    other = "Choose another name."
    if not target.is_file():
        raise OutputExistsError(
            str(target), what="that is a folder or a device", remedy=other
        )
    if source is not None and Path(source).exists() and target.samefile(source):
        raise OutputExistsError(
            str(target),
            what="that is the input picture, which is never changed",
            remedy=other,
        )
    if not overwrite:
        raise OutputExistsError(
            str(target),
            what="a file of that name is there already",
            remedy=f"{other} Or allow it to be replaced (overwrite).",
        )
