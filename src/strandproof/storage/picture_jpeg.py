"""Header of a JPEG file: the marker segments before the picture data.

Markers as in ITU-T T.81, JFIF 1.02 and EXIF (from memory).
"""

import struct
from collections.abc import Iterator
from types import MappingProxyType

from strandproof.errors import UnreadablePictureError, UnsupportedPictureError
from strandproof.storage.picture_exif import ExifFacts, exif_facts, profile_note
from strandproof.storage.picture_files import PictureFile
from strandproof.storage.picture_header import (
    PictureHeader,
    PixelSizeStatement,
    density_statement,
    printable_words,
)

_START_OF_SCAN = 0xDA
_END_OF_IMAGE = 0xD9
_COMMENT = 0xFE
_STANDALONE = {0x01, *range(0xD0, 0xD9)}
# Baseline, extended and progressive, with Huffman or arithmetic coding.
_READ_FRAMES = {0xC0, 0xC1, 0xC2, 0xC9, 0xCA}
_OTHER_FRAMES = {0xC3, 0xC5, 0xC6, 0xC7, 0xCB, 0xCD, 0xCE, 0xCF, 0xF7}
_DENSITY_UNITS_UM = {1: 25_400.0, 2: 10_000.0}

Segment = tuple[int, bytes]


def jpeg_header(file: PictureFile) -> PictureHeader:
    """Read the header of a JPEG file.

    Parameters
    ----------
    file : PictureFile
        A file that begins with the JPEG mark.

    Returns
    -------
    PictureHeader
        Size, colours, turning, resolution and words.

    Raises
    ------
    UnreadablePictureError
        If the file ends before its picture data begin.
    """
    segments = tuple(_segments(file))
    n_rows, n_columns, n_channels = _frame(file, segments)
    exif = _exif(file, segments)
    statements = (_density(segments), exif.statement)
    note = profile_note(_profile(segments)) if n_channels != 4 else None
    return PictureHeader(
        file_format="JPEG",
        n_rows=n_rows,
        n_columns=n_columns,
        n_channels=n_channels,
        bit_depth=8,
        is_cmyk=n_channels == 4,
        is_lossy=True,
        orientation=exif.orientation,
        statements=tuple(s for s in statements if s is not None),
        words=MappingProxyType({**exif.words, **_comment(segments)}),
        notes=exif.notes if note is None else (*exif.notes, note),
    )


def _segments(file: PictureFile) -> Iterator[Segment]:
    data, offset = file.data, 2
    while True:
        # Filling bytes between segments are skipped, as decoders do.
        offset = data.find(b"\xff", offset)
        while 0 <= offset < len(data) and data[offset] == 0xFF:
            offset += 1
        if offset < 0 or offset >= len(data):
            raise UnreadablePictureError(
                file.path, "the file is cut short: it ends before its picture data"
            )
        marker, offset = data[offset], offset + 1
        if marker == _END_OF_IMAGE:
            raise UnreadablePictureError(
                file.path, "it holds no picture data (damaged)"
            )
        if marker == 0 or marker in _STANDALONE:
            continue
        length = int.from_bytes(data[offset : offset + 2], "big")
        yield marker, data[offset + 2 : offset + length]
        if marker == _START_OF_SCAN:
            return
        offset += max(length, 2)


def _frame(file: PictureFile, segments: tuple[Segment, ...]) -> tuple[int, int, int]:
    frames = [s for s in segments if s[0] in _READ_FRAMES | _OTHER_FRAMES]
    if not frames or len(frames[0][1]) < 6:
        raise UnreadablePictureError(file.path, "its header is damaged (no frame)")
    marker, content = frames[0]
    precision, n_rows, n_columns, n_channels = struct.unpack_from(">BHHB", content)
    if marker in _OTHER_FRAMES or precision != 8 or n_channels not in {1, 3, 4}:
        raise UnsupportedPictureError(
            file.path,
            f"a JPEG of a rare kind (frame type {marker:02X}, {precision} bits, "
            f"{n_channels} channels)",
            allowed="8-bit baseline and progressive JPEG, PNG and TIFF",
        )
    return n_rows, n_columns, n_channels


def _density(segments: tuple[Segment, ...]) -> PixelSizeStatement | None:
    for marker, content in segments:
        if marker == 0xE0 and content.startswith(b"JFIF\0") and len(content) >= 12:
            unit, x, y = struct.unpack_from(">BHH", content, 7)
            unit_um = _DENSITY_UNITS_UM.get(unit)
            return density_statement(x, y, unit_um=unit_um, source="JPEG density entry")
    return None


def _exif(file: PictureFile, segments: tuple[Segment, ...]) -> ExifFacts:
    for marker, content in segments:
        if marker == 0xE1 and content.startswith(b"Exif\0"):
            return exif_facts(file.path, content[6:])
    return ExifFacts()


def _profile(segments: tuple[Segment, ...]) -> bytes:
    parts = [c for m, c in segments if m == 0xE2 and c.startswith(b"ICC_PROFILE\0")]
    return b"".join(part[14:] for part in sorted(parts, key=lambda part: part[12:13]))


def _comment(segments: tuple[Segment, ...]) -> dict[str, str]:
    parts = [content for marker, content in segments if marker == _COMMENT]
    text = printable_words(b"\n".join(parts).decode("utf-8", errors="replace"))
    return {"Comment": text} if text else {}
