"""Tables of crystal orientations as they came, and the rules they are measured by.

Read by `strandproof.storage`, measured by `strandproof.grainsize.orientations`;
what is found stands in `strandproof.records.orientation_results`.
"""

from dataclasses import dataclass
from typing import Literal

import numpy as np
import numpy.typing as npt

AngleMeaning = Literal["passive", "active"]
"""How three Bunge angles are meant, see `docs/orientations.md`."""

Axis = Literal["x", "y"]

FrameKnowledge = Literal["shared", "axis"]
"""Whether places were measured in one frame, or only their strand's axis is common."""

Floats = npt.NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class OrientationTable:
    """Points of a map, as the laboratory's table lists them.

    Parameters
    ----------
    name : str
        Name of the file, for messages.
    x_um, y_um : ndarray of float, shape (n,)
        Places of the points [um].
    angles_rad : ndarray of float, shape (n, 3)
        Bunge angles phi1, Phi, phi2 [rad]; NaN where a point was not indexed.
    meaning : {"passive", "active"}
        How the angles are meant.
    first_line : int
        Line of the file with the first point; the others follow without a gap.
    notes : tuple of str
        Remark lines of the file, for example that it is synthetic.
    """

    name: str
    x_um: Floats
    y_um: Floats
    angles_rad: Floats
    meaning: AngleMeaning
    first_line: int = 2
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class GrainTable:
    """Grains with one orientation each, as the laboratory's table lists them.

    Parameters
    ----------
    name : str
        Name of the file, for messages.
    numbers : tuple of int
        Number of each grain; no number twice.
    x_um, y_um : ndarray of float, shape (n,)
        Centres [um].
    angles_rad : ndarray of float, shape (n, 3)
        Bunge angles of the mean orientation [rad].
    area_um2 : ndarray of float, shape (n,)
        Area of each grain [um^2]; above 0.
    neighbours : tuple of tuple of int, or None
        Numbers of the grains that touch each grain; None where the table has
        no such column.
    meaning : {"passive", "active"}
        How the angles are meant.
    notes : tuple of str
        Remark lines of the file.
    """

    name: str
    numbers: tuple[int, ...]
    x_um: Floats
    y_um: Floats
    angles_rad: Floats
    area_um2: Floats
    neighbours: tuple[tuple[int, ...], ...] | None
    meaning: AngleMeaning
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PlaceTable:
    """Orientations at single places along a strand.

    Parameters
    ----------
    name : str
        Name of the file, for messages.
    places : tuple of str
        Name of each place; no name twice.
    x_um : ndarray of float, shape (n,)
        Position along the strand [um].
    angles_rad : ndarray of float, shape (n, 3)
        Bunge angles [rad], all in one specimen frame.
    meaning : {"passive", "active"}
        How the angles are meant.
    notes : tuple of str
        Remark lines of the file.
    """

    name: str
    places: tuple[str, ...]
    x_um: Floats
    angles_rad: Floats
    meaning: AngleMeaning
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class PointOnMap:
    """A point on a map.

    Parameters
    ----------
    x_um, y_um : float
        Where it is [um].
    """

    x_um: float
    y_um: float


@dataclass(frozen=True, slots=True, kw_only=True)
class OrientationRules:
    """What counts as a boundary, a grain, a twin relation.

    Parameters
    ----------
    boundary_deg : float
        Smallest disorientation of a grain boundary [deg].
    small_deg : float
        Smallest disorientation that is counted at all [deg].
    smallest_grain_points : int
        Islands of fewer points are taken for misindexed points.
    bridge_points : int
        Points without a trusted orientation take that of the nearest trusted
        point up to this many steps away; 0 leaves them out.
    axis : {"x", "y"}
        Direction of the strand's axis in the map.
    """

    boundary_deg: float = 15.0
    small_deg: float = 2.0
    smallest_grain_points: int = 4
    bridge_points: int = 2
    axis: Axis = "x"
