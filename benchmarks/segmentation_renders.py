"""Segmentation on synthetic sections with exact labels, beside a plain pipeline.

Run: python benchmarks/segmentation_renders.py [sections per family] [readable|any]

Every section is drawn with seeds far from those of the training and with
parameters within bands that the training never saw (`reserved_ranges`). Prints, by
family and in all: boundary F1 at 3 px; adapted Rand error; length of twin boundary
taken for grain boundary; the error of G by intercepts and by grains per area; and
verdicts on strands. What the renderer knows to be unreadable (out of focus, glare,
lettering) is left out of the comparison for both methods.
"""

import sys
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
import numpy.typing as npt
from in_parallel import each_in_order
from plain_pipeline import plain_labels
from reserved_ranges import moved_into_bands
from scipy import ndimage
from skimage.metrics import adapted_rand_error
from structure_errors import g_errors

from strandproof.micrograph import boundary_agreement, segment
from strandproof.micrograph.agreement import label_changes, without_boundary_pixels
from strandproof.micrograph.render import (
    GRAIN_FAMILIES,
    GrainFamily,
    SectionParameters,
    SyntheticSection,
    random_section_parameters,
    render_section,
)

Labels = npt.NDArray[np.integer[Any]]
FIRST_SEED = 7_310_000
TOLERANCE_PX = 3.0
LEAST_STRAND_SHARE = 0.02  # of the picture: smaller pieces get no verdict here


@dataclass(frozen=True, slots=True)
class Outcome:
    """What one method made of one section."""

    f1: float
    rand_error: float
    twins_taken: float
    g_intercept: float
    g_planimetric: float
    verdicts: tuple[str, ...]


def as_readable(parameters: SectionParameters) -> SectionParameters:
    """Etch well enough that a practised reader would count the picture.

    Few faint boundaries and gaps; without grooves grains must differ in shade, or in
    hue on a colour picture.
    """
    etch, groove = parameters.etch, parameters.etch.groove
    groove = replace(
        groove,
        faint_fraction=min(groove.faint_fraction, 0.05),
        gap_fraction=min(groove.gap_fraction, 0.1),
        depth=max(groove.depth, 0.3) if groove.depth else 0.0,
    )
    if groove.depth == 0:
        seen_by_hue = parameters.camera.colour and etch.hue_contrast >= 0.5
        least_grey = 0.0 if seen_by_hue else 0.15
        etch = replace(etch, grey_contrast=max(etch.grey_contrast, least_grey))
    return replace(parameters, etch=replace(etch, groove=groove))


def drawn_section(
    family: GrainFamily, seed: int, *, readable: bool, side_px: int = 1024
) -> SyntheticSection:
    """Draw one section of one family."""
    generator = np.random.default_rng(seed)
    shape = (side_px, side_px)
    parameters = random_section_parameters(generator, family=family, shape=shape)
    parameters = moved_into_bands(parameters, generator)
    if readable:
        parameters = as_readable(parameters)
    return render_section(parameters, seed=seed)


def outcome(
    labels: Labels, section: SyntheticSection, verdicts: tuple[str, ...]
) -> Outcome:
    """Hold found labels against the exact ones, on readable metal only."""
    hidden = section.overlay | section.unreadable
    metal = (section.strand_labels > 0) & ~hidden
    inside = ndimage.binary_erosion(metal, iterations=3, border_value=1)
    found = label_changes(without_boundary_pixels(labels)) & inside
    truth = section.boundary & inside
    agreement = boundary_agreement(found, truth, tolerance_px=TOLERANCE_PX)
    reach = ndimage.distance_transform_edt(~found) if found.any() else None
    twins = section.twin_boundary & inside & ~ndimage.binary_dilation(truth, None, 4)
    taken = np.nan
    if twins.any():
        taken = 0.0 if reach is None else float((reach[twins] <= 2).mean())
    filled = np.where(metal, without_boundary_pixels(labels), 0).astype(np.int32)
    exact = np.where(metal, section.grain_labels, 0)
    g = g_errors(filled, exact)
    return Outcome(
        agreement.f1,
        float(adapted_rand_error(exact, filled)[0]),
        taken,
        g.intercept,
        g.planimetric,
        verdicts,
    )


def ours(section: SyntheticSection) -> Outcome:
    """Use this project's method; one verdict for each strand large enough."""
    structure = segment(section.picture)
    least = LEAST_STRAND_SHARE * section.strand_labels.size
    verdicts = tuple(
        strand.verdict for strand in structure.strands if strand.area_px >= least
    )
    return outcome(structure.grain_labels, section, verdicts)


def plain(section: SyntheticSection) -> Outcome:
    """Use the plain pipeline; more than one grain of 1 % of the metal is poly."""
    labels = plain_labels(section.picture)
    sizes = np.bincount(labels[section.strand_labels > 0])[1:]
    poly = int((sizes > 0.01 * sizes.sum()).sum()) > 1
    return outcome(labels, section, ("poly" if poly else "single",))


def both(wanted: tuple[GrainFamily, int, bool]) -> tuple[Outcome, Outcome]:
    """Draw one section and hold both methods against it."""
    family, seed, readable = wanted
    section = drawn_section(family, seed, readable=readable)
    return ours(section), plain(section)


def row(name: str, outcomes: list[Outcome]) -> str:
    """Give one line of the table."""
    poly = [each for each in outcomes if np.isfinite(each.g_intercept)]
    g_i = [abs(each.g_intercept) for each in poly] or [np.nan]
    g_p = [abs(each.g_planimetric) for each in poly] or [np.nan]
    taken = [each.twins_taken for each in outcomes if np.isfinite(each.twins_taken)]
    verdicts = [verdict for each in outcomes for verdict in each.verdicts]
    shares = [verdicts.count(word) for word in ("single", "undecided", "poly")]
    return (
        f"{name:18} {np.median([each.f1 for each in outcomes]):6.3f} "
        f"{np.quantile([each.f1 for each in outcomes], 0.1):6.3f} "
        f"{np.median([each.rand_error for each in outcomes]):6.3f} "
        f"{100 * np.mean(taken or [np.nan]):7.1f} "
        f"{np.median(g_i):7.2f} {np.quantile(g_i, 0.9):6.2f} "
        f"{np.median(g_p):7.2f} {np.quantile(g_p, 0.9):6.2f} "
        f"{shares[0]:6d} {shares[1]:5d} {shares[2]:5d}"
    )


def main(count: int, *, readable: bool) -> None:
    """Print the table."""
    words = "readable" if readable else "any etch"
    print(f"{count} synthetic sections a family, {words}, seeds from {FIRST_SEED}")
    print(
        f"{'family, method':18} {'F1':>6} {'10 %':>6} {'Rand':>6} {'twin %':>7} "
        f"{'|dG| i':>7} {'p90':>6} {'|dG| p':>7} {'p90':>6} "
        f"{'single':>6} {'undec':>5} {'poly':>5}"
    )
    every: dict[str, list[Outcome]] = {"ours": [], "plain": []}
    wanted = [
        (family, FIRST_SEED + 1000 * index + k, readable)
        for index, family in enumerate(GRAIN_FAMILIES)
        for k in range(count)
    ]
    pairs = each_in_order(both, wanted)
    for family in GRAIN_FAMILIES:
        found: dict[str, list[Outcome]] = {"ours": [], "plain": []}
        for _ in range(count):
            mine, plainly = next(pairs)
            found["ours"].append(mine)
            found["plain"].append(plainly)
        for name, outcomes in found.items():
            print(row(f"{family}, {name}", outcomes), flush=True)
            if family != "single":
                every[name] += outcomes
    for name, outcomes in every.items():
        print(row(f"all poly, {name}", outcomes))


if __name__ == "__main__":
    main(
        int(sys.argv[1]) if len(sys.argv) > 1 else 10,
        readable=len(sys.argv) < 3 or sys.argv[2] == "readable",
    )
