"""How often 95 % intervals of hardness and density cover the truth, and error rates.

Run: python benchmarks/physical_coverage.py [runs]

Simulated laboratories with known truth, 10 000 each: Vickers hardness of five
indentations (scatter, shared reading error, force, block), density by weighing in water
(two readings, temperature, water, air, pull of the surface), density by mass, length
and diameter. Rectangular errors are drawn rectangular. The decision on slip traces is
tried where nothing changed (a change said is wrong) and where the change is as large as
matters (not changed said is wrong). Exact 95 % limits stand beside each share.
"""

import sys
from collections.abc import Callable
from math import pi

import numpy as np
from scipy import stats

from strandproof.physical import (
    air_density,
    compare_deformation,
    density_by_buoyancy,
    density_by_geometry,
    diagonal_error,
    vickers_result,
    water_density,
)
from strandproof.quantity import Interval, normal_input, rectangular_input
from strandproof.records.physical import (
    BuoyancyWeighing,
    HandlingFacts,
    HardnessMeasurement,
    Indentation,
    SlipTraceField,
)

SEED = 61_005
FACTS = HandlingFacts(
    handling="bent", polished_before=True, touched_after=False, objection="bending"
)
Chance = np.random.Generator


def hardness(chance: Chance) -> bool:
    """One laboratory: five indentations of copper of 55 HV at 25 gf."""
    true, force_newton = 55.0, 0.025 * 9.80665
    force = force_newton * (1 + chance.uniform(-0.01, 0.01))
    block = 1 + chance.normal(0, 0.01)
    shared = chance.uniform(-0.4, 0.4)
    local = true * (1 + chance.normal(0, 0.03, 5)) / block
    read = 1e3 * np.sqrt(0.1890927 * force / local) + shared
    result = vickers_result(
        HardnessMeasurement(
            indentations=tuple(
                Indentation(first_diagonal_um=d, second_diagonal_um=d)
                for d in read.tolist()
            ),
            force=rectangular_input("force", 25.0, 0.25, unit="gf"),
            diagonal_error=diagonal_error(0.4),
            block=normal_input("block", 1.0, 0.01, unit="1"),
        )
    )
    return covers(result.interval, true)


def buoyancy(chance: Chance, wire_um: float = 20.0) -> bool:
    """One laboratory: 0.5 g of copper of 8.93 g/cm3, balance of 0.1 mg."""
    true, volume = 8.93, 0.5 / 8.93
    celsius = 20.0 + chance.normal(0, 0.2)
    water = 1e-3 * (float(water_density(celsius)) + chance.normal(0, 0.05))
    air = 1e-3 * (air_density(20.0).estimate + chance.normal(0, 0.02))
    pull = pi * 1e-6 * wire_um * 72.7e-3 / 9.80665 * 1e3  # g
    in_air = volume * (true - air) + chance.normal(0, 1e-4)
    in_water = (
        volume * (true - water)
        + chance.normal(0, 1e-4)
        + chance.uniform(-pull / 3, pull / 3)
    )
    result = density_by_buoyancy(
        BuoyancyWeighing(
            in_air=normal_input("in air", in_air, 1e-4, unit="g"),
            in_water=normal_input("in water", in_water, 1e-4, unit="g"),
            water_temperature=normal_input("water", 20.0, 0.2, unit="degC"),
            air_density=air_density(20.0),
            wire_diameter_um=wire_um,
        )
    )
    return covers(result.interval, true)


def buoyancy_on_a_wire(chance: Chance) -> bool:
    """Weigh the same, hung on a wire of 0.1 mm."""
    return buoyancy(chance, 100.0)


def geometry(chance: Chance) -> bool:
    """One laboratory: 19 strands of 0.08 mm over 1 m, micrometer good to 0.5 um."""
    true = 8.93
    mass = 1e3 * true * 19 * pi / 4 * 0.08**2
    result = density_by_geometry(
        normal_input("mass", mass + chance.normal(0, 1.0), 1.0, unit="mg"),
        normal_input("length", 1.0 + chance.normal(0, 0.001), 0.001, unit="m"),
        normal_input("diameter", 80.0 + chance.normal(0, 0.5), 0.5, unit="um"),
        strands=19,
    )
    return covers(result.interval, true)


def covers(interval: Interval, true: float) -> bool:
    """Whether a closed interval holds the truth."""
    return (interval.lower or 0.0) <= true <= (interval.upper or 0.0)


def fields(chance: Chance, mean: float, count: int) -> list[SlipTraceField]:
    """Fields of one strand: gamma scatter of a fifth, directions within 10 deg."""
    return [
        SlipTraceField(
            name="",
            lines_per_mm=float(chance.gamma(25.0, mean / 25.0)),
            directions_deg=(),
            lines_per_mm_by_direction=(),
            main_direction_deg=float(chance.normal(40.0, 10.0)),
            alignment=float(chance.uniform(0.4, 0.8)),
            area_mm2=0.01,
        )
        for _ in range(count)
    ]


def says(verdict: str, *, factor: float, count: int) -> Callable[[Chance], bool]:
    """Whether the decision says a word where the mean changes by a factor."""

    def run(chance: Chance) -> bool:
        before, after = fields(chance, 40.0, count), fields(chance, 40 * factor, count)
        found = compare_deformation(before, after, FACTS, generator=chance)
        return found.verdict == verdict

    return run


def share(name: str, run: Callable[[Chance], bool], runs: int) -> None:
    """Print a share with its exact limits."""
    chance = np.random.default_rng(SEED)
    hits = sum(run(chance) for _ in range(runs))
    limits = stats.binomtest(hits, runs).proportion_ci(0.95, method="exact")
    print(
        f"{name:58s} {100 * hits / runs:6.2f} %"
        f"   ({100 * limits.low:.2f} to {100 * limits.high:.2f})"
    )


def main() -> None:
    """Print all shares."""
    runs = int(sys.argv[1]) if len(sys.argv) > 1 else 10_000
    print(f"{runs} runs each; exact 95 % limits in brackets\n")
    print("intervals of 95 % that cover the truth")
    share("hardness, 5 indentations, 25 gf", hardness, runs)
    share("density by water, 0.5 g, thread of 20 um", buoyancy, runs)
    share("density by water, 0.5 g, wire of 100 um", buoyancy_on_a_wire, runs)
    share("density by mass, length and diameter", geometry, runs)
    print("\nslip traces, nothing changed: 'changed' is wrong, at most 5 %")
    for count in (5, 8):
        run = says("changed", factor=1.0, count=count)
        share(f"{count} fields before and after", run, runs)
    print("\nslip traces, change as large as matters: 'not changed' is wrong, 5 %")
    for count in (5, 8):
        run = says("not changed", factor=1.25, count=count)
        share(f"{count} fields before and after", run, runs)
    print("\nslip traces, power: the right word")
    for count in (5, 8):
        run = says("changed", factor=3.0, count=count)
        share(f"{count} fields, three times the lines: changed", run, runs)
        run = says("not changed", factor=1.0, count=count)
        share(f"{count} fields, nothing changed: not changed", run, runs)


if __name__ == "__main__":
    main()
