"""A measured value against a one-sided limit, with rule and risk stated."""

from math import isfinite, isinf
from typing import Literal

from scipy import stats

from strandproof.errors import ParameterError
from strandproof.quantity import Quantity, coverage_factor, format_plus_minus, unit_text
from strandproof.records.electrical import ConformityDecision, DecisionRule, LimitSide

Verdict = Literal["conforms", "does not conform", "undetermined"]


def conformance_probability(
    measured: Quantity, *, lower: float | None = None, upper: float | None = None
) -> float:
    """Probability that the true value lies within limits, by the measurement alone.

    Assumes no other knowledge of the item and a normal (or, with finite degrees
    of freedom, Student) distribution about the measured value.

    Parameters
    ----------
    measured : Quantity
        The value with its uncertainty.
    lower, upper : float, optional
        Limits, in the value's unit; at least one.

    Returns
    -------
    float
        From 0 to 1; 0 or 1 without uncertainty.

    Raises
    ------
    ParameterError
        If there is no limit, or the lower one is not below the upper one.

    Notes
    -----
    One-sided Phi((y - T_L)/u) or Phi((T_U - y)/u), two-sided their sum less one
    (JCGM 106, from memory).

    Examples
    --------
    >>> value = Quantity(509.7, "1", 8.6)
    >>> round(conformance_probability(value, lower=490.0), 3)
    0.989
    """
    if lower is None and upper is None:
        raise ParameterError("lower, upper", None, allowed="one limit or both")
    if lower is not None and upper is not None and not lower < upper:
        raise ParameterError(
            "lower, upper", (lower, upper), allowed="a lower limit below the upper one"
        )
    below = 0.0 if lower is None else 1.0 - _probability_above(measured, lower)
    above = 0.0 if upper is None else _probability_above(measured, upper)
    return 1.0 - below - above


def decide_conformity(
    measured: Quantity,
    *,
    limit: float,
    side: LimitSide,
    rule: DecisionRule | None = None,
) -> ConformityDecision:
    """Decide whether a value conforms to a one-sided limit.

    Three answers: with a guard band, a value close to the limit is neither
    accepted nor rejected. The rule has to be chosen before the value is known.

    Parameters
    ----------
    measured : Quantity
        The value with its uncertainty.
    limit : float
        The limit, in the value's unit; finite.
    side : {"at_least", "at_most"}
        Which side of the limit conforms.
    rule : DecisionRule, optional
        The rule; None takes a guard band with a risk of at most 5 %.

    Returns
    -------
    ConformityDecision
        Decision, guard band, probability, risk and a sentence.

    Raises
    ------
    ParameterError
        If the limit is not finite.

    Notes
    -----
    Guard band w = q u, q the one-sided quantile that leaves the rule's risk; with
    5 % and known u, w = 1.645 u = 0.822 U for U = 2 u (JCGM 106 as r U, from
    memory). Conforms at w or more inside of the limit, does not at w or more
    outside, else undetermined. Simple acceptance has w = 0: at the limit it is
    wrong half of the time.

    References
    ----------
    JCGM 106:2012.

    Examples
    --------
    >>> area = Quantity(0.0955, "mm^2", 0.0012)
    >>> decide_conformity(area, limit=0.1288, side="at_least").decision
    'does not conform'
    """
    if not isfinite(limit):
        raise ParameterError("limit", limit, allowed="a finite number")
    rule = rule or DecisionRule()
    guard_band = _guard_band(measured, rule)
    inside = measured.value - limit if side == "at_least" else limit - measured.value
    probability = conformance_probability(
        measured,
        lower=limit if side == "at_least" else None,
        upper=None if side == "at_least" else limit,
    )
    decision = _decision(inside, guard_band)
    risk = {"conforms": 1.0 - probability, "does not conform": probability}.get(
        decision, min(probability, 1.0 - probability)
    )
    return ConformityDecision(
        decision=decision,
        measured=measured,
        limit=limit,
        side=side,
        rule=rule,
        guard_band=guard_band,
        conformance_probability=probability,
        risk=risk,
        sentence=_sentence(measured, limit, side, decision)
        + _words_of_rule(rule, guard_band, measured.unit)
        + _words_of_risk(decision, risk),
    )


def _probability_above(measured: Quantity, limit: float) -> float:
    distance = measured.value - limit
    u = measured.standard_uncertainty
    if u == 0:
        return 1.0 if distance >= 0 else 0.0
    freedom = measured.degrees_of_freedom
    if isinf(freedom):
        return float(stats.norm.cdf(distance / u))
    return float(stats.t.cdf(distance / u, freedom))


def _guard_band(measured: Quantity, rule: DecisionRule) -> float:
    if rule.guard == "none":
        return 0.0
    # The two-sided factor that leaves the risk in each tail.
    factor = coverage_factor(
        1.0 - 2.0 * rule.maximum_risk,
        degrees_of_freedom=measured.degrees_of_freedom,
    )
    return factor * measured.standard_uncertainty


def _decision(inside: float, guard_band: float) -> Verdict:
    if inside >= guard_band:
        return "conforms"
    return "does not conform" if inside <= -guard_band else "undetermined"


def _sentence(
    measured: Quantity, limit: float, side: LimitSide, decision: Verdict
) -> str:
    shown = format_plus_minus(
        measured.value, 2.0 * measured.standard_uncertainty, unit=measured.unit
    )
    words = side.replace("_", " ")
    return f"{shown} (k = 2) against {words} {limit:.4g}: {decision}"


def _words_of_rule(rule: DecisionRule, guard_band: float, unit: str) -> str:
    if rule.guard == "none":
        return "; rule: the value alone decides, no guard band"
    return (
        f"; rule: guard band of {guard_band:.2g} {unit_text(unit)} on each side of "
        f"the limit, risk of a wrong decision at most {100 * rule.maximum_risk:g} %"
    )


def _words_of_risk(decision: Verdict, risk: float) -> str:
    shown = "below 0.1 %" if risk < 0.001 else f"{100 * risk:.2g} %"
    if decision == "undetermined":
        return f"; deciding now would be wrong with a probability of {shown}."
    name = "false acceptance" if decision == "conforms" else "false rejection"
    return f"; probability of a {name}: {shown}."
