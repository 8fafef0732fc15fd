"""The picture seen twice: as it is, and at half its size.

What a boundary is often shows only from farther away: a bamboo wall among scratches, a
step of hue over ten pixels. Fine grains show only from near. So both answers are put
together, the far one counting where the near one finds few boundaries.
"""

import numpy as np
import numpy.typing as npt
from scipy import ndimage

from strandproof.micrograph.learned import planes

Bytes = npt.NDArray[np.uint8]
Floats = npt.NDArray[np.float32]

_LEAST_SIDE_PX = 64  # smaller pictures are seen once
# Mean of the boundary plane over a window, in bytes, from which grains are too fine to
# be seen from afar, and below which both answers count alike: about 15 and 35 px of
# mean intercept.
_WINDOW_PX = 32  # of the halved picture
_FINE_FROM, _COARSE_BELOW = 64.0, 32.0
_FAR_SHARE = 0.5
_ROWS_AT_ONCE = 512
SEEN_TWICE = (planes.GRAIN_BOUNDARY, planes.TWIN_BOUNDARY)


def is_seen_twice(n_rows: int, n_cols: int) -> bool:
    """Tell whether a picture is large enough to be halved.

    Parameters
    ----------
    n_rows, n_cols : int
        Size [px].

    Returns
    -------
    bool
        True from 64 px on both sides.
    """
    return min(n_rows, n_cols) >= _LEAST_SIDE_PX


def halved(picture: Bytes) -> Bytes:
    """Give the mean of every 2 x 2 pixels; an odd last row or column is left out.

    Parameters
    ----------
    picture : ndarray of uint8, shape (n_rows, n_cols, ...)
        Any channels.

    Returns
    -------
    ndarray of uint8, shape (n_rows // 2, n_cols // 2, ...)
        Rounded means.
    """
    n_rows, n_cols = picture.shape[0] // 2 * 2, picture.shape[1] // 2 * 2
    sums = picture[0:n_rows:2, 0:n_cols:2].astype(np.uint16)
    sums += picture[1:n_rows:2, 0:n_cols:2]
    sums += picture[0:n_rows:2, 1:n_cols:2]
    sums += picture[1:n_rows:2, 1:n_cols:2]
    means: Bytes = ((sums + 2) // 4).astype(np.uint8)
    return means


def doubled(plane: Bytes, shape: tuple[int, int]) -> Bytes:
    """Enlarge a plane twice, straight lines between the pixel centres.

    Parameters
    ----------
    plane : ndarray of uint8, shape (n_rows, n_cols)
        A plane of the halved picture.
    shape : tuple of int
        Rows and columns wanted, each twice as many or one more.

    Returns
    -------
    ndarray of uint8, shape `shape`
        The plane.
    """
    large = _doubled_rows(_doubled_rows(plane).T).T
    missing = [(0, want - have) for want, have in zip(shape, large.shape, strict=True)]
    filled: Bytes = (
        np.pad(large, missing, mode="edge")
        if any(extra for _, extra in missing)
        else large
    )
    return filled


def _doubled_rows(plane: Bytes) -> Bytes:
    """Rows at a quarter before and a quarter after each row's centre."""
    wide = plane.astype(np.uint16)
    before = np.concatenate([wide[:1], wide[:-1]])
    after = np.concatenate([wide[1:], wide[-1:]])
    rows = np.empty((2 * plane.shape[0], plane.shape[1]), np.uint8)
    rows[0::2] = (3 * wide + before + 2) // 4
    rows[1::2] = (3 * wide + after + 2) // 4
    return rows


def put_together(near: Bytes, far: Bytes) -> None:
    """Let the answer from afar count where the near one is coarse; changes `near`.

    Parameters
    ----------
    near : ndarray of uint8, shape (n_planes, n_rows, n_cols)
        Planes of the picture.
    far : ndarray of uint8, shape (n_planes, n_rows // 2, n_cols // 2)
        Planes of the halved picture.
    """
    shape = (near.shape[1], near.shape[2])
    share = doubled(_share_of_far(halved(near[planes.GRAIN_BOUNDARY])), shape)
    for plane in SEEN_TWICE:
        other = doubled(far[plane], shape)
        for start in range(0, shape[0], _ROWS_AT_ONCE):
            rows = slice(start, start + _ROWS_AT_ONCE)
            weight = share[rows].astype(np.float32) / 255
            mixed = near[plane, rows] + weight * (
                other[rows].astype(np.float32) - near[plane, rows]
            )
            near[plane, rows] = np.rint(mixed)


def _share_of_far(boundary: Bytes) -> Bytes:
    """Give the weight of the answer from afar, 255 for 1."""
    density = ndimage.uniform_filter(
        boundary.astype(np.float32), _WINDOW_PX, mode="nearest"
    )
    coarse: Floats = (_FINE_FROM - density) / (_FINE_FROM - _COARSE_BELOW)
    share: Bytes = np.rint(255 * _FAR_SHARE * np.clip(coarse, 0, 1)).astype(np.uint8)
    return share
