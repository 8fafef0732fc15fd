"""Header of a PNG file: every chunk walked and its checksum compared.

Chunk names and layouts as in the PNG specification (W3C; from memory).
"""

import struct
import zlib
from collections.abc import Iterator
from types import MappingProxyType

from strandproof.errors import UnreadablePictureError, UnsupportedPictureError
from strandproof.storage.picture_exif import ExifFacts, exif_facts, profile_note
from strandproof.storage.picture_files import PictureFile
from strandproof.storage.picture_header import (
    PictureHeader,
    PixelSizeStatement,
    density_statement,
    printable_words,
)

SIGNATURE = b"\x89PNG\r\n\x1a\n"
_CHANNELS = {0: 1, 2: 3, 3: 3, 4: 2, 6: 4}
_DEPTHS = {0: (1, 2, 4, 8, 16), 2: (8, 16), 3: (1, 2, 4, 8), 4: (8, 16), 6: (8, 16)}
_MOST_TEXT_BYTES = 1_000_000
_SRGB_GAMMA = 45_455

Chunks = dict[str, list[bytes]]


def png_header(file: PictureFile) -> PictureHeader:
    """Read the header of a PNG file and compare the checksum of every chunk.

    Parameters
    ----------
    file : PictureFile
        A file that begins with the PNG signature.

    Returns
    -------
    PictureHeader
        Size, depth, opacity, resolution and words.

    Raises
    ------
    UnreadablePictureError
        If the file is cut short or a checksum does not fit.
    UnsupportedPictureError
        If it is an animation.
    """
    chunks = _collect(file)
    width, height, depth, colour = _image_header(file, chunks)
    _refuse_animation(file, chunks)
    exif = exif_facts(file.path, chunks["eXIf"][0]) if "eXIf" in chunks else ExifFacts()
    has_opacity = colour in {4, 6} or "tRNS" in chunks
    statements = (_physical_size(chunks), exif.statement)
    return PictureHeader(
        file_format="PNG",
        n_rows=height,
        n_columns=width,
        n_channels=_CHANNELS[colour] + (has_opacity and colour not in {4, 6}),
        bit_depth=depth,
        opacity="plain" if has_opacity else "none",
        orientation=exif.orientation,
        statements=tuple(s for s in statements if s is not None),
        words=MappingProxyType({**exif.words, **_words(chunks)}),
        notes=(*exif.notes, *_tone_notes(chunks)),
    )


def png_chunks(path: str, data: bytes) -> Iterator[tuple[str, bytes, int]]:
    """Walk over the chunks of a PNG file up to its end mark.

    Parameters
    ----------
    path : str
        The file, for messages.
    data : bytes
        The whole file.

    Yields
    ------
    tuple of str, bytes, int
        Name, content, and the offset behind the chunk.

    Raises
    ------
    UnreadablePictureError
        If the file ends before its end mark, or a checksum does not fit.
    """
    offset, name = len(SIGNATURE), ""
    while name != "IEND":
        length, kind = struct.unpack(">I4s", data[offset : offset + 8].ljust(8, b"\0"))
        name, end = kind.decode("latin-1"), offset + 12 + length
        if end > len(data):
            raise UnreadablePictureError(
                path,
                f"the file is cut short: it ends after {len(data)} bytes, and its "
                f"next part should reach to byte {end}",
            )
        content, checksum = data[offset + 8 : end - 4], data[end - 4 : end]
        if zlib.crc32(content, zlib.crc32(kind)) != int.from_bytes(checksum, "big"):
            raise UnreadablePictureError(
                path,
                f"it is damaged: the checksum of part {name!r} at byte {offset} does "
                "not fit",
            )
        yield name, content, end
        offset = end


def _collect(file: PictureFile) -> Chunks:
    chunks: Chunks = {}
    for name, content, _end in png_chunks(file.path, file.data):
        # Picture data are only checked here; the decoder reads them again.
        chunks.setdefault(name, []).append(b"" if name == "IDAT" else content)
    return chunks


def _image_header(file: PictureFile, chunks: Chunks) -> tuple[int, int, int, int]:
    content = chunks.get("IHDR", [b""])[0]
    if len(content) != 13 or "IDAT" not in chunks:
        raise UnreadablePictureError(file.path, "it holds no picture data (damaged)")
    width, height, depth, colour = struct.unpack_from(">IIBB", content)
    if depth not in _DEPTHS.get(colour, ()):
        raise UnreadablePictureError(
            file.path, f"its header names colour type {colour} with {depth} bits"
        )
    return width, height, depth, colour


def _refuse_animation(file: PictureFile, chunks: Chunks) -> None:
    frames = int.from_bytes(chunks.get("acTL", [b""])[0][:4], "big")
    if frames > 1:
        raise UnsupportedPictureError(
            file.path,
            f"an animation of {frames} frames",
            remedy="Save the frame to be measured as a picture of its own.",
        )


def _physical_size(chunks: Chunks) -> PixelSizeStatement | None:
    content = chunks.get("pHYs", [b""])[0]
    if len(content) != 9:
        return None
    x, y, unit = struct.unpack(">IIB", content)
    return density_statement(
        x, y, unit_um=1e6 if unit == 1 else None, source="PNG pHYs entry"
    )


def _tone_notes(chunks: Chunks) -> tuple[str, ...]:
    if "sRGB" in chunks:
        return ()
    if "iCCP" in chunks:
        _name, _, rest = chunks["iCCP"][0].partition(b"\0")
        note = profile_note(_inflated(rest[1:]) or b"\0")
        return () if note is None else (note,)
    gamma = int.from_bytes(chunks.get("gAMA", [b""])[0][:4], "big")
    if gamma and abs(gamma - _SRGB_GAMMA) > 500:
        note = f"The file states a gamma of {gamma / 1e5:.4g}, which was not applied"
        return (f"{note}; pixel values are as stored.",)
    return ()


def _words(chunks: Chunks) -> dict[str, str]:
    found: dict[str, str] = {}
    for content in chunks.get("tEXt", ()):
        key, _, text = content.partition(b"\0")
        found[key.decode("latin-1")] = text.decode("latin-1")
    for content in chunks.get("zTXt", ()):
        key, _, text = content.partition(b"\0")
        found[key.decode("latin-1")] = _inflated(text[1:]).decode("latin-1")
    for content in chunks.get("iTXt", ()):
        key, _, rest = content.partition(b"\0")
        text = rest[2:].split(b"\0", 2)[-1]
        plain = _inflated(text) if rest[:1] == b"\1" else text
        found[key.decode("latin-1")] = plain.decode("utf-8", errors="replace")
    shown = {printable_words(k): printable_words(v) for k, v in found.items()}
    return {key: text for key, text in shown.items() if key and text}


def _inflated(data: bytes) -> bytes:
    # Bounded, since a few bytes could unpack to gigabytes; words are not worth it.
    try:
        return zlib.decompressobj().decompress(data, _MOST_TEXT_BYTES)
    except zlib.error:
        return b""
