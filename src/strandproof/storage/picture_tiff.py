"""Header of a TIFF or BigTIFF file: pages, sample layout, where the data stand.

Tag numbers as in TIFF 6.0 and its supplements (from memory).
"""

from dataclasses import dataclass
from itertools import pairwise
from math import ceil
from types import MappingProxyType

from strandproof.errors import UnreadablePictureError, UnsupportedPictureError
from strandproof.storage.picture_exif import directory_facts, profile_note
from strandproof.storage.picture_files import PictureFile
from strandproof.storage.picture_header import Opacity, PictureHeader, chosen_page
from strandproof.storage.picture_metadata import ome_statements
from strandproof.storage.picture_tags import Directory, tag_block

_WIDTH, _HEIGHT = 256, 257
_BITS, _COMPRESSION, _PHOTOMETRIC, _CHANNELS = 258, 259, 262, 277
_DESCRIPTION, _PLANAR, _SAMPLE_FORMAT, _EXTRA = 270, 284, 339, 338
_SUBFILE, _OLD_SUBFILE, _PROFILE, _RAW_VERSION = 254, 255, 34675, 50706
_STRIPS, _TILES = (273, 279), (324, 325)
_ROWS_PER_STRIP, _TILE_WIDTH, _TILE_HEIGHT = 278, 322, 323

_UNCOMPRESSED = 1
_JPEG = 7
_DEFLATE = {8, 32946}
_READ_COMPRESSION = {_UNCOMPRESSED, 2, 3, 4, 5, _JPEG, 32773} | _DEFLATE
_OTHER_COMPRESSION = {
    6: "old-style JPEG",
    33003: "JPEG 2000",
    33005: "JPEG 2000",
    34712: "JPEG 2000",
    34887: "LERC",
    34925: "LZMA",
    50000: "Zstandard",
    50001: "WebP",
    50002: "JPEG XL",
    52546: "JPEG XL",
}
# Photometric interpretation: number of colour channels as stored.
_COLOURS = {0: 1, 1: 1, 2: 3, 3: 1, 5: 4, 6: 3}
_PALETTE, _CMYK, _YCBCR = 3, 5, 6
_READ_LAYOUTS = {(1, 1), (1, 2), (1, 4), (1, 8), (1, 16), (3, 32)}
_REMEDY = "Save the picture as 8- or 16-bit grey or RGB TIFF, LZW or uncompressed."


@dataclass(frozen=True, slots=True, kw_only=True)
class _Layout:
    photometric: int
    compression: int
    n_channels: int
    bit_depth: int
    is_float: bool
    opacity: Opacity
    notes: tuple[str, ...]


def tiff_header(file: PictureFile, *, page: int | None) -> PictureHeader:
    """Read the header of one page of a TIFF file.

    Reduced copies (pyramids, thumbnails), masks and sub-directories do not
    count as pages.

    Parameters
    ----------
    file : PictureFile
        A file that begins with the TIFF mark.
    page : int or None
        Page asked for, from 1; None is enough where there is only one.

    Returns
    -------
    PictureHeader
        Size, depth, colours, opacity, turning, resolution and words.
    """
    directories = tag_block(file.path, file.data).directories()
    full = _full_pages(file, directories)
    chosen = chosen_page(file.path, n_pages=len(full), given=page)
    directory = directories[full[chosen - 1]]
    layout = _layout(file, directory)
    facts = directory_facts(directory, where="TIFF resolution entry")
    description = directories[0].text(_DESCRIPTION)
    ome, ome_notes = ome_statements(description)
    blocks = _data_blocks(file, directory)
    note = profile_note(directory.raw(_PROFILE))
    words = {k: v for k, v in facts.words.items() if "<OME" not in v}
    return PictureHeader(
        file_format="TIFF",
        n_rows=directory.integer(_HEIGHT, 0),
        n_columns=directory.integer(_WIDTH, 0),
        n_channels=layout.n_channels,
        bit_depth=layout.bit_depth,
        is_float=layout.is_float,
        is_cmyk=layout.photometric == _CMYK,
        is_lossy=layout.compression == _JPEG,
        opacity=layout.opacity,
        orientation=facts.orientation,
        n_pages=len(full),
        page=chosen,
        directory=full[chosen - 1],
        statements=(*ome, *((facts.statement,) if facts.statement else ())),
        words=MappingProxyType(words),
        notes=(*facts.notes, *ome_notes, *layout.notes, *((note,) if note else ())),
        deflate_blocks=blocks if layout.compression in _DEFLATE else (),
    )


def _full_pages(file: PictureFile, directories: tuple[Directory, ...]) -> list[int]:
    full = [k for k, d in enumerate(directories) if not _is_secondary(d)]
    if not full or _RAW_VERSION in directories[0].tags:
        raise UnsupportedPictureError(
            file.path,
            "a camera's raw picture with a preview in front",
            remedy="Develop it without sharpening and noise reduction, and save it "
            "as 16-bit TIFF.",
        )
    sizes = [(d.integer(_HEIGHT, 0), d.integer(_WIDTH, 0)) for d in directories]
    return full[:1] if _is_pyramid([sizes[k] for k in full]) else full


def _is_secondary(directory: Directory) -> bool:
    """Reduced copy (bit 0) or mask (bit 2); in old files kind 2 is the copy."""
    kind = directory.integer(_SUBFILE, 0)
    return bool(kind & 5) or directory.integer(_OLD_SUBFILE, 1) == 2


def _is_pyramid(sizes: list[tuple[int, int]]) -> bool:
    """At least three pages, each half the one before: an unmarked pyramid."""
    steps = pairwise(sizes)
    return len(sizes) >= 3 and all(
        abs(large - 2 * small) <= 2
        for before, after in steps
        for large, small in zip(before, after, strict=True)
    )


def _layout(file: PictureFile, directory: Directory) -> _Layout:
    photometric = directory.integer(_PHOTOMETRIC, -1)
    compression = directory.integer(_COMPRESSION, 1)
    stored = directory.integer(_CHANNELS, 1)
    _refuse_coding(file, photometric, compression)
    sample_format, bits = _sample_kind(file, directory, photometric)
    opacity, notes = _opacity(file, directory, photometric, stored)
    colours = 3 if photometric == _PALETTE else _COLOURS[photometric]
    return _Layout(
        photometric=photometric,
        compression=compression,
        n_channels=colours + (opacity != "none"),
        bit_depth=bits,
        is_float=sample_format == 3,
        opacity=opacity,
        notes=notes,
    )


def _refuse_coding(file: PictureFile, photometric: int, compression: int) -> None:
    if compression not in _READ_COMPRESSION:
        name = _OTHER_COMPRESSION.get(compression, f"number {compression}")
        found = f"a TIFF with {name} compression"
    elif photometric not in _COLOURS:
        found = f"a TIFF with colours of a rare kind (photometric {photometric})"
    elif photometric == _YCBCR and compression != _JPEG:
        found = "a TIFF with YCbCr colours outside of JPEG compression"
    else:
        return
    raise UnsupportedPictureError(
        file.path,
        found,
        allowed="grey, palette, RGB and CMYK TIFF, uncompressed or with LZW, "
        "deflate, PackBits, CCITT or JPEG compression",
        remedy=_REMEDY,
    )


def _sample_kind(
    file: PictureFile, directory: Directory, photometric: int
) -> tuple[int, int]:
    formats = set(directory.numbers(_SAMPLE_FORMAT)) or {1}
    bits = set(directory.numbers(_BITS)) or {1}
    # Format 4 means "not said", which writers use for plain counts.
    kinds = {1 if f == 4 else int(f) for f in formats}
    pair = (min(kinds), int(min(bits)))
    single = len(kinds) == len(bits) == 1
    too_deep = photometric == _PALETTE and pair[1] > 8
    if not single or pair not in _READ_LAYOUTS or too_deep:
        name = {1: "unsigned", 2: "signed", 3: "floating point"}.get(pair[0], "other")
        depths = "/".join(str(int(b)) for b in sorted(bits))
        raise UnsupportedPictureError(
            file.path,
            f"a TIFF with {depths}-bit {name} samples",
            allowed="1, 2, 4, 8 and 16 bit without sign, and 32-bit floating point",
            remedy=_REMEDY,
        )
    return pair


def _opacity(
    file: PictureFile, directory: Directory, photometric: int, stored: int
) -> tuple[Opacity, tuple[str, ...]]:
    extra = stored - _COLOURS[photometric]
    meaning = directory.integer(_EXTRA, 0)
    if extra == 0:
        return "none", ()
    if extra == 1 and photometric in {0, 1, 2} and meaning == 2:
        return "plain", ()
    if extra == 1 and photometric in {0, 1, 2} and meaning == 1:
        note = "Colours were stored multiplied by opacity and were divided again."
        return "premultiplied", (note,)
    if extra == 1 and photometric == 2:
        return "ignored", ("A fourth channel of no stated meaning was left out.",)
    raise UnsupportedPictureError(
        file.path,
        f"a TIFF with {stored} channels in one page",
        allowed="one grey channel or three colour channels, with or without opacity",
        remedy="Save the channel to be measured as a picture of its own.",
    )


def _data_blocks(
    file: PictureFile, directory: Directory
) -> tuple[tuple[int, int], ...]:
    # Offsets and sizes of the strips or tiles, all of them within the file.
    is_tiled = _TILES[0] in directory.tags
    where, size = _TILES if is_tiled else _STRIPS
    offsets, counts = directory.numbers(where), directory.numbers(size)
    blocks = tuple((int(o), int(c)) for o, c in zip(offsets, counts, strict=False))
    expected = _expected_blocks(directory, is_tiled=is_tiled)
    if len(blocks) < expected:
        raise UnreadablePictureError(
            file.path,
            f"only {len(blocks)} of its {expected} blocks of picture data are listed "
            "(damaged)",
        )
    for k, (offset, count) in enumerate(blocks, start=1):
        if count == 0 or offset + count > len(file.data):
            raise UnreadablePictureError(
                file.path,
                f"block {k} of {len(blocks)} of its picture data should reach from "
                f"byte {offset} to {offset + count}, but the file has "
                f"{len(file.data)} bytes (cut short or damaged)",
            )
    if not is_tiled and directory.integer(_COMPRESSION, 1) == _UNCOMPRESSED:
        _refuse_short_strips(file, directory, sum(count for _offset, count in blocks))
    return blocks


def _refuse_short_strips(file: PictureFile, directory: Directory, listed: int) -> None:
    # The decoder would read on into whatever stands behind the strip.
    bits = directory.integer(_CHANNELS, 1) * directory.integer(_BITS, 1)
    needed = directory.integer(_HEIGHT, 0) * (directory.integer(_WIDTH, 0) * bits // 8)
    if listed < needed:
        raise UnreadablePictureError(
            file.path,
            f"only {listed} of the {needed} bytes of its picture data are listed "
            "(damaged)",
        )


def _expected_blocks(directory: Directory, *, is_tiled: bool) -> int:
    n_rows, n_columns = directory.integer(_HEIGHT, 0), directory.integer(_WIDTH, 0)
    is_planar = directory.integer(_PLANAR, 1) == 2
    planes = directory.integer(_CHANNELS, 1) if is_planar else 1
    if not is_tiled:
        rows_per_strip = max(directory.integer(_ROWS_PER_STRIP, n_rows), 1)
        return planes * max(ceil(n_rows / rows_per_strip), 1)
    across = ceil(n_columns / max(directory.integer(_TILE_WIDTH, 1), 1))
    down = ceil(n_rows / max(directory.integer(_TILE_HEIGHT, 1), 1))
    return planes * max(across * down, 1)
