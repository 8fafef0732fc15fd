"""Chances of orientation matches against remembered and recomputed figures.

- 8.5e-4 within 5 deg and 6.8e-3 within 10 deg for random cubic pairs, and 10/90 to
  10/120 for a twist within 5 deg about a <100> or <111> axis: the project's fact base,
  computed there from 24 (a - sin a) / pi.
- share of random pairs below 15 deg 2.3 %, mean disorientation 40.74 deg, largest
  62.80 deg, most frequent 45 deg, share of random pairs within Brandon's limit of a
  twin 1.76 %, Brandon's limit 8.66 deg: textbooks, from memory, none read.
- simulation: uniform orientations drawn by scipy, multiplied out over the 24 rotations.
Tolerance: half a unit of the last digit, or four standard deviations of a simulation.
"""

import numpy as np
import pytest
from scipy import integrate
from scipy.spatial.transform import Rotation

from strandproof.grainsize.orientations import (
    LARGEST_DISORIENTATION_DEG,
    axis_match_chance,
    brandon_limit_deg,
    fibre_match_chance,
    random_disorientation_density,
    random_match_chance,
    random_share_below,
    sharp_fibre_match_chance,
    twin_departures_deg,
)
from strandproof.records.orientation_results import FibreTexture

DRAWS = 100_000
CORNERS = [45.0, 60.0, 60.7224]


@pytest.fixture(scope="module")
def simulated() -> np.ndarray:
    """Disorientations of random pairs, by all 24 products."""
    relative = Rotation.random(DRAWS, random_state=np.random.default_rng(11))
    smallest = np.full(DRAWS, np.inf)
    for rotation in Rotation.create_group("O"):
        np.minimum(smallest, (relative * rotation).magnitude(), out=smallest)
    return np.asarray(np.rad2deg(smallest))


@pytest.mark.parametrize(
    ("angle", "share", "half_digit"),
    [(5.0, 8.5e-4, 0.5e-5), (10.0, 6.8e-3, 0.5e-4), (15.0, 0.023, 0.5e-3)],
)
def test_share_of_random_pairs_below(
    angle: float, share: float, half_digit: float
) -> None:
    assert random_share_below(angle) == pytest.approx(share, rel=0, abs=half_digit)
    found = random_match_chance(angle).chance
    assert found == pytest.approx(share, rel=0, abs=half_digit)


@pytest.mark.parametrize("angle", [5.0, 15.0, 30.0, 45.0, 52.0, 60.0, 60.5, 61.5])
def test_share_below_agrees_with_simulation(
    angle: float, simulated: np.ndarray
) -> None:
    share = random_share_below(angle)
    scatter = np.sqrt(share * (1.0 - share) / DRAWS)
    assert (simulated <= angle).mean() == pytest.approx(share, rel=0, abs=4 * scatter)


def test_density_integrates_to_one_with_the_remembered_mean() -> None:
    whole, _ = integrate.quad(random_disorientation_density, 0.0, 63.0, points=CORNERS)
    mean, _ = integrate.quad(
        lambda angle: angle * random_disorientation_density(angle),
        *(0.0, 63.0),
        points=CORNERS,
    )
    assert whole == pytest.approx(1.0, rel=0, abs=1e-8)
    assert mean == pytest.approx(40.74, rel=0, abs=0.005)


def test_density_is_largest_at_45_and_ends_at_62_80() -> None:
    assert pytest.approx(62.80, rel=0, abs=0.005) == LARGEST_DISORIENTATION_DEG
    at_45 = random_disorientation_density(45.0)
    assert at_45 > random_disorientation_density(44.9)
    assert at_45 > random_disorientation_density(45.1)
    assert random_disorientation_density(62.81) == 0.0
    assert random_disorientation_density(62.79) > 0.0


@pytest.mark.parametrize("corner", CORNERS)
def test_pieces_of_the_density_join(corner: float) -> None:
    below = random_disorientation_density(corner - 1e-6)
    above = random_disorientation_density(corner + 1e-6)
    assert below == pytest.approx(above, rel=0, abs=1e-6)


def test_share_of_random_pairs_that_are_twin_related() -> None:
    drawn = Rotation.random(DRAWS, random_state=np.random.default_rng(12)).as_quat()
    share = (twin_departures_deg(drawn[:, [3, 0, 1, 2]]) <= 8.66).mean()
    scatter = np.sqrt(0.0176 / DRAWS)
    assert share == pytest.approx(0.0176, rel=0, abs=4 * scatter + 0.5e-4)


def test_brandon_limit() -> None:
    assert brandon_limit_deg(3) == pytest.approx(8.66, rel=0, abs=0.005)
    assert brandon_limit_deg(9) == pytest.approx(5.0, rel=0, abs=1e-12)


@pytest.mark.parametrize(
    ("share_111", "chance"), [(1.0, 10 / 120), (0.0, 10 / 90), (0.7, 0.0508)]
)
def test_twist_of_a_sharp_fibre(share_111: float, chance: float) -> None:
    texture = FibreTexture(share_111=share_111, share_100=1.0 - share_111)
    closed = sharp_fibre_match_chance(texture, 5.0).chance
    assert closed == pytest.approx(chance, rel=0, abs=0.5e-4)
    drawn = fibre_match_chance(
        texture, 5.0, generator=np.random.default_rng(13), draws=DRAWS
    )
    scatter = np.sqrt(closed / DRAWS)
    assert drawn.chance == pytest.approx(closed, rel=0, abs=4 * scatter)


@pytest.mark.parametrize("places", [2, 3])
def test_mixture_with_a_random_part_agrees_with_simulation(places: int) -> None:
    texture = FibreTexture(share_111=0.5, share_100=0.2)
    closed = sharp_fibre_match_chance(texture, 10.0, places=places).chance
    drawn = fibre_match_chance(
        texture, 10.0, generator=np.random.default_rng(14), places=places, draws=DRAWS
    )
    scatter = np.sqrt(closed / DRAWS)
    assert drawn.chance == pytest.approx(closed, rel=0, abs=4 * scatter)


def test_direction_along_the_strand_by_chance() -> None:
    """Ball caps of 48 images would cover 24 (1 - cos a); overlaps make it less."""
    chance = axis_match_chance(None, 2.0, generator=np.random.default_rng(15))
    bound = 24.0 * (1.0 - np.cos(np.radians(2.0)))
    assert chance.upper is not None
    assert 0.9 * bound < chance.chance
    assert chance.chance < bound
