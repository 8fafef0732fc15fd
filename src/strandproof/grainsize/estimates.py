"""Estimates with their 95 % interval, in pixels, by t or by exact limits."""

from math import ceil, floor, inf, sqrt

import numpy as np
import numpy.typing as npt

from strandproof.grainsize.blocks import BlockTally
from strandproof.grainsize.triple_points import AreaTally
from strandproof.quantity import (
    BudgetLine,
    Interval,
    Quantity,
    coverage_factor,
    poisson_interval,
    relative_accuracy_percent,
)
from strandproof.records.measurement import CountingRules, Estimate

WITHIN = "within this picture"
CONFIDENCE = 0.95


def mean_intercept_estimate(
    tally: BlockTally, *, directions: int, rules: CountingRules
) -> Estimate | None:
    """Mean intercept in pixels with the interval that the picture allows.

    Parameters
    ----------
    tally : BlockTally
        Lengths and intercepts by parts of the picture.
    directions : int
        Directions of line that crossed the same grains.
    rules : CountingRules
        Fewest parts that an interval may come from.

    Returns
    -------
    Estimate or None
        Mean intercept [px]; None where no boundary was crossed.

    Notes
    -----
    l = sum(L) / sum(N). With enough parts, the standard uncertainty of this
    quotient is sqrt(n / (n - 1) sum((L_i - l N_i)^2)) / sum(N) with n - 1
    degrees of freedom (ratio estimator of survey sampling, from memory), and
    the interval is Student's t.

    With fewer parts the intercepts themselves are taken as events. Lines in
    several directions cross the same boundaries, so only one direction's share
    of them is used, with exact Poisson limits; intercepts scatter less than
    Poisson events, so this is wide.
    """
    if tally.crossings == 0:
        return None
    total = float(tally.intercepts.sum())
    mean = float(tally.lengths_px.sum()) / total
    used = tally.lengths_px > 0
    if np.count_nonzero(used) >= rules.minimum_blocks:
        return _t_estimate(tally, mean)
    # Lines closer than one mean intercept count the same boundary again.
    repeats = directions / min(1.0, rules.line_spacing)
    return _counted_estimate(mean, floor(total / repeats))


def _t_estimate(tally: BlockTally, mean: float) -> Estimate:
    used = tally.lengths_px > 0
    lengths, intercepts = tally.lengths_px[used], tally.intercepts[used]
    blocks = lengths.size
    residuals = lengths - mean * intercepts
    scatter = float(np.sum(residuals**2)) * blocks / (blocks - 1)
    u = sqrt(scatter) / float(intercepts.sum())
    half = coverage_factor(CONFIDENCE, degrees_of_freedom=blocks - 1) * u
    method = f"Student t over {blocks} parts of the picture, {WITHIN}"
    return _estimate(
        _sampled(mean, "px", u, degrees_of_freedom=blocks - 1.0),
        (max(0.0, mean - half), mean + half),
        method,
    )


def _counted_estimate(mean: float, events: int) -> Estimate:
    if events == 0:
        return Estimate(
            quantity=_sampled(mean, "px", mean),
            interval95=None,
            relative_accuracy_percent=None,
        )
    limits = poisson_interval(events, exposure=1.0, unit="1", confidence=CONFIDENCE)
    lower, upper = limits.lower or 0.0, limits.upper or inf
    method = (
        f"exact Poisson limits of {events} intercepts (one direction's share), {WITHIN}"
    )
    return _estimate(
        _sampled(mean, "px", mean / sqrt(events)),
        (mean * events / upper, mean * events / lower),
        method,
    )


def grains_per_area_estimate(
    equivalent: float,
    area_px: float,
    *,
    scatter: AreaTally | None = None,
    minimum_blocks: int = 4,
) -> Estimate:
    """Grains per area in pixels with the interval that the picture allows.

    Parameters
    ----------
    equivalent : float
        Whole grains that the area is worth; above 0.
    area_px : float
        Area of metal [px^2]; above 0.
    scatter : AreaTally or None
        Areas and triple points by parts of the picture; None for none.
    minimum_blocks : int
        Fewest parts that an interval may come from; 2 or more.

    Returns
    -------
    Estimate
        Grains per area [1/px^2].

    Notes
    -----
    With enough parts: relative standard uncertainty
    sqrt(n / (n - 1) sum((T_i - t A_i)^2)) / sum(T) for T_i triple points on the
    areas A_i, t = sum(T) / sum(A) (ratio estimator, from memory), n - 1 degrees
    of freedom, Student's t. A network of boundaries has two triple points to a
    grain (Euler, textbook), so that both scatter alike.

    With fewer parts: exact Poisson limits of the next whole numbers below and
    above the equivalent count. Grains that fill the plane cannot fall as unevenly
    as independent points unless their size changes over the picture, so this is
    an upper bound for a structure that is alike all over.
    """
    if scatter is not None:
        used = scatter.areas_px > 0
        met = np.count_nonzero(scatter.triple_points[used])
        if np.count_nonzero(used) >= minimum_blocks and met >= minimum_blocks:
            return _scattered_density(equivalent / area_px, scatter, used)
    below = poisson_interval(floor(equivalent), exposure=area_px, unit="1/px^2")
    above = poisson_interval(ceil(equivalent), exposure=area_px, unit="1/px^2")
    method = (
        f"exact Poisson limits of {equivalent:g} equivalent grains, an upper bound "
        f"for a structure that is alike all over, {WITHIN}"
    )
    return _estimate(
        _sampled(equivalent / area_px, "1/px^2", sqrt(equivalent) / area_px),
        (below.lower or 0.0, above.upper or inf),
        method,
    )


def _scattered_density(
    density: float, scatter: AreaTally, used: npt.NDArray[np.bool_]
) -> Estimate:
    areas, points = scatter.areas_px[used], scatter.triple_points[used]
    blocks = areas.size
    residuals = points - points.sum() / areas.sum() * areas
    squares = float(np.sum(residuals**2)) * blocks / (blocks - 1)
    u = density * sqrt(squares) / float(points.sum())
    half = coverage_factor(CONFIDENCE, degrees_of_freedom=blocks - 1) * u
    return _estimate(
        _sampled(density, "1/px^2", u, degrees_of_freedom=blocks - 1.0),
        (max(0.0, density - half), density + half),
        f"Student t over {blocks} parts of the picture, by the scatter of triple "
        f"points, {WITHIN}",
    )


def _sampled(
    value: float, unit: str, u: float, *, degrees_of_freedom: float = inf
) -> Quantity:
    line = BudgetLine(
        name=f"sampling {WITHIN}",
        standard_uncertainty=u,
        unit=unit,
        sensitivity=1.0,
        component=u,
        degrees_of_freedom=degrees_of_freedom,
    )
    return Quantity(value, unit, u, degrees_of_freedom, (line,))


def _estimate(quantity: Quantity, limits: tuple[float, float], method: str) -> Estimate:
    return Estimate(
        quantity=quantity,
        interval95=Interval(
            lower=limits[0],
            upper=limits[1],
            unit=quantity.unit,
            confidence=CONFIDENCE,
            method=method,
        ),
        relative_accuracy_percent=relative_accuracy_percent(
            quantity.value, 0.5 * (limits[1] - limits[0])
        ),
    )
