"""Incoming inspection of cores: accept or hold, with rule and risk."""

from collections.abc import Mapping, Sequence
from math import log
from types import MappingProxyType

from strandproof.electrical.conformity import decide_conformity
from strandproof.electrical.copper_standard import metal
from strandproof.electrical.given_inputs import converted_input, given_inputs
from strandproof.electrical.route_models import Values
from strandproof.electrical.routes import conductivity_by_mass
from strandproof.electrical.temperature import (
    fixed_coefficient,
    required_temperature,
)
from strandproof.errors import MissingMeasurementError, ParameterError
from strandproof.quantity import (
    ModelNumber,
    Quantity,
    binomial_upper_limit,
    propagate_several,
)
from strandproof.records.electrical import (
    ConformityDecision,
    CoreReading,
    DecisionRule,
    LotResult,
    ResistanceMeasurement,
    ScreeningLimits,
    ScreeningResult,
)

# A tenth in resistivity times density tells copper from clad aluminium (0.63 of it)
# and leaves room for hard-drawn copper and a home balance (judgement).
_ALIKE = 0.1
_METALS = MappingProxyType(
    {
        "copper": "copper",
        "clad_aluminium_10": "copper-clad aluminium (10 % copper)",
        "clad_aluminium_15": "copper-clad aluminium (15 % copper)",
    }
)


def screen_core(
    reading: CoreReading,
    *,
    limits: ScreeningLimits,
    rule: DecisionRule | None = None,
) -> ScreeningResult:
    """Accept a core, or hold it and say why.

    Screens for another metal or too little of it. It says nothing about crystals,
    casting route, purity or oxygen.

    Parameters
    ----------
    reading : CoreReading
        Strand count, length, mass, resistance and temperature of one core.
    limits : ScreeningLimits
        What it must reach.
    rule : DecisionRule, optional
        Rule of both decisions; None takes a guard band with a risk of at most 5 %.

    Returns
    -------
    ScreeningResult
        ``"accept"`` only when strand count, mass per metre, resistance per metre
        and, where it is limited, the diameter all conform; a value inside of a guard
        band is held, and so is a metal that is no copper.

    Raises
    ------
    MissingMeasurementError
        If the temperature is missing, or a diameter that is limited.
    UnitError
        If a unit does not fit.
    ParameterError
        If a number is zero, negative or out of range.
    """
    _require_limits(limits)
    per_metre = _per_metre(reading)
    mass = decide_conformity(
        per_metre["mass"],
        limit=limits.least_mass_per_metre_g,
        side="at_least",
        rule=rule,
    )
    resistance = decide_conformity(
        per_metre["resistance"],
        limit=limits.most_resistance_per_metre_mohm,
        side="at_most",
        rule=rule,
    )
    conductivity = conductivity_by_mass(
        ResistanceMeasurement(
            resistance=reading.resistance,
            temperature=reading.temperature,
            gauge_length=reading.length,
            mass=reading.mass,
        )
    )
    diameter = _diameter(reading, limits, rule)
    likeness, foreign = _likeness(conductivity.resistivity)
    decisions = {
        "mass per metre": mass,
        "resistance per metre": resistance,
        **({} if diameter is None else {"diameter of a strand": diameter}),
    }
    reasons = _reasons(reading, limits, decisions)
    reasons += (likeness,) if foreign else ()
    return ScreeningResult(
        label=reading.label,
        action="hold" if reasons else "accept",
        reasons=reasons,
        mass_per_metre=mass,
        resistance_per_metre=resistance,
        percent_iacs_by_mass=conductivity.percent_iacs,
        flags=conductivity.flags,
        diameter=diameter,
        likeness=likeness,
    )


def screen_lot(
    readings: Sequence[CoreReading],
    *,
    limits: ScreeningLimits,
    rule: DecisionRule | None = None,
) -> LotResult:
    """Accept a lot of cores, or hold it, and say what the sample can show.

    Assumes that the cores were taken at random from the lot.

    Parameters
    ----------
    readings : sequence of CoreReading
        The cores examined, each under a label of its own; one or more.
    limits : ScreeningLimits
        What each must reach.
    rule : DecisionRule, optional
        Rule of all decisions; None takes a guard band with a risk of at most 5 %.

    Returns
    -------
    LotResult
        Each core, the action, and the exact upper limit of the share of such cores
        as would be held.

    Raises
    ------
    MissingMeasurementError
        If a temperature is missing, or a diameter that is limited.
    UnitError
        If a unit does not fit.
    ParameterError
        If there is no core, two have one label, or a number is out of range.

    Notes
    -----
    Upper 95 % limit of a proportion by Clopper and Pearson; 1 - 0.05^(1/n) with
    none of n held.
    """
    labels = [one.label for one in readings]
    if not labels or len(set(labels)) != len(labels):
        raise ParameterError(
            "cores", labels, allowed="one core or more, each with a label of its own"
        )
    rule = rule or DecisionRule()
    cores = tuple(screen_core(one, limits=limits, rule=rule) for one in readings)
    held = tuple(core.label for core in cores if core.action == "hold")
    upper = binomial_upper_limit(len(held), len(cores)).upper
    share = 1.0 if upper is None else upper
    return LotResult(
        cores=cores,
        action="hold" if held else "accept",
        held=held,
        bad_share_upper=share,
        sentence=_lot_sentence(len(cores), held, share, rule),
    )


def _lot_sentence(
    cores: int, held: tuple[str, ...], share: float, rule: DecisionRule
) -> str:
    what = f"held: {len(held)} of {cores} ({', '.join(held)})" if held else "accepted"
    band = (
        "the value alone decides"
        if rule.guard == "none"
        else f"each value with a risk of at most {100 * rule.maximum_risk:g} %"
    )
    return (
        f"Lot {what}; rule: every core must conform, {band}. With {len(held)} of "
        f"{cores} held, up to {100 * share:.1f} % of the lot may be such cores "
        "(95 %, if taken at random)."
    )


def _diameter(
    reading: CoreReading, limits: ScreeningLimits, rule: DecisionRule | None
) -> ConformityDecision | None:
    if limits.least_diameter_mm is None:
        return None
    if reading.diameter is None:
        missing = f"The diameter of a strand of {reading.label}"
        raise MissingMeasurementError(
            missing,
            reason="The limits name one.",
            remedy="Measure it, or leave the limit out.",
        )
    given_inputs(diameter=("length", reading.diameter))
    in_mm = converted_input(reading.diameter, unit="mm")
    return decide_conformity(
        Quantity(in_mm.estimate, "mm", in_mm.standard_uncertainty),
        limit=limits.least_diameter_mm,
        side="at_least",
        rule=rule,
    )


def _likeness(mass_resistivity: Quantity) -> tuple[str, bool]:
    """Name the metal that mass and resistance together fit, geometry aside."""
    distances = {
        name: abs(
            log(
                mass_resistivity.value
                / (1e6 * one.density_g_per_cm3 * one.resistivity_ohm_m)
            )
        )
        for name, one in ((name, metal(name)) for name in _METALS)
    }
    nearest = min(distances, key=distances.__getitem__)
    if distances[nearest] > _ALIKE:
        return "mass and resistance fit no metal of the table", True
    return f"mass and resistance fit {_METALS[nearest]}", nearest != "copper"


def _per_metre(reading: CoreReading) -> dict[str, Quantity]:
    given = given_inputs(
        length=("length", reading.length),
        mass=("mass", reading.mass),
        resistance=("resistance", reading.resistance),
        temperature=("temperature", required_temperature(reading.temperature)),
        coefficient=("coefficient", fixed_coefficient()),
    )

    def results(values: Values) -> dict[str, ModelNumber]:
        warmth = 1.0 + values["coefficient"] * (values["temperature"] - 20.0)
        return {
            "mass": values["mass"] / values["length"],
            "resistance": 1e3 * values["resistance"] / (warmth * values["length"]),
        }

    return dict(
        propagate_several(
            given.model(results),
            given.inputs,
            units={"mass": "g/m", "resistance": "mohm/m"},
        ).quantities
    )


def _reasons(
    reading: CoreReading,
    limits: ScreeningLimits,
    decisions: Mapping[str, ConformityDecision],
) -> tuple[str, ...]:
    reasons = []
    if reading.strands != limits.strands:
        reasons.append(f"{reading.strands} strands counted, {limits.strands} wanted")
    for name, decision in decisions.items():
        if decision.decision != "conforms":
            reasons.append(f"{name}: {decision.sentence}")
    return tuple(reasons)


def _require_limits(limits: ScreeningLimits) -> None:
    for name in (
        "strands",
        "least_mass_per_metre_g",
        "most_resistance_per_metre_mohm",
    ):
        if not getattr(limits, name) > 0:
            raise ParameterError(name, getattr(limits, name), allowed="above zero")
    least = limits.least_diameter_mm
    if least is not None and not least > 0:
        raise ParameterError("least_diameter_mm", least, allowed="above zero")
