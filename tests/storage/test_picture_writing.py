"""What is written comes back unchanged and says what it is."""

import struct
import zlib
from pathlib import Path
from typing import Any

import numpy as np
import numpy.typing as npt
import pytest
import tifffile

from strandproof.errors import OutputExistsError, ParameterError
from strandproof.storage.picture_writing import (
    encode_png,
    preview_png,
    write_labels,
    write_overlay,
)
from strandproof.storage.pictures import DecodedPicture, read_picture

Array = npt.NDArray[Any]


def read_bytes(folder: Path, data: bytes) -> DecodedPicture:
    path = folder / "encoded.png"
    path.write_bytes(data)
    return read_picture(path)


def labels_up_to(top: int) -> Array:
    labels = np.zeros((300, 400), dtype=np.int32)
    count = min(top, labels.size - 1)
    labels.flat[1 : count + 1] = np.linspace(1, top, count).astype(np.int32)
    return labels


@pytest.mark.parametrize("top", [0, 1, 300, 65_535])
def test_png_labels_come_back(tmp_path: Path, top: int) -> None:
    path = tmp_path / "labels.png"
    write_labels(path, labels_up_to(top))
    picture = read_picture(path)
    stored = np.rint(picture.pixels.astype(np.float64) * 65_535).astype(np.int32)
    np.testing.assert_array_equal(stored, labels_up_to(top))
    assert picture.bit_depth == 16
    assert picture.flags == ()


@pytest.mark.parametrize("suffix", [".tif", ".TIFF"])
@pytest.mark.parametrize("top", [5, 65_536, 2**31 - 1])
def test_tiff_labels_come_back(tmp_path: Path, top: int, suffix: str) -> None:
    path = tmp_path / f"labels{suffix}"
    write_labels(path, labels_up_to(top))
    stored = tifffile.imread(path)
    assert stored.dtype == np.uint32
    np.testing.assert_array_equal(stored, labels_up_to(top))


@pytest.mark.parametrize("name", ["labels.png", "labels.jpg", "labels", "labels.npy"])
def test_suffix_that_does_not_fit_is_refused(tmp_path: Path, name: str) -> None:
    with pytest.raises(ParameterError, match=r"\.png up to 65535 labels.*are 65536"):
        write_labels(tmp_path / name, labels_up_to(65_536))
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    "labels",
    [
        np.zeros((4, 4), dtype=np.float64),
        np.full((4, 4), -1),
        np.zeros(4, dtype=np.int32),
        np.zeros((0, 4), dtype=np.int32),
        np.full((4, 4), 2**32),
    ],
)
def test_what_is_no_label_map_is_refused(tmp_path: Path, labels: Array) -> None:
    with pytest.raises(ParameterError, match="whole numbers from 0 to 4294967295"):
        write_labels(tmp_path / "labels.tif", labels)


def test_input_picture_is_not_replaced(tmp_path: Path) -> None:
    path = tmp_path / "input.png"
    path.write_bytes(encode_png(np.zeros((20, 20), dtype=np.uint8)))
    before = path.read_bytes()
    for overwrite in (False, True):
        with pytest.raises(OutputExistsError, match="input picture"):
            write_labels(path, labels_up_to(3), source=path, overwrite=overwrite)
        with pytest.raises(OutputExistsError, match="input picture"):
            write_overlay(path, np.zeros((20, 20, 3)), source=path, overwrite=overwrite)
    assert path.read_bytes() == before


def test_overlay_comes_back_with_its_words(tmp_path: Path) -> None:
    rgb = np.random.default_rng(2).integers(0, 256, (30, 40, 3)).astype(np.uint8)
    path = tmp_path / "overlay.png"
    write_overlay(path, rgb, text={"Title": "overlay", "Comment": "scale 0.17 µm"})
    picture = read_picture(path)
    np.testing.assert_array_equal(np.rint(picture.pixels * 255), rgb)
    assert picture.words == {"Title": "overlay", "Comment": "scale 0.17 µm"}
    with pytest.raises(ParameterError, match=r"ends with \.png"):
        write_overlay(tmp_path / "overlay.tif", rgb)


@pytest.mark.parametrize("kind", [np.uint8, np.uint16])
@pytest.mark.parametrize("shape", [(20, 30), (20, 30, 3)])
def test_png_keeps_every_value(
    tmp_path: Path, kind: type, shape: tuple[int, ...]
) -> None:
    top = int(np.iinfo(kind).max)
    samples = np.random.default_rng(3).integers(0, top, shape, endpoint=True)
    picture = read_bytes(tmp_path, encode_png(samples.astype(kind)))
    expected = (samples / top).astype(np.float32)
    np.testing.assert_array_equal(picture.pixels, expected)
    assert picture.pixel_size is None
    assert picture.flags == ()


def test_floating_point_is_stored_with_8_bits(tmp_path: Path) -> None:
    samples = np.linspace(0, 1, 600).reshape(20, 30)
    picture = read_bytes(tmp_path, encode_png(samples))
    np.testing.assert_allclose(picture.pixels, samples, rtol=0, atol=0.5 / 255 + 1e-6)


@pytest.mark.parametrize("size_um", [0.05, 0.1726, 0.5, 1.0, 20.0])
def test_pixel_size_comes_back(tmp_path: Path, size_um: float) -> None:
    data = encode_png(np.zeros((20, 20)), pixel_size_um=size_um)
    picture = read_bytes(tmp_path, data)
    assert picture.pixel_size is not None
    # Whole pixels per metre: half a pixel in 50 000 at worst.
    assert picture.pixel_size.value_um == pytest.approx(size_um, rel=1e-5, abs=0)


@pytest.mark.parametrize("size_um", [0.0, -1.0, 1e-5, 1e7, float("nan")])
def test_pixel_size_that_cannot_be_stored_is_refused(size_um: float) -> None:
    with pytest.raises(ParameterError, match="pixel_size_um was given"):
        encode_png(np.zeros((20, 20)), pixel_size_um=size_um)


def test_synthetic_mark_survives(tmp_path: Path) -> None:
    data = encode_png(np.zeros((20, 20)), text={"Synthetic": "seed 7"})
    assert [flag.name for flag in read_bytes(tmp_path, data).flags] == ["synthetic"]


def test_same_input_gives_the_same_bytes() -> None:
    samples = np.random.default_rng(4).random((20, 30, 3))
    options: dict[str, Any] = {"text": {"Software": "Own"}, "pixel_size_um": 0.5}
    assert encode_png(samples, **options) == encode_png(samples, **options)


@pytest.mark.parametrize(
    "text",
    [
        {"": "x"},
        {"k" * 80: "x"},
        {" key": "x"},
        {"a\0b": "x"},
        {"Schlüssel→": "x"},
        {"key": "a\0b"},
    ],
)
def test_key_that_png_does_not_know_is_refused(text: dict[str, str]) -> None:
    with pytest.raises(ParameterError, match="text key was given"):
        encode_png(np.zeros((20, 20)), text=text)


@pytest.mark.parametrize(
    "samples",
    [
        np.zeros((20, 30, 4), dtype=np.uint8),
        np.zeros((20, 30, 1), dtype=np.uint8),
        np.zeros(20, dtype=np.uint8),
        np.zeros((0, 0), dtype=np.uint8),
        np.zeros((20, 20), dtype=np.int32),
        np.full((20, 20), 1.01),
        np.full((20, 20), -0.01),
        np.full((20, 20), np.nan),
    ],
)
def test_what_is_no_picture_is_refused(samples: Array) -> None:
    with pytest.raises(ParameterError, match="picture was given as"):
        encode_png(samples)


def png_size(data: bytes) -> tuple[int, int]:
    width, height = struct.unpack(">II", data[16:24])
    return height, width


@pytest.mark.parametrize(
    ("shape", "max_side", "expected"),
    [
        ((300, 400), 100, (75, 100)),
        ((400, 300, 3), 100, (100, 75)),
        ((30, 40), 100, (30, 40)),
        ((2, 4000), 100, (1, 100)),
    ],
)
def test_preview_fits_and_is_never_enlarged(
    shape: tuple[int, ...], max_side: int, expected: tuple[int, int]
) -> None:
    data = preview_png(np.full(shape, 0.4, dtype=np.float32), max_side=max_side)
    assert png_size(data) == expected


def test_preview_keeps_tones_and_words(tmp_path: Path) -> None:
    half = np.zeros((400, 400))
    half[:, 200:] = 0.8
    data = preview_png(half, max_side=100, text={"Synthetic": "yes"})
    picture = read_bytes(tmp_path, data)
    np.testing.assert_allclose(picture.pixels[:, :45], 0.0, rtol=0, atol=2 / 255)
    np.testing.assert_allclose(picture.pixels[:, 55:], 0.8, rtol=0, atol=2 / 255)
    assert picture.words == {"Synthetic": "yes"}


def test_preview_of_16_bits_has_8(tmp_path: Path) -> None:
    samples = np.full((50, 50, 3), 40_000, dtype=np.uint16)
    picture = read_bytes(tmp_path, preview_png(samples, max_side=25))
    assert picture.bit_depth == 8
    np.testing.assert_allclose(picture.pixels, 40_000 / 65_535, rtol=0, atol=2 / 255)


def test_preview_needs_a_pixel() -> None:
    with pytest.raises(ParameterError, match="max_side was given as 0"):
        preview_png(np.zeros((20, 20)), max_side=0)


def test_encoded_png_holds_only_what_it_should() -> None:
    data = encode_png(np.zeros((20, 20)), text={"Title": "x"}, pixel_size_um=1.0)
    names, place = [], 8
    while place < len(data):
        (length,) = struct.unpack(">I", data[place : place + 4])
        body = data[place + 4 : place + 8 + length]
        assert (
            struct.pack(">I", zlib.crc32(body))
            == data[place + 8 + length : place + 12 + length]
        )
        names.append(body[:4])
        place += 12 + length
    assert names == [b"IHDR", b"pHYs", b"tEXt", b"IDAT", b"IEND"]
