"""One interval for each level: what it would be had other units been drawn there."""

from dataclasses import dataclass
from math import fsum, sqrt

from strandproof.grainsize.by_level.nested_values import (
    NestedValues,
    unit_means,
    unit_weights,
)
from strandproof.grainsize.scaling import relative_accuracy_of
from strandproof.quantity import BudgetLine, Interval, Quantity, coverage_factor
from strandproof.records.measurement import Estimate


@dataclass(frozen=True, slots=True, kw_only=True)
class LevelInterval:
    """The mean with the interval that the scatter at one level gives it.

    Parameters
    ----------
    level : str
        Level whose units are taken as drawn by chance, in the singular.
    speaks_for : str
        What the interval is about; everything above the level stays as it is.
    units : int
        Units at this level.
    degrees_of_freedom : int
        Units less the units that they lie in.
    estimate : Estimate
        The grand mean, the same at every level, with this level's interval.
    """

    level: str
    speaks_for: str
    units: int
    degrees_of_freedom: int
    estimate: Estimate


def intervals_by_level(
    values: NestedValues, *, unit: str, confidence: float = 0.95
) -> tuple[LevelInterval, ...]:
    """Give the grand mean an interval from the scatter at each level.

    Only the interval at the outermost level speaks for what the cables were drawn
    from. The others hold for the very cables, strands or sections examined, and
    are narrower for that reason, not because more is known.

    Parameters
    ----------
    values : NestedValues
        The values.
    unit : str
        Their unit.
    confidence : float
        Two-sided confidence, between 0 and 1.

    Returns
    -------
    tuple of LevelInterval
        Outermost first. A level without two units side by side in one unit above
        shows no scatter and is left out.

    Raises
    ------
    ParameterError
        If the confidence is outside of (0, 1).

    Notes
    -----
    m = sum(w_u m_u) over the units u of the level, w as in `unit_weights`; with
    d_u the distance of a unit's mean from that of the unit it lies in,

    s^2 = sum(d_u^2) / nu,   u(m)^2 = s^2 sum(w_u^2),   nu = units - units above.

    The same scatter is assumed within all units above. At the outermost level
    this is t s / sqrt(n), ASTM E562 and E112 section 15, read (secondary).

    Examples
    --------
    >>> values = NestedValues(
    ...     levels=("cable", "field"),
    ...     places=(("a", "1"), ("a", "2"), ("b", "1"), ("b", "2")),
    ...     values=(8.0, 9.0, 8.5, 10.5),
    ... )
    >>> for each in intervals_by_level(values, unit="um"):
    ...     print(each.level, each.degrees_of_freedom, each.speaks_for)
    cable 1 what the cables were drawn from
    field 2 these cables, had other fields of them been taken
    """
    coverage_factor(confidence)  # Refuses a wrong confidence before any work.
    found = (
        _level_interval(values, depth, unit, confidence)
        for depth in range(1, len(values.levels) + 1)
    )
    return tuple(each for each in found if each is not None)


def _level_interval(
    values: NestedValues, depth: int, unit: str, confidence: float
) -> LevelInterval | None:
    means, above = unit_means(values, depth), unit_means(values, depth - 1)
    freedom = len(means) - len(above)
    if freedom == 0:
        return None
    squares = fsum((mean - above[place[:-1]]) ** 2 for place, mean in means.items())
    weights = unit_weights(values, depth).values()
    u = sqrt(squares / freedom * fsum(weight**2 for weight in weights))
    level, mean = values.levels[depth - 1], unit_means(values, 0)[()]
    quantity = _sampled(mean, unit, u, freedom, level)
    half = coverage_factor(confidence, degrees_of_freedom=freedom) * u
    interval = Interval(
        lower=mean - half,
        upper=mean + half,
        unit=unit,
        confidence=confidence,
        method=f"means by {level}: {len(means)} values, Student t with {freedom} "
        f"degrees of freedom",
    )
    return LevelInterval(
        level=level,
        speaks_for=_speaks_for(values.levels, depth),
        units=len(means),
        degrees_of_freedom=freedom,
        estimate=Estimate(
            quantity=quantity,
            interval95=interval,
            relative_accuracy_percent=relative_accuracy_of(quantity, interval),
        ),
    )


def _sampled(mean: float, unit: str, u: float, freedom: int, level: str) -> Quantity:
    line = BudgetLine(
        name=f"sampling by {level}",
        standard_uncertainty=u,
        unit=unit,
        sensitivity=1.0,
        component=u,
        degrees_of_freedom=float(freedom),
    )
    return Quantity(mean, unit, u, float(freedom), (line,))


def _speaks_for(levels: tuple[str, ...], depth: int) -> str:
    if depth == 1:
        return f"what the {levels[0]}s were drawn from"
    return (
        f"these {levels[depth - 2]}s, had other {levels[depth - 1]}s of them been taken"
    )
