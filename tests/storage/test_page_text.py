"""The words of a kept file: text, saved page, and what is neither."""

from pathlib import Path

import pytest

from strandproof.storage import file_text
from strandproof.storage.page_text import visible_words

PAGE = (
    "<html><head><title>Tern</title><style>p{}</style></head><body><h1>Tern lead</h1>"
    "<p>Cores <b>26</b>\n AWG&nbsp;copper<br>129.00</p><script>var awg = 24;</script>"
    '<img src="x.png" alt="drain tinned"></body></html>'
)


def text_of(tmp_path: Path, name: str, content: bytes, kind: str = "") -> str | None:
    path = tmp_path / "file"
    path.write_bytes(content)
    return file_text(path, name=name, media_type=kind)


def test_page_gives_its_visible_words_block_by_block(tmp_path: Path) -> None:
    assert text_of(tmp_path, "page.HTML", PAGE.encode()) == (
        "Tern\nTern lead\nCores 26 AWG copper\n129.00\ndrain tinned"
    )
    assert text_of(tmp_path, "page", PAGE.encode(), "text/html") is not None


def test_script_and_style_are_no_words_even_when_left_open() -> None:
    assert "24" not in visible_words(PAGE)
    assert visible_words("<p>a</p><script>never closed") == "a"
    assert visible_words("</script><p>a</p>") == "a"


def test_plain_text_is_taken_as_it_is(tmp_path: Path) -> None:
    assert text_of(tmp_path, "a.txt", "Größe <b>\n".encode()) == "Größe <b>\n"
    assert text_of(tmp_path, "a.txt", b"\xef\xbb\xbfx") == "x"


@pytest.mark.parametrize(
    ("name", "content", "kind"),
    [
        ("shot.png", b"\x89PNG", "image/png"),
        ("sheet.pdf", b"%PDF-1.7", "application/pdf"),
        ("talk.wav", b"RIFF", "audio/wav"),
        ("old.txt", b"\xff\xfe\x00", "text/plain"),
    ],
)
def test_other_files_have_no_words_for_the_program(
    tmp_path: Path, name: str, content: bytes, kind: str
) -> None:
    assert text_of(tmp_path, name, content, kind) is None
