from math import log

import pytest

from strandproof.errors import UnitError
from strandproof.grainsize import (
    intercept_g,
    intercept_g_estimate,
    package_relations,
    planimetric_g,
    planimetric_g_estimate,
)
from strandproof.quantity import BudgetLine, Interval, Quantity
from strandproof.records import Estimate


def _estimate(quantity: Quantity, lower: float | None, upper: float | None) -> Estimate:
    return Estimate(
        quantity=quantity,
        interval95=Interval(
            lower=lower,
            upper=upper,
            unit=quantity.unit,
            confidence=0.95,
            method="drawn",
        ),
        relative_accuracy_percent=10.0,
    )


def test_intercept_g_swaps_the_ends() -> None:
    line = BudgetLine(
        name="sampling",
        standard_uncertainty=0.2,
        unit="um",
        sensitivity=1.0,
        component=0.2,
    )
    length = Quantity(8.0, "um", 0.2, 8.0, (line,))
    g = intercept_g_estimate(_estimate(length, 7.5, 8.5))
    assert g.quantity.value == intercept_g(0.008)
    assert g.quantity.unit == "1"
    u = 2 / log(2) * 0.2 / 8.0
    assert g.quantity.standard_uncertainty == pytest.approx(u, rel=1e-12, abs=0)
    assert g.quantity.budget[0].component == pytest.approx(u, rel=1e-12, abs=0)
    assert g.quantity.degrees_of_freedom == 8.0
    assert g.interval95 is not None
    assert g.interval95.lower == intercept_g(0.0085)
    assert g.interval95.upper == intercept_g(0.0075)
    assert g.interval95.unit == "1"
    # G has no zero of its own, so a percentage of it says nothing.
    assert g.relative_accuracy_percent is None


def test_planimetric_g_keeps_the_order_of_the_ends() -> None:
    g = planimetric_g_estimate(_estimate(Quantity(1000.0, "1/mm^2", 50.0), 900, 1100))
    assert g.quantity.value == planimetric_g(1000.0)
    assert g.quantity.standard_uncertainty == pytest.approx(
        0.05 / log(2), rel=1e-12, abs=0
    )
    assert g.interval95 is not None
    assert g.interval95.lower == planimetric_g(900.0)
    assert g.interval95.upper == planimetric_g(1100.0)


def test_a_limit_of_zero_opens_the_interval() -> None:
    count = planimetric_g_estimate(_estimate(Quantity(5.0, "1/mm^2", 2.0), 0.0, 15.0))
    length = intercept_g_estimate(_estimate(Quantity(8.0, "um", 4.0), 0.0, 20.0))
    assert count.interval95 is not None
    assert length.interval95 is not None
    assert count.interval95.lower is None
    assert length.interval95.upper is None


def test_without_an_interval_there_is_none_in_g() -> None:
    estimate = Estimate(
        quantity=Quantity(8.0, "um", 4.0),
        interval95=None,
        relative_accuracy_percent=None,
    )
    assert intercept_g_estimate(estimate).interval95 is None


def test_the_constants_can_be_chosen() -> None:
    exact = package_relations("exact")
    estimate = _estimate(Quantity(320.0, "um", 1.0), 300.0, 340.0)
    assert intercept_g_estimate(
        estimate, relations=exact
    ).quantity.value == pytest.approx(0.0, rel=0, abs=1e-12)


def test_units_must_fit() -> None:
    with pytest.raises(UnitError, match="expected is um"):
        intercept_g_estimate(_estimate(Quantity(8.0, "px"), 7.0, 9.0))
    with pytest.raises(UnitError, match=r"expected is 1/mm\^2"):
        planimetric_g_estimate(_estimate(Quantity(8.0, "1/px^2"), 7.0, 9.0))
