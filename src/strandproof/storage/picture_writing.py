"""Pictures as bytes and as files: label maps, overlays, previews."""

import io
import os
import struct
import zlib
from collections.abc import Iterator, Mapping
from pathlib import Path
from types import MappingProxyType
from typing import Any

import numpy as np
import numpy.typing as npt
import pyvips
import tifffile

from strandproof.errors import ParameterError
from strandproof.storage.picture_files import write_output_file
from strandproof.storage.picture_png import SIGNATURE, png_chunks

MOST_PNG_LABELS = 65_535
_MOST_TIFF_LABELS = 2**32 - 1
_TIFF_SUFFIXES = {".tif", ".tiff"}
_NO_WORDS: Mapping[str, str] = MappingProxyType({})
_MOST_PER_METRE = 2**31 - 1


def write_labels(
    path: str | os.PathLike[str],
    labels: npt.NDArray[np.integer[Any]],
    *,
    source: str | os.PathLike[str] | None = None,
    overwrite: bool = False,
) -> None:
    """Write a label map without loss: 16-bit PNG, or 32-bit TIFF.

    Parameters
    ----------
    path : str or path-like
        ``.png`` holds up to 65 535 labels, ``.tif`` and ``.tiff`` any number.
    labels : ndarray of integers, shape (n_rows, n_cols)
        0 or above.
    source : str or path-like or None
        The picture that was read; never replaced.
    overwrite : bool
        Replace an earlier file of that name.

    Raises
    ------
    ParameterError
        If the suffix does not fit, or `labels` is no label map.
    OutputExistsError
        If something that may not be replaced is there.
    WriteFailedError
        If the system refuses; nothing is changed then.
    """
    top = _highest_label(labels)
    suffix = Path(path).suffix.lower()
    if suffix == ".png" and top <= MOST_PNG_LABELS:
        data = _plain_png(np.ascontiguousarray(labels, dtype=np.uint16))
    elif suffix in _TIFF_SUFFIXES:
        data = _label_tiff(labels)
    else:
        raise ParameterError(
            "path",
            os.fspath(path),
            allowed=f".png up to {MOST_PNG_LABELS} labels, .tif or .tiff for any "
            f"number (there are {top})",
            remedy="Choose a name that ends with .tif.",
        )
    write_output_file(path, data, source=source, overwrite=overwrite)


def write_overlay(
    path: str | os.PathLike[str],
    rgb: npt.NDArray[Any],
    *,
    text: Mapping[str, str] = _NO_WORDS,
    source: str | os.PathLike[str] | None = None,
    overwrite: bool = False,
) -> None:
    """Write a picture with marks drawn on it as PNG.

    Parameters
    ----------
    path : str or path-like
        A name that ends with ``.png``.
    rgb : ndarray of shape (n_rows, n_cols, 3) or (n_rows, n_cols)
        As for `encode_png`.
    text : mapping of str to str
        Words to store.
    source : str or path-like or None
        The picture that was read; never replaced.
    overwrite : bool
        Replace an earlier file of that name.

    Raises
    ------
    ParameterError
        If the suffix is another, or `rgb` is no picture.
    OutputExistsError
        If something that may not be replaced is there.
    WriteFailedError
        If the system refuses; nothing is changed then.
    """
    if Path(path).suffix.lower() != ".png":
        raise ParameterError(
            "path", os.fspath(path), allowed="a name that ends with .png"
        )
    data = encode_png(rgb, text=text)
    write_output_file(path, data, source=source, overwrite=overwrite)


def encode_png(
    picture: npt.NDArray[Any],
    *,
    text: Mapping[str, str] = _NO_WORDS,
    pixel_size_um: float | None = None,
) -> bytes:
    r"""Encode a picture as PNG with words inside.

    Parameters
    ----------
    picture : ndarray of shape (n_rows, n_cols) or (n_rows, n_cols, 3)
        uint8 or uint16 as they are, or floating point in [0, 1] (stored with 8
        bits).
    text : mapping of str to str
        Words by key (1 to 79 Latin-1 characters); a synthetic picture carries
        the key `SYNTHETIC_KEY`.
    pixel_size_um : float or None
        Pixel size to store [um], as whole pixels per metre.

    Returns
    -------
    bytes
        The same for the same input and library version; no time is stored.

    Raises
    ------
    ParameterError
        If `picture` has another shape, type or range, a key is not allowed, or
        the pixel size cannot be stored.

    Examples
    --------
    >>> import numpy as np
    >>> data = encode_png(np.zeros((16, 16)), text={"Synthetic": "yes"})
    >>> data[:4], b"Synthetic" in data
    (b'\x89PNG', True)
    """
    extra = b"".join(
        [
            *_pixel_size_chunk(pixel_size_um),
            *(_text_chunk(key, words) for key, words in text.items()),
        ]
    )
    plain = _plain_png(_stored_samples(picture))
    head = len(SIGNATURE) + 25  # behind the header chunk of 13 bytes
    return plain[:head] + extra + plain[head:]


def preview_png(
    pixels: npt.NDArray[Any],
    *,
    max_side: int,
    text: Mapping[str, str] = _NO_WORDS,
) -> bytes:
    """Encode a picture for looking at, reduced if needed; nothing to measure on.

    Parameters
    ----------
    pixels : ndarray of shape (n_rows, n_cols) or (n_rows, n_cols, 3)
        As for `encode_png`.
    max_side : int
        Longest side of the preview [px], 1 or above.
    text : mapping of str to str
        Words to store.

    Returns
    -------
    bytes
        PNG with 8 bits; never enlarged.

    Raises
    ------
    ParameterError
        If `max_side` is below 1, or `pixels` is no picture.
    """
    if max_side < 1:
        raise ParameterError("max_side", max_side, allowed="1 pixel or above")
    samples = _stored_samples(pixels)
    if samples.dtype == np.uint16:
        samples = np.rint(samples / 257).astype(np.uint8)
    scale = min(1.0, max_side / max(samples.shape[:2]))
    if scale < 1:
        n_rows, n_cols = (max(1, round(scale * n)) for n in samples.shape[:2])
        samples = _reduced(samples, n_rows, n_cols)
    return encode_png(samples, text=text)


def preview_jpeg(
    pixels: npt.NDArray[Any], *, max_side: int, quality: int = 88
) -> bytes:
    """Encode a picture for looking at in a report; nothing to measure on.

    Parameters
    ----------
    pixels : ndarray of shape (n_rows, n_cols) or (n_rows, n_cols, 3)
        As for `encode_png`.
    max_side : int
        Longest side of the preview [px]; smaller pictures keep their size.
    quality : int
        Quality of the JPEG, 1 to 100.

    Returns
    -------
    bytes
        A JPEG file, much smaller than the PNG of a noisy picture.
    """
    image = pyvips.Image.new_from_buffer(preview_png(pixels, max_side=max_side), "")
    data: bytes = image.jpegsave_buffer(Q=quality, keep="none")
    return data


def _highest_label(labels: npt.NDArray[np.integer[Any]]) -> int:
    is_map = labels.ndim == 2 and labels.dtype.kind in "iu" and labels.size > 0
    if not is_map or int(labels.min()) < 0 or int(labels.max()) > _MOST_TIFF_LABELS:
        raise ParameterError(
            "labels",
            f"{labels.dtype} of shape {labels.shape}",
            allowed="whole numbers from 0 to 4294967295, shape (n_rows, n_cols)",
        )
    return int(labels.max())


def _stored_samples(picture: npt.NDArray[Any]) -> npt.NDArray[Any]:
    shape_fits = picture.ndim == 2 or (picture.ndim == 3 and picture.shape[2] == 3)
    if shape_fits and picture.size:
        if picture.dtype in {np.dtype(np.uint8), np.dtype(np.uint16)}:
            return np.ascontiguousarray(picture)
        # Written so that not-a-number, which compares false, is refused too.
        if picture.dtype.kind == "f" and picture.min() >= 0 and picture.max() <= 1:
            spread: npt.NDArray[Any] = np.rint(picture * 255).astype(np.uint8)
            return spread
    raise ParameterError(
        "picture",
        f"{picture.dtype} of shape {picture.shape}",
        allowed="uint8, uint16 or floating point from 0 to 1, of shape "
        "(n_rows, n_cols) or (n_rows, n_cols, 3)",
    )


def _image(samples: npt.NDArray[Any]) -> Any:  # noqa: ANN401  (pyvips is untyped)
    image = pyvips.Image.new_from_array(samples)
    names = {(1, 1): "b-w", (1, 2): "grey16", (3, 1): "srgb", (3, 2): "rgb16"}
    # Without this, 16-bit grey would be taken for 8 bits and lose its low byte.
    return image.copy(interpretation=names[image.bands, samples.dtype.itemsize])


def _reduced(samples: npt.NDArray[Any], n_rows: int, n_cols: int) -> npt.NDArray[Any]:
    reduced: npt.NDArray[Any] = (
        _image(samples).thumbnail_image(n_cols, height=n_rows, size="force").numpy()
    )
    return reduced


def _plain_png(samples: npt.NDArray[Any]) -> bytes:
    """PNG of header, palette-free data and end mark only."""
    encoded: bytes = _image(samples).pngsave_buffer(keep="none")
    kept = [SIGNATURE]
    start = len(SIGNATURE)
    for name, _content, end in png_chunks("the encoder's output", encoded):
        # The encoder adds a resolution of its own, which would pass for a scale.
        if name in {"IHDR", "IDAT", "IEND"}:
            kept.append(encoded[start:end])
        start = end
    return b"".join(kept)


def _label_tiff(labels: npt.NDArray[np.integer[Any]]) -> bytes:
    buffer = io.BytesIO()
    tifffile.imwrite(
        buffer,
        labels.astype(np.uint32),
        photometric="minisblack",
        compression="zlib",
        software="Strandproof",
        metadata=None,
    )
    return buffer.getvalue()


def _chunk(name: bytes, content: bytes) -> bytes:
    checksum = zlib.crc32(content, zlib.crc32(name))
    return struct.pack(">I4s", len(content), name) + content + checksum.to_bytes(4)


def _pixel_size_chunk(pixel_size_um: float | None) -> Iterator[bytes]:
    if pixel_size_um is None:
        return
    per_metre = 1e6 / pixel_size_um if pixel_size_um > 0 else 0.0
    if not 1 <= round(per_metre) <= _MOST_PER_METRE:
        raise ParameterError(
            "pixel_size_um",
            pixel_size_um,
            allowed="a size from 0.0005 to 1000000 micrometres",
        )
    yield _chunk(b"pHYs", struct.pack(">IIB", round(per_metre), round(per_metre), 1))


def _text_chunk(key: str, words: str) -> bytes:
    name = key.encode("latin-1", errors="replace")
    fits = 1 <= len(name) <= 79 and key.isprintable() and key == key.strip()
    if not fits or "?" in name.decode("latin-1") or "\0" in words:
        raise ParameterError(
            "text key",
            key,
            allowed="1 to 79 printable Latin-1 characters, words without zero bytes",
        )
    if words.isascii():
        return _chunk(b"tEXt", name + b"\0" + words.encode("ascii"))
    return _chunk(b"iTXt", name + b"\0\0\0\0\0" + words.encode("utf-8"))
