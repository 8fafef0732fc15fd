"""Scales planted in files: offered, told and not offered, refused."""

import io
import struct
import zlib
from pathlib import Path
from typing import Any

import numpy as np
import pytest
import pyvips
import tifffile

from strandproof.errors import NonSquarePixelsError, UnreadablePictureError
from strandproof.storage import encode_png, read_picture_scale

GREY = np.linspace(0, 255, 40 * 60).astype(np.uint8).reshape(40, 60)
SENSOR_PER_MM = 290.0


def planted(path: Path, **options: Any) -> Path:  # noqa: ANN401  (passed on)
    buffer = io.BytesIO()
    tifffile.imwrite(buffer, GREY, **options)
    path.write_bytes(buffer.getvalue())
    return path


def exif_block(order: str, *, per_mm: float = SENSOR_PER_MM, unit: int = 4) -> bytes:
    """An EXIF block by hand: a pointer to camera data with a focal-plane resolution."""
    mark = b"II*\0" if order == "<" else b"MM\0*"
    main = struct.pack(f"{order}H", 1) + struct.pack(f"{order}HHII", 34665, 4, 1, 26)
    camera = struct.pack(f"{order}H", 2)
    camera += struct.pack(f"{order}HHII", 41486, 5, 1, 56)
    camera += struct.pack(f"{order}HHIHH", 41488, 3, 1, unit, 0)
    head = mark + struct.pack(f"{order}I", 8)
    block = head + main + struct.pack(f"{order}I", 0) + camera
    block += struct.pack(f"{order}I", 0)
    return block + struct.pack(f"{order}II", round(per_mm * 1000), 1000)


def png_with_exif(path: Path, block: bytes) -> Path:
    data = encode_png(GREY)
    crc = struct.pack(">I", zlib.crc32(b"eXIf" + block))
    chunk = struct.pack(">I", len(block)) + b"eXIf" + block + crc
    end_of_header = 8 + 25
    path.write_bytes(data[:end_of_header] + chunk + data[end_of_header:])
    return path


def test_ome_physical_size_is_offered_and_flagged(tmp_path: Path) -> None:
    path = planted(
        tmp_path / "a.ome.tif",
        ome=True,
        metadata={
            "axes": "YX",
            "PhysicalSizeX": 172.6,
            "PhysicalSizeXUnit": "nm",
            "PhysicalSizeY": 172.6,
            "PhysicalSizeYUnit": "nm",
        },
    )
    found = read_picture_scale(path)
    assert found.offered is not None
    assert found.offered.value_um == pytest.approx(0.1726, rel=1e-9, abs=0)
    assert "OME-XML" in found.offered.source
    assert "scale_from_file_only" in [flag.name for flag in found.flags]
    assert (found.width_px, found.height_px) == (60, 40)


def test_a_tiff_resolution_of_a_microscope_is_offered(tmp_path: Path) -> None:
    per_cm = 10_000 / 0.1726
    path = planted(
        tmp_path / "a.tif",
        resolution=(per_cm, per_cm),
        resolutionunit="CENTIMETER",
        metadata=None,
    )
    found = read_picture_scale(path)
    assert found.offered is not None
    assert found.offered.value_um == pytest.approx(0.1726, rel=1e-4, abs=0)
    assert found.not_offered == ()


@pytest.mark.parametrize("per_inch", [72, 96, 150, 300, 600, 2400])
def test_print_and_scanner_settings_are_told_and_not_offered(
    tmp_path: Path, per_inch: int
) -> None:
    path = planted(
        tmp_path / "a.tif",
        resolution=(per_inch, per_inch),
        resolutionunit="INCH",
        metadata=None,
    )
    found = read_picture_scale(path)
    assert found.offered is None
    assert len(found.not_offered) == 1
    assert f"{per_inch} pixels per inch" in found.not_offered[0]
    assert [flag.name for flag in found.flags] == ["resolution_tag_ignored"]


def test_different_sizes_across_and_down_are_refused(tmp_path: Path) -> None:
    path = planted(
        tmp_path / "a.tif",
        resolution=(50_000, 51_000),
        resolutionunit="CENTIMETER",
        metadata=None,
    )
    with pytest.raises(NonSquarePixelsError, match="not square"):
        read_picture_scale(path)


@pytest.mark.parametrize("order", ["<", ">"])
def test_the_sensors_resolution_is_told_and_not_offered(
    tmp_path: Path, order: str
) -> None:
    found = read_picture_scale(png_with_exif(tmp_path / "a.png", exif_block(order)))
    assert found.offered is None
    assert len(found.not_offered) == 1
    assert (
        f"{1000 / SENSOR_PER_MM:.4g} um is the size of a pixel on the camera's"
        in (found.not_offered[0])
    )


def test_exif_of_jpeg_and_tiff_is_looked_at_too(tmp_path: Path) -> None:
    jpeg = pyvips.Image.new_from_array(GREY).jpegsave_buffer()
    block = b"Exif\0\0" + exif_block(">")
    segment = b"\xff\xe1" + struct.pack(">H", len(block) + 2) + block
    path = tmp_path / "a.jpg"
    path.write_bytes(jpeg[:2] + segment + jpeg[2:])
    assert "sensor" in " ".join(read_picture_scale(path).not_offered)
    tiff = planted(tmp_path / "a.tif", metadata=None)
    assert read_picture_scale(tiff).not_offered == ()


@pytest.mark.parametrize("cut", [12, 30, 45, 57])
def test_a_damaged_block_states_no_sensor(tmp_path: Path, cut: int) -> None:
    path = png_with_exif(tmp_path / "a.png", exif_block("<")[:cut])
    assert read_picture_scale(path).not_offered == ()


@pytest.mark.parametrize(("per_mm", "unit"), [(0.0, 4), (290.0, 1), (290.0, 9)])
def test_a_resolution_without_meaning_states_no_sensor(
    tmp_path: Path, per_mm: float, unit: int
) -> None:
    block = exif_block("<", per_mm=per_mm, unit=unit)
    path = png_with_exif(tmp_path / "a.png", block)
    assert read_picture_scale(path).not_offered == ()


def test_a_file_without_any_word_offers_nothing(tmp_path: Path) -> None:
    path = tmp_path / "a.png"
    path.write_bytes(encode_png(GREY))
    found = read_picture_scale(path)
    assert (found.offered, found.not_offered, found.flags) == (None, (), ())


def test_a_missing_file_is_refused(tmp_path: Path) -> None:
    with pytest.raises(UnreadablePictureError):
        read_picture_scale(tmp_path / "gone.png")
