"""Areas and intercept lengths of all whole pieces of one picture."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import sqrt

import numpy as np
import numpy.typing as npt
from scipy import ndimage
from skimage import measure as shapes

from strandproof.grainsize.patch import MetalPatch
from strandproof.grainsize.traverses import WalkedLine
from strandproof.quantity import Quantity
from strandproof.records.procedures import Spread, WholePictureStatistics

_PERCENTS = (5.0, 25.0, 50.0, 75.0, 95.0)
_AREA_WEIGHT = (
    "grains cut by the frame left out; each whole grain weighted by the inverse of "
    "its chance to lie whole in the frame"
)
_LENGTH_WEIGHT = (
    "pieces at the ends of lines left out; each whole piece weighted by the inverse "
    "of its chance to lie whole in its line"
)
Floats = npt.NDArray[np.float64]
_crofton: Callable[[npt.NDArray[np.bool_], int], float] = shapes.perimeter_crofton


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class WholeGrains:
    """Grains that the frame does not cut.

    Parameters
    ----------
    labels : ndarray of int, shape (n,)
        Their numbers.
    areas_px : ndarray of float, shape (n,)
        Areas [px^2].
    perimeters_px : ndarray of float, shape (n,)
        Lengths of their outlines [px].
    centres_px : ndarray of float, shape (n, 2)
        Row and column of their centres in the patch [px].
    weights : ndarray of float, shape (n,)
        Inverse of the chance to lie whole in the frame; 1 or above.
    left_out : int
        Grains that the frame cuts.
    """

    labels: npt.NDArray[np.intp]
    areas_px: Floats
    perimeters_px: Floats
    centres_px: Floats
    weights: Floats
    left_out: int


def whole_grains(patch: MetalPatch) -> WholeGrains:
    """Measure every grain that the picture's frame does not cut.

    Small grains are cut less often, so that whole grains alone are too small in the
    mean; the weights undo that.

    Parameters
    ----------
    patch : MetalPatch
        The piece of metal.

    Returns
    -------
    WholeGrains
        Grains in order of their number.

    Notes
    -----
    A grain h x w lies whole in a frame H x W with the chance
    (H - h)(W - w)/(H W) (Miles; Lantuejoul; from memory). Only sides that the
    frame cuts count; a strand's own edge cuts no grain. Outlines by Crofton's
    formula with four directions, because counting pixel sides overstates them.
    """
    cut = _cut_by_frame(patch)
    height, width = _frame_size(patch)
    found: list[tuple[float, ...]] = []
    for label, place in enumerate(ndimage.find_objects(patch.labels), start=1):
        if place is None or cut[label]:
            continue
        own = patch.labels[place] == label
        rows, cols = np.nonzero(own)
        chance = _chance(own.shape[0], height) * _chance(own.shape[1], width)
        found.append(
            (
                label,
                rows.size,
                _crofton(np.pad(own, 1), 4),
                rows.mean() + place[0].start,
                cols.mean() + place[1].start,
                1.0 / chance,
            )
        )
    table = np.array(found, dtype=np.float64).reshape(-1, 6)
    return WholeGrains(
        labels=table[:, 0].astype(np.intp),
        areas_px=table[:, 1],
        perimeters_px=table[:, 2],
        centres_px=table[:, 3:5],
        weights=table[:, 5],
        left_out=int(np.count_nonzero(cut[1:])),
    )


def whole_picture_statistics(
    grains: WholeGrains,
    lines: Sequence[WalkedLine],
    *,
    pixel_size: Quantity | None,
) -> WholePictureStatistics:
    """Spread of grain areas and of intercept lengths.

    Parameters
    ----------
    grains : WholeGrains
        Grains of the piece of metal.
    lines : sequence of WalkedLine
        Test lines over it, in all directions.
    pixel_size : Quantity or None
        Size of a pixel [um]; None leaves pixels.

    Returns
    -------
    WholePictureStatistics
        Both spreads; they describe this picture only.
    """
    size = 1.0 if pixel_size is None else pixel_size.value
    unit = "px" if pixel_size is None else "um"
    lengths, weights, ends = _whole_pieces(lines)
    return WholePictureStatistics(
        areas=spread_of(
            grains.areas_px * size**2,
            grains.weights,
            unit=f"{unit}^2",
            left_out=grains.left_out,
            weighting=_AREA_WEIGHT,
        ),
        intercepts=spread_of(
            lengths * size,
            weights,
            unit=unit,
            left_out=ends,
            weighting=_LENGTH_WEIGHT,
        ),
    )


def spread_of(
    sizes: Floats, weights: Floats, *, unit: str, left_out: int, weighting: str
) -> Spread:
    """Summarise sizes with weights.

    Parameters
    ----------
    sizes : ndarray of float, shape (n,)
        Sizes, above 0.
    weights : ndarray of float, shape (n,)
        Weights, above 0.
    unit : str
        Unit of the sizes.
    left_out : int
        Pieces left out.
    weighting : str
        What the weights are, in words.

    Returns
    -------
    Spread
        Empty but for the counts with fewer than two pieces.
    """
    if sizes.size < 2:
        return Spread(
            n=int(sizes.size),
            left_out=left_out,
            unit=unit,
            weighting=weighting,
            mean=None,
            standard_deviation=None,
            coefficient_of_variation=None,
            log_standard_deviation=None,
            percentiles=(),
            largest=float(sizes.max()) if sizes.size else None,
        )
    mean, deviation = weighted_moments(sizes, weights)
    _, of_logarithm = weighted_moments(np.log(sizes), weights)
    return Spread(
        n=int(sizes.size),
        left_out=left_out,
        unit=unit,
        weighting=weighting,
        mean=mean,
        standard_deviation=deviation,
        coefficient_of_variation=deviation / mean,
        log_standard_deviation=of_logarithm,
        percentiles=tuple(
            (percent, weighted_percentile(sizes, weights, percent))
            for percent in _PERCENTS
        ),
        largest=float(sizes.max()),
    )


def weighted_moments(sizes: Floats, weights: Floats) -> tuple[float, float]:
    """Weighted mean and standard deviation.

    Parameters
    ----------
    sizes, weights : ndarray of float, shape (n,)
        At least two sizes; weights above 0.

    Returns
    -------
    mean, standard_deviation : float
        In the unit of the sizes; the deviation with n/(n - 1).
    """
    mean = float(np.average(sizes, weights=weights))
    variance = float(np.average((sizes - mean) ** 2, weights=weights))
    return mean, sqrt(variance * sizes.size / (sizes.size - 1))


def weighted_percentile(sizes: Floats, weights: Floats, percent: float) -> float:
    """Size below which a share of the weight lies.

    Parameters
    ----------
    sizes, weights : ndarray of float, shape (n,)
        At least one size; weights above 0.
    percent : float
        From 0 to 100.

    Returns
    -------
    float
        Interpolated between the sizes.
    """
    order = np.argsort(sizes)
    ordered = weights[order]
    middles = (np.cumsum(ordered) - 0.5 * ordered) / ordered.sum()
    return float(np.interp(percent / 100.0, middles, sizes[order]))


def _cut_by_frame(patch: MetalPatch) -> npt.NDArray[np.bool_]:
    # Metal reaches the border of a patch only where the picture's frame cuts it.
    cut = np.zeros(int(patch.labels.max()) + 1, np.bool_)
    for side in (
        patch.labels[0],
        patch.labels[-1],
        patch.labels[:, 0],
        patch.labels[:, -1],
    ):
        cut[side] = True
    cut[0] = False
    return cut


def _frame_size(patch: MetalPatch) -> tuple[float | None, float | None]:
    """Height and width of the frame; None where it cuts no metal."""
    n_rows, n_cols = patch.metal.shape
    upright = patch.metal[0].any() or patch.metal[-1].any()
    level = patch.metal[:, 0].any() or patch.metal[:, -1].any()
    return (float(n_rows) if upright else None, float(n_cols) if level else None)


def _chance(extent: int, frame: float | None) -> float:
    if frame is None:
        return 1.0
    # A whole grain leaves at least one pixel of room.
    return max(frame - extent, 1.0) / frame


def _whole_pieces(lines: Sequence[WalkedLine]) -> tuple[Floats, Floats, int]:
    lengths, weights, ends = [np.empty(0)], [np.empty(0)], 0
    for line in lines:
        pieces = np.diff(line.crossings_px)
        room = line.traverse.length_px - pieces
        lengths.append(pieces)
        weights.append(line.traverse.length_px / np.maximum(room, 1.0))
        ends += min(2, line.traverse.crossings + 1)
    return np.concatenate(lengths), np.concatenate(weights), ends


def boundary_contrast(patch: MetalPatch, coarse: npt.NDArray[np.bool_]) -> Floats:
    """Share of each grain's outline that other grains outside of a set border.

    Parameters
    ----------
    patch : MetalPatch
        The piece of metal.
    coarse : ndarray of bool, shape (n_labels + 1,)
        Whether each label belongs to the set.

    Returns
    -------
    ndarray of float, shape (n_labels + 1,)
        Share of the pixels just outside of the grain, metal only, that belong to
        grains outside of the set; 0 for labels without any.
    """
    outside = np.zeros(coarse.size)
    every = np.zeros(coarse.size)
    for label, place in enumerate(ndimage.find_objects(patch.labels), start=1):
        if place is None or not coarse[label]:
            continue
        rows, cols = (slice(max(0, one.start - 1), one.stop + 1) for one in place)
        own = patch.labels[rows, cols] == label
        rim = ndimage.binary_dilation(own) & ~own & (patch.labels[rows, cols] > 0)
        neighbours = patch.labels[rows, cols][rim]
        every[label] = neighbours.size
        outside[label] = np.count_nonzero(~coarse[neighbours])
    return np.divide(outside, every, out=np.zeros(coarse.size), where=every > 0)
