"""Coverage factors from degrees of freedom, and expanded uncertainty."""

from math import floor, inf, isinf, isnan

from scipy import stats

from strandproof.errors import ParameterError
from strandproof.quantity._types import Interval, Quantity

AS_GOOD_AS_NORMAL = 10_000.0
"""Degrees of freedom from which Student's factor is the normal one to 0.02 %."""


def whole_degrees_of_freedom(degrees_of_freedom: float) -> float:
    """Return effective degrees of freedom cut to the next lower whole number.

    Parameters
    ----------
    degrees_of_freedom : float
        At least 1, or `inf`.

    Returns
    -------
    float
        A whole number, or `inf`.

    Raises
    ------
    ParameterError
        If the degrees of freedom are below 1 or no number.

    Notes
    -----
    GUM G.4.1 allows interpolation or truncation; its example H.1 truncates
    (16.7 to 16), and so does Strandproof: the interval comes out a little wide
    rather than a little narrow.

    Examples
    --------
    >>> whole_degrees_of_freedom(16.752)
    16.0
    """
    if isnan(degrees_of_freedom) or degrees_of_freedom < 1:
        raise ParameterError(
            "degrees_of_freedom", degrees_of_freedom, allowed="1 or above, or infinity"
        )
    if isinf(degrees_of_freedom):
        return inf
    # The Welch-Satterthwaite sum may end at 3.9999999999 where 4 is meant.
    return float(floor(degrees_of_freedom * (1.0 + 1e-9)))


def degrees_of_freedom_from_doubt(relative_doubt: float) -> float:
    """Return the degrees of freedom of a Type B uncertainty that is itself doubtful.

    Parameters
    ----------
    relative_doubt : float
        How far the standard uncertainty may be off, as a share of itself:
        0.25 when it is good to a quarter; above 0, at most 0.7.

    Returns
    -------
    float
        Degrees of freedom, at least 1.

    Raises
    ------
    ParameterError
        If the doubt is not above 0 and at most 0.7.

    Notes
    -----
    nu = 1 / (2 r^2) (GUM G.4.2, equation G.3).

    Examples
    --------
    >>> degrees_of_freedom_from_doubt(0.25)
    8.0
    """
    if not 0 < relative_doubt <= 0.7:
        raise ParameterError(
            "relative_doubt",
            relative_doubt,
            allowed="above 0 and at most 0.7",
            remedy="A larger doubt leaves less than one degree of freedom: "
            "evaluate the uncertainty again.",
        )
    return 0.5 / relative_doubt**2


def coverage_factor(confidence: float, *, degrees_of_freedom: float = inf) -> float:
    """Return the factor that turns a standard into an expanded uncertainty.

    Assumes that the result scatters like Student's t about the true value,
    which fails when one non-normal input dominates; then ask Monte Carlo.

    Parameters
    ----------
    confidence : float
        Two-sided confidence, between 0 and 1.
    degrees_of_freedom : float
        (Effective) degrees of freedom, at least 1; cut to a whole number.

    Returns
    -------
    float
        Coverage factor k.

    Raises
    ------
    ParameterError
        If the confidence is outside of (0, 1) or the degrees of freedom are
        below 1.

    Notes
    -----
    k = t((1 + C) / 2, nu), the normal quantile for infinite nu (GUM G.3.4,
    table G.2).

    References
    ----------
    JCGM 100:2008, annex G.

    Examples
    --------
    >>> round(coverage_factor(0.95, degrees_of_freedom=2), 3)
    4.303
    >>> round(coverage_factor(0.95), 3)
    1.96
    """
    require_confidence(confidence)
    # The upper tail (1 - C) / 2 keeps its digits where (1 + C) / 2 would round to 1.
    tail = 0.5 * (1.0 - confidence)
    freedom = whole_degrees_of_freedom(degrees_of_freedom)
    return float(stats.norm.isf(tail) if isinf(freedom) else stats.t.isf(tail, freedom))


def confidence_for_factor(factor: float, *, degrees_of_freedom: float = inf) -> float:
    """Return the two-sided confidence that a stated coverage factor gives.

    Parameters
    ----------
    factor : float
        Coverage factor k, above 0.
    degrees_of_freedom : float
        (Effective) degrees of freedom, at least 1; cut to a whole number.

    Returns
    -------
    float
        Confidence, between 0 and 1.

    Raises
    ------
    ParameterError
        If the factor is not above 0 or the degrees of freedom are below 1.

    Examples
    --------
    >>> round(confidence_for_factor(2.0), 4)
    0.9545
    """
    if not factor > 0 or isinf(factor):
        raise ParameterError("factor", factor, allowed="a finite number above 0")
    freedom = whole_degrees_of_freedom(degrees_of_freedom)
    tail = stats.norm.sf(factor) if isinf(freedom) else stats.t.sf(factor, freedom)
    return float(1.0 - 2.0 * tail)


def expanded_uncertainty(quantity: Quantity, *, confidence: float = 0.95) -> float:
    """Return the half-width of the symmetric coverage interval of a quantity.

    Parameters
    ----------
    quantity : Quantity
        Value with its standard uncertainty and degrees of freedom.
    confidence : float
        Two-sided confidence, between 0 and 1.

    Returns
    -------
    float
        U = k * u, in the quantity's unit.

    Raises
    ------
    ParameterError
        If the confidence is outside of (0, 1).

    Notes
    -----
    GUM 6.2.1 and G.6.4.

    Examples
    --------
    >>> round(expanded_uncertainty(Quantity(8.44, "um", 0.182, 2.0)), 2)
    0.78
    """
    freedom = quantity.degrees_of_freedom
    factor = coverage_factor(confidence, degrees_of_freedom=freedom)
    return factor * quantity.standard_uncertainty


def expanded_interval(quantity: Quantity, confidence: float = 0.95) -> Interval:
    """Return the symmetric coverage interval of a quantity.

    Parameters
    ----------
    quantity : Quantity
        Value with its standard uncertainty and degrees of freedom.
    confidence : float
        Two-sided confidence, between 0 and 1.

    Returns
    -------
    Interval
        Value plus and minus U; the method names factor and degrees of freedom.

    Raises
    ------
    ParameterError
        If the confidence is outside of (0, 1).

    Notes
    -----
    GUM 6.2.1 and G.6.4.

    Examples
    --------
    >>> interval = expanded_interval(Quantity(8.44, "um", 0.182, 2.0))
    >>> round(interval.lower, 2), round(interval.upper, 2)
    (7.66, 9.22)
    """
    freedom = whole_degrees_of_freedom(quantity.degrees_of_freedom)
    factor = coverage_factor(confidence, degrees_of_freedom=freedom)
    half_width = factor * quantity.standard_uncertainty
    shape = (
        "normal"
        if freedom > AS_GOOD_AS_NORMAL
        else f"Student t, {freedom:.0f} degrees of freedom"
    )
    return Interval(
        lower=quantity.value - half_width,
        upper=quantity.value + half_width,
        unit=quantity.unit,
        confidence=confidence,
        method=f"first-order uncertainty times coverage factor {factor:.3f} ({shape})",
    )


def require_confidence(confidence: float) -> None:
    """Refuse a confidence that is not strictly between 0 and 1.

    Parameters
    ----------
    confidence : float
        What the caller gave.

    Raises
    ------
    ParameterError
        If it is not above 0 and below 1.
    """
    if not 0 < confidence < 1:
        raise ParameterError(
            "confidence",
            confidence,
            allowed="a number above 0 and below 1, such as 0.95",
        )
