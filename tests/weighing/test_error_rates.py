from collections.abc import Callable
from typing import Literal

import pytest

from strandproof.records.entries import Control
from strandproof.weighing import (
    ControlReading,
    group_error_rate,
    informed_error,
    item_error_rate,
)

MakeControls = Callable[..., tuple[ControlReading, ...]]
Kind = Literal[
    "single_crystal", "polycrystal", "handling", "process", "blank_mount", "other"
]
Informs = Literal["false_boundary", "missed_boundary", "mix_up", "batch_fault"]


def control(
    kind: Kind = "single_crystal", informs: tuple[Informs, ...] = (), name: str = "c"
) -> Control:
    return Control(id=name, specimen="S", kind=kind, known_by="papers", informs=informs)


@pytest.mark.parametrize(
    ("kind", "informs", "error"),
    [
        ("single_crystal", (), "false_boundary"),
        ("single_crystal", ("false_boundary", "mix_up"), "false_boundary"),
        ("polycrystal", (), "missed_boundary"),
        ("handling", ("false_boundary",), "false_boundary"),
        ("process", ("missed_boundary", "batch_fault"), "missed_boundary"),
        # What it is is not said, or the record contradicts itself.
        ("handling", (), None),
        ("handling", ("false_boundary", "missed_boundary"), None),
        ("polycrystal", ("false_boundary",), None),
        ("single_crystal", ("missed_boundary",), None),
        ("single_crystal", ("mix_up",), None),
        # Unrelated.
        ("blank_mount", (), None),
        ("other", ("false_boundary",), None),
    ],
)
def test_which_control_informs_which_error(
    kind: Kind, informs: tuple[Informs, ...], error: str | None
) -> None:
    assert informed_error(control(kind, informs)) == error


def test_single_crystals_inform_false_boundaries_only(
    single_crystals: MakeControls, oxygen_free: MakeControls
) -> None:
    readings = single_crystals(4) + oxygen_free(2)
    false = item_error_rate(readings, error="false_boundary")
    missed = item_error_rate(readings, error="missed_boundary")
    assert (false.trials, false.wrong, false.described_as) == (4, 0, "single-crystal")
    assert (missed.trials, missed.wrong, missed.described_as) == (2, 0, "oxygen-free")


def test_wrong_readings_are_counted_by_their_own_rule(
    single_crystals: MakeControls, oxygen_free: MakeControls
) -> None:
    readings = single_crystals(5, wrong=2) + oxygen_free(3, wrong=1)
    assert item_error_rate(readings, error="false_boundary").wrong == 2
    assert item_error_rate(readings, error="missed_boundary").wrong == 1


def test_an_unrelated_control_changes_nothing(single_crystals: MakeControls) -> None:
    readings = single_crystals(4)
    unrelated = tuple(
        ControlReading(control=control(kind, name=kind), verdict=verdict, blind=True)
        for kind in ("other", "blank_mount", "handling")
        for verdict in ("boundaries", "none_resolved")
    )
    before = item_error_rate(readings, error="false_boundary")
    assert item_error_rate(readings + unrelated, error="false_boundary") == before


def test_a_reading_that_was_not_blind_counts_nothing() -> None:
    seen = ControlReading(control=control(), verdict="none_resolved", blind=False)
    assert item_error_rate([seen], error="false_boundary").trials == 0


def test_two_readers_of_one_control_are_one_trial_and_one_error_spoils_it() -> None:
    piece = control()
    readings = [
        ControlReading(control=piece, verdict="none_resolved", blind=True, reader="A1"),
        ControlReading(control=piece, verdict="boundaries", blind=True, reader="A2"),
    ]
    rate = item_error_rate(readings, error="false_boundary")
    assert (rate.trials, rate.wrong) == (1, 1)


def test_an_unreadable_control_is_no_trial_but_is_not_dropped() -> None:
    readings = [
        ControlReading(control=control(name="a"), verdict="not_readable", blind=True),
        ControlReading(control=control(name="b"), verdict="not_readable", blind=True),
        ControlReading(control=control(name="b"), verdict="none_resolved", blind=True),
    ]
    rate = item_error_rate(readings, error="false_boundary")
    assert (rate.trials, rate.wrong, rate.not_readable) == (1, 0, 1)


def test_controls_in_one_mount_count_once(single_crystals: MakeControls) -> None:
    # S8: 24 in five mounts.
    readings = single_crystals(24, mounts=("m1", "m2", "m3", "m4", "m5"))
    rate = group_error_rate(readings, error="false_boundary", level="mount")
    assert (rate.trials, rate.wrong, rate.controls) == (5, 0, 24)
    assert not rate.unrecorded


@pytest.mark.parametrize("count", [1, 4, 24, 300])
def test_more_controls_in_one_mount_do_not_lift_its_ceiling(
    single_crystals: MakeControls, count: int
) -> None:
    one = group_error_rate(
        single_crystals(1, mounts=("m1",)), error="false_boundary", level="mount"
    )
    many = group_error_rate(
        single_crystals(count, mounts=("m1",)), error="false_boundary", level="mount"
    )
    assert (many.trials, many.upper, many.expected) == (1, one.upper, one.expected)


def test_controls_without_a_mount_count_as_one(single_crystals: MakeControls) -> None:
    readings = single_crystals(6, mounts=("", "m1"))
    rate = group_error_rate(readings, error="false_boundary", level="mount")
    assert (rate.trials, rate.unrecorded) == (2, True)


def test_a_mount_is_spoilt_when_every_control_in_it_was_wrong(
    single_crystals: MakeControls,
) -> None:
    mixed = single_crystals(4, wrong=1, mounts=("m1", "m2"))
    spoilt = single_crystals(1, wrong=1, mounts=("m1",))
    rates = [
        group_error_rate(readings, error="false_boundary", level="mount")
        for readings in (mixed, spoilt)
    ]
    assert [(rate.trials, rate.wrong) for rate in rates] == [(2, 0), (1, 1)]


def test_batch_and_custody_trail_are_levels_of_their_own() -> None:
    pieces = [
        control(name=f"c{number}").model_copy(
            update={"batch": f"b{number % 2}", "custody_trail": "t"}
        )
        for number in range(6)
    ]
    readings = [
        ControlReading(control=each, verdict="none_resolved", blind=True)
        for each in pieces
    ]
    trials = [
        group_error_rate(readings, error="false_boundary", level=level).trials
        for level in ("mount", "batch", "custody_trail")
    ]
    assert trials == [1, 2, 1]


def test_a_polycrystal_of_unknown_sort_is_called_that() -> None:
    seen = ControlReading(
        control=control("polycrystal"), verdict="boundaries", blind=True
    )
    rate = item_error_rate([seen], error="missed_boundary")
    assert rate.described_as == "polycrystal"
