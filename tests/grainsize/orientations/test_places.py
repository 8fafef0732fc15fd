import numpy as np
import pytest
from orientation_examples import map_of_blocks

from strandproof.errors import ParameterError
from strandproof.grainsize.orientations import (
    MapPlace,
    PlaceComparison,
    match_listed_places,
    match_places_in_map,
)
from strandproof.grainsize.orientations.rotations import (
    about_axis,
    product,
    random_rotations,
)
from strandproof.grainsize.orientations.synthetic import bunge_angles
from strandproof.grainsize.orientations.twin_relation import twin_rotations
from strandproof.records.orientation import PlaceTable
from strandproof.records.orientation_results import PlaceMatch

WITHIN_5 = PlaceComparison(tolerance_deg=5.0)


def two_ends(comparison: PlaceComparison, angles: np.ndarray) -> PlaceMatch:
    places = [
        MapPlace(name="P1", x_um=5.0, y_um=5.0, radius_um=3.0),
        MapPlace(name="P2", x_um=35.0, y_um=5.0, radius_um=3.0),
    ]
    return match_places_in_map(
        map_of_blocks(angles), places, comparison, generator=np.random.default_rng(1)
    )


def listed(*orientations: np.ndarray) -> PlaceTable:
    count = len(orientations)
    return PlaceTable(
        name="places.csv",
        places=tuple(f"L{number}" for number in range(1, count + 1)),
        x_um=np.linspace(0.0, 1000.0 * (count - 1), count),
        angles_rad=bunge_angles(np.array(orientations)),
        meaning="passive",
    )


@pytest.mark.parametrize(("far_end", "matches"), [(4.0, True), (6.0, False)])
def test_two_places_of_a_map(far_end: float, matches: bool) -> None:  # noqa: FBT001
    angles = np.zeros((11, 41))
    angles[:, 20:] = far_end
    match = two_ends(WITHIN_5, angles)
    assert match.matches is matches
    assert match.distance_um == pytest.approx(30.0)
    first, second = match.places
    assert first.points == second.points == 29
    assert second.from_first_deg == pytest.approx(far_end, rel=0, abs=1e-6)
    assert second.scatter_deg == pytest.approx(0.0, rel=0, abs=1e-5)


def test_a_misindexed_point_does_not_pull_a_place() -> None:
    angles = np.zeros((11, 41))
    angles[5, 5] = 40.0
    angles[4, 6] = np.nan
    first = two_ends(WITHIN_5, angles).places[0]
    assert (first.agreeing, first.points) == (27, 28)
    assert first.is_one_orientation
    assert first.scatter_deg == pytest.approx(0.0, rel=0, abs=1e-5)


def test_a_place_on_a_boundary_matches_nothing() -> None:
    angles = np.zeros((11, 41))
    angles[:, 5:8] = 30.0
    match = two_ends(WITHIN_5, angles)
    assert not match.places[0].is_one_orientation
    assert not match.matches


def test_a_place_without_orientation_says_where_the_map_is() -> None:
    places = [
        MapPlace(name="P1", x_um=5.0, y_um=5.0, radius_um=3.0),
        MapPlace(name="P2", x_um=90.0, y_um=5.0, radius_um=3.0),
    ]
    with pytest.raises(ParameterError, match="place P2 .* from x 0 to 40"):
        match_places_in_map(
            map_of_blocks(np.zeros((11, 41))),
            places,
            WITHIN_5,
            generator=np.random.default_rng(1),
        )


def test_a_radius_of_nothing_is_refused() -> None:
    place = MapPlace(name="P1", x_um=0.0, y_um=0.0, radius_um=0.0)
    with pytest.raises(ParameterError, match="radius_um"):
        match_places_in_map(
            map_of_blocks(np.zeros((3, 3))),
            [place, place],
            WITHIN_5,
            generator=np.random.default_rng(1),
        )


def test_five_listed_places_of_one_crystal() -> None:
    """The case of the rod: one orientation within 2 deg at five points."""
    chance = np.random.default_rng(2)
    crystal = random_rotations(1, chance)[0]
    axis = np.array([0.0, 0.0, 1.0])
    turned = [
        product(about_axis(axis, np.array(np.radians(degrees))), crystal)
        for degrees in (0.0, 0.5, 1.0, 1.5, 1.9)
    ]
    match = match_listed_places(
        listed(*turned), PlaceComparison(tolerance_deg=2.0), generator=chance
    )
    assert match.matches
    assert match.distance_um == pytest.approx(4000.0)
    found = [place.from_first_deg for place in match.places]
    np.testing.assert_allclose(found, [0.0, 0.5, 1.0, 1.5, 1.9], rtol=0, atol=1e-4)
    assert match.chances[0].chance < 1e-15
    assert match.chances[1].chance == pytest.approx((2.0 / 60.0) ** 4)


def test_a_twin_is_told_as_such() -> None:
    crystal = random_rotations(1, np.random.default_rng(3))[0]
    twin = product(crystal, twin_rotations()[1])
    match = match_listed_places(
        listed(crystal, twin), WITHIN_5, generator=np.random.default_rng(1)
    )
    assert not match.matches
    assert match.places[1].from_first_twin_deg == pytest.approx(0.0, abs=1e-4)


def test_a_strand_mounted_anew_is_compared_along_its_axis() -> None:
    crystal = random_rotations(1, np.random.default_rng(4))[0]
    twisted = product(about_axis(np.array([1.0, 0.0, 0.0]), np.array(0.7)), crystal)
    table = listed(crystal, twisted)
    whole = match_listed_places(table, WITHIN_5, generator=np.random.default_rng(1))
    assert not whole.matches
    along = match_listed_places(
        table,
        PlaceComparison(frame="axis"),
        generator=np.random.default_rng(1),
    )
    assert along.matches
    assert along.chances[0].chance == pytest.approx(0.0766, rel=0, abs=0.003)


def test_one_place_is_not_compared() -> None:
    with pytest.raises(ParameterError, match="2 or more"):
        match_listed_places(
            listed(np.array([1.0, 0.0, 0.0, 0.0])),
            WITHIN_5,
            generator=np.random.default_rng(1),
        )
