from dataclasses import replace

import numpy as np
import pytest
from electrical_examples import strand

from strandproof.electrical import (
    conductivity_by_diameter,
    conductivity_by_mass,
    lay_flags,
)
from strandproof.errors import MissingMeasurementError, ParameterError
from strandproof.quantity import normal_input
from strandproof.records.electrical import ConductorForm

LAY = normal_input("lay factor", 1.02, 0.002, unit="1")


@pytest.mark.parametrize("form", ["stranded", "twisted"])
def test_a_core_without_its_lay_is_refused(form: ConductorForm) -> None:
    forgotten = replace(strand(), form=form)
    with pytest.raises(MissingMeasurementError, match="2 % of lay makes the resist"):
        conductivity_by_mass(forgotten)


def test_two_percent_of_lay_are_four_percent_by_mass_and_two_by_diameter() -> None:
    """Product brief, Appendix A, lay factor: 1.02 gives 4.0 %."""
    diameter = normal_input("diameter", 0.08, 0.0005, unit="mm")
    core = replace(strand(), form="twisted", lay_factor=LAY)
    by_mass = conductivity_by_mass(strand()), conductivity_by_mass(core)
    ratio = by_mass[0].resistivity.value / by_mass[1].resistivity.value
    np.testing.assert_allclose(ratio, 1.02**2, rtol=1e-12)
    by_diameter = (
        conductivity_by_diameter(one, diameter=diameter) for one in (strand(), core)
    )
    first, second = (one.resistivity.value for one in by_diameter)
    np.testing.assert_allclose(first / second, 1.02, rtol=1e-12)
    lines = {line.name: line for line in by_mass[1].percent_iacs.budget}
    relative = lines["lay factor"].component / by_mass[1].percent_iacs.value
    np.testing.assert_allclose(relative, 2 * 0.002 / 1.02, rtol=1e-9)


def test_a_lay_below_one_or_of_straight_strands_is_refused() -> None:
    short = normal_input("lay factor", 0.98, 0.002, unit="1")
    with pytest.raises(ParameterError, match="1 or more"):
        conductivity_by_mass(replace(strand(), lay_factor=short))
    with pytest.raises(ParameterError, match="none for strands that were straight"):
        conductivity_by_mass(replace(strand(), form="straight", lay_factor=LAY))


def test_several_strands_of_unknown_form_are_flagged() -> None:
    assert [flag.name for flag in lay_flags(None, None, strands=19)] == [
        "lay_not_stated"
    ]
    assert lay_flags("straight", None, strands=19) == ()
    assert lay_flags(None, LAY, strands=19) == ()
    assert lay_flags(None, None, strands=1) == ()
