"""What a screening of cores gave: lines for people, plain data for programs."""

from typing import Any

from strandproof.records.electrical import ConformityDecision, LotResult


def lot_in_words(found: LotResult) -> tuple[str, ...]:
    """Say which cores are held and why.

    Parameters
    ----------
    found : LotResult
        From `screen_cores`.

    Returns
    -------
    tuple of str
        Lines for people.
    """
    lines = []
    for core in found.cores:
        lines.append(f"{core.label}: {core.action}; {core.likeness}")
        lines.append(
            f"  {_shown(core.mass_per_metre)} g/m, "
            f"{_shown(core.resistance_per_metre)} mΩ/m, "
            f"{core.percent_iacs_by_mass.value:.1f} % IACS by mass"
        )
        lines += [f"  {reason}" for reason in core.reasons]
    lines.append(found.sentence)
    lines.append(
        "This screens for another metal or too little of it; it says nothing about "
        "crystals, casting route, purity or oxygen."
    )
    return tuple(lines)


def lot_data(found: LotResult) -> dict[str, Any]:
    """Give what a screening gave as plain data.

    Parameters
    ----------
    found : LotResult
        From `screen_cores`.

    Returns
    -------
    dict
        JSON data.
    """
    return {
        "action": found.action,
        "held": list(found.held),
        "bad_share_upper": found.bad_share_upper,
        "cores": [
            {
                "label": core.label,
                "action": core.action,
                "reasons": list(core.reasons),
                "likeness": core.likeness,
                "mass_per_metre_g": core.mass_per_metre.measured.value,
                "resistance_per_metre_mohm": core.resistance_per_metre.measured.value,
                "percent_iacs_by_mass": core.percent_iacs_by_mass.value,
                "flags": [flag.name for flag in core.flags],
            }
            for core in found.cores
        ],
    }


def _shown(decision: ConformityDecision) -> str:
    return f"{decision.measured.value:.4g}"
