"""EXIF blocks and colour profiles, whole and damaged."""

import struct

import pytest

from strandproof.storage.picture_exif import exif_facts, profile_note


def exif(entries: list[bytes], tail: bytes = b"") -> bytes:
    body = struct.pack(">H", len(entries)) + b"".join(entries)
    return b"MM\0*" + struct.pack(">I", 8) + body + bytes(4) + tail


def test_resolution_orientation_and_words() -> None:
    place = 8 + 2 + 5 * 12 + 4
    entries = [
        struct.pack(">HHIHH", 274, 3, 1, 6, 0),
        struct.pack(">HHII", 282, 5, 1, place),
        struct.pack(">HHII", 283, 5, 1, place),
        struct.pack(">HHIHH", 296, 3, 1, 3, 0),
        struct.pack(">HHI4s", 305, 2, 4, b"Own\0"),
    ]
    facts = exif_facts("x", exif(entries, struct.pack(">II", 20_000, 1)))
    assert facts.orientation == 6
    assert facts.words == {"Software": "Own"}
    assert facts.statement is not None
    assert (facts.statement.x, facts.statement.absolute) == (0.5, True)
    assert facts.notes == ()


def test_resolution_in_inches_unless_told_otherwise() -> None:
    place = 8 + 2 + 2 * 12 + 4
    entries = [struct.pack(">HHII", k, 5, 1, place) for k in (282, 283)]
    facts = exif_facts("x", exif(entries, struct.pack(">II", 25_400, 1)))
    assert facts.statement is not None
    assert facts.statement.x == 1.0


@pytest.mark.parametrize("orientation", [0, 9, 65535])
def test_orientation_without_meaning_is_noted(orientation: int) -> None:
    facts = exif_facts("x", exif([struct.pack(">HHIHH", 274, 3, 1, orientation, 0)]))
    assert facts.orientation == 1
    assert "has no meaning" in facts.notes[0]


@pytest.mark.parametrize("data", [b"", b"MM\0*\0\0\x10\0", b"rubbish and more of it"])
def test_damaged_block_is_noted_and_the_picture_kept(data: bytes) -> None:
    facts = exif_facts("x", data)
    assert facts.orientation == 1
    assert "EXIF block is damaged" in facts.notes[0]


def profile(element: bytes) -> bytes:
    table = struct.pack(">I4sII", 1, b"desc", 144, len(element))
    return bytes(128) + table + element


def old_description(words: bytes) -> bytes:
    return b"desc" + bytes(4) + struct.pack(">I", len(words) + 1) + words + b"\0"


def new_description(words: str) -> bytes:
    text = words.encode("utf-16-be")
    record = struct.pack(">II4sII", 1, 12, b"enUS", len(text), 28)
    return b"mluc" + bytes(4) + record + text


def test_profiles_are_named() -> None:
    for element in (old_description(b"Wide colours"), new_description("Wide colours")):
        note = profile_note(profile(element))
        assert note is not None
        assert "(Wide colours) was not applied" in note


def test_srgb_and_no_profile_need_no_note() -> None:
    assert profile_note(b"") is None
    assert profile_note(profile(old_description(b"sRGB IEC61966-2.1"))) is None
    assert profile_note(profile(new_description("sRGB"))) is None


@pytest.mark.parametrize("length", [1, 100, 130, 140, 150, 170])
def test_cut_profile_is_noted_without_a_name(length: int) -> None:
    note = profile_note(profile(new_description("Wide colours"))[:length])
    assert note is not None
    assert "was not applied" in note
