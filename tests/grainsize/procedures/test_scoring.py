import pytest
from hypothesis import given
from hypothesis import strategies as st

from strandproof.errors import ParameterError
from strandproof.grainsize.procedures.scoring import (
    intercepts_of,
    intersections_of,
    other_choices,
    score_option,
    scoring_rules,
    summed_events,
)
from strandproof.records.procedures import LineEvents
from strandproof.tables import package_table

SMALL = st.integers(0, 50)
EVENTS = st.builds(
    LineEvents,
    crossings=SMALL,
    triple_points=SMALL,
    higher_junctions=st.lists(st.integers(4, 6), max_size=4).map(tuple),
    tangents=SMALL,
    ends_inside=st.integers(0, 2),
    ends_on_boundary=st.integers(0, 2),
    strand_edge_ends_inside=st.integers(0, 2),
)


@pytest.mark.parametrize(
    ("standard", "tangent", "triple", "statuses"),
    [
        ("textbook", 0.5, 1.5, ("read", "read")),
        ("e112", 1.0, 1.5, ("from memory", "read")),
        ("e112_circles", 1.0, 2.0, ("from memory", "from memory")),
    ],
)
def test_a_standard_names_its_scores_and_how_they_are_known(
    standard: str, tangent: float, triple: float, statuses: tuple[str, str]
) -> None:
    rules = scoring_rules(standard)  # type: ignore[arg-type]
    assert (rules.tangent.score, rules.triple_point.score) == (tangent, triple)
    assert (rules.tangent.status, rules.triple_point.status) == statuses
    assert rules.end_on_boundary.score == 0.5


@pytest.mark.parametrize(
    ("events", "score"),
    [
        (LineEvents(crossings=3), 3.0),
        (LineEvents(tangents=1), 0.5),
        (LineEvents(triple_points=1), 1.5),
        (LineEvents(higher_junctions=(4,)), 2.0),
        (LineEvents(ends_on_boundary=1), 0.5),
        (LineEvents(ends_inside=2), 0.0),
    ],
)
def test_each_event_has_its_score(events: LineEvents, score: float) -> None:
    assert intersections_of(events, scoring_rules()) == score


def test_single_choices_replace_those_of_the_standard() -> None:
    rules = scoring_rules("e112_circles", tangent="half", triple_point="one_and_half")
    assert rules == scoring_rules("textbook")


@given(events=EVENTS)
def test_intercepts_equal_intersections_when_ends_count_one_half(
    events: LineEvents,
) -> None:
    rules = scoring_rules()
    assert intercepts_of(events, rules) == intersections_of(events, rules)
    whole = scoring_rules(line_ends="whole_at_strand_edge")
    added = intercepts_of(events, whole) - intersections_of(events, whole)
    assert added == 0.5 * events.strand_edge_ends_inside


@given(first=EVENTS, second=EVENTS)
def test_scores_of_two_runs_add(first: LineEvents, second: LineEvents) -> None:
    rules = scoring_rules("e112")
    both = intercepts_of(summed_events((first, second)), rules)
    assert both == intercepts_of(first, rules) + intercepts_of(second, rules)


@pytest.mark.parametrize("standard", ["textbook", "e112_circles"])
def test_every_choice_not_taken_is_offered_once(standard: str) -> None:
    rules = scoring_rules(standard)  # type: ignore[arg-type]
    others = other_choices(rules)
    assert [option.rule for option, _ in others] == [
        "tangent",
        "triple_point",
        "line_ends",
    ]
    events = LineEvents(
        crossings=10, tangents=2, triple_points=2, strand_edge_ends_inside=1
    )
    taken = intercepts_of(events, rules)
    assert all(intercepts_of(events, other) != taken for _, other in others)


def test_unknown_names_are_refused() -> None:
    with pytest.raises(ParameterError, match="'textbook' or 'e112'"):
        scoring_rules("own")  # type: ignore[arg-type]
    with pytest.raises(ParameterError, match="whole_at_strand_edge"):
        scoring_rules(line_ends="none")  # type: ignore[arg-type]
    with pytest.raises(ParameterError, match="half, one"):
        score_option("tangent", "two", table=package_table("grain_size_rules"))
