"""Events along the axis, and their exact limits."""

from math import log

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from strandproof.errors import ParameterError
from strandproof.grainsize.by_level import (
    BoundaryCrossing,
    DetectionRates,
    KnownPiece,
    event_rate,
    events_along_axis,
)


def at(*places: float) -> list[BoundaryCrossing]:
    return [BoundaryCrossing(position_mm=place) for place in places]


def test_two_boundaries_of_a_stray_crystal_are_one_event() -> None:
    events = events_along_axis(at(12.3, 12.1, 30.0), stray_length_mm=0.5)
    assert [(each.start_mm, each.end_mm, each.boundaries) for each in events] == [
        (12.1, 12.3, 2),
        (30.0, 30.0, 1),
    ]


def test_three_close_boundaries_are_two_events() -> None:
    events = events_along_axis(at(1.0, 1.1, 1.2), stray_length_mm=0.5)
    assert [each.boundaries for each in events] == [2, 1]


def test_known_crystals_decide() -> None:
    into = BoundaryCrossing(position_mm=1.0, before="A", after="B")
    back = BoundaryCrossing(position_mm=1.1, before="B", after="A")
    on = BoundaryCrossing(position_mm=1.1, before="B", after="C")
    assert len(events_along_axis((into, back), stray_length_mm=0.5)) == 1
    assert len(events_along_axis((into, on), stray_length_mm=0.5)) == 2
    # A second crystal as long as the strand is no stray, though it ends in the first.
    assert len(events_along_axis((into, back), stray_length_mm=0.05)) == 2


@given(st.lists(st.floats(0, 100), max_size=12), st.floats(0, 10), st.floats(0, 10))
def test_every_boundary_is_in_one_event_and_merging_only_lessens(
    places: list[float], near: float, more: float
) -> None:
    events = events_along_axis(at(*places), stray_length_mm=near)
    assert sum(each.boundaries for each in events) == len(places)
    assert len(places) / 2 <= len(events) <= len(places)
    assert all(each.end_mm - each.start_mm <= near for each in events)
    none_merged = events_along_axis(at(*places), stray_length_mm=0.0)
    wider = events_along_axis(at(*places), stray_length_mm=near + more)
    assert len(wider) <= len(none_merged)


def test_none_resolved_gives_the_one_sided_bound() -> None:
    found = event_rate((), length_mm=36.0)
    assert found.limits.lower is None
    assert found.limits.upper == pytest.approx(-log(0.05) / 36, rel=1e-12, abs=0)
    assert found.sentence == (
        "None resolved over 36 mm, at most 0.083 per mm (95 %, one-sided)."
    )


def test_events_have_the_limits_of_their_number_not_of_their_boundaries() -> None:
    events = events_along_axis(at(5.0, 5.2), stray_length_mm=0.5)
    found = event_rate(events, length_mm=90.0)
    assert (found.events, found.boundaries) == (1, 2)
    assert found.limits.lower == pytest.approx(
        stats.chi2.ppf(0.025, 2) / 180, rel=1e-9, abs=0
    )
    assert found.limits.upper == pytest.approx(
        stats.chi2.ppf(0.975, 4) / 180, rel=1e-9, abs=0
    )
    assert found.sentence.startswith("1 event (2 boundaries) over 90 mm: ")


def known(found: int) -> DetectionRates:
    return DetectionRates(
        family="bamboo",
        pieces=tuple(
            KnownPiece(name=name, family="bamboo", shown=20, found=found, false=0)
            for name in "ab"
        ),
    )


def test_boundaries_that_may_be_missed_widen_the_upper_limit() -> None:
    found = event_rate((), length_mm=36.0, detection=known(20))
    share = 0.025 ** (1 / 40)
    assert found.limits.upper == pytest.approx(
        -log(0.025) / 36 / share, rel=1e-9, abs=0
    )
    one = events_along_axis(at(3.0), stray_length_mm=0.0)
    plain = event_rate(one, length_mm=36.0).limits
    wide = event_rate(one, length_mm=36.0, detection=known(18)).limits
    assert wide.lower == plain.lower
    assert plain.upper is not None
    assert wide.upper is not None
    assert wide.upper > plain.upper / 0.9


def test_a_method_that_found_nothing_bounds_nothing() -> None:
    blind = DetectionRates(
        family="bamboo",
        pieces=tuple(
            KnownPiece(name=name, family="bamboo", shown=5, found=0, false=1)
            for name in "ab"
        ),
    )
    with pytest.raises(ParameterError, match="bounds nothing"):
        event_rate((), length_mm=36.0, detection=blind)


def test_wrong_lengths_and_crossings_are_refused() -> None:
    with pytest.raises(ParameterError, match="stray_length_mm"):
        events_along_axis((), stray_length_mm=-1.0)
    with pytest.raises(ParameterError, match="exposure"):
        event_rate((), length_mm=0.0)
    with pytest.raises(ParameterError, match="position_mm"):
        BoundaryCrossing(position_mm=float("nan"))
    with pytest.raises(ParameterError, match="another crystal"):
        BoundaryCrossing(position_mm=1.0, before="A", after="A")
