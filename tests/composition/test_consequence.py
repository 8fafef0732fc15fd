import pytest

from strandproof.composition import (
    electrical_consequence,
    held_against_conductivity,
    held_against_ratio,
    judge_certificate,
)
from strandproof.errors import ParameterError
from strandproof.quantity import Quantity
from strandproof.records.composition import Certificate, ElementContent


def paper(*contents: ElementContent) -> Certificate:
    return Certificate(item="rod", contents=contents)


def value(symbol: str, ppm: float) -> ElementContent:
    return ElementContent(symbol=symbol, state="value", ppm=ppm)


def test_iron_dissolved_and_precipitated() -> None:
    found = electrical_consequence(paper(value("Fe", 100.0)))
    # 10.6 and 0.85 pohm m per ppm (from memory).
    assert found.residual_nohm_m.highest == pytest.approx(1.06, rel=1e-9)
    assert found.residual_nohm_m.lowest == pytest.approx(0.085, rel=1e-9)
    assert found.residual_ratio.expected == pytest.approx(1 + 15.43 / 1.06, rel=1e-6)
    assert found.percent_iacs.expected == pytest.approx(
        1724.1 / (16.78 + 0.15 * 0.0681 + 1.06), rel=1e-6
    )


def test_oxygen_above_its_solubility_is_nearly_harmless() -> None:
    found = electrical_consequence(paper(value("O", 200.0)))
    # 2 ppm dissolved at 21, the rest as oxide at 0.34 pohm m per ppm.
    assert found.residual_nohm_m.expected == pytest.approx(
        (2 * 21 + 198 * 0.34) / 1000, rel=1e-9
    )
    assert found.percent_iacs.expected > 101


def test_a_detection_limit_opens_the_range_to_its_ends() -> None:
    limit = ElementContent(symbol="P", state="below", ppm=4.0)
    found = electrical_consequence(paper(limit)).residual_nohm_m
    assert found.lowest == 0.0
    assert found.highest == pytest.approx(4 * 14.3 / 1000, rel=1e-9)
    assert found.lowest < found.expected < found.highest
    ratio = electrical_consequence(paper(limit)).residual_ratio
    assert ratio.highest == float("inf")


def test_silver_carries_the_conflict_of_its_sources() -> None:
    found = electrical_consequence(paper(value("Ag", 100.0))).residual_nohm_m
    assert found.highest / found.expected > 4


def test_an_element_without_coefficient_is_named_and_left_out() -> None:
    judged = judge_certificate(paper(value("Fe", 1.0), value("Hg", 50.0)))
    assert judged.consequence.unknown == ("Hg",)
    assert "effect_on_resistivity_unknown" in {flag.name for flag in judged.flags}


@pytest.mark.parametrize(
    ("iacs", "agreement"), [(102.0, "agrees"), (108.0, "above"), (85.0, "below")]
)
def test_conductivity_beside_the_analysis(iacs: float, agreement: str) -> None:
    found = electrical_consequence(paper(value("Fe", 3.0)))
    held = held_against_conductivity(found, Quantity(iacs, "% IACS", 0.2))
    assert held.agreement == agreement


@pytest.mark.parametrize(
    ("ratio", "agreement"), [(400.0, "agrees"), (50_000.0, "above"), (60.0, "below")]
)
def test_residual_ratio_beside_the_analysis(ratio: float, agreement: str) -> None:
    found = electrical_consequence(paper(value("Fe", 10.0), value("Ni", 5.0)))
    lowest, highest = found.residual_ratio.lowest, found.residual_ratio.highest
    assert 100 < lowest < 400 < highest < 50_000
    held = held_against_ratio(found, Quantity(ratio, "1", 0.01 * ratio))
    assert held.agreement == agreement


def test_units_are_not_guessed() -> None:
    found = electrical_consequence(paper(value("Fe", 3.0)))
    with pytest.raises(ParameterError, match="% IACS"):
        held_against_conductivity(found, Quantity(58.0, "MS/m"))
    with pytest.raises(ParameterError, match="unit"):
        held_against_ratio(found, Quantity(58.0, "%"))
