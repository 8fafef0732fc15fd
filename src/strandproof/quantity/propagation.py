"""First-order propagation of uncertainty, over the GUM library GTC."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from math import fsum, inf, sqrt
from types import MappingProxyType

import GTC
import numpy as np
import numpy.typing as npt
from GTC.lib import UncertainReal

from strandproof.errors import (
    LostUncertaintyError,
    ModelOutputError,
    ParameterError,
)
from strandproof.quantity._types import BudgetLine, Quantity
from strandproof.quantity.correlation import Correlation, correlation_matrix
from strandproof.quantity.functions import ModelNumber
from strandproof.quantity.inputs import Input
from strandproof.quantity.model import Model, call_model


@dataclass(frozen=True, slots=True, kw_only=True)
class JointResult:
    """Several results of one model, with the covariance between them.

    Parameters
    ----------
    quantities : mapping of str to Quantity
        The results by name.
    covariances : mapping of tuple of str to float
        Covariance of each ordered pair of names, in the product of the two
        units; a name with itself gives the variance.
    """

    quantities: Mapping[str, Quantity]
    covariances: Mapping[tuple[str, str], float]

    def correlation(self, first: str, second: str) -> float | None:
        """Return the correlation coefficient of two results.

        Parameters
        ----------
        first, second : str
            Names of results.

        Returns
        -------
        float or None
            From -1 to 1; None when one of them has no uncertainty.
        """
        product = (
            self.quantities[first].standard_uncertainty
            * self.quantities[second].standard_uncertainty
        )
        return self.covariances[first, second] / product if product > 0 else None


def propagate(
    model: Model,
    inputs: Sequence[Input],
    *,
    unit: str,
    correlations: Iterable[Correlation] = (),
) -> Quantity:
    """Return the result of a model with its uncertainty, dof and budget.

    First order only: it assumes that the model is nearly straight over the
    spread of the inputs, and that its sensitivities do not all vanish at the
    estimates. Where that may fail, ask `monte_carlo` for a second opinion.

    Parameters
    ----------
    model : callable
        Takes each input by its keyword and returns one number, using ordinary
        arithmetic and the functions of `strandproof.quantity`.
    inputs : sequence of Input
        The inputs, each keyword once, however often the model uses it.
    unit : str
        Unit of the result.
    correlations : iterable of Correlation
        Correlation coefficients of pairs of inputs.

    Returns
    -------
    Quantity
        Value, combined standard uncertainty, effective degrees of freedom and
        one budget line per input, largest first.

    Raises
    ------
    ModelError
        If the model cannot be called with the inputs, or returns no real
        number that depends on them.
    ParameterError
        If inputs or correlations contradict each other.

    Notes
    -----
    u_c^2 = sum over i, j of c_i c_j u_i u_j r_ij (GUM 5.2.2, equation 16);
    nu_eff = u_c^4 / sum(u_i^4 / nu_i) (GUM G.4.1, equation G.2b), where the
    inputs of one ensemble count as one term (Willink 2007). GTC evaluates both.
    With correlation the components do not add up in squares to u_c.

    References
    ----------
    JCGM 100:2008, clauses 5 and G.4.
    R. Willink, 2007, Metrologia 44, 340-349, section 4.1.

    Examples
    --------
    >>> from strandproof.quantity import normal_input
    >>> def resistance(voltage, current):
    ...     return voltage / current
    >>> result = propagate(
    ...     resistance,
    ...     (
    ...         normal_input("voltage", 1.0, 0.001, unit="V"),
    ...         normal_input("current", 0.5, 0.001, unit="A"),
    ...     ),
    ...     unit="ohm",
    ... )
    >>> result.value, round(result.standard_uncertainty, 6), result.budget[0].name
    (2.0, 0.004472, 'current')
    """

    def named(**values: ModelNumber) -> Mapping[str, ModelNumber]:
        return {"result": call_model(model, values)}

    joint = propagate_several(
        named, inputs, units={"result": unit}, correlations=correlations
    )
    return joint.quantities["result"]


def propagate_several(
    model: Model,
    inputs: Sequence[Input],
    *,
    units: Mapping[str, str],
    correlations: Iterable[Correlation] = (),
) -> JointResult:
    """Return several results of the same inputs, with their covariance.

    First order only, see `propagate`.

    Parameters
    ----------
    model : callable
        Takes each input by its keyword and returns a mapping of result names
        to numbers.
    inputs : sequence of Input
        The inputs, each keyword once.
    units : mapping of str to str
        Unit of each result by its name.
    correlations : iterable of Correlation
        Correlation coefficients of pairs of inputs.

    Returns
    -------
    JointResult
        The results and their covariances.

    Raises
    ------
    ModelError
        If the model cannot be called, does not return the named results, or
        returns no real number that depends on the inputs.
    ParameterError
        If inputs or correlations contradict each other.

    Notes
    -----
    cov(y_l, y_m) = sum over i, j of c_li c_mj u_i u_j r_ij (GUM H.2.3, equation
    H.9).

    References
    ----------
    JCGM 100:2008, clause 5 and example H.2.
    """
    matrix = correlation_matrix(inputs, correlations)
    uncertain = _uncertain_numbers(inputs, matrix)
    results = _results(model, dict(zip(_keywords(inputs), uncertain, strict=True)))
    # GTC treats an input without uncertainty as absent, so sensitivities come
    # from a run in which every input has the standard uncertainty 1.
    unit_inputs = [GTC.ureal(one.estimate, 1.0) for one in inputs]
    slopes = _results(model, dict(zip(_keywords(inputs), unit_inputs, strict=True)))
    _require_names(results, units)
    quantities = {
        name: _quantity(
            results[name],
            units[name],
            _budget(inputs, [_sensitivity(slopes[name], one) for one in unit_inputs]),
        )
        for name in units
    }
    covariances = {
        (first, second): float(GTC.get_covariance(results[first], results[second]))
        for first in units
        for second in units
    }
    # The variances after rounding was cleared away, see `_quantity`.
    covariances |= {
        (name, name): quantity.standard_uncertainty**2
        for name, quantity in quantities.items()
    }
    return JointResult(
        quantities=MappingProxyType(quantities),
        covariances=MappingProxyType(covariances),
    )


def _keywords(inputs: Sequence[Input]) -> list[str]:
    return [one.keyword for one in inputs]


def _uncertain_numbers(
    inputs: Sequence[Input], matrix: npt.NDArray[np.float64]
) -> list[UncertainReal]:
    ensembles: dict[str, list[int]] = {}
    for place, one in enumerate(inputs):
        # An input of no ensemble stands for itself, under a name nobody can give.
        ensembles.setdefault(one.ensemble or f"\0{place}", []).append(place)
    numbers: dict[int, UncertainReal] = {}
    for places in ensembles.values():
        numbers |= _ensemble_numbers(inputs, places)
    _set_correlations(numbers, inputs, matrix)
    return [numbers[place] for place in range(len(inputs))]


def _ensemble_numbers(
    inputs: Sequence[Input], places: Sequence[int]
) -> dict[int, UncertainReal]:
    freedoms = {inputs[place].degrees_of_freedom for place in places}
    if len(freedoms) != 1:
        raise ParameterError(
            "ensemble",
            inputs[places[0]].ensemble,
            allowed="inputs with the same degrees of freedom",
        )
    numbers = GTC.multiple_ureal(
        [inputs[place].estimate for place in places],
        [inputs[place].standard_uncertainty for place in places],
        freedoms.pop(),
    )
    return dict(zip(places, numbers, strict=True))


def _set_correlations(
    numbers: Mapping[int, UncertainReal],
    inputs: Sequence[Input],
    matrix: npt.NDArray[np.float64],
) -> None:
    for row, column in zip(*np.nonzero(np.triu(matrix, k=1)), strict=True):
        first, second = int(row), int(column)
        # An input without uncertainty is a constant, which correlates with nothing.
        if inputs[first].standard_uncertainty and inputs[second].standard_uncertainty:
            GTC.set_correlation(
                float(matrix[first, second]), numbers[first], numbers[second]
            )


def _results(
    model: Model, values: Mapping[str, ModelNumber]
) -> Mapping[str, UncertainReal]:
    results: Mapping[str, ModelNumber] = call_model(model, values)
    if not isinstance(results, Mapping):
        raise ModelOutputError(repr(results), expected="a mapping of names to numbers")
    for number in results.values():
        if not isinstance(number, UncertainReal):
            raise LostUncertaintyError(number)
    return results


def _require_names(results: Mapping[str, object], units: Mapping[str, str]) -> None:
    if set(results) != set(units):
        raise ModelOutputError(
            "results named " + ", ".join(sorted(results)),
            expected="one for each unit: " + ", ".join(sorted(units)),
        )


def _sensitivity(result: UncertainReal, number: UncertainReal) -> float:
    # Adding zero turns -0.0 into 0.0.
    return float(GTC.reporting.sensitivity(result, number)) + 0.0


def _budget(
    inputs: Sequence[Input], sensitivities: Sequence[float]
) -> tuple[BudgetLine, ...]:
    lines = (
        BudgetLine(
            name=one.name,
            standard_uncertainty=one.standard_uncertainty,
            unit=one.unit,
            sensitivity=sensitivity,
            component=abs(sensitivity) * one.standard_uncertainty,
            degrees_of_freedom=one.degrees_of_freedom,
        )
        for one, sensitivity in zip(inputs, sensitivities, strict=True)
    )
    return tuple(sorted(lines, key=lambda line: -line.component))


def _quantity(
    result: UncertainReal, unit: str, budget: tuple[BudgetLine, ...]
) -> Quantity:
    variance = float(GTC.get_covariance(result, result))
    # Full correlation can cancel everything; what is left is rounding, at times
    # negative, and neither it nor its degrees of freedom mean anything.
    rounding = 1e-14 * fsum(line.component**2 for line in budget)
    if variance <= rounding:
        return Quantity(float(result.x), unit, 0.0, inf, budget)
    # An exact 1 may come out as 0.9999999999999998.
    freedom = max(1.0, float(result.df))
    return Quantity(float(result.x), unit, sqrt(variance), freedom, budget)
