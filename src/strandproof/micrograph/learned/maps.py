"""The planes of a whole picture, made tile by tile."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from math import ceil

import numpy as np
import numpy.typing as npt

from strandproof.micrograph.learned.network import answers
from strandproof.micrograph.learned.planes import PLANES
from strandproof.micrograph.learned.scales import halved, is_seen_twice, put_together

Bytes = npt.NDArray[np.uint8]
Answer = Callable[[Bytes], Bytes]
Progress = Callable[[float], None]

_STRIDE_PX = 32  # the network's coarsest step
_TILE_PX = 1024
_HALO_PX = 64  # seen around each tile and cut away again


@dataclass(frozen=True, slots=True, kw_only=True)
class _Span:
    """Pixels to fill along one side, and the pixels to look at for them."""

    start: int
    stop: int
    seen_start: int
    seen_stop: int


def structure_maps(
    picture: Bytes, *, answer: Answer = answers, progress: Progress | None = None
) -> Bytes:
    """Give the planes of a picture of any size.

    Parameters
    ----------
    picture : ndarray of uint8, shape (n_rows, n_cols, 3)
        sRGB.
    answer : callable
        What answers a tile; the packaged network.
    progress : callable, optional
        Called with the share done; raising from it cancels.

    Returns
    -------
    ndarray of uint8, shape (n_planes, n_rows, n_cols)
        Probability of each plane, 255 for 1.

    Notes
    -----
    Tiles start at multiples of the network's coarsest step and are seen with 64 px
    around them, so a crop, a tile and the whole picture are answered alike but
    for what lies beyond the crop's own edge. The halved picture is answered too (see
    `scales`). Memory beside the planes is that of one tile.
    """
    report = progress or _silent
    near = _answered(picture, answer, lambda done: report(0.8 * done))
    if is_seen_twice(*picture.shape[:2]):
        far = _answered(halved(picture), answer, lambda done: report(0.8 + 0.2 * done))
        put_together(near, far)
    return near


def _answered(picture: Bytes, answer: Answer, report: Progress) -> Bytes:
    """Answer tile by tile."""
    n_rows, n_cols = picture.shape[:2]
    planes = np.empty((len(PLANES), n_rows, n_cols), np.uint8)
    tiles = [(rows, cols) for rows in _spans(n_rows) for cols in _spans(n_cols)]
    for done, (rows, cols) in enumerate(tiles):
        report(done / len(tiles))
        seen = picture[
            rows.seen_start : rows.seen_stop, cols.seen_start : cols.seen_stop
        ]
        found = answer(_filled_up(seen))
        top, left = rows.start - rows.seen_start, cols.start - cols.seen_start
        planes[:, rows.start : rows.stop, cols.start : cols.stop] = found[
            :,
            top : top + rows.stop - rows.start,
            left : left + cols.stop - cols.start,
        ]
    return planes


def _spans(size: int) -> Iterator[_Span]:
    """Cut a side to tiles of about equal size."""
    n_tiles = max(1, ceil(size / _TILE_PX))
    step = ceil(size / n_tiles / _STRIDE_PX) * _STRIDE_PX
    for start in range(0, size, step):
        stop = min(start + step, size)
        yield _Span(
            start=start,
            stop=stop,
            seen_start=max(start - _HALO_PX, 0),
            seen_stop=min(stop + _HALO_PX, size),
        )


def _filled_up(seen: Bytes) -> Bytes:
    """Mirror the picture at its lower and right edge up to whole steps."""
    missing = [-side % _STRIDE_PX for side in seen.shape[:2]]
    if any(missing):
        widths = ((0, missing[0]), (0, missing[1]), (0, 0))
        seen = np.pad(seen, widths, mode="symmetric")
    return np.ascontiguousarray(seen.transpose(2, 0, 1))


def _silent(_done: float) -> None:
    return None
