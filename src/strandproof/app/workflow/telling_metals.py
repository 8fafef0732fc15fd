"""The use case that asks which metal a strand is."""

from collections.abc import Mapping
from typing import Any, cast, get_args

from strandproof.app.workflow.bench_findings import BenchFinding
from strandproof.app.workflow.budget_lines import flags_in_words
from strandproof.errors import ParameterError
from strandproof.physical import PROPERTY_UNITS, metal_in_words, rank_metals
from strandproof.quantity import Quantity
from strandproof.records.entries import ClaimKind, MeasurementResult
from strandproof.records.physical import (
    MetalFit,
    MetalProperty,
    MetalRanking,
    MetalReadings,
    MetalSign,
)
from strandproof.records.plain_data import as_plain_data


def judge_metal(
    measured: Mapping[str, tuple[float, float]], seen: Mapping[str, str]
) -> MetalRanking:
    """Rank kinds of strand by typed readings.

    Parameters
    ----------
    measured : mapping of str to tuple of float
        Value and standard uncertainty by property.
    seen : mapping of str to str
        Answers by kind of reading.

    Returns
    -------
    MetalRanking
        Kinds of strand, best first.

    Raises
    ------
    ParameterError
        If a property, a kind of reading or an answer is unknown.
    """
    for name in measured:
        if name not in PROPERTY_UNITS:
            raise ParameterError(
                "property", name, allowed=f"one of {', '.join(PROPERTY_UNITS)}"
            )
    for name in seen:
        if name not in get_args(MetalSign):
            raise ParameterError(
                "reading", name, allowed=f"one of {', '.join(get_args(MetalSign))}"
            )
    return rank_metals(
        MetalReadings(
            measured={
                cast("MetalProperty", name): Quantity(
                    value, PROPERTY_UNITS[cast("MetalProperty", name)], u
                )
                for name, (value, u) in measured.items()
            },
            seen={cast("MetalSign", name): answer for name, answer in seen.items()},
        )
    )


def metals_in_words(ranking: MetalRanking) -> tuple[str, ...]:
    """Say which kinds of strand fit, with what each reading adds.

    Parameters
    ----------
    ranking : MetalRanking
        From `judge_metal`.

    Returns
    -------
    tuple of str
        Lines for people.
    """
    lines = [ranking.sentences[0]]
    lines += [_fit_line(fit) for fit in ranking.fits]
    return (*lines, *ranking.sentences[1:], *flags_in_words(ranking.flags))


def _fit_line(fit: MetalFit) -> str:
    parts = ", ".join(
        f"{one.reading.replace('_', ' ')} {_power(one.log10_ratio)}"
        for one in fit.contributions
    )
    word = "fits" if fit.fits else "does not fit"
    total = _power(fit.log10_ratio)
    return f"  {metal_in_words(fit.metal)}: {word}, {total} in all ({parts})"


def _power(log10_ratio: float) -> str:
    """Say a ratio to the best, as a share of one."""
    if log10_ratio > -0.005:
        return "1"
    share = 10.0**-log10_ratio
    if share < 10:
        return f"1/{share:.2g}"
    return f"1/{share:.0f}" if share < 1000 else f"1/10^{-log10_ratio:.1f}"


def metals_data(ranking: MetalRanking) -> dict[str, Any]:
    """Give a ranking as plain data.

    Parameters
    ----------
    ranking : MetalRanking
        From `judge_metal`.

    Returns
    -------
    dict
        JSON data; flags by name.
    """
    data = cast("dict[str, Any]", as_plain_data(ranking))
    return {**data, "flags": [flag.name for flag in ranking.flags]}


def metals_finding(ranking: MetalRanking) -> BenchFinding:
    """Give a ranking in the form that a case holds.

    Parameters
    ----------
    ranking : MetalRanking
        From `judge_metal`.

    Returns
    -------
    BenchFinding
        Bears on the build: which metal.
    """
    best = ranking.fits[0]
    return BenchFinding(
        method="which metal: likelihoods of readings for eight kinds of strand",
        results=(
            MeasurementResult(
                name="metals_not_told_apart",
                value=None,
                words=", ".join(map(metal_in_words, ranking.not_told_apart))
                or "none of these fits",
            ),
            MeasurementResult(
                name="best_fitting_metal", value=None, words=metal_in_words(best.metal)
            ),
        ),
        bears_on=(ClaimKind.BUILD,),
        sentence=ranking.sentences[0],
        flags=tuple(dict.fromkeys(flag.name for flag in ranking.flags)),
    )
