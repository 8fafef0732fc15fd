import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from strandproof.errors import ParameterError
from strandproof.grainsize.orientations import (
    fibre_match_chance,
    random_match_chance,
    sharp_fibre_match_chance,
)
from strandproof.records.orientation_results import FibreTexture


@given(st.floats(0.1, 20.0), st.integers(2, 6), st.floats(0.0, 1.0))
def test_chances_are_chances_and_fall_with_places(
    tolerance: float, places: int, share: float
) -> None:
    texture = FibreTexture(share_111=share, share_100=1.0 - share)
    few = sharp_fibre_match_chance(texture, tolerance, places=places).chance
    more = sharp_fibre_match_chance(texture, tolerance, places=places + 1).chance
    assert 0.0 <= more <= few <= 1.0
    random = random_match_chance(tolerance, places=places).chance
    assert random <= few


def test_tilt_makes_a_match_less_likely() -> None:
    chances = [
        fibre_match_chance(
            FibreTexture(share_111=1.0, share_100=0.0, tilt_deg=tilt),
            5.0,
            generator=np.random.default_rng(3),
            draws=50_000,
        ).chance
        for tilt in (0.0, 3.0, 8.0)
    ]
    assert chances[0] > 2.0 * chances[1] > 4.0 * chances[2]


def test_the_same_seed_gives_the_same_chance_with_limits_around_it() -> None:
    texture = FibreTexture(share_111=0.6, share_100=0.2, tilt_deg=5.0)
    found = [
        fibre_match_chance(
            texture, 10.0, generator=np.random.default_rng(4), draws=5000
        )
        for _ in range(2)
    ]
    assert found[0] == found[1]
    assert found[0].lower is not None
    assert found[0].upper is not None
    assert found[0].lower < found[0].chance < found[0].upper


@pytest.mark.parametrize(
    ("tolerance", "places", "named"),
    [(0.0, 2, "tolerance_deg"), (21.0, 2, "tolerance_deg"), (5.0, 1, "places")],
)
def test_comparisons_that_are_none(tolerance: float, places: int, named: str) -> None:
    with pytest.raises(ParameterError, match=named):
        random_match_chance(tolerance, places=places)


@pytest.mark.parametrize("draws", [10, 6_000_000])
def test_draws_are_bounded(draws: int) -> None:
    with pytest.raises(ParameterError, match="draws"):
        fibre_match_chance(
            FibreTexture(share_111=1.0, share_100=0.0),
            5.0,
            generator=np.random.default_rng(1),
            draws=draws,
        )
