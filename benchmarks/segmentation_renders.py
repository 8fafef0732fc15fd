"""Segmentation on synthetic sections with exact labels, beside a plain pipeline.

Run: python benchmarks/segmentation_renders.py [sections per family]

The seeds lie far from those used while the method was tuned. Prints, by family and
in all: boundary F1 at 3 px; length of twin boundary taken for grain boundary; the
error of G by intercepts and by grains per area; and for single crystals, how many
strands were called polycrystalline.
"""

import sys
from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt
from plain_pipeline import plain_labels
from scipy import ndimage
from structure_errors import g_errors

from strandproof.micrograph import boundary_agreement, segment
from strandproof.micrograph.agreement import label_changes, without_boundary_pixels
from strandproof.micrograph.render import (
    GRAIN_FAMILIES,
    GrainFamily,
    SyntheticSection,
    random_section_parameters,
    render_section,
)

Labels = npt.NDArray[np.integer[Any]]
FIRST_SEED = 7_310_000
TOLERANCE_PX = 3.0


@dataclass(frozen=True, slots=True)
class Outcome:
    """What one method made of one section."""

    f1: float
    twins_taken: float
    g_intercept: float
    g_planimetric: float
    called_poly: bool


def sections(family: GrainFamily, count: int) -> list[SyntheticSection]:
    """Draw sections of one family."""
    place = FIRST_SEED + 1000 * GRAIN_FAMILIES.index(family)
    return [
        render_section(
            random_section_parameters(np.random.default_rng(seed), family=family),
            seed=seed,
        )
        for seed in range(place, place + count)
    ]


def outcome(labels: Labels, section: SyntheticSection, *, poly: bool) -> Outcome:
    """Hold found labels against the exact ones, on metal only."""
    metal = section.strand_labels > 0
    inside = ndimage.binary_erosion(metal, iterations=3, border_value=1)
    found = label_changes(without_boundary_pixels(labels)) & inside
    truth = section.boundary & inside
    agreement = boundary_agreement(found, truth, tolerance_px=TOLERANCE_PX)
    reach = ndimage.distance_transform_edt(~found) if found.any() else None
    twins = section.twin_boundary & inside & ~ndimage.binary_dilation(truth, None, 4)
    taken = (
        0.0 if reach is None or not twins.any() else float((reach[twins] <= 2).mean())
    )
    filled = np.where(metal, without_boundary_pixels(labels), 0).astype(np.int32)
    g = g_errors(filled, section.grain_labels)
    return Outcome(agreement.f1, taken, g.intercept, g.planimetric, poly)


def ours(section: SyntheticSection) -> Outcome:
    """Use this project's method."""
    structure = segment(section.picture)
    poly = any(strand.verdict == "poly" for strand in structure.strands)
    return outcome(structure.grain_labels, section, poly=poly)


def plain(section: SyntheticSection) -> Outcome:
    """Use the plain pipeline; more than one grain of 1 % of the metal is poly."""
    labels = plain_labels(section.picture)
    sizes = np.bincount(labels[section.strand_labels > 0])[1:]
    poly = int((sizes > 0.01 * sizes.sum()).sum()) > 1
    return outcome(labels, section, poly=poly)


def row(name: str, outcomes: list[Outcome]) -> str:
    """Give one line of the table."""
    poly = [each for each in outcomes if np.isfinite(each.g_intercept)]
    g_i = [abs(each.g_intercept) for each in poly] or [np.nan]
    g_p = [abs(each.g_planimetric) for each in poly] or [np.nan]
    return (
        f"{name:24} {np.median([each.f1 for each in outcomes]):6.3f} "
        f"{100 * np.mean([each.twins_taken for each in outcomes]):8.1f} "
        f"{np.median(g_i):8.2f} {np.quantile(g_i, 0.9):6.2f} "
        f"{np.median(g_p):8.2f} {np.quantile(g_p, 0.9):6.2f} "
        f"{100 * np.mean([each.called_poly for each in outcomes]):7.0f}"
    )


def main(count: int) -> None:
    """Print the table."""
    print(f"{count} synthetic sections a family, seeds from {FIRST_SEED}")
    print(
        f"{'family, method':24} {'F1':>6} {'twin %':>8} {'|dG| i':>8} {'p90':>6} "
        f"{'|dG| p':>8} {'p90':>6} {'poly %':>7}"
    )
    every: dict[str, list[Outcome]] = {"ours": [], "plain": []}
    for family in GRAIN_FAMILIES:
        drawn = sections(family, count)
        for name, method in (("ours", ours), ("plain", plain)):
            found = [method(section) for section in drawn]
            print(row(f"{family}, {name}", found), flush=True)
            if family != "single":
                every[name] += found
    for name, found in every.items():
        print(row(f"all but single, {name}", found))


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 10)
