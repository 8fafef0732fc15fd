"""Verdicts on drawn strands with known answers, for the card of the network.

Run: python benchmarks/known_strands.py [sections per family]

Seeds and parameter bands are apart from the training and from those on which the
verdict's limits were set. A strand counts if it holds 2 % of the picture. Many crystals
are eight grains or more of 1 % of the strand each, few are two to seven: a bamboo
structure, or a thin strand of coarse grains. Prints the counts as on the card.
"""

import json
import sys
from collections import Counter

import numpy as np
from in_parallel import each_in_order
from segmentation_renders import LEAST_STRAND_SHARE, drawn_section

from strandproof.micrograph import segment
from strandproof.micrograph.render import (
    GRAIN_FAMILIES,
    GrainFamily,
    SyntheticSection,
)

FIRST_SEED = 9_100_000
SIDE_PX = 640
COUNTED_SHARE = 0.01  # of the strand: smaller grains are not counted here
MANY_FROM = 8


def kind_of_strand(section: SyntheticSection, inside: np.ndarray) -> str | None:
    """Tell one crystal, many, few, or none of these."""
    if section.parameters.population.family == "single":
        return "single"
    areas = np.bincount(section.grain_labels[inside])[1:]
    grains = int((areas >= COUNTED_SHARE * areas.sum()).sum())
    if grains < 2:
        return None
    return "few" if grains < MANY_FROM else "many"


def verdicts(wanted: tuple[GrainFamily, int]) -> Counter[tuple[str, str]]:
    """Draw a section; count verdicts by what a strand is."""
    family, seed = wanted
    section = drawn_section(family, seed, readable=True, side_px=SIDE_PX)
    structure = segment(section.picture)
    counts: Counter[tuple[str, str]] = Counter()
    for strand in structure.strands:
        inside = (structure.strand_labels == strand.number) & (
            section.strand_labels > 0
        )
        if strand.area_px < LEAST_STRAND_SHARE * inside.size or not inside.any():
            continue
        kind = kind_of_strand(section, inside)
        if kind is not None:
            counts[kind, strand.verdict] += 1
    return counts


def sections_of(family: GrainFamily, count: int) -> int:
    """Draw more of the sections that decide most."""
    return 2 * count if family == "single" else count


def main(count: int) -> None:
    """Print the counts."""
    counts: Counter[tuple[str, str]] = Counter()
    wanted = [
        (family, FIRST_SEED + 1000 * index + k)
        for index, family in enumerate(GRAIN_FAMILIES)
        for k in range(sections_of(family, count))
    ]
    for found in each_in_order(verdicts, wanted):
        counts += found
    totals = Counter[str]()
    for (kind, _), number in counts.items():
        totals[kind] += number
    card = {
        "singles": totals["single"],
        "singles_called_poly": counts["single", "poly"],
        "many": totals["many"],
        "many_called_single": counts["many", "single"],
        "few": totals["few"],
        "few_called_single": counts["few", "single"],
    }
    undecided = {kind: counts[kind, "undecided"] for kind in totals}
    print(json.dumps({"known strands": card, "undecided": undecided}))


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 100)
