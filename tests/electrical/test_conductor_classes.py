import numpy as np
import pytest

from strandproof.electrical import (
    check_area,
    check_class,
    class_limit_ohm_per_km,
    metric_gauge_area_mm2,
    resistance_per_length,
)
from strandproof.errors import MissingMeasurementError, ParameterError, UnitError
from strandproof.quantity import Quantity, normal_input
from strandproof.records.electrical import DecisionRule


def test_resistance_per_length_of_a_warm_core() -> None:
    found = resistance_per_length(
        normal_input("resistance", 26.0 * (1 + 0.00393 * 5), 0.05, unit="mohm"),
        normal_input("temperature", 25.0, 0.5, unit="degC"),
        normal_input("length", 1.0, 0.001, unit="m"),
    )
    np.testing.assert_allclose(found.value, 26.0, rtol=1e-12)
    assert found.unit == "ohm/km"
    with pytest.raises(MissingMeasurementError, match="temperature of the wire"):
        resistance_per_length(
            normal_input("resistance", 26.0, 0.05, unit="mohm"),
            None,
            normal_input("length", 1.0, 0.001, unit="m"),
        )


@pytest.mark.parametrize(
    ("ohm_per_km", "decision"),
    [(25.8, "conforms"), (25.95, "undetermined"), (26.2, "does not conform")],
)
def test_three_answers_around_the_limit(ohm_per_km: float, decision: str) -> None:
    measured = Quantity(ohm_per_km, "ohm/km", 0.1)
    found = check_class(measured, conductor_class=5, nominal_mm2=0.75)
    assert found.decision == decision


def test_a_coated_class_1_of_25_has_no_limit() -> None:
    with pytest.raises(ParameterError, match="whether strands are coated"):
        class_limit_ohm_per_km(1, nominal_mm2=25, coated=True)
    with pytest.raises(ParameterError, match="1, 2, 5 or 6"):
        class_limit_ohm_per_km(3, nominal_mm2=1)


def test_an_area_with_its_tolerance() -> None:
    area = Quantity(0.0955, "mm^2", 0.0012)
    strict = check_area(area, claimed_mm2=0.098, tolerance_percent=0.0)
    wide = check_area(area, claimed_mm2=0.098, tolerance_percent=5.0)
    assert (strict.decision, wide.decision) == ("does not conform", "conforms")
    simple = check_area(
        Quantity(0.0975, "mm^2", 0.0012),
        claimed_mm2=0.098,
        tolerance_percent=1.0,
        rule=DecisionRule(guard="none"),
    )
    assert simple.decision == "conforms"
    assert "false acceptance" in simple.sentence


def test_units_and_ranges_are_checked() -> None:
    with pytest.raises(UnitError, match="ohm/km"):
        check_class(Quantity(1, "ohm", 0.1), conductor_class=5, nominal_mm2=1)
    with pytest.raises(UnitError, match="mm"):
        check_area(Quantity(1, "m", 0.1), claimed_mm2=1, tolerance_percent=0)
    with pytest.raises(ParameterError, match="claimed_mm2"):
        check_area(Quantity(1, "mm^2"), claimed_mm2=0, tolerance_percent=0)
    with pytest.raises(ParameterError, match="tolerance_percent"):
        check_area(Quantity(1, "mm^2"), claimed_mm2=1, tolerance_percent=100)
    with pytest.raises(ParameterError, match="gauge"):
        metric_gauge_area_mm2(0)
