"""How much of the scatter sits between cables, strands, sections and fields.

A mixed model with one chance term for each level, fitted by restricted maximum
likelihood (REML), and the components of the analysis of variance beside it.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import fsum, inf, log, sqrt

import numpy as np
import numpy.typing as npt
from scipy import optimize

from strandproof.errors import ParameterError
from strandproof.grainsize.by_level.nested_values import NestedValues, unit_weights
from strandproof.quantity import Quantity

FloatArray = npt.NDArray[np.float64]

# Ratios of standard deviations from which the search starts; the likelihood is flat
# at a ratio of 0, so none starts there.
_STARTS = (1.0, 0.1)
# A ratio below this is a component that the likelihood sets to zero.
_NO_COMPONENT = 1e-4


@dataclass(frozen=True, slots=True, kw_only=True)
class Component:
    """The scatter between the units of one level within one unit above.

    Parameters
    ----------
    level : str
        The level; several names joined by "and" where the design does not tell
        them apart (one section of each strand: "strand and section").
    variance : float
        Variance by REML, zero or above [square of the values' unit].
    anova_variance : float
        Variance from the mean squares, which may come out below zero.
    units : int
        Units at this level.
    degrees_of_freedom : int
        Units less the units that they lie in.
    squared_weights : float
        Sum of the squared weights of the units in the grand mean; 1/n for n
        units that weigh the same.
    """

    level: str
    variance: float
    anova_variance: float
    units: int
    degrees_of_freedom: int
    squared_weights: float

    @property
    def standard_deviation(self) -> float:
        """Square root of `variance`, in the values' unit."""
        return sqrt(self.variance)


@dataclass(frozen=True, slots=True, kw_only=True)
class VarianceComponents:
    """Components by level, and the mean that the mixed model gives.

    Parameters
    ----------
    components : tuple of Component
        Outermost first; the last is that of the single values.
    mean : Quantity
        Mean by generalized least squares, with its standard uncertainty and the
        degrees of freedom after Satterthwaite. Where the outermost component is
        zero these count units of inner levels, and an interval from them would be
        narrower than the number of cables warrants: state the interval by cable.
    """

    components: tuple[Component, ...]
    mean: Quantity


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Term:
    """One level as the fit sees it."""

    level: str
    depth: int
    units: int
    above: int
    numbers: npt.NDArray[np.intp]

    @property
    def indicator(self) -> FloatArray:
        """Z: one row a value, 1 in the column of the unit that it lies in."""
        return np.eye(self.units)[self.numbers]

    def units_of(self, outer: "_Term") -> npt.NDArray[np.intp]:
        """Give the number of the outer term's unit that each unit lies in."""
        _, first = np.unique(self.numbers, return_index=True)
        return outer.numbers[first]


def variance_components(values: NestedValues, *, unit: str) -> VarianceComponents:
    """Split the scatter of nested values into components by level.

    Assumes chance terms that are independent and nearly normal, with one variance
    at each level. Few units give a component poorly: the variance between three
    cables may in truth be a quarter of what is found, or forty times it (95 %).

    Parameters
    ----------
    values : NestedValues
        Two values or more; the design need not be balanced.
    unit : str
        Unit of the values.

    Returns
    -------
    VarianceComponents
        Components and mean.

    Raises
    ------
    ParameterError
        If there is one value only.

    Notes
    -----
    y = mu + sum over levels of Z_k b_k, var(b_k) = s_k^2; V = sum s_k^2 Z_k Z_k'.
    REML minimizes log|V| + log(1'V^-1 1) + r'V^-1 r over s_k^2 >= 0 (Patterson
    and Thompson 1971, from memory), here over the ratios of the s_k to that of the
    values, with the last one profiled out. The mean has the variance
    f = 1/(1'V^-1 1) and 2 f^2 / var(f) degrees of freedom (Satterthwaite 1946;
    Giesbrecht and Burns 1985; both from memory), var(f) from the REML information
    tr(P Z_j Z_j' P Z_k Z_k')/2 of the components above zero. In a balanced design
    with the outermost component above zero these are the number of its units
    less 1.

    Examples
    --------
    >>> values = NestedValues(
    ...     levels=("cable", "field"),
    ...     places=(("a", "1"), ("a", "2"), ("b", "1"), ("b", "2")),
    ...     values=(8.0, 9.0, 10.0, 12.0),
    ... )
    >>> found = variance_components(values, unit="um")
    >>> [round(each.variance, 3) for each in found.components]
    [2.5, 1.25]
    >>> round(found.mean.degrees_of_freedom, 3)
    1.0
    """
    if len(values.values) < 2:
        raise ParameterError(
            "values",
            values.values,
            allowed="two values or more",
            remedy="One value shows no scatter; read more fields.",
        )
    terms = _terms(values)
    readings = np.array(values.values, dtype=np.float64)
    variances = _reml(terms, readings)
    anova = _anova(terms, readings)
    components = tuple(
        Component(
            level=term.level,
            variance=float(variance),
            anova_variance=float(from_squares),
            units=term.units,
            degrees_of_freedom=term.units - term.above,
            squared_weights=fsum(
                weight**2 for weight in unit_weights(values, term.depth).values()
            ),
        )
        for term, variance, from_squares in zip(terms, variances, anova, strict=True)
    )
    return VarianceComponents(
        components=components, mean=_mean(terms, readings, variances, unit)
    )


def _terms(values: NestedValues) -> list[_Term]:
    """Levels that the design can tell apart, the last with one unit a value."""
    terms: list[_Term] = []
    names: list[str] = []
    above, last = 1, len(values.levels)
    for depth, level in enumerate(values.levels, start=1):
        units = values.units(depth)
        if len(units) == 1:
            continue  # A lone unit has no scatter at its level.
        names.append(level)
        if depth < last and len(values.units(depth + 1)) == len(units):
            continue  # One part in each unit: one level with the next.
        numbers = {unit: number for number, unit in enumerate(units)}
        terms.append(
            _Term(
                level=" and ".join(names),
                depth=depth,
                units=len(units),
                above=above,
                numbers=np.array([numbers[place[:depth]] for place in values.places]),
            )
        )
        above, names = len(units), []
    return terms


def _reml(terms: Sequence[_Term], readings: FloatArray) -> FloatArray:
    """Variances of the terms by restricted maximum likelihood."""
    centred = readings - readings.mean()
    scale = float(np.mean(centred**2))
    if scale <= (1e-12 * float(np.abs(readings).max())) ** 2:
        return np.zeros(len(terms))
    scaled = centred / sqrt(scale)
    if len(terms) == 1:
        return np.array([float(scaled @ scaled) * scale / (scaled.size - 1)])
    deviance = _profiled_deviance(terms, scaled)
    fits = [
        optimize.minimize(
            deviance,
            np.full(len(terms) - 1, start),
            method="L-BFGS-B",
            bounds=[(0.0, None)] * (len(terms) - 1),
            options={"ftol": 1e-14, "gtol": 1e-9},
        )
        for start in _STARTS
    ]
    best = min(fits, key=lambda fit: float(fit.fun))
    ratios = np.where(best.x < _NO_COMPONENT, 0.0, best.x)
    sums = _weighted_sums(terms, [*ratios, 1.0], scaled)
    of_values = sums.residual / (scaled.size - 1)
    variances: FloatArray = np.append(ratios**2, 1.0) * of_values * scale
    return variances


def _profiled_deviance(
    terms: Sequence[_Term], readings: FloatArray
) -> Callable[[FloatArray], float]:
    """Deviance as a function of the ratios to the values' standard deviation."""

    def deviance(ratios: FloatArray) -> float:
        sums = _weighted_sums(terms, [*ratios, 1.0], readings)
        spread = (readings.size - 1) * log(sums.residual)
        return sums.log_determinant + log(sums.ones) + spread

    return deviance


@dataclass(frozen=True, slots=True)
class _WeightedSums:
    """1'V^-1 1, 1'V^-1 y, y'V^-1 y and log|V|."""

    ones: float
    first: float
    squares: float
    log_determinant: float

    @property
    def residual(self) -> float:
        """r'V^-1 r about the mean by generalized least squares."""
        return self.squares - self.first**2 / self.ones


def _weighted_sums(
    terms: Sequence[_Term], deviations: Sequence[float], readings: FloatArray
) -> _WeightedSums:
    """Add up the values, from the innermost units outwards.

    Notes
    -----
    A unit adds s^2 11' to the covariance of what lies in it, so that its sums
    follow from theirs (Sherman and Morrison 1950, from memory): with
    d = 1 + s^2 1'V^-1 1, the first two are divided by d, the third loses
    s^2 (1'V^-1 y)^2 / d, and log d is added to the last.
    """
    variance = deviations[-1] ** 2
    ones = np.full(readings.size, 1.0 / variance)
    first: FloatArray = readings / variance
    squares: FloatArray = readings**2 / variance
    log_determinant = readings.size * log(variance)
    inner = terms[-1]
    # The last term has one unit a value, numbered as they come.
    for term, deviation in zip(terms[-2::-1], deviations[-2::-1], strict=True):
        owner = inner.units_of(term)
        ones, first, squares = (
            _summed(each, owner, term.units) for each in (ones, first, squares)
        )
        divisor = 1.0 + deviation**2 * ones
        squares = squares - deviation**2 * first**2 / divisor
        ones, first = ones / divisor, first / divisor
        log_determinant += float(np.sum(np.log(divisor)))
        inner = term
    return _WeightedSums(
        float(ones.sum()), float(first.sum()), float(squares.sum()), log_determinant
    )


def _summed(parts: FloatArray, owner: npt.NDArray[np.intp], units: int) -> FloatArray:
    return np.asarray(
        np.bincount(owner, weights=parts, minlength=units), dtype=np.float64
    )


def _covariance(terms: Sequence[_Term], deviations: Sequence[float]) -> FloatArray:
    """V for one standard deviation a term."""
    n = terms[-1].numbers.size
    total = np.zeros((n, n))
    for term, deviation in zip(terms, deviations, strict=True):
        total += deviation**2 * _alike(term)
    return total


def _alike(term: _Term) -> FloatArray:
    """Z Z': 1 where two values lie in one unit."""
    return np.asarray(term.numbers[:, None] == term.numbers, dtype=np.float64)


def _anova(terms: Sequence[_Term], readings: FloatArray) -> FloatArray:
    """Components from sums of squares and their expectations.

    Notes
    -----
    With T_k = sum over units g of level k of (sum of its values)^2 / n_g,
    E(T_k) = n mu^2 + sum_m s_m^2 sum_g sum_h n_gh^2 / n_g, where n_gh values lie
    in both g and the unit h of level m (Henderson 1953, method 1; from memory).
    """
    grand = np.ones((readings.size, 1))
    levels = [grand, *(term.indicator for term in terms)]
    totals = np.array([_between_squares(each, readings) for each in levels])
    expected = np.array(
        [[_expected_share(each, term.indicator) for term in terms] for each in levels]
    )
    return np.asarray(
        np.linalg.solve(np.diff(expected, axis=0), np.diff(totals)), dtype=np.float64
    )


def _between_squares(indicator: FloatArray, readings: FloatArray) -> float:
    sums = indicator.T @ (readings - readings.mean())
    return float(np.sum(sums**2 / indicator.sum(axis=0)))


def _expected_share(indicator: FloatArray, other: FloatArray) -> float:
    shared = indicator.T @ other
    return float(np.sum(np.sum(shared**2, axis=1) / indicator.sum(axis=0)))


def _mean(
    terms: Sequence[_Term], readings: FloatArray, variances: FloatArray, unit: str
) -> Quantity:
    """Mean by generalized least squares with Satterthwaite's degrees of freedom."""
    if not variances.any():
        return Quantity(float(readings.mean()), unit, 0.0, inf)
    present = [
        (term, variance)
        for term, variance in zip(terms, variances, strict=True)
        if variance > 0
    ]
    covariance = _covariance(
        [term for term, _ in present], [sqrt(variance) for _, variance in present]
    )
    inverse = np.linalg.inv(covariance)
    row = inverse.sum(axis=0)
    spread = 1.0 / float(row.sum())
    projected = inverse - spread * np.outer(row, row)
    halves = [projected @ _alike(term) for term, _ in present]
    information = 0.5 * np.array([[np.sum(a * b.T) for b in halves] for a in halves])
    slopes = np.array([row @ _alike(term) @ row for term, _ in present]) * spread**2
    doubt = float(slopes @ np.linalg.solve(information, slopes))
    return Quantity(
        spread * float(row @ readings),
        unit,
        sqrt(spread),
        max(1.0, 2.0 * spread**2 / doubt),
    )
