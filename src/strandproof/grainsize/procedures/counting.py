"""All procedures on a labelled picture, and what may be said of a mean."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace

import numpy as np

from strandproof.errors import ParameterError
from strandproof.grainsize.crossings import axial_crossings, axial_lines
from strandproof.grainsize.flagging import scale_flags, without_repeats
from strandproof.grainsize.intercepts import PatchLines, intercept_count, walk_patch
from strandproof.grainsize.patch import MetalPatch, strand_patches
from strandproof.grainsize.planimetric import count_grains, grains_per_area
from strandproof.grainsize.procedures.areas import (
    jeffries_circle,
    saltykov_rectangle,
    triple_point_count,
    whole_area,
)
from strandproof.grainsize.procedures.densities import boundary_density, twin_density
from strandproof.grainsize.procedures.difference import method_difference
from strandproof.grainsize.procedures.duplex import duplex_kinds
from strandproof.grainsize.procedures.given_labels import with_twins_apart
from strandproof.grainsize.procedures.largest import largest_grain
from strandproof.grainsize.procedures.lines import (
    heyn_lines,
    single_circle,
    three_circles,
)
from strandproof.grainsize.procedures.settings import ProcedureSettings
from strandproof.grainsize.procedures.standing import (
    SeenStructure,
    grains_across_of,
    mean_standing,
)
from strandproof.grainsize.procedures.statistics import (
    WholeGrains,
    whole_grains,
    whole_picture_statistics,
)
from strandproof.grainsize.scaling import MICROMETRES, scaled_estimate
from strandproof.records import Flag, LabelledStructure, Strand
from strandproof.records.measurement import AxialCrossings, InterceptCount
from strandproof.records.procedures import AreaCount, LineCount
from strandproof.records.structure_findings import (
    DuplexKind,
    MeanStanding,
    MethodDifference,
    PictureCounts,
    StrandCounts,
    TwinDensity,
)

AREA_PROCEDURES: dict[str, Callable[[MetalPatch, ProcedureSettings], AreaCount]] = {
    "jeffries_circle": jeffries_circle,
    "saltykov_rectangle": saltykov_rectangle,
    "triple_points": triple_point_count,
    "whole_area": whole_area,
}
CIRCLE_PROCEDURES: dict[str, Callable[[MetalPatch, ProcedureSettings], LineCount]] = {
    "single_circle": single_circle,
    "three_circles": three_circles,
}
PROCEDURES = (*AREA_PROCEDURES, "heyn_lines", *CIRCLE_PROCEDURES)
"""Names of all procedures."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Piece:
    """One strand with what its procedures share."""

    strand: Strand
    patch: MetalPatch
    twins: MetalPatch | None
    walked: PatchLines
    intercepts: InterceptCount
    grains: WholeGrains
    settings: ProcedureSettings

    @property
    def axis_deg(self) -> float:
        return self.strand.axis_deg or 0.0

    @property
    def has_axis(self) -> bool:
        return self.strand.axis_deg is not None and self.strand.shape != "round"


def count_structure(
    structure: LabelledStructure,
    settings: ProcedureSettings,
    *,
    procedures: Iterable[str] = PROCEDURES,
    with_twins: LabelledStructure | None = None,
) -> PictureCounts:
    """Count a labelled picture by several procedures, strand by strand.

    Assumes that the labels are right and that the picture is one plane section.
    Where a mean grain size is not legitimate, no procedure states a G.

    Parameters
    ----------
    structure : LabelledStructure
        Labels of one picture, twins merged.
    settings : ProcedureSettings
        Scale, rules and scores.
    procedures : iterable of str
        Names out of `PROCEDURES`.
    with_twins : LabelledStructure, optional
        The same picture with every twin a region of its own; None takes the twin
        boundaries of the structure, where it knows them.

    Returns
    -------
    PictureCounts
        Counts, spread, density, twins, largest grain, kinds of duplex, difference
        of methods, boundaries along the axis, and the standing of a mean.

    Raises
    ------
    ParameterError
        If a procedure is unknown, or the labels do not belong together.
    """
    names = tuple(dict.fromkeys(procedures))
    for name in names:
        if name not in PROCEDURES:
            raise ParameterError("procedure", name, allowed=", ".join(PROCEDURES))
    flags = without_repeats(
        (
            *(flag for flag in structure.flags if flag.name != "no_scale"),
            *scale_flags(settings.pixel_size),
        )
    )
    states_g = not any(flag.definition.blocks_grain_size for flag in flags)
    patches = strand_patches(structure)
    twinned = with_twins or with_twins_apart(structure)
    twin_patches: Sequence[MetalPatch | None] = [None] * len(patches)
    if twinned is not None:
        twin_patches = strand_patches(twinned)
    strands = tuple(
        _counted(_piece(*each, settings), names, states_g=states_g)
        for each in zip(structure.strands, patches, twin_patches, strict=True)
    )
    one_field = (Flag("one_field", "1 picture"),) if strands else ()
    return PictureCounts(
        method=structure.method,
        method_version=structure.method_version,
        pixel_size=settings.pixel_size,
        rules=settings.rules,
        scoring=settings.scoring,
        relation_form=settings.relations.form,
        magnification=settings.magnification,
        strands=strands,
        flags=without_repeats((*flags, *one_field)),
    )


def _piece(
    strand: Strand,
    patch: MetalPatch,
    twins: MetalPatch | None,
    settings: ProcedureSettings,
) -> _Piece:
    walked = walk_patch(
        patch,
        axis_deg=strand.axis_deg or 0.0,
        has_axis=strand.shape != "round",
        rules=settings.rules,
    )
    return _Piece(
        strand=strand,
        patch=patch,
        twins=twins,
        walked=walked,
        intercepts=intercept_count([walked], rules=settings.rules),
        grains=whole_grains(patch),
        settings=settings,
    )


def _counted(piece: _Piece, names: Sequence[str], *, states_g: bool) -> StrandCounts:
    settings = piece.settings
    mean = piece.intercepts.mean_intercept
    duplex = duplex_kinds(
        piece.patch, piece.grains, axis_deg=piece.axis_deg if piece.has_axis else None
    )
    standing = _standing(piece, duplex)
    says_g = states_g and standing.may_state_mean
    lines = [line for each in piece.walked.lines for line in each]
    areas, counted_lines = _by_procedures(piece, names, says_g=says_g)
    return StrandCounts(
        number=piece.strand.number,
        shape=piece.strand.shape,
        axis_deg=piece.strand.axis_deg,
        areas=areas,
        lines=counted_lines,
        statistics=whole_picture_statistics(
            piece.grains, lines, pixel_size=settings.pixel_size
        ),
        density=None
        if mean is None or not standing.may_state_mean
        else boundary_density(scaled_estimate(mean, settings.pixel_size, MICROMETRES)),
        twins=_twins(piece),
        largest=largest_grain(piece.patch, settings),
        duplex=duplex,
        difference=_difference(piece) if standing.may_state_mean else None,
        crossings=_crossings(piece),
        standing=standing,
    )


def _by_procedures(
    piece: _Piece, names: Sequence[str], *, says_g: bool
) -> tuple[tuple[AreaCount, ...], tuple[LineCount, ...]]:
    patch, settings = piece.patch, piece.settings
    areas = [
        AREA_PROCEDURES[name](patch, settings)
        for name in names
        if name in AREA_PROCEDURES
    ]
    lines = [
        CIRCLE_PROCEDURES[name](patch, settings)
        if name in CIRCLE_PROCEDURES
        else heyn_lines(patch, settings, walked=piece.walked)
        for name in names
        if name not in AREA_PROCEDURES
    ]
    if says_g:
        return tuple(areas), tuple(lines)
    return (
        tuple(
            replace(
                area, g=None, effects=tuple(replace(e, g=None) for e in area.effects)
            )
            for area in areas
        ),
        tuple(
            replace(
                line, g=None, effects=tuple(replace(e, g=None) for e in line.effects)
            )
            for line in lines
        ),
    )


def _standing(piece: _Piece, duplex: tuple[DuplexKind, ...]) -> MeanStanding:
    strand, mean = piece.strand, piece.intercepts.mean_intercept
    along, _, across, _ = (
        direction.mean_intercept for direction in piece.intercepts.directions
    )
    width_in = mean if strand.shape == "round" else across
    grains_across = None
    if strand.shape != "field" and width_in is not None:
        grains_across = grains_across_of(strand.width_px, width_in.quantity.value)
    elif strand.shape != "field" and mean is not None:
        # Not one line across met a boundary: the grains fill the strand's width.
        grains_across = 1.0
    both = None
    if piece.has_axis and along is not None and across is not None:
        size = (
            1.0
            if piece.settings.pixel_size is None
            else (piece.settings.pixel_size.value)
        )
        unit = "px" if piece.settings.pixel_size is None else "um"
        both = (along.quantity.value * size, across.quantity.value * size, unit)
    count = count_grains(
        piece.patch.labels,
        piece.patch.metal,
        frame_rule=piece.settings.rules.frame_rule,
    )
    seen = SeenStructure(
        boundary_seen=mean is not None,
        is_round_face=strand.shape == "round",
        grains_across=grains_across,
        along_across=both,
        equivalent_grains=count.equivalent if mean is not None else None,
    )
    return mean_standing(seen, duplex=duplex, rules=piece.settings.rules)


def _difference(piece: _Piece) -> MethodDifference | None:
    count = count_grains(
        piece.patch.labels,
        piece.patch.metal,
        frame_rule=piece.settings.rules.frame_rule,
    )
    density, mean = grains_per_area(count), piece.intercepts.mean_intercept
    if density is None or mean is None:
        return None
    return method_difference(
        density,
        mean,
        piece.grains,
        elongation=piece.intercepts.elongation if piece.has_axis else None,
        relations=piece.settings.relations,
    )


def _twins(piece: _Piece) -> TwinDensity | None:
    if piece.twins is None:
        return None
    mean = piece.intercepts.mean_intercept
    spacing = (
        float(np.sqrt(np.count_nonzero(piece.patch.metal)))
        if mean is None
        else mean.quantity.value
    )
    return twin_density(
        piece.patch,
        piece.twins,
        axis_deg=piece.axis_deg,
        spacing_px=spacing,
        rules=piece.settings.rules,
        pixel_size=piece.settings.pixel_size,
    )


def _crossings(piece: _Piece) -> AxialCrossings | None:
    if piece.strand.shape == "round":
        return None
    mean = piece.intercepts.mean_intercept
    lines = axial_lines(
        piece.patch,
        piece.strand,
        axis_deg=piece.axis_deg,
        mean_intercept_px=None if mean is None else mean.quantity.value,
        rules=piece.settings.rules,
    )
    return axial_crossings(lines, pixel_size=piece.settings.pixel_size)
