"""Pages, scales and odd kinds of TIFF files, made by two other writers."""

import io
import struct
from pathlib import Path
from typing import Any

import numpy as np
import numpy.typing as npt
import pytest
import pyvips
import tifffile

from strandproof.errors import (
    NonSquarePixelsError,
    PageChoiceError,
    ScaleConflictError,
    UnreadablePictureError,
    UnsupportedPictureError,
)
from strandproof.quantity import Quantity
from strandproof.storage.pictures import DecodedPicture, read_picture

Array = npt.NDArray[Any]


def grey(n_rows: int = 40, n_cols: int = 60) -> Array:
    rows, cols = np.mgrid[:n_rows, :n_cols]
    steps: Array = ((7 * rows + 5 * cols) % 256).astype(np.uint8)
    return steps


def tiff(samples: Array, **options: Any) -> bytes:  # noqa: ANN401  (passed on)
    buffer = io.BytesIO()
    tifffile.imwrite(buffer, samples, **{"metadata": None, **options})
    return buffer.getvalue()


def pages_of(*pictures: Array, **options: Any) -> bytes:  # noqa: ANN401  (passed on)
    buffer = io.BytesIO()
    with tifffile.TiffWriter(buffer) as writer:
        for picture in pictures:
            writer.write(picture, metadata=None, contiguous=False, **options)
    return buffer.getvalue()


def read_bytes(folder: Path, data: bytes, **options: Any) -> DecodedPicture:  # noqa: ANN401  (passed on)
    path = folder / "picture.bin"
    path.write_bytes(data)
    return read_picture(path, **options)


def eight_bits(picture: DecodedPicture) -> Array:
    stored: Array = np.rint(picture.pixels * 255).astype(np.uint8)
    return stored


def test_several_pages_ask_which(tmp_path: Path) -> None:
    data = pages_of(grey(), grey() // 2, grey(30, 50))
    with pytest.raises(PageChoiceError, match=r"holds 3 pages .* --page 1\.\.3"):
        read_bytes(tmp_path, data)
    for page, expected in enumerate((grey(), grey() // 2, grey(30, 50)), start=1):
        picture = read_bytes(tmp_path, data, page=page)
        np.testing.assert_array_equal(eight_bits(picture), expected)
        assert (picture.n_pages, picture.page) == (3, page)
    with pytest.raises(PageChoiceError, match="page 4 was asked for"):
        read_bytes(tmp_path, data, page=4)


@pytest.mark.parametrize("subifd", [False, True])
def test_pyramid_counts_as_one_page(tmp_path: Path, *, subifd: bool) -> None:
    image = pyvips.Image.new_from_array(grey(300, 500))
    data = image.tiffsave_buffer(
        tile=True, tile_width=64, tile_height=64, pyramid=True, subifd=subifd
    )
    picture = read_bytes(tmp_path, data)
    np.testing.assert_array_equal(eight_bits(picture), grey(300, 500))
    assert picture.n_pages == 1


def test_unmarked_pyramid_counts_as_one_page(tmp_path: Path) -> None:
    levels = [grey(200, 301), grey(100, 150), grey(50, 75)]
    picture = read_bytes(tmp_path, pages_of(*levels))
    np.testing.assert_array_equal(eight_bits(picture), levels[0])
    # Two pages could as well be two pictures; then the tool asks.
    with pytest.raises(PageChoiceError, match="holds 2 pages"):
        read_bytes(tmp_path, pages_of(*levels[:2]))


def test_thumbnail_and_mask_are_no_pages(tmp_path: Path) -> None:
    buffer = io.BytesIO()
    with tifffile.TiffWriter(buffer) as writer:
        writer.write(grey(20, 30), metadata=None, subfiletype=1)
        writer.write(grey(), metadata=None)
        writer.write(grey() > 127, metadata=None, subfiletype=4)
    picture = read_bytes(tmp_path, buffer.getvalue())
    np.testing.assert_array_equal(eight_bits(picture), grey())
    assert picture.n_pages == 1


def test_raw_picture_of_a_camera_is_refused(tmp_path: Path) -> None:
    preview = tiff(grey(), subfiletype=1)
    marked = tiff(grey(), extratags=[(50706, "B", 4, b"\1\4\0\0", True)])
    for data in (preview, marked):
        with pytest.raises(UnsupportedPictureError, match=r"raw picture.*16-bit TIFF"):
            read_bytes(tmp_path, data)


@pytest.mark.parametrize(
    ("size", "unit"), [(0.1726, "\N{MICRO SIGN}m"), (172.6, "nm"), (0.1726, None)]
)
def test_ome_tiff_gives_the_pixel_size(
    tmp_path: Path, size: float, unit: str | None
) -> None:
    path = tmp_path / "field.ome.tif"
    metadata: dict[str, Any] = {"PhysicalSizeX": size, "PhysicalSizeY": size}
    if unit is not None:
        metadata |= {"PhysicalSizeXUnit": unit, "PhysicalSizeYUnit": unit}
    tifffile.imwrite(path, grey(), ome=True, metadata=metadata)
    picture = read_picture(path)
    assert picture.pixel_size is not None
    assert picture.pixel_size.value_um == pytest.approx(0.1726, rel=1e-9, abs=0)
    assert picture.pixel_size.source == "OME-XML PhysicalSizeX"
    assert "ImageDescription" not in picture.words


def test_ome_tiff_with_oblong_pixels_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "field.ome.tif"
    metadata = {"PhysicalSizeX": 0.5, "PhysicalSizeY": 0.6}
    tifffile.imwrite(path, grey(), ome=True, metadata=metadata)
    with pytest.raises(NonSquarePixelsError, match=r"0\.5 across and 0\.6 down \(um\)"):
        read_picture(path)


def test_25400_per_inch_is_one_micrometre(tmp_path: Path) -> None:
    data = tiff(grey(), resolution=(25_400, 25_400), resolutionunit="INCH")
    picture = read_bytes(tmp_path, data)
    assert picture.pixel_size is not None
    assert picture.pixel_size.value_um == 1.0
    assert picture.pixel_size.source == "TIFF resolution entry"
    assert picture.flags == ()


def test_20000_per_centimetre_is_half_a_micrometre(tmp_path: Path) -> None:
    data = tiff(grey(), resolution=(20_000, 20_000), resolutionunit="CENTIMETER")
    picture = read_bytes(tmp_path, data)
    assert picture.pixel_size is not None
    assert picture.pixel_size.value_um == 0.5


@pytest.mark.parametrize("density", [72, 300])
def test_print_setting_is_ignored_with_a_flag(tmp_path: Path, density: int) -> None:
    data = tiff(grey(), resolution=(density, density), resolutionunit="INCH")
    picture = read_bytes(tmp_path, data)
    assert picture.pixel_size is None
    assert [flag.name for flag in picture.flags] == ["resolution_tag_ignored"]
    assert f"{density} pixels per inch" in picture.flags[0].detail


@pytest.mark.parametrize("unit", ["INCH", "NONE"])
def test_oblong_resolution_is_refused(tmp_path: Path, unit: str) -> None:
    data = tiff(grey(), resolution=(25_400, 25_500), resolutionunit=unit)
    with pytest.raises(NonSquarePixelsError, match="not square: TIFF resolution"):
        read_bytes(tmp_path, data)


def test_contradicting_size_is_refused_and_an_agreeing_one_passes(
    tmp_path: Path,
) -> None:
    data = tiff(grey(), resolution=(25_400, 25_400), resolutionunit="INCH")
    with pytest.raises(ScaleConflictError, match=r"0\.5 um was given.*says 1 um"):
        read_bytes(tmp_path, data, um_per_px=0.5)
    agreeing = Quantity(1.03, "um", 0.02)
    assert read_bytes(tmp_path, data, um_per_px=agreeing).pixel_size is not None
    # A print setting is no scale, so it cannot contradict one.
    plain = tiff(grey(), resolution=(72, 72), resolutionunit="INCH")
    assert read_bytes(tmp_path, plain, um_per_px=0.5).pixel_size is None


def test_words_are_kept(tmp_path: Path) -> None:
    data = tiff(grey(), software="Own 1.0", description="synthetic picture, seed 3")
    picture = read_bytes(tmp_path, data)
    assert picture.words["Software"] == "Own 1.0"
    assert [flag.name for flag in picture.flags] == ["synthetic"]


@pytest.mark.parametrize("kind", [np.int16, np.uint32, np.float16, np.float64])
def test_other_samples_are_refused(tmp_path: Path, kind: type) -> None:
    with pytest.raises(
        UnsupportedPictureError, match=r"-bit .* samples; read are 1, 2"
    ):
        read_bytes(tmp_path, tiff(grey().astype(kind)))


def test_several_grey_channels_are_refused(tmp_path: Path) -> None:
    for channels in (2, 5):
        stored = np.repeat(grey()[..., np.newaxis], channels, axis=2)
        data = tiff(stored, photometric="minisblack", planarconfig="contig")
        with pytest.raises(UnsupportedPictureError, match=f"{channels} channels in"):
            read_bytes(tmp_path, data)


@pytest.mark.parametrize("photometric", ["cielab", "logluv", "cfa"])
def test_rare_colours_are_refused(tmp_path: Path, photometric: str) -> None:
    channels = 1 if photometric == "cfa" else 3
    stored = np.squeeze(np.repeat(grey()[..., np.newaxis], channels, axis=2))
    extra = [(33421, "H", 2, (2, 2), True)] if photometric == "cfa" else []
    data = tiff(stored, photometric=photometric, extratags=extra)
    with pytest.raises(UnsupportedPictureError, match="colours of a rare kind"):
        read_bytes(tmp_path, data)


def test_ycbcr_outside_of_jpeg_is_refused(tmp_path: Path) -> None:
    stored = np.repeat(grey()[..., np.newaxis], 3, axis=2)
    with pytest.raises(UnsupportedPictureError, match="YCbCr colours outside"):
        read_bytes(tmp_path, tiff(stored, photometric="ycbcr"))


def changed_tag(data: bytes, name: str, value: int) -> bytes:
    page = tifffile.TiffFile(io.BytesIO(data)).pages[0]
    assert isinstance(page, tifffile.TiffPage)
    place = page.tags[name].valueoffset
    return data[:place] + struct.pack("<H", value) + data[place + 2 :]


@pytest.mark.parametrize(
    ("number", "name"),
    [
        (50000, "Zstandard"),
        (50001, "WebP"),
        (34712, "JPEG 2000"),
        (4711, "number 4711"),
    ],
)
def test_other_compression_is_refused(tmp_path: Path, number: int, name: str) -> None:
    data = changed_tag(tiff(grey()), "Compression", number)
    with pytest.raises(UnsupportedPictureError, match=f"{name} compression.*LZW"):
        read_bytes(tmp_path, data)


def test_strip_beyond_the_end_is_named(tmp_path: Path) -> None:
    data = tiff(grey(), rowsperstrip=10)
    with pytest.raises(UnreadablePictureError, match=r"block 4 of 4 .*cut short"):
        read_bytes(tmp_path, data[:-1])


def test_missing_strips_are_named(tmp_path: Path) -> None:
    data = changed_tag(tiff(grey(), rowsperstrip=40), "RowsPerStrip", 10)
    with pytest.raises(UnreadablePictureError, match="only 1 of its 4 blocks"):
        read_bytes(tmp_path, data)


def test_missing_tiles_are_named(tmp_path: Path) -> None:
    data = changed_tag(tiff(grey(), tile=(64, 64)), "TileWidth", 16)
    with pytest.raises(UnreadablePictureError, match="only 1 of its 4 blocks"):
        read_bytes(tmp_path, data)


@pytest.mark.parametrize("length", [0, 100, 2399])
def test_strip_that_is_too_short_is_found(tmp_path: Path, length: int) -> None:
    data = changed_tag(tiff(grey()), "StripByteCounts", length)
    with pytest.raises(UnreadablePictureError, match=r"block 1 of 1|only \d+ of"):
        read_bytes(tmp_path, data)
