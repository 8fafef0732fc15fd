"""The words of a kept file, where it is a text or a saved page."""

from html.parser import HTMLParser
from pathlib import Path

_PAGE_ENDINGS = {".html", ".htm", ".xhtml"}
_TEXT_ENDINGS = {".txt", ".md", ".csv", ".text", ".srt", ".vtt"}
_UNSEEN = {"script", "style", "template", "noscript"}
_INLINE = {
    *("a", "abbr", "b", "bdi", "cite", "code", "em", "i", "mark", "q", "s"),
    *("small", "span", "strong", "sub", "sup", "u", "wbr"),
}


def file_text(path: Path, *, name: str, media_type: str) -> str | None:
    """Read the words of a text file or of a saved page.

    Parameters
    ----------
    path : Path
        Where the file lies.
    name : str
        Name that it came with; its ending tells pages from plain text.
    media_type : str
        Kind of file, for example ``"text/html"``.

    Returns
    -------
    str or None
        The words; of a page those outside of scripts and styles. None for pictures,
        recordings, PDF and anything that is no UTF-8 text.
    """
    ending = Path(name).suffix.casefold()
    page = ending in _PAGE_ENDINGS or media_type in {
        "text/html",
        "application/xhtml+xml",
    }
    if not page and ending not in _TEXT_ENDINGS and media_type != "text/plain":
        return None
    try:
        text = path.read_bytes().decode("utf-8-sig")
    except UnicodeDecodeError:
        return None
    return visible_words(text) if page else text


def visible_words(page: str) -> str:
    """Give the words of a page, one block a line.

    Parameters
    ----------
    page : str
        HTML.

    Returns
    -------
    str
        Words outside of scripts and styles, and the alternative text of pictures.
        What a style hides on the screen is not told apart.

    Examples
    --------
    >>> visible_words("<p>Cores <b>26</b> AWG</p><script>no()</script>")
    'Cores 26 AWG'
    """
    reader = _Words()
    reader.feed(page)
    reader.close()
    lines = (" ".join(line.split()) for line in "".join(reader.parts).split("\n"))
    return "\n".join(line for line in lines if line)


class _Words(HTMLParser):
    """Collects the text between tags; every block begins a line."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.parts: list[str] = []
        self._unseen = 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag in _UNSEEN:
            self._unseen += 1
        if tag not in _INLINE:
            self.parts.append("\n")
        alternative = dict(attrs).get("alt")
        if tag == "img" and alternative:
            self.parts.append(alternative)

    def handle_endtag(self, tag: str) -> None:
        if tag in _UNSEEN and self._unseen:
            self._unseen -= 1
        if tag not in _INLINE:
            self.parts.append("\n")

    def handle_data(self, data: str) -> None:
        if not self._unseen:
            # A line end inside of a block is a space; only blocks begin lines.
            self.parts.append(data.replace("\n", " "))
