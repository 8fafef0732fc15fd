"""Draw contact sheets of what makes sections hard to read, to be looked at.

Usage: ``python benchmarks/render_hardship_sheet.py FOLDER [first_seed]``. Writes PNG
files into the folder; every picture carries the mark SYNTHETIC.
"""

import sys
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import numpy as np
from render_contact_sheet import (
    CLEAN,
    SINGLE,
    TILE,
    TWINNED,
    Tile,
    answers,
    layout,
    marked,
    sheet,
    write_sheets,
)

from strandproof.micrograph.render import (
    Deformation,
    Dots,
    Etch,
    GrainPopulation,
    Groove,
    Preparation,
    Resin,
    ScaleBar,
    SectionParameters,
    TwinHabit,
    Unreadable,
    Wear,
    random_section_parameters,
    render_section,
)

COARSE = GrainPopulation(family="equiaxed", mean_intercept_um=110)
DETAILED = GrainPopulation(
    family="twinned",
    mean_intercept_um=110,
    twins=TwinHabit(
        grain_fraction=1,
        mean_lamellae=3,
        ending_fraction=0.9,
        shaped_end_fraction=1,
        thin_fraction=0.3,
        stepped_fraction=0.6,
    ),
)
BARE = Groove(depth=0.0)


def banded(seed: int) -> Tile:
    """Bands, kinks and hard slip in one crystal and in many."""
    forms = (
        Deformation(bands=1, band_spacing_px=40, band_edge_px=2, banded_fraction=1),
        Deformation(bands=1, band_edge_px=15, band_hue=1, banded_fraction=1),
        Deformation(kinks=1, band_spacing_px=60, banded_fraction=1),
        Deformation(slip_crowding=4, slip_darkness=0.9),
        Deformation(slip_persistence=1, slip_darkness=0.9),
    )
    return _etched(
        [
            (population, Etch(deformation=form, slip_traces=0.9 * (k > 2)))
            for population in (SINGLE, COARSE)
            for k, form in enumerate(forms)
        ],
        seed,
        5,
    )


def worn(seed: int) -> Tile:
    """Deep and fine scratches, stringers and pits all over."""
    wears = (
        Wear(deep_scratches=10, deep_scratch_depth=0.9, deep_scratch_directions=3),
        Wear(deep_scratches=8, deep_scratch_width_px=4, deep_scratch_bow=0.08),
        Wear(fine_scratches=0.35, fine_scratch_spacing_px=4),
        Wear(stringers_per_mpx=60),
    )
    dots = (
        Dots(coverage=0.02, radius_px=1.5),
        Dots(coverage=0.06, radius_px=3, rim=1, clustering=1),
        Dots(coverage=0.06, radius_px=2, rim=-1),
    )
    tiles = [
        SectionParameters(
            population=population, preparation=replace(CLEAN, wear=wear), shape=TILE
        )
        for population in (SINGLE, TWINNED)
        for wear in wears
    ]
    tiles += [
        SectionParameters(
            population=TWINNED, etch=Etch(dots=item), preparation=CLEAN, shape=TILE
        )
        for item in dots
    ]
    pores = replace(CLEAN, pores_per_mpx=100, pore_rim=-2)
    tiles.append(SectionParameters(population=SINGLE, preparation=pores, shape=TILE))
    return sheet([marked(render_section(item, seed=seed)) for item in tiles], 4)


def unreadable(seed: int) -> Tile:
    """Patches that hide the metal, and their masks; boxes with scale bars."""
    patches = (
        Unreadable(defocus_fraction=0.3, defocus_blur_px=8),
        Unreadable(glare_fraction=0.2),
        Unreadable(smear_fraction=0.3),
        Unreadable(smear_fraction=0.15, glare_fraction=0.1),
    )
    bars = (
        ScaleBar(box="white", padding=3, inset_px=20),
        ScaleBar(box="black", padding=5, corner="top-right"),
        ScaleBar(box="white", with_text=False, inset_px=50),
        ScaleBar(box="white", corner="bottom-left"),
    )
    plain = SectionParameters(population=TWINNED, preparation=CLEAN, shape=TILE)
    sections = [
        render_section(
            replace(plain, preparation=replace(CLEAN, unreadable=item)), seed=seed + k
        )
        for k, item in enumerate(patches)
    ]
    boxed = [render_section(replace(plain, scale_bar=bar), seed=seed) for bar in bars]
    tiles = [marked(one) for one in sections] + [answers(one) for one in sections]
    return sheet(tiles + [marked(one) for one in boxed], 4)


def hard_lines(seed: int) -> Tile:
    """Draw ends and looks of twins, other grooves, grains by hue alone."""
    lines = Etch(grey_contrast=0.2, twin_contrast=0.03, groove=Groove(twin_share=0.9))
    contrast = Etch(grey_contrast=0.25, groove=Groove(twin_share=0.0))
    grooves = (
        Groove(width_px=12, hollow=1, depth=0.8),
        Groove(width_px=6, one_sided=1, depth=0.8),
        Groove(width_px=4, beaded=1, depth=0.8),
        Groove(width_px=15, depth=0.8),
    )
    hues = [
        Etch(
            grey_contrast=0.02,
            hue_contrast=0.9,
            hue_spread=spread,
            groove=BARE,
            relief=0.0,
            film_unevenness=0.1 * spread,
            soft_transition_px=soft,
        )
        for spread, soft in ((0.2, 1.0), (0.4, 4.0), (1.0, 2.0))
    ]
    cases = [(DETAILED, Etch()), (DETAILED, lines), (DETAILED, contrast)]
    cases += [(COARSE, Etch(groove=groove)) for groove in grooves]
    cases += [(TWINNED, hue) for hue in hues]
    cases += [(COARSE, Etch(relief=0.6, relief_softness_px=5))]
    return _etched(cases, seed, 4)


def mounts(seed: int) -> Tile:
    """Resins and metal edges of other kinds."""
    resins = (
        (Resin(fillers_per_mpx=3000), 0.2),
        (Resin(halo=1), 0.1),
        (Resin(halo=-1), 0.7),
        (Resin(structure=1), 0.5),
        (Resin(structure=0.7, fillers_per_mpx=800, halo=0.5), 0.9),
        (Resin(halo=-1, structure=0.5), 0.08),
    )
    tiles = []
    for k, (resin, brightness) in enumerate(resins):
        parameters = SectionParameters(
            population=TWINNED,
            layout=layout("round" if k % 2 else "long"),
            preparation=Preparation(resin=resin, resin_brightness=brightness),
            shape=TILE,
        )
        tiles.append(marked(render_section(parameters, seed=seed + k)))
    return sheet(tiles, 3)


def _etched(cases: list[tuple[GrainPopulation, Etch]], seed: int, columns: int) -> Tile:
    tiles = []
    for population, etch in cases:
        parameters = SectionParameters(
            population=population, etch=etch, preparation=CLEAN, shape=TILE
        )
        tiles.append(marked(render_section(parameters, seed=seed)))
    return sheet(tiles, columns)


def single_crystals(seed: int) -> Tile:
    """Random single crystals, which hold no boundary at all."""
    generator = np.random.default_rng(seed)
    tiles = []
    for _ in range(15):
        parameters = random_section_parameters(
            generator, family="single", arrangement="field", shape=TILE
        )
        tiles.append(marked(render_section(parameters, seed=generator)))
    return sheet(tiles, 5)


SHEETS: dict[str, Callable[[int], Tile]] = {
    "bands": banded,
    "wear": worn,
    "unreadable": unreadable,
    "lines": hard_lines,
    "mounts": mounts,
    "single-crystals": single_crystals,
}


if __name__ == "__main__":
    given_seed = int(sys.argv[2]) if len(sys.argv) > 2 else 1
    write_sheets(SHEETS, Path(sys.argv[1]), given_seed)
