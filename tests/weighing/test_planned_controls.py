"""What controls can support, before any is read."""

import pytest
from custody_examples import case_of, cut, lead, strand

from strandproof.errors import ParameterError
from strandproof.records.entries import Control
from strandproof.weighing import (
    ControlReading,
    ceiling_of_controls,
    control_line,
    controls_support,
    mounts_in_question,
    planned_controls,
    planned_controls_ceiling,
    what_control_informs,
)

M10 = (
    "Without a known single crystal through the same steps you cannot show that "
    "preparation makes no false boundaries."
)


def test_plan_without_controls_prints_the_sentence_of_the_brief() -> None:
    found = planned_controls_ceiling((), specimen_mounts=["m1"] * 18)
    assert found.words[0] == M10
    assert found.ratio is None
    assert found.without_process == ("m1",)


def test_soft_copper_alone_is_no_process_control() -> None:
    soft = planned_controls("polycrystal", 24, mounts=["m1"])
    found = planned_controls_ceiling(soft, specimen_mounts=["m1"])
    assert found.words[0] == M10
    assert found.support is None


def test_single_crystal_in_another_mount_does_not_answer_for_this_one() -> None:
    found = planned_controls_ceiling(
        planned_controls("single_crystal", 4, mounts=["m2"]),
        specimen_mounts=["m1", "m2", ""],
    )
    assert found.without_process == ("m1", "")
    assert found.words[0] == f"No process control in mount m1. {M10}"
    assert "name no mount" in found.words[1]


def test_with_a_single_crystal_in_each_mount_nothing_is_lacking() -> None:
    mounts = ["m1", "m2"]
    found = planned_controls_ceiling(
        planned_controls("single_crystal", 4, mounts=mounts), specimen_mounts=mounts
    )
    assert found.without_process == ()
    assert not any(M10 in line for line in found.words)


def test_ceiling_is_what_reading_all_right_would_give() -> None:
    controls = (
        *planned_controls("single_crystal", 6, mounts=["m1", "m2"]),
        *planned_controls("polycrystal", 3, mounts=["m1"]),
        *planned_controls("blank_mount", 5),
    )
    verdicts = {"single_crystal": "none_resolved", "polycrystal": "boundaries"}
    readings = [
        ControlReading(
            control=each,
            verdict=verdicts[each.kind],  # type: ignore[arg-type]
            blind=True,
        )
        for each in controls
        if each.kind in verdicts
    ]
    read = controls_support(
        readings,
        first="polycrystal",
        second="single_crystal",
        outcome="boundaries",
        numerator=0.95,
    )
    assert planned_controls_ceiling(controls).support == read


def test_silent_controls_lift_nothing_and_are_named() -> None:
    crystals = planned_controls("single_crystal", 4, mounts=["m1"])
    more = (*crystals, *planned_controls("blank_mount", 20))
    assert (
        planned_controls_ceiling(more).ratio == planned_controls_ceiling(crystals).ratio
    )
    assert planned_controls_ceiling(more).words[-1] == (
        "20 of the controls inform no reading error and lift no ceiling."
    )
    one = (*crystals, *planned_controls("handling", 1))
    assert planned_controls_ceiling(one).words[-1].startswith("One of the controls")


def test_each_control_says_what_it_informs() -> None:
    crystal = Control(
        id="C1",
        specimen="C1",
        kind="single_crystal",
        known_by="diffraction",
        mount="m1",
        informs=("false_boundary", "mix_up"),
    )
    assert control_line(crystal) == (
        "C1: single crystal, known by diffraction; informs reading error: boundaries "
        "seen where there are none; mix-up; for faults of a batch it counts with mount "
        "m1."
    )
    kinds = ("polycrystal", "handling", "blank_mount", "other")
    told = [what_control_informs(planned_controls(kind, 1)[0]) for kind in kinds]
    assert "boundaries missed" in told[0]
    assert "before and after" in told[1]
    assert "resin and etch" in told[2]
    assert "does not say which" in told[3]
    mixed = crystal.model_copy(update={"kind": "other", "informs": ("batch_fault",)})
    assert what_control_informs(mixed) == "fault of a whole batch"


def test_controls_of_a_case_are_held_against_the_mounts_of_its_sections() -> None:
    known = Control(
        id="C1",
        specimen="C1",
        kind="single_crystal",
        known_by="diffraction",
        mount="m1",
    )
    state = case_of(
        lead(), strand(), strand("C1"), cut(mount="m1"),
        cut("s1-T", mount="m2"), cut("C1-L", "C1", mount="m9"), known,
    )  # fmt: skip
    assert mounts_in_question(state) == ("m1", "m2")
    assert ceiling_of_controls(state).without_process == ("m2",)
    more = planned_controls("single_crystal", 1, mounts=["m2"])
    assert ceiling_of_controls(state, more).without_process == ()


def test_bad_plans_are_refused() -> None:
    with pytest.raises(ParameterError, match="count was given as -1"):
        planned_controls("single_crystal", -1)
    with pytest.raises(ParameterError, match="one mount or more"):
        planned_controls("single_crystal", 1, mounts=[])
    twice = planned_controls("single_crystal", 1) * 2
    with pytest.raises(ParameterError, match="each name once"):
        planned_controls_ceiling(twice)
    with pytest.raises(ParameterError, match="numerator was given as 2"):
        planned_controls_ceiling((), numerator=2)
