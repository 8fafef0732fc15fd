"""Segments of JPEG files."""

import struct

import numpy as np
import pytest
import pyvips

from strandproof.errors import UnreadablePictureError, UnsupportedPictureError
from strandproof.storage.picture_files import PictureFile
from strandproof.storage.picture_jpeg import jpeg_header

PLAIN: bytes = pyvips.Image.new_from_array(
    np.zeros((20, 30, 3), dtype=np.uint8)
).jpegsave_buffer(keep="none")


def segment(marker: int, content: bytes) -> bytes:
    return bytes([0xFF, marker]) + struct.pack(">H", len(content) + 2) + content


def with_segments(*segments: bytes) -> PictureFile:
    return PictureFile("x.jpg", PLAIN[:2] + b"".join(segments) + PLAIN[2:], "")


def jfif(unit: int, x: int, y: int) -> bytes:
    return segment(0xE0, b"JFIF\0\1\2" + struct.pack(">BHHBB", unit, x, y, 0, 0))


def test_size_and_colours() -> None:
    header = jpeg_header(PictureFile("x.jpg", PLAIN, ""))
    assert (header.n_rows, header.n_columns, header.n_channels) == (20, 30, 3)
    assert header.is_lossy
    assert header.bit_depth == 8


@pytest.mark.parametrize(
    ("unit", "density", "expected"),
    [(1, 25_400, 1.0), (2, 10_000, 1.0), (1, 72, 352.8)],
)
def test_density_in_inch_and_centimetre(
    unit: int, density: int, expected: float
) -> None:
    header = jpeg_header(with_segments(jfif(unit, density, density)))
    (statement,) = header.statements
    assert statement.x == pytest.approx(expected, rel=1e-3, abs=0)
    assert statement.absolute


def test_density_without_unit_or_of_zero() -> None:
    (statement,) = jpeg_header(with_segments(jfif(0, 1, 1))).statements
    assert not statement.absolute
    assert jpeg_header(with_segments(jfif(1, 0, 0))).statements == ()


def test_comment_and_profile() -> None:
    profile = bytes(128) + struct.pack(">I4sII", 1, b"desc", 144, 17)
    words = b"desc" + bytes(4) + struct.pack(">I", 5) + b"Wide\0"
    parts = profile + words
    header = jpeg_header(
        with_segments(
            segment(0xFE, b"field 3, step 2"),
            segment(0xE2, b"ICC_PROFILE\0\2\2" + parts[140:]),
            segment(0xE2, b"ICC_PROFILE\0\1\2" + parts[:140]),
        )
    )
    assert header.words == {"Comment": "field 3, step 2"}
    assert "(Wide) was not applied" in header.notes[0]


def test_filling_between_segments_is_skipped() -> None:
    data = PLAIN[:2] + b"\xff\xff\xff" + PLAIN[2:]
    assert jpeg_header(PictureFile("x.jpg", data, "")).n_rows == 20


@pytest.mark.parametrize(
    ("marker", "precision", "channels"),
    [(0xC3, 8, 3), (0xF7, 8, 1), (0xC1, 12, 3), (0xC0, 8, 2)],
)
def test_rare_kinds_are_refused(marker: int, precision: int, channels: int) -> None:
    frame = struct.pack(">BHHB", precision, 20, 30, channels)
    data = b"\xff\xd8" + segment(marker, frame) + segment(0xDA, b"") + b"\xff\xd9"
    with pytest.raises(UnsupportedPictureError, match=f"{marker:02X}, {precision} bit"):
        jpeg_header(PictureFile("x.jpg", data, ""))


def test_end_before_the_picture_data_is_named() -> None:
    with pytest.raises(UnreadablePictureError, match="no picture data"):
        jpeg_header(PictureFile("x.jpg", b"\xff\xd8\xff\xd9", ""))
    with pytest.raises(UnreadablePictureError, match="cut short"):
        jpeg_header(PictureFile("x.jpg", PLAIN[:100], ""))
    with pytest.raises(UnreadablePictureError, match="no frame"):
        jpeg_header(PictureFile("x.jpg", b"\xff\xd8" + segment(0xDA, b""), ""))
