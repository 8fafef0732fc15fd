"""Counts by named procedures said in plain words."""

from collections.abc import Iterator
from dataclasses import dataclass

from strandproof.grainsize.procedures.digits import three_digits
from strandproof.records import FLAGS
from strandproof.records.entries.numbers import measured_value
from strandproof.records.measurement import AxialCrossings, Estimate
from strandproof.records.procedures import (
    AreaCount,
    ChoiceEffect,
    LineCount,
    ScoreOption,
    TestFigure,
)
from strandproof.records.structure_findings import PictureCounts, StrandCounts
from strandproof.report import value_in_words
from strandproof.weighing import no_boundary_bound

_NAMES = {
    "jeffries_circle": "Circle (Jeffries)",
    "saltykov_rectangle": "Rectangle (Saltykov)",
    "triple_points": "Triple points",
    "whole_area": "All metal in the picture",
    "heyn_lines": "Lines in four directions (Heyn)",
    "single_circle": "One circle",
    "three_circles": "Three circles",
}
_OPTIONS = {
    "half": "1/2",
    "one": "1",
    "one_and_half": "1 1/2",
    "two": "2",
    "whole_at_strand_edge": "whole at the strand's edge",
    "half_and_quarter_corners": "1/2, and 1/4 at corners",
    "half_less_one_a_circle": "1/2, less one for each circle",
}
_RULES = {
    "tangent": "tangent",
    "triple_point": "triple point",
    "line_ends": "line end",
    "frame_rule": "cut grain",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class BoundAsked:
    """Lengths that somebody would like to speak of.

    Parameters
    ----------
    speak_of_m : float
        A mean crystal length [m]; above 0.
    claimed_m : float or None
        The length claimed [m]; above 0.
    claimed_by : str
        Where it is claimed, for example ``"the tag"``.
    """

    speak_of_m: float = 1.0
    claimed_m: float | None = None
    claimed_by: str = "the claim"


def counts_in_words(name: str, counts: PictureCounts, *, bound: BoundAsked) -> str:
    """Say counts, rules and the standing of a mean.

    Parameters
    ----------
    name : str
        Name of the picture.
    counts : PictureCounts
        What was counted.
    bound : BoundAsked
        Lengths to speak of where no boundary was resolved.

    Returns
    -------
    str
        Lines for people.
    """
    scoring = counts.scoring
    scores = (scoring.tangent, scoring.triple_point, scoring.end_on_boundary)
    lines = [
        f"{name}: {len(counts.strands)} piece(s) of metal, labels: {counts.method}",
        (
            f"Rules: {'; '.join(map(_score, scores))}; line end "
            f"{_OPTIONS[scoring.line_ends]}."
        ),
    ]
    for strand in counts.strands:
        lines += _strand_lines(strand, bound)
    flags = dict.fromkeys(flag.name for flag in counts.flags)
    lines += [f"Keep in mind: {FLAGS[flag].meaning}" for flag in flags]
    return "\n".join(lines)


def _strand_lines(strand: StrandCounts, bound: BoundAsked) -> Iterator[str]:
    yield f"Piece {strand.number} ({strand.shape}): {strand.standing.sentence}"
    # Where no mean stands, what is measured instead comes first.
    if strand.crossings is not None:
        yield f"  {_crossings(strand.crossings, bound)}"
    for area in strand.areas:
        yield from _area_lines(area)
    for line in strand.lines:
        yield from _line_lines(line)
    if strand.difference is not None:
        yield f"  {strand.difference.sentence}"
    if strand.density is not None:
        yield f"  {strand.density.sentence}"
    if strand.twins is not None:
        yield f"  {strand.twins.sentence}"
    if strand.largest is not None:
        yield f"  {strand.largest.sentence}"
    yield from _spread_lines(strand)


def _crossings(crossings: AxialCrossings, bound: BoundAsked) -> str:
    if crossings.crossings == 0 and crossings.length.unit == "mm":
        return no_boundary_bound(
            crossings.length.value,
            speak_of_m=bound.speak_of_m,
            claimed_m=bound.claimed_m,
            claimed_by=bound.claimed_by,
        ).sentence
    return crossings.sentence


def _area_lines(area: AreaCount) -> Iterator[str]:
    if area.procedure == "triple_points":
        seen = f"{area.inside} points"
    else:
        seen = f"{area.inside} grains inside, {area.cut} cut"
    yield (
        f"  {_NAMES[area.procedure]}{_figures(area.figures)}: {seen}, worth "
        f"{area.equivalent:g}; {_words(area.grains_per_area)}; G {_words(area.g)}"
    )
    yield from _effect_lines(area.effects, taken=area.equivalent)


def _line_lines(line: LineCount) -> Iterator[str]:
    events = line.events
    yield (
        f"  {_NAMES[line.procedure]}{_figures(line.figures)}: crossings "
        f"{events.crossings}, triple points {events.triple_points}, junctions of 4 or "
        f"more grains {len(events.higher_junctions)}, tangents {events.tangents}; "
        f"{line.intercepts:g} intercepts over {three_digits(line.length.value)} "
        f"{line.length.unit}"
    )
    yield (
        f"    mean lineal intercept {_words(line.mean_intercept)}; G {_words(line.g)}"
    )
    yield from _effect_lines(line.effects, taken=line.intercepts)


def _effect_lines(effects: tuple[ChoiceEffect, ...], *, taken: float) -> Iterator[str]:
    # The record holds every choice; here only those that change the count.
    for effect in effects:
        if effect.count == taken:
            continue
        g = "" if effect.g is None else f", G {effect.g:.2f}"
        yield (
            f"    with {_RULES[effect.rule]} {_OPTIONS[effect.option]} "
            f"({effect.status}): {effect.count:g}{g}"
        )


def _spread_lines(strand: StrandCounts) -> Iterator[str]:
    for name, spread in (
        ("areas of whole grains", strand.statistics.areas),
        ("lengths between boundaries", strand.statistics.intercepts),
    ):
        if not spread.percentiles:
            continue
        at = dict(spread.percentiles)
        unit = spread.unit.replace("um", "µm").replace("^2", "²")
        yield (
            f"  Spread of {name}: {spread.n} used, {spread.left_out} cut ones left "
            f"out; median {three_digits(at[50.0])} {unit}, 5 to 95 %: "
            f"{three_digits(at[5.0])} to {three_digits(at[95.0])} {unit}"
        )


def _figures(figures: tuple[TestFigure, ...]) -> str:
    figure = figures[0]
    if figure.kind in {"lines", "whole_metal"}:
        return ""
    size = " x ".join(f"{each:.0f}" for each in figure.size_px)
    clipped = ", part of it off the metal" if figure.clipped else ""
    places = len({each.centre_px for each in figures})
    times = f" at {places} places" if places > 1 else ""
    return f", {size} px{times}, {figure.size_from.replace('_', ' ')}{clipped}"


def _score(option: ScoreOption) -> str:
    rule = option.rule.replace("_", " ")
    return f"{rule} {_OPTIONS[option.option]} ({option.source}, {option.status})"


def _words(estimate: Estimate | None) -> str:
    if estimate is None:
        return "not stated"
    return value_in_words(measured_value(estimate.quantity, estimate.interval95))
