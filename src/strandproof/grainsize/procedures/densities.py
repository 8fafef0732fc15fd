"""Boundary area per volume, and twin boundaries apart from grain boundaries."""

from collections.abc import Sequence
from math import pi

from strandproof.errors import ParameterError
from strandproof.grainsize.patch import MetalPatch
from strandproof.grainsize.procedures.digits import three_digits
from strandproof.grainsize.scaling import (
    MILLIMETRES,
    PER_MILLIMETRE,
    relative_accuracy_of,
    scaled_interval,
    scaled_quantity,
)
from strandproof.grainsize.traverses import WalkedLine, parallel_lines
from strandproof.quantity import (
    BudgetLine,
    Interval,
    Quantity,
    poisson_interval,
    reciprocal_interval,
)
from strandproof.records.measurement import CountingRules, Estimate
from strandproof.records.structure_findings import BoundaryDensity, TwinDensity

_DIRECTIONS_DEG = (0.0, 45.0, 90.0, 135.0)
_UM_PER_MM = 1000.0


def boundary_density(mean_intercept: Estimate) -> BoundaryDensity:
    """Boundary area per volume from a mean lineal intercept.

    Assumes lines placed evenly over all directions of space. Lines on one section
    are in one plane, so the value is right for equiaxed grains only.

    Parameters
    ----------
    mean_intercept : Estimate
        Mean lineal intercept [um or px].

    Returns
    -------
    BoundaryDensity
        S_V and L_A [1/mm or 1/px].

    Notes
    -----
    S_V = 2 P_L = 2/l ("Sv = 2 P_L" read, secondary; stereology, from memory) and
    L_A = (pi/2) P_L for lines of all directions in the plane (from memory).

    Examples
    --------
    >>> l = Estimate(
    ...     quantity=Quantity(8.0, "um", 0.4), interval95=None,
    ...     relative_accuracy_percent=None,
    ... )
    >>> boundary_density(l).surface_per_volume.value
    250.0
    """
    unit, factor = "1/px", 1.0
    if mean_intercept.quantity.unit == "um":
        unit, factor = "1/mm", _UM_PER_MM
    surface = _inverse(mean_intercept.quantity, 2.0 * factor, unit)
    along = _inverse(mean_intercept.quantity, 0.5 * pi * factor, unit)
    interval = mean_intercept.interval95
    return BoundaryDensity(
        surface_per_volume=surface,
        surface_interval95=interval and _scaled_reciprocal(interval, 2 * factor, unit),
        length_per_area=along,
        sentence=(
            f"Boundary area per volume {three_digits(surface.value)} {unit}, boundary "
            f"length per area {three_digits(along.value)} {unit}, if the grains are "
            "equiaxed."
        ),
    )


def twin_density(
    merged: MetalPatch,
    with_twins: MetalPatch,
    *,
    axis_deg: float,
    spacing_px: float,
    rules: CountingRules,
    pixel_size: Quantity | None,
) -> TwinDensity:
    """Twin boundaries crossed by the lines that cross the grain boundaries.

    Parameters
    ----------
    merged : MetalPatch
        The piece of metal with twins merged into their grains.
    with_twins : MetalPatch
        The same piece with every twin a region of its own.
    axis_deg : float
        Direction of the strand axis [deg].
    spacing_px : float
        Distance of lines [px]; about one mean intercept.
    rules : CountingRules
        Sampling step.
    pixel_size : Quantity or None
        Size of a pixel [um]; None leaves pixels.

    Returns
    -------
    TwinDensity
        Counts of both kinds, and the mean intercept without and with twins.

    Raises
    ------
    ParameterError
        If the two patches are not of one piece of metal.

    Notes
    -----
    Twin boundaries are what the second labels show more than the first. They are no
    grain boundaries: the mean without them is the grain size (a rule of ASTM E112,
    from memory). The limits are exact Poisson limits of one direction's share.
    """
    if merged.metal.shape != with_twins.metal.shape:
        raise ParameterError(
            "with_twins",
            with_twins.metal.shape,
            allowed=f"labels of the same piece of metal, {merged.metal.shape}",
        )
    grain = _walked(merged, axis_deg, spacing_px, rules)
    either = _walked(with_twins, axis_deg, spacing_px, rules)
    crossed = sum(line.traverse.crossings for line in grain)
    length_px = sum(line.traverse.length_px for line in grain)
    twins = max(0, sum(line.traverse.crossings for line in either) - crossed)
    return twin_density_of(
        twins,
        crossed,
        length_px=length_px,
        directions=len(_DIRECTIONS_DEG),
        pixel_size=pixel_size,
    )


def twin_density_of(
    twin_crossings: int,
    grain_crossings: int,
    *,
    length_px: float,
    directions: int = 1,
    pixel_size: Quantity | None,
) -> TwinDensity:
    """Twin density from counts, for example from a person's marks on a line.

    Parameters
    ----------
    twin_crossings, grain_crossings : int
        Twin boundaries and grain boundaries crossed; 0 or above.
    length_px : float
        Length of line in metal [px]; above 0.
    directions : int
        Directions of line that crossed the same boundaries.
    pixel_size : Quantity or None
        Size of a pixel [um]; None leaves pixels.

    Returns
    -------
    TwinDensity
        Counts, rate, means without and with twins.

    Raises
    ------
    ParameterError
        If the length is not above 0 or a count is negative.

    Examples
    --------
    Brief M15: 600 px of 0.1726 um, 12 boundaries and 5 twins.

    >>> found = twin_density_of(
    ...     5, 12, length_px=600.0, pixel_size=Quantity(0.1726, "um", 0.0004)
    ... )
    >>> [round(1000 * x.value, 1) for x in
    ...  (found.mean_intercept, found.mean_intercept_with_twins)]
    [8.6, 6.1]
    """
    limits = poisson_interval(
        twin_crossings // directions, exposure=length_px / directions, unit="1/px"
    )
    rate = _rate(twin_crossings, length_px)
    per_length = scaled_quantity(rate, pixel_size, PER_MILLIMETRE)
    interval = scaled_interval(limits, rate.value, pixel_size, PER_MILLIMETRE)
    both = twin_crossings + grain_crossings
    length = scaled_quantity(Quantity(length_px, "px"), pixel_size, MILLIMETRES)
    alone = _mean(length, grain_crossings)
    together = _mean(length, both)
    surface = scaled_quantity(
        Quantity(2.0 * rate.value, "1/px", 2.0 * rate.standard_uncertainty),
        pixel_size,
        PER_MILLIMETRE,
    )
    return TwinDensity(
        twin_crossings=twin_crossings,
        grain_crossings=grain_crossings,
        length=length,
        per_length=Estimate(
            quantity=per_length,
            interval95=interval,
            relative_accuracy_percent=relative_accuracy_of(per_length, interval),
        ),
        surface_per_volume=surface,
        share=twin_crossings / both if both else None,
        mean_intercept=alone,
        mean_intercept_with_twins=together,
        sentence=_twin_sentence(per_length, alone, together),
    )


def _walked(
    patch: MetalPatch, axis_deg: float, spacing_px: float, rules: CountingRules
) -> Sequence[WalkedLine]:
    return [
        line
        for direction in _DIRECTIONS_DEG
        for line in parallel_lines(
            patch,
            direction_deg=axis_deg + direction,
            spacing_px=spacing_px,
            step_px=rules.sample_step_px,
        )
    ]


def _twin_sentence(
    rate: Quantity, alone: Quantity | None, together: Quantity | None
) -> str:
    unit = rate.unit.removeprefix("1/")
    said = f"Twin boundaries: {three_digits(rate.value)} per {unit}."
    if alone is None or together is None:
        return f"{said} No grain boundary was crossed, so no mean intercept is stated."
    scale, unit = (_UM_PER_MM, "um") if alone.unit == "mm" else (1.0, alone.unit)
    return (
        f"{said} Mean intercept {three_digits(scale * alone.value)} {unit} with twins "
        f"excluded, {three_digits(scale * together.value)} {unit} with twins counted "
        "as boundaries; the first is the grain size."
    )


def _mean(length: Quantity, boundaries: int) -> Quantity | None:
    if boundaries == 0:
        return None
    return Quantity(
        length.value / boundaries,
        length.unit,
        length.standard_uncertainty / boundaries,
    )


def _rate(count: int, length_px: float) -> Quantity:
    # As in `crossings`: one event's worth stands for the uncertainty of none.
    u = max(1, count) ** 0.5 / length_px
    line = BudgetLine(
        name="count of twin boundaries",
        standard_uncertainty=u,
        unit="1/px",
        sensitivity=1.0,
        component=u,
    )
    return Quantity(count / length_px, "1/px", u, budget=(line,))


def _inverse(length: Quantity, factor: float, unit: str) -> Quantity:
    value = factor / length.value
    return Quantity(
        value,
        unit,
        value * length.standard_uncertainty / length.value,
        length.degrees_of_freedom,
    )


def _scaled_reciprocal(interval: Interval, factor: float, unit: str) -> Interval:
    inverse = reciprocal_interval(interval, unit=unit)
    return Interval(
        lower=None if inverse.lower is None else factor * inverse.lower,
        upper=None if inverse.upper is None else factor * inverse.upper,
        unit=unit,
        confidence=inverse.confidence,
        method=inverse.method,
    )
