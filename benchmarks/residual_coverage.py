"""How often intervals and bounds from ratios of resistances cover the truth.

Run: python benchmarks/residual_coverage.py [runs of each kind]

Simulated laboratories with known truth: a copper of drawn conductivity or residual
resistivity, thermometers with errors of one common and one single kind, a ratio meter
that rounds, and material constants (slope, phonon part, deviation, specific
resistivities) drawn about their tabled values with the spread that the tables state.
What is read is computed by the formulas written here, not by the code under test.

It shows that the arithmetic holds when the stated spreads are true. It cannot show that
they are: several are judgement, and most specific resistivities are from memory.
"""

import sys
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from strandproof.electrical.residual import (
    bath_temperature,
    conductivity_from_warm_ratio,
    purity_from_residual,
    residual_from_cold_ratio,
)
from strandproof.quantity import Interval, binomial_interval, normal_input
from strandproof.records.electrical import (
    Bath,
    ColdRatioReading,
    ColdReference,
    MetalState,
    WarmRatioReading,
    WarmReference,
)
from strandproof.tables import impurity_resistivities

SEED = 61
SLOPE, EXPANSION, STANDARD = 0.0681, 17e-6, 1e3 / 58
METER = 1e-4  # relative standard uncertainty of a ratio
SHORTENING = {"nitrogen": 0.00302, "helium": 0.00324}
KNOWN = impurity_resistivities()


@dataclass(frozen=True)
class Copper:
    """Material constants of one simulated world: multipliers of tabled values."""

    slope: float
    room: float
    bath: float
    deviation: float
    shortening: float


def world(chance: np.random.Generator) -> Copper:
    """Draw constants with the spreads that the tables state."""
    return Copper(
        slope=SLOPE * chance.normal(1, 0.005),
        room=chance.normal(1, 0.005),
        bath=chance.normal(1, 0.03),
        deviation=0.4531 * chance.normal(1, 0.2),
        shortening=chance.normal(0, 0.0001),
    )


def phonon(kelvin: float) -> float:
    """Phonon part of the fit, written out again [nohm m]."""
    power = 1.171e-17 * kelvin**4.49
    bent = 1.171e-17 * 3.841e10 * kelvin**3.35 * np.exp(-((50 / kelvin) ** 6.428))
    return float(1e9 * power / (1 + bent))


def whole(lattice: float, residual: float, deviation: float) -> float:
    """Lattice, residual and deviation together [nohm m]."""
    return lattice + residual + deviation * lattice * residual / (lattice + residual)


def warm_pair(
    iacs: float, ends: tuple[float, float], slope: float, expansion: float
) -> float:
    """Ratio of a free wire between two temperatures."""
    low, high = (
        (100 * STANDARD / iacs + slope * (at - 20)) / (1 + expansion * (at - 20))
        for at in ends
    )
    return high / low


def read(chance: np.random.Generator, ratio: float) -> float:
    """Give what the meter shows: an error of its gain, and five digits."""
    shown = ratio * chance.normal(1, METER)
    return float(f"{shown:.5g}")


def inside(interval: Interval, truth: float) -> bool:
    """Whether an interval holds the truth; an open end holds everything."""
    lower = -np.inf if interval.lower is None else interval.lower
    upper = np.inf if interval.upper is None else interval.upper
    return bool(lower <= truth <= upper)


def warm(chance: np.random.Generator, *, reference: bool) -> dict[str, bool]:
    """Judge a warm ratio, and say whether its interval holds the true conductivity."""
    copper, iacs, known = world(chance), chance.uniform(96, 103), 100.0
    expansion = EXPANSION * chance.normal(1, 0.03)
    true = tuple(set_to + chance.normal(0, 0.05) for set_to in (20.0, 100.0))
    own_slope = copper.slope * (chance.normal(1, 0.0015) if reference else 1.0)
    shown = read(chance, warm_pair(iacs, (true[0], true[1]), own_slope, expansion))
    beside = None
    if reference:
        true_known = known + chance.normal(0, 0.15)
        ratio = warm_pair(true_known, (true[0], true[1]), copper.slope, expansion)
        ratio = read(chance, ratio)
        beside = WarmReference(
            ratio=normal_input("reference", ratio, METER * ratio, unit="1"),
            percent_iacs=normal_input("its conductivity", known, 0.15, unit="% IACS"),
        )
    found = conductivity_from_warm_ratio(
        WarmRatioReading(
            ratio=normal_input("ratio", shown, METER * shown, unit="1"),
            lower_temperature=normal_input("lower", 20.0, 0.05, unit="degC"),
            upper_temperature=normal_input("upper", 100.0, 0.05, unit="degC"),
            reference=beside,
        )
    )
    return {"% IACS in its 95 % interval": inside(found.interval, iacs)}


def cold(
    chance: np.random.Generator, *, bath: Bath, reference: bool = False
) -> dict[str, bool]:
    """Judge a cold ratio, and say whether its intervals hold the truth."""
    residual = 15.43 / 10 ** chance.uniform(1.5, 3.2)
    reading, copper = cold_reading(chance, residual, bath=bath, reference=reference)
    found = residual_from_cold_ratio(reading)
    ice = whole(copper.room * phonon(273.15), residual, copper.deviation)
    return {
        "residual resistivity in its 95 % interval": inside(found.interval, residual),
        "residual ratio in its 95 % interval": inside(found.ratio_273, ice / residual),
        "residual resistivity below its one-sided 95 % bound": (
            residual <= found.at_most_nohm_m
        ),
    }


def cold_reading(
    chance: np.random.Generator, residual: float, *, bath: Bath, reference: bool
) -> tuple[ColdRatioReading, Copper]:
    """Read a wire of a residual resistivity, in one world."""
    copper = world(chance)
    room_c = 20.0 + chance.normal(0, 0.1)
    hectopascal = 1000.0 + chance.normal(0, 3)
    kelvin = 77.355 + 0.0083 * (hectopascal - 1013.25) + chance.normal(0, 0.05)
    if bath == "helium":
        kelvin = 4.2 + chance.normal(0, 0.05)

    def ratio(of: float) -> float:
        lattice = copper.room * phonon(293.15) + SLOPE * (room_c - 20)
        bathed = whole(copper.bath * phonon(kelvin), of, copper.deviation)
        shortening = SHORTENING[bath] + copper.shortening
        return whole(lattice, of, copper.deviation) / bathed * (1 - shortening)

    beside = None
    if reference:
        known = 15.43 / 200 * chance.uniform(0.9, 1.1)
        ice = whole(copper.room * phonon(273.15), known, copper.deviation) / known
        stated = ice * chance.normal(1, 0.01)
        shown = read(chance, ratio(known))
        beside = ColdReference(
            ratio=normal_input("reference", shown, METER * shown, unit="1"),
            residual_ratio=normal_input("its ratio", stated, 0.01 * stated, unit="1"),
        )
    shown = read(chance, ratio(residual))
    made = ColdRatioReading(
        bath=bath,
        ratio=normal_input("ratio", shown, METER * shown, unit="1"),
        room_temperature=normal_input("room", 20.0, 0.1, unit="degC"),
        bath_temperature=bath_temperature(bath, pressure_hpa=1000.0, spread_hpa=3.0),
        reference=beside,
    )
    return made, copper


def impure(chance: np.random.Generator, *, alone: bool) -> dict[str, bool]:
    """Read a strand with impurities in helium, and say whether the bounds hold."""
    names = list(KNOWN)
    chosen = chance.choice(names, size=1 if alone else 5, replace=False)
    added = 10 ** chance.uniform(-2, -0.3) * chance.dirichlet(np.ones(len(chosen)))
    contents = {
        str(name): 1e3 * part / true_coefficient(chance, str(name))
        for name, part in zip(chosen, added, strict=True)
    }
    grains, strand = 10 ** chance.uniform(0.7, 2.0), chance.uniform(0.05, 0.5)
    rest = 0.0 if alone else others(chance, grains, strand)
    reading, _ = cold_reading(
        chance, float(added.sum()) + rest, bath="helium", reference=False
    )
    found = residual_from_cold_ratio(reading).residual_resistivity
    state = MetalState(mean_intercept_um=grains, strand_mm=strand, work="annealed")
    bound = purity_from_residual(found, state)
    most = {one.symbol: one.at_most_ppm for one in bound.elements}
    total = sum(contents.values())
    return {
        "every element below its one-sided 95 % bound": all(
            ppm <= most[name] for name, ppm in contents.items()
        ),
        "total below its one-sided 95 % bound": total <= bound.dissolved_total_ppm[1],
        "total above its one-sided 95 % lower bound": (
            total >= bound.dissolved_total_ppm[0]
        ),
        "no true number of nines contradicted": not any(
            one.verdict == "contradicted" and total <= one.allowed_ppm
            for one in bound.nines
        ),
    }


def hardest(chance: np.random.Generator) -> dict[str, bool]:
    """Leave the bound no room: one element with the lowest coefficient."""
    name = str(chance.choice(list(KNOWN)))
    added = 10 ** chance.uniform(-2, -0.3)
    ppm = 1e3 * added / KNOWN[name].dissolved_low
    reading, _ = cold_reading(chance, added, bath="helium", reference=False)
    found = residual_from_cold_ratio(reading).residual_resistivity
    bound = purity_from_residual(found, MetalState())
    most = {one.symbol: one.at_most_ppm for one in bound.elements}
    return {"element below its one-sided 95 % bound": ppm <= most[name]}


def true_coefficient(chance: np.random.Generator, name: str) -> float:
    """Somewhere in the range of the sources [pohm m per ppm]."""
    return float(chance.uniform(KNOWN[name].dissolved_low, KNOWN[name].dissolved_high))


def others(chance: np.random.Generator, grains_um: float, strand_mm: float) -> float:
    """Boundaries, surface and annealed dislocations, drawn [nohm m]."""
    boundaries = chance.uniform(2 / 3 * 2e-16, 4e-16) / (1e-6 * grains_um)
    surface = chance.uniform(0, 6.7e-16) / (1e-3 * strand_mm)
    return float(1e9 * (boundaries + surface + chance.uniform(1e-25, 6e-25) * 1e12))


Kind = Callable[[np.random.Generator], dict[str, bool]]
KINDS: dict[str, Kind] = {
    "warm ratio, tabled slope": lambda c: warm(c, reference=False),
    "warm ratio, reference wire": lambda c: warm(c, reference=True),
    "nitrogen, bath by pressure": lambda c: cold(c, bath="nitrogen"),
    "nitrogen, reference wire": lambda c: cold(c, bath="nitrogen", reference=True),
    "helium": lambda c: cold(c, bath="helium"),
    "one impurity, nothing else, lowest coefficient": hardest,
    "one impurity, nothing else": lambda c: impure(c, alone=True),
    "five impurities, boundaries, surface": lambda c: impure(c, alone=False),
}


def main(runs: int) -> None:
    """Count and print, with the exact 95 % limits of each share."""
    for kind, simulate in KINDS.items():
        chance = np.random.default_rng(SEED)
        held: dict[str, int] = {}
        for _ in range(runs):
            for name, good in simulate(chance).items():
                held[name] = held.get(name, 0) + good
        print(f"{kind}, {runs} runs")
        for name, count in held.items():
            ends = binomial_interval(count, runs)
            print(
                f"  {name}: {100 * count / runs:.2f} % "
                f"({100 * (ends.lower or 0):.2f} to {100 * (ends.upper or 0):.2f})"
            )


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 10_000)
