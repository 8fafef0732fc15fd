"""Flags of the ledger are named once and stay, whatever is entered after."""

from dataclasses import replace

import pytest
from case_examples import moment
from custody_examples import case_of, cut, entries_of, heated, lead, strand
from hypothesis import example, given
from hypothesis import strategies as st

from strandproof.errors import UnknownLabelError
from strandproof.physical.handling import (
    flag_lines,
    flag_named,
    handling_flags,
    open_flags,
    stray_answers,
)
from strandproof.records.case_state import StateBuilder, fold
from strandproof.records.entries import (
    CaseRecord,
    ConductorType,
    FlagAnswer,
    MeasuredValue,
    PreparationStep,
)
from strandproof.records.flags import FLAGS


def answer(name: str = "F1", event: str = "handling_event/hot") -> FlagAnswer:
    return FlagAnswer(
        id=f"{name}-1",
        flag=name,
        event=event,
        answer="the bent single crystal treated alike showed no grains",
        answered_by="A1",
        answered_at=moment(5, 20),
        evidence=("control/C5",),
    )


def core(diameter_mm: float) -> ConductorType:
    return ConductorType(
        id="core",
        exhibit="E1",
        description="core",
        conductors=4,
        strands=19,
        strand_diameter=MeasuredValue(value=diameter_mm, unit="mm"),
    )


def mounted(celsius: float | None, name: str = "mount") -> PreparationStep:
    return PreparationStep(
        id=name,
        sections=("s1-L",),
        step="mount",
        order=1,
        description="own procedure",
        temperature_c=celsius,
        at=moment(5, 9),
        by="A1",
    )


def test_hot_mount_of_the_brief_stands_until_answered() -> None:
    (flag,) = handling_flags(case_of(lead(), strand(), heated("hot", 180)))
    assert flag.open
    assert flag.sentence == (
        "hot mount 180 °C, 8 min: can recrystallise cold-drawn pure copper; treat the "
        "bent single-crystal control alike, or mount cold."
    )
    assert flag.flag in FLAGS
    assert flag_lines(flag)[-1] == "Open."


def test_answer_closes_it_visibly() -> None:
    bodies = (lead(), strand(), heated("hot", 180))
    (before,) = handling_flags(case_of(*bodies))
    (flag,) = handling_flags(case_of(*bodies, answer()))
    assert not flag.open
    assert replace(flag, answers=()) == before
    told = " ".join(flag_lines(flag))
    assert before.sentence in told
    assert "Answered by A1: the bent single crystal treated alike" in told
    assert "Rests on control/C5." in told


def test_control_named_by_the_event_itself_answers_too() -> None:
    event = heated("hot", 180, answered_by=("control/C5",))
    (flag,) = handling_flags(case_of(lead(), strand(), event))
    assert not flag.open
    assert "Answered by control/C5." in flag_lines(flag)


def test_correction_to_cold_is_no_answer() -> None:
    state = case_of(lead(), strand(), heated("hot", 180), heated("hot", 42))
    (flag,) = handling_flags(state)
    assert flag.open
    assert flag.corrected_at_entry == 5
    assert "180 °C" in flag.sentence
    assert "Entry 5 says otherwise" in " ".join(flag_lines(flag))


def test_correction_to_another_heat_raises_another_flag() -> None:
    state = case_of(lead(), strand(), heated("hot", 180), heated("hot", 160))
    assert [(f.name, f.corrected_at_entry) for f in handling_flags(state)] == [
        ("F1", 5),
        ("F2", None),
    ]


def test_answer_to_another_event_answers_nothing() -> None:
    wrong = answer(event="handling_event/other")
    state = case_of(lead(), strand(), heated("hot", 180), wrong)
    assert handling_flags(state)[0].open
    assert stray_answers(state) == (wrong,)


def test_flag_by_name() -> None:
    state = case_of(lead(), strand(), heated("hot", 180))
    assert flag_named(state, "F1").event == "handling_event/hot"
    with pytest.raises(UnknownLabelError, match="no handling flag 'F7'; it has: F1"):
        flag_named(state, "F7")


def test_mounting_step_counts_and_asks_for_its_temperature() -> None:
    (flag,) = handling_flags(case_of(lead(), strand(), cut(), mounted(170)))
    assert flag.things == ("section/s1-L",)
    assert "mount (own procedure) 170 °C" in flag.sentence
    (unknown,) = handling_flags(case_of(lead(), strand(), cut(), mounted(None)))
    assert unknown.flag == "heat_not_recorded"
    cold = mounted(None).model_copy(update={"step": "look"})
    assert handling_flags(case_of(lead(), strand(), cut(), cold)) == ()


def test_diameter_entered_later_raises_the_flag_of_the_bend() -> None:
    bent = heated(
        "bend", None, event="bent by hand", bend_radius_mm=2.0, duration_s=None
    )
    typed = strand(conductor_type="core")
    state = case_of(lead(), typed, bent, core(0.08))
    unjudged, strained = handling_flags(state)
    assert unjudged.flag == "strain_not_judged"
    assert unjudged.corrected_at_entry == 5
    assert strained.flag == "strained_in_our_hands"
    assert strained.sentence.startswith("bent by hand, bent to a radius of 2 mm: ")


def test_bending_in_words_asks_for_figures_not_for_heat() -> None:
    bent = heated("bend", None, event="bent", strain="ten times by hand", duration_s=30)
    (flag,) = handling_flags(case_of(lead(), strand(), bent))
    assert flag.flag == "strain_not_judged"
    assert "bent, 30 s, ten times by hand" in flag.sentence


def test_open_flags_on_some_things() -> None:
    flags = handling_flags(case_of(lead(), strand(), heated("hot", 180)))
    assert open_flags(flags, ["specimen/s1"]) == flags
    assert open_flags(flags, ["specimen/s2"]) == ()


HEAT = st.none() | st.sampled_from([20.0, 42.0, 90.0, 160.0, 180.0])
events = st.builds(
    lambda name, celsius, radius, items, words: heated(
        name, celsius, bend_radius_mm=radius, items=tuple(items), strain=words
    ),
    st.sampled_from(["hot", "other"]),
    HEAT,
    st.none() | st.sampled_from([0.5, 5.0]),
    st.lists(
        st.sampled_from(["specimen/s1", "specimen/s2", "exhibit/E1"]),
        min_size=1,
        max_size=2,
        unique=True,
    ),
    st.sampled_from(["", "by hand"]),
)
answers = st.builds(
    answer,
    st.sampled_from(["F1", "F2", "F3"]),
    st.sampled_from(["handling_event/hot", "preparation_step/mount"]),
)
pieces = st.sampled_from(
    [lead(), strand(conductor_type="core"), strand("s2"), cut(), core(0.08), core(0.2)]
)
histories = st.lists(
    st.one_of(events, answers, pieces, st.builds(mounted, HEAT)), max_size=12
)


@given(histories, st.integers(min_value=0, max_value=12))
@example([lead(), strand(), heated("hot", 180), heated("hot", 42)], 3)
def test_no_entry_removes_or_alters_a_flag(
    history: list[CaseRecord], cut_at: int
) -> None:
    """Whatever follows, a flag keeps its name, words and things."""
    before = handling_flags(case_of(*history[:cut_at]))
    after = handling_flags(case_of(*history))
    assert len(after) >= len(before)
    for old, new in zip(before, after, strict=False):
        assert replace(
            new, corrected_at_entry=None, answers=(), controls_named=()
        ) == replace(old, corrected_at_entry=None, answers=(), controls_named=())


@given(histories, st.integers(min_value=0, max_value=12))
def test_fold_is_the_same_whatever_the_groups(
    history: list[CaseRecord], cut_at: int
) -> None:
    entries = entries_of(history)
    builder = StateBuilder(entries[:cut_at])
    handling_flags(builder.state())
    for entry in entries[cut_at:]:
        builder.add(entry)
    assert handling_flags(builder.state()) == handling_flags(fold(entries))
