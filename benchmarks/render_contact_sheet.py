"""Draw contact sheets of synthetic sections, to be looked at.

Usage: ``python benchmarks/render_contact_sheet.py FOLDER [first_seed]``. Writes PNG
files into the folder and prints the processor time of each picture at full size.
Every picture carries the mark SYNTHETIC.
"""

import sys
import time
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path

import numpy as np
import numpy.typing as npt
from skimage.io import imsave

from strandproof.micrograph.render import (
    GRAIN_FAMILIES,
    STRAND_ARRANGEMENTS,
    Camera,
    Etch,
    GrainPopulation,
    Groove,
    Preparation,
    ScaleBar,
    SectionParameters,
    StrandArrangement,
    StrandLayout,
    SyntheticSection,
    TwinHabit,
    mark_synthetic,
    random_section_parameters,
    render_section,
)

Tile = npt.NDArray[np.uint8]

TILE = (400, 400)
TWINNED = GrainPopulation(
    family="twinned", mean_intercept_um=38, twins=TwinHabit(grain_fraction=0.6)
)
EQUIAXED = GrainPopulation(family="equiaxed", mean_intercept_um=38)
SINGLE = GrainPopulation(family="single", mean_intercept_um=None)
POPULATIONS = {
    "equiaxed": EQUIAXED,
    "twinned": TWINNED,
    "drawn": GrainPopulation(family="drawn", mean_intercept_um=16, elongation=9),
    "bamboo": GrainPopulation(family="bamboo", mean_intercept_um=90),
    "bimodal": GrainPopulation(
        family="bimodal", mean_intercept_um=24, twins=TwinHabit(grain_fraction=0.4)
    ),
    "single": SINGLE,
}
CLEAN = Preparation(scratches_per_mpx=0, pits_per_mpx=0)


def layout(arrangement: StrandArrangement) -> StrandLayout:
    """One layout of each arrangement, sized for a tile."""
    sizes = {"round": 350.0, "long": 220.0, "tape": 360.0, "bundle": 120.0}
    return StrandLayout(
        arrangement=arrangement,
        width_um=sizes.get(arrangement),
        thickness_um=150.0 if arrangement == "tape" else None,
        axis_deg=8.0 if arrangement in {"long", "tape"} else 0.0,
        count=8 if arrangement == "bundle" else 1,
    )


def marked(section: SyntheticSection) -> Tile:
    """Picture of a section in 8 bits with the mark on its face."""
    picture = mark_synthetic(section.picture).picture
    tile: Tile = np.rint(picture * 255).astype(np.uint8)
    return tile


def answers(section: SyntheticSection) -> Tile:
    """Picture with the exact answers drawn over it.

    Grain boundaries red, twin sides green, scratches blue, slip traces cyan,
    defects yellow, unreadable patches magenta.
    """
    tile = marked(section)
    for mask, colour in (
        (section.unreadable, (255, 0, 255)),
        (section.defect, (240, 220, 0)),
        (section.slip_trace, (0, 220, 220)),
        (section.scratch, (40, 80, 255)),
        (section.twin_boundary, (0, 210, 60)),
        (section.boundary, (255, 20, 20)),
    ):
        tile[mask] = colour
    return tile


def sheet(tiles: list[Tile], columns: int) -> Tile:
    """Lay tiles side by side, white lines between."""
    framed = [
        np.pad(tile, ((0, 4), (0, 4), (0, 0)), constant_values=255) for tile in tiles
    ]
    framed += [np.full_like(framed[0], 255)] * (-len(framed) % columns)
    rows = [framed[k : k + columns] for k in range(0, len(framed), columns)]
    return np.concatenate([np.concatenate(row, axis=1) for row in rows])


def families_by_layouts(seed: int) -> Tile:
    """Every family in every arrangement."""
    tiles = []
    for family in GRAIN_FAMILIES:
        for arrangement in STRAND_ARRANGEMENTS:
            parameters = SectionParameters(
                population=POPULATIONS[family],
                layout=layout(arrangement),
                etch=Etch(slip_traces=0.5 if family == "single" else 0.0),
                shape=TILE,
            )
            tiles.append(marked(render_section(parameters, seed=seed)))
    return sheet(tiles, len(STRAND_ARRANGEMENTS))


def etches() -> Iterator[tuple[GrainPopulation, Etch, Camera]]:
    """Manners of etching, from under-etched to over-etched."""
    colour, grey = Camera(), Camera(colour=False, exposure=0.85, sharpening=0.6)
    for camera in (colour, grey):
        light = Groove(width_px=1.4, depth=0.35, faint_fraction=0.45)
        yield TWINNED, Etch(grey_contrast=0.02, groove=light), camera
        yield TWINNED, Etch(grey_contrast=0.06), camera
        facets = Groove(width_px=1.5, depth=0.4)
        yield TWINNED, Etch(grey_contrast=0.3, groove=facets, relief=0.5), camera
        over = Groove(width_px=7, depth=0.85, spread=0.8)
        yield TWINNED, Etch(groove=over, interior="pitted"), camera
    yield EQUIAXED, Etch(grey_contrast=0.01, interior="pitted", relief=0.05), grey
    bare = Groove(depth=0.0)
    yield EQUIAXED, Etch(hue_contrast=0.9, hue_spread=0.9, groove=bare), colour
    cloudy = Etch(hue_contrast=0.7, hue_spread=0.6, groove=bare, interior="mottled")
    yield TWINNED, cloudy, colour
    yield TWINNED, Etch(grey_contrast=0.2, interior="mottled", relief=0.6), colour


def etch_styles(seed: int) -> Tile:
    """Draw the same grains, etched and photographed in many ways."""
    tiles = [
        marked(
            render_section(
                SectionParameters(
                    population=population, etch=etch, camera=camera, shape=TILE
                ),
                seed=seed,
            )
        )
        for population, etch, camera in etches()
    ]
    return sheet(tiles, 4)


def artefacts(seed: int) -> Tile:
    """One strong artefact a picture, on twinned copper and on one crystal."""
    preparations = (
        Preparation(scratches_per_mpx=150, scratch_depth=0.4),
        Preparation(comet_tails_per_mpx=120),
        Preparation(pits_per_mpx=500),
        Preparation(pores_per_mpx=120),
        Preparation(stain_fraction=0.3),
    )
    cameras = (
        Camera(blur_px=3),
        Camera(light_gradient=0.5, vignetting=0.5),
        Camera(shot_noise=0.07, read_noise=0.04),
        Camera(jpeg_quality=12),
        Camera(sharpening=2.0),
    )
    tiles = []
    for population in (TWINNED, SINGLE):
        plain = SectionParameters(population=population, preparation=CLEAN, shape=TILE)
        varied = [replace(plain, preparation=item) for item in preparations]
        varied += [replace(plain, camera=item) for item in cameras]
        tiles += [marked(render_section(item, seed=seed)) for item in varied]
    marks = (
        Etch(slip_traces=0.8),
        Etch(deformation_bands=1.0),
        Etch(etch_pits_per_mpx=700),
        Etch(interior="mottled", interior_strength=1.0),
        Etch(slip_traces=0.5, deformation_bands=0.7, etch_pits_per_mpx=200),
    )
    for etch in marks:
        parameters = SectionParameters(population=SINGLE, etch=etch, shape=TILE)
        tiles.append(marked(render_section(parameters, seed=seed)))
    return sheet(tiles, 5)


def truths(seed: int) -> Tile:
    """Pictures above, exact answers below."""
    generator = np.random.default_rng(seed)
    sections = []
    for family in ("twinned", "drawn", "bimodal", "single"):
        parameters = random_section_parameters(generator, family=family, shape=TILE)
        sections.append(render_section(parameters, seed=generator))
    return sheet([marked(s) for s in sections] + [answers(s) for s in sections], 4)


def random_pictures(seed: int) -> Tile:
    """Random parameters, as a training run would draw them."""
    generator = np.random.default_rng(seed)
    tiles = []
    for _ in range(20):
        parameters = random_section_parameters(generator, shape=TILE)
        tiles.append(marked(render_section(parameters, seed=generator)))
    return sheet(tiles, 5)


def close_up(seed: int) -> Tile:
    """One round strand at full size with a scale bar."""
    parameters = SectionParameters(
        population=replace(TWINNED, mean_intercept_um=8.4),
        layout=StrandLayout(arrangement="round", width_um=150),
        etch=Etch(grey_contrast=0.18, relief=0.35, interior="mottled"),
        preparation=Preparation(edge_rounding_px=8),
        scale_bar=ScaleBar(),
        um_per_px=0.1726,
    )
    return marked(render_section(parameters, seed=seed))


def print_speed() -> None:
    """Processor time of one 1024 x 1024 picture of each family."""
    for family in GRAIN_FAMILIES:
        generator = np.random.default_rng(7)
        spent = []
        for _ in range(6):
            parameters = random_section_parameters(generator, family=family)
            start = time.process_time()
            render_section(parameters, seed=generator)
            spent.append(time.process_time() - start)
        print(f"{family:9s} mean {np.mean(spent):.2f} s, worst {max(spent):.2f} s")


SHEETS: dict[str, Callable[[int], Tile]] = {
    "families": families_by_layouts,
    "etches": etch_styles,
    "artefacts": artefacts,
    "answers": truths,
    "random": random_pictures,
    "close-up": close_up,
}


def write_sheets(
    sheets: dict[str, Callable[[int], Tile]], folder: Path, seed: int
) -> None:
    """Draw sheets and write each into the folder."""
    folder.mkdir(parents=True, exist_ok=True)
    for name, draw in sheets.items():
        path = folder / f"synthetic-{name}.png"
        imsave(path, draw(seed), check_contrast=False)
        print(path)


def main(folder: Path, seed: int) -> None:
    """Write all sheets."""
    write_sheets(SHEETS, folder, seed)
    print_speed()


if __name__ == "__main__":
    main(Path(sys.argv[1]), int(sys.argv[2]) if len(sys.argv) > 2 else 1)
