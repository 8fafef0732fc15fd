"""Use cases that measure a strand electrically and hold it against claims."""

from dataclasses import dataclass

import numpy as np

from strandproof.app.workflow.entering import Desk, open_case
from strandproof.electrical import (
    boundary_share,
    check_conductivity_claim,
    compare_with_gauge,
    conductivity_by_density,
    conductivity_by_mass,
    conductivity_needed,
    strand_area,
    strand_area_by_mass,
    what_this_can_decide,
)
from strandproof.quantity import Input, Quantity, format_interval
from strandproof.records.case_state import CaseState
from strandproof.records.electrical import (
    ConductivityResult,
    ResistanceMeasurement,
)
from strandproof.records.entries import (
    ClaimKind,
    Entry,
    MeasuredValue,
    Measurement,
    MeasurementResult,
    Specimen,
)
from strandproof.records.entries.numbers import measured_value
from strandproof.report.pieces import micrograph_measured, own_measurements
from strandproof.storage import Addition

_MONTE_CARLO_SEED = 20311
_METHOD_VERSION = "1"


def enter_resistance(
    desk: Desk, label: str, specimen: str, readings: ResistanceMeasurement
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

    Returns
    -------
    Entry
        The measurement as entered.
    """
    state = open_case(desk.folder)
    measured = state.record(Specimen, specimen)
    chance = np.random.default_rng(_MONTE_CARLO_SEED)
    by_mass = conductivity_by_mass(readings, generator=chance)
    by_density = conductivity_by_density(readings)
    flags = {flag.name for flag in (*by_mass.flags, *by_density.flags)}
    results = (
        *_conductivity_results(by_mass, by_density),
        _crystals(state, by_mass.percent_iacs),
    )
    body = Measurement(
        id=label,
        measures=f"specimen/{measured.id}",
        method="four-wire resistance, conductivity by mass resistivity",
        method_version=_METHOD_VERSION,
        results=results,
        flags=tuple(sorted(flags)),
        bears_on=(ClaimKind.PERFORMANCE,),
        does_not_bear_on=(
            ClaimKind.CRYSTAL_STATE,
            ClaimKind.CASTING_ROUTE,
            ClaimKind.OXYGEN,
            ClaimKind.COMPOSITION,
            ClaimKind.BUILD,
        ),
        measured_at=desk.clock(),
        measured_by=desk.person,
    )
    return desk.add(Addition(body))[0]


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
    area = strand_area(readings.diameter, strands=readings.strands)
    by_mass = strand_area_by_mass(readings.mass, readings.length)
    found = compare_with_gauge(area, gauge=gauge, tolerance_percent=0.0)
    gap = found.gap_in_standard_uncertainties
    claimed = MeasuredValue(value=found.claimed_area_mm2, unit="mm^2")
    results = (
        MeasurementResult(
            name="copper_area", value=measured_value(area), words=found.sentence
        ),
        MeasurementResult(name="copper_area_by_mass", value=measured_value(by_mass)),
        MeasurementResult(name="claimed_area", value=claimed),
        MeasurementResult(name="ratio_to_claimed", value=measured_value(found.ratio)),
        MeasurementResult(
            name="effective_gauge", value=measured_value(found.effective_gauge)
        ),
        MeasurementResult(
            name="gap",
            value=None,
            words=(
                "no uncertainty stated"
                if gap is None
                else f"{gap:.0f} standard uncertainties; {found.decision.decision}"
            ),
        ),
    )
    body = Measurement(
        id=label,
        measures=f"specimen/{specimen}",
        method="area of a core by strand diameter and count, and by mass",
        method_version=_METHOD_VERSION,
        results=results,
        bears_on=(ClaimKind.BUILD,),
        does_not_bear_on=tuple(kind for kind in ClaimKind if kind != ClaimKind.BUILD),
        measured_at=desk.clock(),
        measured_by=desk.person,
    )
    return desk.add(Addition(body))[0]


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


def _conductivity_results(
    by_mass: ConductivityResult, by_density: ConductivityResult
) -> tuple[MeasurementResult, ...]:
    budget = "; ".join(
        f"{line.name} {line.component:.2g}" for line in by_mass.percent_iacs.budget
    )
    second = by_mass.second_opinion
    agrees = ""
    if second is not None:
        verdict = "agrees" if second.agrees else "differs"
        agrees = (
            f" Monte Carlo {verdict}: {format_interval(second.monte_carlo)} against "
            f"{format_interval(second.first_order)}."
        )
    return (
        MeasurementResult(
            name="conductivity",
            value=measured_value(by_mass.percent_iacs, by_mass.interval),
            words=f"{by_mass.band.sentence} Budget in % IACS: {budget}.{agrees}",
        ),
        MeasurementResult(
            name="resistance_at_20c", value=measured_value(by_mass.resistance_at_20c)
        ),
        MeasurementResult(
            name="mass_resistivity",
            value=measured_value(by_mass.resistivity),
            words="no density in this budget",
        ),
        MeasurementResult(
            name="volume_resistivity",
            value=measured_value(by_density.resistivity),
            words=f"by density; {format_interval(by_density.interval)} as conductivity",
        ),
    )


def _crystals(state: CaseState, conductivity: Quantity) -> MeasurementResult:
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
        words = (
            "cannot tell crystals: no grain size in this case to estimate the effect"
        )
        return MeasurementResult(name="crystals", value=None, words=words)
    share = boundary_share(
        Quantity(sizes[-1].value, "um", sizes[-1].standard_uncertainty or 0.0)
    )
    relative = 200 * conductivity.standard_uncertainty / conductivity.value
    power = what_this_can_decide(share, expanded_uncertainty_percent=relative)
    return MeasurementResult(name="crystals", value=None, words=power.sentence)
