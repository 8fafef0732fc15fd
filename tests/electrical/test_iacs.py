from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from strandproof.electrical import (
    conductivity_ms_per_m,
    mass_resistivity_ohm_g_per_m2,
    percent_iacs_of_mass_resistivity,
    percent_iacs_of_volume_resistivity,
    volume_resistivity_ohm_m,
)
from strandproof.errors import ParameterError

FUNCTIONS = [
    conductivity_ms_per_m,
    mass_resistivity_ohm_g_per_m2,
    percent_iacs_of_mass_resistivity,
    percent_iacs_of_volume_resistivity,
    volume_resistivity_ohm_m,
]


@settings(max_examples=40, deadline=None)
@given(percent=st.floats(min_value=0.1, max_value=200))
def test_there_and_back(percent: float) -> None:
    for there, back in (
        (mass_resistivity_ohm_g_per_m2, percent_iacs_of_mass_resistivity),
        (volume_resistivity_ohm_m, percent_iacs_of_volume_resistivity),
    ):
        np.testing.assert_allclose(back(there(percent)), percent, rtol=1e-12)
    np.testing.assert_allclose(
        conductivity_ms_per_m(percent) * 1e6 * volume_resistivity_ohm_m(percent),
        1.0,
        rtol=1e-12,
    )


@pytest.mark.parametrize("function", FUNCTIONS)
@pytest.mark.parametrize("value", [0.0, -1.0, float("nan"), float("inf")])
def test_only_positive_numbers(
    function: Callable[[float], float], value: float
) -> None:
    with pytest.raises(ParameterError, match="a finite number above 0"):
        function(value)
