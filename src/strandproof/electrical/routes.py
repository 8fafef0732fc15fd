"""Conductivity of one piece by mass, by density, by diameter."""

from math import inf

import numpy as np

from strandproof.electrical.band import band_flags, judge_band
from strandproof.electrical.copper_standard import (
    CopperStandard,
    package_copper_standard,
)
from strandproof.electrical.route_models import (
    RouteModel,
    Values,
    density_route,
    diameter_route,
    mass_route,
)
from strandproof.errors import ParameterError
from strandproof.quantity import (
    Agreement,
    Input,
    Interval,
    ModelNumber,
    Quantity,
    coverage_factor,
    expanded_interval,
    monte_carlo,
    propagate_several,
)
from strandproof.records import Flag
from strandproof.records.electrical import (
    ConductivityResult,
    EvaluationRules,
    ResistanceMeasurement,
)

# Enough for the ends of a 95 % interval to a fifth of the tolerance of two digits
# (about 1.2 million are needed when u begins with 2).
_DRAWS = 2_000_000
_IACS = "% IACS"


def conductivity_by_mass(
    measurement: ResistanceMeasurement,
    *,
    rules: EvaluationRules | None = None,
    generator: np.random.Generator | None = None,
    draws: int = _DRAWS,
    standard: CopperStandard | None = None,
) -> ConductivityResult:
    """Conductivity by mass resistivity: the route to state.

    Assumes that all strands are one metal, one length and lie in parallel, that
    only metal was weighed (no enamel, no grease), and that lengths run along the
    strand. It fails for a light metal, which reads far above 100 %.

    Parameters
    ----------
    measurement : ResistanceMeasurement
        What was read, with a mass and a temperature.
    rules : EvaluationRules, optional
        Options; None takes the fixed coefficient and 95 %.
    generator : numpy.random.Generator, optional
        Source of randomness for a Monte Carlo second opinion; None for none.
    draws : int
        Draws of that opinion.
    standard : CopperStandard, optional
        Constants; None takes the package's.

    Returns
    -------
    ConductivityResult
        Mass resistivity [ohm g/m^2] and per cent IACS with budget, interval, band
        and flags.

    Raises
    ------
    MissingMeasurementError
        If temperature or mass is missing.
    UnitError
        If a unit does not fit.
    ParameterError
        If a number is zero, negative or out of range.

    Notes
    -----
    delta = R20 m/(L1 L2) (ASTM B193, in words second-hand, formula from memory);
    with one piece L1 = L2 = L is one input whose uncertainty counts twice.
    100 * 0.15328/delta per cent IACS (IEC 60028, read second-hand). No density.

    References
    ----------
    IEC 60028. ASTM B193. JCGM 100:2008.

    Examples
    --------
    >>> from strandproof.quantity import normal_input
    >>> result = conductivity_by_mass(
    ...     ResistanceMeasurement(
    ...         resistance=normal_input("resistance", 1.7296, 0.00086, unit="ohm"),
    ...         temperature=normal_input("temperature", 23.8, 0.2, unit="degC"),
    ...         gauge_length=normal_input("length", 500.0, 0.3, unit="mm"),
    ...         mass=normal_input("mass", 22.28, 0.0285, unit="mg"),
    ...     )
    ... )
    >>> round(result.percent_iacs.value, 2), round(result.interval.half_width, 1)
    (100.93, 0.4)
    """
    route = mass_route(measurement, standard=standard)
    return _evaluated(
        route, rules=rules, generator=generator, draws=draws, standard=standard
    )


def conductivity_by_density(
    measurement: ResistanceMeasurement,
    *,
    density: Input | None = None,
    rules: EvaluationRules | None = None,
    generator: np.random.Generator | None = None,
    draws: int = _DRAWS,
    standard: CopperStandard | None = None,
) -> ConductivityResult:
    """Conductivity by volume resistivity, the area from mass, length and density.

    The density is one more source: 0.4 % of it is more than all the rest of a
    careful measurement.

    Parameters
    ----------
    measurement : ResistanceMeasurement
        What was read, with a mass and a temperature.
    density : Input, optional
        Density of the metal; None takes 8.89 g/cm3 with 0.4 %.
    rules : EvaluationRules, optional
        Options; None takes the fixed coefficient and 95 %.
    generator : numpy.random.Generator, optional
        Source of randomness for a second opinion; None for none.
    draws : int
        Draws of that opinion.
    standard : CopperStandard, optional
        Constants; None takes the package's.

    Returns
    -------
    ConductivityResult
        Volume resistivity [ohm m] and per cent IACS.

    Raises
    ------
    MissingMeasurementError
        If temperature or mass is missing.
    UnitError
        If a unit does not fit.
    ParameterError
        If a number is zero, negative or out of range.

    Notes
    -----
    rho = R20 m/(L1 L2 d); 100 (1/58 ohm mm2/m)/rho per cent IACS.
    """
    route = density_route(measurement, density=density, standard=standard)
    return _evaluated(
        route, rules=rules, generator=generator, draws=draws, standard=standard
    )


def conductivity_by_diameter(
    measurement: ResistanceMeasurement,
    *,
    diameter: Input,
    strands: int = 1,
    rules: EvaluationRules | None = None,
    generator: np.random.Generator | None = None,
    standard: CopperStandard | None = None,
) -> ConductivityResult:
    """Conductivity by volume resistivity, the area from the strands' diameter.

    The diameter counts twice, and a micrometer squeezes a soft strand: 0.078 for
    0.080 mm prints 105.9 % IACS, past copper's top.

    Parameters
    ----------
    measurement : ResistanceMeasurement
        What was read; a mass is not used.
    diameter : Input
        Mean diameter of the metal of one strand [mm or um]; its uncertainty is
        taken as common to all strands.
    strands : int
        Strands in parallel; 1 or more.
    rules : EvaluationRules, optional
        Options; None takes the fixed coefficient and 95 %.
    generator : numpy.random.Generator, optional
        Source of randomness for a second opinion; None for none.
    standard : CopperStandard, optional
        Constants; None takes the package's.

    Returns
    -------
    ConductivityResult
        Volume resistivity [ohm m] and per cent IACS.

    Raises
    ------
    MissingMeasurementError
        If the temperature is missing.
    UnitError
        If a unit does not fit.
    ParameterError
        If a number is zero, negative or out of range.

    Notes
    -----
    rho = R20 n pi d^2/(4 L1).
    """
    route = diameter_route(
        measurement, diameter=diameter, strands=strands, standard=standard
    )
    return _evaluated(
        route, rules=rules, generator=generator, draws=_DRAWS, standard=standard
    )


def _evaluated(
    route: RouteModel,
    *,
    rules: EvaluationRules | None,
    generator: np.random.Generator | None,
    draws: int,
    standard: CopperStandard | None,
) -> ConductivityResult:
    rules = rules or EvaluationRules()
    standard = standard or package_copper_standard()
    require_physical(route, rules)
    quantities = propagate_several(
        route.given.model(lambda values: route.results(values, rules.coefficient)),
        route.given.inputs,
        units={
            "resistance_at_20c": "ohm",
            "resistivity": route.unit,
            "percent_iacs": _IACS,
        },
        correlations=rules.correlations,
    ).quantities
    percent = quantities["percent_iacs"]
    interval = expanded_interval(percent, rules.confidence)
    opinion = _second_opinion(route, percent, rules, generator=generator, draws=draws)
    band = judge_band(percent, interval=interval, standard=standard)
    return ConductivityResult(
        route=route.route,
        resistance_at_20c=quantities["resistance_at_20c"],
        resistivity=quantities["resistivity"],
        percent_iacs=percent,
        interval=interval,
        coverage_factor=coverage_factor(
            rules.confidence, degrees_of_freedom=percent.degrees_of_freedom
        ),
        band=band,
        second_opinion=opinion,
        rules=rules,
        flags=(
            *band_flags(percent, band),
            *_flags_of_budget(route, percent, standard),
            *_flags_of_opinion(opinion),
        ),
    )


def stated_interval(result: ConductivityResult) -> Interval:
    """Return the interval to state: Monte Carlo's where first order fails.

    First order times Student's factor is too wide where one rectangular source
    dominates (a meter's specification), and lopsided where the model bends (a coarse
    balance).

    Parameters
    ----------
    result : ConductivityResult
        With or without a second opinion.

    Returns
    -------
    Interval
        The Monte Carlo interval where the second opinion differs, else that of first
        order.
    """
    opinion = result.second_opinion
    if opinion is None or opinion.agrees:
        return result.interval
    return opinion.monte_carlo


def require_physical(route: RouteModel, rules: EvaluationRules) -> None:
    """Refuse readings for which the scaled coefficient has no solution.

    Parameters
    ----------
    route : RouteModel
        The route with its inputs.
    rules : EvaluationRules
        The rule of the coefficient.

    Raises
    ------
    ParameterError
        If conductivity and temperature are so high that the straight line has no
        positive conductivity at 20 degC.
    """
    percent = route.results(route.given.estimates(), rules.coefficient)["percent_iacs"]
    if not 0 < percent < inf:
        raise ParameterError(
            "percent_iacs",
            percent,
            allowed="a conductivity above zero at 20 degC",
            remedy="Check resistance, mass, lengths and their units.",
        )


def _second_opinion(
    route: RouteModel,
    percent: Quantity,
    rules: EvaluationRules,
    *,
    generator: np.random.Generator | None,
    draws: int,
) -> Agreement | None:
    if generator is None:
        return None

    def percent_iacs(values: Values) -> ModelNumber:
        return route.results(values, rules.coefficient)["percent_iacs"]

    result = monte_carlo(
        route.given.model(percent_iacs),
        route.given.inputs,
        unit=_IACS,
        draws=draws,
        generator=generator,
        correlations=rules.correlations,
    )
    return result.agreement_with(percent, confidence=rules.confidence)


def _flags_of_budget(
    route: RouteModel, percent: Quantity, standard: CopperStandard
) -> tuple[Flag, ...]:
    inputs = {one.symbol: one for one in route.given.inputs}
    flags = []
    silent = [one.name for one in inputs.values() if one.standard_uncertainty == 0]
    if silent:
        flags.append(Flag("incomplete_budget", ", ".join(silent)))
    distance = abs(inputs["temperature"].estimate - 20.0)
    if distance > standard.distance_from_20c_k:
        flags.append(Flag("far_from_20_degrees", f"{distance:.1f} K away"))
    share = _share_of_variance(percent, inputs["mass"].name) if "mass" in inputs else 0
    if share > standard.mass_share:
        flags.append(Flag("mass_dominates", f"{100 * share:.1f} % of the variance"))
    return tuple(flags)


def _share_of_variance(quantity: Quantity, name: str) -> float:
    variance = quantity.standard_uncertainty**2
    parts = [line.component**2 for line in quantity.budget if line.name == name]
    return sum(parts) / variance if variance else 0.0


def _flags_of_opinion(opinion: Agreement | None) -> tuple[Flag, ...]:
    if opinion is None or opinion.agrees:
        return ()
    worst = max(opinion.lower_difference, opinion.upper_difference)
    return (Flag("second_opinion_differs", f"ends differ by up to {worst:.2g} % IACS"),)
