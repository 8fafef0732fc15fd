"""How often 95 % intervals of a conductivity cover the truth: simulated laboratories.

Run: python benchmarks/resistance_coverage.py [runs]

Each run is one laboratory with errors of its own, which stay the same over all of
its readings: gain and zero of its meters within their specification, its ruler, its
balance, its micrometer, its thermometer, the wire's own temperature coefficient. It
reads one strand of known resistivity at several currents, forward and reversed, with
a thermal voltage at the contacts, noise, last digits, and a wire that the current
warms. The evaluation under test gets the readings and the specifications, nothing
else.

The laboratories are drawn by this file from a formula of its own, R = delta L^2/m,
heat in proportion to the power; nothing of the code under test makes the readings.
Printed: share of runs covered by the two-sided 95 % interval of first order and, where
asked for, of Monte Carlo; by one-sided 95 % bounds; share of strands exactly at a
limit that a guard band of 5 % risk accepts; exact 95 % limits of each share.
"""

import sys
from collections.abc import Sequence
from dataclasses import dataclass
from math import sqrt

import numpy as np
from in_parallel import each_in_order

from strandproof.electrical import (
    conductivity_by_diameter,
    conductivity_by_mass,
    decide_conformity,
    wire_temperature,
)
from strandproof.electrical.routes import stated_interval
from strandproof.quantity import Quantity, binomial_interval, normal_input
from strandproof.quantity.coverage import coverage_factor
from strandproof.records.electrical import (
    ConductivityResult,
    FourWireSeries,
    MeterRange,
    ResistanceMeasurement,
    ReversalPair,
)

RUNS = 10_000
SEED = 77_310_000
DRAWS = 4_000
TRUE_IACS = 100.9
# Of the annealed standard, written here again: what is under test is not asked.
STANDARD_OHM_G_PER_M2 = 0.15328
STANDARD_OHM_M = 1e-6 / 58.0
ALPHA, ALPHA_U = 0.00393, 0.00003
LENGTH_M, DIAMETER_MM = 0.5, 0.080
PIECE = 250


@dataclass(frozen=True, slots=True)
class Laboratory:
    """What a kind of laboratory owns; limits are those of rectangular errors."""

    name: str
    currents_a: tuple[float, ...]
    pairs: int
    volt_gain_percent: float
    volt_fixed: float
    volt_digit: float
    noise_v: float
    ampere_gain_percent: float
    ampere_fixed: float
    mass_u_mg: float
    length_u_m: float
    celsius_u: float
    gradient_k: float
    rise_k: float
    diameter_u_mm: float | None = None
    zero_is_offset: bool = False
    second_opinion: bool = False


LABORATORIES = (
    Laboratory(
        "by mass, good meters, 3 currents of 3 pairs",
        (0.02, 0.05, 0.1),
        3,
        *(0.008, 4e-6, 1e-6, 0.8e-6, 0.03, 4e-6),
        *(0.0285, 0.0003, 0.15, 0.2, 0.6),
    ),
    Laboratory(
        "by mass, noisy voltmeter, 2 currents of 2 pairs",
        (0.05, 0.1),
        2,
        *(0.02, 5e-6, 1e-6, 150e-6, 0.03, 4e-6),
        *(0.015, 0.0002, 0.1, 0.1, 0.6),
        second_opinion=True,
    ),
    Laboratory(
        "by mass, noisy voltmeter, 2 currents of 5 pairs",
        (0.05, 0.1),
        5,
        *(0.02, 5e-6, 1e-6, 230e-6, 0.03, 4e-6),
        *(0.015, 0.0002, 0.1, 0.1, 0.6),
        second_opinion=True,
    ),
    Laboratory(
        "by mass, range part of the meter is an offset",
        (0.02, 0.05, 0.1),
        3,
        *(0.01, 60e-6, 1e-6, 1e-6, 0.02, 2e-6),
        *(0.015, 0.0001, 0.1, 0.1, 0.6),
        zero_is_offset=True,
    ),
    Laboratory(
        "by diameter, micrometer good to 0.3 um",
        (0.02, 0.05, 0.1),
        3,
        *(0.008, 4e-6, 1e-6, 0.8e-6, 0.03, 4e-6),
        *(0.0285, 0.0003, 0.15, 0.2, 0.6),
        diameter_u_mm=0.0003,
    ),
    Laboratory(
        "by mass, coarse ammeter (1 %) is nearly all of it",
        (0.05, 0.1),
        3,
        *(0.05, 10e-6, 10e-6, 5e-6, 1.0, 50e-6),
        *(0.0285, 0.0003, 0.15, 0.2, 0.6),
        second_opinion=True,
    ),
)


@dataclass(slots=True)
class Score:
    """Runs counted and how many of them hold."""

    runs: int = 0
    first_order: int = 0
    stated: int = 0
    lower: int = 0
    upper: int = 0
    accepted: int = 0
    width: float = 0.0

    def add(self, other: "Score") -> None:
        """Add the counts of another piece of the work."""
        for name in self.__slots__:
            setattr(self, name, getattr(self, name) + getattr(other, name))


def series(
    laboratory: Laboratory, ohm: float, source: np.random.Generator
) -> FourWireSeries:
    """Read a strand of a resistance (at zero current and its own temperature)."""
    own = laboratory
    gain_v = source.uniform(-1, 1) * own.volt_gain_percent / 100
    gain_a = source.uniform(-1, 1) * own.ampere_gain_percent / 100
    fixed_v = source.uniform(-1, 1) * own.volt_fixed
    fixed_a = source.uniform(-1, 1) * own.ampere_fixed
    thermal = source.normal(0, 5e-6)
    pairs = []
    for ampere in own.currents_a:
        # Heat flows off in proportion to the rise, which goes with the power.
        rise = own.rise_k * (ampere / own.currents_a[-1]) ** 2
        warm = ohm * (1 + ALPHA * rise)
        # The ammeter shows the setting; the true current differs by its error.
        true = (ampere - fixed_a) / (1 + gain_a)
        for _ in range(own.pairs):
            both = []
            for sign in (1, -1):
                volt = sign * true * warm + thermal
                odd = fixed_v if own.zero_is_offset else sign * fixed_v
                read = volt * (1 + gain_v) + odd + source.normal(0, own.noise_v)
                both.append(round(read / own.volt_digit) * own.volt_digit)
            pairs.append(ReversalPair(current=ampere, forward=both[0], reverse=both[1]))
    return FourWireSeries(
        pairs=tuple(pairs),
        reads="voltage",
        unit="V",
        current_unit="A",
        meter=(
            MeterRange(
                name="voltmeter",
                unit="V",
                percent_of_reading=own.volt_gain_percent,
                counts=own.volt_fixed / own.volt_digit,
                digit=own.volt_digit,
            ),
        ),
        ammeter=(
            MeterRange(
                name="ammeter",
                unit="A",
                percent_of_reading=own.ampere_gain_percent,
                counts=1.0,
                digit=own.ampere_fixed,
            ),
        ),
    )


def evaluated(
    laboratory: Laboratory, source: np.random.Generator
) -> ConductivityResult:
    """Draw one laboratory, let it read, and evaluate its readings."""
    own = laboratory
    celsius = 23.8
    area_m2 = 0.25 * np.pi * (1e-3 * DIAMETER_MM) ** 2
    share = 100 / TRUE_IACS
    mass_g = STANDARD_OHM_G_PER_M2 / STANDARD_OHM_M * area_m2 * LENGTH_M
    if own.diameter_u_mm is None:
        at_20c = share * STANDARD_OHM_G_PER_M2 * LENGTH_M**2 / mass_g
    else:
        at_20c = share * STANDARD_OHM_M * LENGTH_M / area_m2
    alpha = source.normal(ALPHA, ALPHA_U)
    ohm = at_20c * (1 + alpha * (celsius - 20))
    felt = celsius + source.normal(0, own.celsius_u)
    felt += source.uniform(-1, 1) * own.gradient_k
    sensor = normal_input("temperature", felt, own.celsius_u, unit="degC")
    measurement = ResistanceMeasurement(
        resistance=series(own, ohm, source),
        temperature=wire_temperature(sensor, gradient_k=own.gradient_k),
        gauge_length=normal_input(
            "length", source.normal(LENGTH_M, own.length_u_m), own.length_u_m, unit="m"
        ),
        mass=normal_input(
            "mass", source.normal(1e3 * mass_g, own.mass_u_mg), own.mass_u_mg, unit="mg"
        ),
    )
    chance = source if own.second_opinion else None
    if own.diameter_u_mm is None:
        return conductivity_by_mass(measurement, generator=chance, draws=DRAWS)
    read = source.normal(DIAMETER_MM, own.diameter_u_mm)
    return conductivity_by_diameter(
        measurement,
        diameter=normal_input("diameter", read, own.diameter_u_mm, unit="mm"),
    )


def scored(place: tuple[int, int, int]) -> Score:
    """Score one piece of the runs of one laboratory."""
    number, start, runs = place
    score = Score()
    for run in range(start, start + runs):
        source = np.random.default_rng((SEED, number, run))
        found = evaluated(LABORATORIES[number], source)
        percent, interval = found.percent_iacs, found.interval
        stated = stated_interval(found)
        one_sided = percent.standard_uncertainty * coverage_factor(
            0.90, degrees_of_freedom=percent.degrees_of_freedom
        )
        score.runs += 1
        score.first_order += holds(interval.lower, interval.upper)
        score.stated += holds(stated.lower, stated.upper)
        score.lower += percent.value - one_sided <= TRUE_IACS
        score.upper += percent.value + one_sided >= TRUE_IACS
        score.accepted += accepts(percent)
        score.width += (stated.half_width or 0.0) / TRUE_IACS
    return score


def holds(lower: float | None, upper: float | None) -> bool:
    """Whether an interval covers the truth."""
    return lower is not None and upper is not None and lower <= TRUE_IACS <= upper


def accepts(percent: Quantity) -> bool:
    """Whether a strand exactly at the limit is accepted, at 5 % risk."""
    found = decide_conformity(percent, limit=TRUE_IACS, side="at_least")
    return found.decision == "conforms"


def shown(hits: int, runs: int) -> str:
    """Write a share with its exact 95 % limits."""
    limits = binomial_interval(hits, runs)
    return (
        f"{100 * hits / runs:5.2f} % "
        f"({100 * (limits.lower or 0):.2f}-{100 * (limits.upper or 0):.2f} %)"
    )


def tell(laboratory: Laboratory, score: Score) -> None:
    """Print the figures of one laboratory."""
    runs = score.runs
    width = 100 * score.width / runs
    print(f"\n{laboratory.name}; {runs} runs, half-width {width:.2f} %")
    print(f"  95 % interval, first order   {shown(score.first_order, runs)}")
    if laboratory.second_opinion:
        print(f"  95 % interval, stated        {shown(score.stated, runs)}")
    print(f"  95 % lower bound             {shown(score.lower, runs)}")
    print(f"  95 % upper bound             {shown(score.upper, runs)}")
    print(f"  accepted at the very limit   {shown(score.accepted, runs)}", flush=True)


def main(runs: int, numbers: Sequence[int]) -> None:
    """Print everything."""
    print(f"Truth: {TRUE_IACS} % IACS; a share of 95 % has a standard deviation of")
    print(f"{100 * sqrt(0.95 * 0.05 / runs):.2f} % in {runs} runs.")
    for number in numbers:
        places = [
            (number, start, min(PIECE, runs - start)) for start in range(0, runs, PIECE)
        ]
        total = Score()
        for piece in each_in_order(scored, places):
            total.add(piece)
        tell(LABORATORIES[number], total)


if __name__ == "__main__":
    words = [int(word) for word in sys.argv[1:]]
    main(words[0] if words else RUNS, words[1:] or range(len(LABORATORIES)))
