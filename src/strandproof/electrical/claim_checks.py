"""Claims of lower resistance and of a gauge, held against what was measured."""

from typing import Literal

from strandproof.electrical.conformity import decide_conformity
from strandproof.electrical.copper_standard import package_copper_standard
from strandproof.electrical.gauge import (
    effective_gauge,
    gauge_area_mm2,
    gauge_diameter_mm,
)
from strandproof.errors import ParameterError, UnitError
from strandproof.quantity import (
    Interval,
    Quantity,
    expanded_interval,
    format_plus_minus,
)
from strandproof.records.electrical import (
    ConductivityClaimCheck,
    DecisionRule,
    GaugeComparison,
    GaugeRounding,
    NeededConductivity,
)

Relation = Literal["below", "meets", "above"]


def conductivity_needed(
    lower_claim_percent: float,
    upper_claim_percent: float,
    *,
    reference_percent_iacs: float = 100.0,
) -> NeededConductivity:
    """Conductivity that "x to y % lower resistance than copper" asks of the metal.

    Reads the claim as one about the metal, at equal length and area. A lead may
    have a lower resistance because it holds more copper; that is another claim.

    Parameters
    ----------
    lower_claim_percent, upper_claim_percent : float
        How much lower the resistance is said to be [%]; above 0, below 100, the
        lower one first; equal for "x %".
    reference_percent_iacs : float
        Conductivity of the copper compared with [% IACS].

    Returns
    -------
    NeededConductivity
        Range needed, and how much of it lies above copper's ceiling.

    Raises
    ------
    ParameterError
        If the percentages are out of range or order, or the reference is not
        above zero.

    Notes
    -----
    reference/(1 - p/100).

    Examples
    --------
    >>> needed = conductivity_needed(8.0, 13.0)
    >>> round(needed.lower_percent_iacs, 1), round(needed.upper_percent_iacs, 1)
    (108.7, 114.9)
    """
    if not 0 < lower_claim_percent <= upper_claim_percent < 100:
        raise ParameterError(
            "lower_claim_percent, upper_claim_percent",
            (lower_claim_percent, upper_claim_percent),
            allowed="percentages above 0 and below 100, the lower one first",
        )
    if not reference_percent_iacs > 0:
        raise ParameterError(
            "reference_percent_iacs", reference_percent_iacs, allowed="above zero"
        )
    lower, upper = (
        reference_percent_iacs / (1.0 - claim / 100.0)
        for claim in (lower_claim_percent, upper_claim_percent)
    )
    ceiling = package_copper_standard().ceiling_percent_iacs
    return NeededConductivity(
        lower_claim_percent=lower_claim_percent,
        upper_claim_percent=upper_claim_percent,
        reference_percent_iacs=reference_percent_iacs,
        lower_percent_iacs=lower,
        upper_percent_iacs=upper,
        ceiling_percent_iacs=ceiling,
        beyond_ceiling=_beyond(lower, upper, ceiling),
        sentence=(
            f"{lower_claim_percent:g} to {upper_claim_percent:g} % lower resistance "
            f"than copper of {reference_percent_iacs:g} % IACS needs {lower:.1f} to "
            f"{upper:.1f} % IACS; copper ends at {ceiling:g} %."
        ),
    )


def check_conductivity_claim(
    needed: NeededConductivity, measured: Quantity, *, confidence: float = 0.95
) -> ConductivityClaimCheck:
    """Hold a measured conductivity against the one that a claim needs.

    Parameters
    ----------
    needed : NeededConductivity
        What the claim needs.
    measured : Quantity
        Conductivity of the strand [% IACS].
    confidence : float
        Confidence of its interval, between 0 and 1.

    Returns
    -------
    ConductivityClaimCheck
        Relation of the interval to the needed range, gap, sentence.

    Raises
    ------
    UnitError
        If the conductivity is not in % IACS.
    ParameterError
        If the confidence is out of range.
    """
    if measured.unit != "% IACS":
        raise UnitError(measured.unit, expected="% IACS")
    interval = expanded_interval(measured, confidence)
    relation = _relation(interval, needed)
    shown = format_plus_minus(
        measured.value, interval.half_width or 0.0, unit=measured.unit
    )
    words = {"below": "lies below", "meets": "meets", "above": "lies above"}[relation]
    return ConductivityClaimCheck(
        needed=needed,
        measured=measured,
        interval=interval,
        relation=relation,
        gap_in_standard_uncertainties=_gap(measured, needed),
        sentence=(
            f"{needed.sentence} Measured: {shown}, which {words} the needed range. "
            "This is about the metal; a lead may hold more or less of it."
        ),
    )


def compare_with_gauge(
    area: Quantity,
    *,
    gauge: float,
    tolerance_percent: float,
    rounding: GaugeRounding = "exact",
    rule: DecisionRule | None = None,
) -> GaugeComparison:
    """Hold a measured metal area against a claimed gauge.

    A gauge of a stranded conductor is read as the sum of its strands' areas.

    Parameters
    ----------
    area : Quantity
        Measured metal area of all strands [mm^2].
    gauge : float
        Claimed gauge number, see `gauge_number`.
    tolerance_percent : float
        By how much the area may fall short and still conform [%]; from 0 to
        below 100. No default: say whose tolerance it is.
    rounding : {"exact", "tenth_mil"}
        As in `gauge_diameter_mm`.
    rule : DecisionRule, optional
        Rule of the decision; None takes a guard band with a risk of at most 5 %.

    Returns
    -------
    GaugeComparison
        Ratio, effective gauge, gap, decision with rule and risk.

    Raises
    ------
    UnitError
        If the area is not in mm^2.
    ParameterError
        If gauge, area or tolerance is out of range.

    Examples
    --------
    >>> found = compare_with_gauge(
    ...     Quantity(0.0955, "mm^2", 0.0012), gauge=26, tolerance_percent=0.0
    ... )
    >>> round(found.ratio.value, 3), found.decision.decision
    (0.742, 'does not conform')
    """
    if area.unit != "mm^2":
        raise UnitError(area.unit, expected="mm^2")
    if not 0 <= tolerance_percent < 100:
        raise ParameterError(
            "tolerance_percent", tolerance_percent, allowed="from 0 to below 100"
        )
    claimed = gauge_area_mm2(gauge, rounding=rounding)
    effective = effective_gauge(area)
    limit = claimed * (1.0 - tolerance_percent / 100.0)
    return GaugeComparison(
        gauge=gauge,
        rounding=rounding,
        claimed_diameter_mm=gauge_diameter_mm(gauge, rounding=rounding),
        claimed_area_mm2=claimed,
        measured_area=area,
        ratio=_ratio(area, claimed),
        effective_gauge=effective,
        gap_in_standard_uncertainties=_uncertainties(claimed - area.value, area),
        tolerance_percent=tolerance_percent,
        decision=decide_conformity(area, limit=limit, side="at_least", rule=rule),
        sentence=_gauge_sentence(area, gauge, claimed, effective),
    )


def _beyond(
    lower: float, upper: float, ceiling: float
) -> Literal["all", "part", "none"]:
    if lower > ceiling:
        return "all"
    return "part" if upper > ceiling else "none"


def _relation(interval: Interval, needed: NeededConductivity) -> Relation:
    if interval.upper is not None and interval.upper < needed.lower_percent_iacs:
        return "below"
    if interval.lower is not None and interval.lower > needed.upper_percent_iacs:
        return "above"
    return "meets"


def _gap(measured: Quantity, needed: NeededConductivity) -> float | None:
    value = measured.value
    outside = max(
        0.0, needed.lower_percent_iacs - value, value - needed.upper_percent_iacs
    )
    return _uncertainties(outside, measured)


def _uncertainties(distance: float, measured: Quantity) -> float | None:
    u = measured.standard_uncertainty
    return distance / u if u else None


def _ratio(area: Quantity, claimed_mm2: float) -> Quantity:
    return Quantity(
        area.value / claimed_mm2,
        "1",
        area.standard_uncertainty / claimed_mm2,
        area.degrees_of_freedom,
    )


def _gauge_sentence(
    area: Quantity, gauge: float, claimed_mm2: float, effective: Quantity
) -> str:
    shown = format_plus_minus(area.value, 2.0 * area.standard_uncertainty, unit="mm^2")
    return (
        f"{shown} (k = 2) of metal against {claimed_mm2:.4f} mm² for gauge {gauge:g}: "
        f"{100.0 * area.value / claimed_mm2:.0f} %, in effect size "
        f"{effective.value:.1f}."
    )
