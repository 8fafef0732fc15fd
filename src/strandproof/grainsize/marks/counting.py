"""From marks to counts by class and mean intercepts, with and without the doubtful."""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from math import ceil, floor, inf, sqrt
from types import MappingProxyType
from typing import Literal, get_args

from strandproof.errors import ParameterError
from strandproof.grainsize.marks.lines import CircularTestLine
from strandproof.grainsize.marks.marked import LineMark, MarkedLine
from strandproof.grainsize.scaling import (
    MICROMETRES,
    require_pixel_size,
    scaled_estimate,
    scaled_quantity,
)
from strandproof.quantity import (
    BudgetLine,
    Interval,
    Quantity,
    poisson_interval,
    relative_accuracy_percent,
)
from strandproof.records.entries.laboratory import MarkFeature, MarkMeeting
from strandproof.records.measurement import Estimate

TangentRule = Literal["half", "whole"]

FEATURES: tuple[MarkFeature, ...] = get_args(MarkFeature)
"""The classes of a mark, in the order of the forms."""

_WITHIN = "within this reading"
_CONFIDENCE = 0.95


@dataclass(frozen=True, slots=True, kw_only=True)
class MarkScores:
    """How much a mark counts, by the way a line meets it; a crossing counts one.

    Parameters
    ----------
    line_end : float
        A line that ends exactly on a boundary.
    tangent : {"half", "whole"}
        A line that touches a boundary without crossing it. Sources differ, so the
        choice stands with every result, and so does what the other would give.
    triple_on_line, triple_on_circle : float
        A line, or a circle, through a point where three grains meet.

    Notes
    -----
    One for a crossing, one half for a tangent and one and a half for a triple point
    are the textbook's (Quantitative Microscopy, p. 449, read in part). One for a
    tangent, one half for a line's end and two for a triple point on a circle are
    ASTM E112's, from memory.
    """

    line_end: float = 0.5
    tangent: TangentRule = "half"
    triple_on_line: float = 1.5
    triple_on_circle: float = 2.0

    def score(self, mark: LineMark, *, on_circle: bool) -> float:
        """Give what one mark counts.

        Parameters
        ----------
        mark : LineMark
            The mark.
        on_circle : bool
            True for a mark on a test circle.

        Returns
        -------
        float
            Its score.
        """
        triple = self.triple_on_circle if on_circle else self.triple_on_line
        scores: dict[MarkMeeting, float] = {
            "crossing": 1.0,
            "line_end": self.line_end,
            "tangent": 0.5 if self.tangent == "half" else 1.0,
            "triple_point": triple,
        }
        return scores[mark.meets]

    def other_tangent(self) -> "MarkScores":
        """Give the same scores with the other rule for tangents.

        Returns
        -------
        MarkScores
            One where these have one half, and the other way round.
        """
        return replace(self, tangent="whole" if self.tangent == "half" else "half")


@dataclass(frozen=True, slots=True, kw_only=True)
class MarkCount:
    """What a reading's marks give.

    Parameters
    ----------
    counts : mapping of str to int
        Marks of every class, also of those that were not used (0).
    length : Quantity
        Test line in metal [px, or um with a scale].
    twins_excluded : Estimate or None
        Mean intercept with boundaries alone [px or um], the number to state; None
        where no boundary was marked.
    twins_counted : Estimate or None
        Mean intercept with twins counted as boundaries too, for comparison.
    uncertain_counted : Quantity or None
        Mean intercept without twins if every uncertain mark is a boundary; with
        `twins_excluded`, where none is, this makes the range.
    other_tangent_rule : Quantity or None
        Mean intercept without twins by the other score for tangents; None where no
        boundary only touches a line.
    scores : MarkScores
        Scores used.
    """

    counts: Mapping[MarkFeature, int]
    length: Quantity
    twins_excluded: Estimate | None
    twins_counted: Estimate | None
    uncertain_counted: Quantity | None
    other_tangent_rule: Quantity | None
    scores: MarkScores


def count_marks(
    lines: Sequence[MarkedLine],
    *,
    pixel_size: Quantity | None = None,
    scores: MarkScores | None = None,
) -> MarkCount:
    """Count marks by class and give the mean intercept with and without the doubtful.

    Parameters
    ----------
    lines : sequence of MarkedLine
        One reader's marked lines on one field; one or more.
    pixel_size : Quantity or None
        Size of a pixel [um]; None leaves lengths in pixels, and then no grain size
        number can be made of them.
    scores : MarkScores or None
        What a mark counts; None takes the defaults.

    Returns
    -------
    MarkCount
        Counts, mean intercepts and the range for uncertain marks.

    Raises
    ------
    ParameterError
        If there is no line, two lines have one number, or no line lies in metal.

    Notes
    -----
    Mean intercept = length of line in metal / score of the marks. A line's two ends
    count one half each, so the marks alone make the score, and the strand's edge
    never counts. Scratches and slip traces never count either.

    The interval has the exact Poisson limits of the score, for one reading of one
    field. Boundaries follow each other more evenly than Poisson events, so it is
    wide; intervals for a product go by lead, see `mean_over_level`.

    Examples
    --------
    >>> from strandproof.grainsize.marks.lines import StraightTestLine
    >>> line = StraightTestLine(number=1, start_px=(0, 0), end_px=(600, 0))
    >>> marks = tuple(
    ...     LineMark(along_px=50.0 * k + 25, feature="boundary") for k in range(12)
    ... )
    >>> count = count_marks([MarkedLine(line=line, marks=marks)])
    >>> count.twins_excluded.quantity.value
    50.0
    """
    numbers = [marked.line.number for marked in lines]
    length_px = sum(marked.metal_px for marked in lines)
    if not numbers or len(set(numbers)) < len(numbers) or not length_px > 0:
        raise ParameterError(
            "lines",
            numbers,
            allowed="test lines of different numbers with some length in metal",
        )
    if pixel_size is not None:
        require_pixel_size(pixel_size)
    rules = scores or MarkScores()
    wanted = {
        "twins_excluded": _score(lines, rules, ("boundary",)),
        "twins_counted": _score(lines, rules, ("boundary", "twin")),
        "uncertain_counted": _score(lines, rules, ("boundary", "uncertain")),
        "other_tangent_rule": _score(lines, rules.other_tangent(), ("boundary",)),
    }
    means = {
        name: _mean_intercept(length_px, score, pixel_size)
        for name, score in wanted.items()
    }
    differs = wanted["other_tangent_rule"] != wanted["twins_excluded"]
    return MarkCount(
        counts=MappingProxyType(_counts(lines)),
        length=scaled_quantity(Quantity(length_px, "px"), pixel_size, MICROMETRES),
        twins_excluded=means["twins_excluded"],
        twins_counted=means["twins_counted"],
        uncertain_counted=_quantity(means["uncertain_counted"]),
        other_tangent_rule=(
            _quantity(means["other_tangent_rule"]) if differs else None
        ),
        scores=rules,
    )


def _counts(lines: Iterable[MarkedLine]) -> dict[MarkFeature, int]:
    found = Counter(mark.feature for marked in lines for mark in marked.marks)
    return {feature: found[feature] for feature in FEATURES}


def _score(
    lines: Iterable[MarkedLine], rules: MarkScores, features: Sequence[MarkFeature]
) -> float:
    return sum(
        rules.score(mark, on_circle=isinstance(marked.line, CircularTestLine))
        for marked in lines
        for mark in marked.marks
        if mark.feature in features
    )


def _mean_intercept(
    length_px: float, score: float, pixel_size: Quantity | None
) -> Estimate | None:
    if score == 0:
        return None
    mean = length_px / score
    u = mean / sqrt(score)
    # Half scores lie between two counts; the outer limits of both hold for them.
    few = poisson_interval(floor(score), exposure=length_px, unit="1/px")
    many = poisson_interval(ceil(score), exposure=length_px, unit="1/px")
    upper = 1.0 / few.lower if few.lower else None
    interval = Interval(
        lower=1.0 / (many.upper or inf),
        upper=upper,
        unit="px",
        confidence=_CONFIDENCE,
        method=f"exact Poisson limits of {score:g} intercepts, {_WITHIN}",
    )
    budget = BudgetLine(
        name=f"sampling {_WITHIN}",
        standard_uncertainty=u,
        unit="px",
        sensitivity=1.0,
        component=u,
    )
    in_pixels = Estimate(
        quantity=Quantity(mean, "px", u, budget=(budget,)),
        interval95=interval,
        relative_accuracy_percent=(
            None
            if upper is None or interval.lower is None
            else relative_accuracy_percent(mean, 0.5 * (upper - interval.lower))
        ),
    )
    return scaled_estimate(in_pixels, pixel_size, MICROMETRES)


def _quantity(estimate: Estimate | None) -> Quantity | None:
    return None if estimate is None else estimate.quantity
