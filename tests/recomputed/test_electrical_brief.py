"""Every number of the product brief's Appendix A on resistance, gauge and layers.

Source: product brief, Appendix A ("Resistance", "K4", "K3", "Drain", "Clad-aluminium
core", "Lay factor", "Boundary share") and M18, M19; computed there, recomputed here.
Status: computed. Values of tin, of the boundary and the standard's density that enter
them are from memory. Tolerance: half a unit of the last digit printed.
"""

import numpy as np
import pytest
from electrical_examples import diameter, length, mass, resistance, strand, temperature

from strandproof.electrical import (
    boundary_share,
    check_conductivity_claim,
    compare_with_gauge,
    conductivity_by_density,
    conductivity_by_diameter,
    conductivity_by_mass,
    conductivity_needed,
    effective_gauge,
    equivalent_diameter_mm,
    expected_core,
    gauge_area_mm2,
    gauge_diameter_mm,
    heating_power,
    larger_specimen,
    lay_error_percent,
    layer_effect,
    metal,
    package_copper_standard,
    percent_iacs_of_mass_resistivity,
    percent_iacs_of_volume_resistivity,
    strand_area,
    strand_area_by_mass,
    what_this_can_decide,
)
from strandproof.quantity import Quantity, expanded_uncertainty, normal_input
from strandproof.records.electrical import (
    CoefficientRule,
    EvaluationRules,
    LayerEffect,
)

K2 = 0.9545  # confidence of k = 2 for infinite degrees of freedom


def printed(found: float, text: str) -> None:
    """Compare with a printed number to half a unit of its last digit."""
    decimals = len(text.partition(".")[2])
    np.testing.assert_allclose(found, float(text), rtol=0, atol=0.5 * 10.0**-decimals)


def parts_percent(quantity: Quantity) -> dict[str, float]:
    """Budget components in percent of the value, by name of the input."""
    return {
        line.name: 100 * line.component / quantity.value for line in quantity.budget
    }


class TestMassResistivity:
    def test_values(self) -> None:
        result = conductivity_by_mass(strand())
        printed(result.resistance_at_20c.value, "1.704150")
        printed(result.resistivity.value, "0.151874")
        printed(result.percent_iacs.value, "100.93")

    def test_scaled_coefficient(self) -> None:
        rules = EvaluationRules(coefficient="scaled")
        printed(
            conductivity_by_mass(strand(), rules=rules).percent_iacs.value, "100.94"
        )

    def test_hot_resistance_taken_as_it_is(self) -> None:
        uncorrected = 1.7296 * 22.28e-3 / 0.5**2
        printed(percent_iacs_of_mass_resistivity(uncorrected), "99.44")
        at_20 = conductivity_by_mass(strand(warm=temperature(20.0)))
        printed(at_20.percent_iacs.value, "99.44")

    def test_standard_parts(self) -> None:
        percent = conductivity_by_mass(strand()).percent_iacs
        parts = parts_percent(percent)
        printed(parts["gauge length"], "0.12")
        printed(parts["mass of the strand"], "0.128")
        printed(parts["resistance"], "0.05")
        printed(parts["temperature of the wire"], "0.077")
        printed(parts["temperature coefficient"], "0.011")
        # Printed 0.198, the sum of the rounded parts; unrounded ones give 0.1985.
        rounded = sum(round(part, 3) ** 2 for part in parts.values()) ** 0.5
        printed(rounded, "0.198")
        assert percent.relative_uncertainty is not None
        printed(100 * percent.relative_uncertainty, "0.1985")
        assert "density" not in parts

    def test_expanded(self) -> None:
        percent = conductivity_by_mass(strand()).percent_iacs
        half_width = expanded_uncertainty(percent, confidence=K2)
        printed(half_width, "0.40")
        printed(100 * half_width / percent.value, "0.40")

    def test_pocket_scale(self) -> None:
        percent = conductivity_by_mass(strand(weighed=mass(u=1.0))).percent_iacs
        printed(expanded_uncertainty(percent, confidence=K2), "9.1")

    def test_advice_for_the_pocket_scale(self) -> None:
        advice = larger_specimen(mass(u=1.0), length(), strands=19, length_m=1.0)
        printed(advice.mass_mg, "847")
        assert advice.sentence == "weigh all 19 strands over 1 m (847 mg)"

    def test_heat_of_one_ampere(self) -> None:
        current = normal_input("current", 1.0, 0.001, unit="A")
        printed(heating_power(current, resistance()).value, "1.7")


class TestVolumeResistivity:
    def test_by_density(self) -> None:
        result = conductivity_by_density(strand())
        printed(1e8 * result.resistivity.value, "1.7084")
        u = result.resistivity.relative_uncertainty
        assert u is not None
        # Printed 0.446, from the rounded 0.198 and 0.4; unrounded 0.4466.
        printed((0.198**2 + 0.4**2) ** 0.5, "0.446")
        printed(100 * u, "0.4466")
        half_width = expanded_uncertainty(result.resistivity, confidence=K2)
        printed(100 * half_width / result.resistivity.value, "0.89")
        printed(1e8 * half_width, "0.015")

    @pytest.mark.parametrize(
        ("diameter_mm", "percent"),
        [(0.080, "100.6"), (0.079, "103.2"), (0.078, "105.9")],
    )
    def test_by_diameter(self, diameter_mm: float, percent: str) -> None:
        result = conductivity_by_diameter(strand(), diameter=diameter(diameter_mm))
        printed(result.percent_iacs.value, percent)

    def test_standard(self) -> None:
        printed(1e8 * package_copper_standard().volume_resistivity_ohm_m, "1.7241")


class TestBand:
    def test_ceiling(self) -> None:
        printed(percent_iacs_of_volume_resistivity(16.78e-9), "102.75")
        assert package_copper_standard().ceiling_percent_iacs == 103.3
        assert package_copper_standard().floor_percent_iacs == 95.0

    def test_words(self) -> None:
        high = conductivity_by_diameter(strand(), diameter=diameter(0.078))
        assert "probable error" in high.band.sentence
        assert high.flags[0].name == "above_copper_ceiling"
        low = conductivity_by_mass(strand(wire=resistance(1.95)))
        assert (
            "probable error, or another metal (clad cores are near 64 %)"
            in low.band.sentence
        )


class TestLowerResistance:
    def test_needed(self) -> None:
        needed = conductivity_needed(8.0, 13.0)
        printed(needed.lower_percent_iacs, "108.70")
        printed(needed.upper_percent_iacs, "114.94")
        assert needed.beyond_ceiling == "all"

    def test_against_the_measurement(self) -> None:
        measured = conductivity_by_mass(strand()).percent_iacs
        check = check_conductivity_claim(conductivity_needed(8.0, 13.0), measured)
        assert check.relation == "below"
        assert "100.9 ± 0.4 % IACS" in check.sentence


class TestGauge:
    def area(self) -> Quantity:
        # 1 um at k = 2.
        return strand_area(diameter(u=0.0005), strands=19)

    def test_formula(self) -> None:
        printed(gauge_diameter_mm(26), "0.40489")
        printed(gauge_diameter_mm(26), "0.4049")
        printed(gauge_area_mm2(26), "0.12876")
        printed(gauge_area_mm2(26, rounding="tenth_mil"), "0.12810")
        np.testing.assert_allclose(
            gauge_diameter_mm(26, rounding="tenth_mil"), 15.9 * 0.0254, rtol=1e-12
        )

    def test_area(self) -> None:
        printed(self.area().value, "0.09550")
        printed(2 * self.area().standard_uncertainty, "0.0024")

    def test_area_by_mass(self) -> None:
        area = strand_area_by_mass(mass(), length(), strands=19)
        printed(area.value, "0.09524")

    def test_comparison(self) -> None:
        found = compare_with_gauge(self.area(), gauge=26, tolerance_percent=0.0)
        printed(found.ratio.value, "0.742")
        printed(100 * (1 - found.ratio.value), "25.8")
        printed(found.effective_gauge.value, "27.29")
        assert found.gap_in_standard_uncertainties is not None
        printed(found.gap_in_standard_uncertainties, "28")
        assert found.decision.decision == "does not conform"

    def test_resistance_per_metre(self) -> None:
        copper = metal("copper")
        printed(expected_core(self.area(), copper).resistance_per_metre.value, "180.5")
        gauge = Quantity(gauge_area_mm2(26), "mm^2")
        printed(expected_core(gauge, copper).resistance_per_metre.value, "133.9")

    def test_effective_size_and_back(self) -> None:
        size = effective_gauge(self.area())
        np.testing.assert_allclose(
            gauge_diameter_mm(size.value),
            equivalent_diameter_mm(self.area()),
            rtol=1e-12,
        )


class TestDrain:
    def effect(self, tin_um: float = 1.9, u: float = 0.15) -> LayerEffect:
        return layer_effect(
            normal_input("strand diameter", 0.12, 0.0, unit="mm"),
            normal_input("tin thickness", tin_um, u, unit="um"),
            strands=7,
        )

    def test_areas(self) -> None:
        printed(self.effect().strand_area.value, "0.0792")
        printed(self.effect().core_diameter.value, "0.1162")
        printed(self.effect().core_area.value, "0.0742")

    @pytest.mark.parametrize(
        ("name", "value", "lower", "upper"),
        [
            ("volume_percent", "6.2", "5.3", "7.2"),
            ("mass_percent", "5.2", "4.4", "6.0"),
            ("resistance_change_percent", "5.6", "4.7", "6.5"),
        ],
    )
    def test_shares(self, name: str, value: str, lower: str, upper: str) -> None:
        printed(getattr(self.effect(), name).value, value)
        printed(getattr(self.effect(1.6), name).value, lower)
        printed(getattr(self.effect(2.2), name).value, upper)
        # The first-order interval over 0.3 um (k = 2) ends where the range does.
        found: Quantity = getattr(self.effect(), name)
        ends = found.value + 2 * found.standard_uncertainty * np.array([-1, 1])
        np.testing.assert_allclose(
            ends, [float(lower), float(upper)], rtol=0, atol=0.06
        )


class TestCladAluminium:
    def test_core(self) -> None:
        clad = expected_core(Quantity(0.0955, "mm^2"), metal("clad_aluminium_15"))
        printed(clad.percent_iacs, "64.3")
        printed(clad.mass_per_metre.value, "0.347")
        printed(clad.resistance_per_metre.value, "281")
        copper = expected_core(Quantity(0.0955, "mm^2"), metal("copper"))
        printed(copper.mass_per_metre.value, "0.849")
        printed(copper.resistance_per_metre.value, "180.5")


@pytest.mark.parametrize(("factor", "error"), [(1.02, "4.0"), (1.05, "10.3")])
def test_lay_factor(factor: float, error: str) -> None:
    # 10.25 at 1.05, printed 10.3; binary arithmetic lands a hair below.
    np.testing.assert_allclose(
        lay_error_percent(factor), float(error), rtol=0, atol=0.0500001
    )


def test_large_lay_factor() -> None:
    printed(lay_error_percent(1.10), "21")


class TestBoundaryShare:
    distance = Quantity(8.444, "um", 0.18)

    def test_per_boundary(self) -> None:
        share = boundary_share(self.distance)
        printed(share.lower_percent, "0.09")
        printed(share.upper_percent, "0.27")
        printed(share.lower_resistance_ratio_cap, "326")
        printed(share.upper_resistance_ratio_cap, "977")

    def test_per_area(self) -> None:
        share = boundary_share(self.distance, reading="per_area")
        printed(share.lower_percent, "0.27")
        printed(share.upper_percent, "0.55")

    def test_sentence(self) -> None:
        measured = conductivity_by_mass(strand()).percent_iacs
        said = what_this_can_decide(
            boundary_share(self.distance),
            expanded_uncertainty_percent=100
            * expanded_uncertainty(measured)
            / measured.value,
        )
        assert said.sentence == (
            "cannot tell crystals: expected 0.1-0.3 %, your uncertainty 0.4 %"
        )
        assert not said.resolves_effect


@pytest.mark.parametrize("option", ["fixed", "scaled"])
def test_monte_carlo_agrees_with_the_first_order(option: CoefficientRule) -> None:
    result = conductivity_by_mass(
        strand(),
        rules=EvaluationRules(coefficient=option),
        generator=np.random.default_rng(2031),
        draws=1_500_000,
    )
    assert result.second_opinion is not None
    assert result.second_opinion.draws_sufficient
    assert result.second_opinion.agrees
    assert result.flags == ()


def test_monte_carlo_differs_for_the_pocket_scale() -> None:
    # 4.5 % of mass under a reciprocal: the interval leans upwards.
    result = conductivity_by_mass(
        strand(weighed=mass(u=1.0)),
        generator=np.random.default_rng(2031),
        draws=200_000,
    )
    opinion = result.second_opinion
    assert opinion is not None
    assert not opinion.agrees
    assert opinion.monte_carlo.lower is not None
    assert opinion.monte_carlo.upper is not None
    value = result.percent_iacs.value
    # 1/(1 +- 1.96 x 0.0449) of the value, beside which the rest is nothing.
    np.testing.assert_allclose(
        [opinion.monte_carlo.lower / value, opinion.monte_carlo.upper / value],
        [1 / (1 + 1.96 * 0.0449), 1 / (1 - 1.96 * 0.0449)],
        rtol=2e-3,
    )
    names = [flag.name for flag in result.flags]
    assert names == ["edge_of_copper_band", "mass_dominates", "second_opinion_differs"]
