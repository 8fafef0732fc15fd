"""Boundaries crossed along the strand axis, and what seeing none allows to say."""

from collections.abc import Sequence
from math import cos, floor, radians, sin, sqrt

from strandproof.grainsize.patch import MetalPatch
from strandproof.grainsize.scaling import (
    MILLIMETRES,
    PER_MILLIMETRE,
    relative_accuracy_of,
    scaled_interval,
    scaled_quantity,
)
from strandproof.grainsize.traverses import WalkedLine, walk_line
from strandproof.quantity import (
    BudgetLine,
    Interval,
    Quantity,
    format_interval,
    poisson_interval,
    poisson_upper_limit,
    reciprocal_interval,
)
from strandproof.records import Strand
from strandproof.records.measurement import AxialCrossings, CountingRules, Estimate

# Outermost lines stay this share of a mean intercept away from the strand's edge.
_EDGE_CLEARANCE = 0.25


def axial_lines(
    patch: MetalPatch,
    strand: Strand,
    *,
    axis_deg: float,
    mean_intercept_px: float | None,
    rules: CountingRules,
) -> tuple[WalkedLine, ...]:
    """Walk lines along the strand axis that do not see the same boundary twice.

    The strand's centre line is always one of them; others lie one mean
    intercept apart on both sides. Where no boundary is crossed on any of them
    only the centre line counts: a boundary that spans the strand would have
    been met by every line, so more lines are not more length looked at.

    Parameters
    ----------
    patch : MetalPatch
        The strand's metal.
    strand : Strand
        Its centre and width.
    axis_deg : float
        Direction of the axis [deg], from +x towards +y upwards.
    mean_intercept_px : float or None
        Mean intercept [px]; None where no boundary was resolved.
    rules : CountingRules
        Sampling step.

    Returns
    -------
    tuple of WalkedLine
        Every unbroken run in metal.
    """
    half_width = 0.5 * strand.width_px
    pairs = 0
    if mean_intercept_px is not None:
        pairs = max(0, floor(half_width / mean_intercept_px - _EDGE_CLEARANCE))
    spacing = mean_intercept_px or 0.0
    runs = {
        number: _runs_at(patch, strand, number * spacing, axis_deg, rules)
        for number in range(-pairs, pairs + 1)
    }
    lines = tuple(run for each in runs.values() for run in each)
    return lines if any(run.traverse.crossings for run in lines) else runs[0]


def axial_crossings(
    lines: Sequence[WalkedLine], *, pixel_size: Quantity | None
) -> AxialCrossings | None:
    """Rate of boundaries along the axis with exact limits.

    Parameters
    ----------
    lines : sequence of WalkedLine
        Lines from `axial_lines`, of one strand or several.
    pixel_size : Quantity or None
        Size of a pixel [um]; None leaves lengths in pixels.

    Returns
    -------
    AxialCrossings or None
        Rate per mm (or per px) with its limits; None where no line lies in
        metal.

    Notes
    -----
    k crossings over the length L: exact Poisson limits (Garwood) of k, divided
    by L. With k = 0 the one-sided 95 % limit 2.996/L; the mean distance of
    boundaries is then at least L/2.996. Boundaries of a polycrystal follow each
    other more evenly than Poisson events, so that limits are wide for it; both
    boundaries of one stray crystal are counted here, though they are one event.

    The standard uncertainty is sqrt(k)/L, and 1/L for k = 0.
    """
    crossings = sum(line.traverse.crossings for line in lines)
    length_px = sum(line.traverse.length_px for line in lines)
    if length_px <= 0:
        return None
    length = scaled_quantity(Quantity(length_px, "px"), pixel_size, MILLIMETRES)
    in_pixels = _limits(crossings, length_px)
    limits = scaled_interval(
        in_pixels, crossings / length_px, pixel_size, PER_MILLIMETRE
    )
    rate = scaled_quantity(_rate(crossings, length_px), pixel_size, PER_MILLIMETRE)
    spacing = reciprocal_interval(limits, unit=length.unit)
    return AxialCrossings(
        crossings=crossings,
        length=length,
        rate=Estimate(
            quantity=rate,
            interval95=limits,
            relative_accuracy_percent=relative_accuracy_of(rate, limits),
        ),
        mean_spacing95=spacing,
        sentence=_sentence(crossings, length, limits, spacing),
        traverses=tuple(line.traverse for line in lines),
    )


def _limits(crossings: int, length_px: float) -> Interval:
    if crossings == 0:
        return poisson_upper_limit(0, exposure=length_px, unit="1/px")
    return poisson_interval(crossings, exposure=length_px, unit="1/px")


def _rate(crossings: int, length_px: float) -> Quantity:
    u = sqrt(max(1, crossings)) / length_px
    line = BudgetLine(
        name="count of boundaries",
        standard_uncertainty=u,
        unit="1/px",
        sensitivity=1.0,
        component=u,
    )
    return Quantity(crossings / length_px, "1/px", u, budget=(line,))


def _sentence(
    crossings: int, length: Quantity, limits: Interval, spacing: Interval
) -> str:
    rate = format_interval(limits, ascii_only=True).replace("1/", "per ")
    looked_at = f"{length.value:.3g} {length.unit} along the axis"
    if crossings == 0:
        distance = format_interval(spacing, ascii_only=True)
        return (
            f"No boundary was resolved by this method over {looked_at}: "
            f"{rate.partition(' (')[0]}, mean distance {distance}."
        )
    found = "boundary was" if crossings == 1 else "boundaries were"
    return f"{crossings} {found} crossed over {looked_at}: {rate}."


def _runs_at(
    patch: MetalPatch,
    strand: Strand,
    offset_px: float,
    axis_deg: float,
    rules: CountingRules,
) -> tuple[WalkedLine, ...]:
    normal = (cos(radians(axis_deg)), sin(radians(axis_deg)))
    point = (
        strand.centroid_px[0] - patch.corner_px[0] + offset_px * normal[0],
        strand.centroid_px[1] - patch.corner_px[1] + offset_px * normal[1],
    )
    return tuple(walk_line(patch, point, axis_deg, step_px=rules.sample_step_px))
