"""What a test line meets on labels: crossings, tangents, triple points, ends.

A drawn line has a width, so a person scores a line through a triple point or along
a boundary's side as such. On labels the same is said with a distance: while a point
of the line lies within ``contact_px`` of a boundary, it is in contact. Each contact
is one event, told by the grains before and after it and by the junctions within
reach.
"""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from scipy import ndimage
from scipy.spatial import KDTree

from strandproof.grainsize.patch import MetalPatch
from strandproof.grainsize.procedures.curves import CurveRun, nearest_pixels
from strandproof.grainsize.triple_points import meeting_points
from strandproof.records.procedures import LineEvents

Bools = npt.NDArray[np.bool_]

# A slanting boundary is a staircase whose distance wavers by less than this.
_CLEARLY_AWAY_PX = 0.5
# Between two of three boundaries that meet at 120 deg a line as far from their
# junction as this, in contact distances, is nowhere away from both: 1 / sin(60 deg).
_JUNCTION_REACH = 1.155


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ContactMap:
    """Where the boundaries of one piece of metal lie, and where they meet.

    Parameters
    ----------
    patch : MetalPatch
        The piece of metal.
    distance_px : ndarray of float, shape (n_rows, n_cols)
        Distance of each pixel from the nearest boundary [px].
    junctions_px : ndarray of float, shape (n_junctions, 2)
        Row and column of each point where three or more grains meet [px].
    junction_grains : ndarray of int, shape (n_junctions,)
        How many meet there.
    contact_px : float
        Distance at which a line touches a boundary [px].
    """

    patch: MetalPatch
    distance_px: npt.NDArray[np.float64]
    junctions_px: npt.NDArray[np.float64]
    junction_grains: npt.NDArray[np.intp]
    contact_px: float


def contact_map(patch: MetalPatch, *, contact_px: float) -> ContactMap:
    """Find boundaries and junctions of a patch.

    The strand's edge is no boundary, and a boundary that ends there no junction.

    Parameters
    ----------
    patch : MetalPatch
        The piece of metal.
    contact_px : float
        Distance at which a line touches a boundary [px]; above 0. Junctions
        closer together than about twice this are one.

    Returns
    -------
    ContactMap
        Distances and junctions.
    """
    edge = _boundary_pixels(patch.labels)
    if edge.any():
        distance = ndimage.distance_transform_edt(~edge) + 0.5
    else:
        distance = np.full(edge.shape, np.inf)
    places, grains = _junctions(patch.labels, contact_px)
    return ContactMap(
        patch=patch,
        distance_px=np.asarray(distance, dtype=np.float64),
        junctions_px=places,
        junction_grains=grains,
        contact_px=contact_px,
    )


def run_events(contacts: ContactMap, run: CurveRun) -> LineEvents:
    """Tell what one run of a test line meets.

    Parameters
    ----------
    contacts : ContactMap
        Boundaries and junctions.
    run : CurveRun
        The run, in the patch's pixels.

    Returns
    -------
    LineEvents
        Unscored events.

    Notes
    -----
    A contact without a junction in reach is a crossing when the grain after it is
    another one, else a tangent. A contact with junctions in reach is those
    junctions. A contact that lasts to the end of the run is an end on a boundary.
    A grain thinner than twice the contact distance is passed over.
    """
    labels = contacts.patch.labels
    grains = labels[nearest_pixels(run.rows, run.cols, labels.shape)]
    near = _near_boundary(contacts, run)
    closed = not run.ends
    met = _junctions_met(contacts, run)
    if closed and not near.all():
        shift = -int(np.flatnonzero(~near)[0])
        grains, near, met = (np.roll(each, shift) for each in (grains, near, met))
    edges = np.flatnonzero(np.diff(near, prepend=False, append=False))
    stretches = list(zip(edges[::2].tolist(), edges[1::2].tolist(), strict=True))
    counts = {"crossings": 0, "tangents": 0}
    junctions: list[int] = []
    for start, stop in stretches:
        reached = np.unique(met[start:stop])
        reached = reached[reached >= 0]
        if reached.size:
            junctions.extend(int(contacts.junction_grains[each]) for each in reached)
        elif start > 0 and stop < near.size:
            changed = grains[start - 1] != grains[stop]
            counts["crossings" if changed else "tangents"] += 1
        elif closed or (start == 0 and stop == near.size):
            counts["crossings"] += int(grains[start] != grains[stop - 1])
    return LineEvents(
        crossings=counts["crossings"],
        tangents=counts["tangents"],
        triple_points=junctions.count(3),
        higher_junctions=tuple(k for k in junctions if k > 3),
        **_ends(run, near, met),
    )


def _ends(run: CurveRun, near: Bools, met: npt.NDArray[np.intp]) -> dict[str, int]:
    if not run.ends:
        return {}
    # A run that is in contact from end to end ends nowhere inside a boundary.
    whole = bool(near.all())
    on_boundary = [
        bool(near[at]) and not whole and not _reaches_junction(near, met, at)
        for at in (0, -1)
    ]
    inside = [kind for kind, on in zip(run.ends, on_boundary, strict=True) if not on]
    return {
        "ends_inside": len(inside),
        "ends_on_boundary": sum(on_boundary),
        "strand_edge_ends_inside": inside.count("strand_edge"),
    }


def _reaches_junction(near: Bools, met: npt.NDArray[np.intp], at: int) -> bool:
    """Tell whether the contact at an end holds a junction, which is its event."""
    stretch = near if at == 0 else near[::-1]
    along = met if at == 0 else met[::-1]
    off = np.flatnonzero(~stretch)
    last = int(off[0]) if off.size else stretch.size
    return bool((along[:last] >= 0).any())


def _near_boundary(contacts: ContactMap, run: CurveRun) -> Bools:
    if not np.isfinite(contacts.distance_px).all():
        return np.zeros(run.rows.size, np.bool_)
    distance = ndimage.map_coordinates(
        contacts.distance_px, (run.rows, run.cols), order=1, mode="nearest"
    )
    # The distance from a staircase of pixels wavers, so that one contact would fall
    # apart into several: a line has left only when it is clearly away.
    within = distance < contacts.contact_px + _CLEARLY_AWAY_PX
    stretches, count = ndimage.label(within)
    closest = ndimage.minimum(distance, stretches, np.arange(1, count + 1))
    touches = np.append(False, np.asarray(closest) < contacts.contact_px)
    near: Bools = touches[stretches]
    return near


def _junctions_met(contacts: ContactMap, run: CurveRun) -> npt.NDArray[np.intp]:
    """Give the junction in reach of each point; -1 where there is none."""
    if contacts.junction_grains.size == 0:
        return np.full(run.rows.size, -1, np.intp)
    points = np.column_stack((run.rows, run.cols))
    distance, number = KDTree(contacts.junctions_px).query(
        points, distance_upper_bound=_reach(contacts.contact_px)
    )
    return np.where(np.isfinite(distance), number, -1).astype(np.intp)


def _reach(contact_px: float) -> float:
    """Distance from a junction within which a contact is the junction's [px]."""
    return _JUNCTION_REACH * (contact_px + _CLEARLY_AWAY_PX)


def _boundary_pixels(labels: npt.NDArray[np.integer]) -> Bools:
    edge = np.zeros(labels.shape, np.bool_)
    for axis in (0, 1):
        first: list[slice] = [slice(None), slice(None)]
        second: list[slice] = [slice(None), slice(None)]
        first[axis], second[axis] = slice(None, -1), slice(1, None)
        one, other = labels[tuple(first)], labels[tuple(second)]
        differs = (one != other) & (one > 0) & (other > 0)
        edge[tuple(first)] |= differs
        edge[tuple(second)] |= differs
    return edge


def _junctions(
    labels: npt.NDArray[np.integer], contact_px: float
) -> tuple[npt.NDArray[np.float64], npt.NDArray[np.intp]]:
    """Places of junctions and the number of grains at each."""
    met = meeting_points(labels)
    if not met.labels.size:
        return np.empty((0, 2)), np.empty(0, np.intp)
    rows, cols = met.places_px.astype(np.intp).T
    meeting = np.zeros((labels.shape[0] - 1, labels.shape[1] - 1), np.bool_)
    meeting[rows, cols] = True
    reach = max(1, round(_reach(contact_px)))
    grown = ndimage.binary_dilation(
        meeting, structure=np.ones((3, 3), np.bool_), iterations=reach
    )
    clusters, count = ndimage.label(grown, structure=np.ones((3, 3), np.bool_))
    cluster = clusters[rows, cols] - 1
    size = np.bincount(cluster, minlength=count)
    places = np.column_stack(
        [np.bincount(cluster, axis, minlength=count) / size for axis in met.places_px.T]
    )
    pairs = np.unique(
        np.column_stack((np.repeat(cluster, 4), met.labels.ravel())), axis=0
    )
    grains = np.bincount(pairs[:, 0], minlength=count)
    return places, grains.astype(np.intp)
