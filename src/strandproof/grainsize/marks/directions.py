"""Directions of marks: a rose, and whether more share one than chance explains."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import radians, sin

import numpy as np
import numpy.typing as npt
from scipy import stats

from strandproof.errors import ParameterError
from strandproof.grainsize.marks.marked import LineMark
from strandproof.records.entries.laboratory import MarkFeature

HALF_TURN_DEG = 180.0
"""A line pointing one way also points the other, so directions repeat here [deg]."""

DOUBTED: tuple[MarkFeature, ...] = ("boundary", "uncertain")
"""Classes whose directions are looked at: those that would count, or might.

The two sides of a twin are parallel by nature, and scratches and slip traces are
already named as such.
"""

WITHIN_DEG = 3.0
"""Width of the range in which directions count as shared [deg]; judgement."""

CALLED_FROM = 0.01
"""Chance at and below which a shared direction is pointed out; judgement."""

_ROUNDING_DEG = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class DirectionCluster:
    """Marks that share a direction.

    Parameters
    ----------
    marks : tuple of int
        Which of the directions given, counted from 0, in the order given.
    from_deg, to_deg : float
        Least and greatest direction among them [deg]; `to_deg` may pass 180 where
        the range runs through the horizontal.
    of_marks : int
        Marks among which they were found.
    chance_at_most : float
        Upper bound of the chance of such a cluster, or a greater one, anywhere.
    """

    marks: tuple[int, ...]
    from_deg: float
    to_deg: float
    of_marks: int
    chance_at_most: float

    @property
    def middle_deg(self) -> float:
        """Middle of the range [deg], 0 or above and below 180."""
        return 0.5 * (self.from_deg + self.to_deg) % HALF_TURN_DEG


@dataclass(frozen=True, slots=True, kw_only=True)
class DirectionRose:
    """How many marks point in which direction.

    Parameters
    ----------
    edges_deg : tuple of float
        Borders of the petals [deg], one more than petals, from 0 to 180.
    counts : tuple of int
        Marks in each petal, its lower border included.
    """

    edges_deg: tuple[float, ...]
    counts: tuple[int, ...]


def doubted_directions(
    marks: Sequence[LineMark],
) -> tuple[tuple[int, ...], tuple[float, ...]]:
    """Pick the directions that a hint looks at.

    Parameters
    ----------
    marks : sequence of LineMark
        A reading's marks.

    Returns
    -------
    places : tuple of int
        Places of the marks used in the sequence, counted from 0.
    directions_deg : tuple of float
        Their directions [deg]; marks without one are left out.
    """
    used = [
        (place, mark.direction_deg)
        for place, mark in enumerate(marks)
        if mark.feature in DOUBTED and mark.direction_deg is not None
    ]
    return tuple(place for place, _ in used), tuple(angle for _, angle in used)


def direction_rose(
    directions_deg: Iterable[float], *, petal_deg: float = 15.0
) -> DirectionRose:
    """Count directions by petals of equal width.

    Parameters
    ----------
    directions_deg : iterable of float
        Directions [deg]; those that differ by 180 are the same.
    petal_deg : float
        Width of a petal [deg]; 180 is a whole number of them.

    Returns
    -------
    DirectionRose
        Borders and counts.

    Raises
    ------
    ParameterError
        If the petals do not fill a half turn.

    Examples
    --------
    >>> direction_rose([0.0, 95.0, 275.0], petal_deg=90.0).counts
    (1, 2)
    """
    petals = round(HALF_TURN_DEG / petal_deg) if petal_deg > 0 else 0
    if petals < 1 or abs(petals * petal_deg - HALF_TURN_DEG) > 1e-9:
        raise ParameterError(
            "petal_deg", petal_deg, allowed="a width that divides 180 deg evenly"
        )
    edges = np.linspace(0.0, HALF_TURN_DEG, petals + 1)
    places = np.searchsorted(edges, _folded(directions_deg), side="right") - 1
    counts = np.bincount(np.clip(places, 0, petals - 1), minlength=petals)
    return DirectionRose(edges_deg=tuple(edges.tolist()), counts=tuple(counts.tolist()))


def greatest_cluster(
    directions_deg: Sequence[float], *, within_deg: float = WITHIN_DEG
) -> DirectionCluster | None:
    """Find the most marks that share a direction, and how easily chance does that.

    Parameters
    ----------
    directions_deg : sequence of float
        Directions [deg].
    within_deg : float
        Width of the range [deg], above 0 and below 90.

    Returns
    -------
    DirectionCluster or None
        The largest set of directions within the range, the tightest of equals; None
        without any direction.

    Raises
    ------
    ParameterError
        If the width is outside of its range.

    Notes
    -----
    Chance means here: boundaries of no preferred direction, met by straight test
    lines. A line meets a boundary the more often the steeper it stands to the line,
    with density sin(phi)/2 over the angle phi between the two (the projected length
    of a segment). A range of width w then holds at most the share sin(w/2), and so
    it does for lines in several directions; w/180, for circles, is less. If some w
    holds k of n marks, it begins at one of them, so that

        P(k or more) <= n P(Bin(n - 1, sin(w/2)) >= k - 1)

    by adding up over the n marks. This is an upper bound (simulated chances are
    below it, see the tests). It takes marks as independent: two marks on one and
    the same long boundary, and grains that are longer one way, share directions
    without any scratch.

    Examples
    --------
    >>> cluster = greatest_cluster([10.0, 11.0, 12.5, 80.0, 179.0])
    >>> len(cluster.marks), cluster.from_deg, cluster.to_deg
    (3, 10.0, 12.5)
    """
    if not 0 < within_deg < 90:
        raise ParameterError(
            "within_deg", within_deg, allowed="a width above 0 and below 90 deg"
        )
    count = len(directions_deg)
    if count == 0:
        return None
    angles = _folded(directions_deg)
    best = max(
        (_members(angles, start, within_deg) for start in range(count)),
        key=lambda found: (len(found[0]), -found[1]),
    )
    members, width = best
    first = float(angles[members[0]])
    return DirectionCluster(
        marks=tuple(sorted(members)),
        from_deg=first,
        to_deg=first + width,
        of_marks=count,
        chance_at_most=_chance_at_most(len(members), count, within_deg),
    )


def shared_directions(
    directions_deg: Sequence[float],
    *,
    within_deg: float = WITHIN_DEG,
    called_from: float = CALLED_FROM,
) -> tuple[DirectionCluster, ...]:
    """Find every direction that more marks share than chance explains.

    Parameters
    ----------
    directions_deg : sequence of float
        Directions [deg].
    within_deg : float
        Width of the range [deg], above 0 and below 90.
    called_from : float
        Chance at and below which a cluster is given.

    Returns
    -------
    tuple of DirectionCluster
        The largest first; each next one is looked for, and its chance taken, among
        the marks left over. Empty when chance explains all.
    """
    left = list(range(len(directions_deg)))
    clusters: list[DirectionCluster] = []
    while left:
        found = greatest_cluster(
            [directions_deg[k] for k in left], within_deg=within_deg
        )
        if found is None or found.chance_at_most > called_from:
            break
        members = tuple(left[k] for k in found.marks)
        clusters.append(
            DirectionCluster(
                marks=members,
                from_deg=found.from_deg,
                to_deg=found.to_deg,
                of_marks=found.of_marks,
                chance_at_most=found.chance_at_most,
            )
        )
        left = [k for k in left if k not in members]
    return tuple(clusters)


def _folded(directions_deg: Iterable[float]) -> npt.NDArray[np.float64]:
    # A tiny negative angle folds to 180 itself, which is 0 again.
    folded = np.mod(np.array(list(directions_deg), dtype=np.float64), HALF_TURN_DEG)
    return np.where(folded == HALF_TURN_DEG, 0.0, folded)


def _members(
    angles: npt.NDArray[np.float64], start: int, within_deg: float
) -> tuple[list[int], float]:
    """List the marks in the range that begins at one of them, and give its width."""
    ahead = np.mod(angles - angles[start], HALF_TURN_DEG)
    inside = np.flatnonzero(ahead <= within_deg + _ROUNDING_DEG)
    ordered = [start, *(int(k) for k in inside if k != start)]
    return ordered, float(ahead[inside].max())


def _chance_at_most(cluster: int, count: int, within_deg: float) -> float:
    share = sin(0.5 * radians(within_deg))
    return min(1.0, count * float(stats.binom.sf(cluster - 2, count - 1, share)))
