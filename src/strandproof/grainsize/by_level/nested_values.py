"""Readings that lie in units within units: fields in sections in strands in cables."""

from collections.abc import Mapping
from dataclasses import dataclass
from math import fsum, isfinite

from strandproof.errors import ParameterError

Place = tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class NestedValues:
    """One value for each field, and the units that the field lies in.

    Parameters
    ----------
    levels : tuple of str
        Names of the levels in the singular, outermost first, for example
        ``("cable", "strand", "section", "field")``; the last is that of the
        values themselves.
    places : tuple of tuple of str
        For each value the name of its unit at every level; a name means
        something within the units before it only.
    values : tuple of float
        The values, in one unit.

    Raises
    ------
    ParameterError
        If there is no value, a value is not finite, a place does not name a unit
        at every level, or two values have the same place.
    """

    levels: tuple[str, ...]
    places: tuple[Place, ...]
    values: tuple[float, ...]

    def __post_init__(self) -> None:
        if not self.values or len(self.values) != len(self.places):
            raise ParameterError(
                "values",
                f"{len(self.values)} values for {len(self.places)} places",
                allowed="one value or more, each with its place",
            )
        if not all(isfinite(value) for value in self.values):
            raise ParameterError("values", self.values, allowed="finite numbers")
        if not self.levels or {len(place) for place in self.places} != {
            len(self.levels)
        }:
            raise ParameterError(
                "places",
                self.places[0],
                allowed="a unit at every level: " + ", ".join(self.levels),
            )
        if len(set(self.places)) < len(self.places):
            raise ParameterError(
                "places",
                "the same place twice",
                allowed="one value for each place",
                remedy="Give repeated readings of one field as one mean.",
            )

    def units(self, depth: int) -> tuple[Place, ...]:
        """Give the units of one level in their first order.

        Parameters
        ----------
        depth : int
            0 for everything together, 1 for the outermost level, and so on.

        Returns
        -------
        tuple of tuple of str
            Each unit once, named from the outermost level inwards.
        """
        return tuple(dict.fromkeys(place[:depth] for place in self.places))


def unit_means(values: NestedValues, depth: int) -> Mapping[Place, float]:
    """Mean of every unit of one level, its parts weighing the same.

    Parameters
    ----------
    values : NestedValues
        The values.
    depth : int
        0 for the grand mean, 1 for the units of the outermost level, and so on.

    Returns
    -------
    mapping of tuple of str to float
        Fields are averaged to sections, sections to strands, and so on upwards,
        whatever the number of fields.
    """
    means: dict[Place, float] = dict(zip(values.places, values.values, strict=True))
    for level in range(len(values.levels) - 1, depth - 1, -1):
        parts: dict[Place, list[float]] = {}
        for place, mean in means.items():
            parts.setdefault(place[:level], []).append(mean)
        means = {place: fsum(each) / len(each) for place, each in parts.items()}
    return means


def unit_weights(values: NestedValues, depth: int) -> Mapping[Place, float]:
    """Weight of every unit of one level in the grand mean of `unit_means`.

    Parameters
    ----------
    values : NestedValues
        The values.
    depth : int
        0 for everything, 1 for the units of the outermost level, and so on.

    Returns
    -------
    mapping of tuple of str to float
        Shares that sum to 1.
    """
    weights: dict[Place, float] = {(): 1.0}
    for level in range(1, depth + 1):
        units = values.units(level)
        parts: dict[Place, int] = {}
        for unit in units:
            parts[unit[:-1]] = parts.get(unit[:-1], 0) + 1
        weights = {unit: weights[unit[:-1]] / parts[unit[:-1]] for unit in units}
    return weights
