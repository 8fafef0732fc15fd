"""What a resistance can decide, and claims held against conductivity and gauge."""

from dataclasses import dataclass
from typing import Literal

from strandproof.errors import ParameterError
from strandproof.quantity import Interval, Quantity

BoundaryReading = Literal["per_boundary", "per_area"]
GaugeRounding = Literal["exact", "tenth_mil"]
LimitSide = Literal["at_least", "at_most"]


@dataclass(frozen=True, slots=True, kw_only=True)
class BoundaryShare:
    """What the boundaries between crystals add to the resistivity at 20 degC.

    Parameters
    ----------
    reading : {"per_boundary", "per_area"}
        What the coefficient is taken to mean: resistance times area of one
        boundary crossed, or resistivity per boundary area in the volume.
    mean_intercept_um : float
        Mean distance of boundaries along a line [um].
    lower_percent, upper_percent : float
        Range of the added resistivity, in percent of 100 % IACS copper.
    lower_resistance_ratio_cap, upper_resistance_ratio_cap : float
        Range of the highest ratio of resistance at room temperature to that in
        liquid helium that these boundaries leave, were all else perfect.
    """

    reading: BoundaryReading
    mean_intercept_um: float
    lower_percent: float
    upper_percent: float
    lower_resistance_ratio_cap: float
    upper_resistance_ratio_cap: float


@dataclass(frozen=True, slots=True, kw_only=True)
class DecisionPower:
    """Whether a planned conductivity could tell crystals, said before it is known.

    Parameters
    ----------
    share : BoundaryShare
        Expected size of the effect.
    expanded_uncertainty_percent : float
        Expanded uncertainty that the measurement will have [%].
    resolves_effect : bool
        Whether that uncertainty lies below the lower end of the effect. Even then
        cold work and impurities, which do more, have to be excluded first.
    sentence : str
        The statement for the user.
    """

    share: BoundaryShare
    expanded_uncertainty_percent: float
    resolves_effect: bool
    sentence: str


@dataclass(frozen=True, slots=True, kw_only=True)
class NeededConductivity:
    """Conductivity that a claim of lower resistance asks of the metal.

    Parameters
    ----------
    lower_claim_percent, upper_claim_percent : float
        How much lower the resistance is said to be [%].
    reference_percent_iacs : float
        Conductivity of the copper it is compared with [% IACS].
    lower_percent_iacs, upper_percent_iacs : float
        Conductivity needed [% IACS].
    ceiling_percent_iacs : float
        Where copper ends [% IACS].
    beyond_ceiling : {"all", "part", "none"}
        How much of the needed range lies above the ceiling.
    sentence : str
        The same in words.
    """

    lower_claim_percent: float
    upper_claim_percent: float
    reference_percent_iacs: float
    lower_percent_iacs: float
    upper_percent_iacs: float
    ceiling_percent_iacs: float
    beyond_ceiling: Literal["all", "part", "none"]
    sentence: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ConductivityClaimCheck:
    """A measured conductivity beside the one that a claim needs.

    Parameters
    ----------
    needed : NeededConductivity
        What the claim needs.
    measured : Quantity
        What was measured [% IACS].
    interval : Interval
        Its interval.
    relation : {"below", "meets", "above"}
        Where the measured interval lies against the needed range; ``"meets"``
        when they share a value.
    gap_in_standard_uncertainties : float or None
        Distance from the value to the nearest end of the needed range, zero
        inside of it; None without uncertainty.
    sentence : str
        The same in words; a statement about the metal, not about a lead, which
        may hold more or less of it.
    """

    needed: NeededConductivity
    measured: Quantity
    interval: Interval
    relation: Literal["below", "meets", "above"]
    gap_in_standard_uncertainties: float | None
    sentence: str


@dataclass(frozen=True, slots=True, kw_only=True)
class DecisionRule:
    """How a measured value is turned into "conforms" or "does not conform".

    Parameters
    ----------
    guard : {"none", "risk"}
        ``"none"``: the value alone decides (simple acceptance). ``"risk"``: a
        guard band on both sides of the limit keeps either decision back until
        its risk of being wrong is at most `maximum_risk`.
    maximum_risk : float
        Largest allowed probability of a wrong decision, above 0 and below 0.5.

    Raises
    ------
    ParameterError
        If the risk is out of range.
    """

    guard: Literal["none", "risk"] = "risk"
    maximum_risk: float = 0.05

    def __post_init__(self) -> None:
        if not 0 < self.maximum_risk < 0.5:
            raise ParameterError(
                "maximum_risk", self.maximum_risk, allowed="above 0 and below 0.5"
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class ConformityDecision:
    """A value against a one-sided limit, by a stated rule with its risk.

    Parameters
    ----------
    decision : {"conforms", "does not conform", "undetermined"}
        The decision; undetermined inside of the guard band.
    measured : Quantity
        The value.
    limit : float
        The limit, in the value's unit.
    side : {"at_least", "at_most"}
        Which side of the limit conforms.
    rule : DecisionRule
        The rule.
    guard_band : float
        Width of the guard band on each side of the limit, in the value's unit.
    conformance_probability : float
        Probability that the true value conforms, given the measurement alone.
    risk : float
        Probability that the decision is wrong; for an undetermined one, that of
        the likelier decision.
    sentence : str
        Decision, rule and risk in words.
    """

    decision: Literal["conforms", "does not conform", "undetermined"]
    measured: Quantity
    limit: float
    side: LimitSide
    rule: DecisionRule
    guard_band: float
    conformance_probability: float
    risk: float
    sentence: str


@dataclass(frozen=True, slots=True, kw_only=True)
class GaugeComparison:
    """A measured copper area beside the gauge that was claimed.

    Parameters
    ----------
    gauge : float
        Claimed gauge number; 0 for 1/0, -1 for 2/0, -2 for 3/0, -3 for 4/0.
    rounding : {"exact", "tenth_mil"}
        Diameter by the formula, or rounded to 0.1 mil.
    claimed_diameter_mm : float
        Diameter of a solid wire of that gauge [mm].
    claimed_area_mm2 : float
        Its area [mm2].
    measured_area : Quantity
        Measured area [mm^2].
    ratio : Quantity
        Measured over claimed area [1].
    effective_gauge : Quantity
        Gauge number of the measured area, fractions included [1].
    gap_in_standard_uncertainties : float or None
        Claimed less measured area over the standard uncertainty; None without.
    tolerance_percent : float
        By how much the area may fall short and still conform [%].
    decision : ConformityDecision
        Whether the area reaches the claimed one less the tolerance.
    sentence : str
        The comparison in words.
    """

    gauge: float
    rounding: GaugeRounding
    claimed_diameter_mm: float
    claimed_area_mm2: float
    measured_area: Quantity
    ratio: Quantity
    effective_gauge: Quantity
    gap_in_standard_uncertainties: float | None
    tolerance_percent: float
    decision: ConformityDecision
    sentence: str
