import numpy as np
import pytest

from strandproof.electrical import (
    check_conductivity_claim,
    compare_with_gauge,
    conductivity_needed,
)
from strandproof.errors import ParameterError, UnitError
from strandproof.quantity import Quantity
from strandproof.records.electrical import DecisionRule

AREA = Quantity(0.0955, "mm^2", 0.0012)


def test_sentence_of_a_claim_beyond_copper() -> None:
    assert conductivity_needed(8, 13).sentence == (
        "8 to 13 % lower resistance than copper of 100 % IACS needs 108.7 to 114.9 % "
        "IACS; copper ends at 103.3 %."
    )


@pytest.mark.parametrize(
    ("lower", "upper", "beyond"),
    [(8, 13, "all"), (2, 5, "part"), (1, 2, "none"), (3, 3, "none"), (4, 4, "all")],
)
def test_how_much_lies_beyond_the_ceiling(
    lower: float, upper: float, beyond: str
) -> None:
    assert conductivity_needed(lower, upper).beyond_ceiling == beyond


def test_better_ordinary_copper_asks_for_more() -> None:
    needed = conductivity_needed(8.0, 13.0, reference_percent_iacs=101.0)
    np.testing.assert_allclose(needed.lower_percent_iacs, 109.783, rtol=0, atol=5e-4)


@pytest.mark.parametrize(
    ("value", "relation"),
    [
        (100.9, "below"),
        (108.2, "below"),
        (108.5, "meets"),
        (110.0, "meets"),
        (115.2, "meets"),
        (116.0, "above"),
    ],
)
def test_relation_goes_by_the_interval(value: float, relation: str) -> None:
    found = check_conductivity_claim(
        conductivity_needed(8, 13), Quantity(value, "% IACS", 0.2)
    )
    assert found.relation == relation


def test_gap_in_standard_uncertainties() -> None:
    needed = conductivity_needed(8.0, 13.0)
    found = check_conductivity_claim(needed, Quantity(100.93, "% IACS", 0.2))
    # From 100.93 to 108.696 in steps of 0.2.
    assert found.gap_in_standard_uncertainties is not None
    np.testing.assert_allclose(
        found.gap_in_standard_uncertainties, 38.83, rtol=0, atol=0.005
    )
    inside = check_conductivity_claim(needed, Quantity(110.0, "% IACS", 0.2))
    assert inside.gap_in_standard_uncertainties == 0.0
    bare = check_conductivity_claim(needed, Quantity(100.93, "% IACS"))
    assert bare.gap_in_standard_uncertainties is None


def test_the_statement_is_about_the_metal() -> None:
    found = check_conductivity_claim(
        conductivity_needed(8.0, 13.0), Quantity(100.93, "% IACS", 0.2)
    )
    assert found.sentence.endswith(
        "Measured: 100.9 ± 0.4 % IACS, which lies below the needed range. "
        "This is about the metal; a lead may hold more or less of it."
    )


@pytest.mark.parametrize(("lower", "upper"), [(0, 5), (5, 100), (13, 8), (-1, 5)])
def test_impossible_claims_are_refused(lower: float, upper: float) -> None:
    with pytest.raises(ParameterError, match="the lower one first"):
        conductivity_needed(lower, upper)


def test_impossible_references_and_units_are_refused() -> None:
    with pytest.raises(ParameterError, match="reference_percent_iacs"):
        conductivity_needed(8, 13, reference_percent_iacs=0)
    with pytest.raises(UnitError, match="% IACS"):
        check_conductivity_claim(conductivity_needed(8, 13), Quantity(58, "MS/m", 0.1))


def test_sentence_of_a_gauge() -> None:
    found = compare_with_gauge(AREA, gauge=26, tolerance_percent=0.0)
    assert found.sentence == (
        "0.0955 ± 0.0024 mm² (k = 2) of metal against 0.1288 mm² for gauge 26: 74 %, "
        "in effect size 27.3."
    )


def test_uncertainty_of_the_effective_gauge() -> None:
    found = compare_with_gauge(AREA, gauge=26, tolerance_percent=0.0)
    # dn = 39/(2 ln 92) dA/A
    expected = 39 / (2 * np.log(92)) * 0.0012 / 0.0955
    np.testing.assert_allclose(
        found.effective_gauge.standard_uncertainty, expected, rtol=1e-9
    )
    assert found.ratio.relative_uncertainty == pytest.approx(0.0012 / 0.0955)


def test_a_true_gauge_conforms_within_a_tolerance_only() -> None:
    true = Quantity(0.12876, "mm^2", 0.0012)
    exact = compare_with_gauge(true, gauge=26, tolerance_percent=0.0)
    assert exact.decision.decision == "undetermined"
    allowed = compare_with_gauge(true, gauge=26, tolerance_percent=2.0)
    assert allowed.decision.decision == "conforms"
    np.testing.assert_allclose(allowed.decision.limit, 0.98 * 0.128756, rtol=1e-5)


def test_rounding_and_rule_can_be_named() -> None:
    found = compare_with_gauge(
        AREA,
        gauge=26,
        tolerance_percent=0.0,
        rounding="tenth_mil",
        rule=DecisionRule(guard="none"),
    )
    np.testing.assert_allclose(found.claimed_area_mm2, 0.12810, rtol=0, atol=5e-6)
    assert found.decision.rule.guard == "none"
    assert found.decision.decision == "does not conform"


@pytest.mark.parametrize("tolerance", [-1.0, 100.0])
def test_impossible_tolerances_are_refused(tolerance: float) -> None:
    with pytest.raises(ParameterError, match="tolerance_percent"):
        compare_with_gauge(AREA, gauge=26, tolerance_percent=tolerance)


def test_areas_in_other_units_are_refused() -> None:
    with pytest.raises(UnitError, match=r"mm\^2"):
        compare_with_gauge(
            Quantity(9.55e-8, "m^2", 1e-9), gauge=26, tolerance_percent=0.0
        )


def test_an_area_without_uncertainty_has_no_gap() -> None:
    found = compare_with_gauge(
        Quantity(0.0955, "mm^2"), gauge=26, tolerance_percent=0.0
    )
    assert found.gap_in_standard_uncertainties is None
