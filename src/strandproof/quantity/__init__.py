"""Values with uncertainty: the GUM's arithmetic, exact limits, and showing digits.

Imports `errors` only. Results of every measuring part are built from the frozen
`Quantity` (value, standard uncertainty, unit, degrees of freedom, budget) and
`Interval` of this package.

- `Input`, its constructors and `Correlation`: what a measurement model takes in;
- `propagate`, `propagate_several`: first order, over the library GTC;
- `monte_carlo`: the second opinion, from the same model;
- `expanded_interval`, `mean_with_interval`: intervals by Student's t;
- `poisson_interval`, `binomial_interval` and their one-sided kin: exact limits;
- `format_quantity`, `format_plus_minus`, `format_interval`: text.
"""

from strandproof.quantity._types import BudgetLine, Interval, Quantity
from strandproof.quantity.correlation import Correlation, inputs_from_paired_readings
from strandproof.quantity.coverage import (
    confidence_for_factor,
    coverage_factor,
    degrees_of_freedom_from_doubt,
    expanded_interval,
    expanded_uncertainty,
)
from strandproof.quantity.functions import (
    ModelNumber,
    absolute,
    acos,
    asin,
    atan,
    cos,
    exp,
    log,
    log10,
    sin,
    sqrt,
    tan,
)
from strandproof.quantity.inputs import (
    Distribution,
    Input,
    arcsine_input,
    normal_input,
    rectangular_input,
    triangular_input,
)
from strandproof.quantity.limits import (
    poisson_interval,
    poisson_lower_limit,
    poisson_upper_limit,
    probability_of_at_least,
    reciprocal_interval,
)
from strandproof.quantity.model import Model
from strandproof.quantity.monte_carlo import Agreement, MonteCarloResult, monte_carlo
from strandproof.quantity.propagation import JointResult, propagate, propagate_several
from strandproof.quantity.proportions import (
    binomial_interval,
    binomial_lower_limit,
    binomial_upper_limit,
    expected_proportion,
    trials_needed_with_none_failing,
)
from strandproof.quantity.readings import (
    Readings,
    input_from_readings,
    mean_with_interval,
    relative_accuracy_percent,
)
from strandproof.quantity.show import (
    format_interval,
    format_plus_minus,
    format_quantity,
    unit_text,
)

__all__ = [
    "Agreement",
    "BudgetLine",
    "Correlation",
    "Distribution",
    "Input",
    "Interval",
    "JointResult",
    "Model",
    "ModelNumber",
    "MonteCarloResult",
    "Quantity",
    "Readings",
    "absolute",
    "acos",
    "arcsine_input",
    "asin",
    "atan",
    "binomial_interval",
    "binomial_lower_limit",
    "binomial_upper_limit",
    "confidence_for_factor",
    "cos",
    "coverage_factor",
    "degrees_of_freedom_from_doubt",
    "exp",
    "expanded_interval",
    "expanded_uncertainty",
    "expected_proportion",
    "format_interval",
    "format_plus_minus",
    "format_quantity",
    "input_from_readings",
    "inputs_from_paired_readings",
    "log",
    "log10",
    "mean_with_interval",
    "monte_carlo",
    "normal_input",
    "poisson_interval",
    "poisson_lower_limit",
    "poisson_upper_limit",
    "probability_of_at_least",
    "propagate",
    "propagate_several",
    "reciprocal_interval",
    "rectangular_input",
    "relative_accuracy_percent",
    "sin",
    "sqrt",
    "tan",
    "trials_needed_with_none_failing",
    "triangular_input",
    "unit_text",
]
