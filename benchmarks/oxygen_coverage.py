"""How often the oxygen from oxide on a polished section covers the true oxygen.

Run: python benchmarks/oxygen_coverage.py [sections a family]

Places spheres at random in space, cuts them by a plane and looks at square fields of
it: the discs of the cut are the oxide. The true volume fraction is that of the spheres,
not of the section. Families: amounts from oxygen-free to tough-pitch, spheres of one
size and of unlike sizes, few and many fields, and oxide in strings or clusters, where
fields of one section differ by more than chance. Fields are counted by areas, with and
without the area of the largest particle seen, and by a grid of points.

Printed for each: how often the 95 % interval holds the true oxygen, with exact limits,
how often no oxide was seen, and the mean width of the interval over the true value.
Nothing here tests whether oxide is recognised as oxide.
"""

import sys
from dataclasses import dataclass
from math import pi

import numpy as np

from strandproof.composition import (
    OxideField,
    inclusion_oxygen,
    oxygen_of_oxide_fraction,
)
from strandproof.quantity import binomial_interval

SIDE_UM = 200.0
GRID = 20


@dataclass(frozen=True)
class Family:
    """Oxide of one kind.

    Parameters
    ----------
    ppm : float
        Oxygen held as oxide [ppm by mass].
    diameter_um : float
        Mean diameter of the spheres [um].
    spread : float
        Spread of the logarithm of the diameter; 0 for spheres of one size.
    fields : int
        Fields looked at.
    cluster : float
        Squared relative spread of the local amount between fields; 0 for none.
    """

    ppm: float
    diameter_um: float = 2.0
    spread: float = 0.4
    fields: int = 10
    cluster: float = 0.0


FAMILIES = (
    Family(5),
    Family(10),
    Family(50),
    Family(200),
    Family(400),
    Family(200, spread=0.0),
    Family(200, spread=0.8),
    Family(200, fields=4),
    Family(200, fields=30),
    Family(200, cluster=0.25),
    Family(50, cluster=1.0),
)


def main() -> None:
    """Print the coverage of each family."""
    size = int(sys.argv[1]) if len(sys.argv) > 1 else 10_000
    print(f"{size} sections a family, fields of {SIDE_UM:g} um")
    for family in FAMILIES:
        chance = np.random.default_rng(2031)
        counts = {"areas": [0, 0], "areas, largest": [0, 0], "points": [0, 0]}
        widths: dict[str, list[float]] = {name: [] for name in counts}
        truth = oxygen_of_oxide_fraction(fraction_of(family.ppm))
        for _ in range(size):
            drawn, largest = section(family, chance)
            for name, fields in drawn.items():
                found = inclusion_oxygen(
                    fields,
                    counted=name.partition(",")[0],
                    largest_particle=largest if name == "areas, largest" else None,
                )
                interval = found.oxygen_interval
                low, high = interval.lower or 0.0, interval.upper
                counts[name][0] += low <= truth and (high is None or truth <= high)
                counts[name][1] += found.area_fraction == 0
                if high is not None:
                    widths[name].append((high - low) / truth)
        print(family)
        for name, (hits, none) in counts.items():
            width = f"{np.mean(widths[name]):.2f}" if widths[name] else "none"
            print(
                f"  {name}: {percent(hits, size)}, no oxide seen in "
                f"{100 * none / size:.0f} %, width {width} of the truth"
            )


def fraction_of(ppm: float) -> float:
    """Give the volume fraction that holds this much oxygen, by halving."""
    low, high = 0.0, 0.1
    for _ in range(60):
        middle = (low + high) / 2
        if oxygen_of_oxide_fraction(middle) < ppm:
            low = middle
        else:
            high = middle
    return low


def moments(family: Family) -> tuple[float, float, float]:
    """Mean, mean square and mean cube of the sphere diameter [um]."""
    s2 = family.spread**2
    base = family.diameter_um / np.exp(s2 / 2)
    first, second, third = (base**k * np.exp(k * k * s2 / 2) for k in (1, 2, 3))
    return float(first), float(second), float(third)


def section(
    family: Family, chance: np.random.Generator
) -> tuple[dict[str, list[OxideField]], float]:
    """Cut spheres by a plane and look at fields; also the largest disc's area."""
    first, _, third = moments(family)
    per_volume = fraction_of(family.ppm) / (pi / 6 * third)
    # A plane meets spheres per area in the number density times the mean diameter.
    per_field = per_volume * first * SIDE_UM**2
    largest = pi / 4 * family.diameter_um**2
    fields: dict[str, list[OxideField]] = {
        "areas": [],
        "areas, largest": [],
        "points": [],
    }
    for _ in range(family.fields):
        local = per_field
        if family.cluster:
            shape = 1 / family.cluster
            local *= chance.gamma(shape, 1 / shape)
        radii = disc_radii(family, chance.poisson(local), chance)
        area = min(float(np.sum(pi * radii**2)), SIDE_UM**2)
        fields["areas"].append(OxideField(oxide=area, whole=SIDE_UM**2))
        fields["areas, largest"].append(OxideField(oxide=area, whole=SIDE_UM**2))
        largest = max(largest, pi * float(np.max(radii, initial=0.0)) ** 2)
        hits = points_on_discs(radii, chance)
        fields["points"].append(OxideField(oxide=hits, whole=GRID * GRID))
    return fields, largest


def disc_radii(
    family: Family, count: int, chance: np.random.Generator
) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
    """Radii of discs: a plane meets a sphere in proportion to its diameter."""
    s2 = family.spread**2
    base = np.log(family.diameter_um) - s2 / 2
    # Weighted by the diameter, a log-normal law moves by its variance.
    diameters = np.exp(chance.normal(base + s2, family.spread, count))
    height = chance.uniform(0, 1, count)
    return np.asarray(diameters / 2 * np.sqrt(1 - height**2))


def points_on_discs(
    radii: np.ndarray[tuple[int], np.dtype[np.float64]], chance: np.random.Generator
) -> int:
    """Count points of a square grid on discs at random places; no disc overlaps."""
    step = SIDE_UM / GRID
    # Offsets of each disc's middle from its nearest grid point.
    offsets = chance.uniform(-step / 2, step / 2, (len(radii), 2))
    reach = np.arange(-2, 3) * step
    across = offsets[:, 0, None, None] + reach[None, :, None]
    along = offsets[:, 1, None, None] + reach[None, None, :]
    hits = int(np.count_nonzero(np.hypot(across, along) <= radii[:, None, None]))
    return min(hits, GRID * GRID)


def percent(hits: int, size: int) -> str:
    """Write a share with its exact 95 % limits."""
    limits = binomial_interval(hits, size)
    low, high = 100 * (limits.lower or 0), 100 * (limits.upper or 0)
    return f"{100 * hits / size:.1f} % ({low:.1f} to {high:.1f})"


if __name__ == "__main__":
    main()
