"""Light seams beside dark lines: the trace of edge sharpening."""

import numpy as np
import numpy.typing as npt
from scipy import ndimage

FloatPlane = npt.NDArray[np.float32]

_REACH_PX = 14
_MOST_LINES = 400  # of one tile
_FEWEST_LINES = 30
_LEAST_ALONE = 0.15  # of the lines; among small grains beside is the next line
_SEAM = slice(3, 6)  # px from the middle of a line
_BESIDE = slice(8, 13)


def seam_height(tiles: FloatPlane) -> float | None:
    """Measure light seams at both sides of dark lines.

    Parameters
    ----------
    tiles : ndarray of float32, shape (n_tiles, side, side)
        Grey levels.

    Returns
    -------
    float or None
        How far the metal 3 to 5 px beside a line is lighter than 8 to 12 px
        beside it, as a share of the line's depth; None with too few lines that
        have no neighbour so near.
    """
    profiles = [_profiles(tile) for tile in tiles]
    every = np.concatenate(profiles) if profiles else np.empty((0, 0))
    if len(every) < _FEWEST_LINES:
        return None
    middle = _REACH_PX
    sides = np.stack([every[:, middle::-1], every[:, middle:]])
    bottom = sides[:, :, :2].mean(axis=(0, 2))
    beside = sides[:, :, _BESIDE].mean(axis=2)
    depth = beside.min(axis=0) - bottom
    clear = depth > 0.5 * np.median(depth)
    lowest = sides[:, :, 5:].min(axis=(0, 2))
    alone = clear & (lowest - bottom > 0.6 * depth)
    fewest = max(_FEWEST_LINES, _LEAST_ALONE * np.count_nonzero(clear))
    if np.count_nonzero(alone) < fewest:
        return None
    # A step in height is light at one side and dark at the other; the mean of both
    # sides and of many lines knows nothing of it.
    scaled = sides.mean(axis=0)[alone] / depth[alone, None]
    typical = np.median(scaled - scaled[:, _BESIDE].mean(axis=1)[:, None], axis=0)
    return float(typical[_SEAM].max())


def _profiles(tile: FloatPlane) -> FloatPlane:
    """Grey levels across the strongest dark lines, from side to side."""
    soft = ndimage.gaussian_filter(tile, 1.5, truncate=3)
    rr = soft[2:, 1:-1] + soft[:-2, 1:-1] - 2 * soft[1:-1, 1:-1]
    cc = soft[1:-1, 2:] + soft[1:-1, :-2] - 2 * soft[1:-1, 1:-1]
    rc = (soft[2:, 2:] + soft[:-2, :-2] - soft[2:, :-2] - soft[:-2, 2:]) / 4
    bend = (rr + cc) / 2 + np.hypot((cc - rr) / 2, rc)
    bend[bend < ndimage.maximum_filter(bend, 5)] = 0
    margin = _REACH_PX
    inner = bend[margin:-margin, margin:-margin]
    rows, cols = np.nonzero(inner > 0)
    order = np.argsort(-inner[rows, cols])
    order = order[: min(_MOST_LINES, order.size // 2)]
    rows, cols = rows[order] + margin, cols[order] + margin
    turn = np.arctan2(2 * rc[rows, cols], cc[rows, cols] - rr[rows, cols]) / 2
    places = np.arange(-_REACH_PX, _REACH_PX + 1)
    along = rows[:, None] + 1 + places * np.sin(turn)[:, None]
    aside = cols[:, None] + 1 + places * np.cos(turn)[:, None]
    profiles: FloatPlane = ndimage.map_coordinates(
        tile, [along, aside], order=1, mode="nearest"
    )
    return profiles
