"""What is locked stays, by whichever way something is entered."""

from pathlib import Path
from typing import Any

import pytest
from reading_examples import (
    case_with_micrographs,
    lines_file,
    marks_file,
)

from strandproof.app.workflow import Correction, Desk, enter, open_case
from strandproof.app.workflow.reading_by_people import (
    enter_reading,
    lock_reading,
    locked_version,
    reading_versions,
)
from strandproof.app.workflow.reading_locks import refuse_locked_change
from strandproof.errors import (
    ReadingLockedError,
)
from strandproof.records.entries import Micrograph, Reading
from strandproof.records.entries.building import build_body


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    return case_with_micrographs(tmp_path, "f1", "f2")


def fields(**changes: object) -> dict[str, Any]:
    return {"id": "f1-A2", "reads": "micrograph/f1", "blind": True, **changes}


def read(desk: Desk, features: list[str] | None = None, **changes: object) -> Reading:
    marks = None if features is None else marks_file(desk, features)
    entry = enter_reading(desk, fields(**changes), lines=lines_file(desk), marks=marks)
    body = entry.body
    assert isinstance(body, Reading)
    return body


def test_general_ways_in_can_ask_whether_a_record_touches_a_locked_reading(
    desk: Desk,
) -> None:
    read(desk, ["boundary"])
    reading = open_case(desk.folder).record(Reading, "f1-A2")
    again = build_body(
        "reading_lock",
        {
            "id": "other",
            "reading": "f1-A2",
            "locked_at": desk.clock(),
            "locked_by": "A1",
        },
    )
    refuse_locked_change(open_case(desk.folder), reading)
    refuse_locked_change(open_case(desk.folder), again)
    lock_reading(desk, "f1-A2")
    state = open_case(desk.folder)
    for body in (reading, again):
        with pytest.raises(ReadingLockedError):
            refuse_locked_change(state, body)
    refuse_locked_change(state, state.record(Micrograph, "f1"))


def test_change_that_came_in_another_way_is_told(desk: Desk) -> None:
    """The record never loses the locked version, whatever else is entered."""
    read(desk, ["boundary"])
    lock_reading(desk, "f1-A2")
    locked = locked_version(open_case(desk.folder), "f1-A2")
    assert locked is not None
    entry = reading_versions(open_case(desk.folder), "f1-A2")[0].entry
    other = {**locked.model_dump(mode="json"), "marks": [], "verdict": "none_resolved"}
    try:
        enter(desk, "reading", other, corrects=Correction(entry.number, "quietly"))
    except ReadingLockedError:
        return
    state = open_case(desk.folder)
    assert locked_version(state, "f1-A2") == locked
    assert reading_versions(state, "f1-A2")[1].standing == "changed after locking"
