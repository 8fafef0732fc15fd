"""First-order propagation: closed forms, budgets, faults."""

from dataclasses import replace
from math import hypot, inf

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from strandproof.errors import (
    LostUncertaintyError,
    ModelCallError,
    ModelOutputError,
    ParameterError,
    SingularModelError,
)
from strandproof.quantity import (
    Correlation,
    Input,
    JointResult,
    ModelNumber,
    Readings,
    input_from_readings,
    inputs_from_paired_readings,
    normal_input,
    propagate,
    propagate_several,
    sqrt,
)

ESTIMATE = st.floats(0.5, 20.0)
UNCERTAINTY = st.floats(1e-4, 2.0)
FREEDOM = st.one_of(st.integers(1, 60).map(float), st.just(inf))


def product(x: ModelNumber, y: ModelNumber) -> ModelNumber:
    return x * y


def total(x: ModelNumber, y: ModelNumber) -> ModelNumber:
    return x + y


def difference(x: ModelNumber, y: ModelNumber) -> ModelNumber:
    return x - y


def pair(u_x: float, u_y: float) -> tuple[Input, Input]:
    return (
        normal_input("x", 3.0, u_x, unit="m"),
        normal_input("y", 2.0, u_y, unit="m"),
    )


def coefficient_of(joint: JointResult, first: str, second: str) -> float:
    coefficient = joint.correlation(first, second)
    assert coefficient is not None
    return coefficient


@given(ESTIMATE, ESTIMATE, UNCERTAINTY, UNCERTAINTY)
def test_relative_uncertainties_of_a_product_add_in_squares(
    x: float, y: float, u_x: float, u_y: float
) -> None:
    result = propagate(
        product,
        (normal_input("x", x, u_x, unit="m"), normal_input("y", y, u_y, unit="m")),
        unit="m^2",
    )
    np.testing.assert_allclose(result.value, x * y, rtol=1e-14, atol=0)
    np.testing.assert_allclose(
        result.standard_uncertainty,
        x * y * hypot(u_x / x, u_y / y),
        rtol=1e-12,
        atol=0,
    )


@given(
    st.lists(st.tuples(UNCERTAINTY, FREEDOM), min_size=1, max_size=6),
)
def test_effective_degrees_of_freedom_follow_welch_and_satterthwaite(
    sources: list[tuple[float, float]],
) -> None:
    inputs = [
        normal_input(f"x{place}", 0.0, u, unit="1", degrees_of_freedom=freedom)
        for place, (u, freedom) in enumerate(sources)
    ]

    def model(**values: ModelNumber) -> ModelNumber:
        return sum(values.values())

    result = propagate(model, inputs, unit="1")
    variance = sum(u**2 for u, _ in sources)
    sum_of_terms = sum(u**4 / freedom for u, freedom in sources)
    expected = variance**2 / sum_of_terms if sum_of_terms else inf
    np.testing.assert_allclose(result.degrees_of_freedom, expected, rtol=1e-9, atol=0)


@given(UNCERTAINTY, UNCERTAINTY, st.floats(-1.0, 1.0))
def test_correlation_changes_a_sum_as_the_guide_says(
    u_x: float, u_y: float, coefficient: float
) -> None:
    result = propagate(
        total,
        pair(u_x, u_y),
        unit="m",
        correlations=(Correlation("x", "y", coefficient),),
    )
    variance = u_x**2 + u_y**2 + 2.0 * coefficient * u_x * u_y
    np.testing.assert_allclose(
        result.standard_uncertainty**2, variance, rtol=1e-9, atol=1e-12
    )


def test_an_input_used_twice_is_correlated_with_itself() -> None:
    def square_by_hand(x: ModelNumber) -> ModelNumber:
        return x * x

    inputs = (normal_input("x", 3.0, 0.1, unit="m"),)
    result = propagate(square_by_hand, inputs, unit="m^2")
    np.testing.assert_allclose(result.standard_uncertainty, 0.6, rtol=1e-12, atol=0)


def test_an_input_that_cancels_leaves_no_uncertainty() -> None:
    def nothing(x: ModelNumber) -> ModelNumber:
        return x - x + 1.0

    inputs = (input_from_readings("x", (1.0, 2.0, 4.0), unit="m"),)
    result = propagate(nothing, inputs, unit="m")
    assert (result.value, result.standard_uncertainty) == (1.0, 0.0)
    assert result.degrees_of_freedom == inf


# Sums of squares whose rounding GTC alone turns into the root of a negative number.
@pytest.mark.parametrize("u_x", [0.1, 0.3, 0.7, 1.1, 0.013])
@pytest.mark.parametrize("u_y", [0.2, 0.6, 0.9, 1.7])
def test_full_correlation_may_cancel_everything(u_x: float, u_y: float) -> None:
    def closure(x: ModelNumber, y: ModelNumber, both: ModelNumber) -> ModelNumber:
        return both - x - y

    inputs = (
        *pair(u_x, u_y),
        normal_input("both", 5.0, u_x + u_y, unit="m"),
    )
    full = [Correlation(*names, 1.0) for names in (("x", "y"), ("x", "both"))]
    full.append(Correlation("y", "both", 1.0))
    result = propagate(closure, inputs, unit="m", correlations=full)
    assert result.standard_uncertainty == 0.0
    assert result.degrees_of_freedom == inf


def test_correlation_with_a_cancelled_result_is_unknown() -> None:
    # GTC alone gives "rest" a variance of -3.6e-16 here.
    def both(
        x: ModelNumber, y: ModelNumber, both: ModelNumber
    ) -> dict[str, ModelNumber]:
        return {"rest": both - x - y, "sum": x + y}

    inputs = (*pair(0.013, 1.7), normal_input("both", 5.0, 1.713, unit="m"))
    names = (("x", "y"), ("x", "both"), ("y", "both"))
    joint = propagate_several(
        both,
        inputs,
        units={"rest": "m", "sum": "m"},
        correlations=[Correlation(*one, 1.0) for one in names],
    )
    assert joint.covariances["rest", "rest"] == 0.0
    assert joint.correlation("rest", "sum") is None


def test_rounding_does_not_push_degrees_of_freedom_below_one() -> None:
    # x - y cancels, and GTC alone gives 0.9999999999999996 for what is left.
    inputs = (
        normal_input("z", 0.0, 1.3900771473049753, unit="m", degrees_of_freedom=1.0),
        replace(
            normal_input("x", 0.0, 0.81, unit="m", degrees_of_freedom=5.0),
            ensemble="rounds",
        ),
        replace(
            normal_input("y", 0.0, 0.81 * 0.2, unit="m", degrees_of_freedom=5.0),
            ensemble="rounds",
        ),
    )

    def rest(x: ModelNumber, y: ModelNumber, z: ModelNumber) -> ModelNumber:
        return z + 0.2 * x - y

    full = (Correlation("x", "y", 1.0),)
    result = propagate(rest, inputs, unit="m", correlations=full)
    assert result.degrees_of_freedom == 1.0


def test_a_stationary_point_has_no_first_order_uncertainty() -> None:
    def square(x: ModelNumber) -> ModelNumber:
        return x**2

    inputs = (input_from_readings("x", (-1.0, 0.0, 1.0), unit="m"),)
    result = propagate(square, inputs, unit="m^2")
    assert (result.value, result.standard_uncertainty) == (0.0, 0.0)
    assert result.degrees_of_freedom == inf


def test_the_budget_holds_every_input_largest_first() -> None:
    inputs = (*pair(0.1, 0.3), normal_input("z", 1.0, 0.0, unit="s"))

    def model(x: ModelNumber, y: ModelNumber, z: ModelNumber) -> ModelNumber:
        return x * y - 7.0 * z

    result = propagate(model, inputs, unit="m^2")
    assert [line.name for line in result.budget] == ["y", "x", "z"]
    assert [line.sensitivity for line in result.budget] == [3.0, 2.0, -7.0]
    np.testing.assert_allclose(
        [line.component for line in result.budget], [0.9, 0.2, 0.0], rtol=1e-12, atol=0
    )
    assert [line.unit for line in result.budget] == ["m", "m", "s"]


@given(st.lists(UNCERTAINTY, min_size=1, max_size=6))
def test_components_of_independent_inputs_add_in_squares(
    uncertainties: list[float],
) -> None:
    inputs = [
        normal_input(f"x{place}", 1.0 + place, u, unit="1")
        for place, u in enumerate(uncertainties)
    ]

    def model(**values: ModelNumber) -> ModelNumber:
        return sqrt(sum(value * value for value in values.values()))

    result = propagate(model, inputs, unit="1")
    squares = sum(line.component**2 for line in result.budget)
    np.testing.assert_allclose(
        result.standard_uncertainty**2, squares, rtol=1e-12, atol=0
    )


def test_the_order_of_the_inputs_does_not_matter() -> None:
    inputs = pair(0.1, 0.3)
    one = propagate(product, inputs, unit="m^2")
    other = propagate(product, inputs[::-1], unit="m^2")
    assert one == other


def test_correlation_with_a_constant_changes_nothing() -> None:
    result = propagate(
        total,
        pair(0.0, 0.3),
        unit="m",
        correlations=(Correlation("x", "y", 0.9),),
    )
    np.testing.assert_allclose(result.standard_uncertainty, 0.3, rtol=1e-12, atol=0)


def test_an_ensemble_counts_as_one_term_for_degrees_of_freedom() -> None:
    inputs, correlations = inputs_from_paired_readings(
        (
            Readings(name="x", values=(1.0, 2.0, 4.0, 3.0), unit="m"),
            Readings(name="y", values=(2.0, 2.5, 4.5, 3.0), unit="m"),
        ),
        ensemble="rounds",
    )
    result = propagate(difference, inputs, unit="m", correlations=correlations)
    direct = input_from_readings("d", (-1.0, -0.5, -0.5, 0.0), unit="m")
    np.testing.assert_allclose(
        result.standard_uncertainty, direct.standard_uncertainty, rtol=1e-12, atol=0
    )
    np.testing.assert_allclose(result.degrees_of_freedom, 3.0, rtol=1e-12, atol=0)


def test_members_of_an_ensemble_share_their_degrees_of_freedom() -> None:
    one, other = pair(0.1, 0.2)
    inputs = (
        replace(one, ensemble="rounds", degrees_of_freedom=4.0),
        replace(other, ensemble="rounds", degrees_of_freedom=5.0),
    )
    with pytest.raises(ParameterError, match="with the same degrees of freedom"):
        propagate(total, inputs, unit="m")


def test_several_results_know_their_covariance() -> None:
    def both(x: ModelNumber, y: ModelNumber) -> dict[str, ModelNumber]:
        return {"sum": x + y, "difference": x - y}

    joint = propagate_several(
        both, pair(0.3, 0.4), units={"sum": "m", "difference": "m"}
    )
    np.testing.assert_allclose(
        joint.covariances["sum", "difference"], 0.09 - 0.16, rtol=1e-12, atol=0
    )
    np.testing.assert_allclose(
        coefficient_of(joint, "sum", "difference"), -0.07 / 0.25, rtol=1e-12, atol=0
    )
    np.testing.assert_allclose(
        coefficient_of(joint, "sum", "sum"), 1.0, rtol=1e-12, atol=0
    )


def test_an_input_may_be_a_result() -> None:
    def keep(x: ModelNumber, y: ModelNumber) -> dict[str, ModelNumber]:
        return {"x": x, "y": y, "product": x * y}

    joint = propagate_several(
        keep,
        pair(0.3, 0.4),
        units={"x": "m", "y": "m", "product": "m^2"},
        correlations=(Correlation("x", "y", 0.5),),
    )
    np.testing.assert_allclose(coefficient_of(joint, "x", "y"), 0.5, rtol=1e-12, atol=0)
    assert joint.quantities["x"].standard_uncertainty == 0.3


def test_correlation_with_a_certain_result_is_unknown() -> None:
    def both(x: ModelNumber, y: ModelNumber) -> dict[str, ModelNumber]:
        return {"sum": x + y, "nothing": x - x}

    joint = propagate_several(both, pair(0.3, 0.4), units={"sum": "m", "nothing": "m"})
    assert joint.correlation("sum", "nothing") is None


def test_a_lost_uncertainty_is_noticed() -> None:
    def careless(x: ModelNumber, y: ModelNumber) -> float:
        return float(abs(x * y))

    with pytest.raises(LostUncertaintyError, match="carries no uncertainty"):
        propagate(careless, pair(0.1, 0.1), unit="m^2")


def test_the_root_of_a_negative_number_is_noticed() -> None:
    def imaginary(x: ModelNumber, y: ModelNumber) -> ModelNumber:
        return (y - x) ** 0.5

    with pytest.raises(LostUncertaintyError, match="root of a negative number"):
        propagate(imaginary, pair(0.1, 0.1), unit="m")


def test_a_missing_sensitivity_is_explained() -> None:
    def root(x: ModelNumber) -> ModelNumber:
        return sqrt(x)

    with pytest.raises(SingularModelError, match="use Monte Carlo"):
        propagate(root, (normal_input("x", 0.0, 0.1, unit="1"),), unit="1")


def test_a_model_with_other_parameters_is_refused() -> None:
    with pytest.raises(ModelCallError, match="inputs x by keyword"):
        propagate(product, (normal_input("x", 0.0, 0.1, unit="1"),), unit="1")


def test_several_results_have_to_come_as_a_mapping() -> None:
    with pytest.raises(ModelOutputError, match="a mapping of names to numbers"):
        propagate_several(product, pair(0.1, 0.1), units={"area": "m^2"})


def test_every_result_needs_its_unit() -> None:
    def area(x: ModelNumber, y: ModelNumber) -> dict[str, ModelNumber]:
        return {"area": x * y}

    with pytest.raises(ModelOutputError, match="results named area; expected is one"):
        propagate_several(area, pair(0.1, 0.1), units={"length": "m"})


def test_correlations_may_come_from_a_generator() -> None:
    once = (Correlation("x", "y", value) for value in (0.5,))
    result = propagate(total, pair(0.3, 0.4), unit="m", correlations=once)
    np.testing.assert_allclose(
        result.standard_uncertainty**2, 0.25 + 0.12, rtol=1e-12, atol=0
    )
