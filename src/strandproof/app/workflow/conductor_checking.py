"""The use case that holds a conductor against what is claimed of it."""

from collections.abc import Iterator
from dataclasses import dataclass, field

from strandproof.app.workflow.bench_findings import BenchFinding
from strandproof.electrical import (
    check_area,
    check_class,
    check_conductivity_claim,
    compare_with_gauge,
    conductivity_by_mass,
    conductivity_needed,
    decide_conformity,
    gauge_number,
    metric_gauge_area_mm2,
    resistance_per_length,
    strand_area,
    strand_area_by_mass,
)
from strandproof.errors import MissingMeasurementError, ParameterError
from strandproof.quantity import Input, Quantity, normal_input
from strandproof.records.electrical import (
    ConformityDecision,
    DecisionRule,
    ResistanceMeasurement,
)
from strandproof.records.entries import ClaimKind, MeasurementResult
from strandproof.records.entries.numbers import measured_value

_DEFAULT_RULE = DecisionRule()


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuredConductor:
    """What was measured on a conductor, as typed: values with u, None where not.

    Parameters
    ----------
    ohm, celsius, metres, milligrams, millimetres : tuple of float or None
        Value and standard uncertainty; the mass is that of all strands over the
        length, the diameter that of one strand.
    strands : int or None
        Strands counted.
    """

    ohm: tuple[float, float] | None = None
    celsius: tuple[float, float] | None = None
    metres: tuple[float, float] | None = None
    milligrams: tuple[float, float] | None = None
    millimetres: tuple[float, float] | None = None
    strands: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ClaimedConductor:
    """What is claimed of a conductor; None where nothing is.

    Parameters
    ----------
    conductor_class : int or None
        Class of IEC 60228: 1, 2, 5 or 6; with `square_mm`.
    square_mm : float or None
        Nominal or printed area [mm2].
    coated : bool
        Strands with a metal layer, for the class.
    gauge : str or None
        American wire gauge, as it is written.
    metric_gauge : float or None
        Metric wire gauge.
    strands : int or None
        Number of strands.
    lower_percent : tuple of float or None
        By how much the resistance is said to be lower than copper's [%], from, to.
    tolerance_percent : float
        By how much an area may fall short and still conform [%].
    rule : DecisionRule
        Rule of every decision.
    """

    conductor_class: int | None = None
    square_mm: float | None = None
    coated: bool = False
    gauge: str | None = None
    metric_gauge: float | None = None
    strands: int | None = None
    lower_percent: tuple[float, float] | None = None
    tolerance_percent: float = 0.0
    rule: DecisionRule = field(default=_DEFAULT_RULE)


@dataclass(frozen=True, slots=True, kw_only=True)
class ConductorCheck:
    """One claim held against what was measured.

    Parameters
    ----------
    name : str
        Short name of the result.
    measured : Quantity
        What was measured.
    verdict : str
        ``"conforms"``, ``"does not conform"`` or ``"undetermined"``.
    sentence : str
        The same in words, with rule and risk.
    bears_on : ClaimKind
        Kind of claim.
    decision : ConformityDecision or None
        Decision with rule and risk; None for a count, which has none.
    """

    name: str
    measured: Quantity
    verdict: str
    sentence: str
    bears_on: ClaimKind
    decision: ConformityDecision | None = None


def check_conductor(
    measured: MeasuredConductor, claimed: ClaimedConductor
) -> tuple[ConductorCheck, ...]:
    """Hold a conductor against everything that is claimed of it.

    Parameters
    ----------
    measured : MeasuredConductor
        What was measured.
    claimed : ClaimedConductor
        What is claimed.

    Returns
    -------
    tuple of ConductorCheck
        One for each claim.

    Raises
    ------
    ParameterError
        If nothing is claimed, or a claim is out of range.
    MissingMeasurementError
        If a reading is missing without which a claim cannot be checked.
    """
    checks = (
        *_class_check(measured, claimed),
        *_area_checks(measured, claimed),
        *_strand_check(measured, claimed),
        *_resistance_check(measured, claimed),
    )
    if not checks:
        raise ParameterError(
            "claim to check",
            "nothing",
            allowed="a class with its area, an area, a gauge, a number of strands, or "
            "a resistance said to be lower",
        )
    return checks


def conductor_finding(checks: tuple[ConductorCheck, ...]) -> BenchFinding:
    """Give checks of a conductor in the form that a case holds.

    Parameters
    ----------
    checks : tuple of ConductorCheck
        From `check_conductor`.

    Returns
    -------
    BenchFinding
        It bears on the kinds of claim that were checked.
    """
    return BenchFinding(
        method="conductor held against claims, by guard band",
        results=tuple(
            MeasurementResult(
                name=check.name,
                value=measured_value(check.measured),
                words=check.sentence,
            )
            for check in checks
        ),
        bears_on=tuple(dict.fromkeys(check.bears_on for check in checks)),
        sentence=" ".join(check.sentence for check in checks),
    )


def _class_check(
    measured: MeasuredConductor, claimed: ClaimedConductor
) -> Iterator[ConductorCheck]:
    if claimed.conductor_class is None:
        return
    if claimed.square_mm is None:
        raise MissingMeasurementError(
            "The nominal area of the class",
            reason="Each class has a limit for each size.",
            remedy="Give --square-mm.",
        )
    per_km = resistance_per_length(
        _required(measured.ohm, "resistance", "ohm"),
        _given(measured.celsius, "temperature of the wire", "degC"),
        _required(measured.metres, "length", "m"),
    )
    decision = check_class(
        per_km,
        conductor_class=claimed.conductor_class,
        nominal_mm2=claimed.square_mm,
        coated=claimed.coated,
        rule=claimed.rule,
    )
    layer = "metal-coated" if claimed.coated else "plain"
    words = (
        f"Class {claimed.conductor_class}, {claimed.square_mm:g} mm², {layer} "
        f"(IEC 60228): {decision.sentence}"
    )
    yield _decided("resistance_per_length", words, decision, ClaimKind.BUILD)


def _area_checks(
    measured: MeasuredConductor, claimed: ClaimedConductor
) -> Iterator[ConductorCheck]:
    tolerance = claimed.tolerance_percent
    if claimed.gauge is not None:
        found = compare_with_gauge(
            _area(measured),
            gauge=gauge_number(claimed.gauge),
            tolerance_percent=tolerance,
            rule=claimed.rule,
        )
        words = f"{found.sentence} {_capital(found.decision.sentence)}"
        yield _decided("area_for_gauge", words, found.decision, ClaimKind.BUILD)
    areas = {
        "area_for_metric_gauge": (
            f"Metric gauge {claimed.metric_gauge:g}"
            if claimed.metric_gauge is not None
            else "",
            None
            if claimed.metric_gauge is None
            else metric_gauge_area_mm2(claimed.metric_gauge),
        ),
        # With a class the standard limits the resistance, and the area is a name.
        "area": (
            "Claimed area",
            claimed.square_mm if claimed.conductor_class is None else None,
        ),
    }
    for name, (title, claimed_mm2) in areas.items():
        if claimed_mm2 is not None:
            decision = check_area(
                _area(measured),
                claimed_mm2=claimed_mm2,
                tolerance_percent=tolerance,
                rule=claimed.rule,
            )
            words = f"{title} of {claimed_mm2:.4g} mm²: {decision.sentence}"
            yield _decided(name, words, decision, ClaimKind.BUILD)


def _strand_check(
    measured: MeasuredConductor, claimed: ClaimedConductor
) -> Iterator[ConductorCheck]:
    if claimed.strands is None:
        return
    if measured.strands is None:
        raise MissingMeasurementError(
            "The strand count",
            reason="A number of strands is claimed.",
            remedy="Count them on a section and give --strands.",
        )
    same = measured.strands == claimed.strands
    verdict = "conforms" if same else "does not conform"
    yield ConductorCheck(
        name="strands",
        measured=Quantity(float(measured.strands), "1"),
        verdict=verdict,
        sentence=f"{measured.strands} strands counted, {claimed.strands} claimed: "
        f"{verdict}; a count has no guard band, so count twice.",
        bears_on=ClaimKind.BUILD,
    )


def _resistance_check(
    measured: MeasuredConductor, claimed: ClaimedConductor
) -> Iterator[ConductorCheck]:
    if claimed.lower_percent is None:
        return
    result = conductivity_by_mass(
        ResistanceMeasurement(
            resistance=_required(measured.ohm, "resistance", "ohm"),
            temperature=_given(measured.celsius, "temperature of the wire", "degC"),
            gauge_length=_required(measured.metres, "length", "m"),
            mass=_given(measured.milligrams, "mass", "mg"),
        )
    )
    needed = conductivity_needed(*claimed.lower_percent)
    found = check_conductivity_claim(needed, result.percent_iacs)
    decision = decide_conformity(
        result.percent_iacs,
        limit=needed.lower_percent_iacs,
        side="at_least",
        rule=claimed.rule,
    )
    words = f"{found.sentence} {_capital(decision.sentence)}"
    yield _decided("conductivity", words, decision, ClaimKind.PERFORMANCE)


def _area(measured: MeasuredConductor) -> Quantity:
    if measured.millimetres is not None:
        if measured.strands is None:
            raise MissingMeasurementError(
                "The strand count",
                reason="The area is that of all strands.",
                remedy="Count them on a section and give --strands.",
            )
        diameter = normal_input(
            "diameter of a strand", *measured.millimetres, unit="mm"
        )
        return strand_area(diameter, strands=measured.strands)
    return strand_area_by_mass(
        _required(measured.milligrams, "mass", "mg"),
        _required(measured.metres, "length", "m"),
    )


def _decided(
    name: str, words: str, decision: ConformityDecision, kind: ClaimKind
) -> ConductorCheck:
    return ConductorCheck(
        name=name,
        measured=decision.measured,
        verdict=decision.decision,
        sentence=words,
        bears_on=kind,
        decision=decision,
    )


def _required(reading: tuple[float, float] | None, name: str, unit: str) -> Input:
    if reading is None:
        missing = f"The {name}"
        raise MissingMeasurementError(
            missing,
            reason="The claim cannot be checked without it.",
            remedy="Measure it, or leave that claim out.",
        )
    return normal_input(name, *reading, unit=unit)


def _given(reading: tuple[float, float] | None, name: str, unit: str) -> Input | None:
    return None if reading is None else normal_input(name, *reading, unit=unit)


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
