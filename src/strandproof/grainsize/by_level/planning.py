"""What more fields, strands or cables would bring, from the components found."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import fsum, sqrt

from strandproof.errors import ParameterError
from strandproof.grainsize.by_level.variance_components import (
    Component,
    VarianceComponents,
)
from strandproof.quantity import coverage_factor, relative_accuracy_percent

_MORE = (1, 2, 5, 10)
_MOST_UNITS = 1000


@dataclass(frozen=True, slots=True, kw_only=True)
class Gain:
    """The relative accuracy to expect from a larger design.

    Parameters
    ----------
    level : str
        Level at which more units are taken.
    within : str
        The level above, in each unit of which they are taken; empty for the
        outermost.
    more : int
        How many more in each unit of `within`; 0 for the design as it is.
    units_each : tuple of float
        Units of every level in each unit above, outermost first; no whole number
        where they differ.
    standard_uncertainty : float
        Expected standard uncertainty of the mean, in the values' unit.
    degrees_of_freedom : int
        Units of the outermost level, less 1.
    relative_accuracy_percent : float
        Expected half-width of the interval in percent of the mean.
    """

    level: str
    within: str
    more: int
    units_each: tuple[float, ...]
    standard_uncertainty: float
    degrees_of_freedom: int
    relative_accuracy_percent: float


def expected_gains(
    found: VarianceComponents, *, more: Sequence[int] = _MORE, confidence: float = 0.95
) -> tuple[Gain, ...]:
    """Compare the relative accuracy to expect with more units at each level.

    The components are taken as known, which few units do not make them: the
    table compares designs, it promises nothing. More fields shrink the field's
    share only; what the cables differ by stays until more cables are opened.

    Parameters
    ----------
    found : VarianceComponents
        Components from the fields read so far.
    more : sequence of int
        How many more units to consider, each 1 or more.
    confidence : float
        Two-sided confidence, between 0 and 1.

    Returns
    -------
    tuple of Gain
        First the design as it is, then level by level from the outermost.

    Raises
    ------
    ParameterError
        If a number of units is below 1, the mean is not above zero, or the
        confidence is outside of (0, 1).

    Notes
    -----
    u^2 = sum over levels of s_k^2 / (n_1 n_2 ... n_k), n_k units of level k in each
    unit above (textbook of nested designs, from memory), half-width
    t(n_1 - 1) u. Where unit numbers differ, n_k is the one that gives the squared
    weights of the design.
    """
    if any(extra < 1 for extra in more):
        raise ParameterError("more", tuple(more), allowed="numbers of 1 or more")
    now = _units_each(found.components)
    gains = [_gain(found, now, 0, 0, confidence)]
    gains += [
        _gain(found, now, place, extra, confidence)
        for place in range(len(found.components))
        for extra in more
    ]
    return tuple(gains)


def more_units_for(
    found: VarianceComponents,
    level: str,
    *,
    relative_accuracy_percent: float,
    confidence: float = 0.95,
) -> int | None:
    """Fewest more units at one level that bring a wanted relative accuracy.

    Parameters
    ----------
    found : VarianceComponents
        Components from the fields read so far.
    level : str
        One of the components' levels.
    relative_accuracy_percent : float
        Wanted half-width in percent of the mean; above 0.
    confidence : float
        Two-sided confidence, between 0 and 1.

    Returns
    -------
    int or None
        0 where the design is expected to do already; None where not even a
        thousand more units at this level would do.

    Raises
    ------
    ParameterError
        If the level is unknown, the accuracy is not above 0, or the confidence
        is outside of (0, 1).

    Notes
    -----
    The smallest whole number that meets the formula of `expected_gains`, found
    by halving; the expected half-width never grows with more units.
    """
    levels = [component.level for component in found.components]
    if level not in levels:
        raise ParameterError("level", level, allowed="one of " + ", ".join(levels))
    if not relative_accuracy_percent > 0:
        raise ParameterError(
            "relative_accuracy_percent",
            relative_accuracy_percent,
            allowed="a number above 0",
        )
    place, now = levels.index(level), _units_each(found.components)

    def enough(extra: int) -> bool:
        gain = _gain(found, now, place, extra, confidence)
        return gain.relative_accuracy_percent <= relative_accuracy_percent

    if not enough(_MOST_UNITS):
        return None
    too_few, plenty = -1, _MOST_UNITS
    while plenty - too_few > 1:
        middle = (too_few + plenty) // 2
        too_few, plenty = (too_few, middle) if enough(middle) else (middle, plenty)
    return plenty


def gain_in_words(gain: Gain) -> str:
    """Say one line of the table.

    Parameters
    ----------
    gain : Gain
        The line.

    Returns
    -------
    str
        A short sentence without the final stop.

    Examples
    --------
    >>> gain_in_words(
    ...     Gain(
    ...         level="field", within="strand", more=5, units_each=(3.0, 3.0, 10.0),
    ...         standard_uncertainty=0.18, degrees_of_freedom=2,
    ...         relative_accuracy_percent=9.21,
    ...     )
    ... )
    '5 more fields in each strand: about 9.2 %'
    """
    accuracy = f"about {gain.relative_accuracy_percent:.2g} %"
    if gain.more == 0:
        return f"as it is: {accuracy}"
    units = gain.level if gain.more == 1 else _plural(gain.level)
    each = f" in each {gain.within}" if gain.within else ""
    return f"{gain.more} more {units}{each}: {accuracy}"


def _plural(level: str) -> str:
    return " and ".join(f"{word}s" for word in level.split(" and "))


def _units_each(components: Sequence[Component]) -> tuple[float, ...]:
    """Units in each unit above, so that their products give the squared weights."""
    squared = [1.0, *(component.squared_weights for component in components)]
    return tuple(above / below for above, below in pairwise(squared))


def _gain(
    found: VarianceComponents,
    now: tuple[float, ...],
    place: int,
    extra: int,
    confidence: float,
) -> Gain:
    each = tuple(
        units + (extra if number == place else 0) for number, units in enumerate(now)
    )
    product, shares = 1.0, []
    for component, units in zip(found.components, each, strict=True):
        product *= units
        shares.append(component.variance / product)
    u = sqrt(fsum(shares))
    freedom = found.components[0].degrees_of_freedom + (extra if place == 0 else 0)
    half = coverage_factor(confidence, degrees_of_freedom=freedom) * u
    return Gain(
        level=found.components[place].level,
        within=found.components[place - 1].level if place else "",
        more=extra,
        units_each=each,
        standard_uncertainty=u,
        degrees_of_freedom=freedom,
        relative_accuracy_percent=relative_accuracy_percent(found.mean.value, half),
    )
