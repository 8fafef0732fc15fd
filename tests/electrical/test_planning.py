import numpy as np
import pytest
from electrical_examples import length, mass, temperature

from strandproof.electrical import (
    boundary_share,
    conductivity_by_mass,
    larger_specimen,
    planned_measurement,
    what_this_can_decide,
)
from strandproof.errors import ParameterError, UnitError
from strandproof.quantity import Quantity, expanded_uncertainty, normal_input


def test_the_budget_is_known_before_the_number() -> None:
    planned = planned_measurement(
        mass=mass(),
        gauge_length=length(),
        temperature=temperature(),
        resistance_uncertainty_percent=0.05,
    )
    result = conductivity_by_mass(planned)
    np.testing.assert_allclose(result.percent_iacs.value, 100.0, rtol=1e-12)
    u = expanded_uncertainty(result.percent_iacs)
    said = what_this_can_decide(
        boundary_share(Quantity(8.444, "um", 0.18)), expanded_uncertainty_percent=u
    )
    assert said.sentence == (
        "cannot tell crystals: expected 0.1-0.3 %, your uncertainty 0.4 %"
    )


def test_a_bundle_weighs_better() -> None:
    advice = larger_specimen(mass(u=1.0), length(), strands=19, length_m=1.0)
    np.testing.assert_allclose(
        advice.relative_uncertainty_percent, 100 / 846.64, rtol=1e-6
    )
    one = larger_specimen(mass(u=1.0), length(), strands=1, length_m=2.0)
    assert one.sentence == "weigh the strand over 2 m (89 mg)"


def test_impossible_plans_are_refused() -> None:
    with pytest.raises(ParameterError, match="strands, length_m"):
        larger_specimen(mass(), length(), strands=0, length_m=1.0)
    with pytest.raises(ParameterError, match="strands, length_m"):
        larger_specimen(mass(), length(), strands=1, length_m=0.0)
    with pytest.raises(UnitError, match=r"\(mass\)"):
        larger_specimen(length(), mass(), strands=1, length_m=1.0)
    with pytest.raises(ParameterError, match="zero or above"):
        planned_measurement(
            mass=mass(),
            gauge_length=length(),
            temperature=normal_input("T", 20.0, 0.2, unit="degC"),
            resistance_uncertainty_percent=-1.0,
        )
