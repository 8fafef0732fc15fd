"""Who held what at a moment."""

import pytest
from case_examples import moment
from custody_examples import TO_BENCH, case_of, lead, passed, strand
from hypothesis import given
from hypothesis import strategies as st

from strandproof.records.custody import (
    custody_records,
    custody_trail,
    holder_at,
)
from strandproof.records.entries import Disposal

CASE = case_of(lead(), strand(), TO_BENCH)


@pytest.mark.parametrize(
    ("when", "holder", "basis"),
    [
        (moment(4, 1), None, ""),
        (moment(4, 2), "R", "exhibit/E1"),
        (moment(4, 5), "R", "specimen/s1"),
        (moment(5, 6, 16, 39), "R", "specimen/s1"),
        (moment(5, 6, 16, 40), None, "hand_over/to-bench"),
        (moment(5, 8, 9, 14), None, "hand_over/to-bench"),
        (moment(5, 8, 9, 15), "A1", "hand_over/to-bench"),
        (moment(9, 1), "A1", "hand_over/to-bench"),
    ],
)
def test_holder_at_each_moment(when: object, holder: str | None, basis: str) -> None:
    found = holder_at(CASE, "specimen/s1", when)  # type: ignore[arg-type]
    assert (found.holder, found.basis) == (holder, basis)


def test_words_name_both_sides_of_a_gap() -> None:
    found = holder_at(CASE, "specimen/s1", moment(5, 7))
    assert found.words == (
        "specimen/s1 at 2031-05-07 12:00 UTC: no holder recorded; last with R, next "
        "with A1."
    )


def test_nobody_holds_what_is_gone() -> None:
    gone = Disposal(
        id="d1",
        items=("specimen/s1",),
        fate="consumed",
        reason="dissolved",
        at=moment(6, 1),
        by="A1",
    )
    state = case_of(lead(), strand(), TO_BENCH, gone)
    assert holder_at(state, "specimen/s1", moment(5, 31)).holder == "A1"
    assert "disposed of" in holder_at(state, "specimen/s1", moment(6, 1)).words


@given(st.integers(min_value=0, max_value=24 * 150))
def test_never_held_and_unheld_at_once(hours: int) -> None:
    """At every moment since the start: exactly one of a holder and a gap."""
    late = moment(6, 20)
    state = case_of(
        lead(), strand(), TO_BENCH, passed("on", "B", "R", given=late, received=None)
    )
    when = moment(4, 2) + (moment(4, 3) - moment(4, 2)) * hours / 24
    trail = custody_trail(custody_records(state), "specimen/s1")
    held = [
        h for h in trail.holdings if h.start <= when and (not h.end or when < h.end)
    ]
    gaps = [
        g
        for g in trail.gaps
        if g.start <= when and (g.bounded_at is None or when < g.bounded_at)
    ]
    assert len(held) + len(gaps) == 1
    assert (holder_at(state, "specimen/s1", when).holder is None) == bool(gaps)
