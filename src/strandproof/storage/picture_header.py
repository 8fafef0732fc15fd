"""What the header of a picture file says, before any pixel is unpacked."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from strandproof.errors import PageChoiceError

FileFormat = Literal["PNG", "JPEG", "TIFF"]
Opacity = Literal["none", "plain", "premultiplied", "ignored"]

_LONGEST_WORDS = 2000


@dataclass(frozen=True, slots=True, kw_only=True)
class PixelSizeStatement:
    """One place in a file that says how large, or how square, its pixels are.

    Parameters
    ----------
    x, y : float
        Width and height of a pixel, above 0; in micrometres if `absolute`,
        else in proportion only.
    absolute : bool
        True when a unit of length was stated.
    physical : bool
        True when the entry is meant as the size on the specimen; False for a
        density (pixels per inch, centimetre or metre), which may be a print or
        screen setting.
    source : str
        Where it stands, in words.
    """

    x: float
    y: float
    absolute: bool
    physical: bool
    source: str


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PictureHeader:
    """What is known of a picture before it is unpacked.

    Parameters
    ----------
    file_format : {"PNG", "JPEG", "TIFF"}
        Format, by content.
    n_rows, n_columns : int
        Size as stored, before any turning [px].
    n_channels : int
        Channels after unpacking, opacity included (a palette counts 3).
    bit_depth : int
        Bits of one stored sample.
    is_float, is_cmyk, is_lossy : bool
        32-bit floating point; printing colours; lossy compression.
    opacity : {"none", "plain", "premultiplied", "ignored"}
        What the channel after the colours means.
    orientation : int
        1 to 8 as in the TIFF and EXIF tag; 1 is upright.
    n_pages, page, directory : int
        Pages that can be chosen; the one chosen (from 1); its place in the file.
    statements : tuple of PixelSizeStatement
        What the file says about its pixels, most trusted first.
    words : mapping of str to str
        Software, description and other words found.
    notes : tuple of str
        What a reader of the result should know, one sentence each.
    deflate_blocks : tuple of (int, int)
        Offset and size of deflate-packed blocks of a TIFF, whose checksums can
        be compared; empty for anything else.
    """

    file_format: FileFormat
    n_rows: int
    n_columns: int
    n_channels: int
    bit_depth: int
    is_float: bool = False
    is_cmyk: bool = False
    is_lossy: bool = False
    opacity: Opacity = "none"
    orientation: int = 1
    n_pages: int = 1
    page: int = 1
    directory: int = 0
    statements: tuple[PixelSizeStatement, ...] = ()
    words: Mapping[str, str] = field(default_factory=dict)
    notes: tuple[str, ...] = ()
    deflate_blocks: tuple[tuple[int, int], ...] = ()

    @property
    def unpacked_bytes(self) -> int:
        """Size of the unpacked samples [bytes]."""
        width = 4 if self.is_float else 2 if self.bit_depth > 8 else 1
        return self.n_rows * self.n_columns * self.n_channels * width


def density_statement(
    x: float, y: float, *, unit_um: float | None, source: str
) -> PixelSizeStatement | None:
    """Turn a density into a pixel size.

    Parameters
    ----------
    x, y : float
        Pixels in one unit of length, across and down.
    unit_um : float or None
        That unit [um]; None when the file names none, so that only the
        proportion counts.
    source : str
        Where it stands, in words.

    Returns
    -------
    PixelSizeStatement or None
        None when a density is zero, negative or not finite, which is how many
        programs write "unknown".

    Notes
    -----
    Pixel size = unit / density, by the meaning of the tags.
    """
    if not (0 < x < 1e12 and 0 < y < 1e12):
        return None
    unit = 1.0 if unit_um is None else unit_um
    return PixelSizeStatement(
        x=unit / x,
        y=unit / y,
        absolute=unit_um is not None,
        physical=False,
        source=source,
    )


def printable_words(text: str) -> str:
    """Cut words found in a file to something that can be shown.

    Parameters
    ----------
    text : str
        As stored.

    Returns
    -------
    str
        Without control characters and surrounding blanks, at most 2000
        characters.
    """
    kept = "".join(c if c.isprintable() or c == "\n" else " " for c in text)
    return kept.strip()[:_LONGEST_WORDS]


def chosen_page(path: str, *, n_pages: int, given: int | None) -> int:
    """Settle which page is used.

    Parameters
    ----------
    path : str
        The file, for messages.
    n_pages : int
        Pages in the file.
    given : int or None
        Page asked for, from 1; None is enough where there is only one.

    Returns
    -------
    int
        The page, from 1.

    Raises
    ------
    PageChoiceError
        If there are several and none was chosen, or the one chosen is missing.
    """
    if given is None and n_pages == 1:
        return 1
    if given is None or not 1 <= given <= n_pages:
        raise PageChoiceError(path, n_pages=n_pages, given=given)
    return given
