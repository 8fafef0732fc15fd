"""Random parameters over wide ranges, for training and benchmarks."""

from math import inf, sqrt

import numpy as np

from strandproof.micrograph.render.appearance import (
    BAR_CORNERS,
    INTERIOR_TEXTURES,
    Camera,
    Etch,
    Groove,
    Preparation,
    ScaleBar,
)
from strandproof.micrograph.render.calibration import fine_and_coarse
from strandproof.micrograph.render.draw import Draw
from strandproof.micrograph.render.hard_sampler import made_harder
from strandproof.micrograph.render.parameters import SectionParameters
from strandproof.micrograph.render.population import (
    GRAIN_FAMILIES,
    STRAND_ARRANGEMENTS,
    GrainFamily,
    GrainPopulation,
    StrandArrangement,
    StrandLayout,
    TwinHabit,
    require_one_of,
)

# How often each family, arrangement and manner of etching is drawn.
_FAMILY_WEIGHTS = (0.22, 0.32, 0.14, 0.08, 0.12, 0.12)
_ARRANGEMENT_WEIGHTS = (0.42, 0.16, 0.22, 0.08, 0.12)
_ETCH_STYLES = {
    "grooves": 0.34,
    "facets": 0.26,
    "film": 0.14,
    "over": 0.14,
    "under": 0.12,
}


def random_section_parameters(
    generator: np.random.Generator,
    *,
    family: GrainFamily | None = None,
    arrangement: StrandArrangement | None = None,
    shape: tuple[int, int] = (1024, 1024),
) -> SectionParameters:
    """Draw the parameters of a section over wide ranges.

    Parameters
    ----------
    generator : numpy.random.Generator
        Source of chance; the same state gives the same parameters.
    family : str or None
        Grain family; None draws one.
    arrangement : str or None
        Arrangement of strands; None draws one.
    shape : tuple of int
        Rows and columns, each 64 to 16384.

    Returns
    -------
    SectionParameters
        Parameters within `SAMPLING_RANGES`.

    Raises
    ------
    ParameterError
        If family, arrangement or shape are not allowed.

    Notes
    -----
    The ranges are judgement: wide enough to hold what a practised eye would
    accept, and some of what it would send back. They are no statistics of real
    preparations.

    Examples
    --------
    >>> import numpy as np
    >>> drawn = random_section_parameters(np.random.default_rng(4), family="drawn")
    >>> drawn.population.family
    'drawn'
    """
    draw = Draw(generator)
    kind = draw.given_or(family, GRAIN_FAMILIES, _FAMILY_WEIGHTS)
    place = draw.given_or(arrangement, STRAND_ARRANGEMENTS, _ARRANGEMENT_WEIGHTS)
    require_one_of("family", kind, GRAIN_FAMILIES)
    require_one_of("arrangement", place, STRAND_ARRANGEMENTS)
    um_per_px = draw.value("um_per_px")
    axis = draw.axis_deg()
    population = _population(draw, kind, place, um_per_px, axis)
    parameters = SectionParameters(
        population=population,
        layout=_layout(draw, place, um_per_px * min(shape), axis),
        etch=_etch(draw, population, um_per_px),
        preparation=_preparation(draw, kind),
        camera=_camera(draw),
        scale_bar=_scale_bar(draw),
        shape=shape,
        um_per_px=um_per_px,
    )
    # Draws added later stand at the end, so that the earlier ones stay the same.
    return made_harder(parameters, draw, _thinnest_px(population, um_per_px))


def _population(
    draw: Draw,
    family: GrainFamily,
    arrangement: StrandArrangement,
    um_per_px: float,
    axis: float,
) -> GrainPopulation:
    if family == "single":
        return GrainPopulation(family="single", mean_intercept_um=None)
    intercept, elongation = _size(draw, family, arrangement)
    may_twin = family in {"bimodal", "bamboo"}
    twinned = family == "twinned" or (may_twin and draw.chance(0.6))
    return GrainPopulation(
        family=family,
        mean_intercept_um=intercept * um_per_px,
        size_spread=draw.value("size_spread"),
        elongation=elongation,
        direction_deg=axis,
        # Drawn grains are not smoothed: strong bends would fold them.
        waviness=draw.value("waviness") * (0.5 if family == "drawn" else 1.0),
        fine_fraction=draw.value("fine_fraction"),
        fine_ratio=draw.value("fine_ratio"),
        twins=_twins(draw) if twinned else None,
    )


def _size(
    draw: Draw, family: GrainFamily, arrangement: StrandArrangement
) -> tuple[float, float]:
    """Mean intercept [px] and elongation."""
    if family == "bamboo":
        return draw.value("bamboo intercept, px"), 1.0
    if family == "drawn":
        # A round face is a cross-section: its grains are hardly elongated.
        crossways = arrangement in {"round", "bundle"}
        name = "elongation on round faces" if crossways else "drawn elongation"
        elongation = draw.value(name)
        return draw.value("drawn thickness, px") * sqrt(elongation), elongation
    elongation = draw.value("equiaxed elongation") if draw.chance(0.3) else 1.0
    name = "bimodal" if family == "bimodal" else "equiaxed"
    return draw.value(f"{name} intercept, px"), elongation


def _twins(draw: Draw) -> TwinHabit:
    return TwinHabit(
        grain_fraction=draw.value("twinned grain_fraction"),
        mean_lamellae=draw.value("mean_lamellae"),
    )


def _layout(
    draw: Draw, arrangement: StrandArrangement, side_um: float, axis: float
) -> StrandLayout:
    if arrangement == "field":
        return StrandLayout()
    width = draw.value(f"{arrangement} width, share of short side") * side_um
    thickness = width * draw.value("tape thickness, share of width")
    count = 1
    if arrangement == "bundle":
        count = draw.whole(2, 19)
    elif arrangement == "long" and draw.chance(0.35):
        count = draw.whole(2, 4)
        width /= count
    return StrandLayout(
        arrangement=arrangement,
        width_um=width,
        thickness_um=thickness if arrangement == "tape" else None,
        axis_deg=axis,
        count=count,
        touching_fraction=draw.value("touching_fraction"),
        gap_fraction=draw.value("gap_fraction"),
        roughness=draw.value("roughness"),
    )


def _etch(draw: Draw, population: GrainPopulation, um_per_px: float) -> Etch:
    style = draw.one_of(tuple(_ETCH_STYLES), tuple(_ETCH_STYLES.values()))
    single = population.family == "single"
    name = "facets" if style in {"facets", "film"} else "grooves"
    return Etch(
        grey_contrast=draw.value(f"grey_contrast, {name}")
        * (0.5 if style == "film" else 1.0),
        hue_contrast=draw.sometimes("hue_contrast, film", float(style == "film")),
        hue_spread=draw.value("hue_spread"),
        twin_contrast=draw.value("twin_contrast"),
        groove=_groove(draw, style, _thinnest_px(population, um_per_px)),
        interior=draw.one_of(INTERIOR_TEXTURES, (0.4, 0.25, 0.35)),
        interior_strength=draw.value("interior_strength"),
        relief=draw.value("relief"),
        slip_traces=draw.sometimes("slip_traces", 0.5 if single else 0.1),
        deformation_bands=draw.sometimes(
            "deformation_bands",
            0.5 if population.family in {"single", "drawn"} else 0.1,
        ),
        etch_pits_per_mpx=draw.sometimes("etch_pits_per_mpx", 0.4 if single else 0.08),
    )


def _thinnest_px(population: GrainPopulation, um_per_px: float) -> float:
    """Mean intercept across the finest grains [px]."""
    if population.mean_intercept_um is None:
        return inf
    thickness = population.mean_intercept_um / um_per_px / sqrt(population.elongation)
    if population.family == "bimodal":
        thickness = fine_and_coarse(population, thickness)[0]
    return thickness


def _groove(draw: Draw, style: str, thinnest_px: float) -> Groove:
    wide = "over-etched groove width_px" if style == "over" else "groove width_px"
    faint = "under-etched faint_fraction" if style == "under" else "faint_fraction"
    depth = draw.value("groove depth")
    bare_film = style == "film" and draw.chance(0.6)
    return Groove(
        # Lines wider than a third of the grains would bury them.
        width_px=max(1.0, min(draw.value(wide), 0.33 * thinnest_px)),
        depth=0.0 if bare_film else depth,
        spread=draw.value("groove spread"),
        faint_fraction=draw.value(faint),
        gap_fraction=draw.value("gap_fraction of grooves"),
        twin_share=draw.value("twin_share"),
    )


def _preparation(draw: Draw, family: GrainFamily) -> Preparation:
    scratched = 0.9 if family == "single" else 0.65
    return Preparation(
        scratches_per_mpx=draw.sometimes("scratches_per_mpx", scratched),
        scratch_depth=draw.value("scratch_depth"),
        scratch_scatter_deg=draw.value("scratch_scatter_deg"),
        comet_tails_per_mpx=draw.sometimes("comet_tails_per_mpx", 0.2),
        pits_per_mpx=draw.sometimes("pits_per_mpx", 0.75),
        pores_per_mpx=draw.sometimes("pores_per_mpx", 0.2),
        stain_fraction=draw.sometimes("stain_fraction", 0.2),
        edge_rounding_px=draw.value("edge_rounding_px"),
        resin_brightness=draw.value("resin_brightness"),
    )


def _camera(draw: Draw) -> Camera:
    quality = round(draw.value("jpeg_quality"))
    return Camera(
        colour=draw.chance(0.6),
        exposure=draw.value("exposure"),
        blur_px=draw.value("blur_px"),
        sharpening=draw.sometimes("sharpening", 0.3),
        light_gradient=draw.value("light_gradient"),
        vignetting=draw.value("vignetting"),
        shot_noise=draw.value("shot_noise"),
        read_noise=draw.value("read_noise"),
        jpeg_quality=quality if draw.chance(0.35) else None,
    )


def _scale_bar(draw: Draw) -> ScaleBar | None:
    corner = draw.one_of(BAR_CORNERS, (1, 1, 1, 1))
    bar = ScaleBar(corner=corner, with_text=draw.chance(0.8))
    return bar if draw.chance(0.15) else None
