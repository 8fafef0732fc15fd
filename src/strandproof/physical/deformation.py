"""Whether handling changed the slip traces of a strand: changed, not, cannot tell."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import radians, sin, sqrt

import numpy as np
import numpy.typing as npt
from scipy import stats

from strandproof.physical.objections import facts_sentences, objection_sentences
from strandproof.physical.permutation import permutation_probability
from strandproof.physical.rules import rule
from strandproof.quantity import Interval
from strandproof.records import Flag
from strandproof.records.physical import (
    DeformationComparison,
    DeformationVerdict,
    HandlingFacts,
    SlipTraceField,
)

Vectors = npt.NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class _Tests:
    """What the fields allow to say, before the facts of handling."""

    difference: Interval | None
    matters: float
    density: float | None
    direction: float | None
    alike: bool


def compare_deformation(
    before: Sequence[SlipTraceField],
    after: Sequence[SlipTraceField],
    facts: HandlingFacts,
    *,
    generator: np.random.Generator | None = None,
) -> DeformationComparison:
    """Decide whether handling changed the slip traces of one strand.

    Assumes fields at places nobody picked, pictured alike before and after. A field
    counts as one; the decision speaks for the strand pictured.

    Parameters
    ----------
    before, after : sequence of SlipTraceField
        Fields before and after handling; one or more each, five for a decision.
    facts : HandlingFacts
        What was done between, and which objection is to be answered.
    generator : numpy.random.Generator, optional
        For sampled permutations where there are more than 20 000; None takes a fixed
        one, so that the same fields give the same answer.

    Returns
    -------
    DeformationComparison
        Verdict with its reason, its error rate and what it does not answer.

    Notes
    -----
    *Changed*: the permutation probability of the difference of mean lines per mm, or
    of mean direction vectors (length-weighted, of doubled angles), is at most 0.025;
    both together err in at most 5 % where nothing changed (Bonferroni). *Not changed*:
    Welch's one-sided 95 % bounds of after - 1.25 before and after - 0.75 before lie
    below and above zero (two one-sided tests; where 25 % is below 5 per mm, those of
    the difference within 5 per mm), and the 95 % bound of the change of direction lies
    within that of a turn by 15 deg. Else *cannot tell*. Steps show only on a surface
    polished before handling and left alone after it; without that the answer is
    *cannot tell*.

    References
    ----------
    Permutation test: R. A. Fisher, 1935. Two one-sided tests: D. J. Schuirmann, 1987.
    Both from memory.
    """
    generator = generator or np.random.default_rng(20311)
    tests = _tests(before, after, generator)
    verdict, reason = _verdict(tests, facts, len(before), len(after))
    return DeformationComparison(
        before=tuple(before),
        after=tuple(after),
        facts=facts,
        difference=tests.difference,
        density_probability=tests.density,
        direction_probability=tests.direction,
        change_that_matters=tests.matters,
        error_rate=rule("slip.error_rate"),
        verdict=verdict,
        sentences=(
            reason,
            *facts_sentences(facts),
            *objection_sentences(facts.objection, verdict),
        ),
        flags=_flags(facts, len(before), len(after)),
    )


def _tests(
    before: Sequence[SlipTraceField],
    after: Sequence[SlipTraceField],
    generator: np.random.Generator,
) -> _Tests:
    lines = [np.array([one.lines_per_mm for one in side]) for side in (before, after)]
    first, second = _direction_vectors(before), _direction_vectors(after)
    matters = max(
        0.01 * rule("slip.change") * float(lines[0].mean()) if before else 0.0,
        rule("slip.change_lines"),
    )
    if not _enough(len(before), len(after)):
        return _Tests(_welch(*lines), matters, None, None, alike=False)
    turn = 2.0 * sin(radians(rule("slip.turn")))
    return _Tests(
        _welch(*lines),
        matters,
        permutation_probability(lines[0][:, None], lines[1][:, None], generator),
        permutation_probability(first, second, generator),
        alike=_within(*lines) and _turn_bound(first, second) < turn,
    )


def _within(before: Vectors, after: Vectors) -> bool:
    """Whether two one-sided tests keep the change below the one that matters.

    Where a share of the number before matters, that number's own scatter counts too:
    the bounds are those of after - (1 + share) before and after - (1 - share) before.
    """
    share, few = 0.01 * rule("slip.change"), rule("slip.change_lines")
    if share * float(before.mean()) < few:
        lower, upper = _bounds(before, after, 1.0)
        return -few < lower and upper < few
    return (
        _bounds(before, after, 1 + share)[1] < 0 < _bounds(before, after, 1 - share)[0]
    )


def _direction_vectors(fields: Sequence[SlipTraceField]) -> Vectors:
    """Mean vectors of doubled directions; the origin for a field without lines."""
    doubled = [2.0 * radians(one.main_direction_deg or 0.0) for one in fields]
    aligned = np.array([one.alignment for one in fields])
    return np.column_stack((aligned * np.cos(doubled), aligned * np.sin(doubled)))


def _enough(n_before: int, n_after: int) -> bool:
    return min(n_before, n_after) >= rule("slip.least_fields")


def _welch(before: Vectors, after: Vectors) -> Interval | None:
    if min(before.size, after.size) < 2:
        return None
    lower, upper = _bounds(before, after, 1.0)
    return Interval(
        lower=lower,
        upper=upper,
        unit="1/mm",
        confidence=1.0 - 2.0 * rule("slip.error_rate"),
        method=f"Welch's t over {before.size} fields before and {after.size} after",
    )


def _bounds(before: Vectors, after: Vectors, factor: float) -> tuple[float, float]:
    """One-sided bounds of the mean after less a factor times the mean before."""
    difference = float(after.mean()) - factor * float(before.mean())
    parts = [
        scale**2 * float(side.var(ddof=1)) / side.size
        for scale, side in ((factor, before), (1.0, after))
    ]
    freedom = _welch_freedom(parts, (before.size, after.size))
    quantile = float(stats.t.ppf(1.0 - rule("slip.error_rate"), freedom))
    half = sqrt(sum(parts)) * quantile
    return difference - half, difference + half


def _welch_freedom(parts: Sequence[float], sizes: Sequence[int]) -> float:
    below = sum(part**2 / (size - 1) for part, size in zip(parts, sizes, strict=True))
    return sum(parts) ** 2 / below if below > 0 else float(min(sizes) - 1)


def _turn_bound(before: Vectors, after: Vectors) -> float:
    """One-sided 95 % bound of the length of the difference of mean vectors."""
    difference = after.mean(axis=0) - before.mean(axis=0)
    variance = sum(
        float(side.var(axis=0, ddof=1).sum()) / len(side) for side in (before, after)
    )
    factor = float(stats.t.ppf(0.95, min(len(before), len(after)) - 1))
    return float(np.hypot(*difference)) + factor * sqrt(variance)


def _verdict(
    tests: _Tests, facts: HandlingFacts, n_before: int, n_after: int
) -> tuple[DeformationVerdict, str]:
    if not _enough(n_before, n_after):
        least = rule("slip.least_fields")
        return "cannot tell", (
            f"Cannot tell: {n_before} fields before and {n_after} after; "
            f"{least:.0f} each are the fewest that allow a decision."
        )
    if facts.touched_after is not False:
        return "cannot tell", (
            "Cannot tell: nobody states that the surface was left alone afterwards; "
            "polishing takes steps away and makes lines of its own."
        )
    if _changed(tests):
        return "changed", f"Changed: {_figures(tests)}."
    if facts.polished_before is not True:
        return "cannot tell", (
            "Cannot tell: steps show only on a surface polished before handling, and "
            "nobody states that it was, so that no change means nothing."
        )
    if tests.alike:
        return "not changed", f"Not changed: {_figures(tests)}."
    return "cannot tell", (
        f"Cannot tell: {_figures(tests)}; neither a change nor its absence is shown. "
        "Picture more fields."
    )


def _changed(tests: _Tests) -> bool:
    limit = 0.5 * rule("slip.error_rate")
    found = (tests.density, tests.direction)
    return any(one is not None and one <= limit for one in found)


def _figures(tests: _Tests) -> str:
    interval = tests.difference
    if interval is None or interval.lower is None or interval.upper is None:
        return "no interval of the difference"
    return (
        f"lines per mm after less before are {interval.lower:.1f} to "
        f"{interval.upper:.1f} (90 %), a change of {tests.matters:.1f} matters; "
        f"probability of such a difference by chance {tests.density:.2g} for the "
        f"number and {tests.direction:.2g} for the directions"
    )


def _flags(facts: HandlingFacts, n_before: int, n_after: int) -> tuple[Flag, ...]:
    flags = []
    if not _enough(n_before, n_after):
        flags.append(Flag("few_fields_compared", f"{n_before} and {n_after}"))
    if facts.polished_before is not True or facts.touched_after is not False:
        flags.append(Flag("not_polished_before_bending"))
    return tuple(flags)
