"""Propagation of distributions by Monte Carlo: the second opinion (JCGM 101)."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import sqrt

import numpy as np
import numpy.typing as npt

from strandproof.errors import (
    DrawsOutsideDomainError,
    ModelOutputError,
    ParameterError,
)
from strandproof.quantity._types import Interval, Quantity
from strandproof.quantity.correlation import Correlation, correlation_matrix
from strandproof.quantity.coverage import (
    expanded_interval,
    expanded_uncertainty,
    require_confidence,
)
from strandproof.quantity.inputs import Input
from strandproof.quantity.model import Model, call_model
from strandproof.quantity.sampling import (
    input_draws,
    require_drawable,
    square_root_of_matrix,
)
from strandproof.quantity.show import last_decimal_place

FloatArray = npt.NDArray[np.float64]

# The model runs over batches of this many draws, which bounds the memory for
# the inputs and whatever the model holds between; the results are all kept.
_BATCH = 200_000
_FEWEST_DRAWS = 1_000
# Below this many draws in both tails together an end of the interval is noise.
_FEWEST_IN_TAILS = 10


@dataclass(frozen=True, slots=True, kw_only=True)
class Agreement:
    """Whether a first-order interval agrees with the Monte Carlo one.

    Parameters
    ----------
    agrees : bool
        True when both ends differ by no more than the numerical tolerance.
    draws_sufficient : bool
        True when the ends of the Monte Carlo interval are known to a fifth of
        the tolerance (two standard errors); when False, a difference near the
        tolerance may be chance, so take more draws.
    numerical_tolerance : float
        Half a unit in the last significant digit of u, in the result's unit.
    lower_difference, upper_difference : float
        Absolute differences of the ends, in the result's unit.
    first_order, monte_carlo : Interval
        The intervals compared.
    """

    agrees: bool
    draws_sufficient: bool
    numerical_tolerance: float
    lower_difference: float
    upper_difference: float
    first_order: Interval
    monte_carlo: Interval


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class MonteCarloResult:
    """The draws of a result, in order, and what follows from them.

    Parameters
    ----------
    sorted_draws : ndarray of shape (n_draws,)
        Results in ascending order, in `unit`; not writable.
    unit : str
        Unit of the result.
    """

    sorted_draws: FloatArray
    unit: str

    @property
    def draws(self) -> int:
        """Number of draws."""
        return len(self.sorted_draws)

    @property
    def mean(self) -> float:
        """Mean of the draws (JCGM 101 7.6), in `unit`."""
        return float(self.sorted_draws.mean())

    @property
    def standard_deviation(self) -> float:
        """Standard deviation of the draws (JCGM 101 7.6), in `unit`."""
        return float(self.sorted_draws.std(ddof=1))

    def symmetric_interval(self, confidence: float = 0.95) -> Interval:
        """Return the interval with equal probability left out on both sides.

        Parameters
        ----------
        confidence : float
            Coverage probability, between 0 and 1.

        Returns
        -------
        Interval
            Ends in `unit`.

        Raises
        ------
        ParameterError
            If the draws are too few for this confidence.

        Notes
        -----
        With q = pM rounded to a whole number, from the r-th to the (r + q)-th
        draw, r = (M - q) / 2 rounded up (JCGM 101 7.7.2, from memory).
        """
        lower, upper = self._symmetric_ends(confidence)
        return self._interval(lower, upper, confidence, "probabilistically symmetric")

    def shortest_interval(self, confidence: float = 0.95) -> Interval:
        """Return the shortest interval with the stated probability.

        Its width is stable, its position less so where the density is flat.

        Parameters
        ----------
        confidence : float
            Coverage probability, between 0 and 1.

        Returns
        -------
        Interval
            Ends in `unit`.

        Raises
        ------
        ParameterError
            If the draws are too few for this confidence.

        Notes
        -----
        The r that makes the (r + q)-th less the r-th draw smallest (JCGM 101
        7.7.4, from memory).
        """
        covered = self._covered(confidence)
        widths = self.sorted_draws[covered:] - self.sorted_draws[:-covered]
        first = int(widths.argmin())
        lower, upper = self.sorted_draws[[first, first + covered]].tolist()
        return self._interval(lower, upper, confidence, "shortest")

    def agreement_with(
        self,
        first_order: Quantity,
        *,
        confidence: float = 0.95,
        significant_digits: int = 2,
    ) -> Agreement:
        """Return whether the first-order interval agrees with these draws.

        Parameters
        ----------
        first_order : Quantity
            Result of first-order propagation, in the same unit.
        confidence : float
            Coverage probability, between 0 and 1.
        significant_digits : int
            How many digits of the standard deviation are meaningful; 1 or 2.

        Returns
        -------
        Agreement
            The verdict and the figures behind it.

        Raises
        ------
        ParameterError
            If the units differ, the digits are not 1 or 2, or the draws are too
            few for this confidence.

        Notes
        -----
        Tolerance: u written as c * 10^l with a whole c of `significant_digits`
        digits, then 10^l / 2 (JCGM 101 7.9.2 and 8.1, from memory). u is the
        standard deviation of the draws, which is defined where the first-order
        one vanishes.
        """
        self._require_comparable(first_order, significant_digits)
        half_width = expanded_uncertainty(first_order, confidence=confidence)
        lower, upper = self._symmetric_ends(confidence)
        lower_difference = abs(first_order.value - half_width - lower)
        upper_difference = abs(first_order.value + half_width - upper)
        tolerance = _numerical_tolerance(self.standard_deviation, significant_digits)
        return Agreement(
            agrees=max(lower_difference, upper_difference) <= tolerance,
            draws_sufficient=self._end_uncertainty(confidence) <= tolerance / 5,
            numerical_tolerance=tolerance,
            lower_difference=lower_difference,
            upper_difference=upper_difference,
            first_order=expanded_interval(first_order, confidence),
            monte_carlo=self.symmetric_interval(confidence),
        )

    def _covered(self, confidence: float) -> int:
        require_confidence(confidence)
        covered = int(confidence * self.draws + 0.5)
        if self.draws - covered < _FEWEST_IN_TAILS:
            raise ParameterError(
                "confidence",
                confidence,
                allowed=f"one that leaves {_FEWEST_IN_TAILS} of the {self.draws} "
                "draws outside",
                remedy="Take more draws.",
            )
        return covered

    def _symmetric_ends(self, confidence: float) -> tuple[float, float]:
        covered = self._covered(confidence)
        first = (self.draws - covered + 1) // 2 - 1
        lower, upper = self.sorted_draws[[first, first + covered]].tolist()
        return lower, upper

    def _interval(
        self, lower: float, upper: float, confidence: float, kind: str
    ) -> Interval:
        return Interval(
            lower=lower,
            upper=upper,
            unit=self.unit,
            confidence=confidence,
            method=f"Monte Carlo, {self.draws} draws, {kind} interval",
        )

    def _end_uncertainty(self, confidence: float) -> float:
        """Two standard errors of the ends, from the binomial spread of their rank."""
        tail = 0.5 * (1.0 - confidence)
        step = max(1, round(2.0 * sqrt(self.draws * tail * (1.0 - tail))))
        ranks = (round(tail * self.draws), round((1.0 - tail) * self.draws))
        last = self.draws - 1
        return max(
            0.5
            * float(
                self.sorted_draws[min(rank + step, last)]
                - self.sorted_draws[max(rank - step, 0)]
            )
            for rank in ranks
        )

    def _require_comparable(
        self, first_order: Quantity, significant_digits: int
    ) -> None:
        if first_order.unit != self.unit:
            raise ParameterError(
                "first_order", first_order.unit, allowed=f"the unit {self.unit!r}"
            )
        if significant_digits not in (1, 2):
            raise ParameterError(
                "significant_digits", significant_digits, allowed="1 or 2"
            )


def monte_carlo(
    model: Model,
    inputs: Sequence[Input],
    *,
    unit: str,
    draws: int,
    generator: np.random.Generator,
    correlations: Iterable[Correlation] = (),
) -> MonteCarloResult:
    """Return the distribution of a model's result, by drawing the inputs.

    It needs neither a straight model nor a normal result, but believes the
    shapes of the inputs. The same generator state gives the same draws.

    Parameters
    ----------
    model : callable
        Takes each input by its keyword, as an ndarray of shape (n,), and
        returns an ndarray of the same shape: ordinary arithmetic and the
        functions of `strandproof.quantity`, as for `propagate`.
    inputs : sequence of Input
        The inputs, each keyword once.
    unit : str
        Unit of the result.
    draws : int
        How many draws, 1000 or more; 10^4 / (1 - confidence) is a sound choice
        (JCGM 101 7.2.2, from memory).
    generator : numpy.random.Generator
        Source of randomness.
    correlations : iterable of Correlation
        Correlation coefficients of pairs of normal inputs, or of student
        inputs of one ensemble.

    Returns
    -------
    MonteCarloResult
        The draws in order, with mean, standard deviation and intervals.

    Raises
    ------
    ModelError
        If the model cannot be called, or gives another shape or values that
        are not finite.
    ParameterError
        If the draws are too few, inputs or correlations contradict each other,
        or inputs of other shapes are correlated.

    Notes
    -----
    Distributions as in JCGM 101 6.4 (from memory): normal; student as
    x + u * t(nu), whose standard deviation is u * sqrt(nu / (nu - 2));
    rectangular; triangular; arcsine. A rectangular input with finite nu has
    doubtful limits: its half-width a is drawn evenly within
    a * (1 +- 1 / sqrt(2 nu)), the curvilinear trapezoid of 6.4.3 with the
    doubt of GUM G.4.2. For the other Type B shapes nu is not used.
    Correlated student inputs of one ensemble share their chi-square draw
    (multivariate t).

    References
    ----------
    JCGM 101:2008, Propagation of distributions using a Monte Carlo method.

    Examples
    --------
    >>> from strandproof.quantity import normal_input
    >>> result = monte_carlo(
    ...     lambda x: x * x,
    ...     (normal_input("x", 0.0, 1.0, unit="1"),),
    ...     unit="1",
    ...     draws=100_000,
    ...     generator=np.random.default_rng(1),
    ... )
    >>> round(result.mean, 1)
    1.0
    """
    if draws < _FEWEST_DRAWS:
        raise ParameterError("draws", draws, allowed=f"{_FEWEST_DRAWS} or more")
    matrix = correlation_matrix(inputs, correlations)
    require_drawable(inputs, matrix)
    root = square_root_of_matrix(matrix)
    batches = [
        _model_draws(model, input_draws(inputs, root, size, generator), size)
        for size in _batch_sizes(draws)
    ]
    results = np.sort(np.concatenate(batches))
    results.setflags(write=False)
    return MonteCarloResult(sorted_draws=results, unit=unit)


def _batch_sizes(draws: int) -> Iterator[int]:
    for start in range(0, draws, _BATCH):
        yield min(_BATCH, draws - start)


def _model_draws(
    model: Model, values: Mapping[str, FloatArray], size: int
) -> FloatArray:
    # Draws outside of a function's domain become NaN and are counted below.
    with np.errstate(all="ignore"):
        results = np.asarray(call_model(model, values))
    if results.shape != (size,):
        raise ModelOutputError(
            repr(results), expected=f"one result for each of {size} draws"
        )
    failed = int(np.count_nonzero(~np.isfinite(results)))
    if failed:
        raise DrawsOutsideDomainError(failed, size)
    return results.astype(np.float64)


def _numerical_tolerance(deviation: float, significant_digits: int) -> float:
    if deviation == 0:
        return 0.0
    return float(0.5 * 10.0 ** last_decimal_place(deviation, significant_digits))
