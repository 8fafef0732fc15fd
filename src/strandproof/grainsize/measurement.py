"""The measurement of one labelled picture, strand by strand and pooled."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from strandproof.grainsize.crossings import axial_crossings, axial_lines
from strandproof.grainsize.flagging import (
    count_flags,
    scale_flags,
    strand_flags,
    without_repeats,
)
from strandproof.grainsize.grain_size_numbers import (
    intercept_g_estimate,
    planimetric_g_estimate,
)
from strandproof.grainsize.intercepts import PatchLines, intercept_count, walk_patch
from strandproof.grainsize.patch import MetalPatch, strand_patches
from strandproof.grainsize.planimetric import count_grains, grains_per_area
from strandproof.grainsize.relations import GrainSizeRelations, package_relations
from strandproof.grainsize.rules import counting_rules
from strandproof.grainsize.scaling import (
    MICROMETRES,
    MILLIMETRES,
    PER_SQUARE_MILLIMETRE,
    SQUARE_MILLIMETRES,
    require_pixel_size,
    scaled_estimate,
    scaled_quantity,
)
from strandproof.grainsize.traverses import WalkedLine
from strandproof.grainsize.triple_points import AreaTally, area_tally, joined_areas
from strandproof.quantity import Quantity
from strandproof.records import Flag, LabelledStructure, Strand
from strandproof.records.measurement import (
    AxialCrossings,
    CountingRules,
    DirectionalIntercept,
    Estimate,
    GrainCount,
    GrainMeasurement,
    InterceptCount,
    StrandMeasurement,
    StructureMeasurement,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Settings:
    """What every step of one measurement shares."""

    pixel_size: Quantity | None
    rules: CountingRules
    relations: GrainSizeRelations
    states_g: bool


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Piece:
    """One strand with what was counted on it, in pixels."""

    strand: Strand
    axis_deg: float
    count: GrainCount
    lines: PatchLines
    axial: tuple[WalkedLine, ...]
    areas: AreaTally


def measure(
    structure: LabelledStructure,
    *,
    pixel_size: Quantity | None,
    rules: CountingRules | None = None,
    relations: GrainSizeRelations | None = None,
) -> StructureMeasurement:
    """Count grains, intercepts and axial crossings of a labelled picture.

    Assumes that the labels are right, twins merged as the labels say, and that
    the picture is one plane section. The intervals speak for this picture only:
    they know nothing of other fields, strands and cables, nor of boundaries
    that the method could not show.

    Parameters
    ----------
    structure : LabelledStructure
        Labels of one picture.
    pixel_size : Quantity or None
        Size of a pixel [um] with its standard uncertainty; above 0. None when
        no scale is known: then there are counts and pixel lengths, no G.
    rules : CountingRules, optional
        Options and thresholds; None takes `counting_rules`.
    relations : GrainSizeRelations, optional
        Constants of G; None takes the package's ``"e112"`` form.

    Returns
    -------
    StructureMeasurement
        All strands, the picture pooled, and the flags.

    Raises
    ------
    UnitError
        If the pixel size is not in um.
    ParameterError
        If the pixel size is not above 0, or labels and strands do not belong
        together.

    Examples
    --------
    >>> import numpy as np
    >>> from strandproof.records import LabelledStructure, Strand
    >>> grains = np.repeat([[1, 2, 3, 4]], 40, axis=0).repeat(10, axis=1)
    >>> strand = Strand(
    ...     number=1, area_px=1600.0, centroid_px=(19.5, 19.5), length_px=40.0,
    ...     width_px=40.0, axis_deg=0.0, shape="field", verdict="poly",
    ...     verdict_reason="drawn so",
    ... )
    >>> structure = LabelledStructure(
    ...     grain_labels=grains.astype(np.int32),
    ...     strand_labels=np.ones((40, 40), np.int32), strands=(strand,),
    ...     flags=(), method="drawn", method_version="1",
    ... )
    >>> result = measure(structure, pixel_size=Quantity(0.5, "um", 0.001))
    >>> result.picture.count.equivalent
    1.0
    >>> measure(structure, pixel_size=None).picture.g_intercept is None
    True
    """
    if pixel_size is not None:
        require_pixel_size(pixel_size)
    carried = _carried_flags(structure, pixel_size)
    settings = _Settings(
        pixel_size=pixel_size,
        rules=rules or counting_rules(),
        relations=relations or package_relations(),
        states_g=not any(flag.definition.blocks_grain_size for flag in carried),
    )
    pieces = [
        _piece(strand, patch, settings.rules)
        for strand, patch in zip(
            structure.strands, strand_patches(structure), strict=True
        )
    ]
    return _measured(structure, pieces, settings, carried)


def _carried_flags(
    structure: LabelledStructure, pixel_size: Quantity | None
) -> tuple[Flag, ...]:
    # A segmentation cannot know that a scale is given here.
    labels = (
        flag
        for flag in structure.flags
        if pixel_size is None or flag.name != "no_scale"
    )
    return without_repeats((*labels, *scale_flags(pixel_size)))


def _piece(strand: Strand, patch: MetalPatch, rules: CountingRules) -> _Piece:
    axis_deg = strand.axis_deg or 0.0
    side_view = strand.shape != "round"
    lines = walk_patch(patch, axis_deg=axis_deg, has_axis=side_view, rules=rules)
    mean = intercept_count([lines], rules=rules).mean_intercept
    axial: tuple[WalkedLine, ...] = ()
    if side_view:
        axial = axial_lines(
            patch,
            strand,
            axis_deg=axis_deg,
            mean_intercept_px=None if mean is None else mean.quantity.value,
            rules=rules,
        )
    return _Piece(
        strand=strand,
        axis_deg=axis_deg,
        count=count_grains(patch.labels, patch.metal, frame_rule=rules.frame_rule),
        lines=lines,
        axial=axial,
        areas=area_tally(patch, lines.grid),
    )


def _measured(
    structure: LabelledStructure,
    pieces: Sequence[_Piece],
    settings: _Settings,
    carried: tuple[Flag, ...],
) -> StructureMeasurement:
    strands = tuple(_strand_measurement(piece, settings) for piece in pieces)
    flags = [*carried, *(flag for strand in strands for flag in strand.flags)]
    picture = None
    if pieces:
        count = _pooled_count([piece.count for piece in pieces])
        intercepts = _intercepts(pieces, settings)
        side_view = all(piece.lines.has_axis for piece in pieces)
        flags += count_flags(
            count, intercepts, rules=settings.rules, side_view=side_view
        )
        flags.append(Flag("one_field", "1 picture"))
        picture = _values(
            pieces, count, intercepts, _pooled_crossings(pieces, settings), settings
        )
    return StructureMeasurement(
        method=structure.method,
        method_version=structure.method_version,
        pixel_size=settings.pixel_size,
        rules=settings.rules,
        relation_form=settings.relations.form,
        picture=picture,
        strands=strands,
        flags=without_repeats(flags),
    )


def _strand_measurement(piece: _Piece, settings: _Settings) -> StrandMeasurement:
    strand, rules = piece.strand, settings.rules
    intercepts = _intercepts([piece], settings)
    across = _grains_across(strand, intercepts)
    flags = (
        *count_flags(
            piece.count,
            intercepts,
            rules=rules,
            side_view=piece.lines.has_axis,
            strand=strand.number,
        ),
        *strand_flags(strand, across, rules=rules),
    )
    crossings = axial_crossings(piece.axial, pixel_size=settings.pixel_size)
    return StrandMeasurement(
        number=strand.number,
        shape=strand.shape,
        verdict=strand.verdict,
        verdict_reason=strand.verdict_reason,
        axis_deg=piece.axis_deg,
        grains_across=across,
        values=_values([piece], piece.count, intercepts, crossings, settings),
        flags=flags,
    )


def _intercepts(pieces: Sequence[_Piece], settings: _Settings) -> InterceptCount:
    return intercept_count([piece.lines for piece in pieces], rules=settings.rules)


def _grains_across(strand: Strand, intercepts: InterceptCount) -> float | None:
    # A round face has no direction of its own; others are measured across.
    across = intercepts.mean_intercept
    if strand.shape != "round":
        across = intercepts.directions[2].mean_intercept
    if strand.shape == "field" or across is None:
        return None
    return strand.width_px / across.quantity.value


def _pooled_count(counts: Sequence[GrainCount]) -> GrainCount:
    return GrainCount(
        inside=sum(count.inside for count in counts),
        cut=sum(count.cut for count in counts),
        equivalent=sum(count.equivalent for count in counts),
        area=Quantity(sum(count.area.value for count in counts), "px^2"),
    )


def _pooled_crossings(
    pieces: Sequence[_Piece], settings: _Settings
) -> AxialCrossings | None:
    """One rate for the picture, where the strands agree whether there is one."""
    seen = [piece.axial for piece in pieces if piece.axial]
    crossed = {any(line.traverse.crossings for line in lines) for lines in seen}
    if len(crossed) != 1:
        return None
    lines = [line for each in seen for line in each]
    return axial_crossings(lines, pixel_size=settings.pixel_size)


def _values(
    pieces: Sequence[_Piece],
    count: GrainCount,
    intercepts: InterceptCount,
    crossings: AxialCrossings | None,
    settings: _Settings,
) -> GrainMeasurement:
    pixel_size, relations = settings.pixel_size, settings.relations
    scaled = _scaled_intercepts(intercepts, pixel_size)
    mean = scaled.mean_intercept
    # Pieces without a boundary inside have a size of their own, no grain size.
    areas = joined_areas([piece.areas for piece in pieces])
    density = None if mean is None else _scaled_density(count, areas, settings)
    g_planimetric = g_intercept = None
    if settings.states_g and density is not None and mean is not None:
        g_planimetric = planimetric_g_estimate(density, relations=relations)
        g_intercept = intercept_g_estimate(mean, relations=relations)
    return GrainMeasurement(
        count=replace(
            count, area=scaled_quantity(count.area, pixel_size, SQUARE_MILLIMETRES)
        ),
        grains_per_area=density,
        intercepts=scaled,
        g_planimetric=g_planimetric,
        g_intercept=g_intercept,
        axial_crossings=crossings,
    )


def _scaled_density(
    count: GrainCount, areas: AreaTally, settings: _Settings
) -> Estimate | None:
    density = grains_per_area(
        count, scatter=areas, minimum_blocks=settings.rules.minimum_blocks
    )
    if density is None:
        return None
    return scaled_estimate(density, settings.pixel_size, PER_SQUARE_MILLIMETRE)


def _scaled_intercepts(
    intercepts: InterceptCount, pixel_size: Quantity | None
) -> InterceptCount:
    return replace(
        intercepts,
        directions=tuple(
            _scaled_direction(direction, pixel_size)
            for direction in intercepts.directions
        ),
        mean_intercept=_scaled_length(intercepts.mean_intercept, pixel_size),
        length=scaled_quantity(intercepts.length, pixel_size, MILLIMETRES),
    )


def _scaled_direction(
    direction: DirectionalIntercept, pixel_size: Quantity | None
) -> DirectionalIntercept:
    return replace(
        direction,
        length=scaled_quantity(direction.length, pixel_size, MILLIMETRES),
        mean_intercept=_scaled_length(direction.mean_intercept, pixel_size),
    )


def _scaled_length(
    estimate: Estimate | None, pixel_size: Quantity | None
) -> Estimate | None:
    if estimate is None:
        return None
    return scaled_estimate(estimate, pixel_size, MICROMETRES)
