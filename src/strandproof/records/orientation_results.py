"""What was found in a table of orientations: boundaries, grains, spread, matches."""

from dataclasses import dataclass
from typing import Literal

from strandproof.records.orientation import FrameKnowledge, OrientationRules

GridKind = Literal["square", "hexagonal", "line"]


@dataclass(frozen=True, slots=True, kw_only=True)
class MapCoverage:
    """How much of the looked-at area carries an orientation, and at what step.

    Parameters
    ----------
    grid : {"square", "hexagonal", "line"}
        Arrangement of the points.
    step_um, row_step_um : float
        Distance of points in a row, and of the rows [um]; of a line, both are
        the distance of its points.
    points : int
        Points in the table.
    indexed : int
        Points with an orientation.
    isolated : int
        Indexed points in islands too small to be trusted.
    bridged : int
        Points that took the orientation of a trusted neighbour.
    length_um, width_um : float
        Extent along and across the strand's axis [um].
    """

    grid: GridKind
    step_um: float
    row_step_um: float
    points: int
    indexed: int
    isolated: int
    bridged: int
    length_um: float
    width_um: float

    @property
    def share_indexed(self) -> float:
        """Share of the points that carry an orientation."""
        return self.indexed / self.points


@dataclass(frozen=True, slots=True, kw_only=True)
class BoundaryClass:
    """Boundary of one class: how much of it.

    Parameters
    ----------
    length_um : float or None
        Length along the edges of the cells [um], about 4/pi of a smooth
        boundary's; None on a line of points.
    edges : int
        Number of pairs of neighbouring points.
    """

    length_um: float | None
    edges: int


@dataclass(frozen=True, slots=True, kw_only=True)
class MapBoundaries:
    """Boundaries between neighbouring points, by disorientation.

    Parameters
    ----------
    high : BoundaryClass
        At the boundary angle and above, twin-related ones included.
    twin : BoundaryClass
        Those of `high` within Brandon's limit of 60 deg about <111>.
    small : BoundaryClass
        From the small angle up to the boundary angle.
    not_judged : BoundaryClass
        Between points of which one has no orientation to go by.
    high_per_mm : float or None
        Boundaries of class `high` crossed along the axis [1/mm].
    twin_per_mm : float or None
        Twin-related ones crossed along the axis [1/mm].
    inside_deg : float or None
        Median disorientation of neighbours that no grain boundary parts [deg]:
        angular noise, and real turning from point to point; None without any.
    judged_along_um : float
        Length looked at along the axis, all rows together [um].
    angle_edges_deg : tuple of float
        Limits of the classes of `angle_share` [deg].
    angle_share : tuple of float
        Share of the boundaries from the small angle upward in each class.
    random_share : tuple of float
        The same for pairs of random orientations.
    """

    high: BoundaryClass
    twin: BoundaryClass
    small: BoundaryClass
    not_judged: BoundaryClass
    high_per_mm: float | None
    twin_per_mm: float | None
    inside_deg: float | None
    judged_along_um: float
    angle_edges_deg: tuple[float, ...]
    angle_share: tuple[float, ...]
    random_share: tuple[float, ...]

    @property
    def twin_share(self) -> float | None:
        """Share of the high-angle boundary that is twin-related; None without any."""
        if self.high.edges == 0:
            return None
        if self.high.length_um is None or self.twin.length_um is None:
            return self.twin.edges / self.high.edges
        return self.twin.length_um / self.high.length_um


@dataclass(frozen=True, slots=True, kw_only=True)
class MapGrains:
    """Regions that no boundary at the boundary angle or above parts.

    Parameters
    ----------
    grains : int
        Regions, each side of a twin-related boundary counted apart.
    touching_frame : int
        Those that reach the edge of the map.
    grains_twins_merged : int
        Regions when twin-related boundaries do not part.
    mean_area_um2 : float or None
        Mean area [um^2], frame grains included; None on a line of points.
    largest_share : float
        Share of the judged points in the largest region.
    """

    grains: int
    touching_frame: int
    grains_twins_merged: int
    mean_area_um2: float | None
    largest_share: float


@dataclass(frozen=True, slots=True, kw_only=True)
class SpreadStretch:
    """Orientations in one stretch of the strand, against the reference.

    Parameters
    ----------
    from_um, to_um : float
        Where it begins and ends along the axis [um].
    points : int
        Trusted points in it.
    median_deg, largest_deg : float or None
        Disorientation from the reference [deg]; the largest is the 99th
        percentile; None without points.
    """

    from_um: float
    to_um: float
    points: int
    median_deg: float | None
    largest_deg: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class OrientationSpread:
    """How far orientations along the strand depart from one reference.

    Parameters
    ----------
    stretches : tuple of SpreadStretch
        Along the axis, in order.
    within_deg : tuple of float
        Tolerances [deg].
    share_within : tuple of float
        Share of the trusted points within each tolerance of the reference.
    """

    stretches: tuple[SpreadStretch, ...]
    within_deg: tuple[float, ...]
    share_within: tuple[float, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class OrientationMapResult:
    """Everything found in one map.

    Parameters
    ----------
    rules : OrientationRules
        What counted as what.
    coverage : MapCoverage
        Step, share indexed, extent.
    boundaries : MapBoundaries
        Lengths by class.
    grains : MapGrains
        Regions.
    spread : OrientationSpread
        Along the axis, against the mean of the largest region without any
        boundary inside, small ones included.
    """

    rules: OrientationRules
    coverage: MapCoverage
    boundaries: MapBoundaries
    grains: MapGrains
    spread: OrientationSpread


@dataclass(frozen=True, slots=True, kw_only=True)
class GrainListResult:
    """Everything found in a list of grains.

    Parameters
    ----------
    rules : OrientationRules
        What counted as what.
    grains : int
        Grains listed.
    total_area_um2 : float
        Their area [um^2].
    mean_area_um2 : float
        Mean area [um^2].
    largest_share : float
        Area of the largest grain over the total.
    share_near_largest : float
        Share of the area within the boundary angle of the largest grain's
        orientation, that grain included.
    pairs : int or None
        Pairs of neighbours; None where the list names none.
    high, twin, small : int or None
        Pairs by disorientation; twin-related ones are part of `high`.
    """

    rules: OrientationRules
    grains: int
    total_area_um2: float
    mean_area_um2: float
    largest_share: float
    share_near_largest: float
    pairs: int | None
    high: int | None
    twin: int | None
    small: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class FibreTexture:
    """Grains with <111> or <100> along the strand, the rest at random.

    Parameters
    ----------
    share_111, share_100 : float
        Share of the grains in each fibre; 0 to 1, together at most 1. What is
        left is random.
    tilt_deg : float
        Standard deviation of the crystal direction's tilt from the axis, about
        each of the two directions across [deg].
    """

    share_111: float
    share_100: float
    tilt_deg: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class MatchChance:
    """How often places in separate grains would match all the same.

    Parameters
    ----------
    texture : str
        What the grains were taken to be, in words.
    tolerance_deg : float
        Largest angle that counts as a match [deg].
    places : int
        Places compared; all others against the first.
    chance : float
        Chance that all match.
    lower, upper : float or None
        95 % limits of a simulated chance; None for a closed form.
    method : str
        How it was found.
    """

    texture: str
    tolerance_deg: float
    places: int
    chance: float
    lower: float | None
    upper: float | None
    method: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaceOrientation:
    """The orientation at one place.

    Parameters
    ----------
    name : str
        Name of the place.
    x_um, y_um : float or None
        Where it is [um]; y is None where only the position along the strand is
        known.
    points : int
        Points with an orientation at the place.
    agreeing : int
        Those within the tolerance of their common orientation.
    scatter_deg : float or None
        Root mean square disorientation of the agreeing points from their mean
        [deg]; None for a single point.
    from_first_deg : float
        Disorientation from the first place [deg].
    from_first_twin_deg : float
        Departure from a twin relation with the first place [deg].
    from_first_axis_deg : float
        Angle between what lies along the strand here and at the first place
        [deg], whatever the twist.
    """

    name: str
    x_um: float
    y_um: float | None
    points: int
    agreeing: int
    scatter_deg: float | None
    from_first_deg: float
    from_first_twin_deg: float
    from_first_axis_deg: float

    @property
    def is_one_orientation(self) -> bool:
        """Whether at least four points in five agree (a choice of this project)."""
        return self.agreeing >= 0.8 * self.points


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaceMatch:
    """Orientations at two or more places, compared with the first.

    Parameters
    ----------
    places : tuple of PlaceOrientation
        The places, the first one first.
    frame : {"shared", "axis"}
        What was compared: whole orientations, or only what lies along the
        strand.
    tolerance_deg : float
        Largest angle that counts as a match [deg].
    distance_um : float
        Distance of the two places farthest apart [um].
    matches : bool
        True if every place shows one orientation, and all lie within the
        tolerance of the first.
    chances : tuple of MatchChance
        How often separate grains would match by chance.
    """

    places: tuple[PlaceOrientation, ...]
    frame: FrameKnowledge
    tolerance_deg: float
    distance_um: float
    matches: bool
    chances: tuple[MatchChance, ...]
