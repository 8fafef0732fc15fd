"""One interval out of sampling, detection, calibration and counting rule."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import fsum, inf, isfinite, sqrt

from strandproof.errors import ParameterError
from strandproof.grainsize.by_level.detection import DetectionCorrection
from strandproof.grainsize.scaling import relative_accuracy_of
from strandproof.quantity import BudgetLine, Interval, Quantity, coverage_factor
from strandproof.records.measurement import Estimate


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """One source besides sampling, relative to the value.

    Parameters
    ----------
    name : str
        The source, in words of the trade.
    relative_standard_uncertainty : float
        Standard uncertainty over the value; zero or above.
    degrees_of_freedom : float
        Its degrees of freedom; `inf` where it is taken as known.
    factor : float
        What the value is multiplied with for this source; 1 for none.

    Raises
    ------
    ParameterError
        If the uncertainty is negative or not finite, or the factor not above 0.
    """

    name: str
    relative_standard_uncertainty: float
    degrees_of_freedom: float = inf
    factor: float = 1.0

    def __post_init__(self) -> None:
        u = self.relative_standard_uncertainty
        if not isfinite(u) or u < 0:
            raise ParameterError(
                "relative_standard_uncertainty", u, allowed="zero or above"
            )
        if not isfinite(self.factor) or self.factor <= 0:
            raise ParameterError("factor", self.factor, allowed="a number above 0")


def calibration_part(pixel_size: Quantity) -> Part:
    """Share of the pixel size in a length measured with it.

    One calibration serves all fields, so that its share does not shrink with
    their number.

    Parameters
    ----------
    pixel_size : Quantity
        Pixel size with its standard uncertainty.

    Returns
    -------
    Part
        The value is already scaled, so that the factor is 1.
    """
    return Part(
        name="calibration (pixel size)",
        relative_standard_uncertainty=pixel_size.relative_uncertainty or 0.0,
        degrees_of_freedom=pixel_size.degrees_of_freedom,
    )


def detection_part(correction: DetectionCorrection) -> Part:
    """Share of missed and false boundaries in a mean intercept.

    Parameters
    ----------
    correction : DetectionCorrection
        Factor from known pieces.

    Returns
    -------
    Part
        With the factor.
    """
    return Part(
        name=f"detection ({correction.pieces} known pieces: {correction.family})",
        relative_standard_uncertainty=correction.relative_standard_uncertainty,
        degrees_of_freedom=float(correction.degrees_of_freedom),
        factor=correction.factor,
    )


def rule_part(name: str, *, relative_half_width: float) -> Part:
    """Share of a counting rule that could as well be another.

    Parameters
    ----------
    name : str
        The rule, for example ``"uncertain marks in or out"``.
    relative_half_width : float
        How far the other choice moves the value, over the value.

    Returns
    -------
    Part
        With half-width / sqrt(3), every value up to the other choice taken as
        equally likely (GUM 4.3.7).
    """
    return Part(
        name=f"counting rule ({name})",
        relative_standard_uncertainty=abs(relative_half_width) / sqrt(3.0),
    )


def joined_estimate(sampling: Estimate, parts: Sequence[Part]) -> Estimate:
    """Join the sampling interval of a positive value with its other sources.

    Parameters
    ----------
    sampling : Estimate
        The value with the interval of one level.
    parts : sequence of Part
        The other sources, independent of sampling and of each other.

    Returns
    -------
    Estimate
        Value times all factors, with one budget line a source. Without a sampling
        interval there is no joined one.

    Raises
    ------
    ParameterError
        If the value is not above 0.

    Notes
    -----
    On each side the half-widths add in squares, each with its own factor: that of
    sampling by the t of its level, t(nu_k) u_k of every part. This is wider than
    the GUM's single factor with effective degrees of freedom when sampling has
    few, and cannot narrow when a source is added, which that factor can: with two
    degrees of freedom a further source lifts the effective number and halves t.

    Examples
    --------
    >>> from strandproof.grainsize.levels import mean_over_level
    >>> leads = mean_over_level((8.333, 8.800, 8.200), level="lead")
    >>> scale = calibration_part(Quantity(0.1726, "um", 0.0004))
    >>> round(joined_estimate(leads, (scale,)).relative_accuracy_percent, 2)
    9.28
    """
    value = sampling.quantity.value
    if not value > 0:
        raise ParameterError("sampling", value, allowed="a value above 0")
    factor = 1.0
    for part in parts:
        factor *= part.factor
    quantity = _joined_quantity(sampling.quantity, parts, factor)
    if sampling.interval95 is None:
        return Estimate(
            quantity=quantity, interval95=None, relative_accuracy_percent=None
        )
    interval = _joined_interval(sampling.interval95, value, parts, factor)
    return Estimate(
        quantity=quantity,
        interval95=interval,
        relative_accuracy_percent=relative_accuracy_of(quantity, interval),
    )


def _joined_interval(
    sampling: Interval, value: float, parts: Sequence[Part], factor: float
) -> Interval:
    others = fsum(
        (
            coverage_factor(
                sampling.confidence, degrees_of_freedom=part.degrees_of_freedom
            )
            * part.relative_standard_uncertainty
        )
        ** 2
        for part in parts
    )

    def limit(end: float | None, side: int) -> float | None:
        if end is None:
            return None
        return factor * value * (1 + side * sqrt((end / value - 1) ** 2 + others))

    lower = limit(sampling.lower, -1)
    joined = "; ".join(part.name for part in parts)
    return Interval(
        lower=None if lower is None else max(0.0, lower),
        upper=limit(sampling.upper, 1),
        unit=sampling.unit,
        confidence=sampling.confidence,
        method=f"{sampling.method}; joined in squares with: {joined or 'nothing else'}",
    )


def _joined_quantity(
    sampling: Quantity, parts: Sequence[Part], factor: float
) -> Quantity:
    value = sampling.value * factor
    lines = [
        BudgetLine(
            name=part.name,
            standard_uncertainty=part.relative_standard_uncertainty,
            unit="1",
            sensitivity=value,
            component=value * part.relative_standard_uncertainty,
            degrees_of_freedom=part.degrees_of_freedom,
        )
        for part in parts
    ]
    scaled = factor * sampling.standard_uncertainty
    own = [
        BudgetLine(
            name="sampling",
            standard_uncertainty=sampling.standard_uncertainty,
            unit=sampling.unit,
            sensitivity=factor,
            component=scaled,
            degrees_of_freedom=sampling.degrees_of_freedom,
        )
    ]
    return Quantity(
        value,
        sampling.unit,
        sqrt(fsum(line.component**2 for line in (*own, *lines))),
        # That of sampling alone: no further source makes the scatter better known.
        sampling.degrees_of_freedom,
        tuple(sorted((*own, *lines), key=lambda line: -line.component)),
    )
