"""Counts by class and mean intercepts, with and without the doubtful."""

from collections.abc import Sequence
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from strandproof.errors import ParameterError, UnitError
from strandproof.grainsize.marks import (
    FEATURES,
    CircularTestLine,
    LineMark,
    MarkedLine,
    MarkScores,
    StraightTestLine,
    count_marks,
)
from strandproof.quantity import Quantity
from strandproof.records.entries.laboratory import MarkFeature, MarkMeeting

PIXEL = Quantity(0.1726, "um", 0.0004)
LINE = StraightTestLine(number=1, start_px=(0.0, 0.0), end_px=(600.0, 0.0))
CIRCLE = CircularTestLine(number=2, centre_px=(50.0, 50.0), radius_px=20.0)


def spread(line_length: float, features: Sequence[MarkFeature]) -> list[LineMark]:
    """Marks of these classes, evenly spread."""
    step = line_length / (len(features) + 1)
    return [
        LineMark(along_px=step * (place + 1), feature=feature)
        for place, feature in enumerate(features)
    ]


def marked(features: Sequence[MarkFeature]) -> MarkedLine:
    return MarkedLine(line=LINE, marks=tuple(spread(600.0, features)))


def test_every_class_is_counted_also_those_not_used() -> None:
    count = count_marks([marked(["boundary", "twin", "twin"])])
    assert tuple(count.counts) == FEATURES
    assert dict(count.counts) == {
        "boundary": 1,
        "twin": 2,
        "scratch": 0,
        "slip_trace": 0,
        "strand_edge": 0,
        "uncertain": 0,
    }


def test_without_a_scale_lengths_stay_in_pixels() -> None:
    count = count_marks([marked(["boundary"] * 12)])
    assert count.twins_excluded is not None
    assert count.length == Quantity(600.0, "px")
    assert count.twins_excluded.quantity.unit == "px"
    assert count.twins_excluded.quantity.value == 50.0


def test_interval_has_the_exact_limits_of_the_count() -> None:
    """Garwood for 10: 4.7954 and 18.3904 (computed, `facts`: check values 5.4)."""
    estimate = count_marks([marked(["boundary"] * 10)]).twins_excluded
    assert estimate is not None
    assert estimate.interval95 is not None
    assert estimate.interval95.lower == pytest.approx(600 / 18.3904, rel=1e-5)
    assert estimate.interval95.upper == pytest.approx(600 / 4.7954, rel=1e-4)
    assert "10 intercepts, within this reading" in estimate.interval95.method


def test_scale_brings_its_own_uncertainty() -> None:
    plain = count_marks([marked(["boundary"] * 10)], pixel_size=Quantity(1.0, "um"))
    loose = count_marks([marked(["boundary"] * 10)], pixel_size=Quantity(1, "um", 0.3))
    assert plain.twins_excluded is not None
    assert loose.twins_excluded is not None
    first, second = plain.twins_excluded.quantity, loose.twins_excluded.quantity
    assert second.standard_uncertainty > first.standard_uncertainty
    assert second.value == first.value == 60.0


def test_no_boundary_leaves_the_mean_open() -> None:
    count = count_marks([marked(["scratch", "uncertain", "slip_trace"])])
    assert count.twins_excluded is None
    assert count.twins_counted is None
    assert count.uncertain_counted is not None
    assert count.uncertain_counted.value == 600.0


def test_one_half_of_a_boundary_has_no_upper_limit() -> None:
    end = LineMark(along_px=600.0, feature="boundary", meets="line_end")
    estimate = count_marks([MarkedLine(line=LINE, marks=(end,))]).twins_excluded
    assert estimate is not None
    assert estimate.quantity.value == 1200.0
    assert estimate.interval95 is not None
    assert estimate.interval95.upper is None
    assert estimate.relative_accuracy_percent is None


def test_strand_edges_shorten_the_line_and_never_count() -> None:
    features: list[MarkFeature] = ["strand_edge", "boundary", "strand_edge"]
    count = count_marks([marked(features)])
    assert count.length.value == pytest.approx(300.0)
    assert count.twins_excluded is not None
    assert count.twins_excluded.quantity.value == pytest.approx(300.0)


@pytest.mark.parametrize(
    ("meets", "on_circle", "score"),
    [
        ("crossing", False, 1.0),
        ("crossing", True, 1.0),
        ("tangent", False, 0.5),
        ("tangent", True, 0.5),
        ("triple_point", False, 1.5),
        ("triple_point", True, 2.0),
        ("line_end", False, 0.5),
    ],
)
def test_scores(meets: MarkMeeting, *, on_circle: bool, score: float) -> None:
    """Status of each rule: see `MarkScores`."""
    mark = LineMark(along_px=5.0, feature="boundary", meets=meets)
    assert MarkScores().score(mark, on_circle=on_circle) == score


def test_rule_for_tangents_stands_with_what_the_other_gives() -> None:
    marks = (
        LineMark(along_px=100.0, feature="boundary"),
        LineMark(along_px=300.0, feature="boundary", meets="tangent"),
    )
    line = [MarkedLine(line=LINE, marks=marks)]
    half = count_marks(line)
    whole = count_marks(line, scores=MarkScores(tangent="whole"))
    assert half.twins_excluded is not None
    assert half.other_tangent_rule is not None
    assert half.twins_excluded.quantity.value == pytest.approx(400.0)
    assert half.other_tangent_rule.value == pytest.approx(300.0)
    assert whole.twins_excluded is not None
    assert whole.twins_excluded.quantity.value == half.other_tangent_rule.value


def test_without_tangents_their_rule_changes_nothing() -> None:
    assert count_marks([marked(["boundary"])]).other_tangent_rule is None


def test_lines_and_circles_are_pooled() -> None:
    circle = MarkedLine(line=CIRCLE, marks=tuple(spread(100.0, ["boundary"] * 3)))
    count = count_marks([marked(["boundary"]), circle])
    assert count.twins_excluded is not None
    assert count.length.value == pytest.approx(600.0 + CIRCLE.length_px)
    assert count.twins_excluded.quantity.value == pytest.approx(count.length.value / 4)


@given(features=st.lists(st.sampled_from([f for f in FEATURES if f != "strand_edge"])))
def test_counting_more_classes_never_lengthens_the_intercept(
    features: list[MarkFeature],
) -> None:
    count = count_marks([marked([*features, "boundary"])], pixel_size=PIXEL)
    assert count.twins_excluded is not None
    assert count.twins_counted is not None
    assert count.uncertain_counted is not None
    mean = count.twins_excluded.quantity.value
    assert count.twins_counted.quantity.value <= mean
    assert count.uncertain_counted.value <= mean


@given(order=st.permutations(range(5)))
def test_order_of_marks_does_not_matter(order: list[int]) -> None:
    marks = spread(600.0, ["boundary", "twin", "boundary", "scratch", "uncertain"])
    shuffled = MarkedLine(line=LINE, marks=tuple(marks[k] for k in order))
    assert count_marks([shuffled]) == count_marks(
        [MarkedLine(line=LINE, marks=tuple(marks))]
    )


def test_more_boundaries_make_a_narrower_interval() -> None:
    widths = []
    for boundaries in (5, 20, 80):
        estimate = count_marks([marked(["boundary"] * boundaries)]).twins_excluded
        assert estimate is not None
        assert estimate.relative_accuracy_percent is not None
        widths.append(estimate.relative_accuracy_percent)
    assert all(later < earlier for earlier, later in pairwise(widths))


@pytest.mark.parametrize(
    "lines",
    [
        pytest.param([], id="none"),
        pytest.param([marked(["twin"]), marked(["twin"])], id="one number twice"),
        pytest.param(
            [MarkedLine(line=LINE, marks=(), starts_in="resin")], id="no metal"
        ),
    ],
)
def test_lines_that_cannot_be_counted(lines: list[MarkedLine]) -> None:
    with pytest.raises(ParameterError, match="different numbers with some length"):
        count_marks(lines)


def test_scale_in_another_unit_is_refused() -> None:
    with pytest.raises(UnitError, match="um"):
        count_marks([marked(["boundary"])], pixel_size=Quantity(172.6, "nm"))
