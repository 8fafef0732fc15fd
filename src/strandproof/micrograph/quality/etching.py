"""Etched too far, not far enough, or too faint against the noise."""

from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt
from scipy import ndimage

from strandproof.micrograph.quality.crossings import (
    REACH_PX,
    LineCrossings,
    profiles_at_crossings,
    profiles_inside,
)

Bytes = npt.NDArray[np.uint8]
FloatPlane = npt.NDArray[np.float32]
Labels = npt.NDArray[np.integer[Any]]
Mask = npt.NDArray[np.bool_]
Array = npt.NDArray[np.float64]

_FEWEST = 40  # crossings that a share is stated of
_LEAST_DEPTH = 3.0  # L*; below this no groove is measured
# Twins lie inside of grains too, but at fewer than three quarters of the places. The
# factor raises the lower quartile of noise above nearly all of it (measured here).
_NULL_QUANTILE, _NULL_FACTOR = 0.25, 4.0
_SIDE_PX = 5  # of metal compared with the line, at both sides
_WINDOW_PX = 512
_MOST_WINDOWS = 4
_SURE = 128  # of 255
_REACHED_PX = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class GrooveLook:
    """How the crossings of found boundaries look.

    Parameters
    ----------
    width_px : float or None
        Mean width of grooves at half depth, along test lines [px]; None where
        no groove of 3 L* shows.
    unseen_share : float or None
        Share of the crossings that show no more than places inside of grains do.
    contrast : float or None
        Median step or depth at crossings over what places inside of grains show
        by noise and texture (4 times their lower quartile). Both are None where
        hardly a grain is large enough to see its inside.
    """

    width_px: float | None
    unseen_share: float | None
    contrast: float | None


def groove_look(
    lab: FloatPlane, ways: tuple[LineCrossings, LineCrossings]
) -> GrooveLook | None:
    """Look at the picture where test lines cross found boundaries.

    Parameters
    ----------
    lab : ndarray of float32, shape (n_rows, n_cols, n_channels)
        L* alone, or L*, a*, b*.
    ways : tuple of LineCrossings
        Crossings along rows and columns.

    Returns
    -------
    GrooveLook or None
        None with fewer than 40 crossings.

    Notes
    -----
    Test lines meet grooves at all angles, which widens the width; the same angles
    lengthen the grains, so that width over mean intercept is about the area share
    of grooves; the mean of narrow and wide profiles makes it up to a fifth low.
    """
    profiles = np.concatenate([profiles_at_crossings(lab, way) for way in ways])
    if len(profiles) < _FEWEST:
        return None
    mean_chord = _mean_intercept(ways)
    width = _half_depth_width(profiles[..., 0], mean_chord)
    half = min(round((width or 2.0) / 2), REACH_PX - _SIDE_PX - 2)
    least = 2 * (half + _SIDE_PX + 4)  # so that no boundary lies in the profile
    inside = np.concatenate(
        [profiles_inside(lab, way, least_chord_px=least) for way in ways]
    )
    if len(inside) < _FEWEST:
        return GrooveLook(width_px=width, unseen_share=None, contrast=None)
    limit = _NULL_FACTOR * float(np.quantile(_visibility(inside, half), _NULL_QUANTILE))
    seen = _visibility(profiles, half)
    return GrooveLook(
        width_px=width,
        unseen_share=float((seen <= limit).mean()),
        contrast=float(np.median(seen)) / max(limit, 1e-3),
    )


def _mean_intercept(ways: tuple[LineCrossings, LineCrossings]) -> float:
    count = sum(way.place.size for way in ways)
    return sum(float(way.length_px[1:].sum()) for way in ways) / max(count, 1)


def _half_depth_width(profiles: FloatPlane, mean_chord: float) -> float | None:
    """Width at half depth of the mean groove; steps of shade cancel out in it."""
    mean = profiles.mean(axis=0, dtype=np.float64)
    half = ((mean + mean[::-1]) / 2)[REACH_PX:]
    reach = int(np.clip(round(mean_chord / 2), 3, REACH_PX))
    bottom, plateau = half[:2].min(), half[: reach + 1].max()
    if plateau - bottom < _LEAST_DEPTH:
        return None
    middle = (plateau + bottom) / 2
    first = int(np.argmax(half > middle))
    if first == 0:
        return None
    below, above = half[first - 1], half[first]
    return 2 * (first - 1 + float((middle - below) / (above - below)))


def _visibility(profiles: FloatPlane, half: int) -> Array:
    """Depth of the line or step of shade, whichever is larger [L*a*b* distance].

    The line is sought within 2 px, since boundaries are drawn that well at best.
    """
    middle = REACH_PX
    near = profiles[:, middle - 3 : middle + 4, 0]
    line = (near[:, :-2] + near[:, 1:-1] + near[:, 2:]).min(axis=1) / 3
    start, end = half + 2, half + 2 + _SIDE_PX
    left = profiles[:, middle - end + 1 : middle - start + 1].mean(axis=1)
    right = profiles[:, middle + start : middle + end].mean(axis=1)
    depth = np.minimum(left[:, 0], right[:, 0]) - line
    step = np.sqrt(((left - right) ** 2).sum(axis=1))
    seen: Array = np.maximum(depth, step).astype(np.float64)
    return seen


@dataclass(frozen=True, slots=True, kw_only=True)
class BoundaryClosure:
    """How the evidence for boundaries and the closed boundaries agree.

    Parameters
    ----------
    drawn_px : int
        Length of the drawn boundary, in pixels that it passes.
    unsupported_px : int
        Part of it beside which the probability stays below 1/2.
    left_over_px : int
        Area of sure boundary farther than 4 px from any drawn one [px]: lines that
        end inside of grains.
    """

    drawn_px: int
    unsupported_px: int
    left_over_px: int

    def unsupported(self) -> float:
        """Share of the drawn boundary that is unsupported.

        Returns
        -------
        float
            0 to 1.
        """
        return self.unsupported_px / max(self.drawn_px, 1)


def boundary_closure(
    grain_labels: Labels, strand_labels: Labels, probability: Bytes
) -> BoundaryClosure:
    """Hold drawn boundaries against the probability that they were drawn from.

    Parameters
    ----------
    grain_labels, strand_labels : ndarray of int, shape (n_rows, n_cols)
        Grains and strands.
    probability : ndarray of uint8, shape (n_rows, n_cols)
        Probability of a boundary, 255 for 1, with its crest on the line.

    Returns
    -------
    BoundaryClosure
        From at most four windows of 512 px.
    """
    found = [
        _closure(grain_labels[window], strand_labels[window], probability[window])
        for window in _windows(strand_labels)
    ]
    return BoundaryClosure(
        drawn_px=sum(each.drawn_px for each in found),
        unsupported_px=sum(each.unsupported_px for each in found),
        left_over_px=sum(each.left_over_px for each in found),
    )


def _windows(strand_labels: Labels) -> list[tuple[slice, slice]]:
    """Windows spread over those that show metal."""
    every = [
        (slice(row, row + _WINDOW_PX), slice(col, col + _WINDOW_PX))
        for row in range(0, max(1, strand_labels.shape[0] - _WINDOW_PX + 1), _WINDOW_PX)
        for col in range(0, max(1, strand_labels.shape[1] - _WINDOW_PX + 1), _WINDOW_PX)
    ]
    on_metal = [window for window in every if strand_labels[window][::16, ::16].any()]
    count = min(_MOST_WINDOWS, len(on_metal))
    return [on_metal[round(k)] for k in np.linspace(0, len(on_metal) - 1, count)]


def _closure(grains: Labels, strands: Labels, probability: Bytes) -> BoundaryClosure:
    drawn = _drawn_lines(grains, strands)
    near = ndimage.maximum_filter(probability, 5)
    side = 2 * _REACHED_PX + 1
    beside = ndimage.maximum_filter(drawn | (strands == 0), side)
    loose = (probability >= _SURE) & ~beside
    return BoundaryClosure(
        drawn_px=int(np.count_nonzero(drawn)),
        unsupported_px=int(np.count_nonzero(drawn & (near < _SURE))),
        left_over_px=int(np.count_nonzero(loose)),
    )


def _drawn_lines(grains: Labels, strands: Labels) -> Mask:
    """Lines of one pixel, whether they are drawn as 0 or lie between two grains."""
    lines: Mask = (grains == 0) & (strands > 0)
    for axis in (0, 1):
        here = [slice(None), slice(None)]
        there = [slice(None), slice(None)]
        here[axis], there[axis] = slice(None, -1), slice(1, None)
        a, b = tuple(here), tuple(there)
        meets = (grains[a] != grains[b]) & (grains[a] > 0) & (grains[b] > 0)
        lines[a] |= meets & (strands[a] == strands[b]) & (strands[a] > 0)
    return lines
