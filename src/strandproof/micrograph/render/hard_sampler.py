"""Random hardships: what is drawn on top of the plain parameters of a section."""

from dataclasses import replace
from math import isfinite

from strandproof.micrograph.render.appearance import (
    BAR_BOXES,
    BAR_CORNERS,
    Etch,
    Groove,
    Preparation,
    ScaleBar,
)
from strandproof.micrograph.render.draw import Draw
from strandproof.micrograph.render.hardships import (
    Deformation,
    Dots,
    Resin,
    Unreadable,
    Wear,
)
from strandproof.micrograph.render.parameters import SectionParameters
from strandproof.micrograph.render.population import TwinHabit

_WIDE_PX = 4.0  # grooves from this width on may be hollow
_LINE_DEPTH = 0.3  # lines from this depth on may show a twin without contrast


def made_harder(
    parameters: SectionParameters, draw: Draw, thinnest_px: float
) -> SectionParameters:
    """Add hardships to the parameters of a section, each with its own chance.

    Parameters
    ----------
    parameters : SectionParameters
        Plain parameters.
    draw : Draw
        Source of chance.
    thinnest_px : float
        Mean intercept across the finest grains [px]; infinite for one crystal.

    Returns
    -------
    SectionParameters
        Parameters with hardships. Single crystals get those that look like
        boundaries most often.
    """
    single = parameters.population.family == "single"
    # A kink beside twins could not be told from one.
    kinked = parameters.population.twins is None
    etch = _etch(draw, parameters.etch, thinnest_px, single=single, kinked=kinked)
    hue_only = etch.hue_contrast > 0 and etch.grey_contrast <= 0.03
    habit = parameters.population.twins
    if habit is not None:
        twins = _twins(draw, habit)
        population = replace(parameters.population, twins=twins)
        etch = _twin_look(draw, etch, hue_only=hue_only)
        parameters = replace(parameters, population=population)
    camera = parameters.camera
    return replace(
        parameters,
        etch=etch,
        preparation=_preparation(draw, parameters.preparation, single=single),
        # Hue alone tells nothing to a grey camera.
        camera=replace(camera, colour=True) if hue_only else camera,
        scale_bar=_scale_bar(draw, parameters.scale_bar),
    )


def _etch(
    draw: Draw, etch: Etch, thinnest_px: float, *, single: bool, kinked: bool
) -> Etch:
    etch = replace(
        etch,
        slip_traces=_slip(draw, etch, 0.35 if single else 0.2),
        deformation=_deformation(draw, single=single, kinked=kinked),
        dots=_dots(draw, thinnest_px, 0.25 if single else 0.18),
        groove=_groove(draw, etch.groove),
        relief_softness_px=draw.sometimes("relief_softness_px", 0.25),
    )
    if etch.hue_contrast == 0:
        return etch
    return _hue_only(draw, etch) if draw.chance(0.4) else etch


def _slip(draw: Draw, etch: Etch, probability: float) -> float:
    """Strength of slip: what was drawn before, or in some pictures more."""
    return max(etch.slip_traces, draw.sometimes("slip_traces", probability))


def _deformation(draw: Draw, *, single: bool, kinked: bool) -> Deformation:
    hard_slip = draw.chance(0.6)
    slip = Deformation(
        slip_crowding=draw.value("slip_crowding") if hard_slip else 1.0,
        slip_darkness=draw.value("slip_darkness") if hard_slip else 0.6,
        slip_persistence=draw.sometimes("slip_persistence", 0.5),
    )
    return replace(
        slip,
        bands=draw.sometimes("bands", 0.52 if single else 0.26),
        band_spacing_px=draw.value("band_spacing_px"),
        band_edge_px=draw.value("band_edge_px"),
        band_hue=draw.value("band_hue"),
        kinks=draw.sometimes("kinks", 0.3 if single else 0.1) if kinked else 0.0,
        banded_fraction=1.0 if single else 0.6,
    )


def _dots(draw: Draw, thinnest_px: float, probability: float) -> Dots:
    radius = draw.value("dots radius_px")
    if isfinite(thinnest_px):  # larger pits would bury the grains
        radius = max(0.8, min(radius, 0.1 * thinnest_px))
    return Dots(
        coverage=draw.sometimes("dots coverage", probability),
        radius_px=radius,
        rim=draw.sometimes("dots rim", 0.5),
        clustering=draw.value("dots clustering"),
    )


def _groove(draw: Draw, groove: Groove) -> Groove:
    hollow = draw.sometimes("hollow", 0.35)
    return replace(
        groove,
        hollow=hollow if groove.width_px >= _WIDE_PX else 0.0,
        one_sided=draw.sometimes("one_sided", 0.12),
        beaded=draw.sometimes("beaded", 0.1),
        offset_px=draw.sometimes("offset_px", 0.5),
    )


def _hue_only(draw: Draw, etch: Etch) -> Etch:
    """Grains that differ by hue alone, clearer than the film is uneven."""
    return replace(
        etch,
        grey_contrast=draw.value("grey_contrast, hue only"),
        hue_contrast=draw.value("hue_contrast, hue only"),
        groove=replace(etch.groove, depth=0.0),
        relief=0.2 * etch.relief,
        film_unevenness=min(draw.value("film_unevenness"), 0.35 * etch.hue_spread),
        soft_transition_px=draw.sometimes("soft_transition_px", 0.6),
    )


def _twins(draw: Draw, habit: TwinHabit) -> TwinHabit:
    return replace(
        habit,
        stepped_fraction=draw.value("stepped_fraction"),
        shaped_end_fraction=draw.value("shaped_end_fraction"),
        thin_fraction=draw.sometimes("thin_fraction", 0.5),
        ending_fraction=draw.value("ending_fraction"),
        corner_fraction=draw.value("corner_fraction"),
    )


def _twin_look(draw: Draw, etch: Etch, *, hue_only: bool) -> Etch:
    """Make some twins lines without contrast, some contrast without lines."""
    look = draw.one_of(("both", "lines", "contrast"), (0.66, 0.17, 0.17))
    contrast = draw.value("lines-only twin_contrast")
    share = draw.value("lines-only twin_share")
    has_lines = etch.groove.depth >= _LINE_DEPTH
    if look == "lines" and has_lines and not hue_only:
        groove = replace(etch.groove, twin_share=share)
        return replace(etch, twin_contrast=contrast, groove=groove)
    shaded = etch.grey_contrast >= 0.1 or etch.hue_contrast > 0
    if look == "contrast" and shaded:
        return replace(etch, groove=replace(etch.groove, twin_share=0.0))
    return etch


def _preparation(draw: Draw, plain: Preparation, *, single: bool) -> Preparation:
    # Bright resin stands for mounts of other make than the usual dark ones.
    bright = draw.value("bright resin_brightness")
    return replace(
        plain,
        wear=_wear(draw, 0.7 if single else 0.25),
        unreadable=_unreadable(draw),
        resin=Resin(
            fillers_per_mpx=draw.sometimes("resin fillers_per_mpx", 0.3),
            halo=draw.sometimes("resin halo", 0.4),
            structure=draw.sometimes("resin structure", 0.25),
        ),
        pore_rim=draw.value("pore_rim") if draw.chance(0.5) else 1.0,
        resin_brightness=bright if draw.chance(0.2) else plain.resin_brightness,
    )


def _wear(draw: Draw, probability: float) -> Wear:
    return Wear(
        deep_scratches=draw.sometimes("deep_scratches", probability),
        deep_scratch_depth=draw.value("deep_scratch_depth"),
        deep_scratch_width_px=draw.value("deep_scratch_width_px"),
        deep_scratch_directions=draw.whole(1, 3),
        deep_scratch_bow=draw.value("deep_scratch_bow"),
        deep_scratch_flank=draw.value("deep_scratch_flank"),
        fine_scratches=draw.sometimes("fine_scratches", 0.5 * probability),
        fine_scratch_spacing_px=draw.value("fine_scratch_spacing_px"),
        stringers_per_mpx=draw.sometimes("stringers_per_mpx", 0.1),
    )


def _unreadable(draw: Draw) -> Unreadable:
    return Unreadable(
        defocus_fraction=draw.sometimes("defocus_fraction", 0.12),
        glare_fraction=draw.sometimes("glare_fraction", 0.1),
        smear_fraction=draw.sometimes("smear_fraction", 0.12),
        defocus_blur_px=draw.value("defocus_blur_px"),
    )


def _scale_bar(draw: Draw, plain: ScaleBar | None) -> ScaleBar | None:
    corner = draw.one_of(BAR_CORNERS, (1, 1, 1, 1))
    boxed = ScaleBar(
        corner=corner,
        with_text=draw.chance(0.8),
        box=draw.one_of(BAR_BOXES, (1, 1)),
        padding=draw.value("bar padding"),
        inset_px=round(draw.value("bar inset_px")),
    )
    return boxed if draw.chance(0.15) else plain
