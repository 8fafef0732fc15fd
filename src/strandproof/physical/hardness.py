"""Vickers hardness of a strand: mean, budget, and the state of the copper."""

from statistics import fmean

from strandproof.physical.given_units import above_zero, in_unit
from strandproof.physical.indentations import (
    flags_of_indentations,
    require_allowed,
    vickers_hardness,
)
from strandproof.physical.rules import rule
from strandproof.quantity import (
    Input,
    Interval,
    ModelNumber,
    Quantity,
    coverage_factor,
    expanded_interval,
    format_plus_minus,
    input_from_readings,
    normal_input,
    propagate,
    rectangular_input,
)
from strandproof.records import Flag
from strandproof.records.physical import (
    CopperState,
    HardnessMeasurement,
    HardnessResult,
)

_UNIT = "HV"
_SAID = {
    "annealed": "as soft copper has it, annealed after drawing or cast and not drawn",
    "worked": "as fully cold-worked copper has it",
    "between": "between soft and fully cold-worked copper",
    "undetermined": "and the interval reaches across an end of a range of copper, so "
    "the state is undetermined",
}


def diagonal_error(half_width_um: float | None = None) -> Input:
    """Error of reading diagonals that all indentations share.

    Parameters
    ----------
    half_width_um : float, optional
        Half-width of the error [um]; None takes 1 um, of which ISO 6507-1:2018 notes
        that a small diagonal is hardly read better.

    Returns
    -------
    Input
        Rectangular, estimate zero.

    Examples
    --------
    >>> round(diagonal_error().standard_uncertainty, 3)
    0.577
    """
    if half_width_um is None:
        half_width_um = rule("vickers.diagonal_accuracy")
    return rectangular_input("reading of the diagonals", 0.0, half_width_um, unit="um")


def vickers_result(measurement: HardnessMeasurement) -> HardnessResult:
    """Mean Vickers hardness with its budget, and what it says about the copper.

    Assumes indentations of one specimen at one force, on a polished section or a flat
    of the metal itself. It fails on a skin, near an edge, and where the specimen was
    warmed after it was cut: then the hardness is that of the warmed metal.

    Parameters
    ----------
    measurement : HardnessMeasurement
        Indentations, force, shared errors.

    Returns
    -------
    HardnessResult
        Hardness with interval, state, flags.

    Raises
    ------
    UnitError
        If a unit does not fit.
    ParameterError
        If a number is zero or negative or there is no indentation.
    IndentationGeometryError
        If an indentation lies too near to an edge or a neighbour, or is too large for
        its wire.

    Notes
    -----
    HV = mean(HV_i) (F/F0) (d/(d + e))^2 b, with HV_i = 0.189093 F0/d_i^2, the mean
    diagonal d, the shared reading error e (estimate 0) and the block's factor b
    (estimate 1). Its sensitivities: 1 to force and block, 2 to the diagonal, in
    relative terms.

    References
    ----------
    ISO 6507-1:2018, clause 7, for the distances.

    Examples
    --------
    >>> from strandproof.records.physical import Indentation
    >>> found = vickers_result(HardnessMeasurement(
    ...     indentations=tuple(
    ...         Indentation(first_diagonal_um=d, second_diagonal_um=d,
    ...                     edge_um=200.0, next_um=200.0) for d in (29.5, 30.0, 30.5)
    ...     ),
    ...     force=normal_input("force", 25.0, 0.15, unit="gf"),
    ...     diagonal_error=diagonal_error(0.5),
    ... ))
    >>> found.state, round(found.hardness.value, 1)
    ('annealed', 51.5)
    """
    require_allowed(measurement)
    force = above_zero(in_unit(measurement.force, unit="N", symbol="force"))
    values = tuple(
        vickers_hardness(force.estimate, one.mean_diagonal_um)
        for one in measurement.indentations
    )
    hardness = _hardness(measurement, force, values)
    interval = expanded_interval(hardness, 0.95)
    state = copper_state(interval)
    return HardnessResult(
        values_hv=values,
        hardness=hardness,
        interval=interval,
        coverage_factor=coverage_factor(
            0.95, degrees_of_freedom=hardness.degrees_of_freedom
        ),
        state=state,
        sentence=_sentence(hardness, interval, state, len(values)),
        flags=(
            *flags_of_indentations(measurement),
            *_flags_of_budget(measurement),
        ),
    )


def copper_state(interval: Interval) -> CopperState:
    """State of copper that an interval of its hardness allows.

    Parameters
    ----------
    interval : Interval
        Closed interval of the hardness [HV].

    Returns
    -------
    {"annealed", "between", "worked", "undetermined"}
        Annealed where the interval ends at or below 65 HV, worked where it begins at
        or above 110 HV, between where it lies between; else undetermined.
    """
    soft, hard = rule("hardness.annealed.upper"), rule("hardness.worked.lower")
    lower, upper = interval.lower, interval.upper
    if lower is None or upper is None:
        return "undetermined"
    if upper <= soft:
        return "annealed"
    if lower >= hard:
        return "worked"
    return "between" if lower > soft and upper < hard else "undetermined"


def _hardness(
    measurement: HardnessMeasurement, force: Input, values: tuple[float, ...]
) -> Quantity:
    diagonal = fmean(one.mean_diagonal_um for one in measurement.indentations)
    error = in_unit(measurement.diagonal_error, unit="um", symbol="error")
    block = measurement.block or normal_input("reference block", 1.0, 0.0, unit="1")
    inputs = (
        _scatter(values),
        force,
        error,
        in_unit(block, unit="1", symbol="block"),
    )

    def model(
        mean: ModelNumber, force: ModelNumber, error: ModelNumber, block: ModelNumber
    ) -> ModelNumber:
        shrink = diagonal / (diagonal + error)
        return mean * (force / inputs[1].estimate) * shrink * shrink * block

    return propagate(model, inputs, unit=_UNIT)


def _scatter(values: tuple[float, ...]) -> Input:
    if len(values) == 1:
        return normal_input(
            "one indentation", values[0], 0.0, unit=_UNIT, symbol="mean"
        )
    return input_from_readings(
        "scatter of the indentations", values, unit=_UNIT, symbol="mean"
    )


def _flags_of_budget(measurement: HardnessMeasurement) -> tuple[Flag, ...]:
    flags = []
    if len(measurement.indentations) == 1:
        flags.append(Flag("incomplete_budget", "one indentation shows no scatter"))
    if measurement.block is None:
        flags.append(Flag("no_reference_block"))
    return tuple(flags)


def _sentence(
    hardness: Quantity, interval: Interval, state: CopperState, count: int
) -> str:
    shown = format_plus_minus(hardness.value, interval.half_width or 0.0, unit=_UNIT)
    number = "one indentation" if count == 1 else f"{count} indentations"
    return (
        f"Vickers hardness {shown} (95 %, {number}), {_SAID[state]}. It says how soft "
        "the metal is now, not how it was cast, how pure it is or how many crystals "
        "it has."
    )
