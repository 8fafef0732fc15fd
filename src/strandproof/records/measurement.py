"""What the measurement of one picture found: counts, intercepts, G, bounds.

Made by `strandproof.grainsize`, shown by the report, weighed later. A number
that cannot be stated is None, with a flag that says why; no number stands for
infinite or unknown.
"""

from dataclasses import dataclass
from typing import Literal

from strandproof.quantity import Interval, Quantity
from strandproof.records.flags import Flag
from strandproof.records.structure import StrandVerdict

FrameRule = Literal["half", "half_and_quarter_corners"]
LineEndRule = Literal["half", "whole_at_strand_edge"]
StrandShape = Literal["field", "long", "round", "piece"]


@dataclass(frozen=True, slots=True, kw_only=True)
class CountingRules:
    """Every option and threshold that a measurement went by.

    Parameters
    ----------
    frame_rule : {"half", "half_and_quarter_corners"}
        Score of a grain cut by the picture's frame: one half each, or one half
        and a quarter for the grains at the frame's four corners.
    line_ends : {"half", "whole_at_strand_edge"}
        Score of an intercept that ends at the end of a line: one half at every
        end, so that only boundaries count; or one half at the frame and whole
        at the strand's edge.
    line_spacing : float
        Distance of neighbouring test lines, in mean intercepts.
    sample_step_px : float
        Distance of neighbouring samples along a line [px].
    minimum_grains : float
        Grains in the area below which the count is flagged.
    minimum_grains_across : float
        Grains across a strand below which it is flagged.
    minimum_intercept_px : float
        Mean intercept below which the picture is flagged as too coarse [px].
    elongation_limit : float
        Ratio of the intercepts along and across (or its reciprocal) above which
        grains are flagged as elongated.
    minimum_block_side : float
        Least side of such a part, in mean intercepts.
    minimum_blocks, maximum_blocks : int
        Fewest and most parts of a picture whose scatter makes an interval.
    """

    frame_rule: FrameRule
    line_ends: LineEndRule
    line_spacing: float
    sample_step_px: float
    minimum_grains: float
    minimum_grains_across: float
    minimum_intercept_px: float
    elongation_limit: float
    minimum_block_side: float
    minimum_blocks: int
    maximum_blocks: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Estimate:
    """A measured value with its 95 % interval and relative accuracy.

    Parameters
    ----------
    quantity : Quantity
        Value, standard uncertainty, degrees of freedom, sources.
    interval95 : Interval or None
        95 % interval; None where the picture holds too little to make one.
    relative_accuracy_percent : float or None
        Half the width of the interval in percent of the value; None without a
        closed interval, and for G, whose zero is arbitrary.
    """

    quantity: Quantity
    interval95: Interval | None
    relative_accuracy_percent: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class GrainCount:
    """Grains counted in an area.

    Parameters
    ----------
    inside : int
        Grains wholly inside; a grain that ends at the strand's edge is whole.
    cut : int
        Grains cut by the frame of the picture.
    equivalent : float
        Whole grains that the area is worth, by the frame rule.
    area : Quantity
        Metal looked at, boundary lines included [px^2 or mm^2].
    """

    inside: int
    cut: int
    equivalent: float
    area: Quantity

    @property
    def grains(self) -> int:
        """Grains seen, whole or cut."""
        return self.inside + self.cut


@dataclass(frozen=True, slots=True, kw_only=True)
class Traverse:
    """One unbroken run of a test line through metal.

    Parameters
    ----------
    start_px, end_px : tuple of float
        Row and column of the two ends [px]; the centre of the first pixel is
        (0, 0).
    length_px : float
        Length in metal [px].
    crossings : int
        Changes of grain along it.
    frame_ends, strand_edge_ends : int
        How many of its ends lie on the picture's frame and on the strand's edge
        (or the edge of a hole); 2 together.
    """

    start_px: tuple[float, float]
    end_px: tuple[float, float]
    length_px: float
    crossings: int
    frame_ends: int
    strand_edge_ends: int


@dataclass(frozen=True, slots=True, kw_only=True)
class DirectionalIntercept:
    """Intercepts along test lines of one direction.

    Parameters
    ----------
    direction_deg : float
        Direction of the lines from the strand axis [deg]: 0 along, 90 across.
    lines : int
        Unbroken runs of line in metal.
    length : Quantity
        Their total length in metal [px or mm].
    intercepts : float
        Intercepts counted, by the line-end rule.
    mean_intercept : Estimate or None
        Length per intercept [px or um]; None without a boundary crossed.
    """

    direction_deg: float
    lines: int
    length: Quantity
    intercepts: float
    mean_intercept: Estimate | None


@dataclass(frozen=True, slots=True, kw_only=True)
class InterceptCount:
    """Intercepts in four directions and all together.

    Parameters
    ----------
    directions : tuple of DirectionalIntercept
        0, 45, 90 and 135 deg from the strand axis.
    mean_intercept : Estimate or None
        Total length per intercept over all directions [px or um]; None without
        a boundary crossed.
    elongation : float or None
        Mean intercept along the axis over that across it; None where either is
        missing or no axis lies in the picture.
    blocks : int
        Parts of the picture whose scatter made the interval.
    length : Quantity
        Length of all lines in metal [px or mm].
    intercepts : float
        Intercepts counted in all.
    traverses : tuple of Traverse
        Every run of line used.
    """

    directions: tuple[DirectionalIntercept, ...]
    mean_intercept: Estimate | None
    elongation: float | None
    blocks: int
    length: Quantity
    intercepts: float
    traverses: tuple[Traverse, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class AxialCrossings:
    """Boundaries crossed along the strand axis.

    Parameters
    ----------
    crossings : int
        Boundaries crossed on all lines.
    length : Quantity
        Length of the lines in metal [px or mm].
    rate : Estimate
        Crossings per length [1/px or 1/mm]; with no crossing its interval is a
        one-sided upper limit.
    mean_spacing95 : Interval
        Limits of the mean distance between boundaries [px or mm]; open above
        with no crossing.
    sentence : str
        The finding in words, as it may be quoted.
    traverses : tuple of Traverse
        Every run of line used: only the strand's centre line where no crossing
        was resolved.
    """

    crossings: int
    length: Quantity
    rate: Estimate
    mean_spacing95: Interval
    sentence: str
    traverses: tuple[Traverse, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class GrainMeasurement:
    """Everything measured on one piece of metal, or pooled over a picture.

    Parameters
    ----------
    count : GrainCount
        Grains and area.
    grains_per_area : Estimate or None
        Grains per area [1/px^2 or 1/mm^2]; None without a boundary resolved.
    intercepts : InterceptCount
        Intercepts, per direction and overall.
    g_planimetric, g_intercept : Estimate or None
        ASTM grain size number by the two methods; None without scale or without
        a boundary resolved.
    axial_crossings : AxialCrossings or None
        Crossings along the axis; None where no axis lies in the picture (round
        faces).
    """

    count: GrainCount
    grains_per_area: Estimate | None
    intercepts: InterceptCount
    g_planimetric: Estimate | None
    g_intercept: Estimate | None
    axial_crossings: AxialCrossings | None


@dataclass(frozen=True, slots=True, kw_only=True)
class StrandMeasurement:
    """Measurement of one strand.

    Parameters
    ----------
    number : int
        Number of the strand in the labelled structure.
    shape : {"field", "long", "round", "piece"}
        As the segmentation found it.
    verdict, verdict_reason : str
        Whether more than one crystal was resolved, and the figures behind it.
    axis_deg : float
        Axis that directions count from [deg], from the picture's +x towards +y
        upwards; 0 where none was known.
    grains_across : float or None
        Width of the strand in mean intercepts across it; None where the strand
        has no edges or no boundary.
    values : GrainMeasurement
        What was measured.
    flags : tuple of Flag
        Flags of this strand.
    """

    number: int
    shape: StrandShape
    verdict: StrandVerdict
    verdict_reason: str
    axis_deg: float
    grains_across: float | None
    values: GrainMeasurement
    flags: tuple[Flag, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class StructureMeasurement:
    """Measurement of one labelled picture.

    Parameters
    ----------
    method, method_version : str
        What made the labels.
    pixel_size : Quantity or None
        Size of a pixel [um], with its standard uncertainty; None when no scale
        is known, and then every length is in pixels.
    rules : CountingRules
        Options and thresholds used.
    relation_form : str
        Which constants turned lengths into G: ``"e112"`` or ``"exact"``.
    picture : GrainMeasurement or None
        All strands pooled; None without metal.
    strands : tuple of StrandMeasurement
        The strands, by number.
    flags : tuple of Flag
        Flags of the labels and of the measurement, strands' flags included.
    """

    method: str
    method_version: str
    pixel_size: Quantity | None
    rules: CountingRules
    relation_form: str
    picture: GrainMeasurement | None
    strands: tuple[StrandMeasurement, ...]
    flags: tuple[Flag, ...]
