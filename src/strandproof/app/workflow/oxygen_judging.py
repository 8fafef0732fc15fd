"""The use case that judges what is known about the oxygen of a piece of metal."""

from collections.abc import Sequence
from dataclasses import asdict, dataclass
from typing import Any, cast

from strandproof.app.workflow.bench_findings import BenchFinding
from strandproof.composition import (
    HydrogenTest,
    InclusionOxygen,
    OxideField,
    OxygenJudgement,
    gas_interval,
    inclusion_oxygen,
    judge_oxygen,
)
from strandproof.composition.oxygen_evidence import HydrogenOutcome
from strandproof.errors import ParameterError
from strandproof.quantity import Interval, Quantity, format_interval
from strandproof.records import FLAGS
from strandproof.records.entries import ClaimKind, MeasurementResult
from strandproof.records.entries.numbers import measured_value

_CLASS_WORDS = {
    "within": "within",
    "above": "ABOVE",
    "cannot_tell": "cannot tell",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class OxygenReadings:
    """What was typed about oxygen.

    Parameters
    ----------
    points : sequence of str
        Point counts by field, as ``"hits/points"``.
    areas : sequence of str
        Oxide areas by field, as ``"area/field"`` [um^2].
    largest_particle : float or None
        Area of the largest particle [um^2].
    hydrogen : str or None
        Outcome of a hydrogen test: pass or fail.
    hydrogen_method : str
        Its standard and method.
    gas : tuple of float or None
        Gas analysis and its standard uncertainty [ppm by mass].
    """

    points: Sequence[str] = ()
    areas: Sequence[str] = ()
    largest_particle: float | None = None
    hydrogen: str | None = None
    hydrogen_method: str = ""
    gas: tuple[float, float] | None = None


def judge_oxygen_readings(readings: OxygenReadings) -> OxygenJudgement:
    """Judge what was typed about oxygen.

    Parameters
    ----------
    readings : OxygenReadings
        As typed.

    Returns
    -------
    OxygenJudgement
        Comparisons, classes, notes.

    Raises
    ------
    ParameterError
        If a field cannot be read, or points and areas are mixed.
    """
    if readings.points and readings.areas:
        raise ParameterError(
            "fields", "points and areas", allowed="one of the two for one section"
        )
    test = None
    if readings.hydrogen is not None:
        outcome = cast("HydrogenOutcome", readings.hydrogen)
        test = HydrogenTest(outcome=outcome, method=readings.hydrogen_method)
    gas = (
        None
        if readings.gas is None
        else Quantity(readings.gas[0], "ppm", readings.gas[1])
    )
    return judge_oxygen(section=_section(readings), hydrogen=test, gas=gas)


def oxygen_finding(judgement: OxygenJudgement) -> BenchFinding:
    """Turn a judgement on oxygen into what a case holds.

    Parameters
    ----------
    judgement : OxygenJudgement
        From `judge_oxygen_readings`.

    Returns
    -------
    BenchFinding
        Bears on oxygen only.
    """
    results = []
    if judgement.section is not None:
        section = judgement.section
        value = Quantity(section.oxygen_ppm, "ppm")
        results.append(
            MeasurementResult(
                name="oxygen_as_oxide",
                value=measured_value(value, section.oxygen_interval),
                words=_section_sentence(section),
            )
        )
    if judgement.gas is not None:
        results.append(
            MeasurementResult(
                name="oxygen_by_gas_analysis",
                value=measured_value(judgement.gas, gas_interval(judgement.gas)),
            )
        )
    if judgement.hydrogen is not None:
        words = f"{judgement.hydrogen.outcome}, {judgement.hydrogen.method}"
        results.append(MeasurementResult(name="hydrogen_test", value=None, words=words))
    return BenchFinding(
        method=", ".join(_methods(judgement)),
        results=tuple(results),
        bears_on=(ClaimKind.OXYGEN,),
        sentence=" ".join(_class_sentences(judgement)),
        flags=_flags(judgement),
    )


def oxygen_in_words(judgement: OxygenJudgement) -> tuple[str, ...]:
    """Say what is known about oxygen.

    Parameters
    ----------
    judgement : OxygenJudgement
        From `judge_oxygen_readings`.

    Returns
    -------
    tuple of str
        Lines for people.
    """
    lines = []
    if judgement.section is not None:
        lines.append(_section_sentence(judgement.section))
    if judgement.gas is not None:
        interval = format_interval(gas_interval(judgement.gas))
        lines.append(f"Gas analysis: {judgement.gas.value:g} ppm by mass, {interval}.")
    lines += [each.sentence for each in judgement.statements]
    lines += _class_sentences(judgement)
    lines += judgement.notes
    lines += [f"Keep in mind: {FLAGS[name].remedy}" for name in _flags(judgement)]
    lines.append(
        "This bears on oxygen only: not on the nines of other elements, crystals or "
        "casting route."
    )
    return tuple(lines)


def oxygen_data(judgement: OxygenJudgement) -> dict[str, Any]:
    """Give what is known about oxygen as plain data.

    Parameters
    ----------
    judgement : OxygenJudgement
        From `judge_oxygen_readings`.

    Returns
    -------
    dict
        JSON data; an open end is null.
    """
    section = judgement.section
    return {
        "section": None
        if section is None
        else {
            "fields": section.fields,
            "area_fraction": section.area_fraction,
            "area_fraction_interval": _ends(section.fraction_interval),
            "oxygen_ppm": section.oxygen_ppm,
            "oxygen_interval_ppm": _ends(section.oxygen_interval),
            "method": section.oxygen_interval.method,
            "cannot_see": section.cannot_see,
        },
        "hydrogen": None
        if judgement.hydrogen is None
        else {**asdict(judgement.hydrogen), "meaning": judgement.hydrogen.meaning},
        "gas_ppm": None if judgement.gas is None else judgement.gas.value,
        "statements": [asdict(each) for each in judgement.statements],
        "classes": [asdict(each) for each in judgement.classes],
        "notes": list(judgement.notes),
        "flags": list(_flags(judgement)),
    }


def _section(readings: OxygenReadings) -> InclusionOxygen | None:
    if not readings.points and not readings.areas:
        return None
    counted = "points" if readings.points else "areas"
    fields = [_field(text) for text in (readings.points or readings.areas)]
    return inclusion_oxygen(
        fields, counted=counted, largest_particle=readings.largest_particle
    )


def _field(text: str) -> OxideField:
    oxide, _, whole = text.partition("/")
    try:
        found = float(oxide), float(whole)
    except ValueError:
        raise ParameterError(
            "field",
            text,
            allowed="oxide/whole, for example 3/400 points or 12.5/40000 um^2",
        ) from None
    return OxideField(oxide=found[0], whole=found[1])


def _section_sentence(section: InclusionOxygen) -> str:
    ppm = section.oxygen_interval
    if ppm.upper is None:
        ends = "no upper end can be given"
    else:
        ends = f"{ppm.lower:.3g} to {ppm.upper:.3g} ppm (95 %, by field)"
    return (
        f"Section, {section.fields} fields: area fraction of oxide "
        f"{section.area_fraction:.3g}, which is {section.oxygen_ppm:.3g} ppm of oxygen "
        f"held as oxide, {ends}."
    )


def _class_sentences(judgement: OxygenJudgement) -> list[str]:
    return [
        f"{each.name}: {_CLASS_WORDS[each.verdict]}; {each.reason}."
        for each in judgement.classes
    ]


def _methods(judgement: OxygenJudgement) -> list[str]:
    found = []
    if judgement.section is not None:
        found.append("oxide on a polished section")
    if judgement.hydrogen is not None:
        found.append(f"hydrogen test, {judgement.hydrogen.method}")
    if judgement.gas is not None:
        found.append("gas analysis")
    return found


def _flags(judgement: OxygenJudgement) -> tuple[str, ...]:
    odd = any(each.consistent is False for each in judgement.statements)
    return ("oxygen_evidence_disagrees",) if odd else ()


def _ends(interval: Interval) -> list[float | None]:
    return [interval.lower, interval.upper]
