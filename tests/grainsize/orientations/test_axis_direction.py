import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from strandproof.errors import ParameterError
from strandproof.grainsize.orientations import (
    axis_departures_deg,
    axis_match_chance,
    cubic_rotations,
    disorientations_deg,
)
from strandproof.grainsize.orientations.rotations import (
    about_axis,
    product,
    random_rotations,
)
from strandproof.records.orientation_results import FibreTexture

X = np.array([1.0, 0.0, 0.0])
SEEDS = st.integers(0, 2**32 - 1)


@given(SEEDS, st.floats(0.0, 6.28), st.integers(0, 23))
def test_twist_end_for_end_and_symmetry_are_of_no_account(
    seed: int, twist: float, number: int
) -> None:
    crystal = random_rotations(1, np.random.default_rng(seed))[0]
    over = about_axis(np.array([0.0, 0.0, 1.0]), np.array(np.pi))
    mounted = product(over, product(about_axis(X, np.array(twist)), crystal))
    again = product(mounted, cubic_rotations()[number])
    assert axis_departures_deg(crystal, again, X) == pytest.approx(0.0, abs=1e-5)


@given(SEEDS)
def test_never_above_the_disorientation(seed: int) -> None:
    first, second = random_rotations(2, np.random.default_rng(seed))
    along = axis_departures_deg(first, second, X)
    assert along <= disorientations_deg(first, second) + 1e-6


def test_one_sharp_fibre_matches_always() -> None:
    found = axis_match_chance(
        FibreTexture(share_111=1.0, share_100=0.0),
        2.0,
        generator=np.random.default_rng(1),
        draws=1000,
    )
    assert found.chance == 1.0
    assert found.upper == 1.0


def test_draws_are_bounded() -> None:
    with pytest.raises(ParameterError, match="draws"):
        axis_match_chance(None, 2.0, generator=np.random.default_rng(1), draws=1)
