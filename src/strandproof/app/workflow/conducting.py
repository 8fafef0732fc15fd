"""Use cases that measure a strand electrically and hold it against claims."""

from dataclasses import dataclass

from strandproof.app.workflow.bench_findings import BenchFinding, enter_finding
from strandproof.app.workflow.entering import Desk, open_case
from strandproof.app.workflow.resisting import judged, resistance_finding
from strandproof.electrical import (
    boundary_share,
    check_conductivity_claim,
    compare_with_gauge,
    conductivity_needed,
    strand_area,
    strand_area_by_mass,
    what_this_can_decide,
)
from strandproof.quantity import Input, Quantity
from strandproof.records.case_state import CaseState
from strandproof.records.electrical import GaugeComparison, ResistanceMeasurement
from strandproof.records.entries import (
    ClaimKind,
    Entry,
    MeasuredValue,
    MeasurementResult,
    Specimen,
)
from strandproof.records.entries.numbers import measured_value
from strandproof.report.pieces import micrograph_measured, own_measurements


def enter_resistance(
    desk: Desk,
    label: str,
    specimen: str,
    readings: ResistanceMeasurement,
    *,
    lower_percent: tuple[float, float] | None = None,
) -> Entry:
    """Turn a four-wire resistance of a strand into a conductivity and enter it.

    Parameters
    ----------
    desk : Desk
        Folder and person.
    label : str
        Short name of the measurement.
    specimen : str
        Specimen measured.
    readings : ResistanceMeasurement
        Resistance, temperature of the wire, length, mass; with uncertainties.
    lower_percent : tuple of float or None
        By how much a claim says that the resistance is lower than copper's, from and
        to [%]; None: no such claim is held against it.

    Returns
    -------
    Entry
        The measurement as entered.
    """
    state = open_case(desk.folder)
    measured = state.record(Specimen, specimen)
    answer = judged(readings)
    conductivity = answer.stated.percent_iacs
    said = {"crystals": _crystals(state, conductivity)}
    if lower_percent is not None:
        said["lower_resistance"] = lower_resistance_sentence(
            *lower_percent, conductivity
        )
    finding = resistance_finding(answer, **said)
    return enter_finding(desk, label, f"specimen/{measured.id}", finding)[0]


@dataclass(frozen=True, slots=True)
class CoreReadings:
    """What was read on one core of a stranded conductor.

    Parameters
    ----------
    diameter : Input
        Diameter of a strand [mm].
    strands : int
        Strands in the core.
    mass, length : Input
        Mass of bare metal and length of the piece weighed.
    """

    diameter: Input
    strands: int
    mass: Input
    length: Input


def enter_gauge_check(
    desk: Desk, label: str, specimen: str, *, readings: CoreReadings, gauge: int
) -> Entry:
    """Hold the copper area of a core against a claimed wire gauge and enter it.

    Parameters
    ----------
    desk : Desk
        Folder and person.
    label : str
        Short name of the measurement.
    specimen : str
        Specimen measured.
    readings : CoreReadings
        Diameter, strands, mass, length.
    gauge : int
        Claimed gauge number.

    Returns
    -------
    Entry
        The measurement as entered.
    """
    finding = gauge_finding(readings, gauge=gauge)
    return enter_finding(desk, label, f"specimen/{specimen}", finding)[0]


def gauge_finding(
    readings: CoreReadings, *, gauge: int, tolerance_percent: float = 0.0
) -> BenchFinding:
    """Hold the copper area of a core against a claimed wire gauge.

    Parameters
    ----------
    readings : CoreReadings
        Diameter, strands, mass, length.
    gauge : int
        Claimed gauge number.
    tolerance_percent : float
        By how much the area may fall short and still conform [%].

    Returns
    -------
    BenchFinding
        It bears on the build alone.
    """
    area = strand_area(readings.diameter, strands=readings.strands)
    by_mass = strand_area_by_mass(readings.mass, readings.length)
    found = compare_with_gauge(area, gauge=gauge, tolerance_percent=tolerance_percent)
    claimed = MeasuredValue(value=found.claimed_area_mm2, unit="mm^2")
    return BenchFinding(
        method="area of a core by strand diameter and count, and by mass",
        results=(
            MeasurementResult(
                name="copper_area", value=measured_value(area), words=found.sentence
            ),
            MeasurementResult(
                name="copper_area_by_mass", value=measured_value(by_mass)
            ),
            MeasurementResult(name="claimed_area", value=claimed),
            MeasurementResult(
                name="ratio_to_claimed", value=measured_value(found.ratio)
            ),
            MeasurementResult(
                name="effective_gauge", value=measured_value(found.effective_gauge)
            ),
            MeasurementResult(name="gap", value=None, words=_gap_words(found)),
        ),
        bears_on=(ClaimKind.BUILD,),
        sentence=found.sentence,
    )


def _gap_words(found: GaugeComparison) -> str:
    gap = found.gap_in_standard_uncertainties
    if gap is None:
        return "no uncertainty stated"
    return f"{gap:.0f} standard uncertainties; {found.decision.decision}"


def lower_resistance_sentence(
    lower_percent: float, upper_percent: float, measured: Quantity
) -> str:
    """Say what a claim of lower resistance needs, and what was measured.

    Parameters
    ----------
    lower_percent, upper_percent : float
        How much lower the resistance is said to be [%].
    measured : Quantity
        Measured conductivity [% IACS].

    Returns
    -------
    str
        One paragraph.
    """
    needed = conductivity_needed(lower_percent, upper_percent)
    return check_conductivity_claim(needed, measured).sentence


def _crystals(state: CaseState, conductivity: Quantity) -> str:
    # What was combined over many fields comes last, and so counts.
    own = sorted(
        own_measurements(state), key=lambda each: not micrograph_measured(each)
    )
    sizes = [
        result.value
        for measurement in own
        for result in measurement.results
        if result.name == "mean_intercept" and result.value is not None
    ]
    if not sizes:
        return "cannot tell crystals: no grain size in this case to estimate the effect"
    share = boundary_share(
        Quantity(sizes[-1].value, "um", sizes[-1].standard_uncertainty or 0.0)
    )
    relative = 200 * conductivity.standard_uncertainty / conductivity.value
    return what_this_can_decide(share, expanded_uncertainty_percent=relative).sentence
