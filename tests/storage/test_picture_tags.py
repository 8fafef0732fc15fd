"""Tag directories: every value type, both byte orders, nothing beyond the end."""

import struct

import pytest

from strandproof.errors import UnreadablePictureError
from strandproof.storage.picture_tags import tag_block


def block_of(order: str, entries: list[bytes], tail: bytes = b"") -> bytes:
    mark = b"II" if order == "<" else b"MM"
    head = mark + struct.pack(f"{order}HI", 42, 8)
    body = struct.pack(f"{order}H", len(entries)) + b"".join(entries)
    return head + body + bytes(4) + tail


@pytest.mark.parametrize("order", ["<", ">"])
def test_values_of_every_kind(order: str) -> None:
    tail_place = 8 + 2 + 5 * 12 + 4
    entries = [
        struct.pack(f"{order}HHIHH", 1, 3, 2, 7, 9),
        struct.pack(f"{order}HHII", 2, 4, 1, 70_000),
        struct.pack(f"{order}HHII", 3, 5, 1, tail_place),
        struct.pack(f"{order}HHII", 4, 2, 6, tail_place + 8),
        struct.pack(f"{order}HHI4s", 5, 7, 3, b"\x01\x02\x03\0"),
    ]
    tail = struct.pack(f"{order}II", 3, 2) + b"words\0"
    block = tag_block("x", block_of(order, entries, tail))
    directory = block.directory(block.first_offset)
    assert directory.numbers(1) == (7, 9)
    assert directory.integer(2, 0) == 70_000
    assert directory.numbers(3) == (1.5,)
    assert directory.text(4) == "words"
    assert directory.raw(5) == b"\x01\x02\x03"
    assert directory.numbers(5) == (1, 2, 3)
    assert directory.numbers(99) == ()
    assert directory.integer(99, 5) == 5
    assert directory.text(99) == ""


def test_rational_over_zero_is_zero() -> None:
    entries = [struct.pack("<HHII", 3, 5, 1, 8 + 2 + 12 + 4)]
    block = tag_block("x", block_of("<", entries, struct.pack("<II", 300, 0)))
    assert block.directory(8).numbers(3) == (0.0,)


def test_latin_1_words_are_read() -> None:
    entries = [struct.pack("<HHI4s", 4, 2, 4, "Köln".encode("latin-1"))]
    block = tag_block("x", block_of("<", entries))
    assert block.directory(8).text(4) == "Köln"


def test_unknown_type_counts_as_absent() -> None:
    entries = [struct.pack("<HHII", 1, 99, 2**31, 12)]
    directory = tag_block("x", block_of("<", entries)).directory(8)
    assert directory.numbers(1) == ()
    assert directory.raw(1) == b""


def test_float_that_is_no_number_gives_the_default() -> None:
    entries = [struct.pack("<HHIf", 1, 11, 1, float("inf"))]
    assert tag_block("x", block_of("<", entries)).directory(8).integer(1, 3) == 3


def test_value_beyond_the_end_is_named_only_when_asked_for() -> None:
    entries = [struct.pack("<HHII", 1, 4, 10**9, 100)]
    directory = tag_block("x", block_of("<", entries)).directory(8)
    with pytest.raises(UnreadablePictureError, match=r"tag 1 should reach to byte 40"):
        directory.numbers(1)


def test_chain_in_a_circle_is_found() -> None:
    data = bytearray(block_of("<", [struct.pack("<HHII", 1, 4, 1, 5)]))
    data[-4:] = struct.pack("<I", 8)
    with pytest.raises(UnreadablePictureError, match="in a circle"):
        tag_block("x", bytes(data)).directories()


def test_chain_without_a_page_is_found() -> None:
    with pytest.raises(UnreadablePictureError, match="holds no page"):
        tag_block("x", b"II*\0" + bytes(8)).directories()


@pytest.mark.parametrize(
    "data",
    [
        b"",
        b"II*\0",
        b"XX*\0\x08\0\0\0",
        b"II\x07\0\x08\0\0\0",
        b"II+\0\x08\0\0\0\x10\0",
        b"II+\0\x04\0\0\0" + bytes(8),
    ],
)
def test_broken_header_is_named(data: bytes) -> None:
    with pytest.raises(UnreadablePictureError, match="TIFF header is cut short"):
        tag_block("x", data)
