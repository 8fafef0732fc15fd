"""Mean lineal intercepts in four directions, with the interval of one picture."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import sqrt

import numpy as np

from strandproof.grainsize.blocks import (
    BlockGrid,
    BlockTally,
    block_grid,
    block_tally,
    joined_tally,
    summed_tally,
)
from strandproof.grainsize.estimates import mean_intercept_estimate
from strandproof.grainsize.patch import MetalPatch
from strandproof.grainsize.traverses import WalkedLine, parallel_lines
from strandproof.quantity import Quantity
from strandproof.records.measurement import (
    CountingRules,
    DirectionalIntercept,
    InterceptCount,
)

DIRECTIONS_DEG = (0.0, 45.0, 90.0, 135.0)
"""Directions of the test lines from the strand axis [deg]: along, ..., across."""

_LEAST_SPACING_PX = 2.0
_SPACING_TOLERANCE = 1.3


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PatchLines:
    """Test lines walked over one piece of metal, by direction.

    Parameters
    ----------
    lines : tuple of tuple of WalkedLine
        The lines of each of `DIRECTIONS_DEG`.
    tallies : tuple of BlockTally
        Length and intercepts of each direction, by the same parts.
    grid : BlockGrid
        The parts.
    has_axis : bool
        Whether the strand axis lies in the picture, so that 0 and 90 deg mean
        along and across.
    """

    lines: tuple[tuple[WalkedLine, ...], ...]
    tallies: tuple[BlockTally, ...]
    grid: BlockGrid
    has_axis: bool


def walk_patch(
    patch: MetalPatch, *, axis_deg: float, has_axis: bool, rules: CountingRules
) -> PatchLines:
    """Walk test lines about one mean intercept apart in all four directions.

    Closer lines would cross the same grains again and add little. The spacing
    comes from a first pass whose lines stand as far apart as the square root of
    the area per grain.

    Parameters
    ----------
    patch : MetalPatch
        The piece of metal.
    axis_deg : float
        Direction of the strand axis [deg], from +x towards +y upwards.
    has_axis : bool
        Whether that is truly the axis of a strand seen from the side.
    rules : CountingRules
        Spacing, sampling step, line-end rule, parts.

    Returns
    -------
    PatchLines
        The lines and their tallies.
    """
    area = float(np.count_nonzero(patch.metal))
    spacing = rules.line_spacing * sqrt(area / max(1, patch.grains))
    lines = _walk_all(patch, axis_deg, spacing, rules)
    mean_px = _mean_intercept_px(lines) or sqrt(area)
    wanted = rules.line_spacing * mean_px
    if not spacing / _SPACING_TOLERANCE <= wanted <= spacing * _SPACING_TOLERANCE:
        lines = _walk_all(patch, axis_deg, wanted, rules)
    grid = block_grid(
        [line for each in lines for line in each],
        axis_deg=axis_deg,
        mean_intercept_px=mean_px,
        rules=rules,
    )
    tallies = tuple(
        block_tally(each, grid, line_ends=rules.line_ends) for each in lines
    )
    return PatchLines(lines=lines, tallies=tallies, grid=grid, has_axis=has_axis)


def intercept_count(
    pieces: Sequence[PatchLines], *, rules: CountingRules
) -> InterceptCount:
    """Mean intercepts of one piece of metal, or of several pooled.

    Parameters
    ----------
    pieces : sequence of PatchLines
        Lines walked over each piece; at least one piece.
    rules : CountingRules
        Rules of the interval.

    Returns
    -------
    InterceptCount
        Directions and all together, in pixels.
    """
    directions = tuple(
        _directional(pieces, index, rules) for index in range(len(DIRECTIONS_DEG))
    )
    tally = joined_tally([summed_tally(piece.tallies) for piece in pieces])
    lines = [line for piece in pieces for each in piece.lines for line in each]
    return InterceptCount(
        directions=directions,
        mean_intercept=mean_intercept_estimate(
            tally, directions=len(DIRECTIONS_DEG), rules=rules
        ),
        elongation=_elongation([piece for piece in pieces if piece.has_axis]),
        blocks=int(np.count_nonzero(tally.lengths_px)),
        length=Quantity(float(tally.lengths_px.sum()), "px"),
        intercepts=float(tally.intercepts.sum()),
        traverses=tuple(line.traverse for line in lines),
    )


def _walk_all(
    patch: MetalPatch, axis_deg: float, spacing_px: float, rules: CountingRules
) -> tuple[tuple[WalkedLine, ...], ...]:
    return tuple(
        parallel_lines(
            patch,
            direction_deg=axis_deg + direction,
            spacing_px=max(_LEAST_SPACING_PX, spacing_px),
            step_px=rules.sample_step_px,
        )
        for direction in DIRECTIONS_DEG
    )


def _mean_intercept_px(lines: Sequence[Sequence[WalkedLine]]) -> float | None:
    """Length per crossing, for the spacing of lines and the size of parts only."""
    runs = [line.traverse for each in lines for line in each]
    crossings = sum(run.crossings for run in runs)
    return sum(run.length_px for run in runs) / crossings if crossings else None


def _directional(
    pieces: Sequence[PatchLines], index: int, rules: CountingRules
) -> DirectionalIntercept:
    tally = joined_tally([piece.tallies[index] for piece in pieces])
    return DirectionalIntercept(
        direction_deg=DIRECTIONS_DEG[index],
        lines=sum(len(piece.lines[index]) for piece in pieces),
        length=Quantity(float(tally.lengths_px.sum()), "px"),
        intercepts=float(tally.intercepts.sum()),
        mean_intercept=mean_intercept_estimate(tally, directions=1, rules=rules),
    )


def _elongation(pieces: Sequence[PatchLines]) -> float | None:
    """Mean intercept along over across, of the pieces that show their axis."""
    along, across = (
        _mean_intercept_px([piece.lines[DIRECTIONS_DEG.index(deg)] for piece in pieces])
        for deg in (0.0, 90.0)
    )
    return along / across if along and across else None
