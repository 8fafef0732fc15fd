"""From camera values to lightness and colour that differ as the eye sees them."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from strandproof.errors import ParameterError

FloatPlane = npt.NDArray[np.float32]
Mask = npt.NDArray[np.bool_]

_ROWS_AT_ONCE = 256  # bounds the memory of the conversion
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
    if not (visible.min() >= 0 and visible.max() <= 1):
        raise ParameterError(
            "picture",
            f"values from {visible.min()} to {visible.max()}",
            allowed="numbers from 0 to 1 in every visible pixel",
            remedy="Scale the picture, and mark unknown pixels as not valid.",
        )
    if visible.ndim == 3 and _is_grey(visible):
        visible = visible[..., 0]
    return LabPicture(
        lab=_in_strips(visible.astype(np.float32, copy=False)),
        valid=mask,
        clipped=mask & _clipped(visible),
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


def _is_grey(picture: FloatPlane) -> bool:
    first = picture[..., :1]
    return bool((picture[..., 1:] == first).all())


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
    linear = np.where(
        srgb > _LINEAR_SRGB_LIMIT, ((srgb + 0.055) / 1.055) ** 2.4, srgb / 12.92
    )
    if srgb.ndim == 2:
        return (116 * _cube_root(linear) - 16)[..., None]
    white = _RGB_TO_XYZ.sum(axis=1)
    x, y, z = np.moveaxis(_cube_root(linear @ (_RGB_TO_XYZ.T / white)), -1, 0)
    lab: FloatPlane = np.stack([116 * y - 16, 500 * (x - y), 200 * (y - z)], axis=-1)
    return lab


def _cube_root(ratio: FloatPlane) -> FloatPlane:
    """CIE 1976: the cube root, with a straight piece near black."""
    straight = (24389 / 27 * ratio + 16) / 116
    return np.where(ratio > _CUBE_ROOT_LIMIT, np.cbrt(ratio), straight)
