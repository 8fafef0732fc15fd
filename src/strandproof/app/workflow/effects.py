"""The use case that shows how large effects are, before anything is measured."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from strandproof.electrical import boundary_share, what_this_can_decide
from strandproof.electrical.residual import (
    Solution,
    effect_sizes,
    predicted_residual,
    reachable_conductivity_percent,
)
from strandproof.errors import MissingMeasurementError
from strandproof.quantity import Quantity, normal_input
from strandproof.records.electrical import (
    EffectSize,
    EffectSizes,
    MetalState,
    ResidualPrediction,
    WorkState,
)
from strandproof.records.plain_data import as_plain_data
from strandproof.report.plots import EffectRow, effect_bars_svg
from strandproof.storage import write_output_file

Reading = tuple[float, float]
_NAME, _CELL = 52, 17


@dataclass(frozen=True, slots=True, kw_only=True)
class TypedPlan:
    """A piece and the means to measure it; pairs are value and uncertainty.

    Parameters
    ----------
    micrometres : float or None
        Mean intercept, twins excluded [um].
    millimetres : float or None
        Diameter of a strand [mm].
    interior_ratio : float or None
        Residual ratio inside of the crystals; None takes 430.
    milligrams, metres : tuple of float or None
        Mass and length of the piece; both or neither.
    celsius_u : float
        Standard uncertainty of the wire's temperature [degC].
    ohm_percent : float
        Standard uncertainty of the resistance [%].
    ratio_percent : float or None
        Standard uncertainty of a ratio of resistances [%].
    impurities : mapping of str to float
        A supposed composition: content by chemical symbol [ppm by mass].
    precipitated : bool
        Whether these are locked up in oxide or compounds instead of dissolved.
    work : {"annealed", "bent", "hard", "unknown"}
        State supposed with them.
    """

    micrometres: float | None = None
    millimetres: float | None = None
    interior_ratio: float | None = None
    milligrams: Reading | None = None
    metres: Reading | None = None
    celsius_u: float = 0.2
    ohm_percent: float = 0.05
    ratio_percent: float | None = None
    impurities: Mapping[str, float] = field(default_factory=dict)
    precipitated: bool = False
    work: WorkState = "annealed"


def planned_effects(plan: TypedPlan) -> EffectSizes:
    """Compute effects beside what the user's means can reach.

    Parameters
    ----------
    plan : TypedPlan
        Piece and means.

    Returns
    -------
    EffectSizes
        The effects.

    Raises
    ------
    MissingMeasurementError
        If one of mass and length was given without the other.
    ParameterError
        If a number is out of range.
    """
    if (plan.milligrams is None) != (plan.metres is None):
        raise MissingMeasurementError(
            "Mass or length",
            reason="The uncertainty to expect needs both.",
            remedy="Give both, each with its standard uncertainty, or neither.",
        )
    reachable = None
    if plan.milligrams is not None and plan.metres is not None:
        reachable = reachable_conductivity_percent(
            mass=normal_input("mass", *plan.milligrams, unit="mg"),
            gauge_length=normal_input("length", *plan.metres, unit="m"),
            temperature=normal_input(
                "temperature of the wire", 20.0, plan.celsius_u, unit="degC"
            ),
            resistance_uncertainty_percent=plan.ohm_percent,
        )
    return effect_sizes(
        MetalState(mean_intercept_um=plan.micrometres, strand_mm=plan.millimetres),
        interior_ratio=plan.interior_ratio,
        room_reachable_percent=reachable,
        ratio_percent=plan.ratio_percent,
    )


def supposed_ratio(plan: TypedPlan) -> ResidualPrediction | None:
    """Predict the ratios of a supposed composition.

    Parameters
    ----------
    plan : TypedPlan
        Impurities, boundaries, diameter, work.

    Returns
    -------
    ResidualPrediction or None
        None where no impurity was supposed.

    Raises
    ------
    ParameterError
        If an element is not in the table or a content is negative.
    """
    if not plan.impurities:
        return None
    state = MetalState(
        mean_intercept_um=plan.micrometres, strand_mm=plan.millimetres, work=plan.work
    )
    solution: Solution = "precipitated" if plan.precipitated else "dissolved"
    return predicted_residual(plan.impurities, state, solution=solution)


def supposed_in_words(found: ResidualPrediction) -> tuple[str, ...]:
    """Say which ratios a supposed composition predicts.

    Parameters
    ----------
    found : ResidualPrediction
        From `supposed_ratio`.

    Returns
    -------
    tuple of str
        Lines for people.
    """
    terms = [
        f"  {one.name}: {_short(one.lower)}-{_short(one.upper)} nohm m, usually "
        f"{_short(one.best)} ({one.basis})"
        for one in found.terms
    ]
    return (
        "If the metal were so (usual value, range of the sources):",
        *terms,
        f"  R(273 K)/R(4 K) {_usual(found.ratio_273)}",
        f"  R(293 K)/R(4 K) {_usual(found.ratio_293)}",
        f"  R(293 K)/R(77 K) {_usual(found.nitrogen_ratio)}",
    )


def effects_in_words(found: EffectSizes) -> tuple[str, ...]:
    """Say how large each effect is, as a table and in sentences.

    Parameters
    ----------
    found : EffectSizes
        From `planned_effects`.

    Returns
    -------
    tuple of str
        Lines for people.
    """
    head = ("293 K, %", "77 K, %", "4.2 K, %", "ratio at most")
    lines = [
        (
            "Increase of the resistance, each effect alone, added to copper with a "
            f"residual ratio of {found.interior_ratio:g} inside of its crystals:"
        ),
        f"{'':{_NAME}}" + "".join(f"{one:>{_CELL}}" for one in head),
    ]
    lines += [_table_line(one) for one in found.effects]
    lines += [f"{one.name}: {one.basis}." for one in found.effects]
    lines += _reach_lines(found)
    return tuple(lines)


def effects_data(found: EffectSizes) -> dict[str, Any]:
    """Give the effects as plain data.

    Parameters
    ----------
    found : EffectSizes
        From `planned_effects`.

    Returns
    -------
    dict
        JSON data.
    """
    return {
        "interior_ratio": found.interior_ratio,
        "room_reachable_percent": found.room_reachable_percent,
        "ratio_reachable_percent": found.ratio_reachable_percent,
        "effects": [
            {
                "subject": one.subject,
                "name": one.name,
                "basis": one.basis,
                "room_percent": list(one.room_percent),
                "nitrogen_percent": list(one.nitrogen_percent),
                "helium_percent": list(one.helium_percent),
                "ratio_cap": list(one.ratio_cap),
            }
            for one in found.effects
        ],
        "sentences": list(_reach_lines(found)),
    }


def supposed_data(found: ResidualPrediction | None) -> dict[str, Any]:
    """Give what a supposed composition predicts as plain data.

    Parameters
    ----------
    found : ResidualPrediction or None
        From `supposed_ratio`.

    Returns
    -------
    dict
        JSON data; empty where nothing was supposed.
    """
    return {} if found is None else {"supposed": as_plain_data(found)}


def write_effect_bars(found: EffectSizes, target: Path) -> None:
    """Draw the effects as ranges, and write them as SVG.

    Parameters
    ----------
    found : EffectSizes
        From `planned_effects`.
    target : Path
        The SVG file; it must not be there.
    """
    rows = [
        EffectRow(
            name=one.name,
            percents=(one.room_percent, one.nitrogen_percent, one.helium_percent),
        )
        for one in found.effects
    ]
    drawing = effect_bars_svg(
        rows,
        reachable_percent=found.room_reachable_percent,
        title="How large each effect is, before measuring",
    )
    write_output_file(target, str(drawing).encode("utf-8"))


def _usual(ends: tuple[float, float, float]) -> str:
    low, usual, high = (f"{float(f'{one:.3g}'):g}" for one in ends)
    return f"{usual} ({low} to {high})"


def _table_line(one: EffectSize) -> str:
    cells = (
        *map(_range, (one.room_percent, one.nitrogen_percent, one.helium_percent)),
        _cap(one.ratio_cap),
    )
    return f"{one.name:{_NAME}}" + "".join(f"{cell:>{_CELL}}" for cell in cells)


def _reach_lines(found: EffectSizes) -> tuple[str, ...]:
    lines = []
    distance = found.state.mean_intercept_um
    if found.room_reachable_percent is None:
        lines.append(
            "Give mass and length with their uncertainties to see what your own "
            "conductivity would reach."
        )
    elif distance is not None:
        power = what_this_can_decide(
            boundary_share(Quantity(distance, "um")),
            expanded_uncertainty_percent=found.room_reachable_percent,
        )
        lines.append(f"At room temperature: {power.sentence}.")
    else:
        reached = f"{found.room_reachable_percent:.2g} %"
        lines.append(f"At room temperature: your uncertainty {reached}.")
    if found.ratio_reachable_percent is not None:
        lines.append(_ratio_line(found))
    lines.append(
        "Cold work and dissolved impurities change every one of these resistances as "
        "boundaries do, so none of them alone can tell crystals."
    )
    return tuple(lines)


def _ratio_line(found: EffectSizes) -> str:
    boundaries = [one for one in found.effects if one.subject == "boundaries"]
    reach = f"your uncertainty {found.ratio_reachable_percent:.2g} %"
    if not boundaries:
        return f"Ratio in liquid nitrogen: {reach}."
    first = boundaries[0]
    low, high = (
        nitrogen - room
        for nitrogen, room in zip(
            first.nitrogen_percent, first.room_percent, strict=True
        )
    )
    return (
        f"Ratio in liquid nitrogen: boundaries lower it by {low:.2g}-{high:.2g} %, "
        f"{reach}."
    )


def _range(ends: tuple[float, float]) -> str:
    return f"{_short(ends[0])}-{_short(ends[1])}"


def _cap(ends: tuple[float, float | None]) -> str:
    if ends[1] is None:
        return f"{_short(ends[0])} or more"
    return f"{_short(ends[0])}-{_short(ends[1])}"


def _short(number: float) -> str:
    """Write two digits, never in powers of ten."""
    rounded = float(f"{number:.2g}")
    if rounded >= 10:
        return f"{rounded:.0f}"
    return f"{rounded:.6f}".rstrip("0").rstrip(".")
