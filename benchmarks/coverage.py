"""How often 95 % intervals of grain size cover the population value.

Run: python benchmarks/coverage.py [cables a family] [--automatic]

Draws synthetic fields of 512 x 512 px from populations of known mean lineal
intercept, grains per area and boundaries along the axis, and counts how often the
intervals cover the population value: for one field, for five fields of one cable,
and for three cables with five fields each. Cables differ by chance, and so does the
calibration of each set of three. Families are printed apart, with the exact 95 %
limits of each coverage.

With the exact labels nothing is missed. With ``--automatic`` the labels are those
of the automatic segmentation, and the interval takes the rates of missed and false
boundaries from other synthetic pieces of the same family, whose labels are known.

The population values are counted on drawings of their own seeds by the code of the
renderer and of this file, not by the code under test; their standard error is
printed. Every picture is synthetic: coverage on real copper is not shown by this.
"""

import sys
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cache
from math import inf, sqrt
from typing import Literal

import numpy as np
import numpy.typing as npt
from in_parallel import each_in_order

from strandproof.grainsize import counting_rules, measure
from strandproof.grainsize.by_level import (
    DetectionRates,
    KnownPiece,
    NestedValues,
    calibration_part,
    detection_part,
    intervals_by_level,
    joined_estimate,
    matched_crossings,
)
from strandproof.grainsize.patch import strand_patches
from strandproof.grainsize.traverses import WalkedLine, parallel_lines
from strandproof.micrograph import segment
from strandproof.micrograph.render import (
    GrainPopulation,
    StrandLayout,
    TwinHabit,
    measure_intercepts,
    random_section_parameters,
    render_section,
)
from strandproof.micrograph.render.grains import grain_labels
from strandproof.quantity import Quantity, binomial_interval
from strandproof.records import Estimate, LabelledStructure, Strand
from strandproof.records.measurement import GrainMeasurement

Labels = npt.NDArray[np.int32]
What = Literal["mean", "along", "across"]

SIDE_PX = 512
MARGIN_PX = 160
FIELDS = 5
CABLES = 3
BETWEEN_CABLES = 0.05
CALIBRATION = 0.005
REFERENCE_DRAWINGS = 100
KNOWN_PIECES = 10
TOLERANCE_PX = 4.0
FIRST_SEED = 91_000_000


@dataclass(frozen=True, slots=True)
class Family:
    """One population, and which of its mean intercepts is held against the truth."""

    name: str
    population: GrainPopulation
    what: What


FAMILIES = (
    Family(
        "equiaxed, about 200 grains",
        GrainPopulation(family="equiaxed", mean_intercept_um=32.0),
        "mean",
    ),
    Family(
        "equiaxed, about 30 grains",
        GrainPopulation(family="equiaxed", mean_intercept_um=80.0),
        "mean",
    ),
    Family(
        "equiaxed, wide spread of sizes",
        GrainPopulation(family="equiaxed", mean_intercept_um=50.0, size_spread=0.5),
        "mean",
    ),
    Family(
        "twinned, about 80 grains",
        GrainPopulation(family="twinned", mean_intercept_um=50.0, twins=TwinHabit()),
        "mean",
    ),
    Family(
        "bimodal, coarse twice the fine",
        GrainPopulation(
            family="bimodal", mean_intercept_um=32.0, fine_ratio=2.0, fine_fraction=0.5
        ),
        "mean",
    ),
    Family(
        "bimodal, coarse four times the fine",
        GrainPopulation(family="bimodal", mean_intercept_um=32.0),
        "mean",
    ),
    Family(
        "drawn, across",
        GrainPopulation(family="drawn", mean_intercept_um=26.0, elongation=4.0),
        "across",
    ),
    Family(
        "drawn, along",
        GrainPopulation(family="drawn", mean_intercept_um=26.0, elongation=4.0),
        "along",
    ),
)


@dataclass(frozen=True, slots=True)
class Counted:
    """One rate over many drawings, and its relative standard error."""

    value: float
    error: float


@dataclass(frozen=True, slots=True)
class Truth:
    """Population values at the population's own mean intercept, in pixels.

    Boundaries per length of line (rows and columns together, along, across) and
    grains per area.
    """

    mean: Counted
    along: Counted
    across: Counted
    density: Counted

    def crossings(self, what: What) -> Counted:
        """Boundaries per length in the direction that a family is judged by."""
        return {"mean": self.mean, "along": self.along, "across": self.across}[what]


@dataclass(slots=True)
class Score:
    """Intervals counted, those that cover, and how wide they are."""

    trials: int = 0
    hits: int = 0
    widths: list[float] | None = None

    def add(self, estimate: Estimate | None, truth: float) -> None:
        """Count one interval; a missing one covers nothing."""
        self.trials += 1
        interval = None if estimate is None else estimate.interval95
        if estimate is None or interval is None:
            return
        lower, upper = interval.lower or 0.0, interval.upper or np.inf
        self.hits += lower <= truth <= upper
        self.widths = self.widths or []
        self.widths.append(50.0 * (upper - lower) / truth)

    def words(self) -> str:
        """Share covered with its exact limits, and the median half-width."""
        limits = binomial_interval(self.hits, self.trials)
        return (
            f"{100 * self.hits / self.trials:5.1f} % of {self.trials:5d} "
            f"({100 * (limits.lower or 0):.0f}-{100 * (limits.upper or 0):.0f} %), "
            f"half-width {np.median(self.widths or [np.nan]):.3g} %"
        )


def generator(*place: int) -> np.random.Generator:
    """Return the source of chance of one thing drawn."""
    return np.random.default_rng((FIRST_SEED, *place))


def exact_labels(population: GrainPopulation, source: np.random.Generator) -> Labels:
    """Draw the grains of one field that is metal from edge to edge."""
    metal = np.ones((SIDE_PX, SIDE_PX), np.bool_)
    return grain_labels(metal, population, um_per_px=1.0, generator=source)


def structure(labels: Labels) -> LabelledStructure:
    """Wrap labels of a field as a segmentation would."""
    middle = (SIDE_PX - 1) / 2
    field = Strand(
        number=1,
        area_px=float(labels.size),
        centroid_px=(middle, middle),
        length_px=float(SIDE_PX),
        width_px=float(SIDE_PX),
        axis_deg=0.0,
        shape="field",
        verdict="poly",
        verdict_reason="drawn so",
    )
    return LabelledStructure(
        grain_labels=labels,
        strand_labels=np.ones(labels.shape, np.int32),
        strands=(field,),
        flags=(),
        method="exact labels of a synthetic field",
        method_version="1",
    )


def measured(labels: Labels, pixel_size: Quantity) -> GrainMeasurement:
    """Measure one field with the code under test.

    Raises
    ------
    ValueError
        If nothing was measured.
    """
    picture = measure(structure(labels), pixel_size=pixel_size).picture
    if picture is None:
        message = "a field without metal"
        raise ValueError(message)
    return picture


def intercept(found: GrainMeasurement, what: What) -> Estimate | None:
    """Pick the mean intercept that a family is judged by."""
    lines = found.intercepts
    if what == "mean":
        return lines.mean_intercept
    return lines.directions[0 if what == "along" else 2].mean_intercept


@cache
def truth(population: GrainPopulation) -> Truth:
    """Count population values over many drawings of other seeds.

    Grains per area: grains whose first pixel in reading order lies in the middle
    part of the drawing, which counts every grain once whatever is cut off.
    """
    side = SIDE_PX + 2 * MARGIN_PX
    metal = np.ones((side, side), np.bool_)
    rows: list[tuple[float, float, float, float]] = []
    for place in range(REFERENCE_DRAWINGS):
        labels = grain_labels(
            metal, population, um_per_px=1.0, generator=generator(1, place)
        )
        found = measure_intercepts(
            labels, metal.astype(np.int32), um_per_px=1.0, population=population
        )
        rows.append(
            (
                found.crossings / found.length_um,
                1 / (found.along_um or np.inf),
                1 / (found.across_um or np.inf),
                grains_per_px2(labels),
            )
        )
    means, errors = np.mean(rows, axis=0), np.std(rows, axis=0, ddof=1)
    errors /= means * sqrt(REFERENCE_DRAWINGS)
    counted = [
        Counted(float(mean), float(error))
        for mean, error in zip(means, errors, strict=True)
    ]
    return Truth(*counted)


def grains_per_px2(labels: Labels) -> float:
    """Count the grains whose first pixel lies in the middle part of a drawing."""
    _, first = np.unique(labels, return_index=True)
    places = np.unravel_index(first, labels.shape)
    inside = [(each >= MARGIN_PX) & (each < MARGIN_PX + SIDE_PX) for each in places]
    return float(np.count_nonzero(inside[0] & inside[1])) / SIDE_PX**2


def scaled_population(population: GrainPopulation, size: float) -> GrainPopulation:
    """Give the same population with all lengths multiplied."""
    return replace(
        population, mean_intercept_um=(population.mean_intercept_um or 1.0) * size
    )


def automatic_labels(
    population: GrainPopulation, place: tuple[int, ...]
) -> tuple[Labels, Labels]:
    """Draw and photograph one field; give exact labels and automatic ones."""
    source = generator(*place)
    looks = random_section_parameters(source, family=population.family)
    section = render_section(
        replace(
            looks,
            population=population,
            layout=StrandLayout(),
            scale_bar=None,
            shape=(SIDE_PX, SIDE_PX),
            um_per_px=1.0,
        ),
        seed=int(source.integers(2**62)),
    )
    return section.grain_labels, segment(section.picture).grain_labels


def field_labels(
    population: GrainPopulation, place: tuple[int, ...], *, automatic: bool
) -> Labels:
    """Give the labels of one field that are to be measured."""
    if automatic:
        return automatic_labels(population, place)[1]
    return exact_labels(population, generator(*place))


def known_piece(family: Family, place: tuple[int, ...]) -> KnownPiece:
    """Hold automatic labels against exact ones along the same test lines."""
    exact, found = (
        crossings(family, labels)
        for labels in automatic_labels(family.population, place)
    )
    pairs = [
        matched_crossings(
            one.crossings_px.tolist(),
            other.crossings_px.tolist(),
            tolerance=TOLERANCE_PX,
        )
        for one, other in zip(exact, found, strict=True)
    ]
    return KnownPiece(
        name=str(place),
        family=family.name,
        shown=sum(line.traverse.crossings for line in exact),
        found=sum(each[0] for each in pairs),
        false=sum(each[1] for each in pairs),
    )


def crossings(family: Family, labels: Labels) -> list[WalkedLine]:
    """Walk the same lines over any labels of a field."""
    patch = strand_patches(structure(labels))[0]
    directions = {"mean": (0.0, 45.0, 90.0, 135.0), "along": (0.0,), "across": (90.0,)}
    return [
        line
        for direction in directions[family.what]
        for line in parallel_lines(
            patch,
            direction_deg=direction,
            spacing_px=family.population.mean_intercept_um or 1.0,
            step_px=counting_rules().sample_step_px,
        )
    ]


@cache
def rates(number: int) -> DetectionRates:
    """Rates of missed and false boundaries on known pieces of a family."""
    family = FAMILIES[number]
    return DetectionRates(
        family=family.name,
        pieces=tuple(
            known_piece(family, (number, 2, place)) for place in range(KNOWN_PIECES)
        ),
    )


@dataclass(slots=True)
class Scores:
    """Everything that is counted for one family."""

    one: Score
    five: Score
    fifteen: Score
    density: Score
    axial: Score


@dataclass(frozen=True, slots=True)
class Setting:
    """What every field of one set of three cables shares."""

    number: int
    scale: Quantity
    auto: bool

    @property
    def family(self) -> Family:
        """The family drawn."""
        return FAMILIES[self.number]

    def joined(self, sampling: Estimate | None, *, fields: float) -> Estimate | None:
        """Join calibration, and detection where labels are automatic.

        Each field is prepared and photographed anew, so that the scatter between
        fields holds what detection does to each; only one field alone needs it.
        """
        if sampling is None:
            return None
        parts = [calibration_part(self.scale)]
        if self.auto:
            parts.append(detection_part(rates(self.number).correction(fields=fields)))
        return joined_estimate(sampling, parts)


def score_set(number: int, place: int, scores: Scores, *, auto: bool) -> None:
    """Draw three cables with five fields each, and score every interval."""
    source = generator(number, 3, place)
    # One calibration for the set; its error is unknown to the interval.
    pixel = float(source.normal(1.0, CALIBRATION))
    setting = Setting(number, Quantity(pixel, "um", CALIBRATION * pixel), auto)
    places, values = [], []
    for cable in range(CABLES):
        size = float(source.normal(1.0, BETWEEN_CABLES))
        seeds = [(number, 4, place, cable, field) for field in range(FIELDS)]
        of_cable = score_cable(setting, size, seeds, scores)
        places += [(str(cable), str(field)) for field in range(len(of_cable))]
        values += of_cable
    true = 1 / truth(setting.family.population).crossings(setting.family.what).value
    product = setting.joined(by_level(places, values, 0), fields=inf)
    scores.fifteen.add(product, true)


def score_cable(
    setting: Setting, size: float, seeds: Sequence[tuple[int, ...]], scores: Scores
) -> list[float]:
    """Score the fields of one cable, each and together; give their intercepts."""
    family, pixel = setting.family, setting.scale.value
    true = truth(family.population)
    intercept_um = size / true.crossings(family.what).value
    population = scaled_population(family.population, size)
    values = []
    for seed in seeds:
        labels = field_labels(population, seed, automatic=setting.auto)
        found = measured(labels, Quantity(pixel, "um", 0.0))
        own = intercept(found, family.what)
        scores.one.add(setting.joined(own, fields=1), intercept_um)
        if own is None:
            continue
        values.append(own.quantity.value)
        if not setting.auto:
            mm2 = 1e-6 * pixel**2
            density = true.density.value / size**2 / mm2
            scores.density.add(found.grains_per_area, density)
            axial = found.axial_crossings
            rate = 1000 * true.along.value / size / pixel
            scores.axial.add(None if axial is None else axial.rate, rate)
    places = [("one", str(field)) for field in range(len(values))]
    five = setting.joined(by_level(places, values, 1), fields=inf)
    scores.five.add(five, intercept_um)
    return values


def by_level(
    places: Sequence[tuple[str, str]], values: Sequence[float], level: int
) -> Estimate | None:
    """Give the interval by cable (0) or by field (1)."""
    wanted = ("cable", "field")[level]
    if not values:
        return None
    nested = NestedValues(
        levels=("cable", "field"), places=tuple(places), values=tuple(values)
    )
    return next(
        (
            each.estimate
            for each in intervals_by_level(nested, unit="um")
            if each.level == wanted
        ),
        None,
    )


def scored(wanted: tuple[int, int, bool]) -> tuple[str, Scores]:
    """Score one family; give what is to be printed, and the scores."""
    number, sets, auto = wanted
    family = FAMILIES[number]
    true = truth(family.population)
    lines = true.crossings(family.what)
    words = [
        (
            f"\n{family.name}: population mean intercept {1 / lines.value:.2f} px "
            f"(+-{100 * lines.error:.2f} %; asked for "
            f"{family.population.mean_intercept_um:g}), grains per 10^4 px^2 "
            f"{1e4 * true.density.value:.3f} (+-{100 * true.density.error:.2f} %)"
        )
    ]
    if auto:
        known = rates(number)
        words.append(
            f"  known pieces: {known.shown} boundaries shown, {known.found} found, "
            f"{known.false} false; factor {known.correction().factor:.3f} "
            f"+- {100 * known.correction().relative_standard_uncertainty:.1f} %"
        )
    scores = Scores(Score(), Score(), Score(), Score(), Score())
    for place in range(sets):
        score_set(number, place, scores, auto=auto)
    words += shown(scores, auto=auto)
    return "\n".join(words), scores


def shown(scores: Scores, *, auto: bool) -> list[str]:
    """Give the lines of one family."""
    lines = [
        f"  one field              {scores.one.words()}",
        f"  five fields            {scores.five.words()}",
        f"  three cables of five   {scores.fifteen.words()}",
    ]
    if not auto:
        lines.append(f"  grains per area, one   {scores.density.words()}")
        lines.append(f"  rate along axis, one   {scores.axial.words()}")
    return lines


def summed(scores: Sequence[Score]) -> Score:
    """Add the scores of all families."""
    return Score(
        trials=sum(each.trials for each in scores),
        hits=sum(each.hits for each in scores),
        widths=[width for each in scores for width in each.widths or []],
    )


def main(sets: int, *, auto: bool) -> None:
    """Print everything."""
    labels = "automatic labels, detection joined" if auto else "exact labels"
    print(f"Synthetic fields of {SIDE_PX} px; {labels}; cables differ by")
    print(f"{100 * BETWEEN_CABLES:g} %, calibration is known to {100 * CALIBRATION} %.")
    wanted = [(number, sets, auto) for number in range(len(FAMILIES))]
    found = []
    for words, scores in each_in_order(scored, wanted):
        print(words, flush=True)
        found.append(scores)
    print(f"\nall families, {sets * len(FAMILIES) * CABLES * FIELDS} fields")
    of_all = Scores(
        summed([each.one for each in found]),
        summed([each.five for each in found]),
        summed([each.fifteen for each in found]),
        summed([each.density for each in found]),
        summed([each.axial for each in found]),
    )
    print("\n".join(shown(of_all, auto=auto)))


if __name__ == "__main__":
    words = [word for word in sys.argv[1:] if not word.startswith("-")]
    main(int(words[0]) if words else 20, auto="--automatic" in sys.argv)
