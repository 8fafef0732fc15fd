"""What kind of structure was met, and what may be said of a mean grain size.

Made by `strandproof.grainsize.procedures`. Each finding carries the figures that
it rests on and a sentence that may be quoted.
"""

from dataclasses import dataclass
from typing import Literal

from strandproof.quantity import Interval, Quantity
from strandproof.records.flags import Flag
from strandproof.records.measurement import (
    AxialCrossings,
    CountingRules,
    Estimate,
    StrandShape,
)
from strandproof.records.procedures import (
    AreaCount,
    LineCount,
    ScoringRules,
    WholePictureStatistics,
)

DuplexName = Literal[
    "isolated_coarse", "wide_range", "bimodal", "cross_section", "necklace", "banding"
]
ReasonName = Literal["size_spread", "elongation", "outline", "counting"]
StandingName = Literal[
    "no_boundary",
    "bamboo",
    "few_grains_across",
    "elongated",
    "duplex",
    "few_grains",
    "round_face",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class BoundaryDensity:
    """Boundary area per volume and boundary length per area of section.

    Parameters
    ----------
    surface_per_volume : Quantity
        S_V [1/mm or 1/px].
    surface_interval95 : Interval or None
        Its 95 % interval within the picture.
    length_per_area : Quantity
        L_A [1/mm or 1/px].
    sentence : str
        Both, and what they assume.
    """

    surface_per_volume: Quantity
    surface_interval95: Interval | None
    length_per_area: Quantity
    sentence: str


@dataclass(frozen=True, slots=True, kw_only=True)
class TwinDensity:
    """Twin boundaries met by the same test lines as the grain boundaries.

    Parameters
    ----------
    twin_crossings, grain_crossings : int
        Twin boundaries and grain boundaries crossed.
    length : Quantity
        Length of line in metal [px or mm].
    per_length : Estimate
        Twin boundaries per length of line [1/px or 1/mm].
    surface_per_volume : Quantity
        Twin boundary area per volume, 2 P_L [1/px or 1/mm].
    share : float or None
        Twin boundaries over all boundaries; None where none was crossed.
    mean_intercept, mean_intercept_with_twins : Quantity or None
        Length per grain boundary, and per boundary of either kind [px or mm].
    sentence : str
        Both numbers, and which of them is the grain size.
    """

    twin_crossings: int
    grain_crossings: int
    length: Quantity
    per_length: Estimate
    surface_per_volume: Quantity
    share: float | None
    mean_intercept: Quantity | None
    mean_intercept_with_twins: Quantity | None
    sentence: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ThreePlanes:
    """Intersections on three principal planes taken together.

    Parameters
    ----------
    longitudinal_per_mm, transverse_per_mm, planar_per_mm : float
        Boundaries per length of line on each plane [1/mm].
    per_mm : float
        Their geometric mean [1/mm].
    mean_intercept_um : float
        Its inverse [um].
    g : float
        ASTM grain size number of it.
    anisotropy_index : float or None
        Mean intercept along over across the axis on the longitudinal plane; None
        where it was not measured there.
    sentence : str
        All of it in words.
    """

    longitudinal_per_mm: float
    transverse_per_mm: float
    planar_per_mm: float
    per_mm: float
    mean_intercept_um: float
    g: float
    anisotropy_index: float | None
    sentence: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LargestGrain:
    """The largest grain seen, by calipers and by its pixels.

    Parameters
    ----------
    label : int
        Its number in the labels.
    longest, across_longest : Quantity
        Greatest caliper width, and the one at a right angle to it [px or um].
    caliper_area, counted_area : Quantity
        Ellipse of the two calipers, and area by pixels [px^2 or um^2].
    g_caliper, g_counted : float or None
        ASTM grain size number of one grain of either area; None without scale.
    times_mean_area : float or None
        Counted area over the area per grain of the piece.
    cut : bool
        Whether the picture's frame cuts it, so that it is larger than seen.
    sentence : str
        The finding in words.
    """

    label: int
    longest: Quantity
    across_longest: Quantity
    caliper_area: Quantity
    counted_area: Quantity
    g_caliper: float | None
    g_counted: float | None
    times_mean_area: float | None
    cut: bool
    sentence: str


@dataclass(frozen=True, slots=True, kw_only=True)
class DuplexKind:
    """One kind of duplex grain size and whether the picture shows it.

    Parameters
    ----------
    name : str
        The kind.
    present : bool
        Whether its criterion is met.
    figures : tuple of (str, float)
        The figures behind the answer, by name.
    status : str
        How far the source of the criterion can be trusted.
    sentence : str
        The answer in words.
    """

    name: DuplexName
    present: bool
    figures: tuple[tuple[str, float], ...]
    status: str
    sentence: str


@dataclass(frozen=True, slots=True, kw_only=True)
class DifferenceReason:
    """A measured part of the difference of the two grain size numbers.

    Parameters
    ----------
    name : {"size_spread", "elongation", "outline", "counting"}
        The reason.
    amount_g : float
        What it adds to planimetric G minus intercept G.
    measured : float
        The figure it was computed from.
    sentence : str
        Figure and amount in words.
    """

    name: ReasonName
    amount_g: float
    measured: float
    sentence: str


@dataclass(frozen=True, slots=True, kw_only=True)
class MethodDifference:
    """Planimetric G minus intercept G, and what it comes from.

    Parameters
    ----------
    difference : Quantity
        G_planimetric - G_intercept with its counting uncertainty.
    interval95 : Interval
        Its 95 % interval.
    agree : bool
        Whether the interval holds 0.
    reasons : tuple of DifferenceReason
        Measured parts; together they make the difference.
    sentence : str
        All of it in words.
    """

    difference: Quantity
    interval95: Interval
    agree: bool
    reasons: tuple[DifferenceReason, ...]
    sentence: str


@dataclass(frozen=True, slots=True, kw_only=True)
class StandingCondition:
    """A condition under which a mean grain size says little or nothing.

    Parameters
    ----------
    name : str
        The condition.
    forbids_mean : bool
        True where no mean is to be stated.
    sentence : str
        Condition, figures and what is measured instead.
    """

    name: StandingName
    forbids_mean: bool
    sentence: str


@dataclass(frozen=True, slots=True, kw_only=True)
class MeanStanding:
    """Whether a mean grain size may be stated of one piece of metal.

    Parameters
    ----------
    may_state_mean : bool
        False where a condition forbids it.
    needs_both_directions : bool
        True where along and across have to be stated.
    grains_across : float or None
        Width of the strand in mean intercepts; None where that is unknown.
    conditions : tuple of StandingCondition
        What was recognised.
    sentence : str
        All of it in words.
    """

    may_state_mean: bool
    needs_both_directions: bool
    grains_across: float | None
    conditions: tuple[StandingCondition, ...]
    sentence: str


@dataclass(frozen=True, slots=True, kw_only=True)
class StrandCounts:
    """All procedures on one piece of metal, and what they allow to say.

    Parameters
    ----------
    number : int
        Number of the strand in the labelled structure.
    shape : str
        ``"field"``, ``"long"``, ``"round"`` or ``"piece"``.
    axis_deg : float or None
        Direction of its axis [deg]; None where none shows.
    areas : tuple of AreaCount
        Area procedures asked for. Their G is None where no mean may be stated.
    lines : tuple of LineCount
        Line procedures asked for, likewise.
    statistics : WholePictureStatistics
        Spread of areas and intercept lengths.
    density : BoundaryDensity or None
        S_V and L_A; None where no mean may be stated.
    twins : TwinDensity or None
        Twin boundaries; None without labels that hold them.
    largest : LargestGrain or None
        Largest grain; None without grains.
    duplex : tuple of DuplexKind
        Answers for each kind; empty with fewer than 20 whole grains.
    difference : MethodDifference or None
        Planimetric G against intercept G, over all of the metal.
    crossings : AxialCrossings or None
        Boundaries per length along the axis; None where no axis shows.
    standing : MeanStanding
        Whether a mean grain size may be stated.
    """

    number: int
    shape: StrandShape
    axis_deg: float | None
    areas: tuple[AreaCount, ...]
    lines: tuple[LineCount, ...]
    statistics: WholePictureStatistics
    density: BoundaryDensity | None
    twins: TwinDensity | None
    largest: LargestGrain | None
    duplex: tuple[DuplexKind, ...]
    difference: MethodDifference | None
    crossings: AxialCrossings | None
    standing: MeanStanding


@dataclass(frozen=True, slots=True, kw_only=True)
class PictureCounts:
    """All procedures on one labelled picture.

    Parameters
    ----------
    method, method_version : str
        What made the labels.
    pixel_size : Quantity or None
        Size of a pixel [um]; None leaves every length in pixels.
    rules : CountingRules
        Thresholds and frame rule.
    scoring : ScoringRules
        Scores of what test lines meet.
    relation_form : str
        Which constants turned lengths into G.
    magnification : float or None
        Print whose figures were laid; None for the largest that fit.
    strands : tuple of StrandCounts
        The pieces of metal, by number.
    flags : tuple of Flag
        Flags of the labels.
    """

    method: str
    method_version: str
    pixel_size: Quantity | None
    rules: CountingRules
    scoring: ScoringRules
    relation_form: str
    magnification: float | None
    strands: tuple[StrandCounts, ...]
    flags: tuple[Flag, ...]
