"""Gaps are named once and stay, whatever is entered after."""

from dataclasses import replace
from datetime import timedelta

import pytest
from case_examples import moment
from custody_examples import (
    MAY_1,
    TO_BENCH,
    case_of,
    cut,
    entries_of,
    lead,
    part,
    passed,
    strand,
)
from hypothesis import example, given
from hypothesis import strategies as st

from strandproof.errors import UnknownLabelError
from strandproof.records.case_state import StateBuilder, fold
from strandproof.records.custody import (
    CustodyGap,
    custody_gaps,
    gap_named,
    stray_explanations,
)
from strandproof.records.entries import CaseRecord, GapExplanation, HandOver


def explained(gap: CustodyGap, name: str = "x1") -> GapExplanation:
    return GapExplanation(
        id=name,
        gap=gap.name,
        items=gap.things,
        gap_from=gap.start,
        gap_to=gap.end,
        explanation="in the depot",
        explained_by="R",
        explained_at=moment(5, 20),
    )


def test_one_hand_over_of_many_things_is_one_gap() -> None:
    things = ("specimen/s1", "specimen/s2")
    both = TO_BENCH.model_copy(update={"items": things})
    (gap,) = custody_gaps(case_of(lead(), strand(), strand("s2"), both))
    assert (gap.name, gap.things, gap.cause) == ("G1", things, "hand_over/to-bench")
    assert gap.seen_at_entry == 5


def test_correction_fills_a_gap_but_does_not_remove_it() -> None:
    mended = TO_BENCH.model_copy(update={"received_at": TO_BENCH.given_at})
    (gap,) = custody_gaps(case_of(lead(), strand(), TO_BENCH, mended))
    assert gap.end == moment(5, 8, 9, 15)
    assert gap.filled_at_entry == 5


def test_late_entry_fills_a_gap_but_does_not_remove_it() -> None:
    late = moment(5, 20)
    onward = passed("h2", "B", "A2", given=late, received=late)
    between = passed("h1", "R", "B", given=moment(5, 7), received=moment(5, 7))
    (gap,) = custody_gaps(case_of(lead(), strand(), onward, between))
    assert gap.kind == "no_hand_over"
    assert gap.filled_at_entry == 5


def test_open_gap_learns_its_end_once() -> None:
    sent = TO_BENCH.model_copy(update={"received_at": None})
    later = TO_BENCH.model_copy(update={"received_at": moment(5, 9)})
    known = custody_gaps(case_of(lead(), strand(), sent, TO_BENCH))
    assert [each.end for each in known] == [moment(5, 8, 9, 15)]
    gaps = custody_gaps(case_of(lead(), strand(), sent, TO_BENCH, later))
    assert [each.end for each in gaps] == [moment(5, 8, 9, 15), moment(5, 9)]
    assert [each.filled_at_entry for each in gaps] == [6, None]


def test_gap_that_comes_back_keeps_its_name() -> None:
    mended = TO_BENCH.model_copy(update={"received_at": TO_BENCH.given_at})
    gaps = custody_gaps(case_of(lead(), strand(), TO_BENCH, mended, TO_BENCH))
    assert [(each.name, each.filled_at_entry) for each in gaps] == [("G1", None)]


def test_explanation_stands_beside_and_takes_nothing_away() -> None:
    bodies = (lead(), strand(), TO_BENCH)
    (gap,) = custody_gaps(case_of(*bodies))
    said = explained(gap)
    (after,) = custody_gaps(case_of(*bodies, said))
    assert after.explained
    assert replace(after, explanations=()) == gap


def test_explanation_that_names_another_time_explains_nothing() -> None:
    bodies = (lead(), strand(), TO_BENCH)
    (gap,) = custody_gaps(case_of(*bodies))
    wrong = explained(gap).model_copy(update={"gap_from": MAY_1})
    state = case_of(*bodies, wrong)
    assert not custody_gaps(state)[0].explained
    assert stray_explanations(state) == (wrong,)


def test_gap_by_name() -> None:
    state = case_of(lead(), strand(), TO_BENCH)
    assert gap_named(state, "G1").start == moment(5, 6, 16, 40)
    with pytest.raises(UnknownLabelError, match="no custody gap 'G9'; it has: G1"):
        gap_named(state, "G9")


PEOPLE = st.sampled_from(["R", "A1", "A2", "C"])
HOURS = st.integers(min_value=0, max_value=60).map(
    lambda hours: MAY_1 + timedelta(hours=6 * hours)
)
THINGS = st.sampled_from(
    ["exhibit/E1", "portion/E1-test", "specimen/s1", "specimen/s2"]
)

hand_overs = st.builds(
    lambda name, giver, receiver, given_at, received_at, items: HandOver(
        id=name,
        items=tuple(items),
        giver=giver,
        receiver=receiver,
        given_at=given_at,
        received_at=received_at,
        condition="closed",
    ),
    st.sampled_from(["h1", "h2", "h3"]),
    PEOPLE,
    PEOPLE,
    HOURS,
    st.none() | HOURS,
    st.lists(THINGS, min_size=1, max_size=3, unique=True),
)
explanations = st.builds(
    lambda number, thing, start: GapExplanation(
        id=f"x{number}",
        gap=f"G{number}",
        items=(thing,),
        gap_from=start,
        explanation="in the depot",
        explained_by="R",
        explained_at=MAY_1,
    ),
    st.integers(min_value=1, max_value=4),
    THINGS,
    HOURS,
)
pieces = st.one_of(
    st.builds(lead, st.just("E1"), PEOPLE),
    st.builds(lambda by, at: part(cut_by=by, cut_at=at), PEOPLE, HOURS),
    st.builds(
        lambda name, by, at: strand(name, taken_by=by, taken_at=at, portion="E1-test"),
        st.sampled_from(["s1", "s2"]),
        PEOPLE,
        HOURS,
    ),
    st.builds(lambda by: cut(made_by=by), PEOPLE),
)
histories = st.lists(st.one_of(hand_overs, pieces, explanations), max_size=12)


FILLED = TO_BENCH.model_copy(update={"received_at": TO_BENCH.given_at})


@given(histories, st.integers(min_value=0, max_value=12))
@example([lead(), strand(), TO_BENCH, FILLED], 3)
def test_no_entry_removes_or_alters_a_gap(
    history: list[CaseRecord], cut_at: int
) -> None:
    """Whatever follows, a gap keeps name, kind, things, times and persons."""
    before = custody_gaps(case_of(*history[:cut_at]))
    after = custody_gaps(case_of(*history))
    assert len(after) >= len(before)
    for old, new in zip(before, after, strict=False):
        end = new.end if old.end is None else old.end
        assert new.end == end
        assert replace(
            new, end=old.end, filled_at_entry=old.filled_at_entry, explanations=()
        ) == replace(old, explanations=())


@given(histories, st.integers(min_value=0, max_value=12))
def test_fold_is_the_same_whatever_the_groups(
    history: list[CaseRecord], cut_at: int
) -> None:
    """One reader folds all at once, another in two sittings."""
    entries = entries_of(history)
    builder = StateBuilder(entries[:cut_at])
    custody_gaps(builder.state())
    for entry in entries[cut_at:]:
        builder.add(entry)
    assert custody_gaps(builder.state()) == custody_gaps(fold(entries))
