"""Scores of line ends, tangents and triple points: named, recorded, compared."""

from collections.abc import Iterable, Mapping
from dataclasses import replace

from strandproof.errors import ParameterError
from strandproof.records.measurement import LineEndRule
from strandproof.records.procedures import (
    CountingStandard,
    LineEvents,
    ScoreOption,
    ScoringRules,
    TangentRule,
    TriplePointRule,
)
from strandproof.tables import TableRow, package_table, table_value

_ROWS = {
    ("tangent", "half"): "intercept.tangent_score.textbook",
    ("tangent", "one"): "intercept.tangent_score.e112",
    ("triple_point", "one_and_half"): "intercept.triple_point_score",
    ("triple_point", "two"): "intercept.triple_point_score.circles",
    ("end_on_boundary", "half"): "intercept.end_on_boundary_score",
}
_STANDARDS: Mapping[CountingStandard, tuple[TangentRule, TriplePointRule]] = {
    "textbook": ("half", "one_and_half"),
    "e112": ("one", "one_and_half"),
    "e112_circles": ("one", "two"),
}


def scoring_rules(
    standard: CountingStandard = "textbook",
    *,
    tangent: TangentRule | None = None,
    triple_point: TriplePointRule | None = None,
    line_ends: LineEndRule = "half",
    table: Mapping[str, TableRow] | None = None,
) -> ScoringRules:
    """Scores by the name of a standard, single ones replaced by name.

    Parameters
    ----------
    standard : {"textbook", "e112", "e112_circles"}
        ``"textbook"``: tangent 1/2, triple point 1 1/2, both read.
        ``"e112"``: tangent 1 (from memory). ``"e112_circles"``: triple point 2
        besides (from memory).
    tangent : {"half", "one"}, optional
        Score of a tangent; None takes the standard's.
    triple_point : {"one_and_half", "two"}, optional
        Score of a triple point; None takes the standard's.
    line_ends : {"half", "whole_at_strand_edge"}
        Score of an intercept that ends at the end of a line.
    table : Mapping from str to TableRow, optional
        Scores; None takes the package's table ``grain_size_rules``.

    Returns
    -------
    ScoringRules
        The rules, each with source and status.

    Raises
    ------
    ParameterError
        If a name is unknown.

    Examples
    --------
    >>> rules = scoring_rules("e112")
    >>> rules.tangent.score, rules.tangent.status
    (1.0, 'from memory')
    """
    if standard not in _STANDARDS:
        raise ParameterError(
            "standard", standard, allowed=" or ".join(map(repr, _STANDARDS))
        )
    if line_ends not in {"half", "whole_at_strand_edge"}:
        raise ParameterError(
            "line_ends", line_ends, allowed="'half' or 'whole_at_strand_edge'"
        )
    rows = package_table("grain_size_rules") if table is None else table
    by_tangent, by_triple = _STANDARDS[standard]
    return ScoringRules(
        line_ends=line_ends,
        tangent=score_option("tangent", tangent or by_tangent, table=rows),
        triple_point=score_option(
            "triple_point", triple_point or by_triple, table=rows
        ),
        end_on_boundary=score_option("end_on_boundary", "half", table=rows),
        contact_px=table_value(rows, "intercept.contact"),
    )


def score_option(
    rule: str, option: str, *, table: Mapping[str, TableRow]
) -> ScoreOption:
    """One score with its source, out of the table of rules.

    Parameters
    ----------
    rule : {"tangent", "triple_point", "end_on_boundary"}
        What is scored.
    option : str
        Name of the choice.
    table : Mapping from str to TableRow
        The table ``grain_size_rules``, or one with its keys.

    Returns
    -------
    ScoreOption
        Score, source and status.

    Raises
    ------
    ParameterError
        If rule and option do not name a score.
    """
    if (rule, option) not in _ROWS:
        allowed = ", ".join(name for kind, name in _ROWS if kind == rule)
        raise ParameterError(rule, option, allowed=allowed or "a rule that is scored")
    key = _ROWS[rule, option]
    value = table_value(table, key)
    row = table[key]
    return ScoreOption(
        rule=rule, option=option, score=value, source=row.source, status=row.status
    )


def intersections_of(events: LineEvents, rules: ScoringRules) -> float:
    """Boundary intersections P by the rules.

    Parameters
    ----------
    events : LineEvents
        What the lines met.
    rules : ScoringRules
        Scores.

    Returns
    -------
    float
        Crossings 1 each, the rest by its score; a point where k > 3 grains meet
        counts k/2.

    Notes
    -----
    A score is without bias when it is the mean of what lines a hair to either
    side would count. Of k boundaries that meet in a point a line through it
    leaves some on each side, k together: mean k/2, which is 1 1/2 for a triple
    point. A line a hair beyond a tangent crosses twice, one before it not at all:
    mean 1 (computed). The textbook's 1/2 for a tangent and 2 for a triple point
    are therefore not neutral; the effect stands beside the result.

    Examples
    --------
    >>> intersections_of(LineEvents(crossings=7, triple_points=2), scoring_rules())
    10.0
    """
    return (
        events.crossings
        + rules.triple_point.score * events.triple_points
        + sum(0.5 * grains for grains in events.higher_junctions)
        + rules.tangent.score * events.tangents
        + rules.end_on_boundary.score * events.ends_on_boundary
    )


def intercepts_of(events: LineEvents, rules: ScoringRules) -> float:
    """Grain intercepts N by the rules.

    Parameters
    ----------
    events : LineEvents
        What the lines met.
    rules : ScoringRules
        Scores.

    Returns
    -------
    float
        Equal to the intersections when an intercept that ends inside a grain
        counts one half; half of one more for each whole one at a strand edge.

    Notes
    -----
    A run with P boundaries inside has P + 1 pieces; its two ends take off one
    half each, unless they lie on a boundary. Textbook chapter Quantitative
    Microscopy, p. 449, eqs. 6-27 and 6-28 (read): N and P agree within one.
    """
    whole_ends = 0.0
    if rules.line_ends == "whole_at_strand_edge":
        whole_ends = 0.5 * events.strand_edge_ends_inside
    return intersections_of(events, rules) + whole_ends


def other_choices(rules: ScoringRules) -> tuple[tuple[ScoreOption, ScoringRules], ...]:
    """Give the rules with one choice changed at a time.

    Parameters
    ----------
    rules : ScoringRules
        The rules taken.

    Returns
    -------
    tuple of (ScoreOption, ScoringRules)
        Each choice not taken, and the rules with it.
    """
    table = package_table("grain_size_rules")
    found: list[tuple[ScoreOption, ScoringRules]] = []
    for rule, option in _ROWS:
        taken = getattr(rules, rule)
        if taken.option != option:
            other = score_option(rule, option, table=table)
            if rule == "tangent":
                found.append((other, replace(rules, tangent=other)))
            else:
                found.append((other, replace(rules, triple_point=other)))
    row = table["intercept.line_end_score"]
    ends: LineEndRule = (
        "half" if rules.line_ends == "whole_at_strand_edge" else "whole_at_strand_edge"
    )
    other = ScoreOption(
        rule="line_ends",
        option=ends,
        score=row.value,
        source=row.source if ends == "half" else "this project",
        status=row.status if ends == "half" else "judgement",
    )
    return (*found, (other, replace(rules, line_ends=ends)))


def summed_events(events: Iterable[LineEvents]) -> LineEvents:
    """All events of several runs together.

    Parameters
    ----------
    events : iterable of LineEvents
        One per run.

    Returns
    -------
    LineEvents
        The sums.
    """
    each = tuple(events)
    return LineEvents(
        crossings=sum(one.crossings for one in each),
        triple_points=sum(one.triple_points for one in each),
        higher_junctions=tuple(k for one in each for k in one.higher_junctions),
        tangents=sum(one.tangents for one in each),
        ends_inside=sum(one.ends_inside for one in each),
        ends_on_boundary=sum(one.ends_on_boundary for one in each),
        strand_edge_ends_inside=sum(one.strand_edge_ends_inside for one in each),
    )
