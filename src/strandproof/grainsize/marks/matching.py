"""Which marks of two readers on the same line are the same mark."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import exp

import numpy as np
from scipy.optimize import linear_sum_assignment

from strandproof.errors import ParameterError
from strandproof.grainsize.agreement import ReaderAgreement, reader_agreement
from strandproof.grainsize.marks.lines import CircularTestLine
from strandproof.grainsize.marks.marked import LineMark, MarkedLine

NOT_MARKED = "not marked"
"""What stands for a mark that the other reader did not set."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MarkPair:
    """A mark that both readers set, or one of them.

    Parameters
    ----------
    line : int
        Number of the test line.
    first, second : LineMark or None
        The mark of each reader; None where that reader set none.
    """

    line: int
    first: LineMark | None
    second: LineMark | None

    @property
    def same(self) -> bool:
        """Whether both set it and took it for the same."""
        return (
            self.first is not None
            and self.second is not None
            and self.first.feature == self.second.feature
        )

    @property
    def along_px(self) -> float:
        """Place along the line [px]: the first reader's, else the second's."""
        mark = self.first or self.second
        return 0.0 if mark is None else mark.along_px


@dataclass(frozen=True, slots=True, kw_only=True)
class MarkComparison:
    """How far two readers' marks on the same lines agree.

    Parameters
    ----------
    pairs : tuple of MarkPair
        All marks of both, line by line and along each line.
    tolerance_px : float
        How far apart two marks may lie to be the same mark [px].
    matched_by_chance : float
        Pairs that would be expected if the second reader's marks lay anywhere.
    classes : ReaderAgreement or None
        Agreement on the class of the marks that both set; None without any.
    """

    pairs: tuple[MarkPair, ...]
    tolerance_px: float
    matched_by_chance: float
    classes: ReaderAgreement | None

    @property
    def matched(self) -> tuple[MarkPair, ...]:
        """Marks that both readers set."""
        return tuple(p for p in self.pairs if p.first and p.second)

    @property
    def differences(self) -> tuple[MarkPair, ...]:
        """Marks that one reader did not set, or took for something else."""
        return tuple(pair for pair in self.pairs if not pair.same)


def compare_marks(
    first: Sequence[MarkedLine], second: Sequence[MarkedLine], *, tolerance_px: float
) -> MarkComparison:
    """Match two readers' marks along the same test lines.

    As many marks as possible are paired, each with at most one of the other
    reader's and within the tolerance; among such ways the one with the least sum of
    squared distances, which never crosses over.

    Parameters
    ----------
    first, second : sequence of MarkedLine
        Both readers' lines: the same lines, in any order.
    tolerance_px : float
        How far apart two marks may lie to be the same mark [px]; above 0. Choose it
        by the steadiness of a hand, well below the distance of marks.

    Returns
    -------
    MarkComparison
        Pairs, lone marks, and the agreement on classes.

    Raises
    ------
    ParameterError
        If the tolerance is not above 0, or the lines are not the same.

    Notes
    -----
    Expected by chance: the first reader's marks times 1 - exp(-2 t n / L), the
    chance that one of the other's n marks on a line of length L lies within t of a
    given place (Poisson, from memory); pairs used up by another mark are not taken
    off, so it is a little too high.
    """
    if not tolerance_px > 0:
        raise ParameterError("tolerance_px", tolerance_px, allowed="a length above 0")
    theirs = {marked.line.number: marked for marked in second}
    mine = {marked.line.number: marked for marked in first}
    if {n: m.line for n, m in mine.items()} != {n: m.line for n, m in theirs.items()}:
        raise ParameterError(
            "second",
            sorted(theirs),
            allowed=f"marks on the very lines of the first reader ({sorted(mine)})",
            remedy="Have both readers mark the same test lines.",
        )
    both = [(mine[number], theirs[number]) for number in sorted(mine)]
    pairs = tuple(
        pair for one, other in both for pair in _pairs(one, other, tolerance_px)
    )
    matched = [
        (p.first.feature, p.second.feature) for p in pairs if p.first and p.second
    ]
    return MarkComparison(
        pairs=pairs,
        tolerance_px=tolerance_px,
        matched_by_chance=sum(_by_chance(a, b, tolerance_px) for a, b in both),
        classes=(
            reader_agreement([a for a, _ in matched], [b for _, b in matched])
            if matched
            else None
        ),
    )


def _pairs(
    first: MarkedLine, second: MarkedLine, tolerance_px: float
) -> list[MarkPair]:
    apart = np.abs(
        np.subtract.outer(
            [mark.along_px for mark in first.marks],
            [mark.along_px for mark in second.marks],
        ).reshape(len(first.marks), len(second.marks))
    )
    if isinstance(first.line, CircularTestLine):
        apart = np.minimum(apart, first.line.length_px - apart)
    near = apart <= tolerance_px
    # Dearer than all pairs within the tolerance together, so none is given up for it.
    too_far = tolerance_px**2 * (1 + min(apart.shape))
    rows, columns = linear_sum_assignment(np.where(near, apart**2, too_far))
    other_of = {
        int(row): int(column)
        for row, column in zip(rows, columns, strict=True)
        if near[row, column]
    }
    number = first.line.number
    found = [
        MarkPair(
            line=number,
            first=mark,
            second=second.marks[other_of[k]] if k in other_of else None,
        )
        for k, mark in enumerate(first.marks)
    ]
    found += [
        MarkPair(line=number, first=None, second=mark)
        for k, mark in enumerate(second.marks)
        if k not in other_of.values()
    ]
    return sorted(found, key=lambda pair: pair.along_px)


def _by_chance(first: MarkedLine, second: MarkedLine, tolerance_px: float) -> float:
    density = len(second.marks) / first.line.length_px
    return len(first.marks) * (1.0 - exp(-2.0 * tolerance_px * density))
