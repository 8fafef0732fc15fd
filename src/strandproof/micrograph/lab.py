"""From camera values to lightness and colour that differ as the eye sees them."""

from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt

from strandproof.errors import ParameterError

FloatPlane = npt.NDArray[np.float32]
Mask = npt.NDArray[np.bool_]

_ROWS_AT_ONCE = 32  # bounds the memory of the conversion, and fits the cache
_RGB_TO_XYZ = np.array(
    [
        [0.412453, 0.357580, 0.180423],
        [0.212671, 0.715160, 0.072169],
        [0.019334, 0.119193, 0.950227],
    ],
    np.float32,
)
_LINEAR_SRGB_LIMIT = 0.04045
_CUBE_ROOT_LIMIT = 216 / 24389


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LabPicture:
    """A checked picture in CIE L*a*b*.

    Parameters
    ----------
    lab : ndarray of float32, shape (n_rows, n_cols, n_channels)
        L* alone (one channel) for a picture without colour, else L*, a*, b*.
    valid : ndarray of bool, shape (n_rows, n_cols)
        Pixels that show something (not transparent).
    clipped : ndarray of bool, shape (n_rows, n_cols)
        Valid pixels that are fully black or fully white.
    """

    lab: FloatPlane
    valid: Mask
    clipped: Mask

    @property
    def lightness(self) -> FloatPlane:
        """L* [0 to 100], shape (n_rows, n_cols)."""
        lightness: FloatPlane = self.lab[..., 0]
        return lightness


def lab_picture(picture: FloatPlane, *, valid: Mask | None = None) -> LabPicture:
    """Check a picture and convert it from sRGB to CIE L*a*b*.

    Equal distances in L*a*b* look about equally large, so one threshold serves
    for dark and bright grains. A colour picture whose three channels are equal
    is treated as grey.

    Parameters
    ----------
    picture : ndarray of float, shape (n_rows, n_cols) or (n_rows, n_cols, 3)
        sRGB values, 0 to 1.
    valid : ndarray of bool, shape (n_rows, n_cols), optional
        False where the picture is transparent; all True if left out.

    Returns
    -------
    LabPicture
        Lightness and colour; transparent pixels are 0.

    Raises
    ------
    ParameterError
        If a shape or a type does not fit, or if a visible pixel is not a number
        from 0 to 1.

    Notes
    -----
    Transfer curve of IEC 61966-2-1 (sRGB), CIE 1976 L*a*b*, white point D65:
    constants from memory, checked in the tests against an independent library.

    Examples
    --------
    >>> grey = np.full((2, 2), 0.5, np.float32)
    >>> round(float(lab_picture(grey).lightness[0, 0]), 2)
    53.39
    """
    _require_picture(picture)
    mask = _checked_mask(picture.shape[:2], valid)
    visible = np.where(mask if picture.ndim == 2 else mask[..., None], picture, 0)
    _require_range(visible)
    if visible.ndim == 3 and _is_grey(visible):
        visible = visible[..., 0]
    return LabPicture(
        lab=_in_strips(visible.astype(np.float32, copy=False)),
        valid=mask,
        clipped=mask & _clipped(visible),
    )


def lab_of_bytes(
    pixels: npt.NDArray[np.uint8], *, valid: Mask | None = None
) -> LabPicture:
    """Convert a picture of 8 bits from sRGB to CIE L*a*b*, through a table.

    The same as `lab_picture` of the pixels over 255, in a fraction of the time.

    Parameters
    ----------
    pixels : ndarray of uint8, shape (n_rows, n_cols, 3)
        sRGB, as of `checked_bytes`; three equal channels are grey.
    valid : ndarray of bool, shape (n_rows, n_cols), optional
        False where the picture is transparent; all True if left out.

    Returns
    -------
    LabPicture
        Lightness and colour; transparent pixels are 0.

    Raises
    ------
    ParameterError
        If a shape or a type does not fit.
    """
    _require_bytes(pixels)
    mask = _checked_mask(pixels.shape[:2], valid)
    if not mask.all():
        pixels = np.where(mask[..., None], pixels, np.uint8(0))
    grey = _is_grey(pixels)
    levels = _linear_of(np.arange(256, dtype=np.float32) / np.float32(255))
    shades = _lab_of_linear(levels)
    lab = np.empty((*pixels.shape[:2], 1 if grey else 3), np.float32)
    clipped = np.empty(pixels.shape[:2], np.bool_)
    for start in range(0, pixels.shape[0], _ROWS_AT_ONCE):
        rows = slice(start, start + _ROWS_AT_ONCE)
        strip = pixels[rows]
        lab[rows] = (
            shades[strip[..., 0]] if grey else _lab_of_linear(levels.take(strip))
        )
        red, green, blue = (np.ascontiguousarray(strip[..., k]) for k in range(3))
        clipped[rows] = (red | green | blue == 0) | (red & green & blue == 255)
    return LabPicture(lab=lab, valid=mask, clipped=mask & clipped)


def checked_bytes(
    picture: FloatPlane, *, valid: Mask | None = None
) -> npt.NDArray[np.uint8]:
    """Check a picture and turn it into three channels of 8 bits.

    Parameters
    ----------
    picture : ndarray of float, shape (n_rows, n_cols) or (n_rows, n_cols, 3)
        sRGB values, 0 to 1.
    valid : ndarray of bool, shape (n_rows, n_cols), optional
        False where the picture is transparent; all True if left out.

    Returns
    -------
    ndarray of uint8, shape (n_rows, n_cols, 3)
        Rounded; transparent pixels are 0.

    Raises
    ------
    ParameterError
        If a shape or a type does not fit, or if a visible pixel is not a number
        from 0 to 1.
    """
    _require_picture(picture)
    mask = _checked_mask(picture.shape[:2], valid)
    pixels = np.empty((*picture.shape[:2], 3), np.uint8)
    for start in range(0, picture.shape[0], _ROWS_AT_ONCE):
        rows = slice(start, start + _ROWS_AT_ONCE)
        strip = picture[rows] if picture.ndim == 3 else picture[rows][..., None]
        seen = np.where(mask[rows][..., None], strip, 0)
        _require_range(seen)
        pixels[rows] = np.rint(seen * 255)
    return pixels


def _require_range(seen: FloatPlane) -> None:
    if not (seen.min() >= 0 and seen.max() <= 1):
        raise ParameterError(
            "picture",
            f"values from {seen.min()} to {seen.max()}",
            allowed="numbers from 0 to 1 in every visible pixel",
            remedy="Scale the picture, and mark unknown pixels as not valid.",
        )


def _require_picture(picture: FloatPlane) -> None:
    shape_fits = picture.ndim == 2 or (picture.ndim == 3 and picture.shape[2] == 3)
    if not shape_fits or picture.size == 0:
        raise ParameterError(
            "picture",
            f"an array of shape {picture.shape}",
            allowed="(n_rows, n_cols) or (n_rows, n_cols, 3), not empty",
        )
    if not np.issubdtype(picture.dtype, np.floating):
        raise ParameterError(
            "picture",
            f"an array of {picture.dtype}",
            allowed="floating point numbers from 0 to 1",
            remedy="Divide whole numbers by their full scale first.",
        )


def _require_bytes(pixels: npt.NDArray[np.uint8]) -> None:
    if pixels.ndim != 3 or pixels.shape[2] != 3 or pixels.dtype != np.uint8:
        raise ParameterError(
            "pixels",
            f"an array of {pixels.dtype} and shape {pixels.shape}",
            allowed="uint8 of shape (n_rows, n_cols, 3)",
        )


def _checked_mask(shape: tuple[int, ...], valid: Mask | None) -> Mask:
    if valid is None:
        return np.ones(shape, np.bool_)
    if valid.shape != shape or valid.dtype != np.bool_:
        raise ParameterError(
            "valid",
            f"an array of {valid.dtype} and shape {valid.shape}",
            allowed=f"truth values of shape {shape}",
        )
    return valid


def _is_grey(picture: npt.NDArray[Any]) -> bool:
    first = picture[..., 0]
    return all(np.array_equal(picture[..., k], first) for k in (1, 2))


def _clipped(picture: FloatPlane) -> Mask:
    """All channels at the first or the last of 256 levels."""
    low, high = picture <= 0.5 / 255, picture >= 254.5 / 255
    if picture.ndim == 2:
        return low | high
    clipped: Mask = np.logical_or(low.all(axis=2), high.all(axis=2))
    return clipped


def _in_strips(picture: FloatPlane) -> FloatPlane:
    n_channels = 1 if picture.ndim == 2 else 3
    lab = np.empty((*picture.shape[:2], n_channels), np.float32)
    for start in range(0, picture.shape[0], _ROWS_AT_ONCE):
        rows = slice(start, start + _ROWS_AT_ONCE)
        lab[rows] = _lab_of(picture[rows])
    return lab


def _lab_of(srgb: FloatPlane) -> FloatPlane:
    return _lab_of_linear(_linear_of(srgb))


def _linear_of(srgb: FloatPlane) -> FloatPlane:
    """IEC 61966-2-1: from stored values to light."""
    return np.where(
        srgb > _LINEAR_SRGB_LIMIT, ((srgb + 0.055) / 1.055) ** 2.4, srgb / 12.92
    )


def _lab_of_linear(linear: FloatPlane) -> FloatPlane:
    if linear.ndim < 3:
        return (116 * _cube_root(linear) - 16)[..., None]
    white = _RGB_TO_XYZ.sum(axis=1)
    roots = _cube_root(linear @ (_RGB_TO_XYZ.T / white))
    x, y, z = (roots[..., k] for k in range(3))
    lab = np.empty_like(roots)
    lab[..., 0] = 116 * y - 16
    lab[..., 1] = 500 * (x - y)
    lab[..., 2] = 200 * (y - z)
    return lab


def _cube_root(ratio: FloatPlane) -> FloatPlane:
    """CIE 1976: the cube root, with a straight piece near black."""
    root: FloatPlane = np.cbrt(ratio)
    dark = ratio <= _CUBE_ROOT_LIMIT
    if dark.any():
        root[dark] = (24389 / 27 * ratio[dark] + 16) / 116
    return root
