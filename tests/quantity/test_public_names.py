"""The public face of the package: a change of it is a change for users."""

import strandproof.quantity

PUBLIC = {
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
    "triangular_input",
    "trials_needed_with_none_failing",
    "unit_text",
}


def test_public_names_are_pinned() -> None:
    assert set(strandproof.quantity.__all__) == PUBLIC


def test_every_public_name_exists() -> None:
    missing = [name for name in PUBLIC if not hasattr(strandproof.quantity, name)]
    assert missing == []
