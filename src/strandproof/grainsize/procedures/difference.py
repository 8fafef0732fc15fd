"""Planimetric G against intercept G: agreement, or measured reasons for the rest."""

from math import log, log2, pi, sqrt

import numpy as np
from scipy import special

from strandproof.errors import ParameterError
from strandproof.grainsize.procedures.statistics import WholeGrains
from strandproof.grainsize.relations import (
    GrainSizeRelations,
    intercept_g,
    planimetric_g,
    require_positive,
)
from strandproof.quantity import Interval, Quantity, coverage_factor
from strandproof.records.measurement import Estimate
from strandproof.records.structure_findings import (
    DifferenceReason,
    MethodDifference,
    ReasonName,
)

_CONFIDENCE = 0.95


def method_difference(
    grains_per_area: Estimate,
    mean_intercept: Estimate,
    grains: WholeGrains,
    *,
    elongation: float | None,
    relations: GrainSizeRelations | None = None,
) -> MethodDifference | None:
    """Planimetric G minus intercept G, taken apart into measured reasons.

    Parameters
    ----------
    grains_per_area : Estimate
        Grains per area [1/px^2].
    mean_intercept : Estimate
        Mean lineal intercept over four directions [px].
    grains : WholeGrains
        Whole grains with areas and outlines.
    elongation : float or None
        Mean intercept along over across the axis; None where it is not known.
    relations : GrainSizeRelations, optional
        Constants; None takes the package's ``"e112"`` form.

    Returns
    -------
    MethodDifference or None
        None with fewer than two whole grains. The scale drops out of it.

    Raises
    ------
    ParameterError
        If the estimates are not both in pixels.

    Notes
    -----
    The two numbers are equal when l sqrt(N_A) = 0.8908, by the constants alone.
    For any structure that fills the plane, boundary length per area is
    (pi/2)/l and also N_A/2 times the mean outline P, so l sqrt(N_A) =
    pi / (N_A^(1/2) P) (computed from L_A = (pi/2) P_L, from memory). With mean area
    A = 1/N_A this is [pi / (P / m)] [sqrt(A) / m], m the mean of sqrt(area):

    - size spread: 2 log2 of sqrt(A)/m, never below 0;
    - elongation: -2 log2 of the outline of an ellipse over that of its circle;
    - outline: 2 log2 of pi m / P with the elongation taken out, less the 0.8908;
    - counting: what is left, from few grains, cut grains and lines.
    """
    if (grains_per_area.quantity.unit, mean_intercept.quantity.unit) != (
        "1/px^2",
        "px",
    ):
        raise ParameterError(
            "grains_per_area and mean_intercept",
            (grains_per_area.quantity.unit, mean_intercept.quantity.unit),
            allowed="estimates in 1/px^2 and px",
        )
    if grains.labels.size < 2:
        return None
    # Both laws have the same unit of length, so pixels may stand for millimetres.
    difference = planimetric_g(
        grains_per_area.quantity.value, relations=relations
    ) - intercept_g(mean_intercept.quantity.value, relations=relations)
    interval, u = _interval(difference, grains_per_area, mean_intercept)
    reasons = _reasons(difference, grains, elongation, relations)
    agree = (interval.lower or 0.0) <= 0.0 <= (interval.upper or 0.0)
    return MethodDifference(
        difference=Quantity(difference, "1", u),
        interval95=interval,
        agree=agree,
        reasons=reasons,
        sentence=_sentence(difference, interval, reasons, agree=agree),
    )


def outline_stretch(elongation: float) -> float:
    """Outline of an ellipse over that of the circle of the same area.

    Parameters
    ----------
    elongation : float
        Ratio of its axes, either way round; above 0.

    Returns
    -------
    float
        1 for a circle, above 1 else.

    Raises
    ------
    ParameterError
        If the ratio is not a finite number above 0.

    Notes
    -----
    4 a E(1 - 1/r^2) / (2 pi) with a = sqrt(r) and r the greater ratio; E is the
    complete elliptic integral of the second kind.

    Examples
    --------
    >>> round(outline_stretch(2.0), 4), outline_stretch(1.0)
    (1.0903, 1.0)
    """
    require_positive("elongation", elongation)
    ratio = max(elongation, 1.0 / elongation)
    return float(2.0 * sqrt(ratio) * special.ellipe(1.0 - 1.0 / ratio**2) / pi)


def _interval(
    difference: float, density: Estimate, mean: Estimate
) -> tuple[Interval, float]:
    of_density = density.quantity.standard_uncertainty / density.quantity.value
    of_mean = mean.quantity.standard_uncertainty / mean.quantity.value
    parts = ((of_density, density), (2.0 * of_mean, mean))
    u = sqrt(sum(part**2 for part, _ in parts)) / log(2.0)
    # Welch-Satterthwaite, as everywhere; the count is taken as known.
    squares = (
        sum(part**4 / each.quantity.degrees_of_freedom for part, each in parts)
        / log(2.0) ** 4
    )
    freedom = u**4 / squares if squares else float("inf")
    half = coverage_factor(_CONFIDENCE, degrees_of_freedom=freedom) * u
    interval = Interval(
        lower=difference - half,
        upper=difference + half,
        unit="1",
        confidence=_CONFIDENCE,
        method=(
            "scatter of both counts within this picture, taken as independent; the "
            "pixel size drops out"
        ),
    )
    return interval, u


def _reasons(
    difference: float,
    grains: WholeGrains,
    elongation: float | None,
    relations: GrainSizeRelations | None,
) -> tuple[DifferenceReason, ...]:
    mean_area = float(np.average(grains.areas_px, weights=grains.weights))
    root = float(np.average(np.sqrt(grains.areas_px), weights=grains.weights))
    outline = float(np.average(grains.perimeters_px, weights=grains.weights)) / root
    stretch = 1.0 if elongation is None else outline_stretch(elongation)
    level = planimetric_g(1.0, relations=relations) - intercept_g(
        1.0, relations=relations
    )
    spread = sqrt(mean_area) / root
    amounts = (
        2.0 * log2(spread),
        -2.0 * log2(stretch),
        2.0 * log2(pi * stretch / outline) + level,
    )
    left = difference - sum(amounts)
    variation = 100.0 * sqrt(max(0.0, spread**2 - 1.0))
    shape = outline / stretch
    said: list[tuple[ReasonName, float, float, str]] = [
        ("size_spread", amounts[0], spread, f"grain sizes spread by {variation:.0f} %"),
        (
            "outline",
            amounts[2],
            shape,
            f"outline {shape:.2f} times the root of the area (3.53 where both agree)",
        ),
        (
            "counting",
            left,
            float(grains.labels.size),
            f"{grains.labels.size} whole grains, cut grains and lines of this picture",
        ),
    ]
    if elongation is not None:
        words = f"elongation {elongation:.2f}"
        said.insert(1, ("elongation", amounts[1], elongation, words))
    return tuple(
        DifferenceReason(
            name=name,
            amount_g=amount,
            measured=measured,
            sentence=f"{words}: {amount:+.2f}",
        )
        for name, amount, measured, words in said
    )


def _sentence(
    difference: float,
    interval: Interval,
    reasons: tuple[DifferenceReason, ...],
    *,
    agree: bool,
) -> str:
    half = 0.5 * ((interval.upper or 0.0) - (interval.lower or 0.0))
    said = f"Planimetric G minus intercept G is {difference:+.2f} +- {half:.2f} (95 %)"
    verdict = "the two agree" if agree else "more than counting alone explains"
    parts = "; ".join(reason.sentence for reason in reasons)
    return f"{said}: {verdict}. Measured parts: {parts}."
