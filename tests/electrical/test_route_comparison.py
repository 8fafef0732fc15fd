import numpy as np
import pytest
from electrical_examples import diameter, resistance, strand

from strandproof.electrical import compare_volume_routes
from strandproof.quantity import normal_input


def test_both_routes_stand_side_by_side_and_agree() -> None:
    found = compare_volume_routes(strand(), diameter=diameter())
    assert found.agree
    assert found.flags == ()
    assert found.by_density.route == "density"
    assert found.by_diameter.route == "diameter"
    # 1.7132 against 1.7084, both 1e-8 ohm m (product brief, Appendix A).
    np.testing.assert_allclose(found.difference_percent, 0.283, rtol=0, atol=0.001)


def test_the_diameter_has_the_larger_budget() -> None:
    found = compare_volume_routes(strand(), diameter=diameter())
    assert (
        found.by_diameter.resistivity.standard_uncertainty
        > 2.5 * found.by_density.resistivity.standard_uncertainty
    )


def test_a_squeezed_strand_is_flagged() -> None:
    found = compare_volume_routes(strand(), diameter=diameter(0.078))
    assert not found.agree
    assert [flag.name for flag in found.flags] == ["geometry_routes_disagree"]
    assert "by diameter -4.7 %" in found.flags[0].detail


def test_a_wrong_strand_count_is_flagged() -> None:
    found = compare_volume_routes(strand(), diameter=diameter(), strands=2)
    assert not found.agree
    np.testing.assert_allclose(found.difference_percent, 100.6, rtol=0, atol=0.1)


def test_what_both_routes_share_cancels_in_the_difference() -> None:
    poor = strand(wire=resistance(percent=20.0))
    found = compare_volume_routes(poor, diameter=diameter(0.078))
    # One and a fifth of the value each, yet the difference is seen.
    assert found.by_density.percent_iacs.relative_uncertainty is not None
    assert found.by_density.percent_iacs.relative_uncertainty > 0.19
    assert not found.agree


def test_a_measured_density_replaces_the_standard_one() -> None:
    heavy = normal_input("density", 8930.0, 5.0, unit="kg/m^3")
    found = compare_volume_routes(strand(), diameter=diameter(), density=heavy)
    other = compare_volume_routes(strand(), diameter=diameter())
    np.testing.assert_allclose(
        found.by_density.resistivity.value * 8930.0,
        other.by_density.resistivity.value * 8890.0,
        rtol=1e-12,
    )


@pytest.mark.parametrize("strands", [1, 19])
def test_uncertainty_of_the_difference_by_hand(strands: int) -> None:
    measurement = strand(wire=resistance(1.7296))
    found = compare_volume_routes(measurement, diameter=diameter(), strands=strands)
    first, second = (
        found.by_density.resistivity.value,
        found.by_diameter.resistivity.value,
    )
    common = second - first  # everything proportional to R, T and alpha
    parts = {line.name: line.component for line in found.difference.budget}
    np.testing.assert_allclose(parts["resistance"], abs(common) * 0.0005, rtol=1e-6)
    np.testing.assert_allclose(parts["strand diameter"], second * 0.0125, rtol=1e-9)
    np.testing.assert_allclose(parts["density"], first * 0.004, rtol=1e-9)
