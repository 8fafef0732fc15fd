"""What one named counting procedure found, with every option it went by.

Made by `strandproof.grainsize.procedures`. A number that cannot be stated is
None; where a choice of rule matters, the result under the other choice stands
beside it.
"""

from dataclasses import dataclass
from typing import Literal

from strandproof.quantity import Quantity
from strandproof.records.measurement import Estimate, FrameRule, LineEndRule

CountingStandard = Literal["textbook", "e112", "e112_circles"]
TangentRule = Literal["half", "one"]
TriplePointRule = Literal["one_and_half", "two"]
AreaProcedure = Literal[
    "jeffries_circle", "saltykov_rectangle", "triple_points", "whole_area"
]
LineProcedure = Literal["heyn_lines", "single_circle", "three_circles"]
FigureKind = Literal["circle", "rectangle", "lines", "whole_metal"]
FigureSize = Literal["largest_that_fits", "print_size", "given", "whole_metal"]


@dataclass(frozen=True, slots=True, kw_only=True)
class ScoreOption:
    """One counting rule by name, with its score and where it comes from.

    Parameters
    ----------
    rule : str
        What is scored, for example ``"tangent"``.
    option : str
        Name of the choice, for example ``"half"``.
    score : float
        Intersections that it counts for.
    source : str
        Document the score was taken from.
    status : str
        How far the source can be trusted: ``"read"``, ``"from memory"``, ...
    """

    rule: str
    option: str
    score: float
    source: str
    status: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ScoringRules:
    """Rules that turn what a test line meets into intersections and intercepts.

    Parameters
    ----------
    line_ends : {"half", "whole_at_strand_edge"}
        Score of an intercept that ends at the end of a line, see `CountingRules`.
    tangent : ScoreOption
        A line touches a boundary and stays in its grain.
    triple_point : ScoreOption
        A line goes through a point where three grains meet.
    end_on_boundary : ScoreOption
        A line ends on a boundary.
    contact_px : float
        Distance from a boundary at which a line touches it [px].
    """

    line_ends: LineEndRule
    tangent: ScoreOption
    triple_point: ScoreOption
    end_on_boundary: ScoreOption
    contact_px: float


@dataclass(frozen=True, slots=True, kw_only=True)
class LineEvents:
    """What test lines met, before any score.

    Parameters
    ----------
    crossings : int
        Boundaries crossed away from points where three or more grains meet.
    triple_points : int
        Points where three grains meet, met by a line.
    higher_junctions : tuple of int
        Number of grains at each point met where four or more meet.
    tangents : int
        Boundaries touched without a change of grain.
    ends_inside : int
        Ends of runs that lie inside a grain.
    ends_on_boundary : int
        Ends of runs that lie on a boundary.
    strand_edge_ends_inside : int
        Those of `ends_inside` at which the metal ends (strand edge or hole).
    """

    crossings: int = 0
    triple_points: int = 0
    higher_junctions: tuple[int, ...] = ()
    tangents: int = 0
    ends_inside: int = 0
    ends_on_boundary: int = 0
    strand_edge_ends_inside: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class TestFigure:
    """A figure laid on the picture.

    Parameters
    ----------
    kind : {"circle", "rectangle", "lines", "whole_metal"}
        Its form.
    centre_px : tuple of float
        Row and column of its centre in the picture [px].
    size_px : tuple of float
        Diameter, or height and width, or the directions' number of lines [px or 1].
    size_from : {"largest_that_fits", "print_size", "given", "whole_metal"}
        How the size was chosen.
    clipped : bool
        Whether part of it lies off the metal and was left out.
    """

    __test__ = False

    kind: FigureKind
    centre_px: tuple[float, float]
    size_px: tuple[float, ...]
    size_from: FigureSize
    clipped: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class ChoiceEffect:
    """The same count under another choice of one rule.

    Parameters
    ----------
    rule, option : str
        The rule and the choice not taken.
    status : str
        How far the source of that choice can be trusted.
    count : float
        Intersections, intercepts or equivalent grains under it.
    g : float or None
        ASTM grain size number under it; None without a scale.
    """

    rule: str
    option: str
    status: str
    count: float
    g: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class LineCount:
    """Intercepts counted by one procedure on one piece of metal.

    Parameters
    ----------
    procedure : {"heyn_lines", "single_circle", "three_circles"}
        The procedure.
    figures : tuple of TestFigure
        Figures laid on the metal.
    events : LineEvents
        What the lines met.
    scoring : ScoringRules
        Rules that scored it.
    intersections, intercepts : float
        P and N by these rules; equal but for whole intercepts at strand edges.
    length : Quantity
        Length of line in metal [px or mm].
    mean_intercept : Estimate or None
        Length per intercept [px or um]; None without an intersection.
    g : Estimate or None
        ASTM grain size number; None without scale or intersection.
    effects : tuple of ChoiceEffect
        The count under each choice not taken.
    """

    procedure: LineProcedure
    figures: tuple[TestFigure, ...]
    events: LineEvents
    scoring: ScoringRules
    intersections: float
    intercepts: float
    length: Quantity
    mean_intercept: Estimate | None
    g: Estimate | None
    effects: tuple[ChoiceEffect, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class AreaCount:
    """Grains counted in an area by one procedure on one piece of metal.

    Parameters
    ----------
    procedure : str
        One of ``"jeffries_circle"``, ``"saltykov_rectangle"``,
        ``"triple_points"``, ``"whole_area"``.
    figures : tuple of TestFigure
        The areas, side by side.
    frame_rule : {"half", "half_and_quarter_corners"}
        Score of grains cut by the area's edge.
    inside, cut, corners : int
        Grains wholly inside, cut by the edge (corner grains among them), and
        corners of the area that lie in metal. For triple points: points inside,
        0 and 0.
    equivalent : float
        Whole grains the area is worth.
    area : Quantity
        Metal inside [px^2 or mm^2].
    grains_per_area : Estimate or None
        Grains per area [1/px^2 or 1/mm^2]; None with fewer than two grains.
    g : Estimate or None
        ASTM grain size number; None without scale or boundary.
    effects : tuple of ChoiceEffect
        The count under the other frame rule; for circles in metal, less the one
        grain that each counts too many in the mean.
    """

    procedure: AreaProcedure
    figures: tuple[TestFigure, ...]
    frame_rule: FrameRule
    inside: int
    cut: int
    corners: int
    equivalent: float
    area: Quantity
    grains_per_area: Estimate | None
    g: Estimate | None
    effects: tuple[ChoiceEffect, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Spread:
    """How a size is spread over the pieces of one picture.

    Parameters
    ----------
    n : int
        Pieces used.
    left_out : int
        Pieces left out because the frame or an edge cuts them.
    unit : str
        Unit of the sizes.
    weighting : str
        Correction for small pieces being cut less often, in words.
    mean, standard_deviation : float or None
        Weighted mean and standard deviation; None with fewer than two pieces.
    coefficient_of_variation : float or None
        Standard deviation over mean.
    log_standard_deviation : float or None
        Standard deviation of the natural logarithm.
    percentiles : tuple of (float, float)
        Percent and size: 5, 25, 50, 75, 95.
    largest : float or None
        Largest piece used.
    """

    n: int
    left_out: int
    unit: str
    weighting: str
    mean: float | None
    standard_deviation: float | None
    coefficient_of_variation: float | None
    log_standard_deviation: float | None
    percentiles: tuple[tuple[float, float], ...]
    largest: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class WholePictureStatistics:
    """Areas and intercept lengths of all whole pieces.

    Parameters
    ----------
    areas : Spread
        Areas of whole grains [px^2 or um^2].
    intercepts : Spread
        Lengths between two boundaries along lines in four directions [px or um].
    """

    areas: Spread
    intercepts: Spread
