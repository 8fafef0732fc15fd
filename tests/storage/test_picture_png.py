"""Chunks of PNG files."""

import struct
import zlib

import numpy as np
import pytest

from strandproof.errors import UnreadablePictureError, UnsupportedPictureError
from strandproof.storage.picture_files import PictureFile
from strandproof.storage.picture_png import png_header
from strandproof.storage.picture_writing import encode_png

PLAIN = encode_png(np.zeros((20, 30), dtype=np.uint8))


def chunk(name: bytes, content: bytes) -> bytes:
    checksum = struct.pack(">I", zlib.crc32(name + content))
    return struct.pack(">I", len(content)) + name + content + checksum


def with_chunk(name: bytes, content: bytes) -> PictureFile:
    return PictureFile("x.png", PLAIN[:33] + chunk(name, content) + PLAIN[33:], "")


def with_header(content: bytes) -> PictureFile:
    return PictureFile("x.png", PLAIN[:8] + chunk(b"IHDR", content) + PLAIN[33:], "")


def test_resolution_in_metres() -> None:
    header = png_header(with_chunk(b"pHYs", struct.pack(">IIB", 10**6, 10**6, 1)))
    assert [(s.x, s.y, s.absolute) for s in header.statements] == [(1.0, 1.0, True)]


def test_resolution_without_unit_and_of_a_wrong_length() -> None:
    header = png_header(with_chunk(b"pHYs", struct.pack(">IIB", 2, 1, 0)))
    assert [(s.x, s.absolute) for s in header.statements] == [(0.5, False)]
    assert png_header(with_chunk(b"pHYs", b"1234")).statements == ()


def test_words_of_all_three_kinds() -> None:
    plain = png_header(with_chunk(b"tEXt", b"Software\0K\xf6ln 1")).words
    packed = png_header(with_chunk(b"zTXt", b"Comment\0\0" + zlib.compress(b"long")))
    wide = b"Title\0\0\0de\0Titel\0" + "Gefüge µm".encode()
    squeezed = b"Title\0\1\0\0\0" + zlib.compress("Gefüge µm".encode())
    assert plain == {"Software": "Köln 1"}
    assert packed.words == {"Comment": "long"}
    assert png_header(with_chunk(b"iTXt", wide)).words == {"Title": "Gefüge µm"}
    assert png_header(with_chunk(b"iTXt", squeezed)).words == {"Title": "Gefüge µm"}


def test_swollen_words_are_cut_and_broken_ones_left_out() -> None:
    bomb = b"Comment\0\0" + zlib.compress(b"x" * 50_000_000)
    assert len(png_header(with_chunk(b"zTXt", bomb)).words["Comment"]) == 2000
    assert png_header(with_chunk(b"zTXt", b"Comment\0\0no zlib")).words == {}


def test_animation_is_refused() -> None:
    with pytest.raises(UnsupportedPictureError, match="an animation of 7 frames"):
        png_header(with_chunk(b"acTL", struct.pack(">II", 7, 0)))
    assert png_header(with_chunk(b"acTL", struct.pack(">II", 1, 0))).n_pages == 1


def test_gamma_of_srgb_needs_no_note() -> None:
    assert png_header(with_chunk(b"gAMA", struct.pack(">I", 45455))).notes == ()
    note = png_header(with_chunk(b"gAMA", struct.pack(">I", 55556))).notes[0]
    assert "gamma of 0.5556" in note


def test_broken_profile_is_noted() -> None:
    note = png_header(with_chunk(b"iCCP", b"name\0\0no zlib at all")).notes[0]
    assert "without a name" in note


@pytest.mark.parametrize(("colour", "depth"), [(2, 4), (3, 16), (1, 8), (4, 1), (0, 3)])
def test_header_that_cannot_be_is_named(colour: int, depth: int) -> None:
    file = with_header(struct.pack(">IIBBBBB", 30, 20, depth, colour, 0, 0, 0))
    with pytest.raises(UnreadablePictureError, match=f"type {colour} with {depth} bi"):
        png_header(file)


def test_missing_header_or_data_is_named() -> None:
    for data in (PLAIN[:8] + PLAIN[33:], PLAIN[:33] + chunk(b"IEND", b"")):
        with pytest.raises(UnreadablePictureError, match="no picture data"):
            png_header(PictureFile("x.png", data, ""))


def test_changed_resolution_is_found_by_its_checksum() -> None:
    file = with_chunk(b"pHYs", struct.pack(">IIB", 10**6, 10**6, 1))
    changed = bytearray(file.data)
    changed[44] ^= 1
    with pytest.raises(UnreadablePictureError, match="checksum of part 'pHYs'"):
        png_header(PictureFile("x.png", bytes(changed), ""))
