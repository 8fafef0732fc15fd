"""Every kind of file that is read comes out with exactly the stored values."""

import hashlib
import io
import struct
import zlib
from pathlib import Path
from typing import Any

import numpy as np
import numpy.typing as npt
import pytest
import pyvips
import tifffile

from strandproof.errors import (
    PageChoiceError,
    ParameterError,
    UnitError,
    UnsupportedPictureError,
)
from strandproof.quantity import Quantity
from strandproof.storage.pictures import DecodedPicture, read_picture

Array = npt.NDArray[Any]


def grey_steps(n_rows: int = 40, n_cols: int = 60) -> Array:
    """Every value of 8 bits, with no row or column like another."""
    rows, cols = np.mgrid[:n_rows, :n_cols]
    steps: Array = ((7 * rows + 5 * cols) % 256).astype(np.uint8)
    return steps


def colour_steps() -> Array:
    grey = grey_steps()
    return np.dstack([grey, np.roll(grey, 3, axis=0), 255 - grey])


def smooth_colour() -> Array:
    rows, cols = np.mgrid[:64, :96]
    return np.dstack([2 * rows, 2 * cols, rows + cols]).astype(np.uint8)


def tiff_bytes(samples: Array, **options: Any) -> bytes:  # noqa: ANN401  (passed on)
    buffer = io.BytesIO()
    tifffile.imwrite(buffer, samples, metadata=None, **options)
    return buffer.getvalue()


def png_bytes(samples: Array, *, colour: int, depth: int, extra: bytes = b"") -> bytes:
    """A PNG made by hand, so that the test does not lean on the decoder's twin."""
    stored = samples.astype(">u2" if depth == 16 else np.uint8)
    lines = b"".join(b"\0" + line.tobytes() for line in stored)
    header = struct.pack(">IIBBBBB", *samples.shape[1::-1], depth, colour, 0, 0, 0)
    parts = [("IHDR", header), ("IDAT", zlib.compress(lines)), ("IEND", b"")]
    chunks = [png_chunk(name, content) for name, content in parts]
    return b"\x89PNG\r\n\x1a\n" + chunks[0] + extra + chunks[1] + chunks[2]


def png_chunk(name: str, content: bytes) -> bytes:
    body = name.encode("ascii") + content
    return struct.pack(">I", len(content)) + body + struct.pack(">I", zlib.crc32(body))


def read_bytes(folder: Path, data: bytes, **options: Any) -> DecodedPicture:  # noqa: ANN401  (passed on)
    path = folder / "picture.bin"
    path.write_bytes(data)
    return read_picture(path, **options)


def nearest(samples: Array, white: int) -> Array:
    """Value / white, rounded once to float32."""
    return (samples.astype(np.longdouble) / white).astype(np.float32)


def test_grey_png_is_exact(tmp_path: Path) -> None:
    picture = read_bytes(tmp_path, png_bytes(grey_steps(), colour=0, depth=8))
    np.testing.assert_array_equal(picture.pixels, nearest(grey_steps(), 255))
    assert picture.pixels.dtype == np.float32
    assert (picture.file_format, picture.bit_depth) == ("PNG", 8)
    assert (picture.n_pages, picture.page) == (1, 1)
    assert picture.valid is None
    assert not picture.is_lossy
    assert picture.flags == ()
    assert picture.notes == ()


def test_hash_and_size_are_those_of_the_file(tmp_path: Path) -> None:
    data = png_bytes(grey_steps(), colour=0, depth=8)
    picture = read_bytes(tmp_path, data)
    assert picture.sha256 == hashlib.sha256(data).hexdigest()
    assert picture.n_bytes == len(data)


def test_16_bit_grey_png_is_exact(tmp_path: Path) -> None:
    stored = grey_steps().astype(np.uint16) * 250 + 3
    picture = read_bytes(tmp_path, png_bytes(stored, colour=0, depth=16))
    np.testing.assert_array_equal(picture.pixels, nearest(stored, 65535))
    assert picture.bit_depth == 16


def test_16_bit_rgb_png_is_exact(tmp_path: Path) -> None:
    stored = colour_steps().astype(np.uint16) * 251 + 7
    picture = read_bytes(tmp_path, png_bytes(stored, colour=2, depth=16))
    np.testing.assert_array_equal(picture.pixels, nearest(stored, 65535))
    assert picture.pixels.shape == (40, 60, 3)


def test_rgb_png_is_exact(tmp_path: Path) -> None:
    picture = read_bytes(tmp_path, png_bytes(colour_steps(), colour=2, depth=8))
    np.testing.assert_array_equal(picture.pixels, nearest(colour_steps(), 255))


def test_palette_png_is_looked_up(tmp_path: Path) -> None:
    table = np.dstack([np.arange(256), np.arange(256)[::-1], np.full(256, 9)])[0]
    palette = png_chunk("PLTE", table.astype(np.uint8).tobytes())
    data = png_bytes(grey_steps(), colour=3, depth=8, extra=palette)
    picture = read_bytes(tmp_path, data)
    np.testing.assert_array_equal(picture.pixels, nearest(table[grey_steps()], 255))


def test_one_bit_png_is_black_and_white(tmp_path: Path) -> None:
    bits = (grey_steps() > 127).astype(np.uint8)
    data = pyvips.Image.new_from_array(bits * 255).pngsave_buffer(bitdepth=1)
    picture = read_bytes(tmp_path, data)
    np.testing.assert_array_equal(picture.pixels, bits.astype(np.float32))
    assert picture.bit_depth == 1


def test_interlaced_png_is_exact(tmp_path: Path) -> None:
    data = pyvips.Image.new_from_array(grey_steps()).pngsave_buffer(interlace=True)
    picture = read_bytes(tmp_path, data)
    np.testing.assert_array_equal(picture.pixels, nearest(grey_steps(), 255))


@pytest.mark.parametrize("channels", [1, 3])
def test_colour_under_opacity_is_kept_and_the_pixel_is_invalid(
    tmp_path: Path, channels: int
) -> None:
    colours = colour_steps()[..., :channels]
    opacity = np.full((40, 60, 1), 255, dtype=np.uint8)
    opacity[:10], opacity[10:20], opacity[20:30] = 0, 127, 128
    stored = np.concatenate([colours, opacity], axis=2)
    colour_type = {1: 4, 3: 6}[channels]
    picture = read_bytes(tmp_path, png_bytes(stored, colour=colour_type, depth=8))
    expected = nearest(colours, 255)
    np.testing.assert_array_equal(picture.pixels, np.squeeze(expected))
    assert picture.valid is not None
    np.testing.assert_array_equal(picture.valid, opacity[..., 0] >= 128)


def test_16_bit_opacity_splits_at_half(tmp_path: Path) -> None:
    opacity = np.full((40, 60), 32767, dtype=np.uint16)
    opacity[20:] = 32768
    stored = np.dstack([grey_steps().astype(np.uint16), opacity])
    picture = read_bytes(tmp_path, png_bytes(stored, colour=4, depth=16))
    assert picture.valid is not None
    np.testing.assert_array_equal(picture.valid, opacity == 32768)


def test_png_colour_key_makes_pixels_invalid(tmp_path: Path) -> None:
    key = png_chunk("tRNS", struct.pack(">H", 35))
    picture = read_bytes(
        tmp_path, png_bytes(grey_steps(), colour=0, depth=8, extra=key)
    )
    np.testing.assert_array_equal(picture.pixels, nearest(grey_steps(), 255))
    assert picture.valid is not None
    np.testing.assert_array_equal(picture.valid, grey_steps() != 35)


def test_wholly_transparent_picture_is_refused(tmp_path: Path) -> None:
    stored = np.dstack([grey_steps(), np.zeros_like(grey_steps())])
    with pytest.raises(UnsupportedPictureError, match="every pixel is less than half"):
        read_bytes(tmp_path, png_bytes(stored, colour=4, depth=8))


def test_jpeg_is_read_near_the_original_and_flagged_lossy(tmp_path: Path) -> None:
    data = pyvips.Image.new_from_array(smooth_colour()).jpegsave_buffer(Q=95)
    picture = read_bytes(tmp_path, data)
    np.testing.assert_allclose(
        picture.pixels, smooth_colour() / 255, rtol=0, atol=8 / 255
    )
    assert picture.file_format == "JPEG"
    assert picture.is_lossy
    assert "lossy_compression" in {flag.name for flag in picture.flags}


def test_grey_and_progressive_jpeg_is_read(tmp_path: Path) -> None:
    grey = smooth_colour()[..., 2]
    image = pyvips.Image.new_from_array(grey)
    picture = read_bytes(tmp_path, image.jpegsave_buffer(Q=95, interlace=True))
    np.testing.assert_allclose(picture.pixels, grey / 255, rtol=0, atol=6 / 255)


@pytest.mark.parametrize("keep", ["none", "all"])
def test_cmyk_jpeg_becomes_rgb_and_says_so(tmp_path: Path, keep: str) -> None:
    printing = pyvips.Image.new_from_array(smooth_colour()).colourspace("cmyk")
    picture = read_bytes(tmp_path, printing.jpegsave_buffer(Q=98, keep=keep))
    # Printing colours cannot show every screen colour, hence the mean.
    difference = np.abs(picture.pixels - smooth_colour() / 255)
    assert picture.pixels.shape == (64, 96, 3)
    assert float(difference.mean()) < 0.05
    assert any("CMYK" in note for note in picture.notes)


@pytest.mark.parametrize("depth", [8, 16])
def test_cmyk_tiff_becomes_rgb(tmp_path: Path, depth: int) -> None:
    white = 2**depth - 1
    ink = np.zeros((20, 20, 4), dtype=np.uint8 if depth == 8 else np.uint16)
    ink[10:] = white
    picture = read_bytes(tmp_path, tiff_bytes(ink, photometric="separated"))
    np.testing.assert_allclose(picture.pixels[:10], 1.0, rtol=0, atol=0.02)
    assert float(picture.pixels[10:].max()) < 0.2


TIFF_VARIANTS: dict[str, dict[str, Any]] = {
    "plain": {},
    "big-endian": {"byteorder": ">"},
    "BigTIFF": {"bigtiff": True},
    "tiled": {"tile": (16, 16)},
    "tiled BigTIFF, big-endian": {
        "tile": (16, 16),
        "bigtiff": True,
        "byteorder": ">",
    },
    "deflate": {"compression": "zlib"},
    "deflate with predictor": {"compression": "zlib", "predictor": 2},
    "strips": {"rowsperstrip": 7},
}


@pytest.mark.parametrize("name", TIFF_VARIANTS)
@pytest.mark.parametrize("depth", [8, 16])
@pytest.mark.parametrize("colour", [False, True])
def test_tiff_variants_are_exact(
    tmp_path: Path, name: str, depth: int, *, colour: bool
) -> None:
    steps = colour_steps() if colour else grey_steps()
    stored = steps if depth == 8 else steps.astype(np.uint16) * 249 + 11
    photometric = "rgb" if colour else "minisblack"
    data = tiff_bytes(stored, photometric=photometric, **TIFF_VARIANTS[name])
    picture = read_bytes(tmp_path, data)
    np.testing.assert_array_equal(picture.pixels, nearest(stored, 2**depth - 1))
    assert (picture.file_format, picture.bit_depth) == ("TIFF", depth)
    assert not picture.is_lossy


@pytest.mark.parametrize("compression", ["lzw", "packbits", "deflate", "none"])
@pytest.mark.parametrize("is_tiled", [False, True])
def test_tiff_of_the_second_writer_is_exact(
    tmp_path: Path, compression: str, *, is_tiled: bool
) -> None:
    image = pyvips.Image.new_from_array(grey_steps())
    data = image.tiffsave_buffer(compression=compression, tile=is_tiled)
    picture = read_bytes(tmp_path, data)
    np.testing.assert_array_equal(picture.pixels, nearest(grey_steps(), 255))


@pytest.mark.parametrize("bits", [1, 2, 4])
@pytest.mark.parametrize("miniswhite", [False, True])
def test_few_bits_are_spread_over_the_range(
    tmp_path: Path, bits: int, *, miniswhite: bool
) -> None:
    step = 255 // (2**bits - 1)
    levels = grey_steps() // (256 // 2**bits)
    image = pyvips.Image.new_from_array((levels * step).astype(np.uint8))
    data = image.tiffsave_buffer(bitdepth=bits, miniswhite=miniswhite)
    picture = read_bytes(tmp_path, data)
    np.testing.assert_array_equal(picture.pixels, nearest(levels, 2**bits - 1))
    assert picture.bit_depth == bits


@pytest.mark.parametrize("white", [255, 65535])
def test_white_is_zero_is_turned_over(tmp_path: Path, white: int) -> None:
    kind = np.uint8 if white == 255 else np.uint16
    stored = grey_steps().astype(kind) * (white // 255)
    picture = read_bytes(tmp_path, tiff_bytes(stored, photometric="miniswhite"))
    np.testing.assert_array_equal(picture.pixels, nearest(white - stored, white))


def test_colour_planes_are_put_together(tmp_path: Path) -> None:
    planes = np.moveaxis(colour_steps(), 2, 0)
    data = tiff_bytes(planes, photometric="rgb", planarconfig="separate")
    picture = read_bytes(tmp_path, data)
    np.testing.assert_array_equal(picture.pixels, nearest(colour_steps(), 255))


def test_palette_tiff_is_looked_up(tmp_path: Path) -> None:
    table = np.stack([np.arange(256), np.arange(256)[::-1], np.full(256, 5)])
    data = tiff_bytes(
        grey_steps(), photometric="palette", colormap=(table * 257).astype(np.uint16)
    )
    picture = read_bytes(tmp_path, data)
    np.testing.assert_array_equal(picture.pixels, nearest(table.T[grey_steps()], 255))


@pytest.mark.parametrize("quality", [75, 95])
def test_jpeg_inside_tiff_is_flagged_lossy(tmp_path: Path, quality: int) -> None:
    image = pyvips.Image.new_from_array(smooth_colour())
    data = image.tiffsave_buffer(compression="jpeg", Q=quality, tile=True)
    picture = read_bytes(tmp_path, data)
    assert float(np.abs(picture.pixels - smooth_colour() / 255).mean()) < 4 / 255
    assert picture.is_lossy
    assert picture.flags[0].detail == "JPEG inside TIFF"


def test_float_tiff_from_0_to_1_is_taken_as_it_is(tmp_path: Path) -> None:
    stored = (grey_steps() / 255).astype(np.float32)
    picture = read_bytes(tmp_path, tiff_bytes(stored))
    np.testing.assert_array_equal(picture.pixels, stored)
    assert picture.bit_depth == 32


@pytest.mark.parametrize("value", [-0.01, 1.01, 255.0, np.inf, np.nan])
def test_float_tiff_outside_0_to_1_is_refused(tmp_path: Path, value: float) -> None:
    stored = np.full((20, 20), 0.5, dtype=np.float32)
    stored[3, 4] = value
    with pytest.raises(UnsupportedPictureError, match=r"0 \(black\) to 1 \(white\)"):
        read_bytes(tmp_path, tiff_bytes(stored))


@pytest.mark.parametrize("kind", ["unassalpha", "assocalpha"])
@pytest.mark.parametrize("channels", [1, 3])
def test_tiff_opacity_becomes_a_mask(tmp_path: Path, kind: str, channels: int) -> None:
    colours = colour_steps()[..., :channels]
    opacity = np.full((40, 60, 1), 255, dtype=np.uint8)
    opacity[:20] = 0
    data = tiff_bytes(
        np.concatenate([colours, opacity], axis=2),
        photometric="rgb" if channels == 3 else "minisblack",
        planarconfig="contig",
        extrasamples=[kind],
    )
    picture = read_bytes(tmp_path, data)
    expected = np.squeeze(nearest(colours, 255))
    np.testing.assert_array_equal(picture.pixels[20:], expected[20:])
    assert picture.valid is not None
    np.testing.assert_array_equal(picture.valid, opacity[..., 0] == 255)
    assert any("divided" in note for note in picture.notes) == (kind == "assocalpha")


def test_fourth_channel_of_no_meaning_is_left_out(tmp_path: Path) -> None:
    stored = np.dstack([colour_steps(), grey_steps()])
    data = tiff_bytes(
        stored, photometric="rgb", planarconfig="contig", extrasamples=["unspecified"]
    )
    picture = read_bytes(tmp_path, data)
    np.testing.assert_array_equal(picture.pixels, nearest(colour_steps(), 255))
    assert picture.valid is None
    assert any("left out" in note for note in picture.notes)


# Where a pixel of the upright picture stands in the stored one, for each of the
# eight orientations, written out independently of the code (TIFF 6.0, tag 274:
# the side of the scene at which the first stored row and the first column lie).
def stored_for(orientation: int, upright: Array) -> Array:
    first_row, first_column = {
        1: ("top", "left"),
        2: ("top", "right"),
        3: ("bottom", "right"),
        4: ("bottom", "left"),
        5: ("left", "top"),
        6: ("right", "top"),
        7: ("right", "bottom"),
        8: ("left", "bottom"),
    }[orientation]
    n_rows, n_cols = upright.shape[:2]
    is_turned = first_row in {"left", "right"}
    stored = np.empty((n_cols, n_rows) if is_turned else (n_rows, n_cols), np.uint8)
    for row in range(n_rows):
        for col in range(n_cols):
            along = {
                "top": row,
                "bottom": n_rows - 1 - row,
                "left": col,
                "right": n_cols - 1 - col,
            }
            stored[along[first_row], along[first_column]] = upright[row, col]
    return stored


def exif_block(orientation: int) -> bytes:
    entry = struct.pack(">HHIHH", 274, 3, 1, orientation, 0)
    return b"MM\0*" + struct.pack(">IH", 8, 1) + entry + bytes(4)


@pytest.mark.parametrize("orientation", range(1, 9))
def test_tiff_orientation_is_undone(tmp_path: Path, orientation: int) -> None:
    stored = stored_for(orientation, grey_steps())
    data = tiff_bytes(stored, extratags=[(274, "H", 1, orientation, True)])
    picture = read_bytes(tmp_path, data)
    np.testing.assert_array_equal(picture.pixels, nearest(grey_steps(), 255))
    assert picture.orientation_applied == (orientation != 1)
    assert any("turned" in note for note in picture.notes) == (orientation != 1)


@pytest.mark.parametrize("orientation", range(1, 9))
def test_png_exif_orientation_is_undone(tmp_path: Path, orientation: int) -> None:
    extra = png_chunk("eXIf", exif_block(orientation))
    stored = stored_for(orientation, grey_steps())
    data = png_bytes(stored, colour=0, depth=8, extra=extra)
    picture = read_bytes(tmp_path, data)
    np.testing.assert_array_equal(picture.pixels, nearest(grey_steps(), 255))
    assert picture.orientation_applied == (orientation != 1)


@pytest.mark.parametrize("orientation", range(1, 9))
def test_jpeg_exif_orientation_is_undone(tmp_path: Path, orientation: int) -> None:
    grey = smooth_colour()[..., 2]
    stored = stored_for(orientation, grey)
    plain = pyvips.Image.new_from_array(stored).jpegsave_buffer(Q=98, keep="none")
    block = b"Exif\0\0" + exif_block(orientation)
    segment = b"\xff\xe1" + struct.pack(">H", len(block) + 2) + block
    picture = read_bytes(tmp_path, plain[:2] + segment + plain[2:])
    np.testing.assert_allclose(picture.pixels, grey / 255, rtol=0, atol=6 / 255)
    assert picture.orientation_applied == (orientation != 1)


def test_opacity_is_turned_with_the_pixels(tmp_path: Path) -> None:
    opacity = np.full((40, 60), 255, dtype=np.uint8)
    opacity[:10, :5] = 0
    stored = np.dstack([stored_for(6, grey_steps()), stored_for(6, opacity)])
    extra = png_chunk("eXIf", exif_block(6))
    picture = read_bytes(tmp_path, png_bytes(stored, colour=4, depth=8, extra=extra))
    assert picture.valid is not None
    np.testing.assert_array_equal(picture.valid, opacity == 255)


def test_suffix_plays_no_part(tmp_path: Path) -> None:
    path = tmp_path / "really_a_png.tif"
    path.write_bytes(png_bytes(grey_steps(), colour=0, depth=8))
    assert read_picture(path).file_format == "PNG"


@pytest.mark.parametrize("page", [0, 2, -1])
def test_page_of_a_single_picture_must_be_1(tmp_path: Path, page: int) -> None:
    data = png_bytes(grey_steps(), colour=0, depth=8)
    with pytest.raises(PageChoiceError, match="holds 1 page .*--page 1"):
        read_bytes(tmp_path, data, page=page)
    assert read_bytes(tmp_path, data, page=1).page == 1


def test_foreign_profile_and_gamma_leave_the_values_alone(tmp_path: Path) -> None:
    gamma = png_chunk("gAMA", struct.pack(">I", 100_000))
    data = png_bytes(grey_steps(), colour=0, depth=8, extra=gamma)
    picture = read_bytes(tmp_path, data)
    np.testing.assert_array_equal(picture.pixels, nearest(grey_steps(), 255))
    assert any("gamma of 1" in note for note in picture.notes)
    wide = pyvips.Image.new_from_array(colour_steps()).pngsave_buffer(
        profile="p3", keep="icc"
    )
    picture = read_bytes(tmp_path, wide)
    assert any("colour profile" in note for note in picture.notes)


def test_srgb_profile_needs_no_note(tmp_path: Path) -> None:
    data = pyvips.Image.new_from_array(colour_steps()).pngsave_buffer(
        profile="srgb", keep="icc"
    )
    picture = read_bytes(tmp_path, data)
    np.testing.assert_array_equal(picture.pixels, nearest(colour_steps(), 255))
    assert picture.notes == ()


def test_synthetic_mark_becomes_a_flag(tmp_path: Path) -> None:
    mark = png_chunk("tEXt", b"Synthetic\0drawn by a program")
    data = png_bytes(grey_steps(), colour=0, depth=8, extra=mark)
    picture = read_bytes(tmp_path, data)
    assert picture.words["Synthetic"] == "drawn by a program"
    assert [flag.name for flag in picture.flags] == ["synthetic"]


def test_given_size_is_checked_before_anything_is_read(tmp_path: Path) -> None:
    missing = tmp_path / "missing.png"
    with pytest.raises(UnitError, match="'nm' does not fit"):
        read_picture(missing, um_per_px=Quantity(172.6, "nm"))
    with pytest.raises(ParameterError, match="um_per_px was given as 0"):
        read_picture(missing, um_per_px=0.0)
