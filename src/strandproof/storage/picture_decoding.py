"""From the bytes of a picture to its samples: size guard, unpacking, turning."""

import logging
import re
import zlib
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

import numpy as np
import numpy.typing as npt
import pyvips

from strandproof.errors import (
    ExpansionError,
    PictureTooSmallError,
    UnreadablePictureError,
    UnsupportedPictureError,
)
from strandproof.storage.picture_files import PictureFile
from strandproof.storage.picture_header import PictureHeader

SMALLEST_SIDE = 16
MOST_PIXELS = 1_000_000_000
LARGEST_EXPANSION = 100.0
EXPANSION_FREE_BYTES = 200_000_000

_REPORTS = "the decoder reports "
_ENOUGH_CHECKED_BYTES = 64_000_000
_MOST_FILLING_BYTES = 64
# libjpeg reports bytes that it skipped. Before a header marker they are filling;
# before a restart mark (D0..D7) or, in number, before the end (D9) they are
# picture data that could not be used.
_SKIPPED = re.compile(r"(\d+) extraneous bytes before marker 0x([0-9a-f]{2})")

Samples = npt.NDArray[Any]


def refuse_size(file: PictureFile, header: PictureHeader, *, allow_large: bool) -> None:
    """Refuse what is too small to show anything or unpacks to too much.

    Parameters
    ----------
    file : PictureFile
        The file.
    header : PictureHeader
        Its header.
    allow_large : bool
        Let large pictures through.

    Raises
    ------
    PictureTooSmallError
        Below 16 pixels in a direction.
    ExpansionError
        Above 10^9 pixels, or above 100 times the size of the file and 200 MB.
    """
    n_rows, n_columns = header.n_rows, header.n_columns
    if min(n_rows, n_columns) < SMALLEST_SIDE:
        raise PictureTooSmallError(
            file.path, n_rows=n_rows, n_columns=n_columns, smallest=SMALLEST_SIDE
        )
    if allow_large:
        return
    size = f"{n_columns} x {n_rows} pixels"
    if n_rows * n_columns > MOST_PIXELS:
        limit = f"{MOST_PIXELS:.0e} pixels"
        raise ExpansionError(file.path, found=f"it holds {size}", limit=limit)
    unpacked, packed = header.unpacked_bytes, len(file.data)
    if unpacked > EXPANSION_FREE_BYTES and unpacked > LARGEST_EXPANSION * packed:
        raise ExpansionError(
            file.path,
            found=f"its {packed / 1e6:.3g} MB would become {unpacked / 1e6:.0f} MB "
            f"({size}), {unpacked / packed:.0f} times as much, as a nearly empty "
            "picture or an attack would",
            limit=f"{LARGEST_EXPANSION:.0f} times, above "
            f"{EXPANSION_FREE_BYTES / 1e6:.0f} MB",
        )


def unpacked_samples(file: PictureFile, header: PictureHeader) -> Samples:
    """Unpack the chosen page as stored, before any turning.

    Parameters
    ----------
    file : PictureFile
        The file.
    header : PictureHeader
        Its header.

    Returns
    -------
    ndarray of uint8, uint16 or float32, shape (n_rows, n_columns, n_channels)
        Samples; fewer than 8 bits are spread over 0..255, a palette is looked
        up, printing colours are turned into sRGB.

    Raises
    ------
    UnreadablePictureError
        If the decoder finds damage, or the outcome does not fit the header.
    """
    _check_deflate_blocks(file, header)
    if header.file_format == "JPEG":
        image = _decoded_jpeg(file, header)
    else:
        image = _decoded(file, header, fail_on="error")
    channels = 3 if header.is_cmyk else header.n_channels
    if image.shape != (header.n_rows, header.n_columns, channels):
        raise UnreadablePictureError(
            file.path,
            f"its header promises {header.n_rows} x {header.n_columns} x {channels} "
            f"samples, but {' x '.join(map(str, image.shape))} came out",
        )
    return image


def unit_range(file: PictureFile, samples: Samples) -> npt.NDArray[np.float32]:
    """Bring samples to 0..1 by their type's full range, without stretching.

    Parameters
    ----------
    file : PictureFile
        The file, for messages.
    samples : ndarray
        As unpacked.

    Returns
    -------
    ndarray of float32, same shape
        v / 255, v / 65535, or floating-point samples as they are.

    Raises
    ------
    UnsupportedPictureError
        If floating-point samples are not all within 0..1; where black and white
        lie in other files only the program that made them knows.
    """
    if samples.dtype.kind == "u":
        white = np.float32(np.iinfo(samples.dtype).max)
        return np.divide(samples, white, dtype=np.float32)
    low, high = float(samples.min()), float(samples.max())
    if not (low >= 0 and high <= 1):
        raise UnsupportedPictureError(
            file.path,
            f"floating-point samples from {low:.6g} to {high:.6g}",
            allowed="floating-point samples from 0 (black) to 1 (white)",
            remedy="Scale them in the program that made the file, or save 16-bit TIFF.",
        )
    return samples.astype(np.float32, copy=False)


def turned_upright(samples: Samples, orientation: int) -> Samples:
    """Undo the turning that a TIFF or EXIF orientation describes.

    Parameters
    ----------
    samples : ndarray of shape (n_rows, n_columns, ...)
        As stored.
    orientation : int
        1 to 8: which side of the scene the first stored row and column are.

    Returns
    -------
    ndarray
        Upright; rows and columns change places for 5 to 8.

    Notes
    -----
    TIFF 6.0, tag 274 (from memory): 1 top-left, 2 top-right, 3 bottom-right,
    4 bottom-left, 5 left-top, 6 right-top, 7 right-bottom, 8 left-bottom.
    """
    upright = samples.swapaxes(0, 1) if orientation >= 5 else samples
    if orientation in {3, 4, 7, 8}:
        upright = upright[::-1]
    if orientation in {2, 3, 6, 7}:
        upright = upright[:, ::-1]
    return np.ascontiguousarray(upright)


def _decoded_jpeg(file: PictureFile, header: PictureHeader) -> Samples:
    # JPEG has no checksum: damage shows, if at all, in what libjpeg warns of.
    with _warnings_of_libvips() as heard:
        try:
            samples = _decoded(file, header, fail_on="warning")
        except UnreadablePictureError as error:
            if not _is_mere_filling(error.found):
                raise
            samples = _decoded(file, header, fail_on="truncated")
    # In the last rows libvips only logs them.
    damage = [line for line in heard if "Corrupt" in line and not _is_filling(line)]
    if damage:
        raise UnreadablePictureError(file.path, f"{_REPORTS}{damage[0]}")
    return samples


class _Listener(logging.Handler):
    """Keeps the lines that libvips logs as warnings."""

    def __init__(self) -> None:
        super().__init__(logging.WARNING)
        self.heard: list[str] = []

    def emit(self, record: logging.LogRecord) -> None:
        self.heard.extend(record.getMessage().splitlines())


@contextmanager
def _warnings_of_libvips() -> Iterator[list[str]]:
    listener = _Listener()
    logger = logging.getLogger("pyvips")
    logger.addHandler(listener)
    try:
        yield listener.heard
    finally:
        logger.removeHandler(listener)


def _decoded(file: PictureFile, header: PictureHeader, *, fail_on: str) -> Samples:
    # The loaders are called by name, so that no other format is ever tried.
    # Messages pile up in libvips; what an earlier file left must not be read here.
    pyvips.vips_lib.vips_error_clear()
    options = {"access": "sequential", "fail_on": fail_on}
    try:
        if header.file_format == "PNG":
            image = pyvips.Image.pngload_buffer(file.data, **options)
        elif header.file_format == "JPEG":
            image = pyvips.Image.jpegload_buffer(file.data, **options)
        else:
            image = pyvips.Image.tiffload_buffer(
                file.data, page=header.directory, **options
            )
        if header.is_cmyk:
            image = image.colourspace("srgb")
        samples: Samples = image.numpy()
    except pyvips.Error as error:
        raise UnreadablePictureError(file.path, _decoder_words(error)) from error
    except UnicodeDecodeError as error:  # damaged names within libvips' own message
        raise UnreadablePictureError(file.path, "the decoder finds damage") from error
    return samples.reshape(image.height, image.width, image.bands)


def _decoder_words(error: pyvips.Error) -> str:
    lines = [line.strip() for line in str(error.detail).splitlines()]
    unique = list(dict.fromkeys(line for line in lines if line))
    return _REPORTS + ("; ".join(unique[:5]) or error.message)


def _is_mere_filling(found: str) -> bool:
    parts = found.removeprefix(_REPORTS).split("; ")
    reports = [part for part in parts if not part.endswith("load error")]
    return bool(reports) and all(_is_filling(report) for report in reports)


def _is_filling(report: str) -> bool:
    match = _SKIPPED.search(report)
    if match is None:
        return False
    count, marker = int(match[1]), int(match[2], 16)
    if 0xD0 <= marker <= 0xD7:
        return False
    return marker != 0xD9 or count <= _MOST_FILLING_BYTES


def _check_deflate_blocks(file: PictureFile, header: PictureHeader) -> None:
    # libtiff often skips these checksums: of 200 changed bits it let 18 pass.
    limit = max(header.unpacked_bytes, _ENOUGH_CHECKED_BYTES)
    total = len(header.deflate_blocks)
    for k, (offset, size) in enumerate(header.deflate_blocks, start=1):
        try:
            _inflate(file.data[offset : offset + size], limit)
        except zlib.error as error:
            raise UnreadablePictureError(
                file.path, f"block {k} of {total} of its picture data is damaged"
            ) from error


def _inflate(packed: bytes, limit: int) -> None:
    stream, done = zlib.decompressobj(), 0
    while packed and not stream.eof and done <= limit:
        done += len(stream.decompress(packed, 1_000_000))
        packed = stream.unconsumed_tail
