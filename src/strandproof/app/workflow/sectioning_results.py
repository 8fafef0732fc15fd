"""What was measured on a section: in words, as data, as a finding for a case."""

from collections.abc import Sequence
from typing import Any

from strandproof.app.workflow.bench_findings import BenchFinding
from strandproof.app.workflow.sectioning import SectionSizes
from strandproof.quantity import (
    Quantity,
    expanded_interval,
    format_interval,
    format_plus_minus,
)
from strandproof.records import FLAGS, Flag
from strandproof.records.entries import ClaimKind, MeasurementResult
from strandproof.records.entries.numbers import measured_value
from strandproof.records.physical import StrandFace, TapeSection

_WHAT_IT_IS = (
    "This is size only: neither which metal it is, nor its purity, nor its crystals."
)


def section_in_words(sizes: SectionSizes) -> tuple[str, ...]:
    """Say what was measured on a section.

    Parameters
    ----------
    sizes : SectionSizes
        From `section_on_picture` or `section_by_hand`.

    Returns
    -------
    tuple of str
        Lines for people.
    """
    geometry = sizes.geometry
    lines = [_section_sentence(sizes)]
    lines += [_face_words(face) for face in geometry.faces]
    lines += [
        f"  {line.name}: {line.component:.2g} mm²"
        for line in geometry.total_area.budget
        if line.component
    ]
    if sizes.gauge is not None:
        lines.append(sizes.gauge.sentence)
        lines.append(f"Decision: {sizes.gauge.decision.decision}.")
    return (*lines, *_flag_words(geometry.flags), _WHAT_IT_IS)


def tape_in_words(tape: TapeSection) -> tuple[str, ...]:
    """Say what was measured on a flat tape.

    Parameters
    ----------
    tape : TapeSection
        From `tape_on_picture`.

    Returns
    -------
    tuple of str
        Lines for people.
    """
    between = f"{tape.smallest_um:.4g} to {tape.largest_um:.4g} µm"
    return (
        _tape_sentence(tape),
        f"  at {tape.places} places: {between}",
        "  (a tenth of the width at each end left out)",
        f"  width {_shown(tape.width)}, area {_shown(tape.area)}",
        *_flag_words(tape.flags),
        _WHAT_IT_IS,
    )


def section_data(sizes: SectionSizes) -> dict[str, Any]:
    """Give what was measured on a section as plain data.

    Parameters
    ----------
    sizes : SectionSizes
        From `section_on_picture` or `section_by_hand`.

    Returns
    -------
    dict
        JSON data.
    """
    geometry, gauge = sizes.geometry, sizes.gauge
    return {
        "method": geometry.method,
        "strands": geometry.strands,
        "cut_faces": geometry.cut_faces,
        "total_area": _number(geometry.total_area),
        "mean_diameter": _number(geometry.mean_diameter),
        "effective_gauge": _number(sizes.effective_gauge),
        "claimed_gauge": gauge
        and {
            "gauge": gauge.gauge,
            "ratio": _number(gauge.ratio),
            "decision": gauge.decision.decision,
        },
        "faces": [
            {
                "number": face.number,
                "area": _number(face.area),
                "mean_diameter": _number(face.mean_diameter),
                "smallest_um": face.smallest_um,
                "largest_um": face.largest_um,
                "ovality": face.ovality,
                "directions": face.directions,
            }
            for face in geometry.faces
        ],
        "flags": [flag.name for flag in geometry.flags],
        "bears_on": ["build"],
    }


def tape_data(tape: TapeSection) -> dict[str, Any]:
    """Give what was measured on a flat tape as plain data.

    Parameters
    ----------
    tape : TapeSection
        From `tape_on_picture`.

    Returns
    -------
    dict
        JSON data.
    """
    return {
        "thickness": _number(tape.thickness),
        "smallest_um": tape.smallest_um,
        "largest_um": tape.largest_um,
        "places": tape.places,
        "width": _number(tape.width),
        "area": _number(tape.area),
        "flags": [flag.name for flag in tape.flags],
        "bears_on": ["build"],
    }


def section_finding(sizes: SectionSizes) -> BenchFinding:
    """Give sizes on a section in the form that a case holds.

    Parameters
    ----------
    sizes : SectionSizes
        From `section_on_picture` or `section_by_hand`.

    Returns
    -------
    BenchFinding
        Bears on build only.
    """
    geometry = sizes.geometry
    return BenchFinding(
        method=f"size of strands on a section, by {geometry.method}",
        results=(
            _result("conductor_area", geometry.total_area),
            _result("strand_diameter", geometry.mean_diameter),
            _result("strand_count", Quantity(float(geometry.strands), "1")),
            _result("effective_gauge", sizes.effective_gauge),
        ),
        bears_on=(ClaimKind.BUILD,),
        sentence=_section_sentence(sizes),
        flags=tuple(flag.name for flag in geometry.flags),
    )


def tape_finding(tape: TapeSection) -> BenchFinding:
    """Give the sizes of a tape in the form that a case holds.

    Parameters
    ----------
    tape : TapeSection
        From `tape_on_picture`.

    Returns
    -------
    BenchFinding
        Bears on build only.
    """
    return BenchFinding(
        method="thickness of a flat tape on a section, by picture",
        results=(
            _result("tape_thickness", tape.thickness),
            _result("tape_width", tape.width),
            _result("conductor_area", tape.area),
        ),
        bears_on=(ClaimKind.BUILD,),
        sentence=_tape_sentence(tape),
        flags=tuple(flag.name for flag in tape.flags),
    )


def _section_sentence(sizes: SectionSizes) -> str:
    geometry = sizes.geometry
    strands = "1 strand" if geometry.strands == 1 else f"{geometry.strands} strands"
    return (
        f"{strands}, mean diameter {_shown(geometry.mean_diameter)}, metal area "
        f"{_shown(geometry.total_area)} (95 %), gauge "
        f"{sizes.effective_gauge.value:.1f} by area."
    )


def _tape_sentence(tape: TapeSection) -> str:
    return f"Flat tape, thickness {_shown(tape.thickness)} (95 %)."


def _face_words(face: StrandFace) -> str:
    oval = "not known" if face.ovality is None else f"{100 * face.ovality:.1f} %"
    return (
        f"  strand {face.number}: {face.mean_diameter.value:.4g} µm "
        f"({face.smallest_um:.4g} to {face.largest_um:.4g} in {face.directions} "
        f"direction(s)), ovality {oval}"
    )


def _shown(quantity: Quantity) -> str:
    if not quantity.standard_uncertainty:
        return f"{quantity.value:.4g} {quantity.unit.replace('^2', '²')}"
    half = expanded_interval(quantity).half_width or 0.0
    return format_plus_minus(quantity.value, half, unit=quantity.unit)


def _result(name: str, quantity: Quantity) -> MeasurementResult:
    if not quantity.standard_uncertainty:
        return MeasurementResult(name=name, value=measured_value(quantity))
    interval = expanded_interval(quantity)
    return MeasurementResult(
        name=name,
        value=measured_value(quantity, interval),
        words=format_interval(interval),
    )


def _number(quantity: Quantity) -> dict[str, Any]:
    return {
        "value": quantity.value,
        "unit": quantity.unit,
        "standard_uncertainty": quantity.standard_uncertainty,
        "budget": [
            {"name": line.name, "component": line.component} for line in quantity.budget
        ],
    }


def _flag_words(flags: Sequence[Flag]) -> list[str]:
    names = dict.fromkeys(flag.name for flag in flags)
    return [f"Keep in mind: {FLAGS[name].meaning}" for name in names]
