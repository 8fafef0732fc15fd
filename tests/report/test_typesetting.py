"""Which characters the paper can draw, and what happens to the others."""

import json

import pytest

from strandproof.report.typesetting import (
    WITHOUT_GLYPH,
    characters_without_glyph,
    typeset,
)

TEMPLATE = (
    b'#set document(title: [t])\n#let r = json("r.json")\n'
    b"= #r\n#r #strong(r) #emph(r) #raw(r)"
)


@pytest.mark.parametrize(
    "words",
    [
        "",
        "plain",
        "8.4 ± 0.8 µm, 10⁻⁸ Ω m, “words” – …",
        "Žluťoučký kůň",
        "крест",
        "ΑΒΓ",
    ],
)
def test_latin_greek_and_cyrillic_are_drawn(words: str) -> None:
    assert characters_without_glyph([words]) == ()


@pytest.mark.parametrize(
    ("words", "missing"),
    [
        ("单晶 copper", {"单", "晶"}),
        ("한 줄", {"한", "줄"}),
        ("party 🎉", {"🎉"}),
        ("nul \x00, bell \x07", {"\x00", "\x07"}),
        ("private \ue000", {"\ue000"}),
        ("file separator \x1c", {"\x1c"}),
        ("no character \ufffe", {"\ufffe"}),
    ],
)
def test_other_characters_are_named(words: str, missing: set[str]) -> None:
    assert set(characters_without_glyph(["first text", words])) == missing


@pytest.mark.parametrize(
    "words",
    [
        "单晶",
        "1\ufe0f\u20e3 key cap",
        "👩\u200d👧",
        "\u0301 alone",
        "\x00\x1f\x7f\x85",
        "\U0010ffff",
        "\u202e turned",
        "ไทย नमस्ते עברית عربي",
        "ends in a space ",
        "a\tb\r\nc",
    ],
)
def test_with_boxes_in_their_place_everything_can_be_set(words: str) -> None:
    for missing in characters_without_glyph([words]):
        words = words.replace(missing, WITHOUT_GLYPH)
    data = json.dumps(words).encode()
    assert typeset({"main.typ": TEMPLATE, "r.json": data}).startswith(b"%PDF")


def test_the_box_itself_is_drawn() -> None:
    assert characters_without_glyph([WITHOUT_GLYPH]) == ()
