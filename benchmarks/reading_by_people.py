"""Figures of docs/reading.md: the hint against chance, kappa's interval, the program.

Run: python benchmarks/reading_by_people.py [readings simulated]

All on synthetic material. Prints how often chance alone makes a cluster that the hint
would call, beside the bound stated; how often the interval of kappa holds the truth;
and which boundaries the program finds on test lines of drawn sections.
"""

import sys
from random import Random

import numpy as np

from strandproof.grainsize import reader_agreement
from strandproof.grainsize.marks import (
    MarkPair,
    StraightTestLine,
    compare_marks,
    count_marks,
    greatest_cluster,
    lay_test_lines,
    program_marks,
)
from strandproof.micrograph import segment
from strandproof.micrograph.render import (
    Etch,
    GrainPopulation,
    Groove,
    SectionParameters,
    StrandLayout,
    TwinHabit,
    render_section,
)
from strandproof.records import LabelledStructure

WITHIN_DEG = 3.0
CALLED_FROM = 0.01
SECTIONS_UM = (8.1, 8.6, 8.3, 8.9, 8.5, 9.0)
FIRST_SEED = 9000


def hint_against_chance(readings: int) -> None:
    """Print bound and simulated chance of the smallest cluster that is called."""
    chance = np.random.default_rng(5)
    for count in (12, 20, 40, 100):
        size, bound = smallest_called(count)
        shares = []
        for lines_deg in ((0.0,), (0.0, 45.0, 90.0, 135.0)):
            starts = np.repeat(lines_deg, count // len(lines_deg))
            called = 0
            for _ in range(readings):
                slopes = np.degrees(np.arccos(chance.uniform(-1, 1, starts.size)))
                angles = np.mod(starts + slopes, 180.0)
                ahead = np.mod(angles[None, :] - angles[:, None], 180.0)
                called += bool((ahead <= WITHIN_DEG).sum(axis=1).max() >= size)
            shares.append(called / readings)
        print(f"{count:>4} marks, called from {size}: bound {bound:.2g}, {shares}")


def smallest_called(count: int) -> tuple[int, float]:
    """Give the size from which a cluster is called, and its bound."""
    for size in range(2, count):
        others = np.linspace(4.0, 176.0, count - size).tolist()
        found = greatest_cluster([0.0] * size + others)
        if found is not None and found.chance_at_most <= CALLED_FROM:
            return size, found.chance_at_most
    return count, 1.0


def interval_of_kappa(pairs: int) -> None:
    """Print how often the interval holds the truth: readers right 95 times in 100."""
    chance = np.random.default_rng(0)
    share, right = 0.8, 0.95
    alike = right**2 + (1 - right) ** 2
    marked = share * right + (1 - share) * (1 - right)
    by_chance = marked**2 + (1 - marked) ** 2
    truth = (alike - by_chance) / (1 - by_chance)
    for pieces in (24, 100, 400):
        held = none = 0
        for _ in range(pairs):
            real = chance.random(pieces) < share
            readers = [
                np.where(chance.random(pieces) < right, real, ~real).astype(str)
                for _ in range(2)
            ]
            interval = reader_agreement(*(r.tolist() for r in readers)).kappa95
            if interval is None:
                none += 1
            else:
                held += (interval.lower or -1) <= truth <= (interval.upper or 1)
        share_held = held / (pairs - none)
        print(
            f"{pieces:>4} pieces, true kappa {truth:.2f}: held {share_held:.3f}, "
            f"no interval {none / pairs:.3f}"
        )


def program_on_lines() -> None:
    """Print what the program finds on eight lines of each drawn section."""
    for number, mean_um in enumerate(SECTIONS_UM):
        parameters = SectionParameters(
            population=GrainPopulation(
                family="twinned", mean_intercept_um=mean_um, twins=TwinHabit()
            ),
            layout=StrandLayout(arrangement="long", width_um=80.0),
            etch=Etch(grey_contrast=0.14, groove=Groove(width_px=2.2, depth=0.6)),
            um_per_px=0.1726,
            shape=(560, 800),
        )
        section = render_section(parameters, seed=FIRST_SEED + number)
        laid = lay_test_lines(800, 560, lines=8, chance=Random(number))  # noqa: S311
        lines = [line for line in laid if isinstance(line, StraightTestLine)]
        drawn = LabelledStructure(
            grain_labels=section.grain_labels.astype(np.int32),
            strand_labels=section.strand_labels.astype(np.int32),
            strands=(),
            flags=(),
            method="drawn",
            method_version="1",
        )
        truth = program_marks(drawn, lines)
        found = program_marks(segment(section.picture), lines)
        pairs = compare_marks(truth, found, tolerance_px=4.0).pairs
        means = [count_marks(each).twins_excluded for each in (truth, found)]
        sizes = [m.quantity.value if m else float("nan") for m in means]
        print(
            f"{mean_um} um: true {boundaries(pairs, first=True)}, marked "
            f"{boundaries(pairs, first=False)}, both "
            f"{sum(p.same and boundary(p, first=True) for p in pairs)}; mean intercept "
            f"{100 * (sizes[1] / sizes[0] - 1):+.0f} %"
        )


def boundaries(pairs: tuple[MarkPair, ...], *, first: bool) -> int:
    """Count the boundaries of one side."""
    return sum(boundary(pair, first=first) for pair in pairs)


def boundary(pair: MarkPair, *, first: bool) -> bool:
    """Tell whether one side marked a boundary."""
    mark = pair.first if first else pair.second
    return mark is not None and mark.feature == "boundary"


if __name__ == "__main__":
    readings = int(sys.argv[1]) if len(sys.argv) > 1 else 20_000
    hint_against_chance(readings)
    interval_of_kappa(max(200, readings // 10))
    program_on_lines()
