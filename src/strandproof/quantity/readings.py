"""Repeated readings: mean, scatter, Type A input, t interval of the mean."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import fsum, isfinite, sqrt

from strandproof.errors import ParameterError
from strandproof.quantity._types import Interval, Quantity
from strandproof.quantity.coverage import coverage_factor
from strandproof.quantity.inputs import Input


@dataclass(frozen=True, slots=True, kw_only=True)
class Readings:
    """Independent readings of one quantity.

    Parameters
    ----------
    name : str
        What was read, in words of the trade.
    values : tuple of float
        The readings, in `unit`; two or more.
    unit : str
        Unit of the readings.
    symbol : str
        Keyword in a measurement model; made from `name` when empty.

    Raises
    ------
    ParameterError
        If there are fewer than two readings or one is not finite.

    Examples
    --------
    >>> leads = Readings(
    ...     name="mean intercept", values=(8.333, 8.800, 8.200), unit="um"
    ... )
    >>> round(leads.mean, 3), round(leads.standard_deviation, 3)
    (8.444, 0.315)
    """

    name: str
    values: tuple[float, ...]
    unit: str
    symbol: str = ""

    def __post_init__(self) -> None:
        if len(self.values) < 2:
            raise ParameterError(
                "values",
                self.values,
                allowed="two readings or more",
                remedy="One reading shows no scatter; take another, or give the "
                "uncertainty from elsewhere.",
            )
        for value in self.values:
            if not isfinite(value):
                raise ParameterError("values", value, allowed="finite numbers")

    @property
    def mean(self) -> float:
        """Arithmetic mean (GUM 4.2.1), in `unit`."""
        return fsum(self.values) / len(self.values)

    @property
    def standard_deviation(self) -> float:
        """Experimental standard deviation, divisor n - 1 (GUM 4.2.2), in `unit`."""
        mean = self.mean
        squares = fsum((value - mean) ** 2 for value in self.values)
        return sqrt(squares / (len(self.values) - 1))

    @property
    def standard_uncertainty_of_mean(self) -> float:
        """Standard deviation of the mean, s / sqrt(n) (GUM 4.2.3), in `unit`."""
        return self.standard_deviation / sqrt(len(self.values))


def input_from_readings(
    name: str, values: Sequence[float], *, unit: str, symbol: str = ""
) -> Input:
    """Return the mean of repeated readings as an input (Type A evaluation).

    The readings have to be independent: reading one dial twice without
    remounting is one reading.

    Parameters
    ----------
    name : str
        Name in words of the trade.
    values : sequence of float
        The readings, in `unit`; two or more.
    unit : str
        Unit of the readings.
    symbol : str
        Keyword in the model; made from `name` when empty.

    Returns
    -------
    Input
        Mean, s / sqrt(n) and n - 1 degrees of freedom, distribution
        ``"student"``.

    Raises
    ------
    ParameterError
        If there are fewer than two readings or one is not finite.

    Notes
    -----
    GUM 4.2.1 to 4.2.3; JCGM 101 6.4.9 for the distribution.

    Examples
    --------
    >>> current = input_from_readings("current", (19.663, 19.639, 19.640), unit="mA")
    >>> round(current.estimate, 4), current.degrees_of_freedom
    (19.6473, 2.0)
    """
    readings = Readings(name=name, values=tuple(values), unit=unit, symbol=symbol)
    return input_from_reading_set(readings, ensemble="")


def input_from_reading_set(readings: Readings, *, ensemble: str) -> Input:
    """Return the Type A input of one set of readings.

    Parameters
    ----------
    readings : Readings
        Readings of one quantity; two or more.
    ensemble : str
        Name of the ensemble it belongs to; empty for none.

    Returns
    -------
    Input
        Mean, s / sqrt(n) and n - 1 degrees of freedom.

    Raises
    ------
    ParameterError
        If there are fewer than two readings.
    """
    return Input(
        name=readings.name,
        estimate=readings.mean,
        unit=readings.unit,
        standard_uncertainty=readings.standard_uncertainty_of_mean,
        degrees_of_freedom=float(len(readings.values) - 1),
        distribution="student",
        symbol=readings.symbol,
        ensemble=ensemble,
    )


def mean_with_interval(
    values: Sequence[float], *, unit: str, method: str, confidence: float = 0.95
) -> tuple[Quantity, Interval]:
    """Return the mean of independent values and its t interval.

    The values have to be independent at the level that the statement is about:
    means of leads for a product, not fields of one lead. It fails for few
    values of a very skew distribution, where the interval covers less often
    than stated.

    Parameters
    ----------
    values : sequence of float
        One value per independent unit, in `unit`; two or more.
    unit : str
        Unit of the values.
    method : str
        What the values are and at which level, for example ``"means of
        leads"``; it opens the interval's description.
    confidence : float
        Two-sided confidence, between 0 and 1.

    Returns
    -------
    mean : Quantity
        Mean with s / sqrt(n) and n - 1 degrees of freedom.
    interval : Interval
        Mean plus and minus t * s / sqrt(n).

    Raises
    ------
    ParameterError
        If there are fewer than two values, one is not finite, or the
        confidence is outside of (0, 1).

    Notes
    -----
    half-width = t((1 + C) / 2, n - 1) * s / sqrt(n) (GUM G.3.2, G.3.3; ASTM E562
    and E112 section 15 use the same formula, read in secondary sources).

    References
    ----------
    JCGM 100:2008, Evaluation of measurement data - Guide to the expression of
    uncertainty in measurement.

    Examples
    --------
    >>> mean, interval = mean_with_interval(
    ...     (8.3333, 8.8, 8.2), unit="um", method="means of three leads"
    ... )
    >>> round(mean.value, 2), round(interval.upper - mean.value, 2)
    (8.44, 0.78)
    """
    readings = Readings(name="values", values=tuple(values), unit=unit)
    freedom = len(readings.values) - 1
    factor = coverage_factor(confidence, degrees_of_freedom=freedom)
    u = readings.standard_uncertainty_of_mean
    mean = Quantity(readings.mean, unit, u, degrees_of_freedom=float(freedom))
    interval = Interval(
        lower=mean.value - factor * u,
        upper=mean.value + factor * u,
        unit=unit,
        confidence=confidence,
        method=f"{method}: mean of {freedom + 1} values, Student t with "
        f"{freedom} degrees of freedom",
    )
    return mean, interval


def relative_accuracy_percent(mean: float, half_width: float) -> float:
    """Return the half-width of an interval as a percentage of the mean.

    Parameters
    ----------
    mean : float
        The mean, in any unit; above zero.
    half_width : float
        Half-width of its confidence interval, in the same unit; zero or above.

    Returns
    -------
    float
        Relative accuracy [%].

    Raises
    ------
    ParameterError
        If the mean is not above zero or the half-width is negative or either
        is not finite.

    Notes
    -----
    %RA = 100 * CI / mean (ASTM E562, E112 section 15; read in secondary
    sources). 10 % or less is the usual aim (from memory for E112).

    Examples
    --------
    >>> round(relative_accuracy_percent(50.8, 3.766), 2)
    7.41
    """
    if not isfinite(mean) or mean <= 0:
        raise ParameterError("mean", mean, allowed="a finite number above zero")
    if not isfinite(half_width) or half_width < 0:
        raise ParameterError(
            "half_width", half_width, allowed="a finite number, zero or above"
        )
    return 100.0 * half_width / mean
