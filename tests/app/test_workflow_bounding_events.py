"""Boundaries along a length merged to events, and the exact limits of their rate."""

from math import exp, nan
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq
from workflow_examples import contents, started

from strandproof.app.workflow import enter_no_boundary
from strandproof.app.workflow.bounding import bound_in_words
from strandproof.app.workflow.bounding_events import (
    event_results,
    events_at,
    require_within,
    stray_crystals_of,
)
from strandproof.errors import ParameterError
from strandproof.grainsize.by_level import BoundaryEvent
from strandproof.records.entries import Measurement

TABLE = b"start_mm,end_mm\n20,\n3.1,3.25\n"


def test_two_near_boundaries_are_one_event() -> None:
    (event,) = events_at([3.25, 3.1], stray_length_mm=0.3)
    assert (event.start_mm, event.end_mm, event.boundaries) == (3.1, 3.25, 2)
    assert len(events_at([3.1, 3.25], stray_length_mm=0.1)) == 2


def test_two_boundaries_need_the_length_of_a_stray_crystal() -> None:
    assert len(events_at([3.1], stray_length_mm=None)) == 1
    assert events_at([], stray_length_mm=None) == ()
    with pytest.raises(ParameterError, match="--stray-length"):
        events_at([3.1, 30.0], stray_length_mm=None)


def test_a_table_of_stray_crystals_is_read_in_order() -> None:
    first, second = stray_crystals_of(TABLE)
    assert (first.start_mm, first.end_mm, first.boundaries) == (3.1, 3.25, 2)
    assert (second.start_mm, second.end_mm, second.boundaries) == (20, 20, 1)


@pytest.mark.parametrize(
    "content",
    [
        pytest.param(b"", id="nothing"),
        pytest.param(b"start_mm,end_mm\n", id="no row"),
        pytest.param(b"from,to\n1,2\n", id="other columns"),
        pytest.param(b"start_mm,end_mm\n2,1\n", id="ends first"),
        pytest.param(b"start_mm,end_mm\nabc,1\n", id="no number"),
        pytest.param(b"start_mm,end_mm\nnan,\n", id="not a number"),
        pytest.param(b"start_mm,end_mm\n1,inf\n", id="without an end"),
        pytest.param(b"start_mm,end_mm\n1,2,3\n", id="three columns"),
        pytest.param(b"\xff\xfe\x00", id="no text"),
    ],
)
def test_other_tables_are_refused(content: bytes) -> None:
    with pytest.raises(ParameterError, match="columns start_mm,end_mm"):
        stray_crystals_of(content)


@given(st.binary(max_size=60))
def test_any_bytes_are_read_or_refused(content: bytes) -> None:
    try:
        events = stray_crystals_of(b"start_mm,end_mm\n" + content)
    except ParameterError:
        return
    assert all(event.start_mm <= event.end_mm for event in events)


@pytest.mark.parametrize(
    "events",
    [
        pytest.param(events_at([40.0], stray_length_mm=0), id="past the end"),
        pytest.param(events_at([-1.0], stray_length_mm=0), id="before the start"),
        pytest.param(
            stray_crystals_of(b"start_mm,end_mm\n1,3\n2,4\n"), id="overlapping"
        ),
    ],
)
def test_events_lie_on_the_length_one_after_another(
    events: tuple[BoundaryEvent, ...],
) -> None:
    with pytest.raises(ParameterError, match="places from 0 to 36 mm"):
        require_within(events, 36)


@given(st.integers(1, 6), st.floats(1.0, 1e4))
def test_limits_are_exact(number: int, length_mm: float) -> None:
    """The mean at which so few events, or fewer, come once in twenty times."""
    places = [length_mm * (k + 0.5) / number for k in range(number)]
    rate, distance, _ = event_results(events_at(places, stray_length_mm=0), length_mm)

    def excess(mean: float) -> float:
        term, total = exp(-mean), 0.0
        for k in range(number + 1):
            total += term
            term *= mean / (k + 1)
        return total - 0.05

    expected = brentq(excess, 0.1, 60.0, xtol=1e-12)
    assert rate.value is not None
    assert rate.value.lower is None
    assert rate.value.value == number / length_mm
    assert rate.value.upper == pytest.approx(expected / length_mm, rel=1e-8, abs=0)
    assert distance.value is not None
    assert distance.value.lower == pytest.approx(length_mm / expected, rel=1e-8, abs=0)


def test_one_event_in_36_mm_is_said_with_both_limits() -> None:
    # 4.744, 0.0253 and 5.572 over 36 mm: chi-square tables, from memory.
    rate, _, places = event_results(events_at([3.1, 3.25], stray_length_mm=0.3), 36)
    assert rate.words == (
        "One event (2 boundaries) in 36 mm: at most 0.132 per mm (95 %, one-sided); "
        "two-sided 0.000703 to 0.155 per mm (95 %)."
    )
    assert places.words.startswith("a stray crystal from 3.1 to 3.25 mm.")


def test_events_make_a_piece_more_than_one_crystal(tmp_path: Path) -> None:
    desk = started(tmp_path / "H7")
    events = stray_crystals_of(TABLE)
    entry = enter_no_boundary(desk, "bound", "E1-s1", length_mm=36, events=events)
    assert isinstance(entry.body, Measurement)
    assert (entry.body.verdict, entry.body.flags) == ("poly", ())
    assert bound_in_words(entry).startswith("2 events (3 boundaries) in 36 mm: at most")


@pytest.mark.parametrize("length_mm", [nan, -1.0, 0.0])
def test_wrong_length_with_events_changes_nothing(
    tmp_path: Path, length_mm: float
) -> None:
    desk = started(tmp_path / "H7")
    before = contents(desk.folder)
    with pytest.raises(ParameterError):
        enter_no_boundary(
            desk,
            "bound",
            "E1-s1",
            length_mm=length_mm,
            events=events_at([0.0], stray_length_mm=0),
        )
    assert contents(desk.folder) == before
