"""Orientations at places far apart on one strand, compared with the first."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from strandproof.errors import ParameterError
from strandproof.grainsize.orientations.axis_direction import axis_departures_deg
from strandproof.grainsize.orientations.comparison import (
    PlaceComparison,
    place_chances,
)
from strandproof.grainsize.orientations.cubic import (
    disorientations_deg,
    is_finite_orientation,
    mean_orientation,
)
from strandproof.grainsize.orientations.rotations import (
    Floats,
    quaternions_of_bunge_angles,
    relative_rotations,
)
from strandproof.grainsize.orientations.twin_relation import twin_departures_deg
from strandproof.records.orientation import OrientationTable, PlaceTable
from strandproof.records.orientation_results import PlaceMatch, PlaceOrientation

_AXES = {"x": np.array([1.0, 0.0, 0.0]), "y": np.array([0.0, 1.0, 0.0])}
_COMPARED = 400  # points that may be the centre of a place; more change little


@dataclass(frozen=True, slots=True, kw_only=True)
class MapPlace:
    """A round place of a map.

    Parameters
    ----------
    name : str
        Name, for sentences.
    x_um, y_um : float
        Centre [um].
    radius_um : float
        Radius [um]; above 0.
    """

    name: str
    x_um: float
    y_um: float
    radius_um: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Found:
    """The common orientation of the points at one place."""

    name: str
    x_um: float
    y_um: float | None
    mean: Floats
    points: int
    agreeing: int
    scatter_deg: float | None


def match_places_in_map(
    table: OrientationTable,
    places: Sequence[MapPlace],
    comparison: PlaceComparison,
    *,
    generator: np.random.Generator,
) -> PlaceMatch:
    """Compare the orientations at places of one map.

    Parameters
    ----------
    table : OrientationTable
        The map.
    places : sequence of MapPlace
        Two or more, the first being the one to compare with.
    comparison : PlaceComparison
        How.
    generator : numpy.random.Generator
        Source of chance, for simulated chances.

    Returns
    -------
    PlaceMatch
        The places, whether they match, and how often separate grains would.

    Raises
    ------
    ParameterError
        If fewer than two places are given, a radius is not above 0, or a place
        holds no indexed point.
    """
    _require_two(len(places))
    orientations = quaternions_of_bunge_angles(table.angles_rad, meaning=table.meaning)
    found = [
        _at(table, orientations, place, comparison.tolerance_deg) for place in places
    ]
    return _match(found, comparison, generator)


def match_listed_places(
    table: PlaceTable,
    comparison: PlaceComparison,
    *,
    generator: np.random.Generator,
) -> PlaceMatch:
    """Compare listed orientations, one for each place.

    Parameters
    ----------
    table : PlaceTable
        Two places or more, the first being the one to compare with.
    comparison : PlaceComparison
        How.
    generator : numpy.random.Generator
        Source of chance, for simulated chances.

    Returns
    -------
    PlaceMatch
        The places, whether they match, and how often separate grains would.

    Raises
    ------
    ParameterError
        If there are fewer than two places.
    """
    _require_two(len(table.places))
    orientations = quaternions_of_bunge_angles(table.angles_rad, meaning=table.meaning)
    found = [
        _Found(
            name=name,
            x_um=float(x_um),
            y_um=None,
            mean=mean,
            points=1,
            agreeing=1,
            scatter_deg=None,
        )
        for name, x_um, mean in zip(table.places, table.x_um, orientations, strict=True)
    ]
    return _match(found, comparison, generator)


def _at(
    table: OrientationTable,
    orientations: Floats,
    place: MapPlace,
    tolerance_deg: float,
) -> _Found:
    if not place.radius_um > 0:
        raise ParameterError("radius_um", place.radius_um, allowed="above 0 [um]")
    distance = np.hypot(table.x_um - place.x_um, table.y_um - place.y_um)
    near = (distance <= place.radius_um) & is_finite_orientation(orientations)
    if not near.any():
        parameter = f"place {place.name}"
        raise ParameterError(
            parameter,
            f"x {place.x_um:g}, y {place.y_um:g}, radius {place.radius_um:g} um",
            allowed="a place with at least one indexed point",
            remedy=f"The map reaches from x {table.x_um.min():g} to "
            f"{table.x_um.max():g} and from y {table.y_um.min():g} to "
            f"{table.y_um.max():g} um.",
        )
    mean, agreeing, scatter = _common(orientations[near], tolerance_deg)
    return _Found(
        name=place.name,
        x_um=place.x_um,
        y_um=place.y_um,
        mean=mean,
        points=int(near.sum()),
        agreeing=agreeing,
        scatter_deg=scatter,
    )


def _common(
    orientations: Floats, tolerance_deg: float
) -> tuple[Floats, int, float | None]:
    # Starts from the point with the most others near it, so that misindexed
    # points do not pull the mean.
    step = max(1, len(orientations) // _COMPARED)
    some = orientations[::step]
    between = disorientations_deg(some[:, np.newaxis], some[np.newaxis])
    centre = some[int((between <= tolerance_deg).sum(axis=1).argmax())]
    near = disorientations_deg(centre, orientations) <= tolerance_deg
    mean = mean_orientation(orientations[near], start=centre)
    angles = disorientations_deg(mean, orientations)
    agreeing = angles <= tolerance_deg
    scatter = None
    if len(orientations) > 1:
        scatter = float(np.sqrt(np.mean(angles[agreeing] ** 2)))
    return mean, int(agreeing.sum()), scatter


def _match(
    found: Sequence[_Found],
    comparison: PlaceComparison,
    generator: np.random.Generator,
) -> PlaceMatch:
    means = np.array([one.mean for one in found])
    angles = disorientations_deg(means[0], means)
    twins = twin_departures_deg(relative_rotations(means[0], means))
    along = axis_departures_deg(means[0], means, _AXES[comparison.axis])
    places = tuple(
        PlaceOrientation(
            name=one.name,
            x_um=one.x_um,
            y_um=one.y_um,
            points=one.points,
            agreeing=one.agreeing,
            scatter_deg=one.scatter_deg,
            from_first_deg=float(angles[number]),
            from_first_twin_deg=float(twins[number]),
            from_first_axis_deg=float(along[number]),
        )
        for number, one in enumerate(found)
    )
    compared = angles if comparison.frame == "shared" else along
    whole = all(place.is_one_orientation for place in places)
    return PlaceMatch(
        places=places,
        frame=comparison.frame,
        tolerance_deg=comparison.tolerance_deg,
        distance_um=_farthest_um(found),
        matches=whole and bool((compared <= comparison.tolerance_deg).all()),
        chances=place_chances(comparison, places=len(found), generator=generator),
    )


def _farthest_um(found: Sequence[_Found]) -> float:
    x = np.array([one.x_um for one in found])
    y = np.array([one.y_um or 0.0 for one in found])
    return float(np.hypot(x[:, np.newaxis] - x, y[:, np.newaxis] - y).max())


def _require_two(count: int) -> None:
    if count < 2:
        raise ParameterError("places", count, allowed="2 or more")
