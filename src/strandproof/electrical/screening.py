"""Incoming inspection of cores: accept or hold, with rule and risk."""

from strandproof.electrical.conformity import decide_conformity
from strandproof.electrical.given_inputs import given_inputs
from strandproof.electrical.route_models import Values
from strandproof.electrical.routes import conductivity_by_mass
from strandproof.electrical.temperature import (
    fixed_coefficient,
    required_temperature,
)
from strandproof.errors import ParameterError
from strandproof.quantity import ModelNumber, Quantity, propagate_several
from strandproof.records.electrical import (
    ConformityDecision,
    CoreReading,
    DecisionRule,
    ResistanceMeasurement,
    ScreeningLimits,
    ScreeningResult,
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
        ``"accept"`` only when strand count, mass per metre and resistance per
        metre all conform; a value inside of a guard band is held.

    Raises
    ------
    MissingMeasurementError
        If the temperature is missing.
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
    reasons = _reasons(reading, limits, mass=mass, resistance=resistance)
    return ScreeningResult(
        label=reading.label,
        action="hold" if reasons else "accept",
        reasons=reasons,
        mass_per_metre=mass,
        resistance_per_metre=resistance,
        percent_iacs_by_mass=conductivity.percent_iacs,
        flags=conductivity.flags,
    )


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
    *,
    mass: ConformityDecision,
    resistance: ConformityDecision,
) -> tuple[str, ...]:
    reasons = []
    if reading.strands != limits.strands:
        reasons.append(f"{reading.strands} strands counted, {limits.strands} wanted")
    for name, decision in (
        ("mass per metre", mass),
        ("resistance per metre", resistance),
    ):
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
