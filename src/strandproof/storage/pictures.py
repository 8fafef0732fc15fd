"""Reading a picture for measuring: exact pixels, and all that the file says."""

import os
from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from strandproof.errors import UnsupportedPictureError
from strandproof.quantity import Quantity
from strandproof.records import Flag
from strandproof.storage.picture_decoding import (
    refuse_size,
    turned_upright,
    unit_range,
    unpacked_samples,
)
from strandproof.storage.picture_files import (
    PictureFile,
    picture_format,
    read_picture_file,
)
from strandproof.storage.picture_header import FileFormat, PictureHeader, chosen_page
from strandproof.storage.picture_jpeg import jpeg_header
from strandproof.storage.picture_metadata import (
    PixelSizeFromFile,
    given_pixel_size,
    pixel_size_from_file,
    refuse_contradiction,
    synthetic_mark,
)
from strandproof.storage.picture_png import png_header
from strandproof.storage.picture_tiff import tiff_header

HALF_OPACITY = 0.5


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class DecodedPicture:
    """The pixels of one picture and what its file says about them.

    Parameters
    ----------
    pixels : ndarray of float32, shape (n_rows, n_cols) or (n_rows, n_cols, 3)
        Grey or RGB values as stored, in [0, 1], upright. A stored integer v of
        full range m is exactly the float32 nearest to v / m. Colour under
        opacity is neither blended nor blackened.
    valid : ndarray of bool, shape (n_rows, n_cols), or None
        False where the pixel is less than half opaque and shows nothing; None
        where the file has no opacity.
    file_format : {"PNG", "JPEG", "TIFF"}
        Format, by content.
    bit_depth : int
        Bits of one stored sample (1 to 16, or 32 for floating point).
    n_pages : int
        Pages in the file; reduced copies do not count.
    page : int
        The page read, from 1.
    sha256 : str
        SHA-256 of the file that was decoded, 64 hexadecimal digits.
    n_bytes : int
        Size of the file [bytes].
    orientation_applied : bool
        True when a TIFF or EXIF orientation turned or mirrored the pixels.
    is_lossy : bool
        True for JPEG, also inside a TIFF.
    pixel_size : PixelSizeFromFile or None
        Pixel size that the file states, if it can be a microscope's.
    flags : tuple of Flag
        ``lossy_compression``, ``resolution_tag_ignored``, ``synthetic``.
    notes : tuple of str
        What was left out or changed on the way, one sentence each.
    words : mapping of str to str
        Software, description, date and other words found in the file.
    """

    pixels: npt.NDArray[np.float32]
    valid: npt.NDArray[np.bool_] | None
    file_format: FileFormat
    bit_depth: int
    n_pages: int
    page: int
    sha256: str
    n_bytes: int
    orientation_applied: bool
    is_lossy: bool
    pixel_size: PixelSizeFromFile | None
    flags: tuple[Flag, ...]
    notes: tuple[str, ...]
    words: Mapping[str, str]


def read_picture(
    path: str | os.PathLike[str],
    *,
    page: int | None = None,
    um_per_px: Quantity | float | None = None,
    allow_large: bool = False,
) -> DecodedPicture:
    """Read a PNG, JPEG or TIFF picture for measuring.

    The format goes by the content. The file is read once, and the bytes hashed
    are the bytes decoded. The header is checked before anything is unpacked.
    Uncompressed and LZW-packed TIFF and JPEG carry no checksum, so that a
    changed byte within their picture data cannot always be found.

    Parameters
    ----------
    path : str or path-like
        The file.
    page : int or None
        Page of a TIFF, from 1; needed when there are several.
    um_per_px : Quantity or float or None
        Pixel size as the caller knows it [um]; only compared with the file's.
    allow_large : bool
        Unpack although the size guard would refuse.

    Returns
    -------
    DecodedPicture
        Pixels in [0, 1] and what the file says.

    Raises
    ------
    UnreadablePictureError
        If the file is missing, empty, cut short or damaged.
    UnsupportedPictureError
        If it is another format, or a kind of TIFF or JPEG that is not read, or
        nothing in it is opaque.
    PageChoiceError
        If there are several pages and none was chosen, or it is not there.
    ExpansionError
        If it would unpack to more than the size guard lets through.
    PictureTooSmallError
        If it has fewer than 16 pixels in a direction.
    NonSquarePixelsError
        If the file says that its pixels are not square within 0.1 %.
    ScaleConflictError
        If `um_per_px` contradicts the file.
    UnitError, ParameterError
        If `um_per_px` is not in micrometres or not above 0.

    Examples
    --------
    >>> import tempfile
    >>> import numpy as np
    >>> from strandproof.storage.picture_writing import encode_png
    >>> grey = np.full((20, 30), 51, dtype=np.uint8)
    >>> with tempfile.NamedTemporaryFile(suffix=".png") as file:
    ...     _ = file.write(encode_png(grey, pixel_size_um=0.5))
    ...     file.flush()
    ...     picture = read_picture(file.name)
    >>> picture.pixels.shape, round(float(picture.pixels[0, 0]), 3)
    ((20, 30), 0.2)
    >>> picture.pixel_size
    PixelSizeFromFile(value_um=0.5, source='PNG pHYs entry')
    """
    given = None if um_per_px is None else given_pixel_size(um_per_px)
    file = read_picture_file(path, allow_large=allow_large)
    header = _header(file, page)
    size, size_flags = pixel_size_from_file(file.path, header.statements)
    if given is not None and size is not None:
        refuse_contradiction(file.path, given, size)
    refuse_size(file, header, allow_large=allow_large)
    pixels, valid = _pixels(file, header)
    return DecodedPicture(
        pixels=pixels,
        valid=valid,
        file_format=header.file_format,
        bit_depth=header.bit_depth,
        n_pages=header.n_pages,
        page=header.page,
        sha256=file.sha256,
        n_bytes=len(file.data),
        orientation_applied=header.orientation != 1,
        is_lossy=header.is_lossy,
        pixel_size=size,
        flags=(*_flags(header), *size_flags),
        notes=_notes(header),
        words=header.words,
    )


def _header(file: PictureFile, page: int | None) -> PictureHeader:
    match picture_format(file):
        case "TIFF":
            return tiff_header(file, page=page)
        case "PNG":
            header = png_header(file)
        case _:
            header = jpeg_header(file)
    chosen_page(file.path, n_pages=1, given=page)
    return header


def _pixels(
    file: PictureFile, header: PictureHeader
) -> tuple[npt.NDArray[np.float32], npt.NDArray[np.bool_] | None]:
    stored = unpacked_samples(file, header)
    samples = unit_range(file, turned_upright(stored, header.orientation))
    if header.opacity == "none":
        return _grey_or_colour(samples), None
    colours, opacity = samples[..., :-1], samples[..., -1]
    if header.opacity == "ignored":
        return _grey_or_colour(colours), None
    valid = opacity >= HALF_OPACITY
    if not valid.any():
        raise UnsupportedPictureError(
            file.path,
            "nothing that can be seen: every pixel is less than half opaque",
            allowed="pictures with opaque pixels",
            remedy="Save the picture again without opacity.",
        )
    return _grey_or_colour(colours), valid


def _grey_or_colour(samples: npt.NDArray[np.float32]) -> npt.NDArray[np.float32]:
    return np.ascontiguousarray(samples[..., 0] if samples.shape[2] == 1 else samples)


def _flags(header: PictureHeader) -> tuple[Flag, ...]:
    mark = synthetic_mark(header.words)
    how = "JPEG" if header.file_format == "JPEG" else "JPEG inside TIFF"
    lossy = (Flag("lossy_compression", how),) if header.is_lossy else ()
    return lossy if mark is None else (*lossy, Flag("synthetic", mark))


def _notes(header: PictureHeader) -> tuple[str, ...]:
    notes = list(header.notes)
    if header.orientation != 1:
        notes.append(
            "The pixels were turned or mirrored as the orientation entry of the file "
            f"({header.orientation}) says."
        )
    if header.is_cmyk:
        notes.append(
            "Printing colours (CMYK) were turned into sRGB through the embedded or a "
            "general profile, so that values are not exactly those stored."
        )
    return tuple(notes)
