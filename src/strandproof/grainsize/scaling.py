"""From pixels to micrometres and millimetres, with the uncertainty of the scale."""

from dataclasses import dataclass
from math import isfinite, sqrt

from strandproof.errors import ParameterError, UnitError
from strandproof.quantity import (
    Interval,
    ModelNumber,
    Quantity,
    coverage_factor,
    normal_input,
    propagate,
    relative_accuracy_percent,
)
from strandproof.records.measurement import Estimate


@dataclass(frozen=True, slots=True)
class ScaledUnit:
    """A unit that pixels turn into, as a power of a length.

    Parameters
    ----------
    unit : str
        The unit.
    power : int
        Power of the length in it: 2 for an area, -1 for a rate per length.
    per_um : float
        How many of the length's unit one micrometre is.
    """

    unit: str
    power: int
    per_um: float


MICROMETRES = ScaledUnit("um", 1, 1.0)
MILLIMETRES = ScaledUnit("mm", 1, 1e-3)
SQUARE_MILLIMETRES = ScaledUnit("mm^2", 2, 1e-3)
PER_MILLIMETRE = ScaledUnit("1/mm", -1, 1e-3)
PER_SQUARE_MILLIMETRE = ScaledUnit("1/mm^2", -2, 1e-3)


def require_pixel_size(pixel_size: Quantity) -> None:
    """Refuse a pixel size that is no length in micrometres.

    Parameters
    ----------
    pixel_size : Quantity
        What the caller gave.

    Raises
    ------
    UnitError
        If its unit is not ``"um"``.
    ParameterError
        If its value is not above 0.
    """
    if pixel_size.unit != "um":
        raise UnitError(pixel_size.unit, expected="um (micrometres per pixel)")
    if not isfinite(pixel_size.value) or pixel_size.value <= 0:
        raise ParameterError(
            "pixel_size", pixel_size.value, allowed="a length above 0 um per pixel"
        )


def scaled_quantity(
    in_pixels: Quantity, pixel_size: Quantity | None, target: ScaledUnit
) -> Quantity:
    """Turn a quantity in pixels into a unit of length, to first order.

    Parameters
    ----------
    in_pixels : Quantity
        The quantity, in the same power of px as `target` is of a length.
    pixel_size : Quantity or None
        Size of a pixel [um]; None leaves the quantity in pixels.
    target : ScaledUnit
        The unit wanted.

    Returns
    -------
    Quantity
        Scaled value; sampling and pixel size as its two sources.

    Notes
    -----
    x = n (c p)^k: relative uncertainties of n and k times that of p add in
    squares (JCGM 100:2008, 5.1.6). One pixel size serves the whole picture, so
    its share does not shrink with the number of grains.
    """
    if pixel_size is None:
        return in_pixels

    def model(counted: ModelNumber, pixel: ModelNumber) -> ModelNumber:
        return counted * (pixel * target.per_um) ** target.power

    name = in_pixels.budget[0].name if in_pixels.budget else "reading in pixels"
    counted = normal_input(
        name,
        in_pixels.value,
        in_pixels.standard_uncertainty,
        unit=in_pixels.unit,
        symbol="counted",
        degrees_of_freedom=in_pixels.degrees_of_freedom,
    )
    pixel = normal_input(
        "pixel size",
        pixel_size.value,
        pixel_size.standard_uncertainty,
        unit="um",
        symbol="pixel",
        degrees_of_freedom=pixel_size.degrees_of_freedom,
    )
    return propagate(model, (counted, pixel), unit=target.unit)


def scaled_interval(
    interval: Interval, value: float, pixel_size: Quantity | None, target: ScaledUnit
) -> Interval:
    """Turn an interval in pixels into a unit of length and widen it by the scale.

    Parameters
    ----------
    interval : Interval
        Interval of what was counted in pixels.
    value : float
        The estimate it belongs to, in pixels.
    pixel_size : Quantity or None
        Size of a pixel [um]; None leaves the interval in pixels.
    target : ScaledUnit
        The unit wanted.

    Returns
    -------
    Interval
        Scaled limits.

    Notes
    -----
    On each side the distance of the limit from the estimate and the expanded
    uncertainty of the scale (same confidence, k times relative) add in squares.
    Where the estimate is 0 the scale's share is taken of the limit instead.
    """
    if pixel_size is None:
        return interval
    factor = (pixel_size.value * target.per_um) ** target.power
    relative = (
        abs(target.power)
        * coverage_factor(
            interval.confidence, degrees_of_freedom=pixel_size.degrees_of_freedom
        )
        * pixel_size.standard_uncertainty
        / pixel_size.value
    )

    def limit(end: float | None, side: int) -> float | None:
        if end is None:
            return None
        scale_part = relative * (value or end)
        return factor * (value + side * sqrt((end - value) ** 2 + scale_part**2))

    lower = limit(interval.lower, -1)
    included = "with" if pixel_size.standard_uncertainty else "without"
    return Interval(
        lower=None if lower is None else max(0.0, lower),
        upper=limit(interval.upper, 1),
        unit=target.unit,
        confidence=interval.confidence,
        method=f"{interval.method}; {included} the uncertainty of the pixel size",
    )


def scaled_estimate(
    in_pixels: Estimate, pixel_size: Quantity | None, target: ScaledUnit
) -> Estimate:
    """Turn an estimate in pixels into a unit of length.

    Parameters
    ----------
    in_pixels : Estimate
        The estimate.
    pixel_size : Quantity or None
        Size of a pixel [um]; None leaves the estimate in pixels.
    target : ScaledUnit
        The unit wanted.

    Returns
    -------
    Estimate
        Scaled value, interval and relative accuracy.
    """
    if pixel_size is None:
        return in_pixels
    quantity = scaled_quantity(in_pixels.quantity, pixel_size, target)
    if in_pixels.interval95 is None:
        return Estimate(
            quantity=quantity, interval95=None, relative_accuracy_percent=None
        )
    interval = scaled_interval(
        in_pixels.interval95, in_pixels.quantity.value, pixel_size, target
    )
    return Estimate(
        quantity=quantity,
        interval95=interval,
        relative_accuracy_percent=relative_accuracy_of(quantity, interval),
    )


def relative_accuracy_of(quantity: Quantity, interval: Interval) -> float | None:
    """Half the width of an interval in percent of the value.

    Parameters
    ----------
    quantity : Quantity
        The value.
    interval : Interval
        Its interval.

    Returns
    -------
    float or None
        Relative accuracy [%]; None for an open interval or a value of 0.
    """
    if interval.lower is None or interval.upper is None or quantity.value <= 0:
        return None
    half_width = 0.5 * (interval.upper - interval.lower)
    return relative_accuracy_percent(quantity.value, half_width)
