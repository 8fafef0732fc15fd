"""The frozen records that every measured number travels in."""

from dataclasses import dataclass
from math import inf, isfinite, isnan

from strandproof.errors import ParameterError


@dataclass(frozen=True, slots=True, kw_only=True)
class BudgetLine:
    """One source of uncertainty and what it adds to a result.

    Parameters
    ----------
    name : str
        Name of the input, in words of the trade.
    standard_uncertainty : float
        Standard uncertainty of the input, in the input's unit.
    unit : str
        Unit of the input.
    sensitivity : float
        Partial derivative of the result with respect to this input.
    component : float
        Contribution to the result's standard uncertainty, in the result's unit
        (absolute value of sensitivity times standard uncertainty).
    degrees_of_freedom : float
        Degrees of freedom of the input; `inf` for a Type B evaluation.
    """

    name: str
    standard_uncertainty: float
    unit: str
    sensitivity: float
    component: float
    degrees_of_freedom: float = inf


@dataclass(frozen=True, slots=True)
class Quantity:
    """A value with its standard uncertainty and where that comes from.

    Parameters
    ----------
    value : float
        Best estimate, in `unit`.
    unit : str
        Unit as it is printed, for example ``"um"`` or ``"1/mm"``; ``"1"`` for
        a pure number.
    standard_uncertainty : float
        Standard uncertainty (one standard deviation), in `unit`; not negative.
    degrees_of_freedom : float
        Effective degrees of freedom, `inf` when the uncertainty is taken as
        known; at least 1.
    budget : tuple of BudgetLine
        The sources, largest first; empty for a plain input.

    Raises
    ------
    ParameterError
        If a number is not finite, or an uncertainty is negative, or the
        degrees of freedom are below 1.

    Examples
    --------
    >>> Quantity(8.44, "um", 0.18, degrees_of_freedom=2).standard_uncertainty
    0.18
    """

    value: float
    unit: str
    standard_uncertainty: float = 0.0
    degrees_of_freedom: float = inf
    budget: tuple[BudgetLine, ...] = ()

    def __post_init__(self) -> None:
        if not isfinite(self.value):
            raise ParameterError("value", self.value, allowed="a finite number")
        u = self.standard_uncertainty
        if not isfinite(u) or u < 0:
            raise ParameterError(
                "standard_uncertainty", u, allowed="a finite number, zero or above"
            )
        nu = self.degrees_of_freedom
        if isnan(nu) or nu < 1:
            raise ParameterError(
                "degrees_of_freedom", nu, allowed="1 or above, or infinity"
            )

    @property
    def relative_uncertainty(self) -> float | None:
        """Standard uncertainty over the absolute value; None for a value of zero."""
        return self.standard_uncertainty / abs(self.value) if self.value else None


@dataclass(frozen=True, slots=True, kw_only=True)
class Interval:
    """Lower and upper limit with the confidence and the method they go by.

    Parameters
    ----------
    lower, upper : float or None
        Limits in `unit`; None where the interval is open at that side.
    unit : str
        Unit of the limits.
    confidence : float
        Two-sided coverage or one-sided confidence, between 0 and 1.
    method : str
        How it was made, in words: what was counted, which distribution, at
        which level (cable, strand, section, field).
    """

    lower: float | None
    upper: float | None
    unit: str
    confidence: float
    method: str

    @property
    def half_width(self) -> float | None:
        """Half the distance between the limits, in `unit`; None if a side is open."""
        if self.lower is None or self.upper is None:
            return None
        return 0.5 * (self.upper - self.lower)
