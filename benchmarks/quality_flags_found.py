"""Flags with the grains that the network finds, held against the exact boundaries.

Run: python benchmarks/quality_flags_found.py [pictures a kind] [first seed]

Prints by kind how the network's plane agrees with the boundaries closed from it
(`boundary_closure`), how much of the exact boundary was found, and the rates of all
flags; then how often the two limits on closure and ``under_etched`` as a whole are
met where most was found and where much was missed. Every picture here is synthetic,
drawn by this project's own renderer with seeds below those of the training.
"""

import sys
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

import numpy as np
from clean_sections import FAMILIES, SHAPE, clean_parameters
from quality_flags import under_etched
from scipy import ndimage

from strandproof.micrograph.agreement import boundary_agreement, label_changes
from strandproof.micrograph.lab import checked_bytes
from strandproof.micrograph.learned import planes
from strandproof.micrograph.learned.grains import grains_of
from strandproof.micrograph.learned.maps import structure_maps
from strandproof.micrograph.learned.metal import metal_map
from strandproof.micrograph.quality import quality_flags
from strandproof.micrograph.quality.etching import boundary_closure
from strandproof.micrograph.render import (
    SectionParameters,
    random_section_parameters,
    render_section,
)

QUANTILES = (0.0, 0.05, 0.5, 0.9, 0.95, 1.0)
UNSUPPORTED_LIMITS = (0.03, 0.04, 0.05, 0.06, 0.08)
LEFT_OVER_LIMITS = (0.03, 0.05, 0.08, 0.1)
MOST_FOUND, MUCH_MISSED = 0.9, 0.85  # of the exact boundary, within 3 px


@dataclass(frozen=True, slots=True)
class Judgement:
    """What was raised, and what was true."""

    flags: frozenset[str]
    unsupported: float
    left_over: float
    recall: float


def under_etched_parameters(seed: int) -> SectionParameters:
    """Draw a clean section whose grooves are mostly faint, without shade."""
    good = clean_parameters(seed)
    return replace(good, etch=under_etched(good.etch, 0.0))


def sampled_parameters(seed: int) -> SectionParameters:
    """Draw a section with whatever hardships the renderer's sampler gives."""
    chance = np.random.default_rng(seed)
    family = FAMILIES[seed % len(FAMILIES)]
    return random_section_parameters(chance, family=family, shape=SHAPE)


def judgements(
    make: Callable[[int], SectionParameters], seeds: range
) -> Iterator[Judgement]:
    """Find grains and judge them."""
    for seed in seeds:
        section = render_section(make(seed), seed=seed)
        pixels = checked_bytes(section.picture)
        maps = structure_maps(pixels)
        metal = metal_map(maps)
        strands = np.where(metal.unreadable, np.int32(0), metal.strand_labels)
        twin = maps[planes.TWIN_BOUNDARY]
        grains = grains_of(maps[planes.GRAIN_BOUNDARY], twin, strands).labels
        boundary = maps[planes.GRAIN_BOUNDARY]
        closure = boundary_closure(grains, strands, boundary)
        flags = quality_flags(
            pixels, grain_labels=grains, strand_labels=strands, probability=boundary
        )
        readable = (section.strand_labels > 0) & ~section.overlay & ~section.unreadable
        inside = ndimage.binary_erosion(readable, iterations=3, border_value=1)
        agreement = boundary_agreement(
            label_changes(grains) & inside, section.boundary & inside, tolerance_px=3.0
        )
        yield Judgement(
            frozenset(flag.name for flag in flags),
            closure.unsupported(),
            closure.left_over_px / max(closure.drawn_px, 1),
            agreement.recall,
        )


def print_kind(name: str, found: list[Judgement]) -> None:
    """Print the figures of one kind."""
    names = Counter(flag for each in found for flag in each.flags)
    rates = ", ".join(
        f"{key} {100 * n / len(found):.0f}" for key, n in names.most_common()
    )
    print(f"{name}, {len(found)} pictures; raised, %: {rates or 'nothing'}")
    for title in ("unsupported", "left_over", "recall"):
        values = [getattr(each, title) for each in found]
        shares = 100 * np.quantile(values, QUANTILES)
        print(f"  {title:12}", *(f"{share:6.1f}" for share in shares), flush=True)


def print_limits(name: str, found: list[Judgement]) -> None:
    """Print how often limits are passed where most was found and much was missed."""
    groups = (
        [each for each in found if each.recall >= MOST_FOUND],
        [each for each in found if each.recall < MUCH_MISSED],
    )
    print(f"{name}: most found in {len(groups[0])}, much missed in {len(groups[1])}")
    tests: dict[str, Callable[[Judgement], bool]] = {
        "under_etched": lambda each: "under_etched" in each.flags
    }
    for limit in UNSUPPORTED_LIMITS:
        tests[f"unsupported > {limit:g}"] = _above("unsupported", limit)
    for limit in LEFT_OVER_LIMITS:
        tests[f"left over > {limit:g}"] = _above("left_over", limit)
    for title, test in tests.items():
        shares = [100 * sum(map(test, group)) / max(len(group), 1) for group in groups]
        print(f"  {title:20}", *(f"{share:6.1f}" for share in shares), flush=True)


def _above(title: str, limit: float) -> Callable[[Judgement], bool]:
    return lambda each: bool(getattr(each, title) > limit)


def main(count: int, first: int) -> None:
    """Print everything."""
    print("quantiles of the shares, %: ", *(f"{q:g}" for q in QUANTILES))
    seeds, twice = (range(first, first + n * count) for n in (1, 2))
    clean = list(judgements(clean_parameters, twice))
    print_kind("clean", clean)
    faint = list(judgements(under_etched_parameters, seeds))
    print_kind("85 % faint, one shade", faint)
    sampled = list(judgements(sampled_parameters, twice))
    print_kind("as sampled", sampled)
    print_limits("as sampled", sampled)
    print_limits("all", [*clean, *faint, *sampled])


if __name__ == "__main__":
    given = [int(word) for word in sys.argv[1:]]
    main(given[0] if given else 20, given[1] if len(given) > 1 else 9_600_000)
