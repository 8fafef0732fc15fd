"""A sample of square tiles on metal, in the camera's own grey levels."""

import numpy as np
import numpy.typing as npt

from strandproof.micrograph.lab import _RGB_TO_XYZ, LabPicture

FloatPlane = npt.NDArray[np.float32]
Mask = npt.NDArray[np.bool_]

SIDE_PX = 256
BLOCK_PX = 16
_LEAST_SIDE_PX = 64  # below this no spectrum is worth its name
_TILES_PER_MPX = 2.5
_FEWEST, _MOST = 3, 24  # bounds time and memory, whatever the picture's size
_METAL_SHARE = 0.6
_LUMA = np.array([0.299, 0.587, 0.114], np.float32)


def sampled_tiles(picture: LabPicture, metal: Mask) -> FloatPlane:
    """Take tiles spread over the metal, as luma in grey levels.

    Parameters
    ----------
    picture : LabPicture
        The picture.
    metal : ndarray of bool, shape (n_rows, n_cols)
        True on metal.

    Returns
    -------
    ndarray of float32, shape (n_tiles, side, side)
        Luma, 0 to 255, of at most 24 tiles of 256 px (of less in a smaller
        picture); no tile where the picture is below 64 px or no place is mostly
        metal.
    """
    side = min(SIDE_PX, *metal.shape) // BLOCK_PX * BLOCK_PX
    if side < _LEAST_SIDE_PX:
        return np.empty((0, side, side), np.float32)
    places = _places(metal, side)
    wanted = round(_TILES_PER_MPX * metal.size / 1e6)
    wanted = min(max(_FEWEST, wanted), _MOST, len(places))
    chosen = np.linspace(0, len(places) - 1, wanted).round().astype(int)
    tiles = [
        camera_levels(picture.lab[row : row + side, col : col + side])
        for row, col in (places[k] for k in chosen)
    ]
    return np.stack(tiles) if tiles else np.empty((0, side, side), np.float32)


def _places(metal: Mask, side: int) -> list[tuple[int, int]]:
    """Corners of tiles that lie mostly on metal."""
    return [
        (row, col)
        for row in range(0, metal.shape[0] - side + 1, side)
        for col in range(0, metal.shape[1] - side + 1, side)
        if metal[row : row + side : 4, col : col + side : 4].mean() >= _METAL_SHARE
    ]


def camera_levels(lab: FloatPlane) -> FloatPlane:
    """Turn L*a*b* back into the luma that a camera's file holds.

    The traces of a file's past (rounding, compression) are regular in these
    levels and in no others.

    Parameters
    ----------
    lab : ndarray of float32, shape (n_rows, n_cols, n_channels)
        L* alone, or L*, a*, b*.

    Returns
    -------
    ndarray of float32, shape (n_rows, n_cols)
        0.299 R + 0.587 G + 0.114 B of the sRGB values, 0 to 255.

    Notes
    -----
    The inverse of `strandproof.micrograph.lab.lab_picture`; luma weights of
    ITU-R BT.601 (from memory).
    """
    root: FloatPlane = ((lab[..., 0] + 16) / 116).astype(np.float32)
    if lab.shape[2] == 1:
        return _srgb_levels(_cubed(root))
    roots = np.repeat(root[..., None], 3, axis=2)
    roots[..., 0] += lab[..., 1] / 500
    roots[..., 2] -= lab[..., 2] / 200
    relative = _cubed(roots)
    white = _RGB_TO_XYZ.sum(axis=1)
    to_rgb = (np.linalg.inv(_RGB_TO_XYZ) * white).T.astype(np.float32)
    levels: FloatPlane = _srgb_levels(relative @ to_rgb) @ _LUMA
    return levels


def _cubed(root: FloatPlane) -> FloatPlane:
    """CIE 1976, backwards: the cube, with a straight piece near black."""
    return np.where(root > 6 / 29, root * root * root, (116 * root - 16) * (27 / 24389))


def _srgb_levels(linear: FloatPlane) -> FloatPlane:
    """IEC 61966-2-1, backwards, times 255."""
    curved = 1.055 * np.maximum(linear, 0.003) ** np.float32(1 / 2.4) - 0.055
    return 255 * np.where(linear > 0.0031308, curved, 12.92 * linear)
