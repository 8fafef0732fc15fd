"""Parts of one picture whose scatter makes the interval of a mean intercept.

Lines of several directions and close lines cross the same grains, so single lines
or intercepts are no independent readings. Parts of the picture that are several
grains wide nearly are: each gives a length and a number of intercepts, and the
scatter of their quotient about the common one is what the interval comes from.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import cos, floor, radians, sin, sqrt

import numpy as np
import numpy.typing as npt

from strandproof.grainsize.traverses import WalkedLine
from strandproof.records.measurement import CountingRules, LineEndRule

_SAMPLES_PER_RUN = 64


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BlockTally:
    """Line length and intercepts in each part of a picture.

    Parameters
    ----------
    lengths_px : ndarray of float, shape (n_blocks,)
        Length of line in metal [px].
    intercepts : ndarray of float, shape (n_blocks,)
        Intercepts, by the line-end rule.
    crossings : int
        Boundaries crossed in all parts together.
    """

    lengths_px: npt.NDArray[np.float64]
    intercepts: npt.NDArray[np.float64]
    crossings: int


@dataclass(frozen=True, slots=True, kw_only=True)
class BlockGrid:
    """Equal rectangles along and across the strand axis.

    Parameters
    ----------
    axis_deg : float
        Direction of the axis [deg], from +x towards +y upwards.
    along_px, across_px : tuple of float
        Least and greatest coordinate along and across the axis [px].
    n_along, n_across : int
        Parts along and across.
    """

    axis_deg: float
    along_px: tuple[float, float]
    across_px: tuple[float, float]
    n_along: int
    n_across: int

    @property
    def size(self) -> int:
        """Number of parts."""
        return self.n_along * self.n_across

    def numbers(
        self, rows: npt.NDArray[np.float64], cols: npt.NDArray[np.float64]
    ) -> npt.NDArray[np.intp]:
        """Return the number of the part that each point lies in.

        Parameters
        ----------
        rows, cols : ndarray of float, shape (n,)
            Points in the picture [px].

        Returns
        -------
        ndarray of int, shape (n,)
            From 0 to ``size - 1``; points outside go to the nearest part.
        """
        along, across = _axis_coordinates(rows, cols, self.axis_deg)
        number_along = _part(along, self.along_px, self.n_along)
        number_across = _part(across, self.across_px, self.n_across)
        return number_along * self.n_across + number_across


def block_grid(
    lines: Sequence[WalkedLine],
    *,
    axis_deg: float,
    mean_intercept_px: float,
    rules: CountingRules,
) -> BlockGrid:
    """Divide a piece of metal into nearly square parts of several grains.

    Parameters
    ----------
    lines : sequence of WalkedLine
        Lines over the piece; none where it is so small that lines miss it.
    axis_deg : float
        Direction of the strand axis [deg].
    mean_intercept_px : float
        First estimate of the mean intercept [px]; sets the least side.
    rules : CountingRules
        Least side in mean intercepts and the most parts.

    Returns
    -------
    BlockGrid
        At least one part.
    """
    if not lines:
        nowhere = (0.0, 0.0)
        return BlockGrid(
            axis_deg=axis_deg,
            along_px=nowhere,
            across_px=nowhere,
            n_along=1,
            n_across=1,
        )
    ends = np.array([(*w.traverse.start_px, *w.traverse.end_px) for w in lines])
    rows, cols = ends[:, ::2].ravel(), ends[:, 1::2].ravel()
    along, across = _axis_coordinates(rows, cols, axis_deg)
    length, width = float(np.ptp(along)), float(np.ptp(across))
    side = max(
        rules.minimum_block_side * mean_intercept_px,
        sqrt(length * width / rules.maximum_blocks),
    )
    n_across = _whole_parts(width, side, rules.maximum_blocks)
    return BlockGrid(
        axis_deg=axis_deg,
        along_px=(float(along.min()), float(along.max())),
        across_px=(float(across.min()), float(across.max())),
        n_along=_whole_parts(length, side, rules.maximum_blocks // n_across),
        n_across=n_across,
    )


def block_tally(
    lines: Sequence[WalkedLine], grid: BlockGrid, *, line_ends: LineEndRule
) -> BlockTally:
    """Share out the lines and their intercepts over the parts of a grid.

    Parameters
    ----------
    lines : sequence of WalkedLine
        Lines of one or several directions.
    grid : BlockGrid
        The parts.
    line_ends : {"half", "whole_at_strand_edge"}
        Score of an intercept at the end of a line.

    Returns
    -------
    BlockTally
        One length and one number of intercepts per part.
    """
    lengths, intercepts = np.zeros(grid.size), np.zeros(grid.size)
    for line in lines:
        length = line.traverse.length_px
        count = max(_SAMPLES_PER_RUN, int(length))
        samples = np.arange(count, dtype=np.float64)
        middles = (samples + 0.5) * (length / count)
        parts = grid.numbers(*line.positions_px(middles))
        lengths += np.bincount(parts, minlength=grid.size) * (length / count)
        crossed = grid.numbers(*line.positions_px(line.crossings_px))
        intercepts += np.bincount(crossed, minlength=grid.size)
        if line_ends == "whole_at_strand_edge":
            # The halves of the two ends are shared out over the run's length.
            halves = 0.5 * line.traverse.strand_edge_ends
            intercepts += np.bincount(parts, minlength=grid.size) * (halves / count)
    return BlockTally(
        lengths_px=lengths,
        intercepts=intercepts,
        crossings=sum(line.traverse.crossings for line in lines),
    )


def joined_tally(tallies: Sequence[BlockTally]) -> BlockTally:
    """Parts of several pieces of metal, side by side.

    Parameters
    ----------
    tallies : sequence of BlockTally
        One per piece; at least one.

    Returns
    -------
    BlockTally
        All parts.
    """
    return BlockTally(
        lengths_px=np.concatenate([tally.lengths_px for tally in tallies]),
        intercepts=np.concatenate([tally.intercepts for tally in tallies]),
        crossings=sum(tally.crossings for tally in tallies),
    )


def summed_tally(tallies: Sequence[BlockTally]) -> BlockTally:
    """All directions of line together, part by part.

    Parameters
    ----------
    tallies : sequence of BlockTally
        One per direction, over the same parts; at least one.

    Returns
    -------
    BlockTally
        The same parts, with the sums.
    """
    return BlockTally(
        lengths_px=np.sum([tally.lengths_px for tally in tallies], axis=0),
        intercepts=np.sum([tally.intercepts for tally in tallies], axis=0),
        crossings=sum(tally.crossings for tally in tallies),
    )


def _axis_coordinates(
    rows: npt.NDArray[np.float64], cols: npt.NDArray[np.float64], axis_deg: float
) -> tuple[npt.NDArray[np.float64], npt.NDArray[np.float64]]:
    cosine, sine = cos(radians(axis_deg)), sin(radians(axis_deg))
    return cols * cosine - rows * sine, cols * sine + rows * cosine


def _whole_parts(extent: float, side: float, most: int) -> int:
    # An extent of three sides is three parts, however it was rounded.
    return min(most, max(1, floor(extent / side + 1e-9)))


def _part(
    places: npt.NDArray[np.float64], span: tuple[float, float], parts: int
) -> npt.NDArray[np.intp]:
    width = max(span[1] - span[0], 1e-9)
    share = np.floor((places - span[0]) / width * parts)
    return np.clip(share, 0, parts - 1).astype(np.intp)
