"""Setting a paper, and which characters its fonts can draw.

Only the fonts inside the typesetting library are used, so that the same report
gives the same bytes on every machine. They draw Latin, Greek and Cyrillic; a
character that none of them draws cannot stand in a PDF/A.
"""

import json
import re
from collections.abc import Callable, Iterable, Mapping
from datetime import datetime
from functools import cache
from typing import cast

import typst

STANDARDS = ("a-2a", "ua-1")
"""PDF/A-2a keeps for long; PDF/UA-1 can be read aloud."""

WITHOUT_GLYPH = "□"
"""Stands on paper for a character that the paper's fonts do not draw."""

# Not every sign that Python takes for white space is one on paper.
_SPACES = re.compile("[ \n]+")
_LETTERS = b'#set document(title: [letters])\n#let r = json("letters.json")\n#r'


def typeset(sources: Mapping[str, bytes], *, made_at: datetime | None = None) -> bytes:
    """Set a paper from its sources.

    Parameters
    ----------
    sources : mapping of str to bytes
        Files by name; ``main.typ`` is the template.
    made_at : datetime or None
        Moment that the paper states.

    Returns
    -------
    bytes
        PDF/A-2a with tags, also PDF/UA-1.
    """
    # Virtual files and lists of standards are taken, though its type hints say less.
    compile_paper = cast(Callable[..., bytes], typst.compile)
    return compile_paper(
        dict(sources),
        format="pdf",
        timestamp=0 if made_at is None else int(made_at.timestamp()),
        ignore_system_fonts=True,
        pdf_standards=list(STANDARDS),
    )


def characters_without_glyph(texts: Iterable[str]) -> tuple[str, ...]:
    """Name the characters of some texts that no font of the paper draws.

    Parameters
    ----------
    texts : iterable of str
        Everything that the paper says.

    Returns
    -------
    tuple of str
        Single characters in the order of the code; empty for most languages
        written in Latin, Greek or Cyrillic letters.

    Examples
    --------
    >>> characters_without_glyph(["8.4 ± 0.8 µm", "крест"])
    ()
    >>> characters_without_glyph(["日本", "é"]) == ("日", "本")
    True
    """
    split = (word for text in texts for word in _SPACES.split(text))
    words = sorted({word for word in split if not _is_plain(word)})
    if _can_be_set(" ".join(words)):
        return ()
    return tuple(sorted({c for word in words for c in _not_drawn(word)}))


def _not_drawn(word: str) -> set[str]:
    """Find what keeps a word from being set.

    Signs that are drawn alone may not be drawn together, such as a digit with an
    enclosing key cap; then all unusual ones of the word go.
    """
    if _can_be_set(word):
        return set()
    unusual = {character for character in word if not _is_plain(character)}
    alone = {character for character in unusual if not _can_be_set(character)}
    left = "".join(WITHOUT_GLYPH if each in alone else each for each in word)
    return alone if _can_be_set(left) else unusual


def _is_plain(text: str) -> bool:
    return text.isascii() and text.isprintable()


@cache
def _can_be_set(text: str) -> bool:
    try:
        typeset({"main.typ": _LETTERS, "letters.json": json.dumps(text).encode()})
    except typst.TypstError:
        return False
    return True
