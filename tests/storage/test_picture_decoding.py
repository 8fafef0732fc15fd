"""Cut, damaged, empty, tiny and swollen files are found before they are believed."""

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
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from strandproof.errors import (
    ExpansionError,
    PictureError,
    PictureTooSmallError,
    UnreadablePictureError,
)
from strandproof.storage import picture_decoding
from strandproof.storage.picture_decoding import turned_upright
from strandproof.storage.picture_writing import encode_png
from strandproof.storage.pictures import DecodedPicture, read_picture

Array = npt.NDArray[Any]


def noise() -> Array:
    return np.random.default_rng(5).integers(0, 256, (48, 64)).astype(np.uint8)


def smooth() -> Array:
    rows, cols = np.mgrid[:48, :64]
    slope: Array = (2 * rows + cols).astype(np.uint8)
    return slope


def tiff_bytes(samples: Array, **options: Any) -> bytes:  # noqa: ANN401  (passed on)
    buffer = io.BytesIO()
    tifffile.imwrite(buffer, samples, metadata=None, **options)
    return buffer.getvalue()


def jpeg_bytes(samples: Array, **options: Any) -> bytes:  # noqa: ANN401  (passed on)
    data: bytes = pyvips.Image.new_from_array(samples).jpegsave_buffer(**options)
    return data


def vips_tiff(samples: Array, **options: Any) -> bytes:  # noqa: ANN401  (passed on)
    data: bytes = pyvips.Image.new_from_array(samples).tiffsave_buffer(**options)
    return data


WHOLE_FILES: dict[str, bytes] = {
    "PNG": encode_png(noise()),
    "16-bit PNG": encode_png(noise().astype(np.uint16) * 200),
    "JPEG": jpeg_bytes(noise()),
    "progressive JPEG": jpeg_bytes(noise(), interlace=True),
    "TIFF, plain": tiff_bytes(noise()),
    "TIFF, data before directory": vips_tiff(noise()),
    "TIFF, deflate": vips_tiff(noise(), compression="deflate", predictor="none"),
    "TIFF, LZW": vips_tiff(noise(), compression="lzw"),
    "TIFF, JPEG": vips_tiff(noise(), compression="jpeg"),
    "TIFF, tiles": vips_tiff(noise(), tile=True, tile_width=16, tile_height=16),
    "BigTIFF": vips_tiff(noise(), bigtiff=True),
}


def read_bytes(folder: Path, data: bytes, **options: Any) -> DecodedPicture:  # noqa: ANN401  (passed on)
    path = folder / "picture.bin"
    path.write_bytes(data)
    return read_picture(path, **options)


@pytest.mark.parametrize("name", WHOLE_FILES)
def test_whole_file_is_read(tmp_path: Path, name: str) -> None:
    assert read_bytes(tmp_path, WHOLE_FILES[name]).pixels.shape == (48, 64)


@pytest.mark.parametrize("name", WHOLE_FILES)
@pytest.mark.parametrize("share", [0.005, 0.03, 0.1, 0.3, 0.5, 0.75, 0.9, 0.97, 0.999])
def test_cut_file_is_refused(tmp_path: Path, name: str, share: float) -> None:
    whole = WHOLE_FILES[name]
    cut = whole[: max(int(share * len(whole)), 8)]
    with pytest.raises(UnreadablePictureError, match=r"cut short|damaged|decoder"):
        read_bytes(tmp_path, cut)


@pytest.mark.parametrize("name", WHOLE_FILES)
def test_file_without_its_last_byte_is_refused(tmp_path: Path, name: str) -> None:
    with pytest.raises(UnreadablePictureError, match=r"cut short|damaged|decoder"):
        read_bytes(tmp_path, WHOLE_FILES[name][:-1])


@pytest.mark.parametrize("name", ["PNG", "16-bit PNG", "TIFF, deflate"])
def test_any_changed_bit_of_the_picture_data_is_found(
    tmp_path: Path, name: str
) -> None:
    whole = WHOLE_FILES[name]
    generator = np.random.default_rng(11)
    # From behind the header to before the directory or end mark.
    for place in generator.integers(80, len(whole) - 250, 60):
        changed = bytearray(whole)
        changed[place] ^= 1 << int(generator.integers(8))
        with pytest.raises(UnreadablePictureError, match=r"damaged|cut short"):
            read_bytes(tmp_path, bytes(changed))


def test_png_with_checksums_made_to_fit_is_still_found(tmp_path: Path) -> None:
    whole = WHOLE_FILES["PNG"]
    start = whole.index(b"IDAT")
    (length,) = struct.unpack(">I", whole[start - 4 : start])
    for place in (500, 1500, length - 2):
        data = bytearray(whole[start : start + 4 + length])
        data[4 + place] ^= 0x10
        fitted = bytes(data) + struct.pack(">I", zlib.crc32(data))
        end = start + 8 + length
        with pytest.raises(UnreadablePictureError, match="decoder reports"):
            read_bytes(tmp_path, whole[:start] + fitted + whole[end:])


@pytest.mark.parametrize("missing", [50, 200, 1000])
def test_holes_of_a_baseline_jpeg_are_found(tmp_path: Path, missing: int) -> None:
    generator = np.random.default_rng(17)
    rows, cols = np.mgrid[:300, :400]
    waves = 127 + 60 * np.sin(cols / 9) + 50 * np.cos(rows / 13)
    grains = np.clip(waves + generator.normal(0, 4, waves.shape), 0, 255)
    whole = jpeg_bytes(grains.astype(np.uint8), Q=90)
    for place in generator.integers(800, len(whole) - 1100, 20):
        holed = whole[:place] + whole[place + missing :]
        with pytest.raises(UnreadablePictureError, match=r"decoder reports .*Corrupt"):
            read_bytes(tmp_path, holed)


@pytest.mark.parametrize("count", [1, 3, 40])
def test_filling_bytes_of_an_honest_jpeg_are_let_through(
    tmp_path: Path, count: int
) -> None:
    whole = jpeg_bytes(smooth(), Q=95)
    filling = bytes(count)
    frame = whole.index(b"\xff\xc0")
    for filled in (
        whole[:frame] + filling + whole[frame:],
        whole[:-2] + filling + whole[-2:],
        whole + b"more behind the end mark",
    ):
        picture = read_bytes(tmp_path, filled)
        np.testing.assert_allclose(picture.pixels, smooth() / 255, rtol=0, atol=8 / 255)


def test_unknown_tags_of_an_honest_tiff_are_let_through(tmp_path: Path) -> None:
    extra = [(65000, "s", 0, "own words", True), (65001, "H", 2, (1, 2), True)]
    picture = read_bytes(tmp_path, tiff_bytes(smooth(), extratags=extra))
    np.testing.assert_array_equal(np.rint(picture.pixels * 255), smooth())


def test_message_of_an_earlier_failure_is_not_repeated(tmp_path: Path) -> None:
    with pytest.raises(UnreadablePictureError, match="premature end"):
        read_bytes(tmp_path, WHOLE_FILES["JPEG"][:-400])
    broken = bytearray(WHOLE_FILES["TIFF, JPEG"])
    start = broken.index(b"\xff\xda")
    broken[start + 20 : start + 60] = bytes(40)
    with pytest.raises(UnreadablePictureError) as caught:
        read_bytes(tmp_path, bytes(broken[: start + 60]))
    assert "premature end of JPEG image" not in str(caught.value)


def flat_png(side: int, *, depth: int = 8) -> bytes:
    """A few kilobytes that unpack to side x side black pixels."""
    packer = zlib.compressobj(9)
    line = bytes(1 + side * depth // 8)
    body = b"".join(packer.compress(line) for _ in range(side)) + packer.flush()
    header = struct.pack(">IIBBBBB", side, side, depth, 0, 0, 0, 0)
    chunks = [(b"IHDR", header), (b"IDAT", body), (b"IEND", b"")]
    return b"\x89PNG\r\n\x1a\n" + b"".join(
        struct.pack(">I", len(content))
        + name
        + content
        + struct.pack(">I", zlib.crc32(name + content))
        for name, content in chunks
    )


def test_swollen_png_is_refused_before_it_is_unpacked(tmp_path: Path) -> None:
    data = flat_png(20_000, depth=1)
    assert len(data) < 100_000
    with pytest.raises(
        ExpansionError,
        match=r"20000 x 20000 pixels.*times as much.*--allow-large",
    ):
        read_bytes(tmp_path, data)


def test_swollen_tiff_is_refused_before_it_is_unpacked(tmp_path: Path) -> None:
    data = vips_tiff(smooth(), compression="deflate")
    page = tifffile.TiffFile(io.BytesIO(data)).pages[0]
    assert isinstance(page, tifffile.TiffPage)
    changed = bytearray(data)
    for name in ("ImageWidth", "ImageLength", "RowsPerStrip"):
        place = page.tags[name].valueoffset
        changed[place : place + 2] = struct.pack("<H", 25_000)
    with pytest.raises(ExpansionError, match="25000 x 25000 pixels"):
        read_bytes(tmp_path, bytes(changed))


def test_more_than_a_gigapixel_is_refused_whatever_the_ratio(tmp_path: Path) -> None:
    header = struct.pack(">IIBBBBB", 40_000, 40_000, 8, 0, 0, 0, 0)
    data = bytearray(flat_png(16))
    data[16:29] = header
    data[29:33] = struct.pack(">I", zlib.crc32(data[12:29]))
    with pytest.raises(ExpansionError, match=r"40000 x 40000 pixels; the limit is 1e"):
        read_bytes(tmp_path, bytes(data))


def test_allow_large_unpacks_what_the_guard_refuses(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    # A lower limit than the real one, so that the test needs little memory.
    monkeypatch.setattr(picture_decoding, "EXPANSION_FREE_BYTES", 1_000_000)
    data = flat_png(1_100)
    with pytest.raises(ExpansionError, match="1100 x 1100"):
        read_bytes(tmp_path, data)
    picture = read_bytes(tmp_path, data, allow_large=True)
    assert picture.pixels.shape == (1_100, 1_100)


def test_small_flat_picture_is_no_attack(tmp_path: Path) -> None:
    assert read_bytes(tmp_path, flat_png(2_000)).pixels.shape == (2_000, 2_000)


@pytest.mark.parametrize("shape", [(15, 400), (400, 15), (1, 1), (2, 5000)])
def test_thin_picture_is_refused(tmp_path: Path, shape: tuple[int, int]) -> None:
    samples = np.zeros(shape, dtype=np.uint8)
    n_rows, n_cols = shape
    expected = f"{n_cols} pixels wide and {n_rows} high; at least 16"
    for data in (encode_png(samples), tiff_bytes(samples), jpeg_bytes(samples)):
        with pytest.raises(PictureTooSmallError, match=expected):
            read_bytes(tmp_path, data)


def test_16_pixels_are_enough(tmp_path: Path) -> None:
    data = encode_png(np.zeros((16, 16), dtype=np.uint8))
    assert read_bytes(tmp_path, data).pixels.shape == (16, 16)


def test_size_of_zero_is_refused(tmp_path: Path) -> None:
    data = bytearray(flat_png(16))
    data[16:20] = bytes(4)
    data[29:33] = struct.pack(">I", zlib.crc32(data[12:29]))
    with pytest.raises(PictureTooSmallError, match="0 pixels wide and 16 high"):
        read_bytes(tmp_path, bytes(data))


def test_header_that_promises_more_rows_is_refused(tmp_path: Path) -> None:
    data = bytearray(encode_png(smooth()))
    data[20:24] = struct.pack(">I", 60)
    data[29:33] = struct.pack(">I", zlib.crc32(data[12:29]))
    with pytest.raises(UnreadablePictureError, match="decoder reports"):
        read_bytes(tmp_path, bytes(data))


@pytest.mark.parametrize("name", WHOLE_FILES)
@settings(
    max_examples=25,
    deadline=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture],
)
@given(
    changes=st.lists(
        st.tuples(st.floats(0, 1), st.integers(0, 255)), min_size=1, max_size=6
    ),
    near_directory=st.booleans(),
)
def test_damaged_file_gives_a_picture_or_one_of_our_errors(
    tmp_path: Path,
    name: str,
    changes: list[tuple[float, int]],
    *,
    near_directory: bool,
) -> None:
    data = bytearray(WHOLE_FILES[name])
    for share, value in changes:
        span = min(300, len(data)) if near_directory else len(data)
        data[-1 - int(share * (span - 1))] = value
        data[int(share * (span - 1) ** 0.9)] ^= value >> 4
    try:
        picture = read_bytes(tmp_path, bytes(data))
    except PictureError as error:
        assert str(error)  # noqa: PT017  (any child will do, and so will none)
    else:
        assert picture.pixels.dtype == np.float32


@pytest.mark.parametrize("orientation", range(1, 9))
def test_turning_four_or_two_times_gives_the_picture_back(orientation: int) -> None:
    samples = smooth()[..., np.newaxis]
    times = 4 if orientation in {6, 8} else 2
    turned = samples
    for _ in range(times):
        turned = turned_upright(turned, orientation)
    np.testing.assert_array_equal(turned, samples)
