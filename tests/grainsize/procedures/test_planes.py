import pytest
from hypothesis import given
from hypothesis import strategies as st

from strandproof.errors import ParameterError
from strandproof.grainsize.procedures.planes import (
    anisotropy_index,
    three_plane_grains_per_mm2,
    three_planes,
)

RATES = st.floats(0.5, 500.0)


@given(rates=st.permutations([12.0, 30.0, 20.0]))
def test_the_order_of_planes_does_not_matter_to_the_mean(rates: list[float]) -> None:
    assert three_planes(*rates).per_mm == pytest.approx(
        7200.0 ** (1 / 3), rel=1e-12, abs=0
    )


@given(rate=RATES)
def test_three_equal_planes_are_one(rate: float) -> None:
    found = three_planes(rate, rate, rate)
    assert found.mean_intercept_um == pytest.approx(1000.0 / rate, rel=1e-9, abs=0)
    assert found.anisotropy_index is None
    assert "not measured" in found.sentence


def test_the_anisotropy_index_is_kept_and_said() -> None:
    index = anisotropy_index(50.0, 20.0)
    found = three_planes(12.0, 30.0, 20.0, along_over_across=index)
    assert found.anisotropy_index == 2.5
    assert found.sentence.endswith("Anisotropy index 2.50.")


@pytest.mark.parametrize("at", [0, 1, 2])
def test_a_plane_without_boundaries_is_refused(at: int) -> None:
    rates = [12.0, 30.0, 20.0]
    rates[at] = 0.0
    with pytest.raises(ParameterError, match="per_mm was given as 0.0"):
        three_planes(*rates)
    with pytest.raises(ParameterError, match="a finite number above 0"):
        three_plane_grains_per_mm2(*rates)


def test_lengths_of_nothing_have_no_ratio() -> None:
    with pytest.raises(ParameterError, match="two lengths above 0"):
        anisotropy_index(0.0, 20.0)
