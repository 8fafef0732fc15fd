"""Parameters of drawn sections without any hardship, for the rates of the flags."""

from dataclasses import replace

import numpy as np

from strandproof.micrograph.render import (
    Camera,
    Deformation,
    Dots,
    GrainFamily,
    SectionParameters,
    StrandArrangement,
    Unreadable,
    Wear,
    random_section_parameters,
)

SHAPE = (512, 512)
FAMILIES: tuple[GrainFamily, ...] = ("equiaxed", "twinned", "bimodal", "drawn")
ARRANGEMENTS: tuple[StrandArrangement, ...] = ("field", "long")


def clean_parameters(seed: int) -> SectionParameters:
    """Draw a section that a practised eye would accept."""
    chance = np.random.default_rng(seed)
    drawn = random_section_parameters(
        chance,
        family=FAMILIES[seed % 4],
        arrangement=ARRANGEMENTS[seed // 4 % 2],
        shape=SHAPE,
    )
    intercept = float(chance.uniform(18, 28)) * drawn.um_per_px
    population = replace(
        drawn.population,
        mean_intercept_um=intercept,
        elongation=min(drawn.population.elongation, 4.0),
    )
    groove = replace(
        drawn.etch.groove,
        width_px=float(chance.uniform(1.2, 3)),
        depth=float(chance.uniform(0.4, 0.8)),
        faint_fraction=float(chance.uniform(0, 0.12)),
        gap_fraction=float(chance.uniform(0, 0.08)),
        spread=min(drawn.etch.groove.spread, 0.4),
        hollow=0.0,
        one_sided=0.0,
        beaded=0.0,
        offset_px=0.0,
    )
    etch = replace(
        drawn.etch,
        groove=groove,
        interior_strength=min(drawn.etch.interior_strength, 0.4),
        deformation_bands=0.0,
        deformation=Deformation(),
        slip_traces=0.0,
        dots=Dots(),
        film_unevenness=0.0,
        soft_transition_px=0.0,
        etch_pits_per_mpx=0.0,
    )
    layout = drawn.layout
    if layout.arrangement == "long":
        layout = replace(layout, width_um=0.85 * SHAPE[0] * drawn.um_per_px, count=1)
    return replace(
        drawn,
        population=population,
        layout=layout,
        etch=etch,
        preparation=replace(
            drawn.preparation,
            stain_fraction=0.0,
            pores_per_mpx=0.0,
            wear=Wear(),
            unreadable=Unreadable(),
        ),
        camera=_good_camera(chance, colour=drawn.camera.colour),
        scale_bar=None,
    )


def _good_camera(chance: np.random.Generator, *, colour: bool) -> Camera:
    return Camera(
        colour=colour,
        exposure=float(chance.uniform(0.6, 0.8)),
        blur_px=float(chance.uniform(0.4, 1.0)),
        light_gradient=float(chance.uniform(0, 0.12)),
        vignetting=float(chance.uniform(0, 0.12)),
        shot_noise=float(chance.uniform(0.006, 0.02)),
        read_noise=float(chance.uniform(0.002, 0.008)),
    )
