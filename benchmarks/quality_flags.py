"""Hit and false alarm rates of the flags on drawn pictures, and their time.

Run: python benchmarks/quality_flags.py [pictures a kind] [first seed]
(`quality_flags_found.py` does it with the grains that the network finds.)

Each kind draws the same grains as "clean", with one defect that a person sees at
once. Every picture here is synthetic, drawn by this project's own renderer, and the
structure flags are given the exact labels: the rates say nothing about real copper.
Where real micrographs are at hand, their flags are printed too.
"""

import sys
import time
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any, Literal

import numpy as np
import numpy.typing as npt
import pyvips
from clean_sections import SHAPE, clean_parameters
from real_micrographs import DATA, colour_tiles, iron_sections
from scipy import ndimage

from strandproof.micrograph import segment
from strandproof.micrograph.lab import checked_bytes, lab_of_bytes
from strandproof.micrograph.quality import picture_flags, quality_flags
from strandproof.micrograph.render import (
    Camera,
    Etch,
    SectionParameters,
    StrandLayout,
    render_section,
)
from strandproof.storage import preview_jpeg, read_picture

Picture = npt.NDArray[np.float32]
Labels = npt.NDArray[np.integer[Any]]


@dataclass(frozen=True, slots=True)
class Example:
    """A picture of 8 bits with the exact labels, or without."""

    picture: Picture
    grains: Labels | None
    strands: Labels


def drawn(parameters: SectionParameters, seed: int) -> Example:
    """Draw a section in 8 bits."""
    section = render_section(parameters, seed=seed)
    picture = _eight_bits(section.picture)
    return Example(picture, section.grain_labels, section.strand_labels)


def _eight_bits(picture: npt.NDArray[np.floating[Any]]) -> Picture:
    levels = np.rint(np.clip(picture, 0, 1) * 255)
    rounded: Picture = (levels / 255).astype(np.float32)
    return rounded


def _camera(change: Callable[[Camera], Camera]) -> Callable[[int], Example]:
    def example(seed: int) -> Example:
        good = clean_parameters(seed)
        return drawn(replace(good, camera=change(good.camera)), seed)

    return example


def etched(change: Callable[[Etch, float], Etch]) -> Callable[[int], Example]:
    """Etch a clean section otherwise."""

    def example(seed: int) -> Example:
        good = clean_parameters(seed)
        mean_px = (good.population.mean_intercept_um or 0.0) / good.um_per_px
        return drawn(replace(good, etch=change(good.etch, mean_px)), seed)

    return example


def _buried(seed: int) -> Example:
    """Draw shallow grooves and little shade under much noise."""
    good = clean_parameters(seed)
    groove = replace(good.etch.groove, depth=0.12)
    etch = replace(good.etch, groove=groove, grey_contrast=0.02, hue_contrast=0.0)
    camera = replace(good.camera, shot_noise=0.09, read_noise=0.06)
    return drawn(replace(good, etch=etch, camera=camera), seed)


def _over(etch: Etch, mean_px: float) -> Etch:
    return replace(etch, groove=replace(etch.groove, width_px=min(15.0, mean_px / 3)))


def under_etched(etch: Etch, _mean_px: float) -> Etch:
    """Leave most grooves faint, and no shade or relief beside them."""
    groove = replace(etch.groove, faint_fraction=0.85)
    return replace(etch, groove=groove, grey_contrast=0.0, hue_contrast=0.0, relief=0.0)


def _handled(change: Callable[[Picture], Picture]) -> Callable[[int], Example]:
    """Change the finished picture, as a person with a program does."""

    def example(seed: int) -> Example:
        # Whole fields only: labels are not resized along.
        good = replace(clean_parameters(seed), layout=StrandLayout())
        picture = _eight_bits(change(drawn(good, seed).picture))
        return Example(picture, None, np.ones(picture.shape[:2], np.int32))

    return example


def _zoomed(factor: float, order: Literal[1, 3]) -> Callable[[Picture], Picture]:
    def change(picture: Picture) -> Picture:
        soft = picture
        if factor < 1:
            sigma = 0.4 / factor
            soft = ndimage.gaussian_filter(picture, (sigma, sigma, 0))
        zoomed: Picture = ndimage.zoom(
            soft,
            np.array([factor, factor, 1]),
            order=order,
            grid_mode=True,
            mode="nearest",
        )
        return zoomed[: SHAPE[0], : SHAPE[1]]

    return change


def _sharper(picture: Picture) -> Picture:
    soft = ndimage.gaussian_filter(picture, (1.5, 1.5, 0))
    return picture + 1.5 * (picture - soft)


def _brighter(picture: Picture) -> Picture:
    return 2.2 * picture


def _stored(quality: int) -> Callable[[Picture], Picture]:
    """Store and read a lossy file, by a library's encoder and not by our renderer."""

    def change(picture: Picture) -> Picture:
        side = max(picture.shape)
        levels = np.rint(picture * 255).astype(np.uint8)
        data = preview_jpeg(levels, max_side=side, quality=quality)
        decoded: Picture = pyvips.Image.new_from_buffer(data, "").numpy() / 255
        return decoded.astype(np.float32)

    return change


def _in_turn(*changes: Callable[[Picture], Picture]) -> Callable[[Picture], Picture]:
    def change(picture: Picture) -> Picture:
        for each in changes:
            picture = _eight_bits(each(picture))
        return picture

    return change


def _cropped(picture: Picture) -> Picture:
    return picture[3:, 5:]


def _fine(seed: int) -> Example:
    good = clean_parameters(seed)
    population = replace(good.population, mean_intercept_um=6 * good.um_per_px)
    return drawn(replace(good, population=population), seed)


def _thin_strand(seed: int) -> Example:
    good = clean_parameters(seed)
    width = 5 * (good.population.mean_intercept_um or 0.0)
    layout = StrandLayout(arrangement="long", width_um=width)
    population = replace(good.population, family="equiaxed", elongation=1.0, twins=None)
    return drawn(replace(good, layout=layout, population=population), seed)


def _glare(seed: int) -> Example:
    example = drawn(clean_parameters(seed), seed)
    rows, cols = np.indices(SHAPE)
    places = np.argwhere(example.strands > 0)
    row, col = places[len(places) // 2]
    spot = np.hypot(rows - row, cols - col) < 45
    picture = np.where(spot[..., None] & (example.strands > 0)[..., None], 1.0, 0.0)
    return replace(
        example, picture=np.maximum(example.picture, picture, dtype=np.float32)
    )


KINDS: dict[str, tuple[str, Callable[[int], Example]]] = {
    "enlarged 1.3, straight": ("resized", _handled(_zoomed(1.3, 1))),
    "enlarged 1.5, cubic": ("resized", _handled(_zoomed(1.5, 3))),
    "enlarged 2, straight": ("resized", _handled(_zoomed(2, 1))),
    "enlarged 2, cubic": ("resized", _handled(_zoomed(2, 3))),
    "enlarged 3, cubic": ("resized", _handled(_zoomed(3, 3))),
    "shrunk 0.7": ("resized", _handled(_zoomed(0.7, 1))),
    "stored 50, shrunk 0.7": (
        "resized",
        _handled(_in_turn(_stored(50), _zoomed(0.7, 1))),
    ),
    "enlarged 1.5, stored 75": (
        "resized",
        _handled(_in_turn(_zoomed(1.5, 3), _stored(75))),
    ),
    "enlarged 2, stored 75": (
        "resized",
        _handled(_in_turn(_zoomed(2, 3), _stored(75))),
    ),
    "sharpened by camera 1.5": (
        "sharpened",
        _camera(lambda good: replace(good, sharpening=1.5)),
    ),
    "sharpened after 1.5": ("sharpened", _handled(_sharper)),
    "stored 90": ("lossy_compression", _handled(_stored(90))),
    "stored 75": ("lossy_compression", _handled(_stored(75))),
    "stored 50": ("lossy_compression", _handled(_stored(50))),
    "stored 50, cropped": (
        "lossy_compression",
        _handled(_in_turn(_stored(50), _cropped)),
    ),
    "blur 2 px": ("blurred", _camera(lambda good: replace(good, blur_px=2.0))),
    "blur 3 px": ("blurred", _camera(lambda good: replace(good, blur_px=3.0))),
    "glare": ("saturated", _glare),
    "brightened 2.2": ("saturated", _handled(_brighter)),
    "light 0.35, corners 0.4": (
        "uneven_light",
        _camera(lambda good: replace(good, light_gradient=0.35, vignetting=0.4)),
    ),
    "grooves 1/3 of grains": ("over_etched", etched(_over)),
    "85 % faint, one shade": ("under_etched", etched(under_etched)),
    "grooves below noise": ("low_contrast", _buried),
    "mean intercept 6 px": ("few_pixels_per_grain", _fine),
    "5 grains across": ("few_grains_across", _thin_strand),
}


def raised(example: Example) -> set[str]:
    """Raise the flags of an example."""
    return _raised(example.picture, example.grains, example.strands)


def _raised(picture: Picture, grains: Labels | None, strands: Labels) -> set[str]:
    pixels = checked_bytes(picture)
    if grains is None:
        flags = picture_flags(lab_of_bytes(pixels), strands > 0)
    else:
        flags = quality_flags(pixels, grain_labels=grains, strand_labels=strands)
    return {flag.name for flag in flags}


def print_rates(count: int, first: int) -> None:
    """Print false alarms on clean pictures, then hits and other flags by kind."""
    print(f"{count} synthetic pictures a kind, seeds from {first}; in per cent")
    alarms: Counter[str] = Counter()
    n_clean = 3 * count
    for seed in range(first, first + n_clean):
        alarms.update(raised(drawn(clean_parameters(seed), seed)))
    print(f"{n_clean} clean: {_shares(alarms, n_clean, '')}", flush=True)
    for name, (expected, make) in KINDS.items():
        found: Counter[str] = Counter()
        for seed in range(first, first + count):
            found.update(raised(make(seed)))
        rest = _shares(found, count, expected)
        hits = 100 * found[expected] / count
        print(f"{name:25} {expected:21}{hits:4.0f}   beside it: {rest}", flush=True)


def _shares(found: Counter[str], count: int, without: str) -> str:
    parts = [
        f"{name} {100 * n / count:.0f}"
        for name, n in found.most_common()
        if name != without
    ]
    return ", ".join(parts) or "nothing"


def print_real() -> None:
    """Print the flags of real micrographs; nobody has said which are due."""
    for name, labelled in (("iron", iron_sections()), ("colour tiles", colour_tiles())):
        found: Counter[str] = Counter()
        count = 0
        for each in labelled:
            strands = np.ones(each.labels.shape, np.int32)
            picture = read_picture(each.path).pixels
            found.update(_raised(picture, each.labels, strands))
            count += 1
        print(f"real, {name}, {count}: {_shares(found, max(count, 1), '')}")
    paths = sorted((DATA / "am-edge-stress" / "images").glob("*.png"))
    found = Counter()
    for path in paths:
        picture = read_picture(path).pixels
        found.update(_raised(picture, None, segment(picture).strand_labels))
    print(
        f"real, alloy with mount, {len(paths)}: {_shares(found, len(paths) or 1, '')}"
    )


def print_times() -> None:
    """Print processor time of one call; set OMP_NUM_THREADS=1 for one core."""
    parameters = replace(clean_parameters(2), shape=(1024, 1024))
    section = render_section(parameters, seed=2)
    tile = checked_bytes(section.picture)
    for rows, cols in ((1, 1), (2, 2), (4, 6)):
        pixels = np.tile(tile, (rows, cols, 1))
        grains = np.tile(section.grain_labels, (rows, cols))
        strands = np.tile(section.strand_labels, (rows, cols))
        for _ in range(3):  # the first run loads libraries
            start = time.process_time()
            quality_flags(
                pixels,
                grain_labels=grains,
                strand_labels=strands,
                probability=pixels[..., 0],
            )
            used = time.process_time() - start
        print(f"{pixels.shape[1]} x {pixels.shape[0]} px: {1000 * used:.0f} ms")


def main(count: int, first: int) -> None:
    """Print everything."""
    print_rates(count, first)
    print_real()
    print_times()


if __name__ == "__main__":
    given = [int(word) for word in sys.argv[1:]]
    main(given[0] if given else 20, given[1] if len(given) > 1 else 9_500_000)
