"""No sequence of use cases removes or alters a lock, a deviation or a sealed list."""

from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st
from plan_examples import ADDITION, PLAN, planned
from workflow_examples import WHEN, add, exhibit

from strandproof.app.workflow import (
    Correction,
    Desk,
    enter,
    enter_reading,
    lock_reading,
    verify,
)
from strandproof.app.workflow.blinding import open_list, seal_list
from strandproof.app.workflow.entering import open_case
from strandproof.app.workflow.plan_locking import deviate, lock_plan
from strandproof.errors import StrandproofError
from strandproof.planning import later_changes
from strandproof.records.entries import (
    BlindListOpened,
    BlindListSealed,
    Deviation,
    Entry,
    PlanLock,
    ReadingLock,
)

STANDING = (PlanLock, Deviation, BlindListSealed, BlindListOpened, ReadingLock)
CODES = {"DQV-835": "section/E1-s1-L"}
READING = {
    "id": "r1",
    "reads": "section/E1-s1-L",
    "blind": True,
    "reader": "A1",
    "verdict": "boundaries",
}


def _change(kind: str) -> Callable[[Desk], object]:
    def step(desk: Desk) -> object:
        number = len(open_case(desk.folder).entries)
        fields = {**ADDITION, "id": f"c{number}", "kind": kind}
        return deviate(desk, {**fields, "concerns": ("E1-s1-L",)})

    return step


def _correct_standing(desk: Desk) -> None:
    """Try to correct everything that stands, each in turn, as anyone could type it."""
    for entry in standing(desk):
        fields: dict[str, Any] = entry.body.model_dump(mode="json")
        fields["note"] = "nicer"
        with suppress(StrandproofError):
            enter(desk, entry.kind, fields, corrects=Correction(entry.number, "nicer"))
        with suppress(StrandproofError):
            enter(desk, entry.kind, fields)


STEPS: dict[str, Callable[[Desk], object]] = {
    "lock the plan": lambda desk: lock_plan(desk, PLAN),
    "add": _change("addition"),
    "deviate": _change("deviation"),
    "seal": lambda desk: seal_list(desk, "list-1", CODES, readers=("A1",)),
    "read": lambda desk: enter_reading(desk, READING),
    "read again": lambda desk: enter_reading(
        desk,
        {**READING, "verdict": "none_resolved"},
        corrects=Correction(len(open_case(desk.folder).entries), "second look"),
    ),
    "lock the reading": lambda desk: lock_reading(desk, "r1"),
    "open": lambda desk: open_list(desk, "list-1"),
    "correct": _correct_standing,
}


def standing(desk: Desk) -> tuple[Entry, ...]:
    entries = open_case(desk.folder).entries
    return tuple(each for each in entries if isinstance(each.body, STANDING))


def headings(desk: Desk) -> list[str]:
    return [each.heading for each in later_changes(open_case(desk.folder))]


@given(steps=st.lists(st.sampled_from(sorted(STEPS)), min_size=2, max_size=9))
@settings(max_examples=25, deadline=None)
def test_what_stands_stays(steps: list[str]) -> None:
    with TemporaryDirectory() as folder:
        desk = planned(Path(folder))
        piece = {"id": "E1-s1", "exhibit": "E1", "taken_from": "x", **WHEN}
        cut = {"id": "E1-s1-L", "specimen": "E1-s1", "direction": "longitudinal"}
        add(desk, [exhibit("E1"), ("specimen", piece), ("section", cut)])
        before: tuple[Entry, ...] = ()
        said: list[str] = []
        for name in steps:
            with suppress(StrandproofError):
                STEPS[name](desk)
            now = standing(desk)
            assert now[: len(before)] == before
            state = open_case(desk.folder)
            for entry in now:
                assert state.current[entry.kind][entry.body.id] == entry
            assert headings(desk)[: len(said)] == said
            before, said = now, headings(desk)
        assert verify(desk.folder).sound


def test_the_steps_do_something() -> None:
    """The property is not empty: in the right order all of them are entered."""
    with TemporaryDirectory() as folder:
        desk = planned(Path(folder))
        piece = {"id": "E1-s1", "exhibit": "E1", "taken_from": "x", **WHEN}
        cut = {"id": "E1-s1-L", "specimen": "E1-s1", "direction": "longitudinal"}
        add(desk, [exhibit("E1"), ("specimen", piece), ("section", cut)])
        order = ["lock the plan", "add", "seal", "read", "read again"]
        for name in (*order, "lock the reading", "deviate", "open"):
            STEPS[name](desk)
        kinds = [entry.kind for entry in standing(desk)]
        assert kinds == [
            *("plan_lock", "deviation", "blind_list_sealed", "reading_lock"),
            *("deviation", "blind_list_opened"),
        ]
        assert headings(desk) == [
            "Addition 1, before any result",
            "Deviation 1, after results were seen",
        ]
