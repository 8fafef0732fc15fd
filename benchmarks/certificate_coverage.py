"""How often the total of a certificate covers the true total of its elements.

Run: python benchmarks/certificate_coverage.py [certificates a family]

Draws certificates of known truth: 14 elements of contents spread over three decades,
measured with a known relative uncertainty and noise near zero; an element below its
detection limit is listed as "<" that limit. Families differ in what lies below the
limits: anything up to the limit alike, mostly near zero, all just below the limit,
all absent, or as a laboratory would decide from its noisy reading, which lists some
elements as below the limit although their content is above it.

Printed for each family, with exact 95 % limits: how often the true total lies at or
below the one-sided 95 % bound, how often within the two intervals that rest on an
assumption, and the mean bound over the mean true total. Only the bound is stated as a
result without an assumption; the intervals are right where their assumption is.
"""

import sys
from collections.abc import Callable
from functools import partial

import numpy as np

from strandproof.composition import impurity_total
from strandproof.quantity import binomial_interval
from strandproof.records.composition import Basis, Certificate, ElementContent

ELEMENTS = [
    "Ag",
    "As",
    "Bi",
    "Cd",
    "Co",
    "Cr",
    "Fe",
    "Mn",
    "Ni",
    "P",
    "Pb",
    "Sb",
    "Sn",
    "Zn",
]
RELATIVE = 0.1
Draw = Callable[[np.random.Generator, float], float]

BELOW: dict[str, Draw] = {
    "alike up to the limit": lambda chance, limit: chance.uniform(0, limit),
    "mostly near zero": lambda chance, limit: limit * (1 - chance.uniform() ** 0.5),
    "all just below it": lambda _, limit: limit,
    "all absent": lambda _chance, _limit: 0.0,
}


def main() -> None:
    """Print the coverage of each family."""
    size = int(sys.argv[1]) if len(sys.argv) > 1 else 10_000
    print(f"{size} certificates a family, {len(ELEMENTS)} elements")
    for name, draw in BELOW.items():
        print_family(name, size, partial(certificate, draw=draw))
    print_family("by noisy readings", size, noisy_certificate)


def print_family(
    name: str,
    size: int,
    make: Callable[[np.random.Generator], tuple[Certificate, float]],
) -> None:
    """Count coverage over certificates of one family."""
    chance = np.random.default_rng(77)
    bound, uniform, triangular = 0, 0, 0
    bounds, truths = [], []
    for _ in range(size):
        paper, truth = make(chance)
        total = impurity_total(paper, basis=Basis.METALS_ONLY)
        bound += truth <= total.bound_ppm
        inside = [
            (one.interval.lower or 0) <= truth <= (one.interval.upper or 0)
            for one in total.treatments
        ]
        uniform, triangular = uniform + inside[0], triangular + inside[1]
        bounds.append(total.bound_ppm)
        truths.append(truth)
    ratio = np.mean(bounds) / np.mean(truths)
    shown = ", ".join(
        f"{label} {percent(hits, size)}"
        for label, hits in (
            ("bound", bound),
            ("uniform", uniform),
            ("triangular", triangular),
        )
    )
    print(f"{name}: {shown}; mean bound {ratio:.2f} of the truth")


def certificate(chance: np.random.Generator, draw: Draw) -> tuple[Certificate, float]:
    """Draw one certificate; about half of its elements lie below their limits."""
    contents, truth = [], 0.0
    for symbol in ELEMENTS:
        limit = 10 ** chance.uniform(-1, 0.5)
        if chance.uniform() < 0.5:
            truth += draw(chance, limit)
            contents.append(ElementContent(symbol=symbol, state="below", ppm=limit))
            continue
        true = limit * 10 ** chance.uniform(0, 1.5)
        truth += true
        contents.append(value(symbol, true, chance))
    return Certificate(item="rod", contents=tuple(contents)), truth


def noisy_certificate(chance: np.random.Generator) -> tuple[Certificate, float]:
    """Draw one certificate whose limits are decided by noisy readings."""
    contents, truth = [], 0.0
    for symbol in ELEMENTS:
        limit = 10 ** chance.uniform(-1, 0.5)
        true = limit * 10 ** chance.uniform(-1.5, 1.5)
        truth += true
        # A detection limit of three deviations of the blank.
        u = float(np.hypot(RELATIVE * true, limit / 3))
        read = chance.normal(true, u)
        if read < limit:
            contents.append(ElementContent(symbol=symbol, state="below", ppm=limit))
        else:
            stated = float(np.hypot(RELATIVE * read, limit / 3))
            contents.append(
                ElementContent(
                    symbol=symbol, state="value", ppm=read, standard_uncertainty=stated
                )
            )
    return Certificate(item="rod", contents=tuple(contents)), truth


def value(symbol: str, true: float, chance: np.random.Generator) -> ElementContent:
    """Draw a reading with its stated uncertainty."""
    read = max(0.0, chance.normal(true, RELATIVE * true))
    return ElementContent(
        symbol=symbol, state="value", ppm=read, standard_uncertainty=RELATIVE * true
    )


def percent(hits: int, size: int) -> str:
    """Write a share with its exact 95 % limits."""
    limits = binomial_interval(hits, size)
    low, high = 100 * (limits.lower or 0), 100 * (limits.upper or 0)
    return f"{100 * hits / size:.1f} % ({low:.1f} to {high:.1f})"


if __name__ == "__main__":
    main()
