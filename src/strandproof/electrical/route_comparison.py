"""Volume resistivity by density and by diameter, side by side."""

from strandproof.electrical.copper_standard import CopperStandard
from strandproof.electrical.given_inputs import GivenInputs
from strandproof.electrical.route_models import (
    RouteModel,
    Values,
    density_route,
    diameter_route,
)
from strandproof.electrical.routes import (
    conductivity_by_density,
    conductivity_by_diameter,
)
from strandproof.quantity import (
    Input,
    ModelNumber,
    Quantity,
    expanded_interval,
    propagate,
)
from strandproof.records import Flag
from strandproof.records.electrical import (
    ConductivityResult,
    EvaluationRules,
    ResistanceMeasurement,
    RouteComparison,
)


def compare_volume_routes(
    measurement: ResistanceMeasurement,
    *,
    diameter: Input,
    strands: int = 1,
    density: Input | None = None,
    rules: EvaluationRules | None = None,
    standard: CopperStandard | None = None,
) -> RouteComparison:
    """Volume resistivity by density and by diameter, and whether they agree.

    They share resistance, gauge length and temperature, so a difference speaks
    about geometry alone: mass, density, specimen length, diameter, strand count.

    Parameters
    ----------
    measurement : ResistanceMeasurement
        What was read, with a mass and a temperature.
    diameter : Input
        Mean diameter of the metal of one strand [mm or um].
    strands : int
        Strands in parallel; 1 or more.
    density : Input, optional
        Density of the metal; None takes 8.89 g/cm3 with 0.4 %.
    rules : EvaluationRules, optional
        Options; None takes the fixed coefficient and 95 %.
    standard : CopperStandard, optional
        Constants; None takes the package's.

    Returns
    -------
    RouteComparison
        Both results, their difference with its own interval, and a flag where
        that interval does not hold zero.

    Raises
    ------
    MissingMeasurementError
        If temperature or mass is missing.
    UnitError
        If a unit does not fit.
    ParameterError
        If a number is zero, negative or out of range.
    """
    rules = rules or EvaluationRules()
    by_density = conductivity_by_density(
        measurement, density=density, rules=rules, standard=standard
    )
    by_diameter = conductivity_by_diameter(
        measurement, diameter=diameter, strands=strands, rules=rules, standard=standard
    )
    difference = _difference(
        density_route(measurement, density=density, standard=standard),
        diameter_route(
            measurement, diameter=diameter, strands=strands, standard=standard
        ),
        rules,
    )
    return _comparison(by_density, by_diameter, difference, rules)


def _difference(
    by_density: RouteModel, by_diameter: RouteModel, rules: EvaluationRules
) -> Quantity:
    def resistivity_difference(values: Values) -> ModelNumber:
        first, second = (
            route.results(values, rules.coefficient)["resistivity"]
            for route in (by_density, by_diameter)
        )
        return second - first

    given = _union(by_density.given, by_diameter.given)
    return propagate(
        given.model(resistivity_difference),
        given.inputs,
        unit=by_density.unit,
        correlations=rules.correlations,
    )


def _union(first: GivenInputs, second: GivenInputs) -> GivenInputs:
    inputs = {one.symbol: one for one in (*first.inputs, *second.inputs)}
    return GivenInputs(
        inputs=tuple(inputs.values()), factors={**first.factors, **second.factors}
    )


def _comparison(
    by_density: ConductivityResult,
    by_diameter: ConductivityResult,
    difference: Quantity,
    rules: EvaluationRules,
) -> RouteComparison:
    interval = expanded_interval(difference, rules.confidence)
    half_width = interval.half_width or 0.0
    agree = abs(difference.value) <= half_width
    percent = 100.0 * difference.value / by_density.resistivity.value
    limit = 100.0 * half_width / by_density.resistivity.value
    detail = f"by diameter {percent:+.1f} %, expanded uncertainty {limit:.1f} %"
    return RouteComparison(
        by_density=by_density,
        by_diameter=by_diameter,
        difference=difference,
        difference_percent=percent,
        interval=interval,
        agree=agree,
        flags=() if agree else (Flag("geometry_routes_disagree", detail),),
    )
