"""What a measurement model takes in: estimates with uncertainty and their shape."""

import keyword as python_keywords
import re
from dataclasses import dataclass
from math import inf, isfinite, isinf, isnan, sqrt
from types import MappingProxyType
from typing import Literal, get_args

from strandproof.errors import ParameterError

Distribution = Literal["normal", "student", "rectangular", "triangular", "arcsine"]

# Half-width of a bounded distribution divided by its standard deviation
# (GUM 4.3.7, 4.3.9; the arcsine, or U-shaped, one as in GUM H.1.3.4).
HALF_WIDTHS_PER_DEVIATION = MappingProxyType(
    {"rectangular": sqrt(3.0), "triangular": sqrt(6.0), "arcsine": sqrt(2.0)}
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Input:
    """One input of a measurement model.

    Parameters
    ----------
    name : str
        Name in words of the trade, as it stands in the budget.
    estimate : float
        Best estimate, in `unit`.
    unit : str
        Unit of the estimate; ``"1"`` for a pure number.
    standard_uncertainty : float
        Standard uncertainty, in `unit`; zero or above.
    degrees_of_freedom : float
        Degrees of freedom of the standard uncertainty, at least 1; `inf` when
        it is taken as known. For a rectangular input a finite number says that
        the limits themselves are doubtful (GUM G.4.2).
    distribution : {"normal", "student", "rectangular", "triangular", "arcsine"}
        Shape that Monte Carlo draws from; first-order propagation does not use
        it. ``"student"`` is the scaled and shifted t of a Type A evaluation and
        needs finite degrees of freedom.
    symbol : str
        Keyword under which the model takes this input; made from `name` when
        empty (lower case, words joined by underscores).
    ensemble : str
        Name of a set of readings taken together; empty for none. Inputs of one
        ensemble have the same degrees of freedom and may be correlated though
        these are finite.

    Raises
    ------
    ParameterError
        If a number is not finite or out of range, the distribution is unknown,
        a student input has infinite degrees of freedom, or no Python name
        comes out of symbol and name.

    Examples
    --------
    >>> Input(
    ...     name="mass of the strand",
    ...     estimate=22.28,
    ...     unit="mg",
    ...     standard_uncertainty=0.03,
    ... ).keyword
    'mass_of_the_strand'
    """

    name: str
    estimate: float
    unit: str
    standard_uncertainty: float
    degrees_of_freedom: float = inf
    distribution: Distribution = "normal"
    symbol: str = ""
    ensemble: str = ""

    def __post_init__(self) -> None:
        _require_estimate(self.estimate)
        _require_not_negative("standard_uncertainty", self.standard_uncertainty)
        _require_degrees_of_freedom(self.degrees_of_freedom)
        _require_keyword(self.keyword)
        if self.distribution not in get_args(Distribution):
            raise ParameterError(
                "distribution",
                self.distribution,
                allowed="one of " + ", ".join(get_args(Distribution)),
            )
        if self.distribution == "student" and isinf(self.degrees_of_freedom):
            raise ParameterError(
                "degrees_of_freedom",
                self.degrees_of_freedom,
                allowed="a finite number for a student input",
                remedy="Use the normal distribution when they are infinite.",
            )

    @property
    def keyword(self) -> str:
        """Python name under which a model takes this input."""
        return self.symbol or "_".join(re.findall(r"\w+", self.name.lower()))


def normal_input(
    name: str,
    estimate: float,
    standard_uncertainty: float,
    *,
    unit: str,
    symbol: str = "",
    degrees_of_freedom: float = inf,
) -> Input:
    """Return a normal input, for example from a calibration certificate.

    Parameters
    ----------
    name : str
        Name in words of the trade.
    estimate : float
        Best estimate, in `unit`.
    standard_uncertainty : float
        One standard deviation, in `unit`; a certificate's expanded uncertainty
        is to be divided by its coverage factor first.
    unit : str
        Unit of both.
    symbol : str
        Keyword in the model; made from `name` when empty.
    degrees_of_freedom : float
        At least 1.

    Returns
    -------
    Input
        The input, distribution ``"normal"``.

    Examples
    --------
    >>> normal_input("current", 1.0, 0.001, unit="A").standard_uncertainty
    0.001
    """
    return Input(
        name=name,
        estimate=estimate,
        unit=unit,
        standard_uncertainty=standard_uncertainty,
        degrees_of_freedom=degrees_of_freedom,
        symbol=symbol,
    )


def rectangular_input(
    name: str,
    estimate: float,
    half_width: float,
    *,
    unit: str,
    symbol: str = "",
    degrees_of_freedom: float = inf,
) -> Input:
    """Return an input known only to lie within plus or minus a half-width.

    Every value between the limits is taken as equally likely; right for a
    tolerance, a resolution or a drift limit, wrong when the middle is likelier.

    Parameters
    ----------
    name : str
        Name in words of the trade.
    estimate : float
        Middle of the limits, in `unit`.
    half_width : float
        Half the distance between the limits, in `unit`; zero or above.
    unit : str
        Unit of both.
    symbol : str
        Keyword in the model; made from `name` when empty.
    degrees_of_freedom : float
        At least 1; finite when the limits are doubtful, see
        `degrees_of_freedom_from_doubt`.

    Returns
    -------
    Input
        The input, distribution ``"rectangular"``.

    Raises
    ------
    ParameterError
        If the half-width is negative or not finite.

    Notes
    -----
    u = half-width / sqrt(3) (GUM 4.3.7).

    Examples
    --------
    >>> round(rectangular_input("scale division", 0.0, 0.5, unit="um")
    ...     .standard_uncertainty, 4)
    0.2887
    """
    _require_not_negative("half_width", half_width)
    return Input(
        name=name,
        estimate=estimate,
        unit=unit,
        standard_uncertainty=half_width / HALF_WIDTHS_PER_DEVIATION["rectangular"],
        degrees_of_freedom=degrees_of_freedom,
        distribution="rectangular",
        symbol=symbol,
    )


def triangular_input(
    name: str, estimate: float, half_width: float, *, unit: str, symbol: str = ""
) -> Input:
    """Return an input between limits whose middle is the likeliest.

    Parameters
    ----------
    name : str
        Name in words of the trade.
    estimate : float
        Middle of the limits, in `unit`.
    half_width : float
        Half the distance between the limits, in `unit`; zero or above.
    unit : str
        Unit of both.
    symbol : str
        Keyword in the model; made from `name` when empty.

    Returns
    -------
    Input
        The input, distribution ``"triangular"``.

    Raises
    ------
    ParameterError
        If the half-width is negative or not finite.

    Notes
    -----
    u = half-width / sqrt(6) (GUM 4.3.9).

    Examples
    --------
    >>> round(triangular_input("setting", 0.0, 0.6, unit="mm")
    ...     .standard_uncertainty, 4)
    0.2449
    """
    _require_not_negative("half_width", half_width)
    return Input(
        name=name,
        estimate=estimate,
        unit=unit,
        standard_uncertainty=half_width / HALF_WIDTHS_PER_DEVIATION["triangular"],
        distribution="triangular",
        symbol=symbol,
    )


def arcsine_input(
    name: str, estimate: float, half_width: float, *, unit: str, symbol: str = ""
) -> Input:
    """Return an input that swings between two limits like a sine.

    Right for a temperature that a thermostat drives up and down.

    Parameters
    ----------
    name : str
        Name in words of the trade.
    estimate : float
        Middle of the swing, in `unit`.
    half_width : float
        Amplitude of the swing, in `unit`; zero or above.
    unit : str
        Unit of both.
    symbol : str
        Keyword in the model; made from `name` when empty.

    Returns
    -------
    Input
        The input, distribution ``"arcsine"``.

    Raises
    ------
    ParameterError
        If the half-width is negative or not finite.

    Notes
    -----
    u = half-width / sqrt(2) (GUM H.1.3.4; JCGM 101 6.4.6).

    Examples
    --------
    >>> round(arcsine_input("room temperature", 20.0, 0.5, unit="degC")
    ...     .standard_uncertainty, 4)
    0.3536
    """
    _require_not_negative("half_width", half_width)
    return Input(
        name=name,
        estimate=estimate,
        unit=unit,
        standard_uncertainty=half_width / HALF_WIDTHS_PER_DEVIATION["arcsine"],
        distribution="arcsine",
        symbol=symbol,
    )


def _require_estimate(estimate: float) -> None:
    if not isfinite(estimate):
        raise ParameterError("estimate", estimate, allowed="a finite number")


def _require_not_negative(parameter: str, given: float) -> None:
    if not isfinite(given) or given < 0:
        raise ParameterError(parameter, given, allowed="a finite number, zero or above")


def _require_degrees_of_freedom(given: float) -> None:
    if isnan(given) or given < 1:
        raise ParameterError(
            "degrees_of_freedom", given, allowed="1 or above, or infinity"
        )


def _require_keyword(word: str) -> None:
    if not word.isidentifier() or python_keywords.iskeyword(word):
        raise ParameterError(
            "symbol",
            word,
            allowed="a name that Python accepts as a keyword argument",
            remedy="Give a symbol of letters, digits and underscores.",
        )
