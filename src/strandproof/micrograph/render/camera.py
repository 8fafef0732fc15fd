"""From light at the section to the numbers of a camera."""

import numpy as np
import numpy.typing as npt
from scipy import fft, ndimage

from strandproof.micrograph.render.appearance import Camera
from strandproof.micrograph.render.noise import FloatPlane, stream

# Luminance and chroma tables of ITU-T T.81 (09/92), Annex K, tables K.1 and K.2
# (from memory; they only shape an artefact and decide no measurement).
_LUMINANCE_TABLE = np.array(
    [
        [16, 11, 10, 16, 24, 40, 51, 61],
        [12, 12, 14, 19, 26, 58, 60, 55],
        [14, 13, 16, 24, 40, 57, 69, 56],
        [14, 17, 22, 29, 51, 87, 80, 62],
        [18, 22, 37, 56, 68, 109, 103, 77],
        [24, 35, 55, 64, 81, 104, 113, 92],
        [49, 64, 78, 87, 103, 121, 120, 101],
        [72, 92, 95, 98, 112, 100, 103, 99],
    ],
    np.float32,
)
_CHROMA_TABLE = np.full((8, 8), 99, np.float32)
_CHROMA_TABLE[:4, :4] = [
    [17, 18, 24, 47],
    [18, 21, 26, 66],
    [24, 26, 56, 99],
    [47, 66, 99, 99],
]

_GREY_WEIGHTS = (0.299, 0.587, 0.114)


def photograph(
    light: list[FloatPlane], camera: Camera, seed: int
) -> npt.NDArray[np.float32]:
    """Blur, light unevenly, add noise, compress.

    Parameters
    ----------
    light : list of ndarray of float32, shape (n_rows, n_cols)
        Red, green and blue light; polished metal near 1.
    camera : Camera
        What to do.
    seed : int
        Seed of the section.

    Returns
    -------
    ndarray of float32, shape (n_rows, n_cols, 3)
        Picture, 0 to 1.
    """
    planes = light if camera.colour else [grey(light)]
    field = _light_field(planes[0].shape, camera, stream(seed, "light"))
    planes = [_optics(plane, camera) * field for plane in planes]
    generator = stream(seed, "noise")
    planes = [_noisy(plane, camera, generator) for plane in planes]
    if camera.jpeg_quality is not None:
        planes = _compressed(planes, camera.jpeg_quality)
    if len(planes) == 1:
        planes = planes * 3
    return np.stack(planes, axis=-1)


def grey(planes: list[FloatPlane]) -> FloatPlane:
    """Luminance of three colour planes."""
    mixed = np.zeros_like(planes[0])
    for weight, plane in zip(_GREY_WEIGHTS, planes, strict=True):
        mixed += np.float32(weight) * plane
    return mixed


def _light_field(
    shape: tuple[int, int], camera: Camera, generator: np.random.Generator
) -> FloatPlane:
    sides = [np.linspace(-1, 1, side).astype(np.float32) for side in shape]
    y, x = sides[0][:, None], sides[1][None, :]
    turn = generator.uniform(0, 2 * np.pi)
    centre = generator.uniform(-0.25, 0.25, 2)
    slope = np.float32(camera.light_gradient / 2)
    tilt = slope * (np.float32(np.cos(turn)) * x + np.float32(np.sin(turn)) * y)
    far = ((x - np.float32(centre[0])) ** 2 + (y - np.float32(centre[1])) ** 2) / 2
    field = (1 + tilt) * (1 - camera.vignetting * far) * camera.exposure
    return np.maximum(field, 0).astype(np.float32)


def _optics(plane: FloatPlane, camera: Camera) -> FloatPlane:
    if camera.blur_px > 0.2:
        plane = ndimage.gaussian_filter(plane, camera.blur_px, truncate=3.0)
    if camera.sharpening > 0:
        soft = ndimage.gaussian_filter(plane, 1.2 + camera.blur_px, truncate=2.5)
        plane = plane + np.float32(camera.sharpening) * (plane - soft)
    return plane


def _noisy(
    plane: FloatPlane, camera: Camera, generator: np.random.Generator
) -> FloatPlane:
    lit = np.clip(plane, 0, 1)
    variance = np.float32(camera.shot_noise**2) * lit + np.float32(camera.read_noise**2)
    noise = generator.standard_normal(plane.shape, dtype=np.float32)
    noise *= np.sqrt(variance)
    noise += plane
    return np.clip(noise, 0, 1, out=noise)


def _compressed(planes: list[FloatPlane], quality: int) -> list[FloatPlane]:
    """Round the block-cosine coefficients as a lossy file of that quality does."""
    scale = 50 / quality if quality < 50 else 2 - quality / 50
    tables = [
        np.clip(np.rint(table * scale), 1, 255).astype(np.float32)
        for table in (_LUMINANCE_TABLE, _CHROMA_TABLE)
    ]
    if len(planes) == 1:
        return [_rounded_blocks(planes[0] * 255 - 128, tables[0])]
    red, _, blue = planes
    luminance = grey(planes)
    chroma = [(blue - luminance) * 0.564 * 255, (red - luminance) * 0.713 * 255]
    luminance = _rounded_blocks(luminance * 255 - 128, tables[0], clip=False)
    low, high = (
        _rounded_blocks(_halved(plane), tables[1], clip=False) for plane in chroma
    )
    low, high = (
        np.repeat(np.repeat(plane, 2, 0), 2, 1)[: red.shape[0], : red.shape[1]]
        for plane in (low, high)
    )
    return [
        np.clip((plane + 128) / 255, 0, 1).astype(np.float32)
        for plane in (
            luminance + 1.402 * high,
            luminance - 0.344 * low - 0.714 * high,
            luminance + 1.772 * low,
        )
    ]


def _halved(plane: FloatPlane) -> FloatPlane:
    n_rows, n_cols = plane.shape
    padded = np.pad(plane, ((0, n_rows % 2), (0, n_cols % 2)), mode="edge")
    halved = padded[::2, ::2] + padded[1::2, ::2]
    halved += padded[::2, 1::2]
    halved += padded[1::2, 1::2]
    halved *= np.float32(0.25)
    return halved


def _rounded_blocks(
    plane: FloatPlane, table: FloatPlane, *, clip: bool = True
) -> FloatPlane:
    n_rows, n_cols = plane.shape
    padded = np.pad(plane, ((0, -n_rows % 8), (0, -n_cols % 8)), mode="edge")
    blocks = padded.reshape(padded.shape[0] // 8, 8, padded.shape[1] // 8, 8)
    steps = table[None, :, None, :]
    waves = fft.dctn(blocks, axes=(1, 3), norm="ortho")
    waves = np.rint(waves / steps) * steps
    back = fft.idctn(waves, axes=(1, 3), norm="ortho").reshape(padded.shape)
    restored: FloatPlane = back[:n_rows, :n_cols].astype(np.float32)
    if clip:
        restored += 128
        restored /= 255
        np.clip(restored, 0, 1, out=restored)
    return restored
