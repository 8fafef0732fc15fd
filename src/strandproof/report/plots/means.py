"""A mean with its interval, as plots show it and as they say it."""

from dataclasses import dataclass

from strandproof.errors import ParameterError
from strandproof.records.entries import MeasuredValue
from strandproof.records.measurement import Estimate
from strandproof.report.plots.canvas import (
    ACCENT,
    INK,
    RANGE,
    Scale,
    line,
    number,
    require_finite,
)
from strandproof.report.wording import value_in_words

NEEDS = 10
"""Room for the sign above and below its middle."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MeanWithInterval:
    """A mean and its interval.

    Parameters
    ----------
    value : float
        The mean.
    lower, upper : float or None
        Ends of the interval; None where an end is open or there is no interval.
    confidence : float
        Confidence of the interval, between 0 and 1.

    Raises
    ------
    ParameterError
        If a number is not finite, or the mean lies outside of its interval.
    """

    value: float
    lower: float | None = None
    upper: float | None = None
    confidence: float = 0.95

    def __post_init__(self) -> None:
        ends = self.ends()
        require_finite("mean and interval", ends)
        if list(ends) != sorted(ends):
            raise ParameterError(
                "mean and interval",
                (self.lower, self.value, self.upper),
                allowed="lower end <= mean <= upper end",
            )

    @classmethod
    def of_estimate(cls, estimate: Estimate) -> "MeanWithInterval":
        """Take the mean and the interval of an estimate.

        Parameters
        ----------
        estimate : Estimate
            With its interval, if there is one.

        Returns
        -------
        MeanWithInterval
            The same numbers.
        """
        interval = estimate.interval95
        if interval is None:
            return cls(value=estimate.quantity.value)
        return cls(
            value=estimate.quantity.value,
            lower=interval.lower,
            upper=interval.upper,
            confidence=interval.confidence,
        )

    def ends(self) -> tuple[float, ...]:
        """Give the numbers that are there, for finding the ends of a scale.

        Returns
        -------
        tuple of float
            One to three numbers.
        """
        given = (self.lower, self.value, self.upper)
        return tuple(each for each in given if each is not None)

    def in_words(self, unit: str) -> str:
        """Say mean and interval with the digits that they deserve.

        Parameters
        ----------
        unit : str
            Unit, for example ``"um"``.

        Returns
        -------
        str
            For example ``"8.4 ± 0.8 µm (95 %)"``.
        """
        mean = MeasuredValue(value=self.value, unit=unit)
        if self.lower is None and self.upper is None:
            return f"{value_in_words(mean)}, no interval stated"
        whole = value_in_words(
            MeasuredValue(
                value=self.value,
                unit=unit,
                lower=self.lower,
                upper=self.upper,
                confidence=self.confidence,
            )
        )
        if self.lower is None or self.upper is None:
            return f"{value_in_words(mean)}, interval {whole}"
        return whole


def mean_sign(
    mean: MeanWithInterval,
    scale: Scale,
    y: float,
    *,
    holds: bool = True,
    narrow: bool = False,
) -> str:
    """Draw a mean with its interval on a row.

    A thick bar is the interval, a filled circle the mean; an arrow says that the
    interval goes on. An interval for a narrower question is a thin bar, one that does
    not hold a thin dashed line; the mean of either is an open circle.

    Parameters
    ----------
    mean : MeanWithInterval
        What to draw.
    scale : Scale
        Scale of the row.
    y : float
        Middle of the row.
    holds : bool
        False for an interval that is shown as a warning.
    narrow : bool
        True for an interval that speaks for the pieces examined only.

    Returns
    -------
    str
        The drawing.
    """
    parts = []
    if mean.lower is not None or mean.upper is not None:
        low = scale.low if mean.lower is None else mean.lower
        high = scale.high if mean.upper is None else mean.upper
        look = (
            f'stroke="{RANGE}" stroke-width="{3 if narrow else 8}"'
            if holds
            else f'stroke="{INK}" stroke-width="2" stroke-dasharray="4 3"'
        )
        start, end = scale.place(low), scale.place(high)
        parts.append(line((start, y), (end, y), style=look))
        if not holds:
            cap = f'stroke="{INK}" stroke-width="2"'
            parts += [line((x, y - 5), (x, y + 5), style=cap) for x in (start, end)]
        if mean.lower is None:
            parts.append(_arrow(start, y, -NEEDS))
        if mean.upper is None:
            parts.append(_arrow(end, y, NEEDS))
    fill = ACCENT if holds and not narrow else "#fff"
    parts.append(
        f'<circle cx="{number(scale.place(mean.value))}" cy="{number(y)}" r="4.5" '
        f'fill="{fill}" stroke="{INK}" stroke-width="1.4"/>'
    )
    return "".join(parts)


def _arrow(x: float, y: float, reach: float) -> str:
    return (
        f'<path d="M{number(x)} {number(y - 8)} l{number(reach)} 8 '
        f'l{number(-reach)} 8 z" fill="{RANGE}"/>'
    )
