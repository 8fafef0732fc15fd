"""What a picture file says about its scale, what of it is offered, and what is not."""

import os
from dataclasses import dataclass

from strandproof.errors import UnreadablePictureError
from strandproof.records import Flag
from strandproof.storage.picture_files import (
    PictureFile,
    picture_format,
    read_picture_file,
)
from strandproof.storage.picture_metadata import PixelSizeFromFile
from strandproof.storage.picture_png import png_chunks
from strandproof.storage.picture_tags import Directory, tag_block
from strandproof.storage.pictures import read_picture

# EXIF tags (from memory): the directory of camera data, and in it the resolution of
# the sensor. Unit 1 stands for none in EXIF; inch is its default.
_JPEG_MARK = b"Exif\0\0"
_CAMERA_DATA = 34665
_SENSOR_X, _SENSOR_UNIT = 41486, 41488
_UNITS_UM = {2: 25_400.0, 3: 10_000.0, 4: 1000.0, 5: 1.0}


@dataclass(frozen=True, slots=True, kw_only=True)
class PictureScale:
    """The scale that a picture file states.

    Parameters
    ----------
    offered : PixelSizeFromFile or None
        What can pass for a microscope's scale.
    not_offered : tuple of str
        What else was there and why it is no scale, one sentence each.
    flags : tuple of Flag
        ``scale_from_file_only`` with an offer, else what was ignored.
    sha256 : str
        SHA-256 of the file.
    page : int
        Page read, from 1.
    width_px, height_px : int
        Size of the picture, upright [px].
    """

    offered: PixelSizeFromFile | None
    not_offered: tuple[str, ...]
    flags: tuple[Flag, ...]
    sha256: str
    page: int
    width_px: int
    height_px: int


def read_picture_scale(
    path: str | os.PathLike[str], *, page: int | None = None
) -> PictureScale:
    """Read the scale that a picture file states, by the rules of `read_picture`.

    Offered are OME-XML physical sizes, and TIFF, EXIF, PNG and JPEG resolutions that
    no printer, screen or scanner uses. The focal-plane resolution of EXIF is the
    sensor's, before the optics: it is told, and never offered.

    Parameters
    ----------
    path : str or path-like
        The file.
    page : int or None
        Page of a TIFF, from 1; needed when there are several.

    Returns
    -------
    PictureScale
        The offer, and what is not offered.

    Raises
    ------
    NonSquarePixelsError
        If the file states different sizes across and down.
    PictureError
        If the file cannot be read, see `read_picture`.
    """
    picture = read_picture(path, page=page)
    reasons = [
        f"A resolution is not offered: {flag.detail}; that is a print, screen or "
        "scanner setting."
        for flag in picture.flags
        if flag.name == "resolution_tag_ignored"
    ]
    file = read_picture_file(path)
    reasons += [
        f"The focal-plane resolution is not offered: {pitch:.4g} um is the size of a "
        "pixel on the camera's sensor; on the specimen it is smaller by the true "
        "magnification, which the file does not prove."
        for pitch in _sensor_pitches_um(file)
    ]
    size = picture.pixel_size
    told = () if size is None else (Flag("scale_from_file_only", size.source),)
    ignored = tuple(
        flag for flag in picture.flags if flag.name == "resolution_tag_ignored"
    )
    return PictureScale(
        offered=size,
        not_offered=tuple(reasons),
        flags=told + ignored,
        sha256=picture.sha256,
        page=picture.page,
        width_px=picture.pixels.shape[1],
        height_px=picture.pixels.shape[0],
    )


def _sensor_pitches_um(file: PictureFile) -> tuple[float, ...]:
    """Size of a sensor pixel that EXIF states; a damaged block states none."""
    try:
        main = _exif_directory(file)
        offset = 0 if main is None else main.integer(_CAMERA_DATA, 0)
        if main is None or not offset:
            return ()
        camera = main.block.directory(offset)
        densities = camera.numbers(_SENSOR_X)
        unit_um = _UNITS_UM.get(camera.integer(_SENSOR_UNIT, 2))
    except UnreadablePictureError:
        return ()
    if unit_um is None or not densities or densities[0] <= 0:
        return ()
    return (unit_um / densities[0],)


def _exif_directory(file: PictureFile) -> Directory | None:
    match picture_format(file):
        case "TIFF":
            data = file.data
        case "PNG":
            parts = png_chunks(file.path, file.data)
            data = next((part for name, part, _ in parts if name == "eXIf"), b"")
        case _:
            # The first mark belongs to the file's own block, not to a thumbnail's.
            _before, _mark, data = file.data.partition(_JPEG_MARK)
    if not data:
        return None
    block = tag_block(file.path, data)
    return block.directory(block.first_offset)
