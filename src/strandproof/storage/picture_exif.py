"""EXIF block and colour profile: what JPEG, PNG and TIFF files have in common."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

from strandproof.errors import UnreadablePictureError
from strandproof.storage.picture_header import (
    PixelSizeStatement,
    density_statement,
    printable_words,
)
from strandproof.storage.picture_tags import Directory, tag_block

# Tag numbers of TIFF 6.0 and EXIF (from memory).
ORIENTATION = 274
X_RESOLUTION = 282
Y_RESOLUTION = 283
RESOLUTION_UNIT = 296
_UNITS_UM = {2: 25_400.0, 3: 10_000.0}
_WORDS = {
    270: "ImageDescription",
    271: "Make",
    272: "Model",
    305: "Software",
    306: "DateTime",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class ExifFacts:
    """What an EXIF block adds to a header.

    Parameters
    ----------
    orientation : int
        1 to 8; 1 where nothing valid is stated.
    statement : PixelSizeStatement or None
        Resolution entry.
    words : mapping of str to str
        Software, camera, date and description.
    notes : tuple of str
        What could not be used.
    """

    orientation: int = 1
    statement: PixelSizeStatement | None = None
    words: Mapping[str, str] = field(default_factory=dict)
    notes: tuple[str, ...] = ()


def exif_facts(path: str, data: bytes) -> ExifFacts:
    """Read an EXIF block; a damaged one is noted, since the pixels stand apart.

    Parameters
    ----------
    path : str
        The file, for messages.
    data : bytes
        The block from the byte-order mark on.

    Returns
    -------
    ExifFacts
        What it states.
    """
    try:
        block = tag_block(path, data)
        directory = block.directory(block.first_offset)
        return directory_facts(directory, where="EXIF resolution entry")
    except UnreadablePictureError as error:
        note = f"The EXIF block is damaged and was not used ({error.found})."
        return ExifFacts(notes=(note,))


def directory_facts(directory: Directory, *, where: str) -> ExifFacts:
    """Orientation, resolution and words of a TIFF or EXIF directory.

    Parameters
    ----------
    directory : Directory
        The directory.
    where : str
        How a resolution found there is to be called.

    Returns
    -------
    ExifFacts
        What it states.
    """
    orientation = directory.integer(ORIENTATION, 1)
    in_range = 1 <= orientation <= 8
    note = f"An orientation of {orientation} has no meaning and was not used."
    return ExifFacts(
        orientation=orientation if in_range else 1,
        statement=_resolution(directory, where),
        words=_words(directory),
        notes=() if in_range else (note,),
    )


def profile_note(profile: bytes) -> str | None:
    """Say that an embedded colour profile was left alone.

    Parameters
    ----------
    profile : bytes
        The ICC profile; may be empty.

    Returns
    -------
    str or None
        None where there is none, or where it is sRGB.
    """
    if not profile:
        return None
    name = _profile_name(profile)
    if "srgb" in name.casefold():
        return None
    return (
        f"The embedded colour profile ({name or 'without a name'}) was not applied; "
        "pixel values are as stored."
    )


def _resolution(directory: Directory, where: str) -> PixelSizeStatement | None:
    x, y = directory.numbers(X_RESOLUTION), directory.numbers(Y_RESOLUTION)
    if not x or not y:
        return None
    unit = directory.integer(RESOLUTION_UNIT, 2)
    return density_statement(x[0], y[0], unit_um=_UNITS_UM.get(unit), source=where)


def _words(directory: Directory) -> Mapping[str, str]:
    found = {name: printable_words(directory.text(k)) for k, name in _WORDS.items()}
    return MappingProxyType({name: text for name, text in found.items() if text})


def _profile_name(profile: bytes) -> str:
    # Slices never fail on a damaged profile; they only come out shorter.
    count = min(_uint(profile, 128), 100)
    for k in range(count):
        entry = 132 + 12 * k
        if profile[entry : entry + 4] == b"desc":
            start = _uint(profile, entry + 4)
            return _description(profile[start : start + _uint(profile, entry + 8)])
    return ""


def _description(element: bytes) -> str:
    if element.startswith(b"mluc"):
        length, start = _uint(element, 20), _uint(element, 24)
        text = element[start : start + length].decode("utf-16-be", errors="replace")
    else:
        raw = element[12 : 12 + _uint(element, 8)]
        text = raw.decode("latin-1")
    return printable_words(text.replace("\0", ""))[:80]


def _uint(data: bytes, offset: int) -> int:
    return int.from_bytes(data[offset : offset + 4], "big")
