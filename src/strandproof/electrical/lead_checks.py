"""Checks of leads and contacts around a four-wire measurement."""

from math import sqrt

from strandproof.quantity import format_plus_minus
from strandproof.records import Flag
from strandproof.records.electrical import LeadChecks, LeadFindings, SeriesResult

# Differences are held against three deviations: one check in 370 fails by chance.
_DEVIATIONS = 3.0


def check_leads(found: SeriesResult, checks: LeadChecks | None) -> LeadFindings:
    """Hold check readings against the four-wire result.

    Parameters
    ----------
    found : SeriesResult
        The evaluated series.
    checks : LeadChecks or None
        Check readings; None where none was taken.

    Returns
    -------
    LeadFindings
        A sentence for each check, and flags for those that failed.

    Notes
    -----
    Two-wire less four-wire resistance is that of current leads and contacts; it
    cannot be negative, and the source has to drive the current through all of it.
    Changing over the potential leads changes the sign only, save for thermal
    voltages. With the current off, the thermal voltage alone is left (common
    practice, no source).
    """
    if checks is None or checks == LeadChecks():
        return LeadFindings(
            contacts_ohm=None,
            sentences=("Leads and contacts were not checked.",),
            flags=(Flag("leads_not_checked"),),
        )
    parts = [
        check(found, checks)
        for check in (_two_wire, _compliance, _swapped, _zero_current)
    ]
    made = [each for each in parts if each is not None]
    return LeadFindings(
        contacts_ohm=_contacts(found, checks),
        sentences=tuple(sentence for sentence, _ in made),
        flags=tuple(flag for _, flag in made if flag is not None),
    )


def _contacts(found: SeriesResult, checks: LeadChecks) -> float | None:
    if checks.two_wire_ohm is None:
        return None
    return checks.two_wire_ohm - found.resistance.value


def _two_wire(
    found: SeriesResult, checks: LeadChecks
) -> tuple[str, Flag | None] | None:
    contacts = _contacts(found, checks)
    if contacts is None:
        return None
    sentence = f"Two-wire less four-wire resistance: {contacts:.3g} ohm."
    if contacts < -_DEVIATIONS * found.resistance.standard_uncertainty:
        return sentence, Flag("two_wire_below_four_wire", f"{contacts:.2g} ohm")
    return sentence, None


def _compliance(
    found: SeriesResult, checks: LeadChecks
) -> tuple[str, Flag | None] | None:
    if checks.two_wire_ohm is None or checks.compliance_v is None:
        return None
    needed = checks.two_wire_ohm * found.points[-1].current_a
    sentence = (
        f"The highest current needs {needed:.3g} V of the {checks.compliance_v:g} V "
        "that the source can give."
    )
    if needed > checks.compliance_v:
        return sentence, Flag("compliance_exceeded", f"{needed:.2g} V")
    return sentence, None


def _swapped(found: SeriesResult, checks: LeadChecks) -> tuple[str, Flag | None] | None:
    if checks.swapped_ohm is None:
        return None
    # A single reading: thermal voltages are still in it, at the lowest current used.
    point = found.points[0]
    difference = checks.swapped_ohm - point.resistance.value
    scatter = (found.scatter_v or 0.0) / point.current_a
    room = abs(point.thermal_voltage_v) / point.current_a + _DEVIATIONS * sqrt(
        point.resistance.standard_uncertainty**2 + 2.0 * scatter**2
    )
    shown = format_plus_minus(checks.swapped_ohm, room, unit="ohm")
    sentence = (
        f"With the potential leads changed over: {shown} against "
        f"{point.resistance.value:.6g} ohm."
    )
    if abs(difference) > room:
        return sentence, Flag("swapped_leads_differ", f"{difference:.2g} ohm")
    return sentence, None


def _zero_current(
    found: SeriesResult, checks: LeadChecks
) -> tuple[str, Flag | None] | None:
    if checks.zero_current_v is None:
        return None
    thermal = [point.thermal_voltage_v for point in found.points]
    sentence = (
        f"With the current off: {1e6 * checks.zero_current_v:.3g} uV; removed by "
        f"reversal: {1e6 * min(thermal):.3g} to {1e6 * max(thermal):.3g} uV."
    )
    room = _DEVIATIONS * sqrt(2.0) * (found.scatter_v or 0.0)
    # A microvolt of room where no scatter is known (judgement).
    room = room or 1e-6
    if not min(thermal) - room <= checks.zero_current_v <= max(thermal) + room:
        detail = f"{1e6 * checks.zero_current_v:.2g} uV"
        return sentence, Flag("thermal_voltage_unsteady", detail)
    return sentence, None
